# SPDX-License-Identifier: GPL-3.0-or-later
# No test but a benchmark, on a screen of 1600 x 1000: ten seconds of dragging the aim, ten of turning the wind on its rose and ten of dragging the aim while the
# whole hole is solved again and again, with every overlay, the panel, the day and the section open. Printed of each: what a frame took the window from the
# pointer's event to the last pixel - flights, odds, tables, panel, section, drawing - against the 8 ms of half a frame of a screen that shows 60 in a second; how
# many frames such a screen would have shown and did not; and what the processor itself worked, which on a busy machine is less than what passed.
# DRAGGED: the hole's number; DRAGS: which of them.
SECONDS_EACH=${SECONDS_EACH:-10} MOVES=100 # a second; more than frames, as from a real mouse
mkdir -p "$XDG_CONFIG_HOME/holewright"
printf '[holewright]\noverlays-on=%s\n' "${OVERLAYS:-strokes;plans;aims;pattern;marks;left;carries;trees;room;odds;track;shot}" \
  >"$XDG_CONFIG_HOME/holewright/settings.ini"
cp "$COURSES"/fenwhistle/"${DRAGGED:-06}"-*.svg "$FOLDER/hole.svg"
cp "$COURSES/fenwhistle/bag.csv" "$FOLDER/bag.csv"
start "$FOLDER/hole.svg"
resize 1600 1000
press '(push|toggle|radio) button' 'Change the day'
settled
# moves X Y RADIUS: words for xdotool, a pointer that goes round this middle once in four seconds
moves () {
  awk -v x="$1" -v y="$2" -v r="$3" -v n=$((SECONDS_EACH * MOVES)) -v each=$MOVES 'BEGIN {
    for (i = 1; i <= n; i++) { a = 6.2831853 * i / each / 4; printf "mousemove %.0f %.0f sleep %.3f\n", x + r * cos (a), y + r * sin (a), 1 / each } }'
}
# dragged NAME X Y RADIUS: takes hold to the right of this middle, drags round it and prints the figures
dragged () {
  local from
  from=$(wc -l <"$FOLDER/errors.log")
  xdotool mousemove $(($2 + $4)) "$3" mousedown 1 mousemove $(($2 + $4)) $(($3 + 10)) mousemove $(($2 + $4)) "$3"
  [ -n "${HURRIED:-}" ] || settled
  moves "$2" "$3" "$4" | xdotool -
  [ -z "${PICTURES:-}" ] || picture "$1"
  xdotool mouseup 1
  tail -n +$((from + 1)) "$FOLDER/errors.log" | /usr/bin/python3 -c '
import re, statistics, sys
FRAME_MS, HALF_MS = 1000 / 60, 8
frames, edit, busy = [], 0, 0
for line in sys.stdin:
    if found := re.match(r"trace wind ([\d.]+) ms busy ([\d.]+)", line):
        edit, busy = edit + float(found[1]), busy + float(found[2])
    elif found := re.match(r"trace frame ([\d.]+) ms edit ([\d.]+) ms busy ([\d.]+) ms at (\d+) us redraws (\d+)", line):
        took, own, worked, at = (float(found[i]) for i in (1, 2, 3, 4))
        if edit + own > 0.1:  # else the pointer moved too little to change anything
            frames.append((took + edit, worked + busy, edit + own, at / 1000, int(found[5])))
        edit = busy = 0
frames = frames[3:-3]
if len(frames) < 60:
    sys.exit(f"nothing was dragged: {len(frames)} frames")
def told(values):
    values = sorted(values)
    return f"median {statistics.median(values):6.2f} ms, 95 of 100 within {values[int(0.95 * len(values))]:6.2f} ms, longest {values[-1]:6.2f} ms"
dropped = sum(int(frame[0] / FRAME_MS) for frame in frames)
print(f"{sys.argv[1]:10} {len(frames)} frames: {told([frame[0] for frame in frames])}, least {min(frame[0] for frame in frames):.2f} ms; "
      f"over {HALF_MS} ms: {sum(frame[0] > HALF_MS for frame in frames)}, dropped at 60 Hz: {dropped}; full redraws {len(set(frame[4] for frame in frames)) - 1}")
print(f"{str():10} the processor worked {told([frame[1] for frame in frames])}; before the frame, for results and panel, median "
      f"{statistics.median(frame[2] for frame in frames):.2f} ms")
' "$1" || fail "no figures"
  settled
}
echo "machine: load $(cut -d' ' -f1-3 /proc/loadavg) on $(nproc) processors"
for what in ${DRAGS:-aim wind solving}; do
  case $what in
    aim)
      aim
      dragged aim $((AX - 60)) "$AY" 60
      key ctrl+z; settled ;;
    wind)
      rose=$(see middle slider 'Wind' "$(geometry)") || fail "there is no rose"
      xdotool keydown ctrl # by less than the steps of the rose, so that every move is another wind
      dragged wind $rose 30
      xdotool keyup ctrl
      key ctrl+z; settled ;;
    solving)
      key F5; settled
      rose=$(see middle slider 'Wind' "$(geometry)") || fail "there is no rose"
      aim
      xdotool mousemove $((${rose% *} + 30)) "${rose#* }" click 1
      sleep 1 # another wind, so the solver has begun anew; when it has an answer the plan as dragged is valued again and again
      HURRIED=1 dragged solving $((AX - 60)) "$AY" 60 ;;
  esac
done
passed
