#!/usr/bin/env python3
"""check.py PROGRAM: every command has a page, every page a command, and both name the same long options."""
import pathlib
import re
import subprocess
import sys
import tempfile

MAN = pathlib.Path(__file__).resolve().parent


def help_of(program, command):
    return subprocess.run([program, *command, "--help"], stdout=subprocess.PIPE, check=True, text=True).stdout


def options_of_help(program, command):
    text = help_of(program, command)
    if command:  # a command with kinds: the page tells the options of all of them
        kinds = re.findall(r"(?m)^  ([a-z-]+) ", text.split("Subcommands:", 1)[1]) if "Subcommands:" in text else []
        text += "".join(help_of(program, [*command, kind]) for kind in kinds)
    return set(re.findall(r"(?<![\w-])--[a-z][a-z-]*", text))


def options_of_page(page):
    section = page.read_text(encoding="utf-8").split("## OPTIONS", 1)[-1].split("\n## ", 1)[0]
    return set(re.findall(r"(?m)^\* `(?:-\w, )?(--[a-z][a-z-]*)", section))


def main():
    program = sys.argv[1]
    pages = {page.stem: page for page in MAN.glob("wildling*.md")}
    listed = re.findall(r"(?m)^\* `(\w+)`: ", pages["wildling"].read_text(encoding="utf-8").split("## OPTIONS")[0])
    faults = [f"man/wildling-{c}.md is not there" for c in listed if f"wildling-{c}" not in pages]
    faults += [f"man/{p}.md: no such command in man/wildling.md" for p in pages if p != "wildling" and p.removeprefix("wildling-") not in listed]
    general = options_of_page(pages["wildling"])
    for name, page in sorted(pages.items()):
        command = [name.removeprefix("wildling-")] if name != "wildling" else []
        said, known = options_of_page(page) | general, options_of_help(program, command) | general
        faults += [f"{page.name}: {o} is not an option of the program" for o in sorted(said - known)]
        faults += [f"{page.name}: {o} is missing" for o in sorted(known - said)]
    with tempfile.TemporaryDirectory() as folder:
        subprocess.run([sys.executable, MAN / "make_man.py", *map(str, pages.values()), "--to", folder], check=True)
    for fault in faults:
        print(fault)
    print(f"{len(pages)} pages, {len(faults)} faults")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
