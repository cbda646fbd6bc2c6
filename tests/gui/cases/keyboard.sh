# SPDX-License-Identifier: GPL-3.0-or-later
# Arrows move the aim by one yard, with Shift by ten; Control moves the ball; the file holds exactly that.
cp "$COURSES"/fenwhistle/02-*.svg "$FOLDER/hole.svg"
cp "$COURSES/fenwhistle/bag.csv" "$FOLDER/bag.csv"
start "$FOLDER/hole.svg"
expect frame 'hole.svg – Holewright'
settled
before=$(aim_in "$FOLDER/hole.svg")
key Right; expect frame 'hole.svg \(changed\).*'; key ctrl+s; expect frame 'hole.svg – Holewright'
one=$(aim_in "$FOLDER/hole.svg")
sleep 1 # the pause that parts two steps of undo
key shift+Right; expect frame 'hole.svg \(changed\).*'; key ctrl+s; expect frame 'hole.svg – Holewright'
ten=$(aim_in "$FOLDER/hole.svg")
/usr/bin/python3 - "$before" "$one" "$ten" <<'P' || fail "nudged from $before to $one to $ten"
import math, sys
a, b, c = ([float(n) for n in text.split()] for text in sys.argv[1:4])
assert abs(math.dist(a, b) - 0.9144) < 0.002, math.dist(a, b)
assert abs(math.dist(b, c) - 9.144) < 0.002, math.dist(b, c)
P
# a club from the list, by keys alone
key Page_Down
expect image 'Drawing of the hole' 'Shot 2 of .*'
key Page_Up
expect image 'Drawing of the hole' 'Shot 1 of .*'
key ctrl+Return
settled
expect image 'Drawing of the hole' 'Shot [23] of 3: .*'
key ctrl+Delete
expect image 'Drawing of the hole' 'Shot . of 2: .*'
passed
