#!/bin/sh
# Builds fairlead and shows it at work: sh cli/demo.sh judges the demo layout and draws its set.
set -eu
cd "$(dirname "$0")/.."

sh cli/packages.sh run
echo "build: Release, into build/demo"
cmake --preset demo >/dev/null
cmake --build --preset demo

fairlead=build/demo/fairlead
layout=layouts/marten_ridge.toml
drawings=build/demo/marten_ridge.pdf
echo
echo "\$ fairlead check $layout"
"$fairlead" check "$layout"
echo
echo "\$ fairlead draw $layout -o $drawings"
"$fairlead" draw "$layout" -o "$drawings"
echo
echo "The drawing set is in $drawings, the program is $fairlead."
