# Shared by examples/first-cut.sh and tests/run.sh: what the project is built with, and how. To be sourced from the
# project's top folder.
# shellcheck shell=sh disable=SC2034

tools="g++ cmake make"
libraries="libboost-dev libtomlplusplus-dev libcli11-dev nlohmann-json3-dev"
test_libraries="catch2 libgeos-dev"
interpreter="linuxcnc-uspace" # brings rs274, the outside interpreter; not every system has it

# Those of the packages named that are not installed; a tool counts as installed wherever it comes from.
missing() {
    for package in "$@"; do
        if command -v "$package" >/dev/null 2>&1; then continue; fi
        if dpkg-query -W -f '${Status}' "$package" 2>/dev/null | grep -q 'ok installed'; then continue; fi
        printf ' %s' "$package"
    done
}

# Puts the packages named on the system as root or by sudo; false, with the line to run, where neither can be.
install_packages() {
    wanted=$(missing "$@")
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
    # The names are words of a list.
    # shellcheck disable=SC2086
    $as_root DEBIAN_FRONTEND=noninteractive apt-get update -qq &&
        $as_root DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends $wanted >/dev/null
}

# build TARGET OPTION...: configures build/ as a release, and builds the target with every core.
build() {
    target=$1
    shift
    if [ ! -f build/CMakeCache.txt ] && command -v ninja >/dev/null 2>&1; then set -- -G Ninja "$@"; fi
    cmake -S . -B build -DCMAKE_BUILD_TYPE=Release "$@"
    cmake --build build --target "$target" --parallel "$(nproc)"
}
