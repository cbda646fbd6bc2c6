# SPDX-License-Identifier: GPL-3.0-or-later
# A whole hole from an empty sheet by keys alone: drawn, saved, opened again the same, its carries printed by the command. Then the same hole read
# back through the accessible tree, to the yard where the keys put it.
start "$COURSES/fenwhistle"
settled
new_hole 'Reed Mere' '320 yd' empty
expect frame 'new-hole.svg \(changed\) – Holewright'

# kind NAME: from the drawing to the panel, with Tab to the kind, and by choosing it back to the drawing
kinds=$(see names 'push button')
first=$(echo "$kinds" | grep -nx Select | head -1 | cut -d: -f1)
kind () {
  local at
  at=$(echo "$kinds" | tail -n "+$first" | grep -nx "$1" | head -1 | cut -d: -f1)
  [ -n "$at" ] || fail "no kind $1 among $kinds"
  key F6
  xdotool key --repeat $((at - 1)) --delay 12 Tab
  [ "$(see focused)" = "push button $1" ] || fail "the focus is on $(see focused), not on $1"
  key space
  settled
  [ "$(see focused)" = 'image Drawing of the hole' ] || fail "after choosing $1 the focus is on $(see focused)"
}
# go KEY TIMES: the pen
go () { xdotool key --repeat "$2" --delay 8 "$1"; }
down () { key Return; }
undo_says () { settled; expect 'push button' '.*' "Undo $1"; }

# the tee marker, 160 yd below the middle of the sheet; from now on the pen begins there
kind 'tee marker'; go shift+Down 16; down; undo_says 'draw tee marker'
kind tee; key p; go shift+Left 1; down; go shift+Right 2; down; go Down 8; down; go shift+Left 2; down; down; undo_says 'draw tee'
kind fairway; key p; go shift+Up 9; go shift+Left 2; down; go shift+Up 16; down; go shift+Right 4; down; go shift+Down 16; down; down
undo_says 'draw fairway'
kind green; key c; go shift+Up 32; down; go Right 14; down; undo_says 'draw green'
kind bunker; key c; go shift+Up 30; go shift+Left 3; down; go Right 7; down; undo_says 'draw bunker'
key Escape Escape
kind bunker; key c; go shift+Up 32; go shift+Right 3; down; go Left 8; down; undo_says 'draw bunker'
kind water; key p; go shift+Up 27; go shift+Left 6; down; go shift+Right 12; down; go shift+Up 1; go Up 4; down; go shift+Left 12; down; down
undo_says 'draw water'
kind tree; key t; go shift+Left 5; down; go shift+Up 20; down; settled
undo_says '.*tree.*'
kind 'hole location'; go shift+Up 32; go alt+Right 5; down; undo_says 'draw hole location'
kind 'line of play'; down; go shift+Up 32; down; down; undo_says 'draw line of play'
key Escape Escape Escape s
settled
picture drawn

# read back through the accessible tree: every thing with its kind and its distance from the tee
things=$(see names 'list item')
row () { echo "$things" | grep -qxE "$1" || fail "no row \"$1\" in the list: $things"; }
row '(.*, )?tee marker, 0 yd from the tee'
row 'tee, (4|5|6) yd from the tee'
row 'fairway, 170 yd from the tee'
row 'green, 320 yd from the tee'
row '.*bunker, 301 yd from the tee'
row '.*bunker, 321 yd from the tee'
row 'water, 277 yd from the tee'
row '(.*, )?hole location, 320 yd from the tee'
row 'line of play, .*yd from the tee'
[ "$(echo "$things" | grep -cE '^tree, ')" -ge 10 ] || fail "fewer than ten trees: $things"

# Tab takes the things one by one; the fields tell where the one is, by one, ten and a tenth of a yard
along () { see value text 'From the tee along the line'; }
key Tab; settled
expect image 'Drawing of the hole' '.* selected, .*'
before=$(along); key Up; settled; one=$(along); key shift+Up; settled; ten=$(along); key alt+Up; settled; tenth=$(along)
/usr/bin/python3 -c "import sys; a, b, c, d = map(float, sys.argv[1:]); sys.exit(not (abs(b - a - 1) < 0.11 and abs(c - b - 10) < 0.11 and abs(d - c - 0.1) < 0.11))" \
  "$before" "$one" "$ten" "$tenth" || fail "arrows moved it from $before to $one, $ten, $tenth"
for _ in 1 2 3; do [ "$(along)" = "$before" ] || { key ctrl+z; settled; }; done # nudges in quick succession are one step
[ "$(along)" = "$before" ] || fail "undone it stands at $(along), not $before"
sleep 1 # the pause that parts two steps of undo
key Up Up shift+Up alt+Up; settled; key ctrl+z; settled
[ "$(along)" = "$before" ] || fail "nudges in a row are not one step of undo: $(along), before $before"
[ -z "$(see unnamed)" ] || fail "without a name: $(see unnamed)"

key ctrl+s
choose_file "$FOLDER/reed.svg" 'Save.*'
expect frame 'reed.svg – Holewright'
"$PROGRAM" check "$FOLDER/reed.svg" || fail "the check finds errors"
cp "$COURSES/fenwhistle/bag.csv" "$FOLDER/bag.csv"
"$PROGRAM" carries "$FOLDER/reed.svg" --bag "$FOLDER/bag.csv" --club driver --format csv >"$FOLDER/carries.csv" || fail "no carries"
cat "$FOLDER/carries.csv"
/usr/bin/python3 - "$FOLDER/carries.csv" <<'P' || fail "the water's reach and carry are not 270 and 284 yd: $(cat "$FOLDER/carries.csv")"
import csv, sys
rows = [row for row in csv.DictReader(open(sys.argv[1])) if "water" in " ".join(str(v) for v in row.values())]
sys.exit(not (rows and abs(float(rows[0]["reach_yd"]) - 270) < 0.6 and abs(float(rows[0]["carry_yd"]) - 284) < 0.6))
P

cp "$FOLDER/reed.svg" "$FOLDER/saved.svg"
kill "$APP"; wait "$APP" 2>/dev/null
start "$FOLDER/reed.svg"
expect frame 'reed.svg – Holewright'
key alt+1
settled
picture again
[ "$(see names 'list item')" = "$things" ] || fail "other things after opening again: $(see names 'list item')"
key ctrl+s
settled
cmp "$FOLDER/saved.svg" "$FOLDER/reed.svg" || fail "saving what was opened wrote other bytes"
passed
