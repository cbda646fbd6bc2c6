# SPDX-License-Identifier: GPL-3.0-or-later
"""A display of its own for the window's benchmarks, a pointer on it, and the frames that the program says it drew."""
import os
import re
import shutil
import subprocess
import sys
import tempfile
import time

WIDTH, HEIGHT = 1600, 1000


def tools_or_skip():
    for tool in ("Xvfb", "xdotool", "dbus-run-session"):
        if not shutil.which(tool):
            print(f"skipped: {tool} is missing")
            sys.exit(77)
    if os.environ.get("BENCH_SESSION") != "1":
        os.execvpe("dbus-run-session", ["dbus-run-session", "--", sys.executable, *sys.argv], dict(os.environ, BENCH_SESSION="1"))


FRAME = re.compile(rb"trace frame ([\d.]+) ms edit ([\d.]+) ms busy ([\d.]+) ms at \d+ us redraws (\d+) paints \d+ corner (\S+) (\S+) place (\S+) (\S+) scale (\S+) aim (\S+) (\S+)\n")


class Frame:
    """One line of the trace: times in ms, of `took` the processor gave `busy`, the rest it was waited for; places in px."""

    def __init__(self, found):
        (self.took, self.edit, self.busy, redraws, self.corner_x, self.corner_y, self.place_x, self.place_y, self.scale, self.aim_x,
         self.aim_y) = map(float, found)
        self.redraws = int(redraws)

    def on_screen(self, x, y):
        """A place on the drawing, in px of the window at the screen's corner."""
        return round(self.corner_x + x), round(self.corner_y + y)


class Display:
    def __init__(self):
        self.scratch = tempfile.mkdtemp(prefix="holewright-bench-")
        read_end, write_end = os.pipe()
        self.server = subprocess.Popen(
            ["Xvfb", "-displayfd", str(write_end), "-screen", "0", f"{WIDTH}x{HEIGHT}x24", "-nolisten", "tcp", "-noreset"],
            pass_fds=[write_end], stderr=subprocess.DEVNULL)
        os.close(write_end)
        # The server writes its number and the end of the line one after the other, and ends if nobody reads the second.
        with os.fdopen(read_end) as number:
            display = ":" + number.readline().strip()
        self.environment = dict(os.environ, DISPLAY=display, GDK_BACKEND="x11", GSK_RENDERER="cairo", GTK_A11Y="none",
                                GSETTINGS_BACKEND="memory", HOLEWRIGHT_TRACE="1", XDG_CONFIG_HOME=self.scratch,
                                XDG_DATA_HOME=self.scratch, XDG_STATE_HOME=self.scratch, LC_ALL="C.UTF-8")

    def __enter__(self):
        return self

    def __exit__(self, *_):
        self.server.terminate()
        self.server.wait()
        shutil.rmtree(self.scratch, ignore_errors=True)

    def xdotool(self, *words):
        return subprocess.run(["xdotool", *map(str, words)], env=self.environment, check=True, capture_output=True, text=True).stdout


class Program:
    """A program under way; `first_window_ms` is the time from its start to its first frame."""

    def __init__(self, display, words):
        began = time.clock_gettime(time.CLOCK_MONOTONIC)
        self.display = display
        self.process = subprocess.Popen(words, env=display.environment, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, bufsize=0)
        self.text = b""
        while chunk := os.read(self.process.stderr.fileno(), 65536):
            self.text += chunk
            found = re.search(rb"trace window at (\d+) us", self.text)
            if found:
                self.first_window_ms = int(found.group(1)) / 1000 - began * 1000
                os.set_blocking(self.process.stderr.fileno(), False)
                return
        sys.exit(f"no window from {words[0]}, which ended with {self.process.wait()}: {self.text.decode(errors='replace')}")

    def __enter__(self):
        return self

    def __exit__(self, *_):
        self.process.terminate()
        self.process.wait()
        self.process.stderr.close()

    def fill_screen(self):
        """Without a window manager a window stands where it is put."""
        window = self.display.xdotool("search", "--sync", "--onlyvisible", "--pid", self.process.pid).split()[-1]
        self.display.xdotool("windowsize", "--sync", window, WIDTH, HEIGHT, "windowmove", window, 0, 0, "windowfocus", window)

    def frames(self, quiet_s=0.5):
        """Frames drawn since the last call, until none came for a while."""
        frames, quiet_since = [], time.monotonic()
        while time.monotonic() - quiet_since < quiet_s:
            try:
                self.text += os.read(self.process.stderr.fileno(), 65536)
            except BlockingIOError:
                pass
            found = list(FRAME.finditer(self.text))
            if found:
                self.text = self.text[found[-1].end():]
                frames += [Frame(match.groups()) for match in found]
                quiet_since = time.monotonic()
            time.sleep(0.02)
        return frames

    def full_redraws(self, rounds):
        """Times of the redraws that come of a zoom, each back at the very view that was there before."""
        full, last = [], 0
        for _ in range(rounds):
            for key in ("minus", "0"):  # out, and back
                self.display.xdotool("key", key)
                for frame in self.frames():
                    if frame.redraws > last and last and key == "0":
                        full.append(frame)
                    last = frame.redraws
        return full
