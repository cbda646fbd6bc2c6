# SPDX-License-Identifier: GPL-3.0-or-later
# The dark style darkens the surround and dims the paper; both stay readable.
mkdir -p "$XDG_CONFIG_HOME/holewright"
printf '[holewright]\nstyle=light\n' >"$XDG_CONFIG_HOME/holewright/settings.ini"
start "$COURSES/fenwhistle"
settled; xdotool mousemove 1279 450; settled
picture light
kill "$APP"; wait "$APP" 2>/dev/null
printf '[holewright]\nstyle=dark\n' >"$XDG_CONFIG_HOME/holewright/settings.ini"
start "$COURSES/fenwhistle"
settled; settled
picture dark
brightness () { convert "$FOLDER/$1.png" -crop "$2" -colorspace Gray -format '%[fx:int(100*mean)]' info:; }
panel_light=$(brightness light 300x200+960+650) panel_dark=$(brightness dark 300x200+960+650)
paper_light=$(brightness light 800x500+40+110) paper_dark=$(brightness dark 800x500+40+110)
echo "panel $panel_light to $panel_dark, paper $paper_light to $paper_dark"
[ "$panel_light" -gt 80 ] && [ "$panel_dark" -lt 40 ] || fail "the panel is not dark"
[ "$paper_dark" -lt "$paper_light" ] && [ "$paper_dark" -gt 35 ] || fail "the paper is not dimmed paper"
passed
