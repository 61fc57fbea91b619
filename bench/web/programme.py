#!/usr/bin/env python3
"""bench/web/programme.py PROGRAM FILE HECTARES: an invented programme of that area with its plan, for measuring the page.

The same land, species and weather as bench/chain.py; nothing is made when FILE is there.
"""
import json
import pathlib
import subprocess
import sys
import tempfile

ROOT = pathlib.Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT / "bench"))
import chain  # noqa: E402


def main():
    program, file, hectares = sys.argv[1], pathlib.Path(sys.argv[2]).resolve(), int(sys.argv[3])
    if file.exists():
        return 0
    file.parent.mkdir(parents=True, exist_ok=True)
    unfinished = file.with_suffix(".unfinished.gpkg")
    unfinished.unlink(missing_ok=True)
    with tempfile.TemporaryDirectory(prefix="page-") as name:
        folder = pathlib.Path(name)
        (folder / "site.geojson").write_text(json.dumps(chain.site(hectares)), encoding="utf-8")
        (folder / "species.csv").write_text(chain.species_table(hectares), encoding="utf-8")
        with open(folder / "weather.csv", "w", encoding="utf-8") as weather:
            subprocess.run([sys.executable, "-B", ROOT / "demo/make_weather.py", "--years", "30"], stdout=weather,
                           check=True)
        for command in (["new", unfinished, "--name", "Large (invented)", "--spacing", "2.7", "--today", chain.TODAY],
                        ["take", "boundary", unfinished, folder / "site.geojson"],
                        ["take", "weather", unfinished, folder / "weather.csv"],
                        ["take", "species", unfinished, folder / "species.csv"],
                        ["answer", unfinished, "--all", "--who", "bench", "--on", chain.TODAY, "--consent", "yes",
                         "--fire-and-cattle", "yes", "--natural-trees", "50", "--drained-peat", "no"],
                        ["plan", unfinished, "--seed", "1", "--today", chain.TODAY]):
            chain.measured(program, *command)
    unfinished.rename(file)
    return 0


if __name__ == "__main__":
    sys.exit(main())
