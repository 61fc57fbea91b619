#!/usr/bin/env python3
"""Makes the invented elevation model of the demo's land, an Arc/Info ASCII grid in degrees (EPSG:4326) on standard output.

Hills stand behind the sites that slope and the river of make_land.py runs in a valley; the ground does not exist. Only
the standard library; the same bytes every time.
"""
import math
import sys

from make_land import M_PER_DEG_LAT, M_PER_DEG_LON, ORIGIN_LAT, ORIGIN_LON, river

CELL_DEG = 0.000225  # about 25 m
WEST, SOUTH, COLUMNS, ROWS = 113.2655, -0.8475, 190, 124
FLOOR_M, VALLEY_M, VALLEY_WIDE_M = 42.0, 7.0, 260.0
# east, north, height, reach: metres from the origin of make_land.py
HILLS = [(1150, 1380, 165, 520), (1480, 330, 44, 170), (1900, 390, 48, 180), (-700, -820, 72, 400),
         (-1250, 1050, 110, 560), (500, -1500, 140, 640), (2700, -900, 120, 560), (150, 1250, 80, 420)]


def height(east, north, bends):
    away = min(math.hypot(east - x, north - y) for x, y in bends)
    ground = FLOOR_M + VALLEY_M * (1 - math.exp(-(away / VALLEY_WIDE_M) ** 2))
    for x, y, high, reach in HILLS:
        ground += high * math.exp(-((east - x) ** 2 + (north - y) ** 2) / reach ** 2)
    rough = min(1.0, away / 500)
    return ground + rough * (4 * math.sin(east / 95 + north / 210) * math.sin(north / 120 - east / 340)
                             + 2 * math.sin(east / 47 - 1) * math.sin(north / 53 + 2))


def main():
    bends = [river(i / 80) for i in range(-20, 101)]
    out = [f"ncols {COLUMNS}", f"nrows {ROWS}", f"xllcorner {WEST}", f"yllcorner {SOUTH}", f"cellsize {CELL_DEG}",
           "NODATA_value -9999"]
    for row in range(ROWS):
        north = (SOUTH + (ROWS - row - 0.5) * CELL_DEG - ORIGIN_LAT) * M_PER_DEG_LAT
        cells = []
        for column in range(COLUMNS):
            east = (WEST + (column + 0.5) * CELL_DEG - ORIGIN_LON) * M_PER_DEG_LON
            cells.append(f"{height(east, north, bends):.1f}")
        out.append(" ".join(cells))
    sys.stdout.write("\n".join(out) + "\n")


if __name__ == "__main__":
    main()
