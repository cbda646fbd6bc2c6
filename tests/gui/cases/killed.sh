# SPDX-License-Identifier: GPL-3.0-or-later
# The program is killed at random moments while it is drawn and planned with, also in the middle of a stroke: the recovery copy lacks at
# most the last three seconds. HW_KILLS says how many times. It runs alone, so half of the ways are tried on a display of their own meanwhile.
MOST_LOST_S=3
copies=$XDG_STATE_HOME/holewright/recovery
export HOLEWRIGHT_TRACE=changes
kills=$(((${HW_KILLS:-6} + 1) / 2))

# Each goes on until it is stopped.
nudge () { # the aim by keys, now and then one taken back
  while :; do key Right; sleep 0.1; key Right; sleep 0.3; key ctrl+z; sleep 0.15; key Up; sleep 0.2; done
}
drag_aim () {
  xdotool mousemove "$AX" "$AY" mousedown 1
  while :; do xdotool mousemove $((AX - RANDOM % 60)) $((AY + RANDOM % 80 - 40)); sleep 0.06; done
}
circles () {
  while :; do
    local x=$((X + 100 + RANDOM % 500)) y=$((Y + 100 + RANDOM % 500))
    xdotool mousemove $x $y mousedown 1 mousemove $((x + 6)) $y mousemove $((x + 12)) $y mouseup 1
    sleep 0.$((RANDOM % 9))
  done
}
stroke () { # round and round, further out each time
  local x y
  xdotool mousemove $((X + 430)) $((Y + 350)) mousedown 1
  while read -r x y; do xdotool mousemove "$x" "$y"; sleep 0.03; done < <(
    awk -v x=$((X + 400)) -v y=$((Y + 350)) 'BEGIN { for (i = 0; i < 2000; i++) printf "%d %d\n", x + (30 + i / 4) * cos (i / 12), y + (30 + i / 4) * sin (i / 12) }')
}
points () {
  local i
  for ((i = 0;; i++)); do xdotool mousemove $((X + 150 + 40 * (i % 14))) $((Y + 150 + i / 14 * 60 + i % 2 * 25)) click 1; sleep 0.$((4 + RANDOM % 5)); done
}
draw_with () { key alt+1; settled; press 'push button' "$1"; press 'push button' "$2"; }

prepare () { # prepare DRIVE: what it needs in hand
  read -r X Y < <(see origin image 'Drawing of the hole' "$(geometry)")
  case $1 in
    drag_aim) aim ;;
    circles) draw_with bunker Circle ;;
    stroke) draw_with water Freehand ;;
    trees) draw_with tree 'Tree row' ;;
    points) draw_with fairway Points ;;
  esac
}
trees () { stroke; }

worst=0
# the same moments each time
if [ -n "${HALF:-}" ]; then
  ways=(drag_aim stroke trees) RANDOM=1
else
  ways=(nudge circles points) RANDOM=2
  HALF=other bash "$GUI/window.sh" "$PROGRAM" "$COURSES" "$FOLDER/other" killed >"$FOLDER/other.log" 2>&1 & other=$!
  trap 'kill "$other" 2>/dev/null' EXIT
fi
for ((n = 0; n < kills; n++)); do
  way=${ways[n % ${#ways[@]}]}
  rm -rf "$copies"
  cp "$COURSES"/fenwhistle/02-*.svg "$FOLDER/hole.svg"
  cp "$COURSES/fenwhistle/bag.csv" "$FOLDER/bag.csv"
  start "$FOLDER/hole.svg"
  settled
  prepare "$way"
  moment=$((3 + RANDOM % 7)).$((RANDOM % 10))
  $way >/dev/null 2>&1 & driver=$!
  sleep "$moment"
  found=$("$GUI/lost.py" "$APP" "$FOLDER/errors.log" "$copies") || fail "$way, killed after $moment s: $found"
  kill "$driver" 2>/dev/null; wait "$driver" 2>/dev/null
  xdotool mouseup 1
  wait "$APP" 2>/dev/null
  read -r lost changes copy <<<"$found"
  echo "$way, killed after $moment s: $changes changes, $lost s lost"
  [ "$changes" -gt 0 ] || fail "$way changed nothing"
  [ "$copy" = - ] || "$PROGRAM" check "$copy" >/dev/null || fail "the copy of $way does not read"
  worst=$(printf '%s\n' "$worst" "$lost" | sort -g | tail -1)
done
echo "worst: $worst s lost in $n kills"
awk -v worst="$worst" -v most=$MOST_LOST_S 'BEGIN { exit !(worst <= most) }' || fail "$worst s of work were lost, more than $MOST_LOST_S"
awk -v worst="$worst" 'BEGIN { exit !(worst > 0) }' || fail "nothing was lost, so no kill came while something was drawn"
APP=
if [ -z "${HALF:-}" ]; then
  wait "$other" || { cat "$FOLDER/other.log"; fail "the other half of the kills"; }
  cat "$FOLDER/other.log"
fi
passed
