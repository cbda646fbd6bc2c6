#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""A language in which every text is a third longer and stands in brackets: lengthen.py ROOT FOLDER LANGUAGE

Gathers the texts of the program as translators get them and writes FOLDER/LANGUAGE/LC_MESSAGES/holewright.mo. What then shows without brackets no translator
has seen; what is cut off would be in a language of longer words."""
import ast
import pathlib
import subprocess
import sys

KEYWORDS = ["_", "N_", "C_:1c,2", "NC_:1c,2", "ngettext:1,2", "g_dngettext:2,3"]
HEADER = "Content-Type: text/plain; charset=UTF-8\nPlural-Forms: nplurals=2; plural=(n != 1);\n"
PADDING = "éäö çàü "
SHARE = 3  # one letter more for each so many


def longer(text):
    body = text.strip("\n")
    more = -(-len(body) // SHARE)
    padding = (PADDING * (more // len(PADDING) + 1))[:more].rstrip()
    return text.replace(body, f"[{body} {padding}]")


def entries(template):
    """The entries of a template, each a dictionary of its texts by their word, as msgid."""
    entry, word = {}, None
    for line in template.splitlines() + [""]:
        if not line and entry:
            yield entry
            entry = {}
        elif line.startswith("msg"):
            word, text = line.split(" ", 1)
            entry[word] = ast.literal_eval(text)
        elif line.startswith('"'):
            entry[word] += ast.literal_eval(line)


def quoted(text):
    return '"' + text.replace("\\", "\\\\").replace('"', '\\"').replace("\n", "\\n") + '"'


root, folder, language = sys.argv[1:]
template = subprocess.run(["xgettext", "--directory=" + root, f"--files-from={root}/ui/po/POTFILES", "--from-code=UTF-8", "--output=-"]
                          + ["--keyword=" + keyword for keyword in KEYWORDS], check=True, capture_output=True, text=True).stdout
lines = [f'msgid ""\nmsgstr {quoted(HEADER)}\n']
for texts in entries(template):
    if texts.get("msgid"):
        context = f"msgctxt {quoted(texts['msgctxt'])}\n" if "msgctxt" in texts else ""
        if "msgid_plural" in texts:
            forms = f"msgid_plural {quoted(texts['msgid_plural'])}\n" + "".join(
                f"msgstr[{i}] {quoted(longer(text))}\n" for i, text in enumerate((texts["msgid"], texts["msgid_plural"])))
        else:
            forms = f"msgstr {quoted(longer(texts['msgid']))}\n"
        lines.append(f"{context}msgid {quoted(texts['msgid'])}\n{forms}")
place = pathlib.Path(folder) / language / "LC_MESSAGES"
place.mkdir(parents=True, exist_ok=True)
subprocess.run(["msgfmt", "-o", str(place / "holewright.mo"), "-"], input="\n".join(lines), check=True, text=True)
