#!/usr/bin/env python3
"""indonesian_sheets.py PDF...: fails when an English word of the word files stands on an Indonesian sheet.

An English word of the word files is a word of four letters or more that an English pattern has, no
Indonesian pattern has, and that does not come from the programme's own inputs (names, notes).
"""
import json
import pathlib
import re
import subprocess
import sys

ROOT = pathlib.Path(__file__).resolve().parent.parent.parent


def words_of(text):
    return {w.lower() for w in re.findall(r"[A-Za-z]{4,}", text)}


def literal_text(pattern, at=0):
    """The words of a MessageFormat pattern that reach the paper: (text, index after the message).

    Names of arguments, their types and styles, and the selectors of plural and select do not.
    """
    text = ""
    while at < len(pattern) and pattern[at] != "}":
        if pattern[at] != "{":
            text += pattern[at]
            at += 1
            continue
        head = re.match(r"\{\s*\w+\s*(?:,\s*(\w+)\s*,?)?", pattern[at:])
        at += head.end()
        if head.group(1) in ("plural", "select", "selectordinal"):
            while pattern[at] != "}":
                at = pattern.index("{", at) + 1  # over the selector
                inner, at = literal_text(pattern, at)
                text += " " + inner
                at = re.compile(r"\s*").match(pattern, at + 1).end()
        else:
            at = pattern.index("}", at)
        text += " "
        at += 1
    return text, at


def catalogue(language):
    """Every word of the literal text of every pattern."""
    found = set()
    for file in sorted((ROOT / "data/words").glob(f"*.{language}.json")):
        for pattern in json.loads(file.read_text(encoding="utf-8")).values():
            found |= words_of(literal_text(pattern)[0])
    return found


def main():
    inputs = set()
    for file in list((ROOT / "demo").rglob("*.*")) + [ROOT / "data/species/sundaland_trees.csv"]:
        if file.suffix in (".csv", ".geojson", ".gpx", ".sh"):
            inputs |= words_of(file.read_text(encoding="utf-8"))
    english = catalogue("en") - catalogue("id") - inputs
    if len(english) < 100:
        sys.exit(f"only {len(english)} English words: the word files were not read")
    faults, read = [], 0
    for name in sys.argv[1:]:
        text = subprocess.run(["pdftotext", name, "-"], stdout=subprocess.PIPE, check=True, text=True).stdout
        # Species codes stand in groups of capitals; no sentence is written in capitals.
        found = words_of(re.sub(r"\b[A-Z]{2,}\b", " ", text))
        read += len(found)
        faults += [f"{pathlib.Path(name).name}: {word}" for word in sorted(found & english)]
    for fault in faults:
        print(fault)
    print(f"{len(sys.argv) - 1} sheets, {read} words, {len(english)} English words looked for, {len(faults)} found")
    return 1 if faults or read == 0 else 0


if __name__ == "__main__":
    sys.exit(main())
