#!/usr/bin/env bash
# Installs what a fresh Debian 12 lacks for building (and, with --tests, for testing) Rigwright.
# Does nothing, quickly, when all of it is there.
set -euo pipefail

build_packages=(clang cmake ninja-build ccache libeigen3-dev nlohmann-json3-dev libfmt-dev libcli11-dev
  libboost-dev libsqlite3-dev libssl-dev libqrencode-dev libbenchmark-dev libgtest-dev
  librapidcheck-dev)
test_packages=(libsimbody-dev python3 python3-scipy python3-numpy python3-jsonschema calculix-ccx chromium
  clang-tidy clang-format libclang-rt-14-dev nodejs)

packages=("${build_packages[@]}")
[[ "${1:-}" == --tests ]] && packages+=("${test_packages[@]}")

missing=()
for package in "${packages[@]}"; do
  # A Node.js that did not come as a package is as good.
  if [[ $package == nodejs ]] && command -v node npm >/dev/null; then continue; fi
  dpkg-query -W -f='${Status}' "$package" 2>/dev/null | grep -q 'install ok installed' ||
    missing+=("$package")
done
[[ ${#missing[@]} -eq 0 ]] && exit 0
if [[ " ${missing[*]} " == *" nodejs "* ]]; then missing+=(npm); fi

as_root=()
if [[ $EUID -ne 0 ]]; then
  command -v sudo >/dev/null || {
    echo "These packages are missing and only root can install them: ${missing[*]}" >&2
    echo "Run as root: apt-get install ${missing[*]}" >&2
    exit 1
  }
  as_root=(sudo)
fi
echo "Installing: ${missing[*]}"
"${as_root[@]}" apt-get update -qq
DEBIAN_FRONTEND=noninteractive "${as_root[@]}" apt-get install -y -qq --no-install-recommends \
  "${missing[@]}" >/dev/null || {
  echo "The packages above could not be installed. On Debian 12 they are all in the main archive;" >&2
  echo "check the network and /etc/apt/sources.list, then run this again." >&2
  exit 1
}
