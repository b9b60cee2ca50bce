# Shared by cases/run, tests/run and .ci/run: the packages of the distribution and the build. Sourced,
# with the repository's root as the working folder. POSIX sh.

# What the program is built from, and what its tests need besides.
program_packages="g++ cmake make libboost-dev libsqlitecpp-dev libsqlite3-dev libcli11-dev
  libtomlplusplus-dev nlohmann-json3-dev libfmt-dev libeigen3-dev libexpected-dev libmd-dev
  libcsv-dev libdlib-dev"
test_packages="doctest-dev"

say() { printf '%s\n' "== $*"; }

is_installed() {
  [ "$(dpkg-query -W -f '${db:Status-Abbrev}' "$1" 2>/dev/null)" = "ii " ]
}

# need_packages NAME...: installs those that are not there yet, and no others.
need_packages() {
  missing=""
  for package in "$@"; do is_installed "$package" || missing="$missing $package"; done
  if [ -z "$missing" ]; then
    say "packages: all there"
    return 0
  fi
  say "packages: installing$missing"
  as_root=""
  if [ "$(id -u)" -ne 0 ]; then
    if ! command -v sudo >/dev/null 2>&1; then
      say "packages: cannot install: you are not root and there is no sudo"
      say "ask an administrator for: apt-get install$missing"
      return 1
    fi
    as_root="sudo"
  fi
  $as_root apt-get update -q || say "packages: the lists could not be renewed, going on with the old ones"
  # shellcheck disable=SC2086  # one word a package is meant
  if $as_root env DEBIAN_FRONTEND=noninteractive apt-get install -y -q --no-install-recommends $missing
  then
    return 0
  fi
  # All at once failed: one by one tells which package it is.
  for package in $missing; do
    is_installed "$package" && continue
    if ! $as_root env DEBIAN_FRONTEND=noninteractive \
        apt-get install -y -q --no-install-recommends "$package"; then
      say "packages: $package could not be installed (see above)"
      say "check the network and the package sources (apt-get update), then run this again"
      return 1
    fi
  done
}

# build FOLDER CMAKE-ARGUMENT...: configures and builds, in as many jobs as there are processors.
build() {
  folder=$1
  shift
  say "configuring $folder/"
  cmake -S . -B "$folder" "$@" >"$folder.log" 2>&1 || {
    cat "$folder.log"
    rm -f "$folder.log"
    say "configuring failed (see above)"
    return 1
  }
  rm -f "$folder.log"
  say "building in $folder/ (the first time takes some minutes)"
  cmake --build "$folder" -j "$(nproc)"
}
