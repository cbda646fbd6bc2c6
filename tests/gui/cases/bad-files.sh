# SPDX-License-Identifier: GPL-3.0-or-later
# Files that cannot be used are named in the message bar, and what was open stays as it was, changes included.
cp "$COURSES"/fenwhistle/02-*.svg "$FOLDER/hole.svg"
cp "$COURSES/fenwhistle/bag.csv" "$FOLDER/bag.csv"
bad=$FOLDER/bad; mkdir -p "$bad"
: >"$bad/empty.svg"
head -c 4000 /dev/urandom >"$bad/binary.svg"
gzip -c "$FOLDER/hole.svg" >"$bad/zipped.svg"
head -c 3000 "$FOLDER/hole.svg" >"$bad/truncated.svg"
echo '<!DOCTYPE svg [<!ENTITY a "b">]><svg xmlns="http://www.w3.org/2000/svg">&a;</svg>' >"$bad/entity.svg"
echo '<html><body/></html>' >"$bad/root.svg"
sed 's/hw:version="1"/hw:version="99"/' "$FOLDER/hole.svg" >"$bad/newer.svg"
/usr/bin/python3 - "$bad" <<'P'
import sys
names = " ".join(f'a{i}="1"' for i in range(40000))
open(sys.argv[1] + "/attributes.svg", "w").write(f'<svg xmlns="http://www.w3.org/2000/svg" {names}/>')
open(sys.argv[1] + "/deep.svg", "w").write('<svg xmlns="http://www.w3.org/2000/svg">' + "<g>" * 1000000 + "</g>" * 1000000 + "</svg>")
open(sys.argv[1] + "/nan.svg", "w").write('<svg xmlns="http://www.w3.org/2000/svg" xmlns:hw="urn:holewright:hole:1" hw:version="1">'
                                         '<path hw:kind="green" d="M nan 0 L 10 0 L 10 10 Z"/></svg>')
P
start "$FOLDER/hole.svg"
expect frame 'hole.svg – Holewright'
key Right
expect frame 'hole.svg \(changed\) – Holewright'
key ctrl+s
expect frame 'hole.svg – Holewright'
before=$(see names 'list item')
for file in missing empty binary zipped truncated entity root newer attributes deep nan; do
  gdbus call --session --dest org.holewright.Holewright --object-path /org/holewright/Holewright/window/1 \
    --method org.gtk.Actions.Activate open-recent "[<'$bad/$file.svg'>]" '{}' >/dev/null || fail "the window does not answer"
  expect alert ".*$file\.svg.*"
  echo "$file: $(see wait alert ".*$file\.svg.*")"
  expect frame 'hole.svg – Holewright'
  [ "$(see names 'list item')" = "$before" ] || fail "$file.svg changed what was open"
done
settled
picture message
# a bag that cannot be read: said, and the next best is used
printf 'club,carry_m\ndriver,-200\n' >"$FOLDER/bag.csv"
kill "$APP"; wait "$APP" 2>/dev/null
start "$FOLDER/hole.svg"
expect alert '.*bag\.csv.*'
expect image 'Drawing of the hole' 'Shot 1 of .*'
passed
