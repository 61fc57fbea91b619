#!/bin/bash
# tests/shown/B.sh [--without-fresh] [--without-bench]: what was promised of the page, each claim by the
# command that shows it, with its figure. The last line is "N passed, N failed".
set -uo pipefail
cd "$(dirname "$0")/../.." || exit 1
# shellcheck source=tests/shown/lib.sh
. tests/shown/lib.sh
fresh=yes bench=yes
for option in "$@"; do
  case $option in
    --without-fresh) fresh=no ;;
    --without-bench) bench=no ;;
    *) echo "usage: $0 [--without-fresh] [--without-bench]" >&2 && exit 2 ;;
  esac
done
scratch=$(mktemp -d)
server=
trap '[[ -z $server ]] || kill "$server" 2>/dev/null; rm -rf "$scratch"' EXIT
captured() { "$@" >"$scratch/said" 2>&1; }
last_said() { tail -n 1 "$scratch/said"; }

captured ./dev demo
status=$?
grep -q "wildling open .*\.gpkg" "$scratch/said" || status=1
holds "./dev demo ends with what to open" "$(grep -o '[^ ]*wildling open [^ ]*' "$scratch/said" | tail -n 1)" $status
program=build/release/wildling

# The address, without any network but the machine's own.
cp demo-out/merunai.gpkg "$scratch/open.gpkg"
XDG_CACHE_HOME=$scratch/cache $program open "$scratch/open.gpkg" >"$scratch/address" 2>&1 &
server=$!
for _ in $(seq 50); do
  grep -q 'http://127' "$scratch/address" && break
  sleep 0.1
done
address=$(grep -o 'http://127[^ ]*' "$scratch/address" | head -n 1)
origin=${address%%/\?*}
seconds=$(curl -s -o "$scratch/page" -w '%{time_total}' -L -c "$scratch/jar" -b "$scratch/jar" --compressed "$address")
grep -q '<script' "$scratch/page"
status=$?
holds "the address gives the page" "$seconds s, $(wc -c <"$scratch/page") bytes" $status
code=$(curl -s -o /dev/null -w '%{http_code}' "$address")
[[ $code == 403 ]]
holds "its key works once" "second time $code" $?
code=$(curl -s -o /dev/null -w '%{http_code}' -b "$scratch/jar" -H 'Host: example.org' "$origin/api/state")
[[ $code == 403 ]]
holds "a foreign Host is refused" "$code" $?
code=$(curl -s -o /dev/null -w '%{http_code}' -b "$scratch/jar" -H 'Origin: http://example.org' -d '{}' "$origin/api/jobs")
[[ $code == 403 ]]
holds "a foreign Origin is refused" "$code" $?
code=$(curl -s -o "$scratch/said" -w '%{http_code}' -b "$scratch/jar" -H 'Content-Type: application/json' -H "Origin: $origin" -d '{"kind":' "$origin/api/jobs")
[[ $code == 400 ]] && grep -q '"key"' "$scratch/said"
holds "malformed JSON gets a sentence" "$code" $?
kilobytes=$(awk '/VmRSS/ { print $2 }' "/proc/$server/status")
((kilobytes <= 102400))
status=$?
holds "memory of the idle program is at most 100 MB" "$((kilobytes / 1024)) MB" $status
kill -TERM "$server" && wait "$server"
[[ ! -e $scratch/open.gpkg-wal ]]
status=$?
holds "ended, it leaves one file" "$(find "$scratch" -name 'open.gpkg*' | wc -l) file" $status
server=

captured ./dev test --web
status=$?
holds "./dev test --web" "$(last_said)" $status

pictures=$(find docs/pictures -name '*.png' | wc -l)
[[ $pictures -ge 6 ]]
holds "pictures of the page at three widths in both languages" "$pictures files in docs/pictures" $?

if [[ $bench == yes ]]; then
  captured ./dev bench --web
  holds "./dev bench --web" "table below" $?
  sed 's/^/    /' "$scratch/said" | tail -n 40
fi
if [[ $fresh == yes ]]; then
  captured ./dev fresh
  status=$?
  holds "./dev fresh" "$(last_said)" $status
fi
shown_closing_line
