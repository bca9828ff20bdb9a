#!/bin/sh
# Builds everything under the address and undefined-behaviour sanitizers, and runs every test. Arguments go to ctest.
set -eu
cd "$(dirname "$0")/.."
. tests/setup.sh

# shellcheck disable=SC2086
install_packages $tools $libraries $test_libraries
# Without the figures of a debugger, which double the time to build; the functions' names are told all the same.
build build-sanitizers all -DCMAKE_CXX_FLAGS_RELEASE=-O1 -DLOBEWRIGHT_TESTS=ON -DLOBEWRIGHT_WARNINGS_ARE_ERRORS=ON \
    -DLOBEWRIGHT_SANITIZE=ON
# A controller's time and a browser's verdict say nothing of memory.
ctest --test-dir build-sanitizers --output-on-failure --parallel "$(nproc)" --exclude-regex 'controller|accessible' "$@"
