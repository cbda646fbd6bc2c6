# SPDX-License-Identifier: GPL-3.0-or-later
# What a screen reader is told: in each step and each window nothing that can be worked or can take the focus is without a name of its own, what
# belongs to another step is not there, choices say what is chosen, and Tab goes through the panel in the order in which it reads.
start "$COURSES/fenwhistle/02-orchard.svg"
settled
all_named () { [ -z "$(see unnamed)" ] || fail "$1, without a name: $(see unnamed)"; }
away () { local before; before=$(windows); key Escape; fewer_windows "$before"; }

expect list 'Shots of the plan'
all_named Plan
expect 'push button' 'Club: 5 wood'
expect_gone list 'Things on the hole'
key alt+3; settled
expect 'check box' 'Carry table'
all_named Card
expect_gone list 'Shots of the plan'
see states 'check box' 'Carry table' | grep -qw checked || fail "the carry table is not said to be on the card"
expect 'push button' 'Units: Yards'
expect 'push button' ' ?Print…'

key alt+1; settled
expect 'list item' 'line of play, .*'
all_named 'Draw, nothing selected'
expect_gone list 'Shots of the plan'
expect image 'Drawing of the hole' 'Nothing selected.*'
key Tab Tab; settled
expect image 'Drawing of the hole' 'meadow selected, .* from the tee · .* to the hole · .* of the line'
[ "$(see value text Name)" = meadow ] || fail "the name reads $(see value text Name)"
expect 'push button' 'Kind of the thing: deep rough'
see states 'list item' 'meadow, deep rough, .*' | grep -qw selected || fail "the row of what is selected does not say so"
all_named 'Draw, one thing selected'
key ctrl+a; settled
expect image 'Drawing of the hole' '[0-9]+ things selected'
all_named 'Draw, all selected'
key Escape

# From the drawing to the panel and through it: ways, kinds, then the list
key F6; settled
order=$(see focused)
for _ in $(seq 6); do key Tab; settled; order="$order, $(see focused)"; done
[ "$order" = 'push button Select, push button Freehand, push button Points, push button Circle, push button Place, push button Tree row, push button tee' ] \
  || fail "Tab goes through $order"
see states 'push button' Select | grep -qw pressed || fail "the way in hand is not said to be pressed"
key F6; settled
[ "$(see focused)" = 'image Drawing of the hole' ] || fail "F6 leads back to $(see focused)"

key ctrl+shift+n; window_comes 'New Hole'
all_named 'New Hole'
expect 'push button' 'Par: 4'
expect 'push button' ' ?Cancel'
away
key alt+Return; window_comes 'Hole Facts'
all_named 'Hole Facts'
[ "$(see value text Name)" = Orchard ] || fail "the hole's name reads $(see value text Name)"
away
key ctrl+comma; window_comes Preferences
all_named Preferences
expect 'push button' 'Player level: .*'
away
key F7; window_comes '.* – Bag'
all_named Bag
expect 'push button' 'Bag: .*'
key ctrl+f; window_comes 'Fit to Recorded Shots'
all_named 'Fit to Recorded Shots'
away
away
passed
