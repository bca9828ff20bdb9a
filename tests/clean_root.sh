#!/bin/sh
# README's two commands in a clean clone, in a root of the system named that holds nothing else: what a person does who has just
# installed it. As root. The suite is one of Debian's, or Ubuntu's jammy or noble.
#   sh tests/clean_root.sh bookworm                        both commands: an hour or two on two cores
#   sh tests/clean_root.sh trixie examples/first-cut.sh    the first one alone: ten minutes
set -eu
cd "$(dirname "$0")/.."
. tests/setup.sh
. tests/roots.sh

if [ $# = 0 ] || [ "$(id -u)" != 0 ]; then
    echo "sh tests/clean_root.sh SUITE [SCRIPT ...], as root: a clean root is made, and entered" >&2
    exit 2
fi
install_packages debootstrap
suite=$1
shift
if [ $# = 0 ]; then set -- examples/first-cut.sh tests/run.sh; fi

place=build/clean-roots/$suite
make_root "$suite" "$place"
git clone --quiet --no-hardlinks . "$place/root/lobewright"
for script in "$@"; do
    echo "== $suite: sh $script"
    in_root "$place" sh -ec 'cd /root/lobewright && sh "$0"' "$script"
done
test -s "$place/root/lobewright/build/first-cut/proof.txt" || [ "$1" != examples/first-cut.sh ]
rm -rf "$place"
echo "$suite: $* from a clean clone: done"
