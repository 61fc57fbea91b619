#!/usr/bin/env python3
"""Makes data/fonts from the npm packages @expo-google-fonts/source-sans-3 and -serif-4 (both 0.4.1).

Usage: make_fonts.py SANS_PACKAGE SERIF_PACKAGE OUT   (needs Debian's python3-fonttools)
Keeps the Latin letters, signs and figure styles that the sheets use. The licence (SIL OFL 1.1) asks that a
changed font does not carry the reserved name "Source", so the subsets are called Wildling Sans and Wildling Serif.
"""
import pathlib
import sys

from fontTools import subset
from fontTools.ttLib import TTFont

CHARACTERS = [*range(0x20, 0x7F), *range(0xA0, 0x180), 0x2010, 0x2011, 0x2012, 0x2013, 0x2014, 0x2018, 0x2019,
              0x201C, 0x201D, 0x2022, 0x2026, 0x2032, 0x2033, 0x2190, 0x2191, 0x2192, 0x2193, 0x2212, 0x2248,
              0x2264, 0x2265, 0x2070, *range(0x2074, 0x207A), *range(0x2080, 0x208A), 0x2009, 0x202F]
FACES = [("sans", "400Regular", "Regular"), ("sans", "400Regular_Italic", "Italic"), ("sans", "700Bold", "Bold"),
         ("serif", "400Regular", "Regular"), ("serif", "400Regular_Italic", "Italic"), ("serif", "700Bold", "Bold")]


def rename(font, family, style):
    full = f"{family} {style}"
    names = {1: family, 2: style, 3: f"{full} 1", 4: full, 6: f"{family.replace(' ', '')}-{style}"}
    for record in list(font["name"].names):
        if record.nameID in (16, 17, 21, 22, 25):
            font["name"].removeNames(nameID=record.nameID)
        elif record.nameID in names:
            record.string = names[record.nameID]


def main():
    folders = {"sans": pathlib.Path(sys.argv[1]), "serif": pathlib.Path(sys.argv[2])}
    out = pathlib.Path(sys.argv[3])
    for kind, folder, style in FACES:
        font = TTFont(next((folders[kind] / folder).glob("*.ttf")), recalcTimestamp=False)
        options = subset.Options()
        options.hinting = False
        options.name_IDs = ["*"]
        options.layout_features = ["kern", "liga", "ccmp", "locl", "mark", "mkmk", "tnum", "lnum", "pnum"]
        tool = subset.Subsetter(options)
        tool.populate(unicodes=CHARACTERS)
        tool.subset(font)
        rename(font, "Wildling " + kind.capitalize(), style)
        font.save(out / f"Wildling{kind.capitalize()}-{style}.ttf")
    for kind in folders:
        (out / f"OFL-{kind}.txt").write_text((folders[kind] / "LICENSE_FONT").read_text())


main()
