# SPDX-License-Identifier: GPL-3.0-or-later
"""Where the panel says balls end, held against what the command says.

ends.py PANEL ODDS: PANEL the panel's list items, a line each; ODDS the table of `odds --format csv`. Exit 0: they agree.
"""

import csv
import re
import sys

ENDS = re.compile(r"Ends in (.*): (?:(under 1|over 99)|(\d+)) %")

rest = {}
with open(sys.argv[2]) as table:
    for row in csv.DictReader(table):
        rest[row["kind"]] = rest.get(row["kind"], 0) + float(row["rest"])
n = 0
with open(sys.argv[1]) as panel:
    for line in panel:
        if not (told := ENDS.match(line)):
            continue
        chance = rest[told[1].replace(" ", "-")]
        n += 1
        agrees = abs(100 * chance - int(told[3])) <= 0.51 if told[3] else chance < 0.01 if told[2] == "under 1" else chance > 0.99
        if not agrees:
            sys.exit(f"the command says {chance}: {line}")
sys.exit(0 if n >= 2 else "the panel shows fewer than two ends")
