#!/bin/bash
# tests/shown/A.sh [--without-fresh] [--without-bench]: what was promised of the first plan, each claim
# by the command that shows it, with its figure. The last line is "N passed, N failed".
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
trap 'rm -rf "$scratch"' EXIT
out=demo-out
file=$out/merunai.gpkg

# captured COMMAND...: runs it, its output goes to $scratch/said; the status is the command's.
captured() { "$@" >"$scratch/said" 2>&1; }
last_said() { tail -n 1 "$scratch/said"; }

captured ./dev demo
status=$?
holds "./dev demo" "$(wc -l <"$scratch/said") lines, $(find "$out" -type f | wc -l) files in $out" $status
program=build/release/wildling

captured tests/shown/outputs.sh "$out"
status=$?
holds "other programs read what the demo wrote" "$(last_said)" $status
grep BROKEN "$scratch/said"

# The same inputs, the same bits.
cp "$file" "$scratch/twice.gpkg"
sums=$(for _ in 1 2; do
  $program plan "$scratch/twice.gpkg" --seed 20260202 --today 2026-02-02 >/dev/null || echo "plan failed"
  $program show "$scratch/twice.gpkg" --format json | sha256sum
done | sort -u)
[[ $(wc -l <<<"$sums") == 1 && $sums == *"-" ]]
holds "plan twice, equal sha256 of show --format json" "${sums:0:16}" $?

# Without any network.
captured unshare -rn demo/demo.sh "$program" "$scratch/offline"
status=$?
holds "the demo runs without network (unshare -rn)" "$(find "$scratch/offline" -type f | wc -l) files" $status

captured tests/shown/kill9.sh "$program" 200
status=$?
holds "kill -9 in the middle" "$(last_said)" $status

# Indonesian paper.
captured $program export "$file" --to "$scratch/id" --lang id
mapfile -t sheets < <(find "$scratch/id" -name '*.pdf')
captured tests/shown/indonesian_sheets.py "${sheets[@]}"
status=$?
holds "no English word of the word files on Indonesian sheets" "$(last_said)" $status

# Numbers: all in the JSON, and one of them explained.
$program show "$file" >"$scratch/summary.txt"
$program show "$file" --format json >"$scratch/show.json"
captured tests/shown/summary_numbers.py "$scratch/summary.txt" "$scratch/show.json"
status=$?
holds "show --format json has every number of the summary" "$(last_said)" $status
key=$(/usr/bin/python3 - "$file" <<'END'
import sqlite3
import sys
rows = sqlite3.connect(f"file:{sys.argv[1]}?mode=ro", uri=True).execute(
    "SELECT key FROM workings WHERE formula <> '' ORDER BY key")
print(rows.fetchone()[0])
END
)
captured $program explain "$file" "$key"
status=$?
holds "explain $key prints its workings" "$(wc -l <"$scratch/said") lines" $status

# What the unit tests hold: words, workings, traps of outside files.
if [[ -d build/dev ]]; then
  for claim in "every word key exists in both languages with the same arguments:Words" \
    "every stored working re-evaluates to its number:Workings|NodesThat|Holds" ; do
    captured ctest --preset dev -R "${claim##*:}"
    status=$?
    holds "${claim%:*}" "$(grep -o '[0-9]*% tests passed.*' "$scratch/said")" $status
  done
fi

if [[ $bench == yes ]]; then
  captured bench/chain.py "$program" 1000 10000
  holds "the chain on 1,000 and 10,000 ha" "table below" $?
  sed 's/^/    /' "$scratch/said"
fi
if [[ $fresh == yes ]]; then
  captured ./dev fresh
  status=$?
  holds "./dev fresh" "$(last_said)" $status
fi
shown_closing_line
