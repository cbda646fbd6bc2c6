# SPDX-License-Identifier: GPL-3.0-or-later
# The panel stands beside the drawing, folds away below 900 px, and is a sheet at phone width, where the step switch stands at the foot and the
# window can be as narrow as 360 px.
steps_from_top () { see middle '(push|toggle|radio) button' Plan "$(geometry)" | cut -d' ' -f2; }
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
[ "$(steps_from_top)" -lt 100 ] || fail "the step switch is not in the header bar"
# the header bar lets go of the switch when it has to, so the window is made narrow step by step
for width in 640 500 360; do resize $width 800; done
[ "$(xdotool getwindowgeometry --shell "$WINDOW" | sed -n 's/^WIDTH=//p')" -eq 360 ] || fail "the window does not become 360 px wide"
[ "$(steps_from_top)" -gt 700 ] || fail "the step switch is not at the foot but $(steps_from_top) px down"
picture phone
for step in Draw Card Plan; do
  press '(push|toggle|radio) button' $step
  picture "phone-$step"
  [ "$(xdotool getwindowgeometry --shell "$WINDOW" | sed -n 's/^WIDTH=//p')" -eq 360 ] || fail "$step makes the window wider"
done
key F9
expect list 'Shots of the plan'
settled
picture phone-panel
# the sheet takes the lower half, the drawing stays in sight above it
read -r _ sheet < <(see origin filler Plan "$(geometry)")
[ "$sheet" -gt 350 ] && [ "$sheet" -lt 480 ] || fail "the sheet begins at $sheet"
resize 1280 900
expect list 'Shots of the plan'
[ "$(steps_from_top)" -lt 100 ] || fail "the step switch did not come back to the header bar"
passed
