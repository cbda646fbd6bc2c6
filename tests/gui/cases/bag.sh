# SPDX-License-Identifier: GPL-3.0-or-later
# The bag by keyboard: a carry typed moves the club in Plan at once, undo takes it back by name, what is saved opens again; shots fitted stand with their errors; a
# mistake is said beside its cell and nothing is lost.
cp -r "$COURSES/fenwhistle" "$FOLDER/open"
bag=$FOLDER/open/bag.csv
start "$FOLDER/open"
settled
xdotool mousemove 1279 899 # a tooltip would count as a window
key F7
window_comes 'bag.csv – Bag'
picture bag

# the driver's carry has the keyboard; a carry typed is the carry that the plan plays with, before it is saved
xdotool type --delay 4 '240+5'; key Return
window_comes 'bag.csv .changed. – Bag'
[ "$(see value text 'Carry of driver')" = 245 ] || fail "the sum is not taken: $(see value text 'Carry of driver')"
expect image 'Two of three shots with driver carry .*'
picture typed
expect image '.*wide gap: 40 yd to the next club'
# a mistake stays in its cell with the reason below; Escape gives it up
key Up; key ctrl+a; xdotool type --delay 4 'far'; key Tab
expect '.*' 'Carry is "far"; write a number such as 190 or a range such as 185-195.'
picture mistake
key ctrl+s
cmp "$bag" "$COURSES/fenwhistle/bag.csv" || fail "a bag with a mistake was saved"
key shift+Tab; key Escape
expect_gone '.*' 'Carry is "far".*'
key ctrl+s
window_comes 'bag.csv – Bag'
holds "$bag" '^driver,245,13,17,10.5,tee,26,7,a small fade when the swing is good$'
key ctrl+z
window_comes 'bag.csv .changed. – Bag'
[ "$(see value text 'Carry of driver')" = 222 ] || fail "undo did not bring the carry back"
key ctrl+s
cmp "$bag" "$COURSES/fenwhistle/bag.csv" || fail "what was undone and saved is not the file as it was"

# shots fitted: every figure with its error, in one step
key ctrl+f
window_comes 'Fit to Recorded Shots'
key Return
choose_file "$FOLDER/open/range-session.csv" 'Choose Recorded Shots'
expect 'list item' '.*shots.*'
picture fit
key alt+t; window_goes 'Fit to Recorded Shots'
expect '.*' '[0-9]+ shots · carry .*±.*'
picture fitted
key ctrl+s
holds "$bag" 'carry_se_yd'
holds "$bag" 'a small fade when the swing is good'
key Escape; window_goes '.* – Bag'
picture plan
passed
