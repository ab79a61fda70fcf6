#!/bin/sh
# sh cli/packages.sh run [test]: installs the Debian packages of these sections of packages.txt that are missing.
# Without root it names them and goes on, since they may be there in another form.
set -eu

list=$(dirname "$0")/packages.txt
if ! command -v dpkg-query >/dev/null; then
  echo "packages: no dpkg here, so nothing was looked up; $list says what is needed"
  exit 0
fi

wanted=$(awk -v sections=" $* " '
  /^\[/ { on = index(sections, " " substr($1, 2, length($1) - 2) " "); next }
  on && /^[a-z]/ { print $1 }' "$list")
missing=
for package in $wanted; do
  dpkg-query -W -f '${db:Status-Status}\n' "$package" 2>/dev/null | grep -qx installed || missing="$missing $package"
done
if [ -z "$missing" ]; then
  echo "packages: all there"
  exit 0
fi

if [ "$(id -u)" = 0 ]; then
  as=
elif command -v sudo >/dev/null && { sudo -n true 2>/dev/null || { [ -t 0 ] && sudo -v; }; }; then
  as=sudo
else
  echo "packages: not root, and missing:$missing"
  exit 0
fi
echo "packages: installing$missing"
$as apt-get -qq update || echo "packages: apt-get update failed; trying with the lists at hand"
$as env DEBIAN_FRONTEND=noninteractive apt-get -qq -y --no-install-recommends install $missing >/dev/null
echo "packages: all there"
