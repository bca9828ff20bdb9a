#!/bin/sh
# Builds everything under the address and undefined-behaviour sanitizers, and runs every test. Arguments go to ctest. "thread" alone
# asks the sanitizer of threads about the one thread that there is beside the work.
set -eu
cd "$(dirname "$0")/.."
. tests/setup.sh

# shellcheck disable=SC2086
install_packages $tools $libraries $test_libraries
if [ "${1:-}" = thread ]; then
    build build-threads test_progress_line -DCMAKE_CXX_FLAGS_RELEASE=-O1 -DLOBEWRIGHT_TESTS=ON -DLOBEWRIGHT_WARNINGS_ARE_ERRORS=ON \
        -DLOBEWRIGHT_SANITIZE=thread
    exec build-threads/test_progress_line
fi
# Without the figures of a debugger, which double the time to build; the functions' names are told all the same.
build build-sanitizers all -DCMAKE_CXX_FLAGS_RELEASE=-O1 -DLOBEWRIGHT_TESTS=ON -DLOBEWRIGHT_WARNINGS_ARE_ERRORS=ON \
    -DLOBEWRIGHT_SANITIZE=ON
# A controller's time and a browser's verdict say nothing of memory.
ctest --test-dir build-sanitizers --output-on-failure --parallel "$(nproc)" --exclude-regex 'controller|accessible' "$@"
