# SPDX-License-Identifier: GPL-3.0-or-later
# No test but a benchmark: the wind turned by mouse on its rose, once round in 120 steps, and what each step took of the whole window: flights of every
# shot and club, carries, section, panel, and the frame that shows them, against the 8 ms of half a frame of a screen that shows 60 in a second.
# Beside it the same with the section folded away, and full redraws of a zoom.
cp "$COURSES"/fenwhistle/06-*.svg "$FOLDER/hole.svg"
cp "$COURSES/fenwhistle/bag.csv" "$FOLDER/bag.csv"
start "$FOLDER/hole.svg"
resize 1280 900
press '(push|toggle|radio) button' 'Change the day'
turn () { # turn NAME: figures of one turn
  local rose from
  rose=$(see middle slider 'Wind' "$(geometry)") || fail "there is no rose"
  set -- "$1" $rose
  from=$(wc -l <"$FOLDER/errors.log")
  xdotool mousemove "$2" "$3" mousedown 1 mousemove $(($2 + 10)) "$3" mousemove $(($2 + 30)) "$3"
  settled
  for i in $(seq 120); do
    xdotool mousemove $(awk -v x="$2" -v y="$3" -v i="$i" 'BEGIN { a = 6.2831853 * i / 120; printf "%.0f %.0f", x + 30 * cos (a), y + 30 * sin (a) }')
    sleep 0.03
  done
  settled
  xdotool mouseup 1
  settled
  tail -n +$((from + 1)) "$FOLDER/errors.log" | /usr/bin/python3 -c '
import re, statistics, sys
steps, edit = [], None
for line in sys.stdin:
    wind = re.match(r"trace wind ([\d.]+) ms busy ([\d.]+)", line)
    frame = re.match(r"trace frame ([\d.]+) ms edit [\d.]+ ms busy ([\d.]+)", line)
    if wind:
        edit = (edit or 0) + float(wind[2])
    elif frame and edit is not None:
        steps.append((edit + float(frame[2]), edit))
        edit = None
steps = steps[2:]
whole = sorted(step[0] for step in steps)
if len(whole) < 60:
    sys.exit(f"the wind was not turned: {len(whole)} steps")
print(f"{sys.argv[1]:20} {len(whole)} frames, processor time: median {statistics.median(whole):.2f} ms, 95 of 100 within {whole[int(0.95 * len(whole))]:.2f} ms, "
      f"longest {whole[-1]:.2f} ms; of the median the flights, tables and words {statistics.median(step[1] for step in steps):.2f} ms")
' "$1" || fail "no figures"
  key ctrl+z; settled
}
turn 'with the section'
key ctrl+3; settled
turn 'without it'
passed
