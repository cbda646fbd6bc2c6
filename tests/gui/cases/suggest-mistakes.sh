# SPDX-License-Identifier: GPL-3.0-or-later
# Holes and bags that hardly can be planned: a green that no club reaches, an island with nothing but water about it, out of bounds everywhere, two greens, a bag of
# one club. Suggest gives a plan, or says in one sentence why there is none; the window stays alive.
mkdir "$FOLDER/course"
/usr/bin/python3 - "$FOLDER/course" <<'P'
import sys
green = '<rect hw:kind="green" x="{x}" y="-{far}" width="20" height="20"/>'
holes = {
    "far": ("rough", '<rect hw:kind="water" x="-60" y="-250" width="120" height="235"/>' + green.format(x=-10, far=280)),
    "island": ("water", '<rect hw:kind="tee" x="-4" y="-4" width="8" height="8"/>' + green.format(x=-10, far=130)),
    "bounds": ("out-of-bounds", green.format(x=-10, far=130)),
    "twins": ("rough", green.format(x=-40, far=130) + green.format(x=20, far=130)),
}
for name, (ground, parts) in holes.items():
    open(f"{sys.argv[1]}/{name}.svg", "w").write(
        '<svg xmlns="http://www.w3.org/2000/svg" xmlns:hw="urn:holewright:hole:1" hw:version="1" viewBox="-60 -300 120 320">'
        f'<title>{name}</title><rect hw:kind="{ground}" x="-60" y="-300" width="120" height="320"/>{parts}'
        '<circle hw:kind="tee-marker" hw:name="white" cx="0" cy="0" r="1"/></svg>')
open(sys.argv[1] + "/bag.csv", "w").write("club,carry_m,carry_sd_m,side_sd_m\n7 iron,120,7,6\n")
open(sys.argv[1] + "/course.xml", "w").write('<course xmlns="urn:holewright:course:1" name="Hard">'
    + "".join(f'<hole file="{name}.svg"/>' for name in holes) + "</course>")
P
start "$FOLDER/course"
settled
for hole in far island bounds twins; do
  expect frame ".*$hole.*|.*Hard.*"
  key F5
  for _ in 1 2 3; do see gone 'push button' 'Cancel' >/dev/null && break; done
  expect_gone 'push button' 'Cancel'
  settled
  if ! see names 'list item' | grep -q '^Suggested shot 1: 7 iron'; then
    see names label | grep -E '^[A-Z].*(tee marker|green|club|shot|hole).*\.$' | grep -vE '^(Start|Aim)' >"$FOLDER/$hole.txt"
    [ -s "$FOLDER/$hole.txt" ] || fail "$hole has neither a plan nor a sentence: $(see names label)"
  fi
  echo "$hole: $(see names 'list item' | grep -m1 '^Suggested shot 1' || cat "$FOLDER/$hole.txt")"
  picture "$hole"
  key ctrl+Page_Down
  settled
done
passed
