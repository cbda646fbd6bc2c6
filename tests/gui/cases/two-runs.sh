# SPDX-License-Identifier: GPL-3.0-or-later
# Two runs of the program at the same time: neither offers, takes or removes what the other keeps; what one leaves when it dies is offered.
copies=$XDG_STATE_HOME/holewright/recovery
cp -r "$COURSES/fenwhistle" "$FOLDER/course"
copy_of () { grep -l "$1" "$copies"/*.svg 2>/dev/null; }
wait_copy () { # wait_copy TITLE: until there is a copy of this hole
  for _ in $(seq 100); do copy_of "$1" >/dev/null && return; sleep 0.1; done
  fail "no copy of $1: $(ls "$copies")"
}
wait_none () {
  for _ in $(seq 100); do copy_of "$1" >/dev/null || return; sleep 0.1; done
  fail "a copy of $1 is left"
}

# without a bus the first cannot hand its files to the second, so that both live
cat >"$FOLDER/alone" <<P
#!/bin/sh
exec env DBUS_SESSION_BUS_ADDRESS=disabled: GTK_A11Y=none "$PROGRAM" "\$@"
P
chmod +x "$FOLDER/alone"
"$FOLDER/alone" "$FOLDER/course/02-orchard.svg" >"$FOLDER/first-output.log" 2>"$FOLDER/first-errors.log" & FIRST=$!
for _ in $(seq 400); do
  xdotool search --onlyvisible --pid "$FIRST" >/dev/null 2>&1 && grep -q '^trace frame' "$FOLDER/first-errors.log" && break
  sleep 0.1
done
FIRST_WINDOW=$(xdotool search --onlyvisible --pid "$FIRST" | tail -1)
xdotool windowactivate --sync "$FIRST_WINDOW"
for _ in $(seq 100); do
  key Right
  xdotool getwindowname "$FIRST_WINDOW" | grep -q changed && break
  sleep 0.1
done
wait_copy Orchard
cp "$(copy_of Orchard)" "$FOLDER/orchard-copy.svg"

start "$FOLDER/course/01-quarry.svg"
settled
expect_gone 'push button' 'Open Orchard.*'
key Right
expect frame '01-quarry.svg \(changed\) – Holewright'
wait_copy Quarry
cmp "$(copy_of Orchard)" "$FOLDER/orchard-copy.svg" || fail "the second run wrote into the copy of the first"

# the second saves and ends: its copy goes, the other's stays
key ctrl+s
expect frame '01-quarry.svg – Holewright'
wait_none Quarry
key ctrl+w
for _ in $(seq 100); do kill -0 "$APP" 2>/dev/null || break; sleep 0.1; done
wait "$APP" || fail "the program ended with status $?"
cmp "$(copy_of Orchard)" "$FOLDER/orchard-copy.svg" || fail "the second run took the copy of the first along"

# the first dies: now its work is offered
kill -9 "$FIRST"; wait "$FIRST" 2>/dev/null
start "$FOLDER/course/01-quarry.svg"
press 'push button' 'Open Orchard.*'
expect frame '02-orchard.svg \(changed\) – Holewright'
wait_copy Orchard
cmp "$(copy_of Orchard)" "$FOLDER/orchard-copy.svg" || fail "another Orchard was recovered than the first run kept"
passed
