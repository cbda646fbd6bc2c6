# SPDX-License-Identifier: GPL-3.0-or-later
# By keys alone: a sketched hole, things chosen with Tab and nudged, a circle, points and a point put down with the pen, and Escape.
start "$COURSES/fenwhistle"
settled
new_hole 'Long Acre' '400' sketch
expect frame 'new-hole.svg \(changed\) – Holewright'
expect 'list item' 'green, .*'
expect 'list item' 'white, tee marker, 0 yd from the tee'
picture sketch
expect_undo () { expect 'push button' '.*' "Undo $1"; }

# Tab goes through the things, arrows nudge by one yard, a row of nudges is one step
key Tab Tab
settled
key Up Up Up shift+Up
settled
picture nudged
expect 'push button' '.*' 'Undo move .*'
key ctrl+z; settled
expect 'push button' '.*' 'Undo'

# the pen: Return puts it down and lifts it
key c
key Up Up Return shift+Right Return; settled
picture circle
expect 'push button' '.*' 'Undo draw .*'
key ctrl+z; settled
key p
key Return shift+Right Return shift+Up Return; settled
picture pen
expect 'push button' '.*' 'Undo' # nothing is kept before the outline is closed
key Escape; settled
expect 'push button' '.*' 'Undo'
key m shift+Up Return; settled
expect 'push button' '.*' 'Undo draw .*'
key ctrl+z; settled
key Escape Escape s
key ctrl+a Escape; settled
expect 'push button' '.*' 'Undo'

# saved under a name, the facts changed, and told apart from the file
key ctrl+s
choose_file "$FOLDER/acre.svg" 'Save.*'
expect frame 'acre.svg – Holewright'
before=$(windows)
key alt+Return
window_comes 'Hole Facts'
picture facts
key ctrl+a; xdotool type --delay 4 'Short Acre'
before=$(windows); key Return; fewer_windows "$before"
expect frame 'acre.svg \(changed\) – Holewright'
key ctrl+z
expect frame 'acre.svg – Holewright'
[ -z "$(see unnamed)" ] || fail "without a name: $(see unnamed)"
"$PROGRAM" check "$FOLDER/acre.svg" || fail "the check finds errors"
passed
