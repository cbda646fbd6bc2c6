# SPDX-License-Identifier: GPL-3.0-or-later
# A course from nothing by keyboard: two holes, their facts, order, a copy, another file name, a deletion taken back; all of it found in the files.
cp -r "$COURSES/fenwhistle" "$FOLDER/open"
start "$FOLDER/open"
settled
xml=$FOLDER/moor/course.xml
order () { sed -n 's/.*<hole file="\([^"]*\)".*/\1/p' "$xml" | tr '\n' ' '; }
are_ordered () { [ "$(order)" = "$1 " ]; }
is_ordered () { await are_ordered "$1" || fail "the order is $(order), not $1"; settled; }

key ctrl+alt+n
window_comes 'New Course'
key alt+n; xdotool type --delay 4 'Moor & Mere'
key alt+f; key ctrl+a; xdotool type --delay 4 "$FOLDER/moor"
key alt+t; key ctrl+a; xdotool type --delay 4 'blue, white'
key alt+h; key ctrl+a; xdotool type --delay 4 2
settled
picture new-course
before=$(windows); key alt+m; fewer_windows "$before"
expect frame '01.svg – Holewright'
holds "$xml" 'name="Moor &amp; Mere"'
holds "$xml" '<tee name="blue" colour="#2f5fa8"/>'
is_ordered '01.svg 02.svg'

# the chooser lists the holes in columns, and leads to the course
xdotool mousemove $(see middle '.*' 'Hole .*' "$(geometry)") click 1
expect 'list item' '1 .*par 4 · 383'
picture chooser
key alt+c
window_comes 'Moor.*'
before=$(windows); key Escape; fewer_windows "$before"
# facts, typed into the table: the open hole through its undo, the closed one into its file
key F8
window_comes 'Moor.*'
xdotool type --delay 4 'Heron'; key Down; xdotool type --delay 4 'Sedge'; key Up
holds "$FOLDER/moor/02.svg" '<title>Sedge</title>'
expect frame '01.svg \(changed\) – Holewright'
picture course
key alt+Down
is_ordered '02.svg 01.svg'
key ctrl+d
is_ordered '02.svg 01.svg 01-heron.svg'
holds "$FOLDER/moor/01-heron.svg" '<title>Heron</title>'
key alt+l ctrl+a; xdotool type --delay 4 'heron copy'; key Return
is_ordered '02.svg 01.svg heron copy.svg'
key ctrl+z
is_ordered '02.svg 01.svg 01-heron.svg'
# back to the table: Add comes before the details
for _ in 1 2 3 4 5 6 7 8 9 10 11 12; do key shift+Tab; done
key ctrl+Delete
is_ordered '02.svg 01.svg'
[ -e "$FOLDER/moor/01-heron.svg" ] && fail "the deleted file is still in its place"
key ctrl+z
is_ordered '02.svg 01.svg 01-heron.svg'
holds "$FOLDER/moor/01-heron.svg" '<title>Heron</title>'
picture undone
# a course that another program changed is left alone
sed -i 's/Moor/Fell/' "$xml"
cp "$xml" "$FOLDER/changed.xml"
key ctrl+d
settled
picture changed
cmp "$xml" "$FOLDER/changed.xml" || fail "the change of another program was written over"
# the window goes while the keyboard is in the course's name
key alt+t; settled; key alt+n; settled
picture tees
# a tee that is renamed takes its markers along: of the open hole through its undo, of the closed one into its file
sed -i 's/Fell/Moor/' "$xml"
cp "$FOLDER/moor/02.svg" "$FOLDER/02-before.svg"
key Tab Tab; key ctrl+a; xdotool type --delay 4 'bluebell'; key Return
holds "$xml" '<tee name="bluebell"'
holds "$FOLDER/moor/02.svg" 'hw:name="bluebell"'
picture tee-renamed
key ctrl+z
holds "$xml" '<tee name="blue"'
holds "$FOLDER/moor/02.svg" 'hw:name="blue"'
cmp "$FOLDER/moor/02.svg" "$FOLDER/02-before.svg" || fail "undoing did not give the hole back"
before=$(windows); key Escape; fewer_windows "$before"
kill -0 "$APP" 2>/dev/null || fail "the program ended with the window of the course"
"$PROGRAM" check "$FOLDER"/moor/*.svg >/dev/null || fail "the check finds errors"
passed
