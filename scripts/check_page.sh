#!/usr/bin/env bash
# Installs the page's packages when its lock file changed, then checks types, lint, units and build.
set -euo pipefail
cd "$(dirname "$0")/../web"

node_path=$(../scripts/node_path.sh)
export PATH="$node_path:$PATH"

stamp=node_modules/.installed-lock
if ! cmp -s package-lock.json "$stamp"; then
  npm ci --no-audit --no-fund --silent
  cp package-lock.json "$stamp"
fi
npm run --silent check
