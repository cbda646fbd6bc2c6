# SPDX-License-Identifier: GPL-3.0-or-later
# The program is killed while several holes of a course and a drawing without a file are changed: the next start offers all of it, as it was.
cp -r "$COURSES/fenwhistle" "$FOLDER/course"
copies=$XDG_STATE_HOME/holewright/recovery
count () { ls "$copies" 2>/dev/null | grep -c '\.svg$'; }
wait_copies () { # wait_copies N: until there are N copies
  are_there () { [ "$(count)" = "$1" ]; }
  await are_there "$1" || fail "$(count) copies, not $1"
}
killed () { kill -9 "$APP"; wait "$APP" 2>/dev/null; }
of_hole () { grep -l "$1" "$copies"/*.svg; }

start "$FOLDER/course/01-quarry.svg"
settled
key Right
expect frame '01-quarry.svg \(changed\) – Holewright'
key ctrl+Page_Down
settled
key alt+1
settled
read -r X Y < <(see origin image 'Drawing of the hole' "$(geometry)")
press 'push button' bunker; press 'push button' Circle; drag $((X + 300)) $((Y + 300)) 14 0
key alt+2
settled
expect frame '02-orchard.svg \(changed\) – Holewright'
wait_copies 2
# undone back to what the file holds: no copy; done again: one
key ctrl+z
expect frame '02-orchard.svg – Holewright'
wait_copies 1
key ctrl+y
expect frame '02-orchard.svg \(changed\) – Holewright'
wait_copies 2
cp "$(of_hole Orchard)" "$FOLDER/orchard-copy.svg"
cp "$(of_hole Quarry)" "$FOLDER/quarry-copy.svg"
bunkers () { grep -c 'hw:kind="bunker"' "$1"; }
[ "$(bunkers "$FOLDER/orchard-copy.svg")" = "$(($(bunkers "$COURSES/fenwhistle/02-orchard.svg") + 1))" ] || fail "the new bunker is not in the copy"
[ "$(aim_in "$FOLDER/quarry-copy.svg")" != "$(aim_in "$COURSES/fenwhistle/01-quarry.svg")" ] || fail "the moved aim is not in the copy"
killed

# a start later everything is offered, and nothing has to be answered
start "$FOLDER/course/01-quarry.svg"
expect 'push button' 'Open Orchard.*'
expect 'push button' 'Open .*Quarry.*'
settled
picture offered
expect frame '01-quarry.svg – Holewright'
killed
[ "$(count)" = 2 ] || fail "ignoring the offer lost a copy"

start "$FOLDER/course/01-quarry.svg"
press 'push button' 'Open Orchard.*'
expect frame '02-orchard.svg \(changed\) – Holewright'
picture opened
press 'push button' 'Open .*Quarry.*'
expect frame '01-quarry.svg \(changed\) – Holewright'
expect_gone 'push button' 'Open .*'
wait_copies 2
cmp "$(of_hole Orchard)" "$FOLDER/orchard-copy.svg" || fail "another Orchard was recovered than was drawn"
cmp "$(of_hole Quarry)" "$FOLDER/quarry-copy.svg" || fail "another Quarry was recovered than was drawn"
# undo leads back to the file, and saving keeps what was recovered
key ctrl+z
expect frame '01-quarry.svg – Holewright'
key ctrl+y
expect frame '01-quarry.svg \(changed\) – Holewright'
key ctrl+s
expect frame '01-quarry.svg – Holewright'
wait_copies 1
cmp "$FOLDER/course/01-quarry.svg" "$FOLDER/quarry-copy.svg" || fail "another Quarry was saved than was drawn"
cmp "$FOLDER/course/02-orchard.svg" "$COURSES/fenwhistle/02-orchard.svg" || fail "a hole was saved that nobody saved"

# closed properly: nothing is left
key ctrl+w
expect 'push button' '.*Discard'
key alt+d
ends
wait "$APP" || fail "the program ended with status $?"
[ -z "$(ls "$copies")" ] || fail "left behind: $(ls "$copies")"

# a drawing without a file
cp "$COURSES"/fenwhistle/02-*.svg "$FOLDER/lone.svg"
start "$FOLDER/lone.svg"
settled
new_hole 'Heron Pool' '320 yd' sketch
expect frame 'new-hole.svg \(changed\) – Holewright'
wait_copies 1
cp "$copies"/*.svg "$FOLDER/heron-copy.svg"
killed
start "$FOLDER/lone.svg"
expect 'push button' 'Open Heron Pool.*'
picture offered-without-file
# discarding is no question, and can be taken back until the program ends
press 'push button' 'Discard Heron Pool'
expect 'push button' 'Keep Heron Pool.*'
picture discarded
press 'push button' 'Keep Heron Pool.*'
press 'push button' 'Open Heron Pool.*'
expect frame 'new-hole.svg \(changed\) – Holewright'
wait_copies 1
cmp "$copies"/*.svg "$FOLDER/heron-copy.svg" || fail "another drawing was recovered than was drawn"
key ctrl+s
choose_file "$FOLDER/heron.svg" 'Save.*'
expect frame 'heron.svg – Holewright'
wait_copies 0
killed
APP=
passed
