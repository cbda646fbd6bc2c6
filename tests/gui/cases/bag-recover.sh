# SPDX-License-Identifier: GPL-3.0-or-later
# The program is killed while a bag is typed into: the next start offers the bag as it was, on what its file holds; one that was never saved as well.
cp -r "$COURSES/fenwhistle" "$FOLDER/open"
copies=$XDG_STATE_HOME/holewright/recovery
count () { ls "$copies" 2>/dev/null | grep -c '\.csv$'; }
wait_copies () { # wait_copies N: until there are N copies of bags
  are_there () { [ "$(count)" = "$1" ]; }
  await are_there "$1" || fail "$(count) copies, not $1"
}
killed () { kill -9 "$APP"; wait "$APP" 2>/dev/null; }

start "$FOLDER/open"
settled
xdotool mousemove 1279 899
key F7
window_comes 'bag.csv – Bag'
[ "$(count)" = 0 ] || fail "a copy of a bag that nobody changed"
key ctrl+Delete
window_comes 'bag.csv .changed. – Bag'
wait_copies 1
cp "$copies"/*.csv "$FOLDER/copy.csv"
[ "$(grep -c . "$FOLDER/copy.csv")" = "$(($(grep -c . "$FOLDER/open/bag.csv") - 1))" ] || fail "the deleted club is still in the copy"
# undone back to what the file holds: no copy; done again: one
key ctrl+z
window_comes 'bag.csv – Bag'
wait_copies 0
key ctrl+y
wait_copies 1
killed
cmp "$FOLDER/open/bag.csv" "$COURSES/fenwhistle/bag.csv" || fail "a bag was saved that nobody saved"

start "$FOLDER/open"
expect 'push button' 'Open Bag bag.csv.*'
picture offered
press 'push button' 'Open Bag bag.csv.*'
window_comes 'bag.csv .changed. – Bag'
expect '.*' 'This is your unsaved work. Save keeps it; Undo goes back to what the file holds.'
picture opened
wait_copies 1
cmp "$copies"/*.csv "$FOLDER/copy.csv" || fail "another bag was recovered than was typed"
key ctrl+z
window_comes 'bag.csv – Bag'
key ctrl+y
window_comes 'bag.csv .changed. – Bag'
key ctrl+s
window_comes 'bag.csv – Bag'
wait_copies 0
cmp "$FOLDER/open/bag.csv" "$FOLDER/copy.csv" || fail "another bag was saved than was recovered"

# a usual bag that nobody typed into needs no copy; a club more does
key ctrl+n
window_comes 'new bag .changed. – Bag'
key ctrl+shift+n; xdotool type --delay 4 'chipper'; key Return
wait_copies 1
killed
# meanwhile another program changes the first bag's file: nothing to do with the new one
start "$FOLDER/open"
press 'push button' 'Open A bag without a name.*'
window_comes 'new bag .changed. – Bag'
expect '.*' 'This is your unsaved work. It has no file yet; Save asks where to keep it.'
grep -q '^chipper' "$copies"/*.csv || fail "the new club is not in the copy"
key ctrl+s
choose_file "$FOLDER/open/mine.csv" 'Save the Bag As'
window_comes 'mine.csv – Bag'
wait_copies 0
grep -q '^chipper' "$FOLDER/open/mine.csv" || fail "the new club was not saved"

# the file is another's since: saving is refused, and the copy stays
key ctrl+Delete
wait_copies 1
killed
echo 'spoon,170' >>"$FOLDER/open/mine.csv"; cp "$FOLDER/open/mine.csv" "$FOLDER/theirs.csv"
start "$FOLDER/open"
press 'push button' 'Open Bag mine.csv.*'
window_comes 'mine.csv .changed. – Bag'
key ctrl+s
expect '.*' 'Not saved: another program has changed mine.csv since it was opened; .*'
cmp "$FOLDER/open/mine.csv" "$FOLDER/theirs.csv" || fail "the change of another program was written over"
wait_copies 1
killed
APP=
passed
