# SPDX-License-Identifier: GPL-3.0-or-later
# Fingers in Plan: one drags the aim, one moves the paper, two pinch about their middle; a second finger takes the first one's drag back.
cp "$COURSES"/fenwhistle/02-*.svg "$FOLDER/hole.svg"
cp "$COURSES/fenwhistle/bag.csv" "$FOLDER/bag.csv"
start "$FOLDER/hole.svg"
expect frame 'hole.svg – Holewright'
unchanged () {
  expect frame 'hole.svg – Holewright'
  expect 'push button' '.*' 'Undo'
}
# near WHAT X Y WANTED_X WANTED_Y: the place on the screen is where it should be, within 2 px
near () {
  [ $(($2 - $4)) -ge -2 ] && [ $(($2 - $4)) -le 2 ] && [ $(($3 - $5)) -ge -2 ] && [ $(($3 - $5)) -le 2 ] ||
    fail "$1: at $2 $3 instead of $4 $5"
}

# one finger on the aim takes the aim along, without a full redraw
aim; X0=$AX Y0=$AY
before=$(redraws)
finger down 1 $AX $AY
stroke 1 $AX $AY -40 30
settled
picture aiming
aim
near 'the aim under the finger' "$AX" "$AY" $((X0 - 40)) $((Y0 + 30))
[ "$(redraws)" = "$before" ] || fail "the hole was painted again under the finger"
finger up 1
expect frame 'hole.svg \(changed\) – Holewright'
expect 'push button' '.*' 'Undo move aim'
key ctrl+z
unchanged
key 0
aim
near 'the aim after undo' "$AX" "$AY" "$X0" "$Y0"

# a second finger takes the drag back, and both pinch: what was between them stays between them, larger
finger down 1 $AX $AY
stroke 1 $AX $AY 0 -40
settled
aim
[ $AY -le $((Y0 - 30)) ] || fail "the aim did not follow the finger: $AX $AY"
finger down 2 $((X0 + 80)) $((Y0 - 40))
settled
unchanged
aim
near 'the aim after the second finger' "$AX" "$AY" "$X0" "$Y0"
# fingers at (0,-40) and (80,-40) from the aim; their middle (40,-40) holds the place. Twice as far apart: the aim is twice as far from it.
for i in 1 2 3 4 5 6 7 8; do
  finger move 1 $((X0 - 5 * i)) $((Y0 - 40)); finger move 2 $((X0 + 80 + 5 * i)) $((Y0 - 40)); sleep 0.02
done
settled
picture pinched
aim
near 'twice as large about the middle of the fingers' "$AX" "$AY" $((X0 - 40)) $((Y0 + 40))
# both move on together: the paper goes with them
for i in 1 2 3 4 5 6; do
  finger move 1 $((X0 - 40 + 10 * i)) $((Y0 - 40 + 5 * i)); finger move 2 $((X0 + 120 + 10 * i)) $((Y0 - 40 + 5 * i)); sleep 0.02
done
settled
aim
near 'moved with both fingers' "$AX" "$AY" $((X0 - 40 + 60)) $((Y0 + 40 + 30))
finger up 2
finger move 1 $((X0 + 60)) $((Y0 + 60)) # the finger that stays does not take anything
settled
aim
near 'one finger left over' "$AX" "$AY" $((X0 - 40 + 60)) $((Y0 + 40 + 30))
finger up 1
unchanged

# one finger on the paper moves it
X1=$AX Y1=$AY
finger down 1 $((X1 + 150)) $((Y1 - 120))
stroke 1 $((X1 + 150)) $((Y1 - 120)) -70 50
finger up 1
aim
near 'the paper under the finger' "$AX" "$AY" $((X1 - 70)) $((Y1 + 50))
unchanged
passed
