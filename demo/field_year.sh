#!/bin/bash
# demo/field_year.sh PROGRAM FILE [LANGUAGE]: writes a field year into the planned demo programme: a look before
# planting, seedlings sent out, return slips, work diary, walks, a near miss. People, numbers and days are invented; the
# days are fixed, so that every run gives the same book. One slip is wrong and stays set aside: tests/shown/D.sh settles it.
set -euo pipefail
program=$(realpath "$1")
file=$2
language=${3:-en}

note() {
  local kind=$1
  shift
  "$program" note "$kind" "$file" --lang "$language" --as "office (invented)" "$@"
}

# Looked at before planting, on the last day of the weather log: `wildling today FILE --today 2025-12-31` says plant at
# Fern Slope and B1, wait at B2 and B3, and asks for a look everywhere else.
look() {
  note look --day 2025-12-31 --today 2025-12-31 --strip-cleared yes --pits-dug yes --stock-ready yes --pit-drains yes \
    --river-not-rising yes --crew-and-way-in yes "$@"
}
look --block "Fern Slope" --block B1 --soil moist
look --block B2 --block B3 --soil dry

note wage --per-day 150000 --from 2026-10-01
note wage --who "Adi (invented)" --per-day 180000 --from 2026-10-01

# Planting, 16 to 19 November 2026.
note dispatch --block B1 --day 2026-11-16 --number 101 --as-printed yes
note dispatch --block B2 --day 2026-11-18 --number 102 --as-printed yes
note slip --number B1-1116 --block B1 --day 2026-11-16 --people 12 --hours 7.5 --rows-done 1-34 --checked 16 --faults 2 --leader "Adi (invented)"
note slip --number B1-1117 --block B1 --day 2026-11-17 --people 12 --hours 7 --rows-done 35-69 --checked 16 --faults 1 --leader "Adi (invented)"
note slip --number B2-1118 --block B2 --day 2026-11-18 --people 11 --hours 75 --rows-done 1-71 --leader "Rini (invented)"
note work --who "Adi (invented)" --who "Joko (invented)" --who "Rini (invented)" --who "Sari (invented)" --sex man --sex man --sex woman --sex woman \
  --day 2026-11-16 --block B1 --job plant --hours 7.5 --quantity 380
note work --who "Adi (invented)" --who "Joko (invented)" --who "Rini (invented)" --who "Sari (invented)" --sex man --sex man --sex woman --sex woman \
  --day 2026-11-17 --block B1 --job plant --hours 7 --quantity 350
note work --who "Rini (invented)" --sex woman --day 2026-11-18 --block B2 --job plant --hours 26
note work --who "Joko (invented)" --sex man --day 2026-11-20 --block B3 --job plant --hours 6

# Walks, and one round.
note walk --block B1 --day 2026-12-21 --cover running_grass --picture 2 --climbed 0 --dry 0 --today 2026-12-21
note walk --block B3 --day 2026-12-21 --cover running_grass --height 18 --today 2026-12-21
note walk --block B1 --day 2027-01-11 --cover running_grass --picture 3 --climbed 1 --animals "pig tracks at the stream" --today 2027-01-11
note walk --block B3 --day 2027-01-11 --cover running_grass --picture 4 --climbed 2 --today 2027-01-11
note work --who "Adi (invented)" --who "Sari (invented)" --sex man --sex woman --day 2027-01-13 --block B3 --job ring --hours 8 --quantity 620
note walk --block B1 --day 2027-02-01 --cover running_grass --picture 4 --climbed 3 --today 2027-02-01
note walk --block B3 --day 2027-02-01 --cover running_grass --height 22 --today 2027-02-01

# Tomorrow, 3 February 2027.
note send --leader "Adi (invented)" --day 2027-02-03 --block B1 --job ring --people 10 --place "depot at the ford (invented)" --hour 06:30 --help-at "clinic (invented), 000 000"
note tool --tool machetes --needed 10 --there 8 --day 2027-02-03 --block B1
note trouble --day 2027-01-13 --kind near_miss --what "a blade slipped, nobody hurt" --place "upper edge of B3" --done "blades ground, two arm lengths kept"
