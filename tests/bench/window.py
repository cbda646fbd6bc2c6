#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The window's figures, on a display of its own: window.py PROGRAM EMPTY COURSES

First window: from the start of the process to the first frame drawn, against an empty GTK window, interleaved, least of seven.
Dragged frame: a real pointer drags the aim at 1600 x 1000 with all overlays, against the full redraws of a zoom in the same window; the
frame is everything the window does for it: event, edit, results, panel, drawing."""
import os
import statistics
import sys
import time

from display import Display, Program, tools_or_skip

ROUNDS = 7
STEPS = 60
OVERLAYS = "strokes;plans;aims;pattern;marks;left;carries;trees;room;odds;track;shot"
program, empty, courses = sys.argv[1:4]
hole = os.path.join(courses, "fenwhistle", "02-orchard.svg")


def first_windows(display):
    ours, theirs = [], []
    for _ in range(ROUNDS):
        for words, times in (([program, hole], ours), ([empty], theirs)):
            with Program(display, words) as process:
                times.append(process.first_window_ms)
    print(f"first window       {min(ours):8.1f} ms")
    print(f"empty GTK window   {min(theirs):8.1f} ms")
    print(f"first window takes {min(ours) / min(theirs):.2f} times an empty one")


def all_overlays(display):
    folder = os.path.join(display.scratch, "holewright")
    os.makedirs(folder, exist_ok=True)
    with open(os.path.join(folder, "settings.ini"), "w", encoding="utf-8") as out:
        out.write(f"[holewright]\noverlays-on={OVERLAYS}\n")


def dragged_frames(display):
    all_overlays(display)
    with Program(display, [program, hole]) as process:
        process.fill_screen()
        last = process.frames()[-1]
        x, y = last.on_screen(last.aim_x, last.aim_y)
        display.xdotool("mousemove", x, y, "mousedown", 1)
        process.frames()
        for i in range(STEPS):
            display.xdotool("mousemove", x + i, y - 2 * i)
            time.sleep(0.03)
        frames = process.frames()
        dragged = [frame.took for frame in frames if frame.edit > 0]
        busy = statistics.median([frame.busy for frame in frames if frame.edit > 0] or [0])
        redraws = {frame.redraws for frame in frames}
        display.xdotool("mouseup", 1)
        process.frames()
        redrawn = process.full_redraws(ROUNDS)
        full = [frame.took for frame in redrawn]
    if len(dragged) < STEPS // 2 or not full:
        sys.exit(f"the aim was not dragged: {len(dragged)} frames, {len(full)} full redraws")
    print(f"dragged frame      {min(dragged):8.2f} ms, median {statistics.median(dragged):.2f} ms over {len(dragged)} frames, "
          f"full redraws among them {len(redraws) - 1}")
    print(f"full redraw        {min(full):8.2f} ms")
    full_busy = statistics.median(frame.busy for frame in redrawn)
    print(f"dragged frame is 1/{min(full) / min(dragged):.1f} of a full redraw; by the processor's time {busy:.2f} ms, 1/{full_busy / busy:.1f}")


tools_or_skip()
with Display() as shown:
    first_windows(shown)
    dragged_frames(shown)
