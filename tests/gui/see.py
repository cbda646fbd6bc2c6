#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Looks at the program through the accessible tree, as a screen reader does, for as long as a session lasts.

Reads questions from standard input: how many words, then the words, each ended by a NUL. Answers each with its exit status, one digit, and what there is to
print, ended by a NUL. What was looked for in vain is told on standard error, with what was there instead.

  wait ROLE NAME [DESCRIPTION]   waits until such a thing is shown, prints its name and description; patterns match in full
  gone ROLE NAME                 waits until there is none
  names ROLE                     prints the names of all shown things of a role, one a line
  unnamed                        prints every shown control, and all that can take the focus, without a name of its own
  focused                        prints what has the focus: role and name
  value ROLE NAME                prints the text of a field
  states ROLE NAME               prints the states of such a thing
  origin ROLE NAME GEOMETRY      prints its top left on the screen; GEOMETRY is what xdotool says of the window
  middle ROLE NAME GEOMETRY      prints its middle on the screen
  aim FILE                       prints the aim of the first shot written in a hole document
  rest LOG PID...                waits until for a while none of the processes works or waits for its turn to and LOG does not grow

Nothing is remembered from one question to the next. All that is asked about one level of the tree is asked at once: every answer that is waited for by itself
costs a turn of three processes, and on a busy machine those turns are what takes time.
"""
import os
import re
import sys
import time
import xml.etree.ElementTree as ElementTree

import gi

gi.require_version("Atspi", "2.0")
from gi.repository import Atspi, Gio, GLib  # noqa: E402

WAIT_S = 60  # only a case that fails waits so long
QUIET_S = 0.2
LOOK_EVERY_S = 0.05
MAX_DEPTH = 40
TOLD = 60  # things named when one was looked for in vain
CONTROLS = {"push button", "toggle button", "check box", "combo box", "text", "radio button", "list", "menu item", "list item", "spin button",
            "slider", "page tab", "link", "check menu item", "radio menu item"}
HOLE = "{urn:holewright:hole:1}"
ROOT = ("org.a11y.atspi.Registry", "/org/a11y/atspi/accessible/root")
NOTHING = "/org/a11y/atspi/null"
WINDOW = 1  # coordinates that count from the window's corner
ANSWER_WITHIN_MS = 30000


class Tree:
    """The accessible tree behind its bus."""

    def __init__(self):
        session = Gio.bus_get_sync(Gio.BusType.SESSION)
        address = session.call_sync("org.a11y.Bus", "/org/a11y/bus", "org.a11y.Bus", "GetAddress", None, None, Gio.DBusCallFlags.NONE,
                                    ANSWER_WITHIN_MS).unpack()[0]
        self.bus = Gio.DBusConnection.new_for_address_sync(
            address, Gio.DBusConnectionFlags.AUTHENTICATION_CLIENT | Gio.DBusConnectionFlags.MESSAGE_BUS_CONNECTION)
        self.context = GLib.MainContext.default()

    def ask(self, questions):
        """The answers to (place, interface, method, arguments), all asked at once; None where there is none."""
        answers, waiting = [None] * len(questions), len(questions)

        def answered(bus, result, i):
            nonlocal waiting
            waiting -= 1
            try:
                answers[i] = bus.call_finish(result).unpack()
            except GLib.Error:  # gone meanwhile, or it has no such side
                pass

        for i, ((name, path), interface, method, arguments) in enumerate(questions):
            self.bus.call(name, path, interface, method, arguments, None, Gio.DBusCallFlags.NO_AUTO_START if name != ROOT[0] else Gio.DBusCallFlags.NONE,
                          ANSWER_WITHIN_MS, None, answered, i)
        while waiting:
            self.context.iteration(True)
        return answers

    def ask_each(self, things, interface, method, *arguments):
        return [(thing.place, "org.a11y.atspi." + interface, method, GLib.Variant(*arguments) if arguments else None) for thing in things]

    def property_each(self, things, interface, name):
        return [(thing.place, "org.freedesktop.DBus.Properties", "Get", GLib.Variant("(ss)", ("org.a11y.atspi." + interface, name)))
                for thing in things]


class Thing:
    def __init__(self, place, parent):
        self.place, self.parent = place, parent
        self.role = self.box = None
        self.name, self.states, self.is_wanted = "", set(), False
        self.children = []

    def is_shown(self):
        """GTK 4.8 sets no "showing" state: what is hidden is not visible, or has no size."""
        if self.role in ("application", "frame", "dialog", "file chooser"):
            return True
        if "visible" not in self.states:
            return self.role in ("panel", "page tab") and self.box is None
        return self.box is None or self.box[2] > 0 and self.box[3] > 0

    def is_leaf(self):
        """Nothing stands in it. The drawing is an image as well, but takes the focus."""
        return self.role in ("label", "image", "separator") and "focusable" not in self.states

    def is_inside_button(self):
        """What stands in a button, as the row that a drop-down shows, is reached as the button."""
        above = self.parent
        while above is not None and above.role != "push button":
            above = above.parent
        return above is not None


def ask_about(tree, things, wanted):
    """Fills in what is asked about all things of a level. Returns those that are shown. Only those wanted are asked their name."""
    roles_and_states = tree.ask(tree.ask_each(things, "Accessible", "GetRole") + tree.ask_each(things, "Accessible", "GetState"))
    for thing, role, states in zip(things, roles_and_states, roles_and_states[len(things):]):
        if role is not None and states is not None:
            thing.role = Atspi.role_get_name(Atspi.Role(role[0]))
            bits = sum(word << 32 * i for i, word in enumerate(states[0]))
            thing.states = {Atspi.StateType(bit).value_nick for bit in range(bits.bit_length()) if bits >> bit & 1}
            thing.is_wanted = wanted(thing)
    things = [thing for thing in things if thing.role and (thing.is_wanted or not thing.is_leaf())]
    parents, named = [thing for thing in things if not thing.is_leaf()], [thing for thing in things if thing.is_wanted]
    answers = iter(tree.ask(tree.ask_each(things, "Component", "GetExtents", "(u)", (WINDOW,)) + tree.ask_each(parents, "Accessible", "GetChildren")
                            + tree.property_each(named, "Accessible", "Name")))
    for thing in things:
        box = next(answers)
        thing.box = box[0] if box else None
    for thing in parents:
        children = next(answers)
        thing.children = [Thing(place, thing) for place in (children[0] if children else []) if place[1] != NOTHING]
    for thing in named:
        name = next(answers)
        thing.name = name[0] if name else ""
    return [thing for thing in things if thing.is_shown()]


def levels(tree, wanted):
    """All that is shown, level by level from outside in: header and panels before the rows of long lists. Of things that are not wanted only
    those that lead on to others are told, without names."""
    applications = tree.ask([(ROOT, "org.a11y.atspi.Accessible", "GetChildren", None)])[0]
    level = [Thing(place, None) for place in (applications[0] if applications else [])]
    for _ in range(MAX_DEPTH):
        if not level:
            return
        shown = ask_about(tree, level, wanted)
        yield shown
        level = [child for thing in shown for child in thing.children]


def shown_things(tree, wanted):
    """All that is shown and wanted, in the order in which it is read."""
    found = list(levels(tree, wanted))
    shown = {thing for level in found for thing in level}

    def read(thing):
        if thing in shown:
            if thing.is_wanted:
                yield thing
            for child in thing.children:
                yield from read(child)

    for top in found[0] if found else []:
        yield from read(top)


def of_role(pattern):
    return lambda thing: re.fullmatch(pattern, thing.role) is not None


def description(tree, thing):
    answer = tree.ask(tree.property_each([thing], "Accessible", "Description"))[0]
    return answer[0] if answer else ""


def find(tree, role, name, about=".*"):
    for level in levels(tree, of_role(role)):
        for thing in level:
            if thing.is_wanted and re.fullmatch(name, thing.name, re.S):
                if about == ".*" or re.fullmatch(about, description(tree, thing), re.S):
                    return thing
    return None


def until(test):
    end = time.monotonic() + WAIT_S
    while True:
        found = test()
        if found or time.monotonic() > end:
            return found
        time.sleep(LOOK_EVERY_S)


def wait_for(tree, role, name, about=".*"):
    """The thing; when there is none, tells what there is of its role, or else which roles there are."""
    thing = until(lambda: find(tree, role, name, about))
    if thing is None:
        there = list(shown_things(tree, of_role(role)))
        told = [f"{other.role} {other.name!r} {description(tree, other)!r}" for other in there[:TOLD]]
        print(f"no {role} {name!r} {about!r}, but:", *(told or sorted({other.role for other in shown_things(tree, of_role(".*"))})), sep="\n  ", file=sys.stderr, flush=True)
    return thing


def aim_of(path):
    for line in ElementTree.parse(path).iter("{http://www.w3.org/2000/svg}line"):
        if line.get(HOLE + "kind") == "shot":
            return f"{line.get('x2')} {line.get('y2')}"
    return "none"


def text_of(tree, thing):
    count = tree.ask(tree.property_each([thing], "Text", "CharacterCount"))[0]
    if count is None:
        return None
    text = tree.ask(tree.ask_each([thing], "Text", "GetText", "(ii)", (0, count[0])))[0]  # GTK 4.8 takes -1 for nothing
    return text[0] if text else None


def unnamed(tree):
    for thing in shown_things(tree, lambda thing: thing.role in CONTROLS or "focusable" in thing.states):
        if thing.name and not thing.name.startswith(("Gtk", "Hw")) and "_" not in thing.name:
            continue
        if not thing.is_inside_button():
            yield f"{thing.role} {thing.name!r} among {[child.role for child in thing.parent.children] if thing.parent else []}"


def on_screen(tree, role, name, geometry, is_middle):
    window = {key: int(value) for key, value in (pair.split("=") for pair in geometry.split() if "=" in pair) if value.isdigit()}
    frame = wait_for(tree, "frame", ".*")
    thing = wait_for(tree, role, name)
    if not thing or not frame:
        return None
    x = window["X"] + (window["WIDTH"] - frame.box[2]) // 2 + thing.box[0]
    y = window["Y"] + (window["HEIGHT"] - frame.box[3]) // 2 + thing.box[1]
    return f"{x + thing.box[2] // 2} {y + thing.box[3] // 2}" if is_middle else f"{x} {y}"


def works(pid):
    """Whether a thread of the process runs, waits for its turn or for a disk."""
    for thread in os.listdir(f"/proc/{pid}/task"):
        with open(f"/proc/{pid}/task/{thread}/stat", encoding="utf-8", errors="replace") as stat:
            if stat.read().rsplit(")", 1)[1].split()[0] in "RD":
                return True
    return False


def trail(log, pid):
    """What grows while the program draws or works."""
    with open(f"/proc/{pid}/stat", encoding="utf-8", errors="replace") as stat:
        state, *rest = stat.read().rsplit(")", 1)[1].split()
    return None if state == "Z" else (os.stat(log).st_size, rest[10], rest[11])


def comes_to_rest(log, *pids):
    """True as well when the program has ended."""
    end, before, since = time.monotonic() + WAIT_S, None, time.monotonic()
    try:
        while time.monotonic() < end:
            now = trail(log, pids[0])
            if now is None:
                return True
            if now != before or any(works(pid) for pid in pids):
                before, since = now, time.monotonic()
            elif time.monotonic() - since >= QUIET_S:
                return True
            time.sleep(LOOK_EVERY_S)
    except (FileNotFoundError, ProcessLookupError):
        return True
    return False


def answer(tree, command, *words):
    """(exit status, what to print)"""
    match command:
        case "wait":
            thing = wait_for(tree, *words)
            return (0, f"{thing.name} | {description(tree, thing)}\n") if thing else (1, "")
        case "gone":
            return (0 if until(lambda: find(tree, *words) is None) else 1), ""
        case "names":
            return 0, "".join(f"{thing.name}\n" for thing in shown_things(tree, of_role(re.escape(words[0]))))
        case "unnamed":
            return 0, "".join(f"{line}\n" for line in unnamed(tree))
        case "focused":
            return 0, "".join(f"{thing.role} {thing.name}\n" for thing in shown_things(tree, lambda thing: "focused" in thing.states))
        case "value":
            thing = wait_for(tree, *words)
            text = text_of(tree, thing) if thing else None
            return (0, f"{text}\n") if text is not None else (1, "")
        case "states":
            thing = wait_for(tree, *words)
            return (0, " ".join(sorted(thing.states)) + "\n") if thing else (1, "")
        case "origin" | "middle":
            place = on_screen(tree, *words, command == "middle")
            return (0, place + "\n") if place else (1, "")
        case "aim":
            return 0, aim_of(words[0]) + "\n"
        case "rest":
            return (0 if comes_to_rest(*words) else 1), ""
    sys.exit(f"unknown word {command}")


def read_word():
    word = bytearray()
    while (byte := sys.stdin.buffer.read(1)) not in (b"\0", b""):
        word += byte
    return None if byte == b"" else word.decode()


def main():
    tree = Tree()
    while (count := read_word()) is not None:
        status, text = answer(tree, *[read_word() for _ in range(int(count))])
        sys.stdout.write(f"{status}{text}\0")
        sys.stdout.flush()


if __name__ == "__main__":
    main()
