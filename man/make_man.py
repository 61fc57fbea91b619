#!/usr/bin/env python3
"""make_man.py PAGE.md... --to FOLDER: writes each page as a manual page (section 1).

The pages use a small part of Markdown: one title, one line that says what the command does, `##` sections,
paragraphs, indented code, lists, `code`. Anything else is refused, so that nothing is lost in silence.
"""
import pathlib
import re
import sys


def inline(text):
    """`code` becomes bold; what roff would take for commands is escaped."""
    text = text.replace("\\", "\\e").replace("-", "\\-")
    text = re.sub(r"`([^`]+)`", r"\\fB\1\\fR", text)
    if "`" in text:
        raise ValueError("a single `")
    return "\\&" + text if text[:1] in ".'" else text


def roff(name, lines):
    title, about = lines[0].removeprefix("# "), lines[2]
    if lines[0] != f"# {title}" or lines[1] or title.replace(" ", "-") != name:
        raise ValueError(f"the first line must be '# {name.replace('-', ' ')}', then an empty line")
    out = [f'.TH "{name.upper()}" 1 "" "Wildling" "Wildling"', ".SH NAME",
           f"{inline(name)} \\- {inline(about[0].lower() + about[1:].rstrip('.'))}"]
    in_code = in_list = False
    for number, line in enumerate(lines[3:], 4):
        code = line.startswith("    ") and not in_list
        if in_code and not code and line:
            out.append(".EE")
            in_code = False
        if line.startswith("## "):
            out.append(f".SH {line[3:]}")
            in_list = False
        elif code:
            if not in_code:
                out += [".PP", ".EX"]
                in_code = True
            out.append(inline(line[4:].replace("`", "\\(ga")))
        elif line.startswith("* "):
            head, colon, text = line[2:].partition(": ")
            out += [".TP", inline(head)] + ([inline(text)] if colon else [])
            in_list = True
        elif not line:
            if not in_code:
                out.append(".PP")
            in_list = False
        elif re.match(r"[#>|+]|\d+\. |```", line):
            raise ValueError(f"line {number}: no rule for '{line[:40]}'")
        else:
            out.append(inline(line.strip()))
    if in_code:
        out.append(".EE")
    text = "\n".join(out) + "\n"
    return re.sub(r"(\.PP\n)+(\.SH|\.TP|\.PP|\Z)", r"\2", text)


def main():
    at = sys.argv.index("--to")
    folder = pathlib.Path(sys.argv[at + 1])
    folder.mkdir(parents=True, exist_ok=True)
    for page in map(pathlib.Path, sys.argv[1:at]):
        try:
            text = roff(page.stem, page.read_text(encoding="utf-8").splitlines())
        except ValueError as fault:
            sys.exit(f"{page}: {fault}")
        (folder / f"{page.stem}.1").write_text(text, encoding="utf-8")


if __name__ == "__main__":
    main()
