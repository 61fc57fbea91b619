#!/usr/bin/env python3
"""tables.py CSV...: fails when a table is not rectangular or a spreadsheet would compute one of its cells."""
import csv
import sys


def is_number(text):
    try:
        float(text)
    except ValueError:
        return False
    return True


def main():
    rows = 0
    for name in sys.argv[1:]:
        with open(name, encoding="utf-8-sig", newline="") as handle:
            table = list(csv.reader(handle))
        rows += len(table)
        widths = sorted({len(row) for row in table})
        if len(widths) != 1:
            sys.exit(f"{name}: rows of {widths} cells")
        for number, row in enumerate(table, 1):
            for cell in row:
                if cell[:1] in ("=", "@", "\t", "\r", "+", "-") and not is_number(cell):
                    sys.exit(f"{name}:{number}: a spreadsheet would compute {cell!r}")
    print(f"{len(sys.argv) - 1} tables, {rows} rows")


if __name__ == "__main__":
    main()
