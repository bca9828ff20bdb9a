#!/bin/sh
# The look of the code: clang-format on every file of ours; with the argument "tidy", clang-tidy on the sources too (ten
# minutes; it reads the build that tests/run.sh made).
set -eu
cd "$(dirname "$0")/.."
. tests/setup.sh

# shellcheck disable=SC2086
install_packages $style_tools
git ls-files '*.h' '*.cpp' | xargs clang-format --dry-run --Werror
if [ "${1:-}" = tidy ]; then
    git ls-files 'src/*.cpp' | xargs -P "$(nproc)" -n 4 clang-tidy -p build --quiet --warnings-as-errors='*' \
        --extra-arg=-Wno-unknown-warning-option
fi
