#!/bin/bash
# demo/demo.sh PROGRAM OUT [LANGUAGE]: makes both demo programmes with the command line, plans them and
# writes everything a field office would take away into OUT. Prints the summary a manager reads first.
# The dates are fixed, so that every run gives the same files.
set -euo pipefail
given=$1
program=$(realpath "$given")
out=$2
language=${3:-en}
here=$(cd "$(dirname "$0")" && pwd)
today=2026-02-02
looked=2025-12-31 # the day of the looks in field_year.sh

rm -rf "$out"
mkdir -p "$out/poor"
w() { "$program" "$@" --lang "$language"; }
quiet() { w "$@" >>"$out/log.txt"; }

# The programme: five sites beside the river Merunai.
file=$out/merunai.gpkg
quiet new "$file" --name "Merunai (invented)" --spacing 2.7 --today "$today"
quiet take boundary "$file" "$here/invented_boundaries.geojson"
quiet take water "$file" "$here/invented_river.geojson"
quiet take weather "$file" "$here/invented_weather.csv" --station "Luak Bening (invented)" --lon 113.2815 --lat -0.8342 --elevation 54
quiet take species "$file" "$here/invented_species.csv"
quiet take elevation "$file" "$here/invented_elevation.asc" --crs EPSG:4326

# The four questions, answered site by site. Nobody has asked about Twin Hills yet; Sago Foot is drained peat.
answer() {
  local site=$1 who=$2
  shift 2
  quiet answer "$file" "$site" --who "$who" --on 2026-01-15 "$@"
}
answer "Merunai Bank" "village land committee" --consent yes --fire-and-cattle yes --natural-trees 140 --drained-peat no
answer "Old Cassava" "village land committee" --consent yes --fire-and-cattle yes --natural-trees 60 --drained-peat no
answer "Fern Slope" "village land committee" --consent yes --fire-and-cattle yes --natural-trees 35 --drained-peat no
answer "Twin Hills" "forest guard" --fire-and-cattle yes --natural-trees 85 --drained-peat no
answer "Sago Foot" "field manager" --consent yes --fire-and-cattle yes --natural-trees 320 --drained-peat yes

quiet plan "$file" --seed 20260202 --today "$today"
w show "$file"
quiet export "$file" --to "$out/files"

# The poor programme: little is known, and the plan says which.
poor=$out/poor/ladang-lama.gpkg
quiet new "$poor" --name "Ladang Lama (invented)" --spacing 2.7 --today "$today"
quiet take boundary "$poor" "$here/poor/invented_walk.gpx"
quiet take weather "$poor" "$here/poor/invented_rain.csv" --station "Ladang Lama (invented)"
quiet take species "$poor" "$here/poor/invented_species.csv"
quiet answer "$poor" "Ladang Lama" --who "owner of the field" --on 2026-01-20 --consent yes --fire-and-cattle yes --natural-trees not-counted --drained-peat no
quiet plan "$poor" --seed 20260202 --today "$today"
echo
w show "$poor"
quiet export "$poor" --to "$out/poor/files"

# The field year of the first programme, as it would come back on paper.
"$here/field_year.sh" "$program" "$file" "$language" >>"$out/log.txt"

# The same in the browser, and the advice of the last day of the weather log.
echo
if [[ $language == id ]]; then
  echo "Untuk melihatnya di peramban: $given open $file --today $today"
  echo "Boleh menanam hari ini? $given today $file --today $looked --lang id"
else
  echo "To see it in the browser: $given open $file --today $today"
  echo "Is today a planting day? $given today $file --today $looked"
fi
