#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""What a hole document says of its areas: areas.py FILE, one line each, in the order of the document:

  NAME PIECES SQUARE_METRES LEFT TOP RIGHT BOTTOM

Outlines of straight lines only; NAME is "-" for an area without one; metres in the document's frame, two decimals."""
import re
import sys
import xml.etree.ElementTree as ElementTree

HOLE = "{urn:holewright:hole:1}"
for path in ElementTree.parse(sys.argv[1]).iter("{http://www.w3.org/2000/svg}path"):
    pieces = []
    for letter, words in re.findall(r"([A-Za-z])([^A-Za-z]*)", path.get("d")):
        numbers = [float(word) for word in re.findall(r"-?[\d.]+", words)]
        if letter not in "MLHVZ":
            sys.exit(f"{path.get('d')}: not of straight lines")
        if letter == "M":
            pieces.append([])
        if letter == "H":
            numbers = [value for x in numbers for value in (x, pieces[-1][-1][1])]
        if letter == "V":
            numbers = [value for y in numbers for value in (pieces[-1][-1][0], y)]
        pieces[-1 if pieces else 0] += zip(numbers[::2], numbers[1::2])
    xs, ys = zip(*(point for piece in pieces for point in piece))
    area = sum(abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(piece, piece[1:] + piece[:1]))) / 2 for piece in pieces)
    print(path.get(HOLE + "name") or "-", len(pieces), *(f"{value:.2f}" for value in (area, min(xs), min(ys), max(xs), max(ys))))
