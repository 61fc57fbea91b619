#!/bin/bash
# tools/make_weather_examples.sh PROGRAM [--check]: writes docs/weather.md from what the program prints on the
# demo; with --check it fails when the page is not what the program prints today. The demo is made anew in a
# temporary folder, and the looks, walks and readings used here are invented.
set -euo pipefail
program=$(realpath "$1")
mode=${2:-write}
source=$(cd "$(dirname "$0")/.." && pwd)
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
"$source/demo/demo.sh" "$program" "$scratch/demo" >/dev/null
cd "$scratch/demo"
page=$scratch/weather.md

# shown COMMAND...: the command and what it prints, as a block of code.
shown() {
  {
    printf '    $ wildling'
    printf ' %q' "$@"
    printf '\n'
    "$program" "$@" | sed -e 's/^/    /' -e 's/ *$//'
    printf '\n'
  } >>"$page"
}
note() { "$program" note "$@" >/dev/null; }
heading() { printf '## %s\n%s\n\n' "$1" "$2" >>"$page"; }
day() { shown today merunai.gpkg --block "$1" --today "$2"; }

look() {
  note look merunai.gpkg --block "$1" --day "$2" --today "$2" --soil "$3" --strip-cleared yes --pits-dug yes \
    --stock-ready yes --pit-drains yes --river-not-rising yes --crew-and-way-in yes --as "field manager (invented)"
}

cat >"$page" <<'TEXT'
# The weather room on the demo

Every command below was run on the invented demo programme (`demo/demo.sh`), and this page was written from what it printed
by `tools/make_weather_examples.sh`; a check compares the two. Weather, looks and names are invented. How each number is
computed: [climate.md](climate.md); what this room adds stands at the end.

TEXT

heading "A day in the rains: everything looked at" "Somebody poked the soil at Fern Slope this morning and found it moist to the bottom of the pit."
look "Fern Slope" 2025-11-20 moist
day "Fern Slope" 2025-11-20
heading "The same week: the spade says dry" "The balance of the log holds water, the spade does not; the spade decides."
look "Fern Slope" 2025-11-24 dry
day B17 2025-11-24
heading "A day when nobody has looked" "What is not known is said, with the safe act and the cheapest look that would settle it."
day B1 2025-02-12
heading "The dry months of a bad year" "The weeks with a good record are far: what happens to the stock, and what each costs."
look B7 2019-08-20 dry
day B7 2019-08-20
heading "A log that has ended" "Seventy-four days after the last reading."
day B1 2026-03-15
heading "Peat" "On drained peat and flooded ground the balance is off."
day B38 2025-11-20
heading "Was the advice right in the past?" "Good or poor, as it is."
shown hindcast merunai.gpkg --today 2025-12-31
heading "Does the climate here change?" "Eleven invented years."
shown trend merunai.gpkg --today 2025-12-31
heading "A day of high fire danger" "In the long dry season; then the manager has seen smoke."
shown fire merunai.gpkg --today 2019-08-20
note fire-word merunai.gpkg --day 2019-08-20 --today 2019-08-20 --class extreme --why "smoke beyond the river" --as "field manager (invented)"
shown fire merunai.gpkg --today 2019-08-20
heading "A hot day and a usual one" "Only days worse than this site's usual are flagged."
shown heat merunai.gpkg --today 2019-08-20
shown heat merunai.gpkg --today 2025-11-20
heading "The poor programme" "Twenty-two months of rain read by hand, nothing else."
shown today poor/ladang-lama.gpkg --today 2026-02-02
shown trend poor/ladang-lama.gpkg --today 2026-02-02

cat >>"$page" <<'TEXT'
## What this room adds to the climate room's numbers
- A gate is 1 or 0; the verdict is *plant* when every gate is 1. Unanswered is 0. The gate of the years is open when good years
  are at least `climate.window.least_share` of the judged ones, or none could be judged.
- An answer of a look counts `weather.look_days`, soil, river and staff gauge `weather.fresh_days`. The newest answer to each
  question counts, so that a look at the soil alone does not undo yesterday's look at the pits.
- No advice is given where the log is too old and no gate was answered with no; *not this season* where the weeks with a good
  record are further away than `climate.advice.hold_days`.
- Cost of waiting: seedlings ready / 1000 x days x hours of `weather.stock.*`; wages = hours / hours of a workday x wage of a day;
  water between the two published ends of `nursery.water.*`.
- Today's heat is that of the newest day with temperatures; today's fire class takes missing days at the log's end as dry.
- Answers for an earlier `--today` use nothing later in the log.
TEXT
if [[ $mode == --check ]]; then
  cmp -s "$page" "$source/docs/weather.md" || { diff "$source/docs/weather.md" "$page" | head -20; exit 1; }
  echo "docs/weather.md is what the program prints: $(grep -c '^    \$ ' "$page") commands, $(wc -l <"$page") lines"
else
  cp "$page" "$source/docs/weather.md"
  echo "docs/weather.md: $(grep -c '^    \$ ' "$page") commands, $(wc -l <"$page") lines"
fi
