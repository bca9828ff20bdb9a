#!/bin/sh
# Builds the program for Windows with Debian's mingw-w64 and runs it under Debian's wine: the same bytes as here for every
# example, and files as Windows has them. "sh tests/windows.sh rooms" only compiles what knows Windows, which takes seconds.
# The program comes as a zip: build-windows/lobewright-VERSION-win64.zip.
set -eu
cd "$(dirname "$0")/.."
. tests/setup.sh

skip() {
    echo "SKIPPED: $1 can't be had here: the Windows program is not $2"
    exit 0
}

# shellcheck disable=SC2086
install_packages $tools $libraries
install_packages "$windows_compiler" || skip "$windows_compiler" built

# Libraries that are headers alone serve any system, but the system's own headers must not come along with them.
headers=$PWD/build-windows/headers
mkdir -p "$headers/boost-package"
for library in boost toml++ CLI nlohmann; do
    for place in /usr/include "$PWD/build/headers"; do
        if [ -d "$place/$library" ]; then ln -sfn "$place/$library" "$headers/$library"; fi
    done
done
boost_version=$(sed -n 's/^#define BOOST_LIB_VERSION "\(.*\)"/\1/p' /usr/include/boost/version.hpp | tr _ .)
cat >"$headers/boost-package/BoostConfig.cmake" <<EOF
set(Boost_INCLUDE_DIRS "$headers")
EOF
cat >"$headers/boost-package/BoostConfigVersion.cmake" <<EOF
set(PACKAGE_VERSION "$boost_version.0")
set(PACKAGE_VERSION_COMPATIBLE TRUE)
EOF

target=${1:-all}
page=
if [ "$target" = rooms ]; then target=lobewright_system; else page=$(page_for_packages); fi
build build-windows "$target" -DCMAKE_TOOLCHAIN_FILE="$PWD/tests/windows.cmake" -DLOBEWRIGHT_WARNINGS_ARE_ERRORS="${CI:-OFF}" \
    -DBoost_DIR="$headers/boost-package" -Dtomlplusplus_HEADERS="$headers" -DCLI11_HEADERS="$headers" \
    -Dnlohmann_json_HEADERS="$headers" -DCMAKE_DISABLE_FIND_PACKAGE_tomlplusplus=ON \
    -DLOBEWRIGHT_PAGE="$page" -DCMAKE_DISABLE_FIND_PACKAGE_CLI11=ON -DCMAKE_DISABLE_FIND_PACKAGE_nlohmann_json=ON
if [ "$target" = lobewright_system ]; then exit; fi
(cd build-windows && cpack --config CPackConfig.cmake)
python3 tests/cli/windows_zip.py build-windows/lobewright-*-win64.zip "$page"

install_packages "$windows_runner" || skip "$windows_runner" run
if [ ! -x build/lobewright ]; then build build lobewright_program; fi
PATH=$PATH:/usr/lib/wine python3 tests/cli/on_windows.py build/lobewright build-windows/lobewright.exe examples build-windows/wine
