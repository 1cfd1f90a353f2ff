#!/usr/bin/env bash
# Makes the README's pictures anew from the demo: a bench page, a pour card, a map
# and a page of a board at life size. Needs pdftoppm (poppler-utils).
set -euo pipefail
cd "$(dirname "$0")"
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
(cd ../.. && go build -o "$work/pourboard" ./cmd/pourboard)
"$work/pourboard" demo "$work/demo" >/dev/null 2>&1
picture() { # NAME PLAN PART PAGE
  "$work/pourboard" make -q "$work/demo/$2.toml" --only "$3" --out "$work/$1" >/dev/null
  pdftoppm -r 60 -gray -png -singlefile -f "$4" -l "$4" "$work/$1/$2-$3.pdf" "$1"
}
picture bench copper-series bench 1
picture pour ash-triaxial pour 1
picture map ash-triaxial map 1
picture board ash-triaxial board 2
