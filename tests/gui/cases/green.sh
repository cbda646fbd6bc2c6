# SPDX-License-Identifier: GPL-3.0-or-later
# The green by itself, by its key: it tells front, hole, back and the room as the command does; a real pointer drags the aim in it, and what is told
# follows; the view lies along the shot, with the ruler under it, and goes back as it came.
cp "$COURSES"/fenwhistle/01-*.svg "$FOLDER/hole.svg"
cp "$COURSES/fenwhistle/bag.csv" "$FOLDER/bag.csv"
start "$FOLDER/hole.svg"
settled
key ctrl+4
settled
picture green
expect image 'Drawing of the hole' '.*The green: front [0-9]+ yd, hole [0-9]+ yd, back [0-9]+ yd, room [0-9]+ yd left, [0-9]+ yd right.*Plays [0-9]+.*'
expect image 'Ruler and clubs' '.*'
told=$(see wait image 'Drawing of the hole' '.*The green.*')
"$PROGRAM" carries "$FOLDER/hole.svg" --from white --rows green --format csv >"$FOLDER/green.csv" || fail "the command tells no green"
/usr/bin/python3 - "$told" "$FOLDER/green.csv" <<'P' || fail "window and command differ: $told $(cat "$FOLDER/green.csv")"
import csv, math, re, sys
row = next(csv.DictReader(open(sys.argv[2])))
told = dict(re.findall(r"(front|hole|back) (\d+) yd", sys.argv[1]))
for name, number in told.items():
    column = next(key for key in row if key.startswith(name) and key.endswith("_yd"))
    if int(number) != math.floor(float(row[column]) + 0.5):
        sys.exit(f"{name}: {row[column]}")
sys.exit(0 if len(told) == 3 else "no numbers")
P

aim
before=$(see names 'list item') redraws_before=$(redraws)
xdotool mousemove $AX $AY mousedown 1
for i in 1 2 3 4 5 6 7 8; do xdotool mousemove $((AX - 4 * i)) $((AY - 12 * i)); sleep 0.03; done
settled
picture dragging
[ "$(see names 'list item')" != "$before" ] || fail "what is told did not follow the pointer: $before"
[ "$(redraws)" = "$redraws_before" ] || fail "the hole was painted again while dragging"
xdotool mouseup 1
expect frame 'hole.svg \(changed\) – Holewright'
settled
key ctrl+s
expect frame 'hole.svg – Holewright'
ends_agree "$FOLDER/hole.svg"

key ctrl+1
settled
picture along
expect image 'Drawing of the hole' 'Shot 1 of 1: .* left to the hole'
key ctrl+4
settled
resize 360 640
picture narrow
resize 1280 860
GREEN=$(see unnamed); [ -z "$GREEN" ] || fail "without a name: $GREEN"
passed
