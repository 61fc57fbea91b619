# Sourced by the scripts of tests/shown: one line per claim with its figure, then the counts.
# shellcheck shell=bash
passed=0
failed=0

# holds CLAIM FIGURE STATUS
holds() {
  if [[ $3 == 0 ]]; then
    printf 'holds   %s: %s\n' "$1" "$2"
    passed=$((passed + 1))
  else
    printf 'BROKEN  %s: %s\n' "$1" "$2"
    failed=$((failed + 1))
  fi
}

# holds_nothing CLAIM FIGURE TEXT: holds when TEXT, a list of faults, is empty.
holds_nothing() {
  if [[ -z $3 ]]; then holds "$1" "$2" 0; else holds "$1" "$2; ${3:0:300}" 1; fi
}

shown_closing_line() {
  echo "$passed passed, $failed failed"
  [[ $failed == 0 && $passed != 0 ]]
}
