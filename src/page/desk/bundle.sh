#!/bin/sh
# The desk as one page, OUTPUT/desk.html: bundle.sh SOURCE OUTPUT NOTICES. Needs node and npm.
exec node "$1/src/page/desk/bundle.mjs" "$2" "$3"
