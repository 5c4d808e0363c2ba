#!/usr/bin/env bash
# Slow checks beside those of every change: clang-tidy, and all tests under the address and undefined-behaviour sanitizers.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."
scripts/install.sh run test check
cmake --preset clang
cmake --build --preset clang
scripts/tidy.sh build/clang
cmake --preset debug
cmake --build --preset debug
ctest --preset debug
