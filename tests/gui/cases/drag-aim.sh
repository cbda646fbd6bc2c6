# SPDX-License-Identifier: GPL-3.0-or-later
# A real pointer drag of the aim changes the carries, without a full redraw; saving keeps it; undo and saving restore the bytes.
cp "$COURSES"/fenwhistle/02-*.svg "$FOLDER/hole.svg"
cp "$COURSES/fenwhistle/bag.csv" "$FOLDER/bag.csv"
cp "$FOLDER/hole.svg" "$FOLDER/before.svg"
start "$FOLDER/hole.svg"
expect 'frame' 'hole.svg – Holewright'
aim
before=$(see names 'list item')
aim_before=$(aim_in "$FOLDER/hole.svg")
redraws_before=$(redraws)
picture resting
xdotool mousemove $AX $AY mousedown 1
for i in 1 2 3 4 5 6 7 8 9 10; do xdotool mousemove $((AX + 2 * i)) $((AY - 7 * i)); sleep 0.03; done
settled
picture dragging
during=$(see names 'list item')
[ "$during" != "$before" ] || fail "the carries did not follow the pointer: $before"
[ "$(redraws)" = "$redraws_before" ] || fail "the hole was painted again while dragging: $redraws_before, then $(redraws)"
awk '/^trace frame/ { for (i = 1; i < NF; i++) if ($i == "paints") { if (seen && $(i + 1) > n + 1) exit 1; n = $(i + 1); seen = 1 } }' \
  "$FOLDER/errors.log" || fail "a frame painted the overlays more than once"
xdotool mouseup 1
expect frame 'hole.svg \(changed\) – Holewright'
settled
picture dragged
# under the drawing, where no label stands where it stood before, what was painted bit by bit is what is painted afresh; words at the top may be a pixel off, as the
# section's height follows the window's, but not one pixel in fifty differs
read -r wide high < <(xdotool getwindowgeometry --shell "$WINDOW" | awk -F= '$1 == "WIDTH" { w = $2 } $1 == "HEIGHT" { print w, $2 }')
resize $((wide - 40)) $((high - 40))
resize "$wide" "$high"
picture afresh
below () { convert "$FOLDER/$1.png" -gravity SouthWest -crop "$((wide / 2))x$((high / 3))+8+60" +repage "$FOLDER/$1-below.png"; }
below resting; below dragged; below afresh
! compare -metric AE "$FOLDER/resting-below.png" "$FOLDER/dragged-below.png" null: 2>/dev/null || fail "nothing changed there"
different=$(compare -metric AE "$FOLDER/dragged-below.png" "$FOLDER/afresh-below.png" null: 2>&1)
[ $((different * 50)) -lt $((wide / 2 * high / 3)) ] || fail "$different pixels under the drawing are not as painted afresh"
key ctrl+s
expect frame 'hole.svg – Holewright'
aim_after=$(aim_in "$FOLDER/hole.svg")
[ "$aim_after" != "$aim_before" ] || fail "the saved file still aims at $aim_before"
[ "$aim_after" != none ] || fail "the saved file has no shot"
key ctrl+z
expect frame 'hole.svg \(changed\) – Holewright'
key ctrl+s
expect frame 'hole.svg – Holewright'
cmp "$FOLDER/before.svg" "$FOLDER/hole.svg" || fail "undo and saving did not bring the bytes back"

# Escape takes a drag back
aim
xdotool mousemove $AX $AY mousedown 1 mousemove $((AX + 20)) $((AY + 40)) mousemove $((AX + 30)) $((AY + 60))
settled
key Escape
settled
xdotool mouseup 1
[ "$(see names 'list item')" = "$before" ] || fail "Escape did not take the drag back"
expect frame 'hole.svg – Holewright'
passed
