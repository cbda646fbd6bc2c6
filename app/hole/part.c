// SPDX-License-Identifier: GPL-3.0-or-later
/* Parts: built once, sealed, shared ever after by atomic reference counts. */
#include "hole.h"

#include <string.h>

Part *
part_new (Kind kind)
{
  Part *part = g_atomic_rc_box_new0 (Part);
  part->kind = kind;
  part->bounds = box_empty ();
  part->image_box = box_empty ();
  part->placement = affine_identity ();
  part->height_m = kind == KIND_TREES ? TREES_HEIGHT_M : NAN;
  part->density = TREES_DENSITY;
  part->percent = NAN;
  part->opacity = 1;
  day_init (&part->day);
  return part;
}

static void
shot_copy (const Shot *from, Shot *to)
{
  *to = *from;
  to->club = g_strdup (from->club);
}

Part *
part_copy (const Part *part)
{
  Part *copy = g_atomic_rc_box_dup (sizeof *part, (Part *)part);
  copy->id = g_strdup (part->id);
  copy->name = g_strdup (part->name);
  path_copy (&part->path, &copy->path);
  copy->outline = NULL;
  copy->text = g_strdup (part->text);
  copy->href = g_strdup (part->href);
  copy->tee = g_strdup (part->tee);
  copy->hole_name = g_strdup (part->hole_name);
  day_copy (&part->day, &copy->day);
  copy->shots = part->n_shots ? g_new (Shot, part->n_shots) : NULL;
  for (size_t i = 0; i < part->n_shots; i++)
    shot_copy (&part->shots[i], &copy->shots[i]);
  return copy;
}

static Box
shots_bounds (const Part *plan)
{
  Box box = box_empty ();
  for (size_t i = 0; i < plan->n_shots; i++)
    box = box_with_point (box_with_point (box, plan->shots[i].from), plan->shots[i].aim);
  return box;
}

static Box
image_bounds (const Part *image)
{
  Box box = box_empty ();
  if (box_is_empty (image->image_box))
    return box;
  double xs[2] = { image->image_box.x0, image->image_box.x1 };
  double ys[2] = { image->image_box.y0, image->image_box.y1 };
  for (int i = 0; i < 4; i++)
    box = box_with_point (box, affine_apply (image->placement, vec2 (xs[i & 1], ys[i >> 1])));
  return box;
}

const Part *
part_seal (Part *part)
{
  outline_free (part->outline);
  part->outline = NULL;
  switch (kind_info (part->kind)->shape)
    {
    case SHAPE_AREA:
      part->outline = path_flatten (&part->path, part->even_odd, FLATTEN_TOLERANCE_M);
      part->bounds = path_bounds (&part->path);
      break;
    case SHAPE_LINE:
      part->bounds = path_bounds (&part->path);
      break;
    case SHAPE_POINT:
    case SHAPE_TEXT:
      part->bounds = box_grown (box_with_point (box_empty (), part->at), part->radius_m);
      break;
    case SHAPE_IMAGE:
      part->bounds = image_bounds (part);
      break;
    case SHAPE_PLAN:
      part->bounds = shots_bounds (part);
      break;
    }
  return part;
}

const Part *
part_ref (const Part *part)
{
  return g_atomic_rc_box_acquire ((gpointer)part);
}

static void
part_finish (gpointer data)
{
  Part *part = data;
  g_free (part->id);
  g_free (part->name);
  path_clear (&part->path);
  outline_free (part->outline);
  g_free (part->text);
  g_free (part->href);
  g_free (part->tee);
  g_free (part->hole_name);
  day_clear (&part->day);
  for (size_t i = 0; i < part->n_shots; i++)
    g_free (part->shots[i].club);
  g_free (part->shots);
}

void
part_unref (const Part *part)
{
  if (part)
    g_atomic_rc_box_release_full ((gpointer)part, part_finish);
}

void
part_add_shot (Part *plan, const Shot *shot)
{
  plan->shots = g_renew (Shot, plan->shots, plan->n_shots + 1);
  shot_copy (shot, &plan->shots[plan->n_shots++]);
}

/* Equal, or both not given. */
static bool
number_equal (double a, double b)
{
  return a == b || (isnan (a) && isnan (b));
}

static bool
point_equal (Vec2 a, Vec2 b)
{
  return a.x == b.x && a.y == b.y;
}

static bool
shots_equal (const Part *a, const Part *b)
{
  if (a->n_shots != b->n_shots)
    return false;
  for (size_t i = 0; i < a->n_shots; i++)
    {
      const Shot *s = &a->shots[i], *t = &b->shots[i];
      if (!point_equal (s->from, t->from) || !point_equal (s->aim, t->aim) || g_strcmp0 (s->club, t->club) != 0
          || s->shape != t->shape || !number_equal (s->curve_m, t->curve_m) || s->swing != t->swing)
        return false;
    }
  return true;
}

static bool
image_equal (const Part *a, const Part *b)
{
  const Affine *s = &a->placement, *t = &b->placement;
  const Box *p = &a->image_box, *q = &b->image_box;
  return a->opacity == b->opacity && g_strcmp0 (a->href, b->href) == 0 && s->xx == t->xx && s->yx == t->yx && s->xy == t->xy
         && s->yy == t->yy && s->x0 == t->x0 && s->y0 == t->y0 && p->x0 == q->x0 && p->y0 == q->y0 && p->x1 == q->x1
         && p->y1 == q->y1;
}

bool
part_equal (const Part *a, const Part *b)
{
  if (a == b)
    return true;
  return a->kind == b->kind && g_strcmp0 (a->id, b->id) == 0 && g_strcmp0 (a->name, b->name) == 0
         && path_equal (&a->path, &b->path) && a->even_odd == b->even_odd && point_equal (a->at, b->at)
         && a->radius_m == b->radius_m && a->stakes == b->stakes && a->stakes_given == b->stakes_given
         && number_equal (a->height_m, b->height_m) && a->density == b->density && number_equal (a->percent, b->percent)
         && a->par == b->par && a->today == b->today && a->fixed == b->fixed && g_strcmp0 (a->text, b->text) == 0
         && image_equal (a, b) && g_strcmp0 (a->tee, b->tee) == 0 && g_strcmp0 (a->hole_name, b->hole_name) == 0
         && day_equal (&a->day, &b->day) && shots_equal (a, b);
}

const char *
part_label (const Part *part, char *buffer, size_t size)
{
  const char *text = part->name && *part->name ? part->name : part->id && *part->id ? part->id : NULL;
  if (!text)
    return kind_info (part->kind)->label;
  if (text == part->name)
    return text;
  g_strlcpy (buffer, text, size);
  for (char *c = buffer; *c; c++)
    if (*c == '-' || *c == '_')
      *c = ' ';
  return buffer;
}

Vec2
part_position (const Part *part)
{
  switch (kind_info (part->kind)->shape)
    {
    case SHAPE_POINT:
    case SHAPE_TEXT:
      return part->at;
    case SHAPE_AREA:
      {
        double area_m2;
        Vec2 centroid;
        if (outline_measure (part->outline, &area_m2, &centroid))
          return centroid;
        break;
      }
    case SHAPE_LINE:
      if (part->path.n_segs > 0)
        return part->path.segs[0].to;
      break;
    case SHAPE_PLAN:
      if (part->n_shots > 0)
        return part->shots[0].from;
      break;
    case SHAPE_IMAGE:
      break;
    }
  return box_is_empty (part->bounds) ? vec2 (0, 0) : box_centre (part->bounds);
}
