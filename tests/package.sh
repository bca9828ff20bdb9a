#!/bin/sh
# Builds the Debian packages into build/packages/, installs them in a clean root of each suite named (this system's own if none is), and runs the
# main job there. As root; the clean roots come from the mirror that this system's own packages come from.
#   sh tests/package.sh [bookworm trixie ...]
set -eu
cd "$(dirname "$0")/.."
. tests/setup.sh
. tests/roots.sh

if [ "$(id -u)" != 0 ]; then
    echo "A clean root is made, and entered, as root." >&2
    exit 2
fi
# shellcheck disable=SC2086
install_packages $tools $libraries $package_tools

# The same sources give the same packages: their times are those of the commit.
SOURCE_DATE_EPOCH=$(git log -1 --format=%ct 2>/dev/null || echo 0)
export SOURCE_DATE_EPOCH
work=build/packages
rm -rf "$work"
page=$(page_for_packages)
build build package -DLOBEWRIGHT_PAGE="$page"  # and what it is made of, in whichever way that folder is set up
mkdir -p "$work"
mv build/lobewright_*.deb build/liblobewright-dev_*.deb "$work"
program=$(ls "$work"/lobewright_*.deb)
library=$(ls "$work"/liblobewright-dev_*.deb)
if command -v lintian >/dev/null 2>&1; then lintian --fail-on none "$program" "$library"; fi

build/lobewright cut examples/basalt-four.toml --quiet --force -o "$work/here.ngc"
suites=${*:-$(. /etc/os-release && echo "$VERSION_CODENAME")}

for suite in $suites; do
    echo "== $suite"
    root=$work/root-$suite
    make_root "$suite" "$root"
    before=$(in_root "$root" sh -c 'dpkg-query -W | wc -l; find / -xdev -path /proc -prune -o -path /var -prune -o -print | sort | md5sum')
    cp "$program" "$library" "$root/root/"
    in_root "$root" sh -c 'apt-get install -y -qq -o Dpkg::Use-Pty=0 ./root/lobewright_*.deb' >/dev/null
    in_root "$root" lobewright --version
    in_root "$root" sh -e -c '
        cd /usr/share/doc/lobewright/examples
        lobewright check basalt-four.toml --quiet -o /root/check.txt
        lobewright cut basalt-four.toml --quiet -o /root/there.ngc
        lobewright prove basalt-four.toml /root/there.ngc -o /root/proof.txt
        lobewright index basalt-single-lathe.toml -o /root/route.md
        lobewright sheet basalt-four.toml --quiet -o /root/sheet.html
        for file in man/man1/lobewright.1.gz bash-completion/completions/lobewright zsh/vendor-completions/_lobewright \
            fish/vendor_completions.d/lobewright.fish doc/lobewright/changelog.gz doc/lobewright/postprocessors/README.md; do
            test -s /usr/share/$file || { echo "$file is missing"; exit 1; }
        done
        grep -q "Permission is hereby granted" /usr/share/doc/lobewright/copyright'
    carried=$root/usr/share/doc/lobewright/lobewright.html
    if [ -n "$page" ]; then cmp "$page" "$carried"; else test ! -e "$carried"; fi
    cmp "$work/here.ngc" "$root/root/there.ngc"
    # The library's package; that a consumer can build with what it holds is the business of the test "consumer".
    in_root "$root" sh -c 'dpkg -i /root/liblobewright-dev_*.deb' >/dev/null
    test -s "$root/usr/lib/pkgconfig/lobewright.pc" && test -s "$root/usr/lib/cmake/lobewright/lobewrightConfig.cmake"
    in_root "$root" sh -c 'apt-get purge -y -qq -o Dpkg::Use-Pty=0 lobewright liblobewright-dev && rm -f /root/*' >/dev/null
    after=$(in_root "$root" sh -c 'dpkg-query -W | wc -l; find / -xdev -path /proc -prune -o -path /var -prune -o -print | sort | md5sum')
    if [ "$before" != "$after" ]; then
        echo "purging leaves something behind" >&2
        exit 1
    fi
    rm -rf "$root"
    echo "$suite: installed${page:+ with the page}, ran the main job to the same bytes, and went without a trace"
done
