#!/bin/sh
# Builds and tests everything: sh tests/run.sh. Release, sanitizers (a Debug build), clang-tidy, a short fuzz run.
set -eu
cd "$(dirname "$0")/.."

sh cli/packages.sh run test

step() { printf '\n== %s\n' "$1"; }

for preset in release asan-ubsan; do
  step "$preset: build"
  cmake --preset "$preset" >/dev/null
  cmake --build --preset "$preset"
  step "$preset: test"
  ctest --preset "$preset"
done

step "Debug and Release: the same bytes"
for preset in asan-ubsan release; do
  build/$preset/fairlead check layouts/marten_ridge.toml --format json >build/$preset/check.json
  build/$preset/fairlead draw layouts/marten_ridge.toml -o build/$preset/sheet.pdf
done
cmp build/asan-ubsan/check.json build/release/check.json
cmp build/asan-ubsan/sheet.pdf build/release/sheet.pdf

step "clang-tidy"
cmake --preset demo >/dev/null # its build knows the program's own files and no test
run-clang-tidy-14 -quiet -p build/demo 2>/dev/null

step "fuzz, 20 s a target"
cmake --build --preset asan-ubsan --target fuzz -j 2 # two at once, a core each

echo
echo "All of it passed: Release, sanitizers in Debug, the same bytes, clang-tidy, fuzz."
