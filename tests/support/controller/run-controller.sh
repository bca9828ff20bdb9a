#!/bin/sh
# run-controller.sh PROGRAM SAMPLES: runs PROGRAM in the whole open controller (Debian package linuxcnc-uspace: interpreter,
# trajectory planner, motion), without a screen or a machine, in real time. SAMPLES gets a line for each millisecond of the run:
# sample, X, Z (mm), A (degrees), the program's line in work. Exit code 1, and the reasons on standard error, where it did not run.
set -eu
here=$(cd "$(dirname "$0")" && pwd)
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cp "$here/controller.ini" "$here/controller.hal" "$here/controller.tbl" "$here/drive-controller.py" "$work"
cp "$1" "$work/program.ngc"
chmod 755 "$work" "$work/drive-controller.py"
export PROGRAM="$work/program.ngc" RAW_SAMPLES="$work/samples" VERDICT="$work/verdict" HOME="$work"
as=
if [ "$(id -u)" = 0 ]; then        # the controller refuses to be run by root
    chown -R nobody: "$work"
    as="setpriv --reuid=nobody --regid=nogroup --clear-groups"
fi
(cd "$work" && $as linuxcnc -r controller.ini) >"$work/log" 2>&1 </dev/null || true
if [ "$(cat "$VERDICT" 2>/dev/null)" != done ]; then
    cat "$work/log" "$VERDICT" >&2 || true
    exit 1
fi
awk 'NF == 5' "$RAW_SAMPLES" >"$2"
