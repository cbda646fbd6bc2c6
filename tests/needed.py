#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Prints what the tests of one suite need to be built, one file a line, as ninja in the build folder calls it.

usage: needed.py BUILD SUITE
"""
import json
import subprocess
import sys
from pathlib import Path


def told(build, what):
    return json.loads(subprocess.run(["meson", "introspect", what, build], check=True, capture_output=True, text=True).stdout)


def main():
    if len(sys.argv) != 3:
        sys.exit(__doc__)
    build, suite = sys.argv[1:]
    ids = {part for test in told(build, "--tests") if suite in {name.split(":")[-1] for name in test["suite"]} for part in test["depends"]}
    if not ids:
        sys.exit(f"no test of the suite {suite} needs anything built")
    for target in told(build, "--targets"):
        if target["id"] in ids:
            print("\n".join(str(Path(name).relative_to(Path(build).resolve())) for name in target["filename"]))


if __name__ == "__main__":
    main()
