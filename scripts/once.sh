#!/usr/bin/env bash
# Runs a command unless it passed already with every file of the tree as it is now.
#   scripts/once.sh NAME COMMAND...
set -euo pipefail
cd "$(dirname "$0")/.."

name=$1
shift
# Every file but those that git ignores, by path and content.
digest=$(git ls-files -z --cached --others --exclude-standard | sort -z |
  xargs -0 sha256sum 2>/dev/null | sha256sum | cut -d' ' -f1)
passed=build/passed/$name
if [[ -f $passed && $(<"$passed") == "$digest" ]]; then
  echo "Nothing has changed since this passed."
  exit 0
fi
"$@"
mkdir -p build/passed
echo "$digest" >"$passed"
