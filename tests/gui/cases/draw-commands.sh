# SPDX-License-Identifier: GPL-3.0-or-later
# The commands of Draw that change what lies there, each given by the pointer or by keys and judged by the saved file.
cat >"$FOLDER/hole.svg" <<'END'
<svg xmlns="http://www.w3.org/2000/svg" xmlns:hw="urn:holewright:hole:1" hw:version="1" viewBox="-60 -130 120 140" hw:number="1" hw:par="3" hw:ground="rough">
  <title>Commands</title>
  <path hw:kind="bunker" hw:name="large" d="M -50 -20 L -10 -20 L -10 -40 L -50 -40 Z"/>
  <path hw:kind="bunker" hw:name="small" d="M -20 -25 L 0 -25 L 0 -35 L -20 -35 Z"/>
  <path hw:kind="bunker" hw:name="far" d="M 20 -20 L 40 -20 L 40 -40 L 20 -40 Z"/>
  <path hw:kind="building" hw:name="barn" d="M 15 -70 L 45 -64 L 44 -59 L 14 -65 Z"/>
  <path hw:kind="fairway" hw:name="meadow" d="M -50 -60 L -10 -60 L -10 -90 L -50 -90 Z"/>
  <circle hw:kind="tee-marker" hw:name="white" cx="0" cy="0" r="1"/>
  <circle hw:kind="hole-location" hw:name="middle" cx="0" cy="-110" r="1"/>
  <polyline hw:kind="line-of-play" points="0,0 0,-110" fill="none"/>
  <g hw:kind="tree">
    <circle cx="-55" cy="-100" r="2"/><circle cx="-50" cy="-100" r="2"/><circle cx="-45" cy="-100" r="2"/>
    <circle cx="-40" cy="-100" r="2"/><circle cx="-35" cy="-100" r="2"/><circle cx="-30" cy="-100" r="2"/>
    <circle cx="-25" cy="-100" r="2"/><circle cx="-20" cy="-100" r="2"/><circle cx="-15" cy="-100" r="2"/>
  </g>
</svg>
END
cp "$FOLDER/hole.svg" "$FOLDER/before.svg"
start "$FOLDER/hole.svg"
expect frame 'hole.svg – Holewright'
key alt+1
settled
expect_undo () { expect 'push button' '.*' "Undo $1"; }
areas () { key ctrl+s; settled; "$GUI/areas.py" "$FOLDER/hole.svg"; }
# saved LINE: an area of the saved file, in areas.py's words
saved () {
  local all
  all=$(areas)
  grep -qx -e "$1" <<<"$all" || fail "no area \"$1\" in the file, but: $all"
}
click () { xdotool mousemove $(at "$1" "$2") click 1; settled; }
# pull X Y X Y: a drag from one place to another, unsnapped
pull () {
  local from to
  read -r -a from < <(at "$1" "$2"); read -r -a to < <(at "$3" "$4")
  xdotool keydown ctrl; drag "${from[0]}" "${from[1]}" $((to[0] - from[0])) $((to[1] - from[1])); xdotool keyup ctrl
}
# also X Y: a click with Shift held, on another thing
also () { xdotool keydown shift; click "$1" "$2"; xdotool keyup shift; }
menu () { # menu X Y LETTER...: from the menu on the drawing at a thing selected, by its letters
  xdotool mousemove $(at "$1" "$2") click 3; settled
  for letter in "${@:3}"; do key "$letter"; settled; done
}

# locked: nothing takes hold of it, and a box passes it over
click 30 -30
key ctrl+l; settled
pull 30 -30 35 -45
expect frame 'hole.svg – Holewright'
expect 'list item' 'far, bunker.*, locked'
picture locked
# hidden: it is not there to be pressed, nor is its ink
click -30 -75
key ctrl+h; settled
expect 'list item' 'meadow, fairway.*, hidden'
click -30 -75
expect_gone '.*' 'Width across the drawing'
picture hidden
key ctrl+shift+h; settled
expect_gone 'list item' '.*(locked|hidden)'
expect frame 'hole.svg – Holewright'

# along the line of play: the barn, 30.59 m x 5.10 m, stands upright on its middle, (29.5, -64.5)
click 29 -64
menu 29 -64 t g
expect_undo 'align building'
saved 'barn 1 156.[0-9]* 26.95 -79.80 32.05 -49.20'

# the topmost taken away from the large one: 10 m x 10 m of it
click -40 -30
also -5 -30
menu -40 -30 u s
expect_undo 'subtract from 2 things'
saved 'large 1 700.00 -50.00 -40.00 -10.00 -20.00'
saved 'small 1 200.00 -20.00 -35.00 0.00 -25.00'

# one thing of two that lie apart, and two again
click -40 -30
also 30 -30
key ctrl+j; settled
expect_undo 'join 2 things'
saved 'large 2 1100.00 -50.00 -40.00 40.00 -20.00'
key ctrl+shift+j; settled
expect_undo 'split bunker'
saved 'large 1 700.00 -50.00 -40.00 -10.00 -20.00'
saved '.* 1 400.00 20.00 -40.00 40.00 -20.00'

# cut by a line across it: a third stays apart from two thirds, to a pixel
click -30 -75
menu -30 -75 u c
pull -60 -80 0 -80
expect_undo 'cut fairway'
key Escape; settled
[ "$(areas | awk '$4 == -50 && $6 == -10 && ($5 == -90 || $7 == -60) { n++; all += $3 } END { print n, all }')" = '2 1200' ] || fail "the meadow is not cut in two: $(areas)"
picture cut

# everything: more than a few move as a picture; the hole is not painted while they do, and Escape leaves no trace
areas >"$FOLDER/together"
key ctrl+a; settled
read -r X Y < <(at -40 -30)
xdotool keydown ctrl mousemove "$X" "$Y" mousedown 1
for i in 1 2 3; do xdotool mousemove $((X + 6 * i)) $((Y + 4 * i)); settled; done
before=$(redraws)
for i in 4 5 6; do xdotool mousemove $((X + 6 * i)) $((Y + 4 * i)); settled; done
picture moving
[ "$(redraws)" = "$before" ] || fail "the hole was painted again while its picture moved"
key Escape; xdotool mouseup 1 keyup ctrl; settled
[ "$(areas)" = "$(cat "$FOLDER/together")" ] || fail "Escape left a trace"
pull -40 -30 -34 -26
picture moved
expect_undo 'move 1[0-9] things'
areas | paste -d ' ' "$FOLDER/together" - | awk '{ dx = $11 - $4; dy = $12 - $5; if (NR == 1) { x = dx; y = dy }
  if (NF != 14 || dx - x > 0.011 || x - dx > 0.011 || dy - y > 0.011 || y - dy > 0.011 || $10 - $3 > 0.011 || $3 - $10 > 0.011) bad = 1 }
  END { exit bad || x < 5.5 || x > 6.5 || y < 3.5 || y > 4.5 }' || fail "not all went the same way: $(cat "$FOLDER/together"; areas)"

# all of it undone, step by step
for step in 'move 1[0-9] things' 'cut fairway' 'split bunker' 'join 2 things' 'subtract from 2 things' 'align building'; do
  expect_undo "$step"; key ctrl+z; settled
done
key ctrl+s; settled
cmp "$FOLDER/before.svg" "$FOLDER/hole.svg" || fail "undo did not bring the bytes back"
passed
