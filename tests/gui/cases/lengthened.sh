# SPDX-License-Identifier: GPL-3.0-or-later
# In a language whose every text is a third longer and stands in brackets: nothing that can be read in Draw, Plan or Card is left as it was but what the
# golfer wrote, and where the window could be 360 px wide it is at most a third wider.
"$GUI/lengthen.py" "$GUI/../.." "$FOLDER/locale" xx || fail "the texts could not be gathered"
export HOLEWRIGHT_LOCALE_DIR=$FOLDER/locale LANGUAGE=xx
start "$COURSES/fenwhistle/02-orchard.svg"
expect 'push button' '\[Plan .*\]'
# the golfer's own words, the names of files with and without an ending, and GTK's buttons of the title bar
own='^(bag|Orchard|Fenwhistle|Holewright|.*\.svg .*|.*\.svg|Minimize|Maximize|Close)$'
# all_longer STEP: everything there is to read has been through the translators' hands, is a number, or is on the hole or in the bag
all_longer () {
  local names
  names=$(for role in 'push button' 'toggle button' 'check box' label 'menu item' 'list item' list text 'spin button'; do see names "$role"; done)
  grep -vE '\[' <<<"$names" | grep -E '[A-Za-z]{3}' | grep -vE "$own" | sort -u | while read -r name; do
    grep -qF -e "$name" -e "${name// /-}" "$COURSES/fenwhistle/02-orchard.svg" "$COURSES/fenwhistle/bag.csv" "$COURSES/fenwhistle/course.xml" || echo "$name"
  done >"$FOLDER/$1.txt"
  [ ! -s "$FOLDER/$1.txt" ] || fail "not translated in $1: $(cat "$FOLDER/$1.txt")"
}
for step in 2:plan 1:draw 3:card; do
  key "alt+${step%:*}"; settled
  picture "${step#*:}"
  all_longer "${step#*:}"
done
# the window folds in the step whose words need most
key alt+2; settled
for width in 640 500 360; do resize $width 800; done
for step in 2:plan 1:draw 3:card; do
  key "alt+${step%:*}"; settled
  picture "phone-${step#*:}"
  [ "$(xdotool getwindowgeometry --shell "$WINDOW" | sed -n 's/^WIDTH=//p')" -le 480 ] || fail "${step#*:} makes the window wider"
  key F9; settled
  picture "phone-${step#*:}-panel"
  key F9; settled
done
passed
