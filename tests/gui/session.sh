# SPDX-License-Identifier: GPL-3.0-or-later
# One session: accessibility bus, window manager, then the case with the helpers below. Started by window.sh.
set -u
export GTK_A11Y=atspi GDK_BACKEND=x11 GSK_RENDERER=cairo GSETTINGS_BACKEND=memory LC_ALL=C.UTF-8 G_DEBUG=fatal-criticals
export GDK_DEBUG=gl-disable # painted by cairo; looking for GL takes time and may wait on a server that has none
export XDG_CONFIG_HOME=$FOLDER/config XDG_STATE_HOME=$FOLDER/state XDG_DATA_HOME=$FOLDER/data XDG_CACHE_HOME=$FOLDER/cache GTK_USE_PORTAL=0
export HOLEWRIGHT_TRACE=1 HOLEWRIGHT_DATA_DIR=$(dirname "$COURSES")
# A blinking caret draws ten seconds on, in which nothing would count as settled.
mkdir -p "$XDG_CONFIG_HOME/gtk-4.0"
printf '[Settings]\ngtk-cursor-blink=false\n' >"$XDG_CONFIG_HOME/gtk-4.0/settings.ini"
APP= WINDOW=
/usr/libexec/at-spi-bus-launcher --launch-immediately --a11y=1 >"$FOLDER/a11y.log" 2>&1 & BUS=$!
gdbus wait --session --timeout 30 org.a11y.Bus || echo "the accessibility bus did not come up"
openbox --sm-disable >"$FOLDER/openbox.log" 2>&1 & MANAGER=$!

WAIT_S=60 # only a case that fails waits so long
await () { # await COMMAND...: until it says yes
  local end=$((SECONDS + WAIT_S))
  until "$@"; do [ $SECONDS -lt $end ] || return 1; sleep 0.1; done
}
is_managed () { xprop -root _NET_SUPPORTING_WM_CHECK 2>/dev/null | grep -q window; }
await is_managed || echo "no window manager came up"

finish () { # finish STATUS: ends what was started here
  [ -n "$APP" ] && kill "$APP" 2>/dev/null
  kill "$MANAGER" "$BUS" "$EYES" 2>/dev/null
  exit "$1"
}
fail () {
  echo "FAILED: $*"
  import -window root "$FOLDER/failed.png" 2>/dev/null
  if [ -n "$WINDOW" ]; then echo "the title is $(xdotool getwindowname "$WINDOW" 2>&1)"; echo "the focus is on $(see focused)"; fi
  tail -70 "$FOLDER/seen.log"
  [ -f "$FOLDER/errors.log" ] && grep -v '^trace' "$FOLDER/errors.log" | tail -20
  finish 1
}
passed () { echo "passed: $CASE"; finish 0; }

# The accessible tree: see.py's own words
mkfifo "$FOLDER/ask" "$FOLDER/told"
/usr/bin/python3 "$GUI/see.py" <"$FOLDER/ask" >"$FOLDER/told" 2>"$FOLDER/seen.log" & EYES=$!
exec {ASK}>"$FOLDER/ask" {TOLD}<"$FOLDER/told"
see () {
  local told
  kill -0 "$EYES" 2>/dev/null || { cat "$FOLDER/seen.log" >&2; return 1; }
  printf '%s\0' $# "$@" >&"$ASK"
  IFS= read -r -d '' told <&"$TOLD" || return 1
  printf '%s' "${told:1}"
  return "${told:0:1}"
}
expect () {
  # the title alone is asked for without walking the tree
  [ "$1" != frame ] || [ $# -ne 2 ] || { expect_title "$2"; return; }
  see wait "$@" >/dev/null || fail "not seen: $*"
}
title () { xdotool getwindowname "$WINDOW"; }
expect_title () { # expect_title PATTERN: all of the window's title
  is_titled () { title | grep -qxE "$1"; }
  await is_titled "$1" || fail "the title is $(title) and not $1"
}
expect_gone () { see gone "$@" >/dev/null || fail "still there: $*"; }

# start ARGUMENTS: starts the program and waits for its window and its drawing
start () {
  "$PROGRAM" "$@" >"$FOLDER/output.log" 2>"$FOLDER/errors.log" & APP=$!
  has_begun () {
    WINDOW=$(xdotool search --onlyvisible --pid "$APP" 2>/dev/null | tail -1)
    [ -n "$WINDOW" ] && grep -q '^trace window' "$FOLDER/errors.log" && return
    kill -0 "$APP" 2>/dev/null || fail "the program ended by itself"
    return 1
  }
  await has_begun
  if [ -z "$WINDOW" ]; then
    grep -E '^(State|VmRSS|Threads)' "/proc/$APP/status"; cat "/proc/$APP/wchan" 2>/dev/null; tail -5 "$FOLDER/errors.log"
    fail "no window came up"
  fi
  xdotool windowactivate --sync "$WINDOW"
  expect frame '.*'
}
resize () { xdotool windowsize --sync "$WINDOW" "$1" "$2"; settled; }
key () { xdotool key "$@"; }
picture () { import -window root "$FOLDER/$1.png"; }

# settled: for a fifth of a second no frame was drawn, and neither the program nor the display nor its manager works or waits for its turn to
settled () { see rest "$FOLDER/errors.log" "$APP" "$SERVER" "$MANAGER" || fail "the program does not come to rest"; }
redraws () { grep '^trace frame' "$FOLDER/errors.log" | tail -1 | sed 's/.*redraws \([0-9]*\).*/\1/'; }

geometry () { xdotool getwindowgeometry --shell "$WINDOW" | tr '\n' ' '; }
# press ROLE NAME: a real click on a control of the main window; one that lies below its lower edge is turned up with the wheel first
press () {
  local middle bottom
  bottom=$(xdotool getwindowgeometry --shell "$WINDOW" | awk -F= '{ of[$1] = $2 } END { print of["Y"] + of["HEIGHT"] }')
  for _ in $(seq 40); do
    middle=$(see middle "$1" "$2" "$(geometry)") || fail "not there to be pressed: $2"
    [ "${middle#* }" -ge $((bottom - 12)) ] || break
    xdotool mousemove "${middle% *}" $((bottom - 120)) click 5
    settled
  done
  xdotool mousemove $middle click 1
  settled
}
# windows: how many windows the manager keeps; a tooltip that comes up under a resting pointer is none of them. GTK 4.8 criticises itself
# when the accessible tree is walked while a dialog goes away, so that is watched here.
windows () { xprop -root _NET_CLIENT_LIST | grep -o '0x[0-9a-f]*' | wc -l; }
fewer_windows () { # fewer_windows THAN
  are_fewer () { [ "$(windows)" -lt "$1" ]; }
  await are_fewer "$1" || fail "the dialog did not close"
  settled
}
# window_comes TITLE: waits for a window whose whole title the pattern is
window_comes () {
  await xdotool search --onlyvisible --name "^$1\$" >/dev/null 2>&1 || fail "no window $1: there is $(xdotool search --onlyvisible --pid "$APP" getwindowname %@ 2>&1)"
  settled
}
window_goes () { # window_goes TITLE
  is_gone () { ! xdotool search --onlyvisible --name "^$1\$" >/dev/null 2>&1; }
  await is_gone "$1" || fail "still open: $1"
  settled
}
holds () { await grep -qs "$2" "$1" || fail "$1 does not hold $2: $(cat "$1")"; } # holds FILE PATTERN, soon
ends () { # waits until the program has ended by itself
  is_over () { ! kill -0 "$APP" 2>/dev/null; }
  await is_over || fail "the program does not end"
}
# answer BUTTON: presses a button of the dialog that is open, by its letter
answer () {
  local before
  expect 'push button' ".*$1"
  before=$(windows)
  key "alt+$(echo "${1:0:1}" | tr '[:upper:]' '[:lower:]')"
  fewer_windows "$before"
}

# aim: screen coordinates of the aim in AX and AY
aim () {
  local origin
  settled
  origin=$(see origin image 'Drawing of the hole' "$(geometry)") || fail "no drawing"
  read -r AX AY < <(grep '^trace frame' "$FOLDER/errors.log" | tail -1 | sed 's/.* aim //')
  AX=$((AX + ${origin% *})) AY=$((AY + ${origin#* }))
}
# at X Y: a place of the document on the screen, as the last frame showed it
at () {
  local X Y WIDTH HEIGHT SCREEN
  eval "$(xdotool getwindowgeometry --shell "$WINDOW" | grep -v WINDOW)"
  grep '^trace frame' "$FOLDER/errors.log" | tail -1 | awk -v x="$1" -v y="$2" -v left="$X" -v top="$Y" '{
    for (i = 1; i < NF; i++) { if ($i == "corner") c = i; if ($i == "place") p = i; if ($i == "scale") s = i }
    printf "%.0f %.0f\n", left + $(c + 1) + $(p + 1) + x * $(s + 1), top + $(c + 2) + $(p + 2) + y * $(s + 1) }'
}
# drag X Y DX DY: a real pointer drag in small steps
drag () {
  xdotool mousemove "$1" "$2" mousedown 1
  for i in 1 2 3 4 5 6 7 8 9 10; do xdotool mousemove $(($1 + $3 * i / 10)) $(($2 + $4 * i / 10)); sleep 0.02; done
  xdotool mouseup 1
  settled
}
# finger COMMAND...: what fingers and pen do on the screen, in fingers.py's words; back when the server has dealt with it
finger () {
  local answer
  [ -n "${FINGERS_PID:-}" ] || coproc FINGERS { /usr/bin/python3 "$GUI/fingers.py" "$SOCKETS" 1280 900 2>"$FOLDER/fingers.log"; }
  echo "$*" >&"${FINGERS[1]}"
  read -r -t 20 answer <&"${FINGERS[0]}"
  [ "$answer" = done ] || fail "the touchscreen did not take \"$*\": $(cat "$FOLDER/fingers.log")"
}
# stroke NUMBER X Y DX DY: a finger that is down moves on in small steps
stroke () {
  for i in 1 2 3 4 5 6 7 8 9 10; do finger move "$1" $(($2 + $4 * i / 10)) $(($3 + $5 * i / 10)); sleep 0.02; done
}
# new_hole NAME LENGTH empty|sketch: fills in the dialog and draws
new_hole () {
  local before
  key ctrl+shift+n
  window_comes 'New Hole'
  key alt+n; xdotool type --delay 4 "$1"
  key alt+l; xdotool type --delay 4 "$2"
  [ "$3" = empty ] && key alt+e space
  settled
  picture new-hole
  before=$(windows); key alt+d; fewer_windows "$before"
  settled
}
# choose_file PATH TITLE: types a path into the file dialog of this title
choose_file () {
  window_comes "$2"
  local before; before=$(windows)
  key ctrl+a; xdotool type --delay 4 "$1"; key Return
  fewer_windows "$before"
}
# aim_in FILE: the aim of the first shot as written in a hole document
aim_in () { see aim "$1"; }
# asked_of COMMAND FILE OPTIONS...: runs a command on the first shot as it is saved in a hole document, with the club that the panel names
asked_of () {
  local x y club
  read -r x y < <(aim_in "$2")
  club=$(see names 'list item' | sed -n 's/^Shot 1: \([^,]*\),.*/\1/p')
  [ -n "$club" ] || fail "the panel names no club: $(see names 'list item')"
  "$PROGRAM" "$1" "$2" --from white --aim "$x,$(/usr/bin/python3 -c "print(-float('$y'))")" --club "$club" --format csv "${@:3}" || fail "the command did not run: $*"
}
# ends_agree FILE: the panel says of the first shot, as it is saved in the hole document, where balls end as the command does
ends_agree () {
  see names 'list item' >"$FOLDER/panel.txt"
  asked_of odds "$1" >"$FOLDER/odds.csv"
  /usr/bin/python3 "$GUI/ends.py" "$FOLDER/panel.txt" "$FOLDER/odds.csv" || fail "panel and command differ: $(cat "$FOLDER/panel.txt" "$FOLDER/odds.csv")"
}

. "$GUI/cases/$CASE.sh"
fail "the case ended without a verdict"
