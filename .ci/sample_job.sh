# The sample job, from complaint to record: shared by cases/run and .ci/packages. Needs sootsayer on
# the path and a fresh SOOTSAYER_LEDGER; sourced, after setup.sh. POSIX sh.

# show WORD...: prints the command, then what it says.
show() {
  printf '\n$ sootsayer'
  for word in "$@"; do
    case "$word" in
      *[!A-Za-z0-9=.,:/-]*) printf ' "%s"' "$word" ;;
      *) printf ' %s' "$word" ;;
    esac
  done
  printf '\n'
  sootsayer "$@"
}

sample_job() {
  say "the sample job: a peat winch of the Grebe Levels that starts hard since its lifters were set"
  show open hagmoss-4 --engine "winch 2"
  show tell "slow to start since Easter, white smoke, rough till warm" --history just-rebuilt
  show saw hard-start-cold --complaint
  show saw smoke-white-cold
  show saw knock-combustion --absent
  show next
  show saw warms-late-found 3
  show saw warms-late-found 1 2 4 --absent
  show steps lifter-depth
  show gauge lifter-depth 1=29.22mm 2=29.19mm 3=29.41mm 4=29.21mm
  show rank --show 5
  show weigh lifter-one 3
  show next
  show sum lifter
  show done set-lifter 3 --note "raised 0.21 mm, 1.3 flats out; jam nut's rise 0.04 allowed for"
  show gauge lifter-depth 3=29.19mm
  show next
  show prove cured --note "cold start at 9 C on the first pull, clear in 2 min"
  show next
  show close --cause lifter-one:3 --note "look again in 20 h"
  show page
}
