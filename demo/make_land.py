#!/usr/bin/env python3
"""Makes the invented land of the two demo programmes: boundaries, a river, one noisy phone walk.

demo/make_land.py FOLDER   writes invented_boundaries.geojson, invented_river.geojson, poor/invented_walk.gpx

River, sites and village do not exist; the coordinates only lie where such land could be, in the interior
lowland of Borneo. Shapes are drawn in metres east and north of an origin and turned into degrees with the
length of a degree at that latitude. Only the standard library; the same bytes every time.
"""
import json
import math
import pathlib
import sys

from make_weather import Numbers

ORIGIN_LON, ORIGIN_LAT = 113.2840, -0.8360
M_PER_DEG_LAT = 110_575.0
M_PER_DEG_LON = 111_309.0 * math.cos(math.radians(ORIGIN_LAT))
NOTE = "invented for a demonstration; no such place"


def river(along):
    """A point of the river's line, `along` in 0 to 1 from upstream (north-west) to downstream."""
    east = -1500 + 3600 * along
    north = 1150 - 1700 * along + 190 * math.sin(9.2 * along) + 60 * math.sin(23 * along + 1)
    return east, north


def lonlat(point, decimals=6):
    return [round(ORIGIN_LON + point[0] / M_PER_DEG_LON, decimals),
            round(ORIGIN_LAT + point[1] / M_PER_DEG_LAT, decimals)]


def ring(points):
    """A closed GeoJSON ring, counter-clockwise."""
    area = sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(points, points[1:] + points[:1]))
    ordered = points if area > 0 else points[::-1]
    return [lonlat(p) for p in ordered + ordered[:1]]


def along_river(begin, end, steps, offset):
    """Points beside the river, `offset` metres to its right (negative: left)."""
    points = []
    for i in range(steps + 1):
        at = begin + (end - begin) * i / steps
        x0, y0 = river(at - 0.001)
        x1, y1 = river(at + 0.001)
        length = math.hypot(x1 - x0, y1 - y0)
        x, y = river(at)
        points.append((x + offset * (y1 - y0) / length, y - offset * (x1 - x0) / length))
    return points


def blob(east, north, wide, high, turn_deg, corners, numbers):
    """A walked, uneven outline around an ellipse."""
    turn = math.radians(turn_deg)
    points = []
    for i in range(corners):
        angle = 2 * math.pi * i / corners
        stretch = 0.90 + 0.2 * numbers.uniform()
        x, y = wide / 2 * math.cos(angle) * stretch, high / 2 * math.sin(angle) * stretch
        points.append((east + x * math.cos(turn) - y * math.sin(turn), north + x * math.sin(turn) + y * math.cos(turn)))
    return points


def feature(site, ground_type, cover, slope_deg, polygons):
    properties = {"site": site, "ground_type": ground_type, "cover": cover, "slope_deg": slope_deg, "note": NOTE}
    rings = [[ring(r) for r in polygon] for polygon in polygons]
    if len(rings) == 1:
        geometry = {"type": "Polygon", "coordinates": rings[0]}
    else:
        geometry = {"type": "MultiPolygon", "coordinates": rings}
    return {"type": "Feature", "properties": properties, "geometry": geometry}


def boundaries():
    numbers = Numbers(41)
    bank = along_river(0.36, 0.60, 12, 15) + along_river(0.60, 0.36, 6, 125)
    foot = along_river(0.68, 0.83, 8, 15) + along_river(0.83, 0.68, 5, 185)
    slope = blob(-520, -480, 640, 410, 24, 26, numbers)
    rocks = blob(-560, -430, 70, 50, 10, 8, numbers)
    ferns = blob(1050, 920, 640, 480, -12, 30, numbers)
    hill_east = blob(1900, 330, 360, 290, 40, 16, numbers)
    hill_west = blob(1420, 420, 250, 220, 15, 14, numbers)
    return [
        feature("Merunai Bank", "river bank", "running_grass", 2, [[bank]]),
        feature("Old Cassava", "slope", "running_grass", 9, [[slope, rocks]]),
        feature("Fern Slope", "slope", "fern", 17, [[ferns]]),
        feature("Twin Hills", "slope", "fern", 14, [[hill_west], [hill_east]]),
        feature("Sago Foot", "wet foot", "shrubs", 1, [[foot]]),
    ]


def collection(name, features):
    """One feature a line, so that a change shows as a line."""
    lines = ",\n".join(json.dumps(f) for f in features)
    return f'{{"type": "FeatureCollection", "name": "{name}", "note": "{NOTE}", "features": [\n{lines}\n]}}\n'


def walk():
    """A phone carried round a field: fixes 3 to 10 m off that wander, and the walker stopped short of the start."""
    numbers = Numbers(8)
    corners = blob(-2600, -1900, 330, 240, 30, 18, numbers)
    east, north, lines = 0.0, 0.0, []
    second = 0
    path = []
    for a, b in zip(corners, corners[1:] + corners[:1]):
        path += [(a[0] + (b[0] - a[0]) * k / 6, a[1] + (b[1] - a[1]) * k / 6) for k in range(6)]
    for x, y in path[:-3]:
        east = 0.82 * east + 2.6 * numbers.bell()
        north = 0.82 * north + 2.6 * numbers.bell()
        off = math.hypot(east, north)
        if off > 10:
            east, north = 10 * east / off, 10 * north / off
        lon, lat = lonlat((x + east, y + north), 7)
        clock = f"2025-11-18T{1 + second // 3600:02d}:{second // 60 % 60:02d}:{second % 60:02d}Z"
        lines.append(f'      <trkpt lat="{lat}" lon="{lon}"><ele>{61 + 4 * numbers.bell():.1f}</ele><time>{clock}</time></trkpt>')
        second += 9 + int(7 * numbers.uniform())
    points = "\n".join(lines)
    return (f'<?xml version="1.0" encoding="UTF-8"?>\n<gpx version="1.1" creator="{NOTE}" '
            'xmlns="http://www.topografix.com/GPX/1/1">\n'
            f"  <trk>\n    <name>Ladang Lama</name>\n    <desc>{NOTE}</desc>\n    <trkseg>\n{points}\n"
            "    </trkseg>\n  </trk>\n</gpx>\n")


def main():
    folder = pathlib.Path(sys.argv[1])
    (folder / "poor").mkdir(parents=True, exist_ok=True)
    (folder / "invented_boundaries.geojson").write_text(collection("invented_boundaries", boundaries()))
    line = {"type": "Feature", "properties": {"name": "Sungai Merunai", "note": NOTE},
            "geometry": {"type": "LineString", "coordinates": [lonlat(river(i / 60)) for i in range(61)]}}
    (folder / "invented_river.geojson").write_text(collection("invented_river", [line]))
    (folder / "poor" / "invented_walk.gpx").write_text(walk())
    return 0


if __name__ == "__main__":
    sys.exit(main())
