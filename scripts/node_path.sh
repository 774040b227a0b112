#!/usr/bin/env bash
# Prints the folder of a Node.js 20 or newer: the machine's own, or one that npm puts into build/node.
set -euo pipefail
cd "$(dirname "$0")/.."

new_enough() { [[ "$("$1" -p 'process.versions.node.split(".")[0] >= 20' 2>/dev/null)" == true ]]; }

own=$(command -v node || true)
if [[ -n $own ]] && new_enough "$own"; then
  dirname "$own"
  exit 0
fi
brought=$PWD/build/node/node_modules/node/bin
if ! new_enough "$brought/node"; then
  npm install --silent --no-audit --no-fund --no-package-lock --prefix build/node node@20 >&2
fi
echo "$brought"
