# SPDX-License-Identifier: GPL-3.0-or-later
# The course's expected scores: worked out hole by hole when asked, and what cannot be planned is said in its row.
mkdir "$FOLDER/course"
cp "$COURSES"/fenwhistle/{01-*.svg,08-*.svg,bag.csv} "$FOLDER/course"
sed 's/hw:kind="green"/hw:kind="fairway"/' "$COURSES"/fenwhistle/08-*.svg >"$FOLDER/course/bare.svg"
cat >"$FOLDER/course/course.xml" <<XML
<course xmlns="urn:holewright:course:1" name="Two Greens">
$(cd "$FOLDER/course" && for hole in 01-*.svg bare.svg; do echo "  <hole file=\"$hole\"/>"; done)
</course>
XML
start "$FOLDER/course"
settled
key F8
window_comes 'Two Greens – Course'
key alt+s; settled
key alt+o
# a solver gives way to all else on a busy machine
for _ in 1 2 3; do see wait 'list item' '1 Quarry: .*' >/dev/null && break; done
expect 'list item' '1 Quarry: [23]\.[0-9][0-9] .*par 3 · [0-9] iron.*'
expect 'list item' '.*: –\. .*green to play to.*'
expect 'label' 'Expected [0-9]\.[0-9][0-9] on 1 hole, par 3 .*'
settled
picture scores
# begun again by its button and given up in the middle: the keyboard stays where it was
for _ in 1 2 3 4; do key Tab; settled; see focused | grep -q 'Out' && break; done
key space
expect 'push button' '.*Cancel'
key space
expect 'label' 'Given up; .*'
see focused | grep -q 'Out' || fail "given up, the focus is on $(see focused)"
picture given-up
passed
