#!/bin/bash
# Makes the generated demo inputs again; with --check into a scratch folder, and fails when one differs.
set -euo pipefail
cd "$(dirname "$0")"
into=.
if [[ ${1:-} == --check ]]; then
  into=$(mktemp -d)
  trap 'rm -rf "$into"' EXIT
fi
export PYTHONDONTWRITEBYTECODE=1
/usr/bin/python3 make_land.py "$into"
/usr/bin/python3 make_elevation.py >"$into/invented_elevation.asc"
/usr/bin/python3 make_weather.py >"$into/invented_weather.csv"
/usr/bin/python3 make_weather.py --poor --seed 7 >"$into/poor/invented_rain.csv"
if [[ $into != . ]]; then
  for file in invented_boundaries.geojson invented_river.geojson invented_elevation.asc invented_weather.csv poor/invented_rain.csv poor/invented_walk.gpx; do
    cmp "$file" "$into/$file"
  done
  echo "the generated demo files are what the generators write"
fi
