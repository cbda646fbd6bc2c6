#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Runs the tests of build folders and adds up what they say.

usage: totals.py BUILD [NAME...] [-- BUILD [NAME...]]...

Every test's own totals are shown: Check's line where there is one, else its TAP lines are counted, else it is one test. A program that
ends badly after its totals (a leak, a crash at exit) adds a failure. The last line is "N passed, N failed", with ", N skipped" when
any were; the exit status is 1 when anything failed or nothing ran.
"""
import json
import os
import re
import subprocess
import sys
from pathlib import Path

CHECKS = re.compile(r"^\d+%: Checks: (\d+), Failures: (\d+), Errors: (\d+)$", re.M)
TAP = re.compile(r"^(not )?ok\b(.*)$", re.M)


def count(result, out, err):
    """(passed, failed, skipped, the line to show) of one test: its meson result, standard output and standard error."""
    checks = CHECKS.findall(err + "\n" + out)
    taps = TAP.findall(out)
    passed = failed = skipped = 0
    if checks:
        for run, failures, errors in checks:
            failed += int(failures) + int(errors)
            passed += int(run) - int(failures) - int(errors)
        shown = CHECKS.search(err + "\n" + out).group(0)
    elif taps:
        for bad, rest in taps:
            if re.search(r"#\s*skip", rest, re.I):
                skipped += 1
            elif bad:
                failed += 1
            else:
                passed += 1
        shown = f"{passed} passed, {failed} failed" + (f", {skipped} skipped" if skipped else "")
    elif result == "SKIP":
        skipped, shown = 1, "skipped"
    elif result == "OK":
        passed, shown = 1, "passed"
    else:
        shown = "no totals"
    if result not in ("OK", "SKIP") and failed == 0:
        failed += 1
        shown += f"; ended badly ({result.lower()})"
    return passed, failed, skipped, shown


def known_suites(build):
    tests = json.loads(subprocess.run(["meson", "introspect", "--tests", build], check=True, capture_output=True, text=True).stdout)
    return {suite.split(":")[-1] for test in tests for suite in test["suite"]}


def run(build, names):
    """Runs the tests of one build folder; returns (passed, failed, skipped)."""
    suites = known_suites(build)
    # A hung test is ended, a slow machine is none: the sanitizers alone take several times as long. Tests of windows wait a good deal, so there is one more
    # than processors; with more, solvers that give way to all else keep windows from coming to rest.
    command = ["meson", "test", "-C", build, "--no-rebuild", "--print-errorlogs", "--timeout-multiplier", "4",
               "--num-processes", str((os.cpu_count() or 1) + 1)]
    for name in names:
        command += ["--suite", name] if name in suites else [name]
    log = Path(build) / "meson-logs" / "testlog.json"
    log.unlink(missing_ok=True)
    status = subprocess.run(command, check=False).returncode
    totals, faults = [0, 0, 0], []
    lines = log.read_text().splitlines() if log.exists() else []
    print(f"\n{build}:")
    for line in lines:
        test = json.loads(line)
        *counts, shown = count(test["result"], test.get("stdout") or "", test.get("stderr") or "")
        totals = [a + b for a, b in zip(totals, counts)]
        print(f"  {test['name'].split(' / ')[-1]:<24} {test['duration']:7.2f} s  {shown}")
        faults += [line for line in (test.get("stdout") or "").splitlines() if line.startswith("not ok")]
    for fault in faults:
        print(f"  {fault}")
    if not lines:
        print("  nothing ran")
    if status != 0 and totals[1] == 0 or not lines:
        totals[1] += 1
    return totals


def main():
    sys.stdout.reconfigure(line_buffering=True)
    groups, group = [], []
    for word in sys.argv[1:] + ["--"]:
        if word == "--":
            groups.append(group)
            group = []
        else:
            group.append(word)
    if not all(groups):
        sys.exit(__doc__)
    passed = failed = skipped = 0
    for build, *names in groups:
        p, f, s = run(build, names)
        passed, failed, skipped = passed + p, failed + f, skipped + s
    print()
    print("Everything passed." if failed == 0 else "Something failed: see above.")
    print(f"{passed} passed, {failed} failed" + (f", {skipped} skipped" if skipped else ""))
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
