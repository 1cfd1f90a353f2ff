#!/usr/bin/env bash
# Makes the README's pictures anew from the demo: a pour sheet and a page of a
# board at life size. Needs pdftoppm (poppler-utils).
set -euo pipefail
cd "$(dirname "$0")"
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
(cd ../.. && go build -o "$work/pourboard" ./cmd/pourboard)
"$work/pourboard" demo "$work/demo" >/dev/null 2>&1
plan=$work/demo/ash-triaxial.toml
"$work/pourboard" make -q "$plan" --only pour --out "$work/pour" >/dev/null
"$work/pourboard" make -q "$plan" --only board --out "$work/board" >/dev/null
pdftoppm -r 50 -gray -png -singlefile -f 1 -l 1 "$work/pour/ash-triaxial-pour.pdf" pour
pdftoppm -r 50 -gray -png -singlefile -f 2 -l 2 "$work/board/ash-triaxial-board.pdf" board
