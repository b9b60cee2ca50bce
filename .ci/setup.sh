# Shared by cases/run, tests/run and .ci/run: the packages of the distribution and the build. Sourced,
# with the repository's root as the working folder. POSIX sh.
. ./.ci/progress.sh

# What the program is built from, and what its tests need besides.
program_packages="g++ cmake make libboost-dev libsqlitecpp-dev libsqlite3-dev libcli11-dev
  libtomlplusplus-dev nlohmann-json3-dev libcereal-dev libfmt-dev libeigen3-dev libexpected-dev libmd-dev
  libcsv-dev libdlib-dev"
test_packages="doctest-dev"

say() { printf '%s\n' "== $*"; }

# Lines of others, set in and broken to the screen.
quote() { fmt -s -w 76 | sed 's/^/   /'; }

is_installed() {
  [ "$(dpkg-query -W -f '${db:Status-Abbrev}' "$1" 2>/dev/null)" = "ii " ]
}

# apt_get NAME-OF-LOG WORD...: apt-get as root, without questions; what it says goes to the log.
apt_get() {
  apt_log=$1
  shift
  if [ "$(id -u)" -eq 0 ]; then
    env DEBIAN_FRONTEND=noninteractive apt-get -q -y "$@" >"$apt_log" 2>&1
  else
    sudo env DEBIAN_FRONTEND=noninteractive apt-get -q -y "$@" >"$apt_log" 2>&1
  fi
}

# install_all NAME-OF-LOG PACKAGE...
install_all() {
  install_log=$1
  shift
  apt_get "$install_log" install --no-install-recommends "$@"
}

# cannot_install PACKAGE NAME-OF-LOG: what apt-get said of it, its first line, and what to do.
cannot_install() {
  say "packages: $1 could not be installed:"
  grep -m 1 '^E:' "$2" | quote
  say "check the network and the package sources (apt-get update), then run"
  say "this again; all that apt-get said is in $2"
}

# need_packages NAME...: installs those that are not there yet, and no others.
need_packages() {
  missing=""
  for package in "$@"; do is_installed "$package" || missing="$missing $package"; done
  if [ -z "$missing" ]; then
    say "packages: all there"
    return 0
  fi
  say "packages: missing are"
  printf '%s\n' "${missing# }" | quote
  if [ "$(id -u)" -ne 0 ] && ! command -v sudo >/dev/null 2>&1; then
    say "packages: cannot install: you are not root and there is no sudo"
    say "ask an administrator to install these with apt-get, then run this again"
    return 1
  fi
  log=$(mktemp)
  say "packages: renewing the lists"
  apt_get "$log" update || say "packages: the lists could not be renewed, going on with the old ones"
  for package in $missing; do
    # By its exact name: what apt-get does not know it takes for a pattern.
    apt-cache show "$package" 2>/dev/null | grep -Fqx "Package: $package" && continue
    echo "E: the package sources do not have it (expected Debian 12, bookworm)" >>"$log"
    cannot_install "$package" "$log"
    return 1
  done
  say "packages: fetching and installing them (some minutes)"
  # shellcheck disable=SC2086  # one word a package is meant
  if ! install_all "$log" $missing; then
    # All at once failed: one by one tells which package it is.
    for package in $missing; do
      is_installed "$package" && continue
      install_all "$log" "$package" && continue
      cannot_install "$package" "$log"
      return 1
    done
  fi
  rm -f "$log"
  say "packages: installed"
}

# shown FILTER COMMAND...: the command's output through the filter, with the command's own success.
shown() {
  filter=$1
  shift
  failed=$(mktemp)
  { "$@" 2>&1 || echo yes >"$failed"; } | "$filter"
  outcome=$(cat "$failed")
  rm -f "$failed"
  [ -z "$outcome" ]
}

# What make prints goes to a file too.
kept() { tee "$log" | show_build; }

# build FOLDER CMAKE-ARGUMENT...: configures and builds, sources joined, in as many jobs as there are
# processors. What the compiler says is shown if it fails.
build() {
  folder=$1
  shift
  log=$(mktemp)
  say "configuring $folder/"
  cmake -S . -B "$folder" -DCMAKE_UNITY_BUILD=ON "$@" >"$log" 2>&1 || {
    cat "$log"
    say "configuring failed (see above; the same is in $log)"
    return 1
  }
  say "building in $folder/ (the first time takes some minutes)"
  if ! shown kept cmake --build "$folder" -j "$(nproc)"; then
    grep -v '^\[ *[0-9]*%\]' "$log" || true
    say "building failed (see above; the whole is in $log)"
    return 1
  fi
  rm -f "$log"
}

# run_tests FOLDER CTEST-ARGUMENT...: ctest's own summary comes last.
run_tests() {
  folder=$1
  shift
  shown show_tests ctest --test-dir "$folder" --output-on-failure -j "$(nproc)" "$@"
}
