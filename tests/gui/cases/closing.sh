# SPDX-License-Identifier: GPL-3.0-or-later
# Unsaved work is asked about; a file that changed on disk is not written over unasked.
cp "$COURSES"/fenwhistle/02-*.svg "$FOLDER/hole.svg"
cp "$COURSES/fenwhistle/bag.csv" "$FOLDER/bag.csv"
cp "$FOLDER/hole.svg" "$FOLDER/before.svg"
start "$FOLDER/hole.svg"
settled
key Up
expect frame 'hole.svg \(changed\) – Holewright'
key ctrl+w
expect 'push button' '.*Discard'
picture unsaved
answer Cancel
expect frame 'hole.svg \(changed\) – Holewright'
# another program writes the file
echo '<!-- from elsewhere -->' >>"$FOLDER/hole.svg"
key ctrl+s
expect 'push button' '.*Replace'
picture changed-on-disk
answer Cancel
grep -q 'from elsewhere' "$FOLDER/hole.svg" || fail "the other program's work was written over"
key ctrl+w
expect 'push button' '.*Discard'
key alt+d
ends
kill -0 "$APP" 2>/dev/null && fail "the window did not close"
wait "$APP" || fail "the program ended with status $?"
cmp -n "$(stat -c %s "$FOLDER/before.svg")" "$FOLDER/before.svg" "$FOLDER/hole.svg" || fail "discarding changed the file"
APP=
passed
