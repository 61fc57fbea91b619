#!/bin/bash
# tests/shown/outputs.sh DEMO_OUT: what the demo wrote, read by programs that are not ours. Prints one
# line per check with its figure and "N passed, N failed"; exit 1 when a check does not hold.
set -uo pipefail
out=$(realpath "$1")
source=$(cd "$(dirname "$0")/../.." && pwd)
# shellcheck source=tests/shown/lib.sh
. "$source/tests/shown/lib.sh"

mapfile -t packages < <(find "$out" -name '*.gpkg' | sort)
mapfile -t tables < <(find "$out" -name '*.csv' | sort)
mapfile -t tracks < <(find "$out" -name '*.gpx' | sort)
mapfile -t papers < <(find "$out" -name '*.pdf' | sort)
mapfile -t pictures < <(find "$out" -name '*.svg' | sort)
mapfile -t images < <(find "$out" -name '*.png' | sort)
for kind in packages tables tracks papers pictures images; do
  declare -n files=$kind
  ((${#files[@]} > 0))
  holds "$kind were written" "${#files[@]} files" $?
done

for file in "${packages[@]}"; do
  text=$(/usr/bin/python3 -m osgeo_utils.samples.validate_gpkg "$file" 2>&1)
  status=$?
  holds "OGC requirements of ${file#"$out"/}" "$(tail -n 1 <<<"${text:-valid}")" $status
  text=$(ogrinfo -so "$file" 2>&1)
  status=$?
  layers=$(grep -c '^[0-9]*: ' <<<"$text")
  ((layers > 0)) || status=1
  holds "ogrinfo lists the layers of ${file#"$out"/}" "$layers layers" $status
done

text=$(for file in "${tracks[@]}" "${pictures[@]}"; do xmllint --noout "$file" 2>&1 || echo "$file"; done)
holds_nothing "GPX and SVG are well-formed" "$((${#tracks[@]} + ${#pictures[@]})) files" "$text"

text=$(for file in "${tracks[@]}"; do ogrinfo -so -al "$file" >/dev/null 2>&1 || echo "$file"; done)
holds_nothing "another program opens every GPX" "${#tracks[@]} files" "$text"

text=$(/usr/bin/python3 "$source/tests/shown/tables.py" "${tables[@]}" 2>&1)
holds "tables are rectangular and hold no formula" "$text" $?

text=$(for file in "${papers[@]}"; do pdffonts "$file" | tail -n +3; done)
names=$(awk 'NF { sub(/^[A-Z]*\+/, "", $1); print $1 }' <<<"$text" | sort -u | tr '\n' ' ')
holds_nothing "every font on paper is embedded" "${names:-no font}" "$(awk 'NF && $(NF-4) != "yes"' <<<"$text")"
foreign=$(for name in $names; do
  find "$source/data/fonts" -name "${name%%-*}*" | grep -q . || echo "$name"
done)
holds_nothing "every font on paper is one we ship" "$(wc -w <<<"$names") fonts" "${foreign}$([[ -n $names ]] || echo none)"

text=$(for file in "${papers[@]}"; do
  about=$(pdfinfo "$file")
  [[ $about == *"(A4)"* ]] || echo "$file is not A4"
  pages=$(awk '/^Pages:/ { print $2 }' <<<"$about")
  for ((page = 1; page <= pages; page++)); do
    [[ -n $(pdftotext -f "$page" -l "$page" "$file" - | tr -d '[:space:]') ]] || echo "$file page $page is empty"
  done
done)
pages=$(for file in "${papers[@]}"; do pdfinfo "$file" | awk '/^Pages:/ { print $2 }'; done | awk '{ s += $1 } END { print s + 0 }')
holds_nothing "paper is A4 and no page is empty" "${#papers[@]} files, $pages pages" "$text"

text=$(for file in "${images[@]}"; do [[ $(head -c 4 "$file" | tail -c 3) == PNG ]] || echo "$file"; done)
holds_nothing "pictures are pictures" "${#images[@]} PNG" "$text"

shown_closing_line
