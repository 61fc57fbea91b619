#!/usr/bin/env python3
"""Fails when a room includes a sibling, a room above it, or one its wildling_room line does not name."""
import pathlib
import re
import sys

ROOT = pathlib.Path(__file__).resolve().parent.parent
FLOORS = [
    ["base"], ["stat"], ["climate", "ground", "species"],
    ["mix", "layout", "nursery", "tending", "survey"], ["forest"],
    ["store", "intake", "export"], ["plan"], ["cli", "desk", "paper"],
]
FLOOR = {room: number for number, rooms in enumerate(FLOORS) for room in rooms}


def declared():
    text = (ROOT / "CMakeLists.txt").read_text()
    rooms = {}
    for match in re.finditer(r"wildling_room\((\w+)([^)]*)\)", text):
        rooms[match.group(1)] = set(re.findall(r"wildling::(\w+)", match.group(2)))
    return rooms


def main():
    depends = declared()
    faults = []
    for folder in sorted((ROOT / "src").iterdir()):
        if not folder.is_dir():
            continue
        room = folder.name
        if room not in FLOOR:
            faults.append(f"src/{room}: not a room of the floor plan")
            continue
        for source in sorted(folder.rglob("*.[ch]pp")):
            for number, line in enumerate(source.read_text().splitlines(), 1):
                match = re.match(r'\s*#\s*include\s+"(\w+)/', line)
                if not match or match.group(1) == room:
                    continue
                other = match.group(1)
                where = f"{source.relative_to(ROOT)}:{number}"
                if other not in FLOOR:
                    faults.append(f"{where}: {other} is not a room")
                elif FLOOR[other] >= FLOOR[room]:
                    faults.append(f"{where}: {room} (floor {FLOOR[room]}) includes {other} (floor {FLOOR[other]})")
                elif other not in depends.get(room, set()):
                    faults.append(f"{where}: {other} is not named in wildling_room({room} ...)")
    for fault in faults:
        print(fault)
    print(f"{len(FLOOR)} rooms in the plan, {len(faults)} faults")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
