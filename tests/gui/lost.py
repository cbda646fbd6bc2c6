#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Kills the program while something is drawn, and tells what its recovery copy lacks: lost.py PID TRACE COPIES

TRACE is what the program wrote on standard error under HOLEWRIGHT_TRACE=changes: every change with its moment and the checksum of the document
with it. The document in the copy is one of these; what was lost begins with the change after it, and ends with the kill. Prints
the seconds lost, how many changes there were and the copy's path ("-": none). Exit 1 when the copy is not a document the program ever had."""
import glob
import hashlib
import os
import re
import signal
import sys
import time


def is_alive(pid):
    """Not ended, nor ended and only waiting for its parent. It may end between any two looks at it."""
    try:
        with open(f"/proc/{pid}/stat", encoding="utf-8") as stat:
            return stat.read().rsplit(")", 1)[1].split()[0] != "Z"
    except (FileNotFoundError, ProcessLookupError):
        return False


pid, trace, copies = int(sys.argv[1]), sys.argv[2], sys.argv[3]
os.kill(pid, signal.SIGKILL)
killed_us = time.monotonic_ns() / 1000
while is_alive(pid):
    time.sleep(0.01)

# Before the first change nothing was unsaved, and no copy is needed for that.
states = [(0, "-")]
for line in open(trace, errors="replace"):
    found = re.fullmatch(r"trace change at (\d+) us (\S+)\n", line)
    if found:
        states.append((int(found[1]), found[2]))
documents = glob.glob(os.path.join(copies, "*.svg"))
if len(documents) > 1:
    sys.exit(f"{len(documents)} copies of one document")
kept = hashlib.sha256(open(documents[0], "rb").read()).hexdigest() if documents else "-"
holding = [i for i, (_, checksum) in enumerate(states) if checksum == kept]
if not holding:
    sys.exit(f"the copy {documents[0]} holds what was never drawn")
missing = states[holding[-1] + 1:]
lost_s = (killed_us - missing[0][0]) / 1e6 if missing else 0
print(f"{lost_s:.2f} {len(states) - 1} {documents[0] if documents else '-'}")
