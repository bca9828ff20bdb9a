#!/bin/sh
# What is done before a version is given out, each step's output kept in build/release/: sh tests/release.sh. Some hours on two
# cores. A step by its name alone: sh tests/release.sh package campaign
set -eu
cd "$(dirname "$0")/.."
kept=build/release

# step NAME COMMAND...: runs it, unless other steps were asked for, and tells how it went.
step() {
    name=$1
    shift
    case " $asked " in "  " | *" $name "*) ;; *) return 0 ;; esac
    began=$(date +%s)
    if "$@" >"$kept/$name.txt" 2>&1; then verdict=passed; else
        verdict="FAILED ($kept/$name.txt)"
        failed=1
    fi
    printf '%-10s %6d s  %s\n' "$name" $(($(date +%s) - began)) "$verdict"
}

version_told() { head -n 1 src/package/changelog | grep -qF "($(build/lobewright --version | sed -n '1s/lobewright \([^ ]*\).*/\1/p'))"; }
nothing_uncommitted() { test -z "$(git status --porcelain)"; }

asked=$*
failed=0
mkdir -p "$kept"
step clean nothing_uncommitted
step style sh tests/style.sh tidy
step tests sh tests/run.sh
step page sh tests/page.sh
step version version_told
step bytes sh -c 'build/lobewright cut examples/basalt-four.toml -q | sha256sum'
step memory sh tests/sanitize.sh
step threads sh tests/sanitize.sh thread
step valgrind sh tests/valgrind.sh
step campaign env LOBEWRIGHT_CHANGES=100000 build/test_proof 'the proof catches every single change*'
step unsafe env LOBEWRIGHT_SPOILINGS=500 build/test_proof 'each way to make a program dangerous*'
step jobs env LOBEWRIGHT_RANDOM_JOBS=3000 build/test_toolpath 'every random job*'
step shop env LOBEWRIGHT_SHOP_JOBS=500 build/test_ways 'whatever a shop*'
step soak env LOBEWRIGHT_RANDOM_JOBS=10000 build/test_cli 'a process that works through many jobs*'
step bench sh -c 'cmake --build build --target bench_lobewright && build/bench_lobewright'
step package sh tests/package.sh bookworm trixie
step bookworm sh tests/clean_root.sh bookworm examples/first-cut.sh
step trixie sh tests/clean_root.sh trixie
step windows sh tests/windows.sh
exit "$failed"
