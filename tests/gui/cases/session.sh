# SPDX-License-Identifier: GPL-3.0-or-later
# The program comes back as it was left, also when it was killed: window size, step, hole of the course, what was shown of it.
cp -r "$COURSES/fenwhistle" "$FOLDER/course"
cp "$COURSES"/fenwhistle/02-*.svg "$FOLDER/lone.svg"
session=$XDG_STATE_HOME/holewright/session.ini
shown () { grep '^trace frame' "$FOLDER/errors.log" | tail -1 | sed 's/.* place \([-0-9.]* [-0-9.]*\) scale \([0-9.]*\) .*/\1 \2/'; }
wait_written () { # wait_written PATTERN: until the session says so
  await grep -qs "$1" "$session" || fail "$1 is not in the session: $(cat "$session")"
}
near () { awk -v a="$1" -v b="$2" 'BEGIN { n = split (a, x, " "); split (b, y, " "); for (i = 1; i <= n; i++) if ((x[i] - y[i]) ^ 2 > 9) exit 1; exit n != 3 }'; }

start "$FOLDER/lone.svg"
settled
key ctrl+w
ends
wait "$APP" || fail "the program ended with status $?"
start "$FOLDER/course"
settled
resize 1100 760
key ctrl+Page_Down
expect frame '02-orchard.svg – Holewright'
key alt+1
settled
key ctrl+plus; settled
key ctrl+plus; settled
read -r X Y < <(see origin image 'Drawing of the hole' "$(geometry)")
xdotool mousemove $((X + 400)) $((Y + 300)) mousedown 2 mousemove $((X + 380)) $((Y + 330)) mousemove $((X + 350)) $((Y + 360)) mouseup 2
settled
before=$(shown)
wait_written 'step=draw'
wait_written '02-orchard.svg'
sleep 2.5 # the write that a change in the last moment waits for
kill -9 "$APP"; wait "$APP" 2>/dev/null

start
expect frame '02-orchard.svg – Holewright'
settled
picture again
near "$(shown)" "$before" || fail "another part of the hole is shown: $(shown), not $before"
expect 'push button' Freehand # the tools of Draw
geometry | grep -q 'WIDTH=1100 HEIGHT=760' || fail "another size: $(geometry)"
# another hole fits, and the first comes back as it was shown
key ctrl+Page_Down
expect frame '03-.*.svg – Holewright'
key ctrl+Page_Up
expect frame '02-orchard.svg – Holewright'
settled
near "$(shown)" "$before" || fail "the hole was not shown again as before: $(shown), not $before"
key alt+2
kill "$APP"; wait "$APP" 2>/dev/null

# what is no longer there is passed over for what was open before it
rm -r "$FOLDER/course"
start
expect frame 'lone.svg – Holewright'
expect_gone alert '.+'
kill -9 "$APP"; wait "$APP" 2>/dev/null
# nothing is there any more, and the session cannot be read: the example
rm "$FOLDER/lone.svg"
head -c 300 /dev/urandom >"$session"
start
expect frame '01-.*.svg – Holewright'
expect alert 'This is an example.*'
passed
