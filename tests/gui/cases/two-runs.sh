# SPDX-License-Identifier: GPL-3.0-or-later
# Two runs of the program at the same time: neither offers, takes or removes what the other keeps; what one leaves when it dies is offered.
copies=$XDG_STATE_HOME/holewright/recovery
cp -r "$COURSES/fenwhistle" "$FOLDER/course"
copy_of () { grep -l "$1" "$copies"/*.svg 2>/dev/null; }
wait_copy () { # wait_copy TITLE: until there is a copy of this hole
  await copy_of "$1" >/dev/null || fail "no copy of $1: $(ls "$copies")"
}
wait_none () {
  is_none () { ! copy_of "$1" >/dev/null; }
  await is_none "$1" || fail "a copy of $1 is left"
}

# without a bus the first cannot hand its files to the second, so that both live
cat >"$FOLDER/alone" <<P
#!/bin/sh
exec env DBUS_SESSION_BUS_ADDRESS=disabled: GTK_A11Y=none "$PROGRAM" "\$@"
P
chmod +x "$FOLDER/alone"
"$FOLDER/alone" "$FOLDER/course/02-orchard.svg" >"$FOLDER/first-output.log" 2>"$FOLDER/first-errors.log" & FIRST=$!
is_drawn () { xdotool search --onlyvisible --pid "$FIRST" >/dev/null 2>&1 && grep -q '^trace frame' "$FOLDER/first-errors.log"; }
await is_drawn || fail "the first run shows nothing"
FIRST_WINDOW=$(xdotool search --onlyvisible --pid "$FIRST" | tail -1)
xdotool windowactivate --sync "$FIRST_WINDOW"
has_changed () { key Right; xdotool getwindowname "$FIRST_WINDOW" | grep -q changed; }
await has_changed || fail "the first run takes no keys"
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
ends
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
