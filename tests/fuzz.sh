#!/bin/sh
# Fuzzes the readers: sh tests/fuzz.sh SECONDS [TARGET]: each target (or that one) for so long. What it finds stands in
# build-fuzz/TARGET/; mend the cause, and keep the text under tests/fuzz/found/TARGET/, where a test feeds it again.
#
# Options of libFuzzer come by FUZZ_OPTIONS="-runs=2000000 -max_len=2000"; LOBEWRIGHT_FUZZ_DEPTH=works works with every
# text that is accepted, not with one in sixteen alone.
set -eu
cd "$(dirname "$0")/.."
. tests/setup.sh

if [ $# -lt 1 ] || [ $# -gt 2 ]; then
    echo "Usage: sh tests/fuzz.sh SECONDS [TARGET]" >&2
    exit 2
fi
# shellcheck disable=SC2086
install_packages clang $tools $libraries $test_libraries
# One library for all targets; without the figures of a debugger, as in tests/sanitize.sh.
build build-fuzz fuzz_lobewright -DCMAKE_CXX_COMPILER=clang++ -DCMAKE_CXX_FLAGS_RELEASE=-O1 \
    -DCMAKE_CXX_FLAGS=-fsanitize=fuzzer-no-link -DLOBEWRIGHT_TESTS=ON -DLOBEWRIGHT_SANITIZE=ON >/dev/null

for target in ${2:-job dialect program table readings arguments}; do
    echo "== $target"
    mkdir -p "build-fuzz/$target/corpus"
    LOBEWRIGHT_FUZZ_TARGET=$target LOBEWRIGHT_FUZZ_SEEDS=build-fuzz/$target/corpus build-fuzz/fuzz_lobewright
    # A text that takes ten seconds under the sanitizers takes one without them. Memory is what they take, too.
    # shellcheck disable=SC2086
    LOBEWRIGHT_FUZZ_TARGET=$target build-fuzz/fuzz_lobewright -artifact_prefix="build-fuzz/$target/" -timeout=10 \
        -rss_limit_mb=2048 -max_len=100000 -len_control=0 -print_final_stats=1 -max_total_time="$1" \
        ${FUZZ_OPTIONS:-} "build-fuzz/$target/corpus"
done
