#!/bin/sh
# Makes the page, build/page/lobewright.html, and runs its tests in a real browser. It needs more than the rest of the project:
# Emscripten, Node.js with npm, Chromium. Arguments go to ctest.
set -eu
cd "$(dirname "$0")/.."
. tests/setup.sh

# shellcheck disable=SC2086
install_packages $tools $libraries $test_libraries $page_tools "$browser"
fetch_axe || echo "axe-core can't be had here: the page is not asked whether it is hard to use"
build build page -DLOBEWRIGHT_TESTS=ON -DLOBEWRIGHT_WARNINGS_ARE_ERRORS="${CI:-OFF}"
cmake --build build --target lobewright_program random_jobs --parallel "$(nproc)"
ctest --test-dir build --output-on-failure -R '^(page|desk)' "$@"
