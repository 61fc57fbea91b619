#!/bin/bash
# tests/shown/C.sh [--fuzz SECONDS] [--without-bench] [--without-demo]: what was promised of the weather room, each
# claim by the command that shows it, with its figure. The last line is "N passed, N failed".
set -uo pipefail
cd "$(dirname "$0")/../.." || exit 1
# shellcheck source=tests/shown/lib.sh
. tests/shown/lib.sh
bench=yes demo=yes seconds=600
while [[ $# != 0 ]]; do
  case $1 in
    --without-bench) bench=no ;;
    --without-demo) demo=no ;;
    --fuzz) seconds=$2 && shift ;;
    *) echo "usage: $0 [--fuzz SECONDS] [--without-bench] [--without-demo]" >&2 && exit 2 ;;
  esac
  shift
done
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
captured() { "$@" >"$scratch/said" 2>&1; }
last_said() { tail -n 1 "$scratch/said"; }

[[ $demo == no ]] || captured ./dev demo
program=build/release/wildling
[[ -x $program ]] || program=build/dev/wildling

captured tools/make_weather_examples.sh "$program" --check
status=$?
holds "docs/weather.md is what the program prints" "$(last_said)" $status

captured ctest --preset dev -L climate
status=$?
holds "every reference case of the climate room" "$(grep -o '[0-9]*% tests passed.*' "$scratch/said")" $status
captured ctest --preset dev -R "WeatherReply|Today\.|OneGate|DayNote"
status=$?
holds "every gate closes alone, every number opens, both languages" "$(grep -o '[0-9]*% tests passed.*' "$scratch/said")" $status

if ((seconds > 0)); then
  captured cmake --preset asan
  captured cmake --build build/asan --target fuzz_intake_weather
  mkdir -p "$scratch/corpus"
  captured build/asan/fuzzers/fuzz_intake_weather "$scratch/corpus" tests/fuzz/corpus/intake_weather -max_total_time="$seconds" -print_final_stats=1
  status=$?
  holds "fuzz of the weather reader, $seconds s" "$(grep -o 'number_of_executed_units: *[0-9]*' "$scratch/said" | tail -n 1)" $status
fi
if [[ $bench == yes ]]; then
  captured ./dev bench
  status=$?
  holds "bench of the climate room" "lines below" $status
  grep -iE "climate|hindcast|base R" "$scratch/said" | sed 's/^/    /'
fi
shown_closing_line
