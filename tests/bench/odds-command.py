#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""What the command `odds` takes beyond the bare start of the program: odds-command.py PROGRAM COURSES [RUNS]

The bare start is `--version`. All are run in turns, so that whatever else the machine does meets all of them; told are the medians of the
processor's time, in the program and in the kernel for it, of the time that passed, and of the pages mapped in."""
import os
import resource
import statistics
import subprocess
import sys
import time

MOST_MS = 20
program, courses = sys.argv[1:3]
runs = int(sys.argv[3]) if len(sys.argv) > 3 else 50
folder = os.path.join(courses, "fenwhistle")
holes = sorted(name for name in os.listdir(folder) if name.endswith(".svg"))


def run(words):
    before, began = resource.getrusage(resource.RUSAGE_CHILDREN), time.perf_counter()
    subprocess.run([program] + words, stdout=subprocess.DEVNULL, check=True)
    passed, after = time.perf_counter() - began, resource.getrusage(resource.RUSAGE_CHILDREN)
    busy = after.ru_utime - before.ru_utime + after.ru_stime - before.ru_stime
    return 1e3 * busy, 1e3 * passed, after.ru_minflt - before.ru_minflt


asked = {"--version": ["--version"], **{hole: ["odds", os.path.join(folder, hole)] for hole in holes}}
taken = {name: [] for name in asked}
for _ in range(runs):
    for name, words in asked.items():
        taken[name].append(run(words))
medians = {name: [statistics.median(column) for column in zip(*rows)] for name, rows in taken.items()}
bare = medians["--version"]
print(f"bare start: {bare[0]:.1f} ms of the processor, {bare[1]:.1f} ms passed, {bare[2]:.0f} pages; medians of {runs} runs")
for hole in holes:
    busy, passed, pages = (of - start for of, start in zip(medians[hole], bare))
    print(f"odds {hole:18} {busy:5.1f} ms of the processor beyond it (goal {MOST_MS}), {passed:5.1f} ms passed, {pages:.0f} pages")
