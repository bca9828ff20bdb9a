#!/bin/sh
# The look of the code: clang-format on every file of ours, clang-tidy on the sources. Reads the build that tests/run.sh made.
set -eu
cd "$(dirname "$0")/.."
. tests/setup.sh

# shellcheck disable=SC2086
install_packages $style_tools
git ls-files '*.h' '*.cpp' | xargs clang-format --dry-run --Werror
git ls-files 'src/*.cpp' | xargs -P "$(nproc)" -n 4 clang-tidy -p build --quiet --warnings-as-errors='*' \
    --extra-arg=-Wno-unknown-warning-option
