# SPDX-License-Identifier: GPL-3.0-or-later
# Dropped by another program: shapes of others are asked about and come where they were dropped, a hole file and a course folder are opened.
/usr/bin/python3 -c 'import gi; gi.require_version("Gtk", "4.0"); from gi.repository import Gtk' 2>/dev/null \
  || { echo "skipped: the bindings of GTK for Python are missing"; finish 77; }
cp "$COURSES"/fenwhistle/02-*.svg "$FOLDER/hole.svg"
cp "$COURSES"/fenwhistle/01-*.svg "$FOLDER/other.svg"
start "$FOLDER/hole.svg"
xdotool windowsize --sync "$WINDOW" 1000 800; xdotool windowmove "$WINDOW" 0 0; settled
# dropping MIME FILE: drags it from the other program onto the drawing
dropping () {
  local other from i
  /usr/bin/python3 "$GUI/drag.py" "$1" "$2" >"$FOLDER/drag.log" 2>&1 & local source=$!
  window_comes 'Another Program'
  other=$(xdotool search --onlyvisible --name '^Another Program$' | tail -1)
  xdotool windowmove --sync "$other" 1080 700; sleep 0.5
  eval "$(xdotool getwindowgeometry --shell "$other" | sed 's/^/OTHER_/')"
  local x=$((OTHER_X + OTHER_WIDTH / 2)) y=$((OTHER_Y + OTHER_HEIGHT / 2))
  xdotool mousemove $x $y; sleep 0.3; xdotool mousedown 1
  for i in $(seq 20); do xdotool mousemove $((x + (300 - x) * i / 20)) $((y + (380 - y) * i / 20)); sleep 0.05; done
  sleep 0.3; xdotool mouseup 1
  await grep -q 'dropped\|cancelled' "$FOLDER/drag.log"
  grep -q dropped "$FOLDER/drag.log" || fail "the drag was not taken: $(cat "$FOLDER/drag.log")"
  kill "$source" 2>/dev/null; wait "$source" 2>/dev/null
}
dialog () { xdotool search --onlyvisible --name '^Put a Drawing onto the Hole$' 2>/dev/null | tail -1; }
dialog_comes () { window_comes 'Put a Drawing onto the Hole'; }

for form in 'text/uri-list' 'image/svg+xml' 'text/plain;charset=utf-8'; do
  dropping "$form" "$GUI/../data/svg/fig2dev.svg"
  dialog_comes
  picture dropped
  n=$(windows); key Escape; fewer_windows "$n"
  expect frame 'hole.svg – Holewright'
done
dropping text/uri-list "$GUI/../data/svg/fig2dev.svg"
dialog_comes
n=$(windows); key alt+p; fewer_windows "$n"
expect frame 'hole.svg \(changed\) – Holewright'
expect 'push button' '.*' 'Undo paste 4 things'
expect '.*' 'Things on the hole'
key ctrl+z; expect frame 'hole.svg – Holewright'

dropping text/uri-list "$FOLDER/other.svg"
expect frame 'other.svg – Holewright'
dropping text/uri-list "$COURSES/fenwhistle"
expect frame '01-.* – Holewright'
passed
