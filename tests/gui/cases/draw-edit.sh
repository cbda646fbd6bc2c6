# SPDX-License-Identifier: GPL-3.0-or-later
# Editing with the pointer: moving, reshaping and turning do not paint the hole again, Escape leaves no trace, undo goes back to the very bytes.
cp "$COURSES"/fenwhistle/02-*.svg "$FOLDER/hole.svg"
cp "$FOLDER/hole.svg" "$FOLDER/before.svg"
start "$FOLDER/hole.svg"
expect frame 'hole.svg – Holewright'
key alt+1
settled
on_the_hole () { see names 'list item' | grep -v ': '; }
expect_undo () { expect 'push button' '.*' "Undo $1"; }
# field NAME TEXT: types into a field of the panel, through Tab's own order
field () { press 'text|entry' "$1" ; key ctrl+a; xdotool type --delay 4 "$2"; key Return; settled; }
things=$(on_the_hole)
read -r X Y < <(see origin image 'Drawing of the hole' "$(geometry)")
OX=$((X + 480)) OY=$((Y + 390)) # in the orchard

# a drag moves the thing under the pointer, frame by frame, without painting the rest
# painted WHAT MOST: the hole was painted whole this often at most: once to part what is held from the rest, once more when it is let go
painted () {
  [ $(($(redraws) - before)) -le "$2" ] || fail "$1: the hole was painted $(($(redraws) - before)) times in a drag"
}
xdotool mousemove $OX $OY; settled
before=$(redraws)
xdotool mousedown 1
for i in 1 2 3 4 5 6 7 8 9 10; do xdotool mousemove $((OX + 4 * i)) $((OY + 2 * i)); sleep 0.03; done
settled
picture moving
painted moving 1
expect frame 'hole.svg – Holewright'
key Escape; xdotool mouseup 1
settled
expect frame 'hole.svg – Holewright'
[ "$(on_the_hole)" = "$things" ] || fail "Escape left a trace"
picture escaped
drag $OX $OY 40 20
expect frame 'hole.svg \(changed\) – Holewright'
expect_undo 'move trees'
[ "$(on_the_hole)" != "$things" ] || fail "the drag moved nothing"

# a circle, unsnapped; the corner of its frame scales, the knob above it turns
CX=$((X + 250)) CY=$((Y + 300))
press 'push button' bunker
press 'push button' Circle
xdotool keydown ctrl; drag $CX $CY 40 0; xdotool keyup ctrl
expect_undo 'draw bunker'
press 'push button' Select
before=$(redraws)
drag $((CX + 52)) $((CY + 52)) 52 52
expect_undo 'scale bunker'
painted scaling 2
before=$(redraws)
drag $((CX + 26)) $((CY - 74)) 60 60
picture turned
expect_undo 'turn bunker'
painted turning 2

# what is typed: sums and units; nonsense is said and changes nothing
field 'From the tee along the line' '140+12'
expect_undo 'move bunker'
field 'Width across the drawing' '12 parsecs'
expect '.*' '.*12 parsecs.*is no length.*'
picture nonsense
expect_undo 'move bunker'
key Escape
field 'Width across the drawing' '25 m'
expect_undo 'scale bunker'

# selected by a box; united, raised, duplicated, changed in kind, deleted: each a step with a name
drag $((X + 30)) $((Y + 60)) 20 20 # empty paper: a box that holds nothing
expect_gone '.*' 'Width across the drawing'
circle () { press 'push button' "$1"; press 'push button' Circle; xdotool keydown ctrl; drag "$2" "$3" "$4" 0; xdotool keyup ctrl; press 'push button' Select; }
circle bunker $((X + 60)) $((Y + 600)) 30
circle bunker $((X + 90)) $((Y + 600)) 30
drag $((X + 12)) $((Y + 550)) 150 100
picture boxed
menu () { # menu ITEM: from the menu on the drawing, by its keys
  xdotool mousemove $((X + 60)) $((Y + 600)) click 3; settled
  for letter in "$@"; do key "$letter"; settled; done
}
menu u Down Return
picture united
# left again from one of its submenus; the window lives on
menu u Escape Escape; menu Escape
xdotool mousemove $((X + 60)) $((Y + 600)) click 1; settled
expect_undo 'unite 2 things'
before=$(windows)
menu u Down Down Down Return # grow or shrink: what cannot be done is passed over
window_comes 'Grow or Shrink'
xdotool type --delay 4 '2 yd'; before=$(windows); key Return; fewer_windows "$before"
expect_undo 'grow bunker'
key ctrl+d; settled
expect_undo 'duplicate bunker'
key Delete; settled
expect_undo 'delete bunker'

# nodes by keys: chosen, moved, smoothed by a double click, deleted
xdotool mousemove $((X + 60)) $((Y + 600)) click 1; settled
key n; key Right; settled
picture node
expect_undo 'reshape bunker'
key Delete; settled
expect_undo 'delete node of bunker'

# back through all of it
for _ in $(seq 40); do [ "$(title)" = 'hole.svg – Holewright' ] && break; key ctrl+z; settled; done
expect frame 'hole.svg – Holewright'
[ "$(on_the_hole)" = "$things" ] || fail "undo did not bring all back: $(on_the_hole)"
key ctrl+shift+z; settled
expect frame 'hole.svg \(changed\) – Holewright'
key ctrl+z; settled
key ctrl+s; settled
cmp "$FOLDER/before.svg" "$FOLDER/hole.svg" || fail "undo did not bring the bytes back"
passed
