#!/bin/sh
# Asks valgrind, as the program is released: the tests of base and job (or the test programs named), and every command over every
# example. What is used before it is set, lost or read beyond its end fails. Eight minutes on one core.
#   sh tests/valgrind.sh [test_base ...]
set -eu
cd "$(dirname "$0")/.."
. tests/setup.sh

# shellcheck disable=SC2086
install_packages $tools $libraries $test_libraries valgrind
if [ $# = 0 ]; then set -- test_base test_job; fi
build build lobewright_program -DLOBEWRIGHT_TESTS=ON
for program in "$@"; do cmake --build build --target "$program"; done

found=99
ask() { valgrind --quiet --error-exitcode=$found --leak-check=full --errors-for-leak-kinds=definite "$@"; }
failed=0
for program in "$@"; do
    echo "== $program"
    ask "build/$program" '~[outside]~[controller]' || failed=1
done

made=$(mktemp -d)
trap 'rm -rf "$made"' EXIT
runs=0
# Whatever the program itself thinks of the job, by exit codes 0 to 3.
tell() {
    runs=$((runs + 1))
    code=0
    ask build/lobewright "$@" >"$made/said" 2>"$made/complaints" || code=$?
    if [ $code -gt 3 ]; then # what valgrind found, a bug of ours, or a signal
        echo "lobewright $*: exit code $code"
        cat "$made/complaints"
        failed=1
    fi
}
for job in examples/*.toml; do
    lobe=$(sed -n '/^\[\[lobe\]\]/,$ s/^name *= *"\(.*\)".*/\1/p' "$job" | head -n 1)
    tell check "$job"
    tell check "$job" --json
    tell table "$job" --lobe "$lobe"
    tell compare "$job"
    tell index "$job"
    tell inspect "$job" --lobe "$lobe" --every 5
    tell draw "$job" --what lobe --lobe "$lobe"
    tell cut "$job" --plan
    tell cut "$job" --force -o "$made/program.ngc"
    if [ -f "$made/program.ngc" ]; then tell prove "$job" "$made/program.ngc"; fi
    tell sheet "$job" -o "$made/sheet.html"
    rm -f "$made/program.ngc"
done
tell check examples/basalt-four-1-inlet.csv
tell help --as man
echo "$runs runs of the program"
exit $failed
