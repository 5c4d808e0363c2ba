#!/usr/bin/env bash
# Installs the Debian 12 packages named by the groups given (run, test, check); does nothing when all are there.
set -euo pipefail

run_packages=(g++ cmake ninja-build ccache libfmt-dev libexpected-dev libtomlplusplus-dev nlohmann-json3-dev
  libsqlitecpp-dev libsqlite3-dev libcli11-dev libtbb-dev libhwy-dev librandom123-dev libboost-dev
  pkg-config libqrencode-dev libcsv-dev zlib1g-dev)
test_packages=(libgtest-dev librapidcheck-dev libvalijson-dev libzxing-dev python3 binutils git chromium fonts-dejavu-core)
check_packages=(clang-14 clang-tidy-14 clang-format-14 libclang-rt-14-dev)

# Node and its npm may have come another way than by apt: whichever is there serves.
command -v node >/dev/null || run_packages+=(nodejs)
command -v npm >/dev/null || run_packages+=(npm)

wanted=()
for group in "$@"; do
  case $group in
    run) wanted+=("${run_packages[@]}") ;;
    test) wanted+=("${test_packages[@]}") ;;
    check) wanted+=("${check_packages[@]}") ;;
    *) echo "install.sh: unknown group: $group (run, test, check)" >&2; exit 2 ;;
  esac
done

missing=()
for package in "${wanted[@]}"; do
  status=$(dpkg-query -W -f='${Status}' "$package" 2>/dev/null || true)
  [[ $status == "install ok installed" ]] || missing+=("$package")
done
[[ ${#missing[@]} -gt 0 ]] || exit 0

as_root=()
if [[ $(id -u) -ne 0 ]]; then
  command -v sudo >/dev/null || { echo "install.sh: run this as root, or install sudo; missing: ${missing[*]}" >&2; exit 1; }
  as_root=(sudo)
fi
echo "Installing: ${missing[*]}" >&2
"${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get update -qq >&2
"${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends "${missing[@]}" >&2
