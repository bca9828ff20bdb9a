#!/bin/sh
# The look of the code: clang-format on every file of ours. With the argument "tidy", clang-tidy on the sources too (ten
# minutes on two cores); with "analyse", its analyser as well, which takes three times as long.
set -eu
cd "$(dirname "$0")/.."
. tests/setup.sh

# shellcheck disable=SC2086
install_packages $style_tools
git ls-files '*.h' '*.cpp' | xargs clang-format --dry-run --Werror
case "${1:-}" in
'') exit ;;
tidy) checks= ;;
analyse) checks='clang-analyzer-*,-clang-analyzer-optin.performance.Padding' ;;  # members stand in the order of meaning
*)
    echo "Usage: sh tests/style.sh [tidy | analyse]" >&2
    exit 2
    ;;
esac
# shellcheck disable=SC2086
install_packages $tools $libraries
# What it reads is how each file is compiled, without headers that another compiler has read before.
configure build-tidy -DCMAKE_DISABLE_PRECOMPILE_HEADERS=ON >/dev/null
# The sources that this system compiles: not another system's room, nor the page's engine.
sed -n 's/^ *"file": "\(.*\)".*/\1/p' build-tidy/compile_commands.json | grep "^$(pwd -P)/src/" |
    xargs -P "$(nproc)" -n 4 clang-tidy -p build-tidy --quiet --warnings-as-errors='*' \
        --checks="$checks" --extra-arg=-Wno-unknown-warning-option
