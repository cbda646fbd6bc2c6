# SPDX-License-Identifier: GPL-3.0-or-later
# The pen turned round in Draw: a tap takes away what is under it, a stroke what it passes over but not the land below nor what is locked, each in one
# step of undo; Escape takes a stroke back. Turned upright again the pen moves things.
cat >"$FOLDER/hole.svg" <<'END'
<svg xmlns="http://www.w3.org/2000/svg" xmlns:hw="urn:holewright:hole:1" hw:version="1" viewBox="-60 -130 120 140" hw:number="1" hw:par="3" hw:ground="rough">
  <title>Eraser</title>
  <path hw:kind="fairway" hw:name="meadow" d="M -50 -50 L 50 -50 L 50 -100 L -50 -100 Z"/>
  <path hw:kind="bunker" hw:name="sand" d="M 20 -60 L 30 -60 L 30 -70 L 20 -70 Z"/>
  <circle hw:kind="tee-marker" hw:name="white" cx="0" cy="0" r="1"/>
  <circle hw:kind="hole-location" hw:name="middle" cx="0" cy="-115" r="1"/>
  <g hw:kind="tree">
    <circle hw:name="oak" cx="-40" cy="-80" r="3"/><circle hw:name="elm" cx="-30" cy="-80" r="3"/><circle hw:name="ash" cx="-20" cy="-80" r="3"/>
  </g>
</svg>
END
start "$FOLDER/hole.svg"
expect_title 'hole.svg – Holewright'
key alt+1
settled
# left NAMES: what the list holds, of these
left () {
  local there
  there=$(see names 'list item' | grep -oE '^(meadow|sand|oak|elm|ash)\b' | sort | tr '\n' ' ')
  [ "$there" = "$1 " ] || fail "left are $there and not $1"
}
all='ash elm meadow oak sand'
left "$all"
# pen_to X Y: over a place of the document
pen_to () { finger pen move $(at "$1" "$2"); }
# rub X Y X Y: the pen comes down, moves on in small steps, and stays down
rub () {
  local i
  pen_to "$1" "$2"; finger pen press
  for i in 1 2 3 4 5 6; do pen_to $(($1 + ($3 - $1) * i / 6)) $(($2 + ($4 - $2) * i / 6)); done
}
finger pen upright
finger pen turned
finger pen near $(at 0 -40)
settled

# a tap
pen_to 25 -65; finger pen press; finger pen lift
settled
expect 'push button' '.*' 'Undo erase bunker'
left 'ash elm meadow oak'
key ctrl+z; settled
left "$all"

# a stroke over the trees: the fairway they stand on stays
rub -48 -80 -10 -80
settled
picture rubbing
finger pen lift
settled
expect 'push button' '.*' 'Undo erase 3 things'
left 'meadow sand'
key ctrl+s
expect_title 'hole.svg – Holewright'
! grep -qE '"(oak|elm|ash)"' "$FOLDER/hole.svg" || fail "the trees are still in the file"
key ctrl+z; settled
left "$all"

# Escape in the middle of it
rub -48 -80 -10 -80
settled
key Escape
settled
finger pen lift
settled
left "$all"
expect 'push button' '.*' 'Undo'

# what is locked stays: the elm, then the stroke again
see names 'list item' >/dev/null
finger pen upright
finger pen move $(at -30 -80); finger pen press; finger pen lift
settled
expect image 'Drawing of the hole' 'elm selected, .*'
key ctrl+l; settled
finger pen turned
rub -48 -80 -10 -80
finger pen lift
settled
left 'elm meadow sand'
expect 'push button' '.*' 'Undo erase 2 things'
key ctrl+z; settled

# out over the edge of the fairway: it goes too
rub 0 -75 0 -40
finger pen lift
settled
left 'ash elm oak sand'
expect 'push button' '.*' 'Undo erase fairway'
key ctrl+z; settled

# upright again it takes hold
finger pen upright
rub 25 -65 35 -65
finger pen lift
settled
expect 'push button' '.*' 'Undo move bunker'
left "$all"
passed
