#!/bin/sh
# The look of the code: clang-format on every file of ours; with the argument "tidy", clang-tidy on the sources too (a
# quarter of an hour on two cores).
set -eu
cd "$(dirname "$0")/.."
. tests/setup.sh

# shellcheck disable=SC2086
install_packages $style_tools
git ls-files '*.h' '*.cpp' | xargs clang-format --dry-run --Werror
if [ "${1:-}" = tidy ]; then
    # shellcheck disable=SC2086
    install_packages $tools $libraries
    # What it reads is how each file is compiled, without headers that another compiler has read before.
    cmake -S . -B build-tidy -DCMAKE_DISABLE_PRECOMPILE_HEADERS=ON >/dev/null
    git ls-files 'src/*.cpp' | xargs -P "$(nproc)" -n 4 clang-tidy -p build-tidy --quiet --warnings-as-errors='*' \
        --extra-arg=-Wno-unknown-warning-option
fi
