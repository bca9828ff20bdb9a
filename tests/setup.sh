# Shared by examples/first-cut.sh and tests/run.sh: what the project is built with, and how. To be sourced from the
# project's top folder.
# shellcheck shell=sh disable=SC2034

tools="g++ cmake make"
toml_package="libtomlplusplus-dev"
libraries="libboost-dev $toml_package libcli11-dev nlohmann-json3-dev"
style_tools="clang-format clang-tidy"
test_libraries="catch2 libgeos-dev"
drawing_reader="python3-ezdxf"  # reads the DXF drawings back
browser="chromium"  # opens the sheets
print_reader="poppler-utils"  # measures what it prints
windows_compiler="g++-mingw-w64-x86-64-posix"
windows_runner="wine64"
tracer="strace"            # makes calls of the system fail
page_tools="emscripten nodejs npm"  # make the page
shells="zsh fish"          # for their completions; bash is there
interpreter="linuxcnc-uspace" # brings rs274, the outside interpreter; not every system has it
package_tools="dpkg-dev file debootstrap"  # pack, and make the clean roots that packages are tried in

# Those of the packages named that are not installed; a tool counts as installed wherever it comes from.
missing() {
    for package in "$@"; do
        if command -v "$package" >/dev/null 2>&1; then continue; fi
        if dpkg-query -W -f '${Status}' "$package" 2>/dev/null | grep -q 'ok installed'; then continue; fi
        printf ' %s' "$package"
    done
}

# The same names where the system has them. Ubuntu 22.04 packages no toml++: there its one header comes by npm.
available() {
    names=$1
    if apt-cache show cmake >/dev/null 2>&1 && ! apt-cache show "$toml_package" >/dev/null 2>&1; then
        by_npm=" npm"
        if command -v npm >/dev/null 2>&1; then by_npm=""; fi
        names=$(echo "$names" | sed "s/ $toml_package/$by_npm/")
    fi
    echo "$names"
}

# Puts the packages named on the system as root or by sudo; false, with the line to run, where neither can be.
install_packages() {
    wanted=$(available "$(missing "$@")")
    if [ -z "$wanted" ]; then return 0; fi
    if ! command -v apt-get >/dev/null 2>&1; then
        echo "This system has no apt-get. The project needs, by Debian's names:$wanted" >&2
        return 1
    fi
    if [ "$(id -u)" = 0 ]; then
        as_root="env"
    elif sudo -n true 2>/dev/null; then
        as_root="sudo -n env"
    else
        echo "Packages are missing. Run this line as root, then this script again:" >&2
        echo "  apt-get update && apt-get install -y --no-install-recommends$wanted" >&2
        return 1
    fi
    echo "installing$wanted"
    $as_root DEBIAN_FRONTEND=noninteractive apt-get update -qq || return 1
    wanted=$(available "$wanted")
    if [ -z "$wanted" ]; then return 0; fi
    # The names are words of a list.
    # shellcheck disable=SC2086
    $as_root DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends $wanted >/dev/null
}

# toml++'s one header, from the npm package of it, into build/headers/.
fetch_toml_header() {
    if [ -f build/headers/toml++/toml.h ]; then return 0; fi
    mkdir -p build/headers/toml++ &&
        (cd build/headers && npm pack --silent tomlplusplus.cxx@3.4.0 >/dev/null &&
            tar -xzf tomlplusplus.cxx-3.4.0.tgz && mv package/toml.hpp toml++/toml.h && mv package/LICENSE toml++/ && rm -r package ./*.tgz)
}

# axe-core's one script, which knows what makes a page hard to use, from the npm package of it, into build/axe/.
fetch_axe() {
    if [ -f build/axe/axe.min.js ]; then return 0; fi
    command -v npm >/dev/null 2>&1 && mkdir -p build/axe &&
        (cd build/axe && npm pack --silent axe-core@4.14.1 >/dev/null &&
            tar -xzf axe-core-4.14.1.tgz package/axe.min.js && mv package/axe.min.js . && rm -r package ./*.tgz)
}

# Where there is a ccache, what was once compiled is not compiled again, in whichever folder the project stands.
keep_objects() {
    if ! command -v ccache >/dev/null 2>&1; then return 0; fi
    export CMAKE_C_COMPILER_LAUNCHER=ccache CMAKE_CXX_COMPILER_LAUNCHER=ccache
    export CCACHE_BASEDIR="$PWD" CCACHE_NOHASHDIR=true
    # The headers that are read once carry no times that count.
    export CCACHE_SLOPPINESS=pch_defines,time_macros,include_file_mtime,include_file_ctime
}

# configure FOLDER OPTION...: as a release unless an option says otherwise.
configure() {
    folder=$1
    shift
    if ! dpkg-query -W "$toml_package" >/dev/null 2>&1; then
        fetch_toml_header
        set -- "-Dtomlplusplus_HEADERS=$PWD/build/headers" "$@"
    fi
    if [ ! -f "$folder/CMakeCache.txt" ] && command -v ninja >/dev/null 2>&1; then set -- -G Ninja "$@"; fi
    keep_objects
    cmake -S . -B "$folder" -DCMAKE_BUILD_TYPE=Release "$@"
}

# Makes the page for packages to take along, and prints its path; nothing where what makes it can't be had.
page_for_packages() {
    # shellcheck disable=SC2086
    if ! install_packages $tools $libraries $page_tools >&2; then
        echo "$page_tools can't be had here: the packages go without the page" >&2
        return 0
    fi
    build build page >&2 && echo "$PWD/build/page/lobewright.html"
}

# build FOLDER TARGET OPTION...: configures FOLDER, and builds the target with every core.
build() {
    folder=$1
    target=$2
    shift 2
    configure "$folder" "$@"
    cmake --build "$folder" --target "$target" --parallel "$(nproc)"
}
