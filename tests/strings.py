#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""strings.py ROOT - every text of the window can be translated: marked where it stands, and its file listed in ui/po/POTFILES. Speaks TAP."""
import pathlib
import re
import sys
import xml.etree.ElementTree as ElementTree

TEXTS = {"label", "title", "tooltip-text", "placeholder-text", "description", "text"}
NAMES = {"Holewright"}  # the program's own, the same in every language

root = pathlib.Path(sys.argv[1])
listed = {line.strip() for line in (root / "ui/po/POTFILES").read_text().splitlines() if line.strip() and not line.startswith("#")}


def has_words(text):
    return text is not None and re.search(r"[A-Za-z]{2}", text) and text.strip() not in NAMES


def unmarked(path):
    for element in ElementTree.parse(path).iter():
        is_text = element.tag == "item" or (element.tag in ("property", "attribute") and element.get("name") in TEXTS)
        if is_text and has_words(element.text) and element.get("translatable") != "yes":
            yield f"{path.relative_to(root)}: <{element.tag}> \"{element.text}\" is not marked translatable"


def has_marked(path):
    text = path.read_text()
    return 'translatable="yes"' in text if path.suffix == ".ui" else re.search(r"\bN?_ ?\(\"", text)


interfaces = sorted(root.glob("ui/**/*.ui"))
def unmarked_rows(path):
    for row in re.findall(r"\{ (?:NULL|\"[a-z0-9-]+\"), (\"[A-Za-z][^\"]*\")", path.read_text()):
        yield f"{path.relative_to(root)}: the label {row} is not marked with N_ ()"


tables = [root / name for name in ("app/hole/kinds.c", "app/render/overlay.c", "app/render/card.c")]  # whose labels the window shows
sources = sorted(root.glob("ui/*.c")) + sorted(root.glob("app/**/*.c")) + interfaces
checks = [
    ("every text of an interface file is marked translatable", [line for path in interfaces for line in unmarked(path)]),
    ("every file with marked texts is listed for translators",
     [f"{path.relative_to(root)} is not in ui/po/POTFILES" for path in sources if has_marked(path) and str(path.relative_to(root)) not in listed]),
    ("every label of a table under app that the window shows is marked", [line for path in tables for line in unmarked_rows(path)]),
    ("every file listed for translators exists", [f"{name} does not exist" for name in sorted(listed) if not (root / name).is_file()]),
]
print(f"1..{len(checks)}")
for number, (name, faults) in enumerate(checks, 1):
    print(f"{'not ok' if faults else 'ok'} {number} - {name}")
    for fault in faults:
        print("#", fault)
sys.exit(any(faults for _, faults in checks))
