#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The window's figures, on a display of its own: window.py PROGRAM EMPTY COURSES

First window: from the start of the process to the first frame drawn, against an empty GTK window, interleaved, least of seven.
Dragged frame: a real pointer drags the aim at 1600 x 1000 with all overlays, against the full redraws of a zoom in the same window; the
frame is everything the window does for it: event, edit, results, panel, drawing."""
import os
import re
import shutil
import statistics
import subprocess
import sys
import tempfile
import time

ROUNDS = 7
STEPS = 60
BORDER_PX = 5
HEADER_PX = 51
program, empty, courses = sys.argv[1:4]
for tool in ("Xvfb", "xdotool", "dbus-run-session"):
    if not shutil.which(tool):
        print(f"skipped: {tool} is missing")
        sys.exit(77)
if "DBUS_SESSION_BUS_ADDRESS" not in os.environ or os.environ.get("BENCH_SESSION") != "1":
    os.execvpe("dbus-run-session", ["dbus-run-session", "--", sys.executable, *sys.argv], dict(os.environ, BENCH_SESSION="1"))

scratch = tempfile.mkdtemp(prefix="holewright-bench-")
read_end, write_end = os.pipe()
server = subprocess.Popen(["Xvfb", "-displayfd", str(write_end), "-screen", "0", "1600x1000x24", "-nolisten", "tcp", "-noreset"],
                          pass_fds=[write_end], stderr=subprocess.DEVNULL)
os.close(write_end)
display = ":" + os.read(read_end, 16).decode().strip()
environment = dict(os.environ, DISPLAY=display, GDK_BACKEND="x11", GSK_RENDERER="cairo", GTK_A11Y="none", GSETTINGS_BACKEND="memory",
                   HOLEWRIGHT_TRACE="1", XDG_CONFIG_HOME=scratch, XDG_DATA_HOME=scratch, LC_ALL="C.UTF-8")


def start(words):
    began = time.clock_gettime(time.CLOCK_MONOTONIC)
    process = subprocess.Popen(words, env=environment, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, bufsize=0)
    text = b""
    while chunk := os.read(process.stderr.fileno(), 65536):
        text += chunk
        found = re.search(rb"trace window at (\d+) us", text)
        if found:
            return process, int(found.group(1)) / 1000 - began * 1000
    sys.exit(f"no window from {words[0]}")


def stop(process):
    process.terminate()
    process.wait()
    process.stderr.close()


def xdotool(*words):
    return subprocess.run(["xdotool", *map(str, words)], env=environment, check=True, capture_output=True, text=True).stdout


def first_windows():
    hole = os.path.join(courses, "fenwhistle", "02-orchard.svg")
    ours, theirs = [], []
    for _ in range(ROUNDS):
        for words, times in (([program, hole], ours), ([empty], theirs)):
            process, took_ms = start(words)
            times.append(took_ms)
            stop(process)
    print(f"first window       {min(ours):8.1f} ms")
    print(f"empty GTK window   {min(theirs):8.1f} ms")
    print(f"first window takes {min(ours) / min(theirs):.2f} times an empty one")


FRAME = re.compile(rb"trace frame ([\d.]+) ms edit ([\d.]+) ms redraws (\d+) aim (-?\d+) (-?\d+)")


def frames_until_quiet(process):
    """Frames drawn until none came for a while."""
    os.set_blocking(process.stderr.fileno(), False)
    frames, quiet_since = [], time.monotonic()
    while time.monotonic() - quiet_since < 0.5:
        try:
            text = os.read(process.stderr.fileno(), 65536)
        except BlockingIOError:
            text = b""
        found = FRAME.findall(text)
        if found:
            frames += [(float(a), float(b), int(c), int(d), int(e)) for a, b, c, d, e in found]
            quiet_since = time.monotonic()
        time.sleep(0.02)
    return frames


def dragged_frames():
    process, _ = start([program, os.path.join(courses, "fenwhistle", "02-orchard.svg")])
    window = xdotool("search", "--sync", "--onlyvisible", "--pid", process.pid).split()[-1]
    xdotool("windowsize", "--sync", window, 1600, 1000, "windowmove", window, 0, 0, "windowfocus", window)
    *_, (_, _, _, aim_x, aim_y) = frames_until_quiet(process)
    # Without a window manager the window has its border of 4 px and the header bar above the drawing; the aim may be held anywhere near it.
    x, y = aim_x + BORDER_PX, aim_y + HEADER_PX
    xdotool("mousemove", x, y, "mousedown", 1)
    frames_until_quiet(process)
    for i in range(STEPS):
        xdotool("mousemove", x + i, y - 2 * i)
        time.sleep(0.03)
    frames = frames_until_quiet(process)
    dragged = [frame for frame in frames if frame[1] > 0]
    redraws = {frame[2] for frame in frames}
    xdotool("mouseup", 1)
    frames_until_quiet(process)
    full, last = [], 0
    for _ in range(ROUNDS):
        for key in ("minus", "0"):  # out, and back to the very view of the drag
            xdotool("key", key)
            for took, _, n, _, _ in frames_until_quiet(process):
                if n > last and last and key == "0":
                    full.append(took)
                last = n
    stop(process)
    if len(dragged) < STEPS // 2 or not full:
        sys.exit(f"the aim was not dragged: {len(dragged)} frames, {len(full)} full redraws")
    middle = statistics.median(frame[0] for frame in dragged)
    print(f"dragged frame      {min(frame[0] for frame in dragged):8.2f} ms, median {middle:.2f} ms over {len(dragged)} frames, "
          f"full redraws among them {len(redraws) - 1}")
    print(f"full redraw        {min(full):8.2f} ms")
    print(f"dragged frame is 1/{min(full) / min(frame[0] for frame in dragged):.1f} of a full redraw")


try:
    first_windows()
    dragged_frames()
finally:
    server.terminate()
    server.wait()
    shutil.rmtree(scratch, ignore_errors=True)
