// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * svg - hole documents and course folders: reading, writing, safe saving.
 *
 * A hole document is valid SVG 1.1, user unit = 1 metre, with the program's facts in the namespace SVG_HOLE_NAMESPACE. File y is
 * minus frame y. Nothing foreign is lost: the writer edits a copy of the document as read and touches only the nodes
 * whose part changed; an unchanged hole gives back the very bytes it was read from.
 */
#ifndef HOLEWRIGHT_SVG_H
#define HOLEWRIGHT_SVG_H

#include "edit.h"
#include "hole.h"

#define SVG_HOLE_NAMESPACE "urn:holewright:hole:1"
#define SVG_COURSE_NAMESPACE "urn:holewright:course:1"
/* Version of the format this program writes, and the newest it reads. */
#define SVG_HOLE_VERSION 1

/* Limits, so that any file opens or is refused in bounded time and memory. */
#define SVG_MOST_BYTES (32u * 1024 * 1024)
#define SVG_MOST_DEPTH 256
#define SVG_MOST_SEGMENTS 200000
#define SVG_MOST_ATTRIBUTES 500
#define SVG_LARGEST_M 1e6

#define SVG_ERROR (svg_error_quark ())
GQuark svg_error_quark (void);
typedef enum
{
  SVG_ERROR_READ,    /* file missing, unreadable, not a regular file */
  SVG_ERROR_LIMIT,   /* larger or deeper than the limits */
  SVG_ERROR_FORMAT,  /* not XML, not SVG, a number that is none... */
  SVG_ERROR_VERSION, /* made by a newer program */
  SVG_ERROR_WRITE    /* could not be saved; the old file is intact */
} SvgError;

typedef enum
{
  FINDING_ERROR,
  FINDING_WARNING,
  FINDING_NOTE
} FindingSeverity;

/* What a finding is about, so that it can be said in other words; FOUND_OTHER: only in its own. */
typedef enum
{
  FOUND_OTHER,
  FOUND_NO_GREEN,
  FOUND_NO_TEE_MARKER,
  FOUND_NO_HOLE_LOCATION,
  FOUND_NO_LINE_OF_PLAY,
  FOUND_NO_PAR,
  FOUND_NO_KIND,
  FOUND_OFF_ITS_AREA, /* a tee marker off every tee, a hole location off every green */
  FOUND_LINE_OFF_TEE,
  FOUND_LINE_OFF_GREEN,
  FOUND_NO_SHEET,
  FOUND_OFF_SHEET,
  FOUND_CROSSING,
  FOUND_NO_HEIGHT,
  FOUND_NO_FALL,
  FOUND_SAME_NAME,
  FOUND_TWO_TODAY,
  FOUND_NO_SUCH_TEE, /* that a plan names */
  FOUND_NO_SUCH_HOLE,
  FOUND_AIM_ON_BALL,
  FOUND_ODD_PAR, /* for the hole's length from a tee */
  N_FOUND
} Found;

/* Something suspect in a document that can be used all the same. */
typedef struct
{
  FindingSeverity severity;
  Found about;
  unsigned line;  /* 0: the document as a whole */
  char *what;     /* "the green has no hole location" */
  char *mend;     /* "add a circle with hw:kind=\"hole-location\"" */
  int part;       /* index of the part it is about, to be shown; -1: none, or found while reading */
  Mend mend_kind; /* how edit_mend mends it, for `part`; MEND_NONE: by hand */
} Finding;

void finding_free (Finding *finding);

/*
 * Reads a document. Errors read "NAME:LINE: what is wrong; what to do", LINE that of the element's start tag. `findings` (may be NULL)
 * receives a GPtrArray of Finding: what reading stumbled over and ignored; a long list is cut, and its last row says so.
 * Any file opens or is refused within 2 s and 512 MiB. Nothing but the bytes given is ever read: no entity, no document type, no network.
 */
Hole *svg_read_bytes (GBytes *bytes, const char *name, GPtrArray **findings, GError **error);
Hole *svg_read_file (const char *path, GPtrArray **findings, GError **error);
/* Whole file into memory under the program's rules: a regular file, at most SVG_MOST_BYTES, not compressed. */
GBytes *svg_read_contents (const char *path, GError **error);

/* What is suspect about the hole itself (no green, no tee, tee off its area, line of play that misses the green...): a GPtrArray of Finding. */
GPtrArray *svg_check_hole (const Hole *hole);
/*
 * What is suspect about holes as a course, in playing order: numbers and stroke indices twice or missing, pars against lengths. `holes` may hold NULL for one that
 * cannot be read. A GPtrArray of Finding, all of them notes; `part` is the index of the hole, -1 for the course.
 */
GPtrArray *svg_check_course (const Hole *const *holes, size_t n_holes);

/*
 * The hole as a document: the bytes it was read from if nothing changed, else its source edited, else a new document. Only the attributes of
 * what changed are touched; an area whose outline changed becomes a path. New coordinates are rounded to a millimetre on the ground, in the
 * element's own user space, so a hole whose places are whole millimetres reads back equal, any other within a millimetre.
 * Of parts with the same node the first is that element's, the others are written as new ones; ids must differ.
 */
GBytes *svg_write_bytes (const Hole *hole, GError **error);

/*
 * Saves safely: serialises to memory, reads that back and compares, resolves links, writes a hidden temporary file beside the target, fsyncs,
 * renames, fsyncs the folder. On failure the old file is intact and `error` says why. `*written` (may be NULL) receives the bytes.
 * Devices and pipes are refused, and files the user may not write. Permissions are kept; a hard link of another name keeps the old content.
 */
bool svg_save_file (const Hole *hole, const char *path, GBytes **written, GError **error);
/* The same for any bytes (cards, tables). Every output of the program goes through here. */
bool svg_save_bytes (GBytes *bytes, const char *path, GError **error);

/* ---- fragments: parts by themselves, as on the clipboard ---- */

/*
 * A document that holds only these parts of the hole (indices without repeats, in any order), cut to their extent, with all their facts; any viewer
 * shows it.
 */
GBytes *svg_write_fragment (const Hole *hole, const size_t *parts, size_t n_parts, GError **error);

/* Shapes of a drawing that have one colour. */
typedef struct
{
  char *colour;   /* "#rrggbb"; "none" if nothing is painted; as written where it is no plain colour ("url(#fade)") */
  bool is_stroke; /* they are not filled, and this is the colour of their line */
  size_t *parts;  /* indices in the fragment */
  size_t n_parts;
} SvgColour;

/* Parts read from a document of any origin. Everything belongs to the fragment. */
typedef struct
{
  const Part **parts; /* in document order, y up */
  size_t n_parts;
  bool
      is_foreign; /* no fact of this program is in it: shapes without a kind, in user units that mean nothing yet; else metres */
  Box extent;     /* of all parts, in the units of the parts */
  double sheet_width, sheet_height; /* what the document calls its size, in user units; NAN if it does not say */
  double unit_mm;     /* a user unit on the document's own paper in millimetres; NAN if it knows no ruler, only pixels */
  SvgColour *colours; /* each part is in one of them, most parts first */
  size_t n_colours;
} SvgFragment;

/*
 * Reads a document for its parts; hidden shapes of foreign drawings are left out. Errors and `findings` as in svg_read_bytes; what is
 * drawn but cannot be taken (texts, images, open lines without a kind) is among the findings. A document without a single part is an error.
 */
SvgFragment *svg_read_fragment (GBytes *bytes, const char *name, GPtrArray **findings, GError **error);
void svg_fragment_free (SvgFragment *fragment);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SvgFragment, svg_fragment_free)

/* In place of a kind: the part is not taken. */
#define SVG_LEAVE_OUT N_KINDS

/*
 * The fragment's parts ready to be put into `hole`: a GPtrArray of const Part (it holds their references), scaled so that a unit becomes `metres_per_unit` and
 * moved so that the middle of the extent comes to `middle`, rounded to a millimetre, with ids that the hole's document does not use yet.
 * `kinds` (NULL: all as they are) gives one kind or SVG_LEAVE_OUT for each part; it counts for shapes without a kind: they become areas, lines or, at the
 * middle of their bounds, points. NULL with `error` set if nothing is left, for a kind no shape can have, and beyond SVG_LARGEST_M.
 */
GPtrArray *svg_fragment_place (const SvgFragment *fragment, const Hole *hole, const Kind *kinds, double metres_per_unit,
                               Vec2 middle, GError **error);

/*
 * First answers about a foreign drawing, for the golfer to change. The kind that a shape's name speaks of ("left bunker"); that of a colour, by the names
 * its shapes have in common, else by what maps use the colour for. KIND_NONE when nothing is known.
 */
Kind svg_guess_part (const SvgFragment *fragment, size_t part);
Kind svg_guess_colour (const SvgFragment *fragment, size_t colour);
/*
 * Metres per unit: the largest usual scale of a plan (1:1000, 1:2000, 1:2500...) at which the drawing fits into `sheet`, by its own size on paper; a drawing that knows
 * no ruler is made as large as fits, a round number of metres to the unit.
 */
double svg_guess_scale (const SvgFragment *fragment, Box sheet);

/* ---- recovery copies: what was drawn but not saved when the program died ---- */

/*
 * A copy is two files in one folder, KEY.svg with the document - of a bag KEY.csv - and KEY.ini with where it belongs and which process wrote it. Both are saved
 * safely, what it belongs to first, so that no document is there that would not be offered. All take the folder as an argument; recovery_folder is the usual one.
 */
typedef struct
{
  char *key;
  char *path;     /* of the copy's document */
  bool is_bag;    /* a bag of clubs, not a hole */
  char *original; /* absolute path of the file the hole belongs to; NULL if it was never saved or that is not known */
  char *
      held; /* SHA-256 of what that file held when the process last read or saved it, in hexadecimal; NULL if that is not known */
  char *title;   /* of the hole; NULL if it has none */
  gint64 time_s; /* when it was written, seconds since 1970 UTC */
} RecoveryCopy;

/* The user's own: holewright/recovery in the folder for state (XDG Base Directory Specification, XDG_STATE_HOME). Free with g_free. */
char *recovery_folder (void);
/* A key for the copies of one open document: this process, and a number nobody else has. Free with g_free. */
char *recovery_new_key (void);
/*
 * Writes the copy `key` or replaces it, making the folder if need be; `original` NULL: never saved; `held`: what that file held when it was last read
 * or saved, NULL if that is not known. A hole that does not read back is refused, and on every failure the copy that was there stays.
 */
bool recovery_write (const char *folder, const char *key, const Hole *hole, const char *original, GBytes *held, GError **error);
/* The same for a bag of clubs, what its file would hold. */
bool recovery_write_bag (const char *folder, const char *key, GBytes *bag, const char *original, GBytes *held, GError **error);
/*
 * The copies whose process is no longer alive, newest first: a GPtrArray of RecoveryCopy; none if there is no folder. A process is told by its id, its
 * start time and the boot of the machine, so one that got the id of another later is not taken for it. A copy that is the same as the
 * file it belongs to has nothing to give and is removed.
 */
GPtrArray *recovery_list (const char *folder, GError **error);
void recovery_copy_free (RecoveryCopy *copy);
/* Reads a hole's copy; a bag's is read as any bag is. To take it over: read, recovery_write it under a key of one's own, then recovery_discard it. */
Hole *recovery_read (const RecoveryCopy *copy, GPtrArray **findings, GError **error);
/* Does the file it belongs to now hold something else, `now`, than what the copy's hole was drawn on? False if that is not known. */
bool recovery_is_overtaken (const RecoveryCopy *copy, GBytes *now);
/* Removes a copy: when its hole has been saved, or nobody wants it. No copy of that key is no failure. */
bool recovery_discard (const char *folder, const char *key, GError **error);

/* ---- grammar ---- */

/* Reads one path-data string (SVG 1.1, section 8.3) in its own frame, appending to `path`. On a mistake returns false with the byte offset of it. */
bool svg_parse_path (const char *text, Path *path, size_t most_segments, size_t *offset);
/* Reads a transform list ("translate(3) rotate(10 4 5)"). */
bool svg_parse_transform (const char *text, Affine *transform);
/* Path data with as many digits as keep 1 mm, in the path's own frame. Free with g_free. */
char *svg_print_path (const Path *path);

/* ---- course folders ---- */

/* Reads a course folder (or its course.xml). A hole's file may be missing: who reads it then says so, and the rest of the course can be used. */
Course *svg_read_course (const char *path, GError **error);

/*
 * Edits of a course on disk. Each takes the course as last read, changes course.xml in place - what the program does not know stays - and returns
 * the course as it is now; what is no change touches nothing. NULL with one sentence in `error`, and everything as it was, when the
 * folder is gone or read-only, a name is taken, the result would not read back, or course.xml no longer says what `course` says.
 * No hole file is ever overwritten or destroyed.
 */

/* A new course with its first hole, in a folder that is made if need be and holds no course yet. */
Course *svg_course_create (const char *folder, const char *name, const Hole *first, GError **error);
/* Adds a hole as number `at` (0: first, n_holes: last), in a new file called after its number and title: "04-the-weir.svg". */
Course *svg_course_add_hole (const Course *course, size_t at, const Hole *hole, GError **error);
/* Copies the file of hole `i`, byte for byte, as the next hole. */
Course *svg_course_duplicate_hole (const Course *course, size_t i, GError **error);
/* Moves hole `from` so that it becomes hole `to`. */
Course *svg_course_move_hole (const Course *course, size_t from, size_t to, GError **error);
/* Gives the file of hole `i` another name in its folder; ".svg" is added if it is missing. */
Course *svg_course_rename_hole (const Course *course, size_t i, const char *name, GError **error);
/* A hole that was taken out of its course, so that it can be put back. */
typedef struct
{
  size_t at;              /* which hole it was */
  char *path;             /* of its file */
  GBytes *bytes;          /* what was in it; NULL: it was missing already */
  char *kept;             /* where the file is now; NULL: in the trash */
  GBytes *before, *after; /* course.xml */
} CourseRemoved;

void course_removed_free (CourseRemoved *removed);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (CourseRemoved, course_removed_free)

/*
 * Takes hole `i`, not the last one left, out of the course. Its file goes to the desktop's trash; where that cannot be it stays under another name. A
 * file that is missing is no longer named.
 * `*removed` (may be NULL) receives what svg_course_restore_hole needs.
 */
Course *svg_course_delete_hole (const Course *course, size_t i, CourseRemoved **removed, GError **error);
/*
 * Puts a hole back at its place, under its name if that is still free, else under the next one. A course.xml that did not change meanwhile gets the very
 * bytes it had.
 */
Course *svg_course_restore_hole (const Course *course, const CourseRemoved *removed, GError **error);
Course *svg_course_set_name (const Course *course, const char *name, GError **error);
/* The tees in this order. A tee keeps its element, with what else is there, by its name, else by its place. */
Course *svg_course_set_tees (const Course *course, const CourseTee *tees, size_t n_tees, GError **error);

#endif
