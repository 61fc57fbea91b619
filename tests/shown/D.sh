#!/bin/bash
# tests/shown/D.sh [PROGRAM]: what was promised of the field year, each claim by the command that shows it, with its
# figure. The last line is "N passed, N failed".
set -uo pipefail
cd "$(dirname "$0")/../.." || exit 1
# shellcheck source=tests/shown/lib.sh
. tests/shown/lib.sh
program=$(realpath "${1:-build/release/wildling}")
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT

captured() { "$@" >"$scratch/said" 2>"$scratch/also"; }
first_said() { sed -n 1p "$scratch/said"; }

captured demo/demo.sh "$program" "$scratch/out"
holds "the demo makes its programmes and their field year" "$(find "$scratch/out" -name '*.gpkg' | wc -l) programmes" $?
file=$scratch/out/merunai.gpkg
poor=$scratch/out/poor/ladang-lama.gpkg
[[ $("$program" settle "$file" --format json 2>/dev/null | grep -c dispatch) != 0 ]] ||
  captured demo/field_year.sh "$program" "$file"

# The due list in three different weeks.
for week in 2026-12-22 2027-01-12 2027-02-02; do
  captured "$program" due "$file" --today "$week"
  holds "due list of $week" "$(first_said)" $?
done
captured "$program" due "$file" --today 2027-02-02 --format json
/usr/bin/python3 - "$scratch/said" <<'END'
import json, sys
reply = json.load(open(sys.argv[1]))
table = next(t for t in reply["tables"] if t["name"] == "due")
names = [c["name"] for c in table["columns"]]
rank = [row[names.index("at_risk_per_day")]["value"] for row in table["rows"]]
known = [r for r in rank if r is not None]
assert known == sorted(known, reverse=True), rank
keys = {n["key"] for n in reply["workings"]}
for row in table["rows"]:
    for cell in row:
        assert not cell.get("opens") or cell["opens"] in keys, cell
END
holds "blocks are ranked by trees at risk per person-day, and every number opens" "due --format json" $?

# Calendar and money come from the year ahead.
for question in calendar money crew refill; do
  "$program" --help | grep -q "^  $question " || continue
  captured "$program" "$question" "$file" --today 2026-11-10
  holds "$question" "$(first_said)" $?
done

# Tomorrow's sheet, and its text.
captured "$program" sheet tomorrow "$file" --to "$scratch/sheets" --today 2027-02-02
pages=$(pdfinfo "$scratch/sheets/tomorrow.pdf" 2>/dev/null | awk '/^Pages/{print $2}')
[[ $pages == 1 ]]
holds "tomorrow's sheet is one A4 page" "$pages page" $?
letters=$(wc -m <"$scratch/sheets/tomorrow.txt")
[[ $letters -le 500 ]]
holds "and a text for the chat" "$letters characters" $?
for kind in walk pay; do
  captured "$program" sheet "$kind" "$file" --to "$scratch/sheets" --today 2026-11-23 --day 2026-11-16
  holds "sheet $kind" "$(tail -n 1 "$scratch/said")" $?
done

# A slip that breaks a rule is set aside; written again it counts; what is left over closes the ledger.
captured "$program" settle "$file" --today 2027-02-02
grep -q "B2-1118" "$scratch/said"
holds "a slip with 75 hours is set aside, not lost" "$(first_said)" $?
started=$(date +%s%N)
captured "$program" note slip "$file" --number B2-1118 --block B2 --day 2026-11-18 --people 11 --hours 7.5 --rows-done 1-71
holds "the slip typed back" "$(first_said) in $((($(date +%s%N) - started) / 1000000)) ms" $?
open_of() { # what is open in a block, as on a slip: "Name=3,Other=2"
  "$program" settle "$file" --today 2027-02-02 --format csv --table ledger 2>/dev/null |
    awk -F, -v block="$1" '{gsub(/\r/, "")} $1 == block && $7 + 0 > 0 {printf "%s%s=%s", n++ ? "," : "", $2, $7}'
}
for block in B1 B2; do
  captured "$program" note slip "$file" --number "$block-rest" --block "$block" --day 2026-11-19 --people 2 --hours 2 --returned "$(open_of $block)"
done
captured "$program" settle "$file" --today 2027-02-02
grep -q "^The account closes" "$scratch/said"
holds "the ledger closes" "$(first_said)" $?
captured "$program" pay "$file" --from 2026-11-16 --to 2026-11-22
holds "pay" "$(first_said)" $?
captured "$program" rates "$file" --today 2027-02-02
holds "own rates" "$(first_said)" $?
for question in due settle pay rates tomorrow; do
  captured "$program" "$question" "$file" --today 2027-02-02 --format json && /usr/bin/python3 -m json.tool "$scratch/said" >/dev/null
  holds "$question --format json" "$(wc -c <"$scratch/said") bytes" $?
done

# Names and places of incidents stay in the office.
captured "$program" export "$file" --to "$scratch/files"
if grep -rqlE "Rini \(invented\)|upper edge of B3" "$scratch/files"; then leaked=1; else leaked=0; fi
holds "no worker's name and no place of an incident in what export writes" "$(find "$scratch/files" -type f | wc -l) files" $leaked

# The poor programme gets its sheets too.
for kind in tomorrow walk pay; do
  captured "$program" sheet "$kind" "$poor" --to "$scratch/poor" --today 2026-11-20 --lang id
  holds "poor programme: sheet $kind" "$(tail -n 1 "$scratch/said")$(sed -n 1p "$scratch/also")" $?
done
shown_closing_line
