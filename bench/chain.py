#!/usr/bin/env python3
"""The whole chain on one large site: seconds and memory of every command, and how they grow with the area.

bench/chain.py PROGRAM [HECTARES ...]    (1000 10000)

Makes an invented square site of that area, 30 species with ample stock and 30 invented years of weather,
takes them in, answers the four questions and plans. Prints per area the seconds, the largest memory and the
places planned, and for the second area the ratios to the first: ten times the area should cost at most
eleven times the time.
"""
import json
import math
import os
import pathlib
import subprocess
import sys
import tempfile
import time

ROOT = pathlib.Path(__file__).resolve().parent.parent
TODAY = "2026-02-02"
SPECIES = 30


def site(hectares):
    """A square of that area at 0.8 deg south, its sides bent every 50 m so that it has real corners."""
    side = math.sqrt(hectares * 10_000)
    steps = max(4, int(side // 50))
    edge = [(side * i / steps, 9 * math.sin(i)) for i in range(steps)]
    ring = []
    for quarter in range(4):
        for along, off in edge:
            ring.append([(along, off), (side - off, along), (side - along, side - off), (off, side - along)][quarter])
    lonlat = [[113.5 + x / 111_300, -0.8 + y / 110_575] for x, y in ring]
    return {"type": "FeatureCollection", "features": [{
        "type": "Feature", "properties": {"site": "Large (invented)", "ground_type": "slope", "cover": "fern"},
        "geometry": {"type": "Polygon", "coordinates": [lonlat + lonlat[:1]]}}]}


def species_table(hectares):
    library = (ROOT / "data/species/sundaland_trees.csv").read_text(encoding="utf-8").splitlines()[1:]
    names = [line.split(",")[0] for line in library][::2][:SPECIES]
    stock = int(hectares * 1400 / SPECIES * 3)
    lines = ["scientific_name,seedlings_ready,can_raise,mother_trees,price_per_seedling,nursery"]
    for number, name in enumerate(names):
        lines.append(f"{name},{stock // 3},{stock},{20 + number},{2500 + 100 * number},Large (invented)")
    return "\n".join(lines) + "\n"


def measured(program, *arguments):
    """Seconds, largest resident memory in MB, and what the program wrote to stderr."""
    begin = time.monotonic()
    with tempfile.TemporaryFile() as err:
        process = subprocess.Popen([program, *map(str, arguments)], stdout=subprocess.DEVNULL, stderr=err)
        _, status, usage = os.wait4(process.pid, 0)
        process.returncode = os.waitstatus_to_exitcode(status)
        err.seek(0)
        text = err.read().decode()
    if process.returncode != 0:
        sys.exit(f"{' '.join(map(str, arguments))}: status {process.returncode}\n{text}")
    return time.monotonic() - begin, usage.ru_maxrss / 1024, text


def chain(program, hectares, folder):
    """One row (command, seconds, MB) per command, and what `plan -v` says about its rooms."""
    file = folder / f"{hectares}.gpkg"
    inputs = {"site.geojson": json.dumps(site(hectares)), "species.csv": species_table(hectares)}
    for name, text in inputs.items():
        (folder / name).write_text(text, encoding="utf-8")
    with open(folder / "weather.csv", "w", encoding="utf-8") as weather:
        subprocess.run([sys.executable, "-B", ROOT / "demo/make_weather.py", "--years", "30"], stdout=weather, check=True)
    commands = [
        ("new", ["new", file, "--name", "Large (invented)", "--spacing", "2.7", "--today", TODAY]),
        ("take boundary", ["take", "boundary", file, folder / "site.geojson"]),
        ("take weather", ["take", "weather", file, folder / "weather.csv"]),
        ("take species", ["take", "species", file, folder / "species.csv"]),
        ("answer", ["answer", file, "--all", "--who", "bench", "--on", TODAY, "--consent", "yes",
                    "--fire-and-cattle", "yes", "--natural-trees", "50", "--drained-peat", "no"]),
        ("plan", ["plan", file, "-v", "--seed", "1", "--today", TODAY]),
        ("show", ["show", file, "--format", "json"]),
        ("export", ["export", file, "--to", folder / f"files-{hectares}"]),
    ]
    rows, rooms = [], ""
    for name, arguments in commands:
        seconds, peak, text = measured(program, *arguments)
        rows.append((name, seconds, peak))
        if name == "plan":
            rooms = text
    return rows, rooms


def main():
    program = str(pathlib.Path(sys.argv[1]).resolve())
    areas = [int(a) for a in sys.argv[2:]] or [1000, 10000]
    first = {}
    for hectares in areas:
        with tempfile.TemporaryDirectory(prefix="chain-") as folder:
            rows, rooms = chain(program, hectares, pathlib.Path(folder))
        rows.append(("together", sum(r[1] for r in rows), max(r[2] for r in rows)))
        print(f"{hectares} ha, {SPECIES} species, 30 years of weather")
        for name, seconds, peak in rows:
            ratio = f"   {seconds / first[name]:6.2f} x {areas[0]} ha" if name in first else ""
            print(f"  {name:<16} {seconds:8.2f} s {peak:8.0f} MB{ratio}")
        if rooms:
            print("  rooms, as plan -v says:")
            print("    " + rooms.rstrip().replace("\n", "\n    "))
        first = first or {name: seconds for name, seconds, _ in rows}
    return 0


if __name__ == "__main__":
    sys.exit(main())
