#!/usr/bin/env python3
"""Fails when a Markdown page of the repository links to a file that is not there."""
import os
import pathlib
import re
import sys

ROOT = pathlib.Path(__file__).resolve().parent.parent


def main():
    pages = []
    for folder, inner, files in os.walk(ROOT):
        # Not into what is built: a folder there may come and go while we look.
        inner[:] = [name for name in inner if name not in {"build", "node_modules", "demo-out", ".git", ".tools"}]
        pages += [pathlib.Path(folder) / name for name in files if name.endswith(".md")]
    faults, links = [], 0
    for page in sorted(pages):
        text = re.sub(r"```.*?```", "", page.read_text(encoding="utf-8"), flags=re.S)
        for target in re.findall(r"\]\(([^)\s]+)\)", text):
            if re.match(r"[a-z]+:|#", target):
                continue
            links += 1
            if not (page.parent / target.split("#")[0]).exists():
                faults.append(f"{page.relative_to(ROOT)}: {target} is not there")
    for fault in faults:
        print(fault)
    print(f"{len(pages)} pages, {links} links, {len(faults)} faults")
    return 1 if faults or not links else 0


if __name__ == "__main__":
    sys.exit(main())
