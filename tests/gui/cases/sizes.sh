# SPDX-License-Identifier: GPL-3.0-or-later
# The panel stands beside the drawing, folds away below 900 px, and is a sheet at phone width.
start "$COURSES/fenwhistle"
resize 1280 900
expect list 'Shots of the plan'
picture wide
resize 880 800
expect_gone list 'Shots of the plan'
picture narrow
key F9
expect list 'Shots of the plan'
settled
picture narrow-panel
key F9
expect_gone list 'Shots of the plan'
resize 420 800
settled
picture phone
key F9
expect list 'Shots of the plan'
settled
picture phone-panel
# the sheet takes the lower half, the drawing stays in sight above it
read -r _ sheet < <(see origin filler Plan "$(geometry)")
[ "$sheet" -gt 350 ] && [ "$sheet" -lt 480 ] || fail "the sheet begins at $sheet"
resize 1280 900
expect list 'Shots of the plan'
passed
