#!/usr/bin/env bash
# Slow checks beside those of every change: each file compiled by itself, clang-tidy, all tests under the address and
# undefined-behaviour sanitizers, 100,000 random collections and plans of which every change tries a hundred, ten minutes of
# mutated requests, and 1,000 outbreaks for calibration.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."
scripts/install.sh run test check
cmake --preset each-file
cmake --build --preset each-file
scripts/tidy.sh build/each-file
cmake --preset debug
cmake --build --preset debug
ctest --preset debug

# The rule books against each other, and no plan, dose or bottle out of bounds.
cmake --preset release
cmake --build --preset release --target test_safety test_worklist test_mixing test_forecast
export RC_PARAMS="max_success=100000"
build/release/tests/test_worklist --gtest_filter='CourseProperties.*'
build/release/tests/test_safety --gtest_filter='Properties.no_ruling_is_violated*'
build/release/tests/test_safety --gtest_filter='WetBookProperties.*'
build/release/tests/test_mixing --gtest_filter='WorkedExamples.the_inverse*'
RC_PARAMS="max_success=10000" build/release/tests/test_forecast --gtest_filter='TreatmentProperties.*:HardCases.no_chance*'  # more treatment never does less
RC_PARAMS="max_success=5000" build/release/tests/test_safety --gtest_filter='Properties.*'  # 300 questions to each

# What comes by the network: attacks of half a minute each, and ten minutes of mutated requests.
cmake --build --preset release --target mitefall
python3 tests/web/neighbour.py build/release/mitefall 30
python3 tests/web/socket_fuzz.py build/release/mitefall "${MITEFALL_FUZZ_SECONDS:-600}"

# Of what is called 80 % clear, about 80 % must be (docs/calibration.md).
MITEFALL_CALIBRATION_CASES=1000 build/release/tests/test_forecast --gtest_filter='Calibration.*'
