#!/bin/bash
# SPDX-License-Identifier: GPL-3.0-or-later
# Runs one window test on a display of its own: window.sh PROGRAM COURSES FOLDER CASE
# PROGRAM the program under test, COURSES the example courses, FOLDER where pictures and files go, CASE a file in cases/ without its ending.
# Exit 0 passed, 77 skipped because a tool is missing, anything else failed.
set -u
export PROGRAM=$1 COURSES=$2 FOLDER=$3/$4 CASE=$4
export GUI=$(cd "$(dirname "$0")" && pwd)
for tool in Xvfb xdotool xprop openbox dbus-run-session import /usr/bin/python3 /usr/libexec/at-spi-bus-launcher; do
  command -v "$tool" >/dev/null || { echo "skipped: $tool is missing"; exit 77; }
done
/usr/bin/python3 -c 'import gi; gi.require_version("Atspi", "2.0"); from gi.repository import Atspi' 2>/dev/null \
  || { echo "skipped: the accessibility bindings for Python are missing"; exit 77; }
rm -rf "$FOLDER"; mkdir -p "$FOLDER"

# The server chooses a free display number itself, so that tests may run beside others.
Xvfb -displayfd 4 -screen 0 1280x900x24 -nolisten tcp -noreset 4>"$FOLDER/display" 2>"$FOLDER/xvfb.log" & SERVER=$!
trap 'kill $SERVER 2>/dev/null; wait $SERVER 2>/dev/null' EXIT
for _ in $(seq 100); do [ -s "$FOLDER/display" ] && break; sleep 0.1; done
[ -s "$FOLDER/display" ] || { echo "FAILED: no display came up"; cat "$FOLDER/xvfb.log"; exit 1; }
export DISPLAY=:$(cat "$FOLDER/display")
dbus-run-session -- bash "$GUI/session.sh"
