# SPDX-License-Identifier: GPL-3.0-or-later
# The map of strokes over the whole hole: switched on it is worked out without a suggestion, lies in the kept picture while an aim is dragged, goes when the drawing is another, and
# is put away again.
cp "$COURSES"/fenwhistle/01-*.svg "$FOLDER/hole.svg"
cp "$COURSES/fenwhistle/bag.csv" "$FOLDER/bag.csv"
start "$FOLDER/hole.svg"
settled
middle_colour () { picture "$1"; convert "$FOLDER/$1.png" -crop 400x200+300+250 +repage -scale 1x1 -depth 8 txt:- | tail -1; }
bare=$(middle_colour bare)
before=$(redraws)
press 'push button' 'Map of strokes'
expect_gone 'push button' 'Cancel'
settled
mapped=$(middle_colour mapped)
[ "$mapped" != "$bare" ] || fail "the drawing is as it was: $mapped"
expect_gone 'push button' 'Use It'
aim
xdotool mousemove $AX $AY mousedown 1
for i in 1 2 3 4 5; do xdotool mousemove $((AX + 6 * i)) $((AY - 4 * i)); sleep 0.03; done
settled
picture dragged
[ "$(redraws)" = "$before" ] || fail "the map was painted again while an aim was dragged: $before, then $(redraws)"
key Escape
xdotool mouseup 1
settled
press 'push button' 'Map of strokes'
settled
[ "$(middle_colour away)" = "$bare" ] || fail "it did not go: $(middle_colour away), before $bare"
passed
