# SPDX-License-Identifier: GPL-3.0-or-later
# During a real drag of the aim and after it the carries and the odds in the panel are those that the command line gives for the saved aim and the panel's club;
# while the pointer rests a worker finds strokes, every club's best aim, and what it costs to aim elsewhere.
cp "$COURSES"/fenwhistle/09-*.svg "$FOLDER/hole.svg"
cp "$COURSES/fenwhistle/bag.csv" "$FOLDER/bag.csv"
start "$FOLDER/hole.svg"
aim
xdotool mousemove $AX $AY mousedown 1
for i in 1 2 3 4 5 6 7; do xdotool mousemove $((AX + 5 * i)) $((AY - 4 * i)); sleep 0.02; done
settled
see names 'list item' >"$FOLDER/held.txt"
xdotool mouseup 1
settled
key ctrl+s
expect frame 'hole.svg – Holewright'
settled
see names 'list item' >"$FOLDER/panel.txt"
diff "$FOLDER/held.txt" "$FOLDER/panel.txt" || fail "the panel showed other numbers while the aim was held than when it was let go there"
asked_of carries "$FOLDER/hole.svg" >"$FOLDER/command.csv"
/usr/bin/python3 - "$FOLDER" <<'P' || fail "panel and command differ: $(cat "$FOLDER/panel.txt" "$FOLDER/command.csv")"
import csv, math, re, sys
def whole(text):  # half away from zero
    return str(math.floor(float(text) + 0.5))
rows = list(csv.DictReader(open(sys.argv[1] + "/command.csv")))
on = {(whole(r["reach_yd"]), whole(r["carry_yd"])) for r in rows if r["side"] == "on"}
beside = {(whole(r["gap_yd"]), r["side"][0].upper()) for r in rows if r["side"] != "on"}
n = 0
for line in open(sys.argv[1] + "/panel.txt"):
    if m := re.search(r": reach (\d+), carry (\d+),", line):
        n += 1
        if m.groups() not in on:
            sys.exit("not in the command's table: " + line)
    elif m := re.search(r": (\d+) ([LR]) off the line", line):
        n += 1
        if m.groups() not in beside:
            sys.exit("not in the command's table: " + line)
sys.exit(0 if n >= 2 else "the panel shows fewer than two carries")
P

ends_agree "$FOLDER/hole.svg"

press 'toggle button|push button' 'Every club at its best aim'
expect 'list item' '.* · leaves [0-9]+: [0-9.]+ strokes'
expect 'list item' '.* · leaves [0-9]+: \+[0-9.]+ strokes'
picture answered
xdotool mousemove $AX $((AY - 60)); settled
expect label '.* · aim here .[0-9.]+'
passed
