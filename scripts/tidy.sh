#!/usr/bin/env bash
# clang-tidy over src/, with the compile commands of a build folder made with clang.
set -euo pipefail
build=${1:?usage: scripts/tidy.sh BUILD_FOLDER}
git ls-files 'src/*.cpp' | xargs -P "$(nproc)" -n 4 clang-tidy-14 -p "$build" --quiet 2> >(grep -vE 'warnings? generated|^Suppressed|^Use -' >&2)
