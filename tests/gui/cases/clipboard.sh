# SPDX-License-Identifier: GPL-3.0-or-later
# The clipboard both ways, with xclip as the other program: our things keep their places between holes, foreign shapes arrive as they were asked for,
# and what is no drawing or too large is said and changes nothing.
command -v xclip >/dev/null || { echo "skipped: xclip is missing"; finish 77; }
cp -r "$COURSES/fenwhistle" "$FOLDER/course"
start "$FOLDER/course"
settled
key alt+1
settled
expect_undo () { expect 'push button' '.*' "Undo $1"; }
things () { see names 'list item' | grep -vc ': '; }
out () { timeout 20 xclip -selection clipboard -t image/svg+xml -o; }
# into MIME FILE: the other program copies, and the window is asked to paste
into () { xclip -selection clipboard -t "$1" -i "$2"; settled; key ctrl+v; }
dialog () { xdotool search --onlyvisible --name '^Put a Drawing onto the Hole$' 2>/dev/null | tail -1; }
dialog_comes () { window_comes 'Put a Drawing onto the Hole'; }
shapes () { grep -o ' d="[^"]*"' "$1"; }
step_to () { key "$1"; settled; }

# copied: a document of its own with its facts; pasted: beside its twin; cut and pasted: back at its very place
read -r X Y < <(see origin image 'Drawing of the hole' "$(geometry)")
xdotool mousemove $((X + 400)) $((Y + 400)); settled
xdotool key Tab; settled
before=$(things)
key ctrl+c; settled
out >"$FOLDER/one.svg"
grep -q 'hw:kind=' "$FOLDER/one.svg" || fail "the facts are not on the clipboard"
key ctrl+v; expect_undo 'paste .*'
[ "$(things)" = $((before + 1)) ] || fail "one thing was not pasted: $before $(things)"
picture pasted
key ctrl+z; settled
key ctrl+a; settled; key ctrl+c; settled
out >"$FOLDER/all.svg"
key ctrl+x; expect_undo 'cut .* things'
[ "$(things)" = 0 ] || fail "cut left something: $(things)"
key ctrl+v; expect_undo 'paste .* things'
[ "$(things)" = "$before" ] || fail "not all came back: $before $(things)"
key ctrl+c; settled
[ "$(shapes <(out))" = "$(shapes "$FOLDER/all.svg")" ] || fail "what was cut did not come back to its place"
key ctrl+z ctrl+z; settled
[ "$(things)" = "$before" ] || fail "undo did not bring all back"

# another hole: at the same places
step_to ctrl+Page_Down
key ctrl+a; settled; key Delete; settled
[ "$(things)" = 0 ] || fail "the other hole is not empty"
key ctrl+v; expect_undo 'paste .* things'
key ctrl+a; settled; key ctrl+c; settled
[ "$(shapes <(out))" = "$(shapes "$FOLDER/all.svg")" ] || fail "things lie elsewhere on the other hole"

# from another program: as a picture, and as text
key Delete; settled
into 'text/plain;charset=utf-8' "$FOLDER/all.svg"; expect_undo 'paste .* things'
key ctrl+z; settled

# foreign shapes: shown, asked for, one step; Escape leaves no trace
before=$(things)
into image/svg+xml "$GUI/../data/svg/inkscape.svg"
dialog_comes
picture foreign
n=$(windows); key Escape; fewer_windows "$n"
[ "$(things)" = "$before" ] || fail "Escape put something in"
key ctrl+v
dialog_comes
key alt+s; xdotool type --delay 4 '1:2000'; settled
picture scaled
n=$(windows); key alt+p; fewer_windows "$n"
expect_undo 'paste 4 things'
[ "$(things)" = $((before + 4)) ] || fail "four shapes were not put in"
key ctrl+c; settled; out >"$FOLDER/placed.svg"
for kind in fairway water bunker tree; do grep -q "hw:kind=\"$kind\"" "$FOLDER/placed.svg" || fail "no $kind arrived"; done
# the largest of them, 180 mm up the sheet, is 360 m long; the view box has a metre more on either side
grep -o 'viewBox="[^"]*"' "$FOLDER/placed.svg" | /usr/bin/python3 -c '
import sys
height = float(sys.stdin.read().split()[3].rstrip(chr(34)))
sys.exit(0 if abs(height - 362) < 0.01 else f"{height} m, not 362")' || fail "the drawing came at another scale"
key ctrl+z; settled
[ "$(things)" = "$before" ] || fail "one undo did not take the drawing out"

# what has no kind yet is not put in
into image/svg+xml "$GUI/../data/svg/foreign-layers.svg"
dialog_comes
key alt+p; settled
[ -n "$(dialog)" ] || fail "shapes went in without a kind"
key alt+r; expect_gone 'push button' 'Leave Out the Rest'; settled
n=$(windows); key alt+p; fewer_windows "$n"
expect_undo 'paste 4 things'
key ctrl+z; settled

# nonsense, and more than can be read: a sentence, and nothing changed
printf 'just some words' >"$FOLDER/words.txt"
into 'text/plain;charset=utf-8' "$FOLDER/words.txt"
expect alert '.*no drawing.*'
into image/svg+xml <(printf '<svg xmlns="http://www.w3.org/2000/svg"><rect')
expect alert '.*not well-formed.*'
/usr/bin/python3 - "$FOLDER" <<'P'
import sys
def drawing(name, size):
    photo = "A" * (size - 400)
    open(f"{sys.argv[1]}/{name}", "w").write(
        '<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" width="200mm" height="200mm" '
        'viewBox="0 0 200 200"><image width="9" height="9" xlink:href="data:image/png;base64,' + photo + '"/>'
        '<rect id="green" width="20" height="30"/></svg>')
drawing("large.svg", 30 << 20)
drawing("larger.svg", 34 << 20)
P
into image/svg+xml "$FOLDER/larger.svg"
expect alert '.*larger than 32 MiB.*'
[ "$(things)" = "$before" ] || fail "what could not be pasted changed the hole"

# 30 MB arrive
xclip -selection clipboard -t image/svg+xml -i "$FOLDER/large.svg"; settled
key ctrl+v
dialog_comes
n=$(windows); key alt+p; fewer_windows "$n"
expect_undo 'paste green'
[ "$(things)" = $((before + 1)) ] || fail "the drawing of 30 MB did not arrive"
passed
