# SPDX-License-Identifier: GPL-3.0-or-later
# Room for error: words in the panel as the command tells them, brackets and odds on the drawing behind switches of their own, and all of it follows a drag of the aim.
cp "$COURSES"/fenwhistle/01-*.svg "$FOLDER/hole.svg"
cp "$COURSES/fenwhistle/bag.csv" "$FOLDER/bag.csv"
sed -i 's/hw:club="[^"]*" hw:shape/hw:club="5 iron" hw:shape/' "$FOLDER/hole.svg"
start "$FOLDER/hole.svg"
told () { # told: the room of the saved shot as the command tells it
  asked_of carries "$FOLDER/hole.svg" --rows room | awk -F, '
    function words(far) { return sprintf ("%.0f", far) (far > 43.3 ? "+" : "") }
    $1 == "pattern" { print words($2) " left, " words($3) " right, " words($4) " short, " words($5) " long" }'
}
settled
room=$(told)
expect label "$room"
picture room
press '(push|toggle|radio) button' 'Odds'
picture odds
aim
xdotool mousemove $AX $AY mousedown 1
for i in 1 2 3 4 5 6 7 8 9 10; do xdotool mousemove $((AX + i)) $((AY + i)); sleep 0.03; done
picture dragging
settled
picture dragged
xdotool mouseup 1
settled
key ctrl+s
expect frame 'hole.svg – Holewright'
after=$(told)
[ "$after" != "$room" ] || fail "the drag did not change the room: $room"
expect label "$after"
press '(push|toggle|radio) button' 'Shape and swing'
picture curve
passed
