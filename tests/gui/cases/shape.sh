# SPDX-License-Identifier: GPL-3.0-or-later
# How a shot flies: shape, curve and swing are edits of the plan with names of their own; what cannot be is said and leaves it; trees in the way follow the drag with the
# numbers of the same shot; undo brings the bytes back.
cp "$COURSES"/fenwhistle/05-*.svg "$FOLDER/hole.svg"
cp "$COURSES/fenwhistle/bag.csv" "$FOLDER/bag.csv"
cp "$FOLDER/hole.svg" "$FOLDER/before.svg"
start "$FOLDER/hole.svg"
settled
undone () { expect 'push button' '.*' "Undo $1"; }
saved () { key ctrl+s; expect frame 'hole.svg – Holewright'; grep -o '<line[^>]*hw:kind="shot"[^>]*>' "$FOLDER/hole.svg" | head -1; }
first () { see names 'list item' | sed -n '/^Shot 1: /p'; }
type_into () { press text "$1"; key ctrl+a; xdotool type --delay 8 "$2"; key Return; settled; }

press '.*button' 'Shape and swing'
press 'push button' 'Shape: straight'
key Down Return; settled
expect 'push button' 'Shape: draw'
undone 'change the shape'
type_into 'How far the shot curves' '20 yd'
saved | grep -q 'hw:shape="draw" .*hw:curve_m="-18.288"\|hw:curve_m="-18.288" .*hw:shape="draw"' || fail "saved as $(saved)"
picture draw
type_into 'How far the shot curves' 'a lot'
expect alert '.*draw or fade says which way.*'
key Escape; settled
[ "$(see value text 'How far the shot curves')" = '20 yd' ] || fail "Escape left $(see value text 'How far the shot curves')"

aim
drag $AX $AY -60 0
full=$(first)
press 'push button' 'Fit to the Aim'
undone 'fit the swing'
fitted=$(first)
[ "${fitted##* }" -lt "${full##* }" ] || fail "fitted to the aim it is $fitted, full $full"
type_into 'Share of a full swing' '60'
undone 'change the swing'
[ "$(see value text 'Share of a full swing')" = '60 %' ] || fail "the swing reads $(see value text 'Share of a full swing')"
type_into 'Share of a full swing' '140 %'
expect alert '.*1 to 100 %.*'
key Escape

# Over the trees beside the hole: the panel tells of them while the aim is held there
key Escape; settled
type_into 'Share of a full swing' 'full'
aim
xdotool mousemove $AX $AY mousedown 1
for i in 1 2 3 4 5 6 7 8 9 10; do xdotool mousemove $AX $((AY - 10 * i)); sleep 0.03; done
settled
picture trees
expect 'list item' '.* at [0-9]+: .*past [0-9]+ %'
key Escape; settled; xdotool mouseup 1; settled

for _ in 1 2 3 4 5 6; do key ctrl+z; settled; done
key ctrl+s
expect frame 'hole.svg – Holewright'
cmp "$FOLDER/before.svg" "$FOLDER/hole.svg" || fail "undo and saving did not bring the bytes back"
passed
