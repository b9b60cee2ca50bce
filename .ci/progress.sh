# What a person sees of a long build or of many tests: a word for every tenth, and whatever went
# wrong. Filters; sourced by setup.sh. POSIX sh.

# tenth PERCENT: says it if it is a further tenth.
tenth() {
  [ "$1" -ge $((told + 10)) ] || return 0
  told=$(($1 / 10 * 10))
  printf '   %s%%' "$told"
  is_open=yes
}

end_line() {
  [ -z "$is_open" ] || printf '\n'
  is_open=""
}

# Of what make prints only how far it is.
show_build() {
  told=0
  is_open=""
  while IFS= read -r line; do
    percent=${line#\[}
    percent=${percent%%%\]*}
    percent=${percent##* }
    case "$percent" in '' | *[!0-9]*) continue ;; esac
    tenth "$percent"
  done
  end_line
}

# What ctest prints, but of the tests that pass only how many.
show_tests() {
  told=0
  is_open=""
  while IFS= read -r line; do
    case "$line" in
      *" Start "*[0-9]": "*) ;;
      *[0-9]/[0-9]*" Test "*" Passed "*)
        done=${line%%/*}
        all=${line#*/}
        tenth $((${done##* } * 100 / ${all%% *}))
        ;;
      *)
        end_line
        printf '%s\n' "$line"
        ;;
    esac
  done
  end_line
}
