#!/usr/bin/env bash
# Builds with the address and undefined-behaviour sanitizers and runs the tests so.
set -euo pipefail
cd "$(dirname "$0")/.."

# The stack of every allocation is kept this deep only: whole ones take most of the time. To look into a fault, run the
# test alone.
export ASAN_OPTIONS=malloc_context_size=3:quarantine_size_mb=64

cmake --preset asan >/dev/null
cmake --build build/asan --parallel 2
ctest --test-dir build/asan --output-on-failure -j2 -LE browser
