# SPDX-License-Identifier: GPL-3.0-or-later
# The facts of things: heights and slopes drawn by pointer and by keys, their numbers typed, stakes, today's hole and a pin chosen, several at once; each
# a step with a name, all of it in the file.
cat >"$FOLDER/hole.svg" <<'SVG'
<svg xmlns="http://www.w3.org/2000/svg" xmlns:hw="urn:holewright:hole:1" hw:version="1" viewBox="-60 -330 120 360" hw:number="3" hw:par="4" hw:up-bearing="20">
<title>Facts</title>
<rect hw:kind="tee" x="-5" y="-5" width="10" height="10"/>
<circle hw:kind="green" cy="-300" r="14"/>
<path hw:kind="penalty-area" id="brook" d="M-50 -170L50 -160L50 -140L-50 -150Z"/>
<path hw:kind="water" id="pond" d="M-30 -163L20 -158L20 -148L-30 -155Z"/>
<path hw:kind="trees" id="wood" d="M25 -100L55 -100L55 -20L28 -20Z"/>
<circle hw:kind="tree" cx="-35" cy="-80" r="4"/>
<circle hw:kind="mark" hw:name="A" cx="-40" cy="-50" r="1"/>
<circle hw:kind="tee-marker" hw:name="white" r="1"/>
<circle hw:kind="hole-location" hw:name="front" cy="-295" r="0.5"/>
<circle hw:kind="hole-location" hw:name="back" cy="-307" r="0.5"/>
<polyline hw:kind="line-of-play" points="0,0 0,-300"/>
</svg>
SVG
cp "$FOLDER/hole.svg" "$FOLDER/before.svg"
start "$FOLDER/hole.svg"
key alt+1
settled
undo_says () { settled; expect 'push button' '.*' "Undo $1"; }
field () { press 'text|entry' "$1"; key ctrl+a; xdotool type --delay 4 "$2"; key Return; settled; }
at () { xdotool mousemove $((X + $1)) $((Y + $2)) click 1; settled; } # what lies there on the drawing
saved () { key ctrl+s; settled; grep -qE "$1" "$FOLDER/hole.svg" || fail "not in the file: $1"; }
read -r X Y < <(see origin image 'Drawing of the hole' "$(geometry)")

# a spot height by a click, a slope by a drag downhill; numbers with units and sums, nonsense said
press 'push button' 'spot height'
xdotool mousemove $((X + 400)) $((Y + 300)) click 1
undo_says 'draw spot height'
field 'Height of the trees or of the ground' '2 m + 40 cows'
expect '.*' '.*40 cows.*cannot be read.*'
picture nonsense
key Escape
field 'Height of the trees or of the ground' '10 ft + 6 in'
undo_says 'set the height of spot height'
press 'push button' slope
drag $((X + 400)) $((Y + 420)) 0 60
undo_says 'draw slope'
field 'Fall of the slope in percent' '2.5 %'
undo_says 'set the fall of slope'
field 'Bearing downhill.*' '110'
undo_says 'turn slope'
field 'Fall of the slope in percent' '5000'
expect '.*' 'A slope falls by 0 to 1000 percent.*'
key Escape
picture slope

# the same by keys
before=$(see names 'list item' | grep -c '^slope, ')
press 'push button' slope
key Up Up Return shift+Up Return
settled
[ "$(see names 'list item' | grep -c '^slope, ')" -eq $((before + 1)) ] || fail "no slope was drawn by keys"
undo_says 'draw slope'
key Escape Escape s; settled
saved 'hw:percent="2.5"'
saved 'hw:height_m="3.2(00|)"'

# stakes of the brook, and of the pond as the area round it
at 375 363
press 'push button|combo box|toggle button' 'Colour of the stakes: Red'
key Down Return
undo_says 'set the stakes of penalty area'
at 425 368
expect '.*' 'Colour of the stakes: As the area round it'
picture stakes
saved 'id="brook"[^>]*hw:stakes="yellow"|hw:stakes="yellow"[^>]*id="brook"'

# exactly one hole is today's
at 457 72
press 'check box' "Today’s hole"
undo_says 'make hole location today’s'
press 'check box' "Today’s hole"
expect '.*' 'One hole location is always in use.*'
picture today
saved 'hw:name="back"[^>]*hw:today="yes"|hw:today="yes"[^>]*hw:name="back"'
at 377 581
press 'check box' 'Pinned.*'
undo_says 'change the pin of mark'

# a tee marker's par; trees thinned by keys on the slider: one step; two things at once
at 457 677
field 'Par from this tee.*' '5'
undo_says 'set the par of tee marker'
at 535 557
press 'slider' 'Balls that the trees stop.*'
key Left Left Left; undo_says 'set the density of trees'
at 535 557
xdotool keydown shift; at 387 521; xdotool keyup shift
field 'Height of the trees or of the ground' '15 m'
undo_says 'set the height of 2 things'
picture several
[ -z "$(see unnamed)" ] || fail "without a name: $(see unnamed)"

# back through all of it, to the very bytes
for _ in $(seq 40); do case $(see names 'list item') in *'spot height'*) key ctrl+z; settled ;; *) break ;; esac; done
key ctrl+s; settled
cmp "$FOLDER/before.svg" "$FOLDER/hole.svg" || fail "undo did not bring the bytes back"
passed
