# SPDX-License-Identifier: GPL-3.0-or-later
# Another program changes the file that is open, or takes it away: said at once, loaded again or kept, and nothing that was drawn is lost.
cp "$COURSES"/fenwhistle/02-*.svg "$FOLDER/hole.svg"
cp "$COURSES/fenwhistle/bag.csv" "$FOLDER/bag.csv"
rewrite () { sed "$1" "$FOLDER/hole.svg" >"$FOLDER/other.svg"; mv "$FOLDER/other.svg" "$FOLDER/hole.svg"; }
start "$FOLDER/hole.svg"
settled
key Right
expect frame 'hole.svg \(changed\) – Holewright'
rewrite 's|<title>Orchard</title>|<title>Cider Yard</title>|'
expect alert 'Another program changed hole.svg.*'
settled
picture changed
expect label 'Orchard'

# loaded again, as a step: undo brings back what was here, with its aim, unsaved
press 'push button' 'Load Again'
expect label 'Cider Yard'
expect frame 'hole.svg – Holewright'
expect_gone alert 'Another program.*'
key ctrl+z
expect label 'Orchard'
expect frame 'hole.svg \(changed\) – Holewright'
key ctrl+y
expect frame 'hole.svg – Holewright'

# keep mine: counts as unsaved, and saving still asks
rewrite 's|<title>Cider Yard</title>|<title>Perry Yard</title>|'
expect alert 'Another program changed hole.svg.*'
press 'push button' 'Keep Mine'
expect_gone alert 'Another program.*'
expect frame 'hole.svg \(changed\) – Holewright'
key ctrl+s
expect 'push button' '.*Replace'
answer Cancel
grep -q 'Perry Yard' "$FOLDER/hole.svg" || fail "the other program's work was written over"
# a second change is news again; one that puts back what is here is none
rewrite 's|<title>Perry Yard</title>|<title>Quince Yard</title>|'
expect alert 'Another program changed hole.svg.*'
rewrite 's|<title>Quince Yard</title>|<title>Cider Yard</title>|'
expect_gone alert 'Another program.*'
expect frame 'hole.svg – Holewright'

# what cannot be read is said, and what is here stays
cp "$FOLDER/hole.svg" "$FOLDER/good.svg"
echo 'no drawing at all' >"$FOLDER/hole.svg"
expect alert 'Another program changed hole.svg.*'
press 'push button' 'Load Again'
expect alert '.*hole\.svg.*: .*'
expect label 'Cider Yard'
picture unreadable
cp "$FOLDER/good.svg" "$FOLDER/hole.svg"
expect_gone alert 'Another program.*'

# gone: said, counts as unsaved, and saving writes it again
rm "$FOLDER/hole.svg"
expect alert 'hole.svg is no longer in its folder.*'
expect frame 'hole.svg \(changed\) – Holewright'
settled
picture gone
key ctrl+s
expect frame 'hole.svg – Holewright'
cmp "$FOLDER/good.svg" "$FOLDER/hole.svg" || fail "saving wrote something else than was open"
expect_gone alert 'hole.svg is no longer.*'
passed
