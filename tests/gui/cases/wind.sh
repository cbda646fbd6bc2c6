# SPDX-License-Identifier: GPL-3.0-or-later
# The wind is turned by mouse on its rose: carries and what is left follow each move; the saved file holds the day; undo and saving restore the bytes.
# Keys turn and strengthen it, a day is kept under a name, used again and forgotten.
cp "$COURSES"/fenwhistle/06-*.svg "$FOLDER/hole.svg"
cp "$COURSES/fenwhistle/bag.csv" "$FOLDER/bag.csv"
cp "$FOLDER/hole.svg" "$FOLDER/before.svg"
start "$FOLDER/hole.svg"
settled
carry_row () { see names 'list item' | sed -n '/^Shot 1: /p'; }
wind_in () { grep -o 'hw:wind_[a-z_]*="[^"]*"' "$1" | tr '\n' ' '; }
calm=$(carry_row)
press 'push button|toggle button' 'Change the day'
rose=$(see middle slider 'Wind' "$(geometry)") || fail "there is no rose"
set -- $rose
X=$1 Y=$2
redraws_before=$(redraws)

# The drawing lies with north to the right, nearly, so a tail to the right is a head wind on this hole.
xdotool mousemove "$X" "$Y" mousedown 1
for i in 1 2 3 4 5 6 7 8; do xdotool mousemove $((X + 4 * i)) "$Y"; sleep 0.03; done
settled
head=$(carry_row)
[ "$head" != "$calm" ] || fail "the carry did not follow the wind: $calm"
for i in 7 6 5 4 3 2 1 0 -1 -2 -3 -4 -5 -6 -7 -8; do xdotool mousemove $((X + 4 * i)) "$Y"; sleep 0.03; done
settled
tail=$(carry_row)
picture blown
[ "$tail" != "$calm" ] && [ "$tail" != "$head" ] || fail "the carry did not follow the wind round: $calm, $head, $tail"
[ "$(redraws)" = "$redraws_before" ] || fail "the hole was painted again while the wind turned"
xdotool mouseup 1
expect frame 'hole.svg \(changed\) – Holewright'
yards () { echo "${1##* }"; }
[ "$(yards "$head")" -lt "$(yards "$calm")" ] && [ "$(yards "$tail")" -gt "$(yards "$calm")" ] || fail "head wind $head, calm $calm, tail wind $tail"
key ctrl+s
expect frame 'hole.svg – Holewright'
wind_in "$FOLDER/hole.svg" | grep -qE 'wind_from_deg="1(75|80)"' || fail "the saved wind is $(wind_in "$FOLDER/hole.svg")"

# What the window says is what the command says of the saved file
"$PROGRAM" carries "$FOLDER/hole.svg" --rows shot --format csv >"$FOLDER/shot.csv" || fail "the command has no answer"
said=$(/usr/bin/python3 - "$FOLDER" <<'P'
import csv, math, re, sys
shot = next(csv.DictReader(open(sys.argv[1] + "/shot.csv")))
text = open(sys.argv[1] + "/hole.svg").read()
line = re.search(r'<line[^>]*hw:kind="shot"[^>]*>', text).group(0)
x, y = (float(re.search(rf'\b{name}="([^"]*)"', line).group(1)) for name in ("x1", "y1"))
print(math.floor(math.hypot(float(shot["landing_x_m"]) - x, float(shot["landing_y_m"]) + y) / 0.9144 + 0.5))
P
)
[ "$said" = "$(yards "$tail")" ] || fail "the window says $tail and the command $said"

# What the day does to each club stands in the day's table, the club in hand as the plan has it
press 'toggle button|push button' 'Each club on this day'
expect 'list item' "driver: carry $(yards "$tail"), change \\+[0-9]+, run [0-9]+, side .*"
picture clubs
press 'toggle button|push button' 'Each club on this day'

# Escape takes a drag back
xdotool mousemove "$X" "$Y" mousedown 1 mousemove $((X + 20)) $((Y + 20)) mousemove $((X + 30)) $((Y + 25))
settled
key Escape
settled
xdotool mouseup 1
expect frame 'hole.svg – Holewright'
[ "$(carry_row)" = "$tail" ] || fail "Escape did not take the wind back"

# Keys: a quarter turned to the right by steps of 45 degrees, and calm
key shift+Right shift+Right
settled
key ctrl+s
expect frame 'hole.svg – Holewright'
wind_in "$FOLDER/hole.svg" | grep -qE 'wind_from_deg="2(65|70)"' || fail "keys turned the wind to $(wind_in "$FOLDER/hole.svg")"

# Kept, made calm, used again, forgotten
press 'push button|toggle button' 'Days kept with the hole'
xdotool type --delay 20 'Westerly'
key Return
settled
grep -q Westerly "$FOLDER/hole.svg" && fail "the day is in the file before it was saved"
key Escape
key ctrl+s
expect frame 'hole.svg – Holewright'
grep -q '<hw:day name="Westerly" wind_mps=' "$FOLDER/hole.svg" || fail "the day was not kept"

# All of it undone: the very bytes
for _ in 1 2 3; do key ctrl+z; settled; done
key ctrl+s
expect frame 'hole.svg – Holewright'
cmp "$FOLDER/before.svg" "$FOLDER/hole.svg" || fail "undo and saving did not bring the bytes back"
passed
