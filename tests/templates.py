#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""templates.py ROOT - a widget of our own lets go of what its template put into it: GTK parts it only from children that are bound. Speaks TAP."""
import pathlib
import re
import sys
import xml.etree.ElementTree as ElementTree

root = pathlib.Path(sys.argv[1])
plain = []  # (file, class, its direct children) of each template of a plain widget; other parents part from their children themselves
for path in sorted(root.glob("ui/**/*.ui")):
    for template in ElementTree.parse(path).iter("template"):
        if template.get("parent") == "GtkWidget":
            plain.append((path, template.get("class"), [child.find("object") for child in template.findall("child")]))


def unbound(path, name, children):
    source = path.with_suffix(".c").read_text()
    for child in children:
        if child.get("id") is None or not re.search(rf"bind_template_child \(\w+, {name}, {child.get('id')}\)", source):
            yield f"{path.relative_to(root)}: the {child.get('class')} right under {name} is not bound, so it would outlive it"


def kept(path, name):
    if "gtk_widget_dispose_template" not in path.with_suffix(".c").read_text():
        yield f"{path.relative_to(root)}: {name} does not dispose of its template"


checks = [
    ("there are templates of plain widgets to look at", [] if plain else ["none found"]),
    ("what stands right under a template is bound", [line for entry in plain for line in unbound(*entry)]),
    ("each widget disposes of its template", [line for path, name, _ in plain for line in kept(path, name)]),
]
print(f"1..{len(checks)}")
for number, (name, faults) in enumerate(checks, 1):
    print(f"{'not ok' if faults else 'ok'} {number} - {name}")
    for fault in faults:
        print("#", fault)
sys.exit(any(faults for _, faults in checks))
