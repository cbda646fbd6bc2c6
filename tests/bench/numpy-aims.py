#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The peer of bench-aims: what every aim of every club costs, with NumPy, as one would without a blurred field.

Reads a line "columns rows step x0 y0" and as many 4-byte floats, row after row: strokes to hole out from each place, made beforehand. Then a line for each club,
"carry long_sd side_sd first_rad turn_step n_turns first_swing swing_step n_swings", and an empty line. Answers each word "map" with the least strokes of all, from
1024 nodes for each aim; "quit" ends it. Balls stay where they land, and nothing stands in their way.
"""
import sys

import numpy as np

N_NODES = 1024


def nodes():
    """Evenly spread standard normals: a lattice (Roberts's R2 sequence), then Box and Muller's transform."""
    i = np.arange(1, N_NODES + 1)
    u, v = (0.5 + i * 0.7548776662466927) % 1, (0.5 + i * 0.5698402909980532) % 1
    r = np.sqrt(-2 * np.log(u))
    return r * np.cos(2 * np.pi * v), r * np.sin(2 * np.pi * v)


def map_of(club, field, step, x0, y0, along, side):
    """Expected strokes of every aim of one club."""
    carry, long_sd, side_sd, first_rad, turn_step, n_turns, first_swing, swing_step, n_swings = club
    turn = first_rad + turn_step * np.arange(int(n_turns))
    c, s = np.cos(turn)[:, None], np.sin(turn)[:, None]
    rows = []
    for swing in first_swing + swing_step * np.arange(int(n_swings)):
        far, off = swing * (carry + long_sd * along), swing * side_sd * side
        x, y = c * far + s * off, s * far - c * off
        column = np.clip(((x - x0) / step).astype(np.int64), 0, field.shape[1] - 1)
        row = np.clip(((y - y0) / step).astype(np.int64), 0, field.shape[0] - 1)
        rows.append(1 + field[row, column].mean(axis=1))
    return np.stack(rows)


def main():
    read = sys.stdin.buffer
    columns, rows, step, x0, y0 = (float(word) for word in read.readline().split())
    n = int(columns) * int(rows)
    field = np.frombuffer(read.read(4 * n), dtype=np.float32).reshape(int(rows), int(columns))
    clubs = []
    while (line := read.readline().split()):
        clubs.append([float(word) for word in line])
    along, side = nodes()
    for word in read:
        if word.strip() != b"map":
            break
        print(min(map_of(club, field, step, x0, y0, along, side).min() for club in clubs), flush=True)


if __name__ == "__main__":
    main()
