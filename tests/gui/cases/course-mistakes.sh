# SPDX-License-Identifier: GPL-3.0-or-later
# A course one of whose files is missing, a folder that vanishes while it is open, and a place where nothing can be made: said, and nothing lost.
cp -r "$COURSES/fenwhistle" "$FOLDER/course"
xml=$FOLDER/course/course.xml
cp "$xml" "$FOLDER/before.xml"
mv "$FOLDER/course/01-quarry.svg" "$FOLDER/away.svg"
names () { grep -c "$1" "$xml"; }
are_named () { [ "$(names "$1")" = "$2" ]; }
is_named () { await are_named "$1" "$2" || fail "the course names $1 $(names "$1") times, not $2"; settled; }

# the first file is missing: the next hole is shown, and the file is named
start "$FOLDER/course"
expect frame '02-orchard.svg – Holewright'
expect alert '01-quarry.svg is missing from .*'
picture missing
key F8
window_comes '.*Course'
key Up
settled
picture missing-row
key ctrl+Delete
is_named 01-quarry 0
expect alert '“01-quarry.svg” was taken out; its file is missing.'
key ctrl+z
is_named 01-quarry 1
cmp "$xml" "$FOLDER/before.xml" || fail "undoing did not give the course back"

# the folder vanishes: nothing is made in its place, and all goes on when it is back
mv "$FOLDER/course" "$FOLDER/elsewhere"
key Down ctrl+d
expect alert '.*course.xml.*cannot be read .*'
picture vanished
[ -e "$FOLDER/course" ] && fail "something was made where the folder was"
mv "$FOLDER/elsewhere" "$FOLDER/course"
key ctrl+d
is_named 02-orchard 2
before=$(windows); key Escape; fewer_windows "$before"

# a place where nobody can make a folder
key ctrl+alt+n
window_comes 'New Course'
key alt+n; xdotool type --delay 4 Nowhere
key alt+f; key ctrl+a; xdotool type --delay 4 /proc/nowhere
settled
key alt+m
expect alert '.*/proc/nowhere.*cannot be made .*'
picture no-place
before=$(windows); key Escape; fewer_windows "$before"
expect_title '02-orchard.svg – Holewright'
passed
