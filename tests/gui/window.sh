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

# The server chooses a free display number itself, so that tests may run beside others. Cases called touch-* get one that takes fingers and a pen. No key
# repeats itself: on a busy machine a key that was only tapped may be down for long.
PATIENT='-ardelay 60000' # ms
case $CASE in
  touch-*)
    # By default where Debian keeps them; a machine without them, or one whose confinement ends this server, cannot run these cases and says so.
    XORG=/usr/lib/xorg/Xorg
    for part in $XORG /usr/lib/xorg/modules/drivers/dummy_drv.so /usr/lib/xorg/modules/input/inputtest_drv.so; do
      [ -e "$part" ] || { echo "skipped: $part is missing, so there is nothing to touch the window with"; exit 77; }
    done
    export SOCKETS=$(mktemp -d) # short enough for a socket's name
    sed "s,SOCKETS,$SOCKETS," "$GUI/fingers.conf" >"$SOCKETS/server.conf"
    $XORG -displayfd 4 -config "$SOCKETS/server.conf" -logfile "$FOLDER/server-log.txt" -novtswitch -nolisten tcp -noreset $PATIENT \
      4>"$FOLDER/display" 2>"$FOLDER/server.log" & SERVER=$!
    trap 'kill $SERVER 2>/dev/null; wait $SERVER 2>/dev/null; rm -rf "$SOCKETS"' EXIT
    for _ in $(seq 600); do [ -s "$FOLDER/display" ] && break; kill -0 $SERVER 2>/dev/null || break; sleep 0.1; done
    [ -s "$FOLDER/display" ] || { echo "skipped: the server that takes touches does not start here"; tail -5 "$FOLDER/server.log"; exit 77; }
    ;;
  *)
    Xvfb -displayfd 4 -screen 0 ${SCREEN:-1280x900}x24 -nolisten tcp -noreset $PATIENT 4>"$FOLDER/display" 2>"$FOLDER/server.log" & SERVER=$!
    trap 'kill $SERVER 2>/dev/null; wait $SERVER 2>/dev/null' EXIT
    for _ in $(seq 600); do [ -s "$FOLDER/display" ] && break; sleep 0.1; done
    [ -s "$FOLDER/display" ] || { echo "FAILED: no display came up"; cat "$FOLDER/server.log"; exit 1; }
    ;;
esac
export DISPLAY=:$(cat "$FOLDER/display") SERVER
dbus-run-session -- bash "$GUI/session.sh"
