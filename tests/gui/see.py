#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Looks at the program through the accessible tree, as a screen reader does.

  see.py wait ROLE NAME [DESCRIPTION]   waits until such a thing is shown, prints its name and description; patterns match in full
  see.py gone ROLE NAME                 waits until there is none
  see.py names ROLE                     prints the names of all shown things of a role, one a line
  see.py unnamed                        prints every shown control, and all that can take the focus, without a name of its own
  see.py focused                        prints what has the focus: role and name
  see.py value ROLE NAME                prints the text of a field
  see.py states ROLE NAME               prints the states of such a thing
  see.py origin ROLE NAME GEOMETRY      prints its top left on the screen; GEOMETRY is what xdotool says of the window
  see.py middle ROLE NAME GEOMETRY      prints its middle on the screen
  see.py aim FILE                       prints the aim of the first shot written in a hole document
"""
import re
import sys
import time
import warnings
import xml.etree.ElementTree as ElementTree

WAIT_S = 20
CONTROLS = {"push button", "toggle button", "check box", "combo box", "text", "radio button", "list", "menu item", "list item", "spin button",
            "slider", "page tab", "link", "check menu item", "radio menu item"}
HOLE = "{urn:holewright:hole:1}"


def aim_of(path):
    for line in ElementTree.parse(path).iter("{http://www.w3.org/2000/svg}line"):
        if line.get(HOLE + "kind") == "shot":
            return f"{line.get('x2')} {line.get('y2')}"
    return "none"


if sys.argv[1] == "aim":
    print(aim_of(sys.argv[2]))
    sys.exit(0)

import gi  # noqa: E402

gi.require_version("Atspi", "2.0")
from gi.repository import Atspi  # noqa: E402

warnings.simplefilter("ignore")
Atspi.init()


def is_shown(thing):
    """GTK 4.8 sets no "showing" state: what is hidden is not visible, or has no size."""
    if thing.get_role_name() in ("application", "frame", "dialog", "file chooser"):
        return True
    if not thing.get_state_set().contains(Atspi.StateType.VISIBLE):
        return thing.get_role_name() in ("panel", "page tab") and not thing.get_interfaces().count("Component")
    component = thing.get_component_iface()
    if component is None:
        return True
    extents = component.get_extents(Atspi.CoordType.WINDOW)
    return extents.width > 0 and extents.height > 0


def walk(thing, depth=0):
    """Everything shown from `thing` down; what goes away meanwhile is left out."""
    if thing is None or depth > 40:
        return
    try:
        if not is_shown(thing):
            return
        children = thing.get_child_count()
    except gi.repository.GLib.Error:
        return
    yield thing
    for i in range(children):
        try:
            child = thing.get_child_at_index(i)
        except gi.repository.GLib.Error:
            continue
        yield from walk(child, depth + 1)


def shown():
    desktop = Atspi.get_desktop(0)
    for i in range(desktop.get_child_count()):
        yield from walk(desktop.get_child_at_index(i))


def outside_in():
    """All that is shown, what stands further out first: header and panels before the rows of long lists."""
    desktop = Atspi.get_desktop(0)
    level = [desktop.get_child_at_index(i) for i in range(desktop.get_child_count())]
    while level:
        inner = []
        for thing in level:
            try:
                if thing is None or not is_shown(thing):
                    continue
                yield thing
                inner += [thing.get_child_at_index(i) for i in range(thing.get_child_count())]
            except gi.repository.GLib.Error:
                continue
        level = inner


def find(role, name, description=".*"):
    for thing in outside_in():
        try:
            if (re.fullmatch(role, thing.get_role_name()) and re.fullmatch(name, thing.get_name() or "", re.S)
                    and re.fullmatch(description, thing.get_description() or "", re.S)):
                return thing
        except gi.repository.GLib.Error:
            continue
    return None


def is_inside_button(thing):
    """What stands in a button, as the row that a drop-down shows, is reached as the button."""
    parent = thing.get_parent()
    while parent is not None:
        if parent.get_role_name() == "push button":
            return True
        parent = parent.get_parent()
    return False


def until(test):
    end = time.monotonic() + WAIT_S
    while True:
        found = test()
        if found or time.monotonic() > end:
            return found
        time.sleep(0.1)


command, words = sys.argv[1], sys.argv[2:]
if command == "wait":
    thing = until(lambda: find(*words))
    if not thing:
        sys.exit(1)
    print(thing.get_name(), "|", thing.get_description())
elif command == "gone":
    sys.exit(0 if until(lambda: find(*words) is None) else 1)
elif command == "names":
    for thing in shown():
        if thing.get_role_name() == words[0]:
            print(thing.get_name())
elif command == "unnamed":
    for thing in shown():
        name, role = thing.get_name() or "", thing.get_role_name()
        if role not in CONTROLS and not thing.get_state_set().contains(Atspi.StateType.FOCUSABLE):
            continue
        if name and not name.startswith(("Gtk", "Hw")) and "_" not in name:
            continue
        if not is_inside_button(thing):
            parent = thing.get_parent()
            print(role, repr(name), "in", repr(parent.get_name() if parent else ""))
elif command == "focused":
    for thing in shown():
        if thing.get_state_set().contains(Atspi.StateType.FOCUSED):
            print(thing.get_role_name(), thing.get_name())
elif command == "value":
    thing = until(lambda: find(*words))
    if not thing or thing.get_text_iface() is None:
        sys.exit(1)
    text = thing.get_text_iface()
    print(Atspi.Text.get_text(text, 0, Atspi.Text.get_character_count(text)))  # GTK 4.8 takes -1 for nothing
elif command == "states":
    thing = until(lambda: find(*words))
    if not thing:
        sys.exit(1)
    print(*(state.value_nick for state in thing.get_state_set().get_states()))
elif command in ("origin", "middle"):
    geometry = dict(pair.split("=") for pair in words[2].split() if "=" in pair)
    frame = until(lambda: find("frame", ".*"))
    thing = until(lambda: find(words[0], words[1]))
    if not thing or not frame:
        sys.exit(1)
    outer = frame.get_component_iface().get_extents(Atspi.CoordType.WINDOW)
    inner = thing.get_component_iface().get_extents(Atspi.CoordType.WINDOW)
    edge_x = (int(geometry["WIDTH"]) - outer.width) // 2
    edge_y = (int(geometry["HEIGHT"]) - outer.height) // 2
    x, y = int(geometry["X"]) + edge_x + inner.x, int(geometry["Y"]) + edge_y + inner.y
    print(*((x, y) if command == "origin" else (x + inner.width // 2, y + inner.height // 2)))
else:
    sys.exit(f"unknown word {command}")
