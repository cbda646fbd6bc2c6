#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Another program that things can be dragged from: a small window that offers one thing.

  drag.py MIME-TYPE FILE       what the file holds, as that type
  drag.py text/uri-list PATH   the file or folder itself

Prints "dropped" when a drag has ended with a drop, "cancelled" when it has not.
"""
import pathlib
import sys

import gi

gi.require_version("Gdk", "4.0")
gi.require_version("Gtk", "4.0")
from gi.repository import Gdk, GLib, Gtk  # noqa: E402

mime_type, path = sys.argv[1:]
if mime_type == "text/uri-list":
    content = pathlib.Path(path).resolve().as_uri().encode() + b"\r\n"
else:
    content = pathlib.Path(path).read_bytes()


def activate(app):
    window = Gtk.ApplicationWindow(application=app, title="Another Program", default_width=120, default_height=60)
    source = Gtk.DragSource(actions=Gdk.DragAction.COPY)
    source.connect("prepare", lambda *_: Gdk.ContentProvider.new_for_bytes(mime_type, GLib.Bytes.new(content)))
    source.connect("drag-end", lambda *_: print("dropped", flush=True))
    source.connect("drag-cancel", lambda *_: print("cancelled", flush=True) or False)
    label = Gtk.Label(label="drag me", width_request=120, height_request=80)
    label.add_controller(source)
    window.set_child(label)
    window.present()


application = Gtk.Application(application_id=None)
application.connect("activate", activate)
application.run([])
