#!/bin/sh
# Which lines of the stages that settle what is cut (profile, toolpath, post, proof) the tests run: a table by file, the
# lines that none runs, and the sums. Arguments go to ctest, in the place of those that choose the stages' own tests.
set -eu
cd "$(dirname "$0")/.."
. tests/setup.sh

# shellcheck disable=SC2086
install_packages gcovr $tools $libraries $test_libraries
tests="profile fullest soundness plausibility toolpath post proof hand ways"
configure build-coverage -DCMAKE_BUILD_TYPE=Debug -DCMAKE_CXX_FLAGS="--coverage -fprofile-update=atomic" \
    -DCMAKE_CXX_FLAGS_DEBUG=-O0 -DCMAKE_EXE_LINKER_FLAGS=--coverage -DLOBEWRIGHT_TESTS=ON >/dev/null
# The figures of the runs before would count, too.
find build-coverage -name '*.gcda' -delete
if [ $# -eq 0 ]; then
    # shellcheck disable=SC2046
    cmake --build build-coverage --parallel "$(nproc)" --target $(printf 'test_%s ' $tests)
    set -- -R "^($(echo "$tests" | tr ' ' '|'))\$"
else
    cmake --build build-coverage --parallel "$(nproc)"
fi
ctest --test-dir build-coverage --output-on-failure --parallel "$(nproc)" "$@"
gcovr --root . --object-directory build-coverage --exclude-unreachable-branches --exclude-throw-branches \
    --filter 'src/(profile|toolpath|post|proof)/' --print-summary build-coverage
