# SPDX-License-Identifier: GPL-3.0-or-later
# The section stands under the drawing on its axis: it tells of the shot in words, follows the aim, goes where the drawing no longer lies along the
# shot or the window is too low, is folded away by a key, and stays so.
cp "$COURSES"/fenwhistle/07-*.svg "$FOLDER/hole.svg"
cp "$COURSES/fenwhistle/bag.csv" "$FOLDER/bag.csv"
start "$FOLDER/hole.svg"
words='Carries [0-9]+ yd, [0-9]+ ft up, [0-9]+ ft high, .*lands on fairway, runs [0-9]+ yd, stops on [a-z ]+.*'
expect image 'The shot from its side' "$words"
said () { see wait image 'The shot from its side' | sed 's/.*| //'; }
# the club by the aim, so that it changes as the aim does
press image 'Ruler and clubs'
key Delete; settled
before=$(said)
picture hill

# The very axis of the drawing: where the aim stands there, its ring stands here
aim
top=$(see origin image 'The shot from its side' "$(geometry)")
X=$((AX - ${top% *})) Y=${top#* }
strip=$(see origin image 'Ruler and clubs' "$(geometry)")
convert "$FOLDER/hill.png" -crop "61x$((${strip#* } - Y))+$((AX - 30))+$Y" +repage "$FOLDER/aim.png"
/usr/bin/python3 - "$FOLDER/aim.png" <<'P' || fail "the aim does not stand under the aim"
import subprocess, sys
data = subprocess.run(["convert", sys.argv[1], "-depth", "8", "rgb:-"], capture_output=True, check=True).stdout
width = 61
# the ring is the accent's own colour on both sides of its middle, alike
columns = [sum(abs(data[i] - 0x8a) + abs(data[i + 1] - 0x2f) + abs(data[i + 2] - 0x6b) < 90 for i in range(3 * x, len(data), 3 * width))
           for x in range(width)]
ring = [x for x in range(18, 43) if columns[x] >= 3]
sys.exit(0 if ring and abs((ring[0] + ring[-1]) / 2 - 30) <= 4 else f"accent in columns {columns}")
P

# It follows the aim
drag "$AX" "$AY" -90 0
[ "$(said)" != "$before" ] || fail "the words did not follow the aim: $before"
picture shorter
key ctrl+z; settled
[ "$(said)" = "$before" ] || fail "undo says $(said) and not $before"

# Another club, taken by a click on its bar
club () { see wait image 'Ruler and clubs' | sed 's/.*| //'; }
chosen=$(club)
# the first row of bars lies a bar's height below the ruler; a click beside the bars does nothing
sx=${strip% *} sy=$((${strip#* } + 26 + 8 + 11))
for x in $(seq 40 45 700); do
  xdotool mousemove $((sx + x)) $sy click 1; settled
  [ "$(club)" = "$chosen" ] || break
done
[ "$(club)" != "$chosen" ] || fail "no click took another club than $chosen"
expect image 'Drawing of the hole' ".*: $(club) carries .*"
key Delete; settled
[ "$(club)" = "$chosen" ] || fail "the aim would take $(club), not $chosen"

# Up the hole there is no such axis; back along the shot it is there again
key ctrl+2; settled
expect_gone image 'The shot from its side'
key ctrl+1; settled
expect image 'The shot from its side' "$words"
# A low window has no room for it, a high one has
resize 1100 560
expect_gone image 'The shot from its side'
resize 1100 800
expect image 'The shot from its side' "$words"
picture smaller
# Folded away, and still so after a start
key ctrl+3; settled
expect_gone image 'The shot from its side'
picture folded
key ctrl+s
expect frame 'hole.svg – Holewright'
key ctrl+w
ends
start "$FOLDER/hole.svg"
settled
expect_gone image 'The shot from its side'
press '(push|toggle|radio) button' section
expect image 'The shot from its side' "$words"
passed
