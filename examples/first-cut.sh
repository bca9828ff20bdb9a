#!/bin/sh
# Installs what is missing, builds the program, and cuts the Basalt four with it into build/first-cut/.
set -eu
cd "$(dirname "$0")/.."
. tests/setup.sh

# shellcheck disable=SC2086
install_packages $tools $libraries
build build lobewright_program -DLOBEWRIGHT_TESTS=OFF

job=examples/basalt-four.toml
made=build/first-cut
mkdir -p "$made"
build/lobewright check "$job" -o "$made/check.txt"
build/lobewright table "$job" --lobe "1 inlet" -o "$made/1-inlet.csv"
build/lobewright table "$job" --lobe "1 exhaust" -o "$made/1-exhaust.csv"
build/lobewright cut "$job" --plan -o "$made/plan.txt"
build/lobewright cut "$job" --quiet -o "$made/basalt-four.ngc"
build/lobewright prove "$job" "$made/basalt-four.ngc" -o "$made/proof.txt"

cat <<END

The Basalt four is cut. In $made lie
  basalt-four.ngc            the program for a mill with a rotary axis
  proof.txt                  what that program's own text would cut, lobe by lobe
  plan.txt                   its passes, blocks and times
  check.txt                  the job, solved and judged
  1-inlet.csv, 1-exhaust.csv the polar lift tables of cylinder 1
Next: build/lobewright --help, and $job, which teaches the job file.
END
