#!/bin/sh
# Which lines of the stages that settle what is cut (profile, toolpath, post, proof) the tests run: a table by file, the
# lines that none runs, and the sums. It fails where less than 95 % of a stage's lines are run. Arguments go to ctest, in
# the place of those that choose the stages' own tests, and ask for no share.
set -eu
cd "$(dirname "$0")/.."
. tests/setup.sh

# shellcheck disable=SC2086
install_packages gcovr $tools $libraries $test_libraries
tests="profile fullest soundness plausibility toolpath post proof hand ways"
# These tests have one thread. A little optimization, but no inlining, keeps the lines, and takes a third of the time.
configure build-coverage -DCMAKE_BUILD_TYPE=Debug -DCMAKE_CXX_FLAGS="--coverage -fno-inline" \
    -DCMAKE_CXX_FLAGS_DEBUG=-O1 -DCMAKE_EXE_LINKER_FLAGS=--coverage -DLOBEWRIGHT_TESTS=ON >/dev/null
# The figures of the runs before would count, too.
find build-coverage -name '*.gcda' -delete
least=0
if [ $# -eq 0 ]; then
    least=95
    # One of the proof's tests asks the program itself.
    # shellcheck disable=SC2046
    cmake --build build-coverage --parallel "$(nproc)" --target lobewright_program $(printf 'test_%s ' $tests)
    set -- -R "^($(echo "$tests" | tr ' ' '|'))\$"
else
    cmake --build build-coverage --parallel "$(nproc)"
fi
ctest --test-dir build-coverage --output-on-failure --parallel "$(nproc)" "$@"
gcovr --root . --object-directory build-coverage --exclude-unreachable-branches --exclude-throw-branches \
    --filter 'src/(profile|toolpath|post|proof)/' --json build-coverage/lines.json build-coverage
gcovr --root . --add-tracefile build-coverage/lines.json
failed=0
for stage in profile toolpath post proof; do
    echo "$stage"
    gcovr --root . --add-tracefile build-coverage/lines.json --filter "src/$stage/" --print-summary \
        --output "build-coverage/$stage.txt" --fail-under-line $least || failed=1
done
exit $failed
