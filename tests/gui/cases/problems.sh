# SPDX-License-Identifier: GPL-3.0-or-later
# Problems are shown, not hidden: counted at the foot of Draw, shown and mended from the list, one step each; gone when there are none.
cat >"$FOLDER/hole.svg" <<'SVG'
<svg xmlns="http://www.w3.org/2000/svg" xmlns:hw="urn:holewright:hole:1" hw:version="1" viewBox="-60 -330 120 360" hw:number="3" hw:par="4">
<title>Trouble</title>
<rect hw:kind="tee" x="-5" y="-5" width="10" height="10"/>
<circle hw:kind="green" cy="-300" r="14"/>
<path hw:kind="bunker" id="pot" d="M20-140h9l-9 9h9z"/>
<circle hw:kind="bunker" id="far" cx="400" cy="-100" r="5"/>
<circle hw:kind="tee-marker" hw:name="white" r="1"/>
<circle hw:kind="tee-marker" hw:name="red" cx="5" cy="-40" r="1"/>
<polyline hw:kind="line-of-play" points="0,0 0,-250"/>
</svg>
SVG
cp "$FOLDER/hole.svg" "$FOLDER/before.svg"
start "$FOLDER/hole.svg"
key alt+1
settled
count () { settled; expect 'push button|toggle button' "$1"; }
mend () { # mend WORDS STEP: by its button, then what undo calls it
  expect 'push button' "Mend: $1"
  press 'push button' "Mend: $1"
  expect 'push button' '.*' "Undo $2"
  expect_gone 'push button' "Mend: $1"
}
count '5 problems'
see names 'push button' | grep '^Mend' && fail "the list is not folded at first"
press 'push button|toggle button' '5 problems'
picture unfolded
[ -z "$(see unnamed)" ] || fail "without a name: $(see unnamed)"

# shown: selected, and brought into view though it lies off the sheet
press 'push button' 'Show: The bunker “far” lies outside the sheet.*'
picture shown
expect 'text|entry' 'From the tee along the line'
states=$(see states 'list item' '.*far, bunker.*')
case $states in *selected*) ;; *) fail "what was shown is not selected: $states" ;; esac

# mended: each a step of undo, and the sheet is painted as it is then
before=$(redraws)
mend 'The bunker “far” lies outside the sheet.*' 'grow the sheet'
[ "$(redraws)" -gt "$before" ] || fail "the grown sheet was not painted"
picture grown
count '4 problems'
key ctrl+z
count '5 problems'
key ctrl+shift+z
mend 'The green has no hole location.' 'add a hole location'
mend 'The tee marker “red” stands off its area.' 'move it onto its area'
mend 'The line of play misses the green.' 'lead the line of play to the green'
count '1 problem'
mend 'The outline of the bunker “pot” crosses itself.' 'uncross the outline'
settled
expect_gone 'push button|toggle button' '[0-9]+ problems?'
picture none
key ctrl+s; settled
"$PROGRAM" check "$FOLDER/hole.svg" | tee "$FOLDER/check.log"
grep -qE ' (warning|error) ' "$FOLDER/check.log" && fail "the check still finds what was mended"

# back to the very bytes
for _ in 1 2 3 4 5; do key ctrl+z; settled; done
count '5 problems'
key ctrl+s; settled
cmp "$FOLDER/before.svg" "$FOLDER/hole.svg" || fail "undo did not bring the bytes back"
passed
