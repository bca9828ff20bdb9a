# Clean roots of other systems, shared by tests/package.sh and tests/clean_root.sh. To be sourced from the project's top folder, as root.
# shellcheck shell=sh

# make_root SUITE FOLDER: the least that a system is, from the mirror that this system's own packages come from, or from Ubuntu's.
make_root() {
    rm -rf "$2"
    mkdir -p "$(dirname "$2")"
    case $1 in
    jammy | noble)
        # The tool itself knows Ubuntu's mirror. Debian has no keys of Ubuntu's: what this first step brings is not checked, all
        # that comes after it is.
        set -- "$1" "$2" "" --components=main,universe --no-check-gpg
        script=gutsy
        ;;
    *)
        set -- "$1" "$2" "$(apt-get indextargets --format '$(REPO_URI)' 'Created-By: Packages' 'Component: main' | head -n 1)"
        script=sid
        ;;
    esac
    suite=$1 root=$2 mirror=$3
    shift 3
    debootstrap --variant=minbase "$@" "$suite" "$root" "$mirror" "/usr/share/debootstrap/scripts/$script" >"$root.log" 2>&1 || {
        tail -n 5 "$root.log" >&2
        return 1
    }
    # A root that is thrown away need not reach the disk, package by package.
    echo force-unsafe-io >"$root/etc/dpkg/dpkg.cfg.d/clean-root"
}

# in_root FOLDER COMMAND...: with nothing of this environment; what it mounts and leaves running goes with it.
in_root() {
    unshare --mount --pid --fork sh -ec '
        mount -t proc proc "$0/proc"
        mount --rbind /dev "$0/dev"
        exec env -i PATH=/usr/sbin:/usr/bin:/sbin:/bin HOME=/root LC_ALL=C DEBIAN_FRONTEND=noninteractive chroot "$0" "$@"' "$@"
}
