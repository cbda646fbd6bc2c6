# SPDX-License-Identifier: GPL-3.0-or-later
# The desktop's text half as large again: so are the labels on the drawing, its scale bar, the ruler and the clubs.
ini=$XDG_CONFIG_HOME/gtk-4.0/settings.ini
usual=10 large=15 # points
# bar: how high the scale bar and its words are inked at the top left of the drawing, px
bar () { import -window root png:- | convert - -crop 210x46+20+76 +repage -colorspace Gray -threshold 50% -negate -trim -format '%h' info:; }
clubs () { # how high ruler and clubs are, px
  read -r _ top < <(see origin '.*' "$1" "$(geometry)"); read -r _ middle < <(see middle '.*' "$1" "$(geometry)")
  echo $((2 * (middle - top)))
}
half_more () { # half_more WHAT BEFORE AFTER: or somewhat more, where words need more lines
  echo "$1: $2 px, then $3 px"
  [ $((10 * $3)) -ge $((13 * $2)) ] && [ $((10 * $3)) -le $((20 * $2)) ] || fail "$1 went from $2 px to $3 px"
}
for size in $usual $large; do
  printf '[Settings]\ngtk-cursor-blink=false\ngtk-font-name=DejaVu Sans %s\n' $size >"$ini"
  start "$COURSES/fenwhistle/02-orchard.svg"
  settled
  picture "plan-$size"
  [ $size = $usual ] && usual_clubs=$(clubs 'Ruler and clubs') || half_more 'ruler and clubs' "$usual_clubs" "$(clubs 'Ruler and clubs')"
  key alt+1; settled
  xdotool mousemove 1279 450; settled
  picture "draw-$size"
  [ $size = $usual ] && usual_bar=$(bar) || half_more 'the scale bar' "$usual_bar" "$(bar)"
  kill "$APP"; wait "$APP" 2>/dev/null
done
passed
