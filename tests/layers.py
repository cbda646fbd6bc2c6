#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Holds the floors of the house: which module may include which, and what may come from outside on each floor.

usage: layers.py ROOT

Speaks TAP. First it builds small wrong trees in a temporary folder and makes sure that each is caught, with file and line; then it looks at ROOT.
"""
import re
import sys
import tempfile
from pathlib import Path

MATH = ("geometry", "units")
GOLF = ("hole", "bag", "survey", "flight")
PLAY = ("odds", "green")
DRAW = ("edit",)

# Module: the modules it may include besides itself. Nothing points up; sideways only what stands here.
ARROWS = {
    "geometry": (),
    "units": (),
    "hole": MATH,
    "bag": ("flight", "hole") + MATH,
    "survey": MATH,
    "flight": MATH,
    "edit": ("odds",) + GOLF + MATH,
    "odds": GOLF + MATH,
    "green": GOLF + MATH,
    "plan": PLAY + GOLF + MATH,
    "svg": ("plan",) + DRAW + PLAY + GOLF + MATH,
    "import": ("svg", "plan") + PLAY + GOLF + MATH,
    "render": ("plan",) + PLAY + GOLF + MATH,
    "command": ("svg", "import", "render", "plan") + PLAY + GOLF + MATH,
    "ui": ("command", "svg", "import", "render", "plan") + DRAW + PLAY + GOLF + MATH,
}

LIBC = (r"(assert|complex|ctype|errno|fenv|float|inttypes|iso646|limits|locale|math|setjmp|signal|stdalign|stdarg|stdatomic|stdbool|stddef|stdint"
        r"|stdio|stdlib|stdnoreturn|string|tgmath|time|wchar|wctype)\.h")
GOLF_LIBRARIES = r"(glib\.h|glib/.*|glib-object\.h|gsl/.*|geos_c\.h|fftw3\.h)"
POSIX = r"(fcntl|unistd|dirent|langinfo|sys/\w+)\.h"
EDGE_LIBRARIES = r"(gio/.*|libxml/.*|cairo[\w-]*\.h|pango/.*)"
KEPT_MEMORY = r"malloc\.h"  # what the C library does with memory that is given back: for the program as a whole to say
PROCESSORS = r"sched\.h"  # where a thread runs: of the window's threads, which make a frame together
DESKTOP = r"(gtk|gdk|gsk|graphene)(/.*|\.h|-.*)"

# Headers of other projects, floor by floor; a floor may use those of the floors below it.
OUTSIDE = {}
for _module in MATH:
    OUTSIDE[_module] = LIBC
for _module in GOLF + DRAW + PLAY + ("plan",):
    OUTSIDE[_module] = f"{LIBC}|{POSIX}|{GOLF_LIBRARIES}"
for _module in ("svg", "import", "render", "command"):
    OUTSIDE[_module] = f"{LIBC}|{POSIX}|{GOLF_LIBRARIES}|{EDGE_LIBRARIES}"
OUTSIDE["ui"] = f"{OUTSIDE['command']}|{DESKTOP}|{KEPT_MEMORY}|{PROCESSORS}"

INCLUDE = re.compile(r'^\s*#\s*include\s*(?:"([^"]+)"|<([^>]+)>)')
SPDX = "SPDX-License-Identifier: GPL-3.0-or-later"
LICENSED = {".c", ".h", ".py", ".sh", ".build", ".ui", ".css", ".svg", ".xml", ".supp"}
HARD_LOOK_LINES = 500


def header_module(stem):
    """Name of the module of a public header: plan.h and plan-reasons.h are both plan's."""
    return stem.split("-")[0]


def module_of(path):
    """Name of the module a source or header belongs to, or None for tests."""
    if path.parts[0] == "include":
        return header_module(path.stem)
    if path.parts[0] == "app":
        return path.parts[1]
    return "ui" if path.parts[0] == "ui" else None


def sources(root):
    for top in ("include", "app", "ui", "tests"):
        for path in sorted((root / top).rglob("*.[ch]")):
            yield path.relative_to(root)


def wrong_includes(root):
    """Sentences "FILE:LINE: ..." for every include that the tables do not allow."""
    public = {path.name for path in (root / "include").glob("*.h")}
    for path in sources(root):
        module = module_of(path)
        if module is None:
            continue
        if module not in ARROWS:
            yield f"{path}:1: module {module} has no row in the table of arrows"
            continue
        for number, line in enumerate((root / path).read_text(encoding="utf-8").splitlines(), 1):
            match = INCLUDE.match(line)
            if not match:
                continue
            where = f"{path}:{number}"
            own, outside = match.groups()
            if outside is not None:
                if not re.fullmatch(OUTSIDE[module], outside):
                    yield f"{where}: <{outside}> is not for the floor of {module}"
            elif own in public:
                other = header_module(Path(own).stem)
                if other != module and other not in ARROWS[module]:
                    yield f"{where}: {module} must not include {own}"
            elif "/" in own or not (root / path.parent / own).exists():
                yield f"{where}: {own} is no public header and not a private one of {module}"


def wrong_folders(root):
    """One module = one header = one folder = one test file; a further topic of a module has its header NAME-TOPIC.h and its test file."""
    headers = {path.stem for path in (root / "include").glob("*.h")}
    folders = {path.name for path in (root / "app").iterdir() if path.is_dir()}
    for name in sorted(name for name in headers if header_module(name) not in folders):
        yield f"include/{name}.h:1: has no folder app/{header_module(name)}"
    for name in sorted(folders - headers):
        yield f"app/{name}: has no header include/{name}.h"
    for name in sorted(headers):
        if not (root / "tests" / f"test-{name}.c").is_file():
            yield f"include/{name}.h:1: has no test file tests/test-{name}.c"


def is_licensed_kind(path):
    if {"data", "seeds", "corpus"} & set(path.parts):
        return False
    return path.suffix in LICENSED or path.name in ("run", "install")


def wrong_licences(root):
    """Every source file names its licence in its first lines (a shebang or an XML declaration may stand before)."""
    for top in ("include", "app", "ui", "tests", "courses", ".ci"):
        for path in sorted((root / top).rglob("*")):
            if path.is_file() and "__pycache__" not in path.parts and is_licensed_kind(path.relative_to(root)):
                head = path.read_text(encoding="utf-8").split("\n", 3)[:3]
                if not any(SPDX in line for line in head):
                    yield f"{path.relative_to(root)}:1: no line with {SPDX}"


def long_files(root):
    for path in sources(root):
        n_lines = len((root / path).read_text(encoding="utf-8").splitlines())
        if n_lines > HARD_LOOK_LINES:
            yield f"{path}: {n_lines} lines deserve a hard look"


# ---- wrong trees that must be caught: name, the files of the tree, the check, what it must say ----

LICENCE = f"// {SPDX}\n"
CAUGHT = [
    ("an include that points up", {"include/hole.h": LICENCE, "include/geometry.h": LICENCE + "\n#include \"hole.h\"\n"}, wrong_includes,
     "include/geometry.h:3: geometry must not include hole.h"),
    ("an include that points sideways", {"include/hole.h": LICENCE, "include/bag.h": LICENCE, "app/hole/hole.c": LICENCE + "#  include \"bag.h\"\n"}, wrong_includes,
     "app/hole/hole.c:2: hole must not include bag.h"),
    ("the painter reading documents", {"include/svg.h": LICENCE, "app/render/card.c": LICENCE + "#include \"svg.h\"\n"}, wrong_includes,
     "app/render/card.c:2: render must not include svg.h"),
    ("GTK below the window", {"app/render/hole.c": LICENCE + "#include <gtk/gtk.h>\n"}, wrong_includes,
     "app/render/hole.c:2: <gtk/gtk.h> is not for the floor of render"),
    ("GLib in the mathematics", {"app/units/units.c": LICENCE + "#include <glib.h>\n"}, wrong_includes,
     "app/units/units.c:2: <glib.h> is not for the floor of units"),
    ("cairo among the engines", {"app/odds/carry.c": LICENCE + "#include <cairo.h>\n"}, wrong_includes,
     "app/odds/carry.c:2: <cairo.h> is not for the floor of odds"),
    ("a private header of another module", {"app/hole/part-private.h": LICENCE, "app/svg/read.c": LICENCE + "#include \"part-private.h\"\n"}, wrong_includes,
     "app/svg/read.c:2: part-private.h is no public header and not a private one of svg"),
    ("a path into another module", {"app/hole/part-private.h": LICENCE, "ui/main.c": LICENCE + "#include \"../app/hole/part-private.h\"\n"}, wrong_includes,
     "ui/main.c:2: ../app/hole/part-private.h is no public header and not a private one of ui"),
    ("a module without a row", {"app/extra/extra.c": LICENCE}, wrong_includes, "app/extra/extra.c:1: module extra has no row in the table of arrows"),
    ("a header without its folder", {"include/green.h": LICENCE, "tests/test-green.c": LICENCE}, wrong_folders, "include/green.h:1: has no folder app/green"),
    ("a folder without its header", {"app/green/putt.c": LICENCE}, wrong_folders, "app/green: has no header include/green.h"),
    ("a further header that includes upwards", {"include/svg.h": LICENCE, "include/plan-wind.h": LICENCE + "#include \"svg.h\"\n"}, wrong_includes,
     "include/plan-wind.h:2: plan must not include svg.h"),
    ("a further header of no module", {"include/green-speed.h": LICENCE, "tests/test-green-speed.c": LICENCE}, wrong_folders,
     "include/green-speed.h:1: has no folder app/green"),
    ("a further header without its tests", {"include/green.h": LICENCE, "tests/test-green.c": LICENCE, "app/green/putt.c": LICENCE, "include/green-speed.h": LICENCE}, wrong_folders,
     "include/green-speed.h:1: has no test file tests/test-green-speed.c"),
    ("a module without its tests", {"include/green.h": LICENCE, "app/green/putt.c": LICENCE}, wrong_folders,
     "include/green.h:1: has no test file tests/test-green.c"),
    ("a source without a licence", {"ui/main.c": "int main (void);\n"}, wrong_licences, f"ui/main.c:1: no line with {SPDX}"),
]
ALLOWED = {"include/geometry.h": LICENCE + "#include <math.h>\n", "include/hole.h": LICENCE + "#include \"geometry.h\"\n#include <glib.h>\n",
           "app/geometry/path.c": LICENCE + "#include \"geometry.h\"\n", "app/hole/part-private.h": LICENCE,
           "tests/test-geometry.c": LICENCE, "tests/test-hole.c": LICENCE, "app/hole/part.c": LICENCE + "#include \"part-private.h\"\n#include \"hole.h\"\n", "ui/main.c": LICENCE + "#include <gtk/gtk.h>\n#include \"hole.h\"\n"}
CHECKS = [("every include points down", wrong_includes), ("every module has its header, its folder and its tests", wrong_folders),
          ("every source file names its licence", wrong_licences)]


def in_tree(files, check):
    """What `check` says about a tree made of `files`."""
    with tempfile.TemporaryDirectory() as folder:
        root = Path(folder)
        for top in ("include", "app", "ui", "tests"):
            (root / top).mkdir()
        for name, text in files.items():
            (root / name).parent.mkdir(parents=True, exist_ok=True)
            (root / name).write_text(text, encoding="utf-8")
        return list(check(root))


def main():
    if len(sys.argv) != 2:
        sys.exit(__doc__)
    root = Path(sys.argv[1])
    results = [(f"{name} is caught", [] if in_tree(files, check) == [said] else [f"said {in_tree(files, check)}, not {said}"])
               for name, files, check, said in CAUGHT]
    results += [(f"a sound tree passes: {name}", in_tree(ALLOWED, check)) for name, check in CHECKS]
    results += [(name, list(check(root))) for name, check in CHECKS]
    results.append(("there is something to look at", [] if any(sources(root)) else [f"no sources under {root}"]))
    print(f"1..{len(results)}")
    for number, (name, wrong) in enumerate(results, 1):
        print(f"{'not ' if wrong else ''}ok {number} - {name}")
        for sentence in wrong:
            print(f"# {sentence}")
            print(sentence, file=sys.stderr)
    for sentence in long_files(root):
        print(f"# notice: {sentence}")
    return 1 if any(wrong for _, wrong in results) else 0


if __name__ == "__main__":
    sys.exit(main())
