#!/bin/sh
# Builds everything under the address and undefined-behaviour sanitizers, and runs every test. Arguments go to ctest.
set -eu
cd "$(dirname "$0")/.."
. tests/setup.sh

# shellcheck disable=SC2086
install_packages $tools $libraries $test_libraries
build build-sanitizers all -DCMAKE_BUILD_TYPE=RelWithDebInfo -DLOBEWRIGHT_TESTS=ON -DLOBEWRIGHT_WARNINGS_ARE_ERRORS=ON \
    -DLOBEWRIGHT_SANITIZE=ON
ctest --test-dir build-sanitizers --output-on-failure --parallel "$(nproc)" "$@"
