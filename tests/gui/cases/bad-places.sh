# SPDX-License-Identifier: GPL-3.0-or-later
# Places that take no file: said in one sentence with a way out, what was drawn stays unsaved, in the recovery copy and on the table, and the
# file on disk stays as it was.
copies=$XDG_STATE_HOME/holewright/recovery
has_copy () { ls "$copies"/*.svg >/dev/null 2>&1; }
is_copied () { await has_copy || fail "there is no recovery copy"; }
ours=$PROGRAM
cat "$COURSES"/fenwhistle/02-*.svg >"$FOLDER/original.svg"
one_sentence () { # one_sentence WORDS: what the message bar says, once
  local said
  said=$(see wait alert ".*$1.*") || fail "not said: $1"
  echo "$said"
  [ "$(grep -oi 'not saved' <<<"$said" | wc -l)" = 1 ] || fail "\"not saved\" is not said once: $said"
}
# not_saved FILE there|gone: still unsaved, with a copy of it, and the file as it was
not_saved () {
  expect frame 'hole.svg \(changed\) – Holewright'
  expect 'push button' 'Save As….*'
  [ "$2" = gone ] || cmp "$1" "$FOLDER/original.svg" || fail "the file on disk is another"
  is_copied
}
# elsewhere: the button of the message leads to a place where it is saved
elsewhere () {
  press 'push button' 'Save As….*'
  choose_file "$FOLDER/$1.svg" 'Save.*'
  expect frame "$1.svg – Holewright"
  "$ours" check "$FOLDER/$1.svg" || fail "what was saved elsewhere is no hole"
  cmp -s "$FOLDER/$1.svg" "$FOLDER/original.svg" && fail "the change was not saved"
  kill -9 "$APP"; wait "$APP" 2>/dev/null
  rm -rf "$copies"
}
change () { settled; key Right; expect frame 'hole.svg \(changed\) – Holewright'; }
fresh () { rm -rf "$1"; mkdir -p "$1"; cp "$FOLDER/original.svg" "$1/hole.svg"; cp "$COURSES/fenwhistle/bag.csv" "$1/bag.csv"; cp "$COURSES/fenwhistle/bag.csv" "$FOLDER"; }

# the folder vanished
fresh "$FOLDER/gone"
start "$FOLDER/gone/hole.svg"
change
rm -r "$FOLDER/gone"
expect alert 'hole.svg and its folder are gone.*'
settled
picture vanished
key ctrl+s
one_sentence 'gone/hole.svg: not saved'
settled
picture vanished-save
not_saved "$FOLDER/gone/hole.svg" gone
elsewhere from-gone

# a limit on the size of files: an error like a full disk, and no reason to die
fresh "$FOLDER/limit"
start "$FOLDER/limit/hole.svg"
change
is_copied
settled
prlimit --pid "$APP" --fsize=4096:unlimited || fail "no limit could be set"
key ctrl+s
one_sentence 'limit/hole.svg: not saved.*File too large'
not_saved "$FOLDER/limit/hole.svg" there
picture limit
prlimit --pid "$APP" --fsize=unlimited || fail "the limit could not be lifted"
elsewhere from-limit

# a place of its own for one run, where mounting is allowed: PLACE OPTIONS
in_place () {
  cat >"$FOLDER/placed" <<P
#!/bin/sh
exec unshare -m sh -c 'mount -t tmpfs $2 hole "$1" && cp "$FOLDER/original.svg" "$1/hole.svg" && cp "$COURSES/fenwhistle/bag.csv" "$1" && $3 && exec "$ours" "\$@"' sh "\$@"
P
  chmod +x "$FOLDER/placed"
  PROGRAM=$FOLDER/placed
  start "$1/hole.svg"
  PROGRAM=$ours
}
mkdir -p "$FOLDER/disk"
if unshare -m mount -t tmpfs hole "$FOLDER/disk" 2>/dev/null; then
  # a full disk
  in_place "$FOLDER/disk" '-o size=128k' "{ head -c 200000 /dev/zero >\"$FOLDER/disk/rest\" 2>/dev/null; true; }"
  change
  key ctrl+s
  one_sentence 'disk/hole.svg: not saved.*No space left'
  not_saved "/proc/$APP/root$FOLDER/disk/hole.svg" there
  settled
  picture full
  [ "$(ls -A "/proc/$APP/root$FOLDER/disk" | tr '\n' ' ')" = 'bag.csv hole.svg rest ' ] || fail "left behind: $(ls -A "/proc/$APP/root$FOLDER/disk")"
  elsewhere from-full
  # a disk that is read only
  in_place "$FOLDER/disk" '' "mount -o remount,ro \"$FOLDER/disk\""
  change
  key ctrl+s
  one_sentence 'disk/hole.svg: not saved'
  not_saved "/proc/$APP/root$FOLDER/disk/hole.svg" there
  elsewhere from-read-only
else
  echo "nothing may be mounted here: the full and the read-only disk were left out"
  if [ "$(id -u)" != 0 ]; then
    fresh "$FOLDER/locked"; chmod 555 "$FOLDER/locked"
    start "$FOLDER/locked/hole.svg"
    change
    key ctrl+s
    one_sentence 'locked/hole.svg: not saved'
    not_saved "$FOLDER/locked/hole.svg" there
    elsewhere from-locked
    chmod 755 "$FOLDER/locked"
  fi
fi

# no place for recovery copies: said once at the start, once when one is due, and saving works as ever
rm -rf "$XDG_STATE_HOME/holewright"; mkdir -p "$XDG_STATE_HOME"; echo 'a file' >"$XDG_STATE_HOME/holewright"
fresh "$FOLDER/plain"
start "$FOLDER/plain/hole.svg"
expect alert '.*recovery copies cannot be looked for.*'
change
expect alert '.*no recovery copy can be kept here.*'
settled
picture no-copies
key ctrl+s
expect frame 'hole.svg – Holewright'
cmp -s "$FOLDER/plain/hole.svg" "$FOLDER/original.svg" && fail "nothing was saved"
passed
