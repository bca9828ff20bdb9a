#!/bin/sh
# Installs what is missing, builds everything, and runs every test. Arguments go to ctest: sh tests/run.sh -R cli
set -eu
cd "$(dirname "$0")/.."
. tests/setup.sh

# shellcheck disable=SC2086
install_packages $tools $libraries $test_libraries
if ! command -v rs274 >/dev/null 2>&1; then
    install_packages "$interpreter" || echo "rs274 can't be had here: the tests that need it will be skipped"
fi
install_packages "$browser" || echo "chromium can't be had here: sheets are not opened in a browser"
fetch_axe || echo "axe-core can't be had here: sheets are not asked whether they are hard to use"
install_packages "$print_reader" || echo "poppler-utils can't be had here: what the browser prints is not measured"
install_packages "$drawing_reader" || echo "ezdxf can't be had here: DXF drawings are not read back"
install_packages "$tracer" || echo "strace can't be had here: no call of the system is made to fail"
# shellcheck disable=SC2086
install_packages $shells || echo "zsh and fish can't be had here: their completions are not tried"
# Warnings are errors where we build, not where a user does.
build build all -DLOBEWRIGHT_TESTS=ON -DLOBEWRIGHT_WARNINGS_ARE_ERRORS="${CI:-OFF}"
ctest --test-dir build --output-on-failure --parallel "$(nproc)" "$@"
