// SPDX-License-Identifier: GPL-3.0-or-later
/* desk-commands - each command is one edit of the selection and one step of undo under its own name. */
#include "desk-commands.h"

#include "svg.h"

#include <glib/gi18n.h>

/* Copies stand this far to the right of and below their models (common practice). */
#define COPY_OFFSET_M 5.0

typedef struct
{
  const size_t *parts;
  size_t n;
  const Hole *hole;
} Chosen;

static Chosen
chosen (HwDesk *desk)
{
  Chosen c = { .hole = hw_document_get_kept (hw_desk_get_document (desk)) };
  c.parts = hw_desk_get_selection (desk, &c.n);
  return c;
}

static PartShape
shape_of (const Chosen *c, size_t i)
{
  return kind_info (hole_part (c->hole, c->parts[i])->kind)->shape;
}

static bool
apply (HwDesk *desk, Hole *hole, const char *format, GError **error)
{
  return hw_desk_edit (desk, hole, hw_desk_label (desk, format), 0, error);
}

/* ---- when ---- */

static bool
has_any (HwDesk *desk)
{
  return chosen (desk).n > 0;
}

static bool
has_one (HwDesk *desk)
{
  return chosen (desk).n == 1;
}

static bool
has_areas (HwDesk *desk)
{
  Chosen c = chosen (desk);
  for (size_t i = 0; i < c.n; i++)
    if (shape_of (&c, i) != SHAPE_AREA)
      return false;
  return c.n > 0;
}

static bool
has_two_areas (HwDesk *desk)
{
  return chosen (desk).n > 1 && has_areas (desk);
}

static bool
has_one_area (HwDesk *desk)
{
  return has_one (desk) && has_areas (desk);
}

static bool
has_node (HwDesk *desk)
{
  return hw_desk_get_node (desk) >= 0;
}

static bool
has_hole (HwDesk *desk)
{
  return hw_desk_get_hole (desk) != NULL;
}

static bool
has_untouchable (HwDesk *desk)
{
  size_t n;
  hw_desk_get_untouchable (desk, &n);
  return n > 0;
}

/* ---- whole things ---- */

static void
run_delete (HwDesk *desk)
{
  Chosen c = chosen (desk);
  GError *error = NULL;
  if (has_node (desk))
    apply (desk, edit_delete_node (c.hole, c.parts[0], (size_t)hw_desk_get_node (desk), &error), _ ("delete node of %s"),
           &error);
  else
    apply (desk, edit_delete (c.hole, c.parts, c.n, &error), _ ("delete %s"), &error);
}

static void
run_duplicate (HwDesk *desk)
{
  Chosen c = chosen (desk);
  GError *error = NULL;
  size_t *copies = NULL, n = c.n;
  if (apply (desk, edit_duplicate (c.hole, c.parts, c.n, vec2 (COPY_OFFSET_M, -COPY_OFFSET_M), &copies, &error),
             _ ("duplicate %s"), &error))
    hw_desk_select (desk, copies, n);
  g_free (copies);
}

/* ---- the clipboard ---- */

GBytes *
hw_desk_copy (HwDesk *desk, GError **error)
{
  Chosen c = chosen (desk);
  return svg_write_fragment (c.hole, c.parts, c.n, error);
}

void
hw_desk_cut (HwDesk *desk)
{
  Chosen c = chosen (desk);
  GError *error = NULL;
  apply (desk, edit_delete (c.hole, c.parts, c.n, &error), _ ("cut %s"), &error);
}

/* "paste bunker", "paste 3 things" */
static char *
paste_label (const Hole *hole, const size_t *parts, size_t n)
{
  g_autofree char *many = g_strdup_printf (g_dngettext (NULL, "%zu thing", "%zu things", n), n);
  return g_strdup_printf (_ ("paste %s"), n == 1 ? _ (kind_info (hole_part (hole, parts[0])->kind)->label) : many);
}

bool
hw_desk_paste (HwDesk *desk, const Part *const *parts, size_t n_parts)
{
  HwDocument *document = hw_desk_get_document (desk);
  GError *error = NULL;
  g_autofree size_t *pasted = NULL;
  size_t n = 0;
  Hole *hole
      = edit_paste (hw_document_get_kept (document), parts, n_parts, vec2 (COPY_OFFSET_M, -COPY_OFFSET_M), &pasted, &n, &error);
  g_autofree char *label = paste_label (hole, pasted, n);
  if (!hw_desk_edit (desk, hole, label, 0, &error))
    return false;
  hw_desk_take_way (desk, HW_WAY_SELECT);
  hw_desk_select (desk, pasted, n);
  if (n < n_parts)
    {
      size_t n_left = n_parts - n;
      g_autofree char *text = g_strdup_printf (
          g_dngettext (NULL, "%zu thing was left out: a plan stays with its hole, and specks are not drawn.",
                       "%zu things were left out: a plan stays with its hole, and specks are not drawn.", n_left),
          n_left);
      hw_document_say (document, text);
    }
  return true;
}

/* ---- in the stack ---- */

static void
raise_by (HwDesk *desk, int steps, const char *format)
{
  Chosen c = chosen (desk);
  GError *error = NULL;
  apply (desk, edit_raise (c.hole, c.parts[0], steps, NULL, &error), format, &error);
}

static void
run_raise (HwDesk *desk)
{
  raise_by (desk, +1, _ ("bring %s forward"));
}

static void
run_lower (HwDesk *desk)
{
  raise_by (desk, -1, _ ("send %s back"));
}

static void
run_to_top (HwDesk *desk)
{
  raise_by (desk, +2, _ ("bring %s to the front"));
}

static void
run_to_bottom (HwDesk *desk)
{
  raise_by (desk, -2, _ ("send %s to the back"));
}

/* ---- turned and mirrored about the middle of all that is selected ---- */

static void
transform_about_middle (HwDesk *desk, Affine t, const char *format)
{
  Chosen c = chosen (desk);
  GError *error = NULL;
  Box box = box_empty ();
  for (size_t i = 0; i < c.n; i++)
    {
      const Part *part = hole_part (c.hole, c.parts[i]);
      box = box_is_empty (part->bounds) ? box_with_point (box, part->at) : box_union (box, part->bounds);
    }
  Vec2 middle = box_centre (box);
  Affine about
      = affine_then (affine_then (affine_translation (-middle.x, -middle.y), t), affine_translation (middle.x, middle.y));
  apply (desk, edit_transform (c.hole, c.parts, c.n, about, &error), format, &error);
}

static void
run_mirror (HwDesk *desk)
{
  transform_about_middle (desk, affine_scaling (-1, 1), _ ("mirror %s"));
}

static void
run_flip (HwDesk *desk)
{
  transform_about_middle (desk, affine_scaling (1, -1), _ ("mirror %s"));
}

void
hw_desk_turn (HwDesk *desk, double angle_rad)
{
  transform_about_middle (desk, affine_rotation (angle_rad), _ ("turn %s"));
}

static void
run_align (HwDesk *desk)
{
  Chosen c = chosen (desk);
  GError *error = NULL;
  apply (desk, edit_align (c.hole, c.parts, c.n, &error), _ ("align %s"), &error);
}

/* ---- outlines together ---- */

/* Runs an edit of several areas, after which the lowest of them is what is left or what has changed. */
static void
combine (HwDesk *desk, Hole *(*edit) (const Hole *hole, const size_t *parts, size_t n, GError **error), const char *format)
{
  Chosen c = chosen (desk);
  GError *error = NULL;
  size_t lowest = c.parts[0];
  if (apply (desk, edit (c.hole, c.parts, c.n, &error), format, &error))
    hw_desk_select_one (desk, lowest);
}

static void
run_unite (HwDesk *desk)
{
  combine (desk, edit_unite, _ ("unite %s"));
}

static void
run_subtract (HwDesk *desk)
{
  combine (desk, edit_subtract, _ ("subtract from %s"));
}

static void
run_join (HwDesk *desk)
{
  combine (desk, edit_join, _ ("join %s"));
}

static void
run_split (HwDesk *desk)
{
  Chosen c = chosen (desk);
  GError *error = NULL;
  apply (desk, edit_split (c.hole, c.parts[0], NULL, &error), _ ("split %s"), &error);
}

static void
run_cut (HwDesk *desk)
{
  hw_desk_take_way (desk, HW_WAY_CUT);
}

void
hw_desk_grow (HwDesk *desk, double distance_m)
{
  Chosen c = chosen (desk);
  GError *error = NULL;
  apply (desk, edit_offset (c.hole, c.parts, c.n, distance_m, &error), distance_m > 0 ? _ ("grow %s") : _ ("shrink %s"),
         &error);
}

/* ---- nodes ---- */

static void
smooth_node (HwDesk *desk, bool smooth)
{
  Chosen c = chosen (desk);
  GError *error = NULL;
  apply (desk, edit_smooth_node (c.hole, c.parts[0], (size_t)hw_desk_get_node (desk), smooth, &error), _ ("reshape %s"),
         &error);
}

static void
run_smooth (HwDesk *desk)
{
  smooth_node (desk, true);
}

static void
run_corner (HwDesk *desk)
{
  smooth_node (desk, false);
}

/* ---- locked and hidden ---- */

static void
mark_all (HwDesk *desk, void (*mark) (HwDesk *desk, size_t part, bool on))
{
  Chosen c = chosen (desk);
  g_autofree size_t *parts = g_memdup2 (c.parts, c.n * sizeof *c.parts);
  for (size_t i = 0; i < c.n; i++)
    mark (desk, parts[i], true);
}

static void
run_lock (HwDesk *desk)
{
  mark_all (desk, hw_desk_set_locked);
}

static void
run_hide (HwDesk *desk)
{
  mark_all (desk, hw_desk_set_hidden);
}

static void
run_show_all (HwDesk *desk)
{
  for (size_t i = 0; i < hole_n_parts (hw_desk_get_hole (desk)); i++)
    {
      hw_desk_set_locked (desk, i, false);
      hw_desk_set_hidden (desk, i, false);
    }
}

static void
run_select_all (HwDesk *desk)
{
  hw_desk_select_all (desk);
}

/* ---- the table ---- */

const HwDeskCommand hw_desk_command_table[] = {
  { "draw-select-all", N_ ("Select _All"), { "<Control>a" }, has_hole, run_select_all },
  { "draw-cut", N_ ("_Cut"), { NULL }, has_any, NULL },
  { "draw-copy", N_ ("Cop_y"), { NULL }, has_any, NULL },
  { "draw-paste", N_ ("_Paste"), { NULL }, has_hole, NULL },
  { "draw-duplicate", N_ ("_Duplicate"), { "<Control>d" }, has_any, run_duplicate },
  { "draw-delete", N_ ("De_lete"), { "BackSpace", "Delete" }, has_any, run_delete },
  { "", N_ ("_Order") },
  { "draw-raise", N_ ("Bring _Forward"), { "Page_Up" }, has_one, run_raise },
  { "draw-lower", N_ ("Send _Back"), { "Page_Down" }, has_one, run_lower },
  { "draw-to-top", N_ ("Bring to the F_ront"), { "<Shift>Page_Up" }, has_one, run_to_top },
  { "draw-to-bottom", N_ ("Send to the Bac_k"), { "<Shift>Page_Down" }, has_one, run_to_bottom },
  { "", N_ ("_Turn and Mirror") },
  { "draw-align", N_ ("Ali_gn to the Line of Play"), { NULL }, has_any, run_align },
  { "draw-turn", N_ ("_Turn by…"), { NULL }, has_any, NULL },
  { "draw-mirror", N_ ("_Mirror Left to Right"), { NULL }, has_any, run_mirror },
  { "draw-flip", N_ ("Mirror _Near to Far"), { NULL }, has_any, run_flip },
  { "", N_ ("O_utlines") },
  { "draw-unite", N_ ("_Unite"), { "<Control>u" }, has_two_areas, run_unite },
  { "draw-subtract", N_ ("_Subtract the Topmost"), { NULL }, has_two_areas, run_subtract },
  { "draw-join", N_ ("_Join as One Thing"), { "<Control>j" }, has_two_areas, run_join },
  { "draw-split", N_ ("S_plit into Pieces"), { "<Control><Shift>j" }, has_one_area, run_split },
  { "draw-cut-line", N_ ("_Cut along a Line"), { NULL }, has_areas, run_cut },
  { "draw-grow", N_ ("Gro_w or Shrink by…"), { NULL }, has_areas, NULL },
  { "draw-smooth", N_ ("Make Node Smoo_th"), { NULL }, has_node, run_smooth },
  { "draw-corner", N_ ("Make Node a C_orner"), { NULL }, has_node, run_corner },
  { "", N_ ("Lock and _Hide") },
  { "draw-lock", N_ ("_Lock"), { "<Control>l" }, has_any, run_lock },
  { "draw-hide", N_ ("_Hide"), { "<Control>h" }, has_any, run_hide },
  { "draw-show-all", N_ ("Unlock and Sho_w All"), { "<Control><Shift>h" }, has_untouchable, run_show_all },
  { NULL },
};

GMenuModel *
hw_desk_command_menu (void)
{
  GMenu *menu = g_menu_new ();
  g_autoptr (GMenu) section = g_menu_new ();
  g_menu_append_section (menu, NULL, G_MENU_MODEL (section));
  for (const HwDeskCommand *command = hw_desk_command_table; command->name != NULL; command++)
    {
      if (command->name[0] == '\0')
        {
          g_object_unref (section);
          section = g_menu_new ();
          g_menu_append_submenu (menu, _ (command->label), G_MENU_MODEL (section));
          continue;
        }
      g_autofree char *action = g_strconcat ("win.", command->name, NULL);
      g_menu_append (section, _ (command->label), action);
    }
  return G_MENU_MODEL (menu);
}

void
hw_desk_command_add_keys (GtkWidget *widget)
{
  GtkEventController *keys = gtk_shortcut_controller_new ();
  for (const HwDeskCommand *command = hw_desk_command_table; command->name != NULL; command++)
    for (size_t i = 0; i < G_N_ELEMENTS (command->keys) && command->keys[i] != NULL; i++)
      {
        g_autofree char *action = g_strconcat ("win.", command->name, NULL);
        gtk_shortcut_controller_add_shortcut (
            GTK_SHORTCUT_CONTROLLER (keys),
            gtk_shortcut_new (gtk_shortcut_trigger_parse_string (command->keys[i]), gtk_named_action_new (action)));
      }
  gtk_widget_add_controller (widget, keys);
}
