# SPDX-License-Identifier: GPL-3.0-or-later
# A whole hole from an empty sheet with the pointer: drawn, saved, opened again the same, its carries printed by the command.
start "$COURSES/fenwhistle"
settled
new_hole 'Heron Pool' '320+20 yd' empty
expect frame 'new-hole.svg \(changed\) – Holewright'
picture new

# where things go, px: the hole runs up the sheet
read -r X Y < <(see origin image 'Drawing of the hole' "$(geometry)")
on_the_hole () { see names 'list item' | grep -v ': '; }
place () { press 'push button' "$1"; xdotool mousemove $((X + $2)) $((Y + $3)) click 1; settled; }
circle () { press 'push button' "$1"; press 'push button' Circle; drag $((X + $2)) $((Y + $3)) "$4" 0; }
outline () { # outline KIND X1 Y1 X2 Y2 ...: clicks the points, Return closes
  press 'push button' "$1"; press 'push button' Points; shift
  while [ $# -ge 2 ]; do xdotool mousemove $((X + $1)) $((Y + $2)) click 1; sleep 0.5; shift 2; done
  key Return; settled
}
outline tee 440 690 470 690 470 720 440 720
freehand () { # freehand KIND X1 Y1 X2 Y2 ...: one stroke through these
  press 'push button' "$1"; press 'push button' Freehand; shift
  xdotool mousemove $((X + $1)) $((Y + $2)) mousedown 1
  while [ $# -ge 2 ]; do xdotool mousemove $((X + $1)) $((Y + $2)); sleep 0.03; shift 2; done
  xdotool mouseup 1; settled
}
freehand fairway 420 560 436 572 455 575 475 565 484 540 490 500 495 450 497 400 496 350 492 300 484 272 460 262 436 268 424 300 416 350 411 400 410 450 412 500 415 540 419 556
circle green 455 150 38
circle bunker 400 185 14
circle bunker 520 160 16
outline water 300 330 600 350 600 375 300 350
place 'tee marker' 455 705
place 'hole location' 450 145
press 'push button' 'Tree row'; drag $((X + 340)) $((Y + 650)) 20 -250
outline 'line of play' 455 705 455 150
picture drawn
things=$(on_the_hole)
echo "$things"
for kind in tee fairway green bunker water 'hole location' 'line of play'; do
  echo "$things" | grep -q "$kind" || fail "no $kind on the hole: $things"
done
key ctrl+s
choose_file "$FOLDER/heron.svg" 'Save.*'
expect frame 'heron.svg – Holewright'
# nothing taken up, the pointer out of the way: what is to be seen when it is opened again
press 'push button' Select
key Escape; xdotool mousemove 1270 890; settled
picture saved
"$PROGRAM" check "$FOLDER/heron.svg" || fail "the check finds errors"
cp "$COURSES/fenwhistle/bag.csv" "$FOLDER/bag.csv"
"$PROGRAM" carries "$FOLDER/heron.svg" --bag "$FOLDER/bag.csv" --club driver --format csv >"$FOLDER/carries.csv" || fail "no carries"
grep -q water "$FOLDER/carries.csv" || fail "the water is not in the carries"

# opened again: the same things, and saving writes the same bytes
cp "$FOLDER/heron.svg" "$FOLDER/saved.svg"
kill "$APP"; wait "$APP" 2>/dev/null
start "$FOLDER/heron.svg"
expect frame 'heron.svg – Holewright'
key alt+1
settled
xdotool mousemove 1270 890; settled
picture again
differs=$(compare -metric AE -extract 840x690+40+100 "$FOLDER/saved.png" "$FOLDER/again.png" null: 2>&1)
[ "$differs" = 0 ] || fail "opened again, $differs pixels of the drawing are others"
[ "$(on_the_hole)" = "$things" ] || fail "other things after opening again: $(on_the_hole)"
key ctrl+s
settled
cmp "$FOLDER/saved.svg" "$FOLDER/heron.svg" || fail "saving what was opened wrote other bytes"
passed
