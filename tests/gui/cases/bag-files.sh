# SPDX-License-Identifier: GPL-3.0-or-later
# Several bags beside the hole: a usual one of the level is made, saved and used by the plan; another is opened; a file that another program changed is not
# written over, nothing unsaved goes without a question, and more clubs than the Rules allow are named.
cp -r "$COURSES/fenwhistle" "$FOLDER/open"
printf 'club,carry_yd,mine\nmashie,160,x\nniblick,120,y\n' >"$FOLDER/open/partner.csv"
start "$FOLDER/open"
settled
xdotool mousemove 1279 899 # a tooltip would count as a window
key F7
window_comes 'bag.csv – Bag'
key ctrl+n
window_comes 'new bag .changed. – Bag'
[ "$(see value text 'Carry of driver')" = 230 ] || fail "the usual driver carries $(see value text 'Carry of driver')"
picture usual
# two clubs more than the Rules allow
key ctrl+shift+n; xdotool type --delay 4 'chipper'; key Return; key ctrl+d
expect '.*' '15 clubs are in the bag; the Rules of Golf allow at most 14 \(Rule 4.1b\).'
picture fifteen
key ctrl+s
choose_file "$FOLDER/open/cold day.csv" 'Save the Bag As'
window_comes 'cold day.csv – Bag'
[ "$(grep -c . "$FOLDER/open/cold day.csv")" = 16 ] || fail "not all clubs are in the file"
# another program changes the file, and the bag is changed here
echo 'spoon,170' >>"$FOLDER/open/cold day.csv"; cp "$FOLDER/open/cold day.csv" "$FOLDER/theirs.csv"
key ctrl+Delete
window_comes 'cold day.csv .changed. – Bag'
key ctrl+s
expect '.*' 'Not saved: another program has changed cold day.csv since it was opened; .*'
cmp "$FOLDER/open/cold day.csv" "$FOLDER/theirs.csv" || fail "the change of another program was written over"
picture refused
# what is unsaved is asked about
key Escape
expect '.*' 'Save the changes to cold day.csv.'
picture asked
answer Cancel
expect '.*' 'Not saved: .*'
key Escape
expect '.*' 'Save the changes to cold day.csv.'
answer Discard
window_goes '.* – Bag'
# another bag is opened, and the plan uses it
expect 'push button' 'Bag: cold day'
key F7
window_comes 'cold day.csv – Bag'
key ctrl+o
choose_file "$FOLDER/open/partner.csv" 'Open a Bag'
window_comes 'partner.csv – Bag'
[ "$(see value text 'Carry of mashie')" = 160 ] || fail "the partner's bag is not the one that is shown"
expect text 'Spread along the line of mashie' '.*from the level, scratch men'
key Escape
window_goes '.* – Bag'
expect 'push button' 'Bag: partner'
picture partner
passed
