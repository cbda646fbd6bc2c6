# SPDX-License-Identifier: GPL-3.0-or-later
# Fingers in Draw: one moves a thing, a second one takes that back and both move the paper, one that rests opens the menu.
cp "$COURSES"/fenwhistle/02-*.svg "$FOLDER/hole.svg"
cp "$FOLDER/hole.svg" "$FOLDER/before.svg"
start "$FOLDER/hole.svg"
expect_title 'hole.svg – Holewright'
key alt+1
settled
on_the_hole () { see names 'list item' | grep -v ': '; }
things=$(on_the_hole)
read -r X Y < <(see origin image 'Drawing of the hole' "$(geometry)")
OX=$((X + 480)) OY=$((Y + 390)) # in the orchard

# one finger moves the orchard: one step
finger down 1 $OX $OY
stroke 1 $OX $OY 40 20
settled
picture moving
finger up 1
expect_title 'hole.svg \(changed\) – Holewright'
expect 'push button' '.*' 'Undo move trees'
[ "$(on_the_hole)" != "$things" ] || fail "the finger moved nothing"
key ctrl+z
expect_title 'hole.svg – Holewright'
expect 'push button' '.*' 'Undo'

# a second finger takes the drag back without a step
finger down 1 $OX $OY
stroke 1 $OX $OY 40 20
settled
finger down 2 $((OX + 100)) $((OY + 20))
for i in 1 2 3 4 5; do finger move 1 $((OX + 40)) $((OY + 20 + 4 * i)); finger move 2 $((OX + 100)) $((OY + 20 + 4 * i)); sleep 0.02; done
finger up 2
finger up 1
settled
picture taken-back
expect_title 'hole.svg – Holewright'
expect 'push button' '.*' 'Undo'
[ "$(on_the_hole)" = "$things" ] || fail "the first finger's drag was kept"

# a finger that rests opens the menu on what it rests on, and moves nothing
finger down 1 $OX $((OY + 20))
expect 'menu item' 'Duplicate'
finger up 1
settled
picture menu
key d
settled
expect 'push button' '.*' 'Undo duplicate trees'
key ctrl+z; settled
expect_title 'hole.svg – Holewright'
key ctrl+s; settled
cmp "$FOLDER/before.svg" "$FOLDER/hole.svg" || fail "touches left a trace in the file"
passed
