#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The peer of bench-odds: the same questions answered with NumPy, as one would without exact integrals.

Reads the areas (a line each: x y x y ...) up to an empty line, then one word a line, and answers each with a number:
  face    chance of the first area, from 100 000 balls drawn from a normal of 10 m by 6 m about (0,200)
  sweep   13 clubs x 200 aims: for each the chances of all areas from 1024 nodes, looked up on a grid of half metres made beforehand
  quit
"""
import sys

import numpy as np

N_DRAWN = 100_000
N_NODES = 1024
CELL_M = 0.5
FAR_M = 512
N_CLUBS, N_AIMS = 13, 200


def inside(polygon, x, y):
    """Which points lie inside, by counting the edges on their right."""
    odd = np.zeros(x.shape, dtype=bool)
    x0, y0 = polygon[-1]
    for x1, y1 in polygon:
        if y0 != y1:
            odd ^= ((y0 <= y) != (y1 <= y)) & (x < x0 + (y - y0) / (y1 - y0) * (x1 - x0))
        x0, y0 = x1, y1
    return odd


def raster(areas):
    """Area on top of each half metre, their number for none; only the box of each area is looked at."""
    grid = np.full((int(2 * FAR_M / CELL_M),) * 2, len(areas), dtype=np.int64)
    for number, polygon in enumerate(areas):
        low = np.maximum(((polygon.min(axis=0) + FAR_M) / CELL_M).astype(int) - 1, 0)
        high = ((polygon.max(axis=0) + FAR_M) / CELL_M).astype(int) + 2
        y, x = np.mgrid[low[1]:high[1], low[0]:high[0]]
        grid[low[1]:high[1], low[0]:high[0]][inside(polygon, (x + 0.5) * CELL_M - FAR_M, (y + 0.5) * CELL_M - FAR_M)] = number
    return grid


def nodes():
    """Evenly spread standard normals: a lattice (Roberts's R2 sequence), then Box and Muller's transform."""
    i = np.arange(1, N_NODES + 1)
    u, v = (0.5 + i * 0.7548776662466927) % 1, (0.5 + i * 0.5698402909980532) % 1
    r = np.sqrt(-2 * np.log(u))
    return r * np.cos(2 * np.pi * v), r * np.sin(2 * np.pi * v)


def sweep(grid, n_areas, u, v):
    """Sum of the chance of the first area over all clubs and aims."""
    total = 0.0
    turn = (np.arange(N_AIMS) / N_AIMS - 0.5) * 0.8
    side, along = np.sin(turn)[:, None], np.cos(turn)[:, None]
    for club in range(N_CLUBS):
        carry = 80 + 15 * club
        long_m, across_m = carry + u * 0.05 * carry, v * 0.04 * carry
        x, y = side * long_m + along * across_m, along * long_m - side * across_m
        top = grid[((y + FAR_M) / CELL_M).astype(np.int64), ((x + FAR_M) / CELL_M).astype(np.int64)]
        top += (n_areas + 1) * np.arange(N_AIMS)[:, None]
        chances = np.bincount(top.ravel(), minlength=(n_areas + 1) * N_AIMS).reshape(N_AIMS, n_areas + 1) / N_NODES
        total += chances[:, 0].sum()
    return total


def main():
    areas = []
    for line in sys.stdin:
        if not line.strip():
            break
        areas.append(np.array(line.split(), dtype=float).reshape(-1, 2))
    grid, rng = raster(areas), np.random.default_rng(1)
    u, v = nodes()
    for line in sys.stdin:
        word = line.strip()
        if word == "face":
            drawn = rng.standard_normal((2, N_DRAWN))
            print(inside(areas[0], 10 * drawn[0], 200 + 6 * drawn[1]).mean(), flush=True)
        elif word == "sweep":
            print(sweep(grid, len(areas), u, v), flush=True)
        else:
            break


if __name__ == "__main__":
    main()
