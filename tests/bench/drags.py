#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Frames of a full drawing, 300 areas of 100 nodes: drags.py PROGRAM

A real pointer drags a node, an area and everything selected at 1600 x 1000. A frame is everything the window does for it: event, edit,
panel, drawing. The first frame of a drag, which parts what is held from the rest, stands by itself. Beside them, in the same window, the
full redraws of a zoom; and what a frame may take, half of one of a screen that shows 60 in a second."""
import math
import os
import statistics
import sys
import time

from display import Display, Program, tools_or_skip

FRAME_MS = 8
ROUNDS = 7
STEPS = 60
# A press, the slop before anything moves, and the frame that parts what is held from the rest.
FIRST = 4
COLUMNS, ROWS, NODES = 20, 15, 100
# Areas stand so far apart, and are so large in radius: each overlaps its neighbours.
APART_M, RADIUS_M = 20, 12
KINDS = ("fairway", "bunker", "green", "trees", "deep-rough")


def node(middle, i):
    """A node of a lobed outline and the handle's way along it, document units."""
    angle = 2 * math.pi * i / NODES
    radius = RADIUS_M * (1 + 0.1 * math.sin(7 * angle))
    reach = radius * 2 * math.pi / NODES / 3
    at = (middle[0] + radius * math.cos(angle), middle[1] + radius * math.sin(angle))
    return at, (-reach * math.sin(angle), reach * math.cos(angle))


def outline(middle):
    at, _ = node(middle, 0)
    words = [f"M {at[0]:.3f} {at[1]:.3f}"]
    for i in range(NODES):
        (a, along), (b, end) = node(middle, i), node(middle, i + 1)
        words.append(f"C {a[0] + along[0]:.3f} {a[1] + along[1]:.3f}, {b[0] - end[0]:.3f} {b[1] - end[1]:.3f}, {b[0]:.3f} {b[1]:.3f}")
    return " ".join(words) + " Z"


def middle_of(i):
    return APART_M * (i % COLUMNS + 0.5), -APART_M * (i // COLUMNS + 0.5)


def full_drawing(path):
    width, height = APART_M * COLUMNS, APART_M * ROWS
    with open(path, "w", encoding="utf-8") as out:
        out.write(f'<svg xmlns="http://www.w3.org/2000/svg" xmlns:hw="urn:holewright:hole:1" hw:version="1" '
                  f'viewBox="0 {-height} {width} {height}" hw:number="1" hw:par="4" hw:ground="rough">\n<title>Full</title>\n')
        for i in range(COLUMNS * ROWS):
            out.write(f'<path hw:kind="{KINDS[i % len(KINDS)]}" d="{outline(middle_of(i))}"/>\n')
        out.write("</svg>\n")


def report(name, frames):
    took = sorted(frame.took for frame in frames)
    p95 = took[math.ceil(0.95 * len(took)) - 1]
    busy = statistics.median(frame.busy for frame in frames)
    print(f"{name:12} median {statistics.median(took):7.2f} ms, 95 of 100 within {p95:7.2f} ms, longest {took[-1]:7.2f} ms over {len(took)} "
          f"frames; the processor's part {busy:.2f} ms")
    return statistics.median(took), busy


def dragged(display, process, start, name):
    x, y = start
    display.xdotool("mousemove", x, y, "mousedown", 1)
    process.frames()
    for i in range(1, STEPS + 1):
        display.xdotool("mousemove", x + 2 * i, y + i)
        time.sleep(0.03)
    frames = [frame for frame in process.frames() if frame.edit > 0]
    redraws = {frame.redraws for frame in frames[FIRST:]}
    display.xdotool("mouseup", 1)
    process.frames()
    if len(frames) < STEPS // 2:
        sys.exit(f"{name} was not dragged: {len(frames)} frames")
    figures = report(name, frames[FIRST:])
    print(f"{'':12} of that the edit {statistics.median(frame.edit for frame in frames[FIRST:]):.2f} ms; "
          f"the first frames {', '.join(f'{frame.took:.1f}' for frame in frames[:FIRST])} ms; "
          f"full redraws later {len(redraws) - 1}")
    display.xdotool("key", "ctrl+z")
    process.frames()
    return figures


def drags(display, program):
    path = os.path.join(display.scratch, "full.svg")
    full_drawing(path)
    with Program(display, [program, path]) as process:
        process.fill_screen()
        display.xdotool("key", "alt+1")
        process.frames(1.0)
        display.xdotool("key", "0")
        view = (process.frames() or sys.exit("no frame came of a key"))[-1]

        def screen(at):
            return view.on_screen(view.place_x + at[0] * view.scale, view.place_y + at[1] * view.scale)

        part = COLUMNS * (ROWS // 2) + COLUMNS // 2
        middle = middle_of(part)
        display.xdotool("mousemove", *screen(middle), "click", 1)
        process.frames()
        took = [dragged(display, process, screen(node(middle, 3)[0]), "a node")]
        took.append(dragged(display, process, screen(middle), "an area"))
        display.xdotool("key", "ctrl+a")
        process.frames()
        took.append(dragged(display, process, screen(middle), "everything"))
        display.xdotool("key", "Escape")
        full = report("full redraw", process.full_redraws(ROUNDS))
    for name, figures in zip(("a node", "an area", "everything"), took):
        print(f"{name:12} {figures[0]:6.2f} ms of {FRAME_MS} ms, 1/{full[1] / figures[1]:.1f} of a full redraw by the processor's time")


tools_or_skip()
with Display() as shown:
    drags(shown, sys.argv[1])
