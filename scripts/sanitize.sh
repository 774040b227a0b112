#!/usr/bin/env bash
# Builds with the address and undefined-behaviour sanitizers and runs the tests so.
set -euo pipefail
cd "$(dirname "$0")/.."

cmake --preset asan >/dev/null
cmake --build build/asan
ctest --test-dir build/asan --output-on-failure -j2 -LE "browser|peer"
