# SPDX-License-Identifier: GPL-3.0-or-later
# The wheel zooms about the pointer, an empty place and the middle button move the drawing, 0 fits it again; metres are metres.
mkdir -p "$XDG_CONFIG_HOME/holewright"
printf '[holewright]\nunits=metres\n' >"$XDG_CONFIG_HOME/holewright/settings.ini"
cp "$COURSES"/fenwhistle/02-*.svg "$FOLDER/hole.svg"
cp "$COURSES/fenwhistle/bag.csv" "$FOLDER/bag.csv"
start "$FOLDER/hole.svg"
expect image 'Drawing of the hole' 'Shot 1 of 2: .* carries [0-9]+ m, [0-9]+ m left to the hole'
aim
X0=$AX Y0=$AY
place () { see names label | grep 'from the tee'; }
xdotool mousemove $((AX + 150)) $((AY - 130)); settled
before=$(place)
[ -n "$before" ] || fail "the status line says nothing"
xdotool click 4 click 4 click 4; settled
[ "$(place)" = "$before" ] || fail "zooming moved the place under the pointer from $before to $(place)"
aim
[ "$AX $AY" != "$X0 $Y0" ] || fail "the wheel did not zoom"
picture zoomed
# an empty place held and moved takes the drawing along
X1=$AX Y1=$AY
drag $((X0 + 150)) $((Y0 - 130)) -60 -40
aim
[ "$AX $AY" = "$((X1 - 60)) $((Y1 - 40))" ] || fail "the drawing moved from $X1 $Y1 to $AX $AY"
# the middle button moves it even from the aim
xdotool mousemove "$AX" "$AY" mousedown 2 mousemove $((AX + 20)) $((AY + 10)) mousemove $((AX + 50)) $((AY + 30)) mouseup 2
X1=$AX Y1=$AY
aim
[ "$AX $AY" = "$((X1 + 50)) $((Y1 + 30))" ] || fail "the middle button moved it from $X1 $Y1 to $AX $AY"
key 0
aim
[ "$AX $AY" = "$X0 $Y0" ] || fail "fitting put the aim at $AX $AY instead of $X0 $Y0"
expect frame 'hole.svg – Holewright'
# up the hole and back again
key ctrl+2
settled
key ctrl+1
aim
[ "$AX $AY" = "$X0 $Y0" ] || fail "turning up and back put the aim at $AX $AY"
# the strip's keys pin another club, and Delete gives the choice back to the aim
club () { see wait image 'Ruler and clubs' | sed 's/.*| //'; }
press image 'Ruler and clubs'
key Delete; settled
by_aim=$(club)
key Right; settled
[ "$(club)" != "$by_aim" ] || fail "the next longer club than $by_aim was not taken"
expect image 'Drawing of the hole' ".*: $(club) carries .*"
key Delete; settled
[ "$(club)" = "$by_aim" ] || fail "the aim would take $by_aim, not $(club)"
passed
