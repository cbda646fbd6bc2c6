# SPDX-License-Identifier: GPL-3.0-or-later
# A hole without a plan is shown with a first one that is not part of the file until it is moved; one without a tee says what is missing.
/usr/bin/python3 - "$COURSES/fenwhistle" "$FOLDER" <<'P'
import glob, re, sys
text = open(glob.glob(sys.argv[1] + "/02-*.svg")[0]).read()
text = re.sub(r'<g [^>]*hw:kind="plan".*?</g>', "", text, flags=re.S)
open(sys.argv[2] + "/hole.svg", "w").write(text)
open(sys.argv[2] + "/no-tee.svg", "w").write(text.replace('hw:kind="tee-marker"', 'hw:kind="mark"'))
P
cp "$COURSES/fenwhistle/bag.csv" "$FOLDER/bag.csv"
cp "$FOLDER/hole.svg" "$FOLDER/before.svg"
start "$FOLDER/hole.svg"
expect frame 'hole.svg – Holewright'
expect image 'Drawing of the hole' 'Shot 1 of 1: .*'
settled
picture started
[ "$(aim_in "$FOLDER/hole.svg")" = none ] || fail "the file was given a plan"
key Right
expect frame 'hole.svg \(changed\) – Holewright'
key ctrl+s
expect frame 'hole.svg – Holewright'
[ "$(aim_in "$FOLDER/hole.svg")" != none ] || fail "the plan was not saved"
key ctrl+z
expect frame 'hole.svg \(changed\) – Holewright'
key ctrl+s
expect frame 'hole.svg – Holewright'
cmp "$FOLDER/before.svg" "$FOLDER/hole.svg" || fail "undo and saving did not bring the bytes back"
kill "$APP"; wait "$APP" 2>/dev/null
start "$FOLDER/no-tee.svg"
expect label 'A plan needs a tee marker.*'
settled
picture no-tee
key alt+3
settled
picture no-tee-card
passed
