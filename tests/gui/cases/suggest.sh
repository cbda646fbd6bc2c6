# SPDX-License-Identifier: GPL-3.0-or-later
# The program suggests a plan for the whole hole: worked out while the window goes on, given up when told, taken over as one step that undo names and takes back.
cp "$COURSES"/fenwhistle/01-*.svg "$FOLDER/hole.svg"
cp "$COURSES/fenwhistle/bag.csv" "$FOLDER/bag.csv"
sed -i 's/hw:club="6 iron"/hw:club="5 iron"/' "$FOLDER/hole.svg" # a plan that is not the suggested one
cp "$FOLDER/hole.svg" "$FOLDER/before.svg"
start "$FOLDER/hole.svg"
settled
shots () { see names 'list item' | grep '^Shot [0-9]*:'; }
before=$(shots)

# Given up, nothing is shown of it
key F5 Escape
settled
expect_gone 'push button' 'Cancel'
expect_gone 'push button' 'Use It'

press 'push button' 'Suggest'
expect 'list item' 'Suggested shot 1: .* plays [0-9]+\. .*Strokes to hole out: [0-9]\.[0-9][0-9].*'
expect_gone 'push button' 'Cancel'
settled
picture suggested
expect 'list item' 'Score 3 · par: [0-9]+ %'
[ "$(shots)" = "$before" ] || fail "the plan changed before it was told to: $(shots)"

# Beside the golfer's own plan, which follows the aim that is dragged
key ctrl+F5
expect 'list item' 'Plan yours: .*, expected score [0-9]\.[0-9][0-9]\. .*'
expect 'list item' 'Plan suggested: .*, expected score [0-9]\.[0-9][0-9]\. .*'
expect_gone 'list item' 'Plan all-out: .*' # the driver carries past this hole
settled
picture compared
own=$(see names 'list item' | grep '^Plan yours')
aim
xdotool mousemove $AX $AY mousedown 1
for i in 1 2 3 4 5 6 7 8; do xdotool mousemove $AX $((AY + 12 * i)); sleep 0.03; done
settled
picture compared-dragging
[ "$(see names 'list item' | grep '^Plan yours')" != "$own" ] || fail "the plan's own value did not follow the drag: $own"
expect_gone 'push button' 'Cancel'
key Escape
xdotool mouseup 1
settled
[ "$(see names 'list item' | grep '^Plan yours')" = "$own" ] || fail "taken back it is $(see names 'list item' | grep '^Plan yours'), before $own"
key ctrl+F5
press 'push button' 'Use It'
expect 'push button' '.*' 'Undo suggested plan'
settled
picture used
used=$(shots)
[ "$used" != "$before" ] || fail "the plan is still $before"
see names 'list item' | sed -n 's/^Suggested shot \([0-9]*\): \([^·,]*[^ ·,]\)[ ,].*/\1 \2/p' >"$FOLDER/suggested.txt"
[ -s "$FOLDER/suggested.txt" ] || fail "no suggested shots: $(see names 'list item')"
while read -r number club; do
  echo "$used" | grep -q "^Shot $number: $club" || fail "shot $number of the plan is not $club: $used"
done <"$FOLDER/suggested.txt"
key ctrl+z
settled
[ "$(shots)" = "$before" ] || fail "undo left $(shots), before it was $before"
key ctrl+s
expect frame 'hole.svg – Holewright'
cmp "$FOLDER/before.svg" "$FOLDER/hole.svg" || fail "undo and saving did not bring the bytes back"
passed
