#!/bin/bash
# SPDX-License-Identifier: GPL-3.0-or-later
#
# ui/pictures/take.sh - draws the README's pictures anew with the release build: the window in Plan, with a suggestion and in Draw, the bag with shots fitted
# to, and the printed card.
# Needs the packages of the tests (app/install test).
set -eu
here=$(cd "$(dirname "$0")" && pwd)
root=$(cd "$here/../.." && pwd)

if [ "${1:-}" = inside ]; then
  openbox --sm-disable & manager=$!
  HOLEWRIGHT_TRACE=1 "$root/app/run" "$root/courses/fenwhistle/02-orchard.svg" 2>"$HOME/trace" & program=$!
  for _ in $(seq 200); do
    window=$(xdotool search --onlyvisible --pid "$program" 2>/dev/null | tail -1) || true
    [ -n "$window" ] && grep -q '^trace frame' "$HOME/trace" && break
    sleep 0.1
  done
  xdotool windowactivate --sync "$window" windowsize --sync "$window" 100% 100% windowmove "$window" 0 0 mousemove 640 740
  settled () {
    local before=-1 now
    while now=$(grep -c '^trace frame' "$HOME/trace"); [ "$now" != "$before" ]; do before=$now; sleep 0.5; done
  }
  settled
  import -window "$window" "$here/plan.png"
  works () { awk '{ print $14 + $15 }' "/proc/$program/stat"; }
  xdotool key F5 ctrl+F5 # the suggestion beside the plan as drawn, once the solver has come to its end
  before=-1
  while now=$(works); [ "$now" != "$before" ]; do before=$now; sleep 1; done
  settled
  import -window "$window" "$here/suggest.png"
  xdotool key ctrl+F5
  xdotool key alt+1
  settled
  xdotool mousemove 690 262 click 1 # the meadow
  settled
  import -window "$window" "$here/draw.png"
  # opened TITLE: the dialog of this title, once it is drawn
  opened () { xdotool search --sync --onlyvisible --name "^$1\$" | tail -1; settled; }
  xdotool mousemove 0 0 key F7 # no row under the pointer
  bag=$(opened 'bag.csv – Bag')
  xdotool key ctrl+f
  opened 'Fit to Recorded Shots' >/dev/null
  xdotool key Return
  opened 'Choose Recorded Shots' >/dev/null
  xdotool key ctrl+a type --delay 4 "$root/courses/fenwhistle/range-session.csv"
  xdotool key Return
  settled
  xdotool key alt+t
  settled
  import -window "$bag" "$here/bag.png"
  kill "$program" "$manager"
  exit
fi

scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
export HOME=$scratch XDG_CONFIG_HOME=$scratch/config GDK_BACKEND=x11 GSK_RENDERER=cairo GSETTINGS_BACKEND=memory LC_ALL=C.UTF-8
mkdir -p "$XDG_CONFIG_HOME/gtk-4.0"
printf '[Settings]\ngtk-font-name=Inter 10.5\ngtk-decoration-layout=:close\n' >"$XDG_CONFIG_HOME/gtk-4.0/settings.ini"
xvfb-run -a -s "-screen 0 1440x900x24 -nolisten tcp" dbus-run-session -- "$here/take.sh" inside
"$root/app/run" card "$root/courses/fenwhistle/02-orchard.svg" -o "$scratch/card.png"
convert "$scratch/card.png" -resize 50% -strip "$here/card.png"
for name in plan suggest draw bag; do convert "$here/$name.png" -strip "$here/$name.png"; done
echo "$here/plan.png $here/suggest.png $here/draw.png $here/bag.png $here/card.png"
