#!/usr/bin/env python3
"""summary_numbers.py SUMMARY.txt SHOW.json: every number of the summary's text must be a number of the JSON,
rounded as it is shown. Numbers inside names ("B3", "2026-02-02", "kg") are left alone."""
import json
import re
import sys


def numbers_of(value, found):
    """Every number of the JSON, and every number inside its strings."""
    if isinstance(value, bool) or value is None:
        return
    if isinstance(value, (int, float)):
        found.append(float(value))
    elif isinstance(value, str):
        found.extend(float(n) for n in re.findall(r"-?\d+(?:\.\d+)?", value))
    elif isinstance(value, dict):
        for key, inner in value.items():
            found.extend(float(n) for n in re.findall(r"\d+", key))
            numbers_of(inner, found)
    else:
        found.append(float(len(value)))
        for inner in value:
            numbers_of(inner, found)


def main():
    text = open(sys.argv[1], encoding="utf-8").read()
    with open(sys.argv[2], encoding="utf-8") as handle:
        known = []
        numbers_of(json.load(handle), known)
    shown = re.findall(r"(?<![\w.,-])\d{1,3}(?:,\d{3})+(?:\.\d+)?(?![\w])|(?<![\w.,-])\d+(?:\.\d+)?(?![\w])", text)
    missing = []
    for number in shown:
        plain = number.replace(",", "")
        decimals = len(plain.partition(".")[2])
        value, half = float(plain), 0.5001 * 10.0 ** -decimals
        if not any(abs(k - value) <= half or abs(100 * k - value) <= half for k in known):
            missing.append(number)
    for number in missing:
        print(f"{number} of the summary is not in the JSON")
    print(f"{len(shown)} numbers in the summary, {len(known)} in the JSON, {len(missing)} missing")
    return 1 if missing or not shown else 0


if __name__ == "__main__":
    sys.exit(main())
