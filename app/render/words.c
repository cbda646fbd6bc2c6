// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * words - words kept from one frame to the next: shaped once, inked once for each quarter of a pixel that they start at.
 */
#include "stamps-private.h"

#include <string.h>

/* A word starts on the nearest of so many places between two pixels, across and down: no farther off than an eighth of a pixel. */
#define N_STEPS 4
#define N_PHASES (N_STEPS * N_STEPS)
/* More words than some minutes of dragging bring up; a word with all its phases takes about 20 kB. */
#define MOST_WORDS 512
/* Room round the ink for its soft edge and for the phase, device px. */
#define INK_ROOM_PX 2.0
/* Places beyond this, device px, would not fit the arithmetic of cairo. */
#define FARTHEST_PX 1e6

typedef struct
{
  char *text;
  TextStyle style;
  double halo_px;
} WordKey;

struct _Word
{
  WordKey key;
  double width_px;
  cairo_path_t *outline;           /* its left end and baseline at the origin, user units */
  double x0, y0, x1, y1;           /* room for the ink round the origin, whole device px */
  cairo_surface_t *inks[N_PHASES]; /* coverage; NULL until first drawn */
};

struct _RenderWords
{
  TextPen *shaper;
  GHashTable *words; /* of Word by its key */
  double scale;      /* device px in a user unit, of all inks */
  Stamps *stamps;    /* NULL until the first */
};

static guint
word_hash (gconstpointer data)
{
  const WordKey *key = data;
  return g_str_hash (key->text) ^ g_double_hash (&key->style.size_px) ^ ((guint)key->style.weight << 2) ^ (guint)key->halo_px;
}

static gboolean
word_equal (gconstpointer a, gconstpointer b)
{
  const WordKey *p = a, *q = b;
  return p->style.size_px == q->style.size_px && p->style.weight == q->style.weight
         && p->style.is_running == q->style.is_running && p->halo_px == q->halo_px && strcmp (p->text, q->text) == 0;
}

static void
word_free (gpointer data)
{
  Word *word = data;
  for (int i = 0; i < N_PHASES; i++)
    g_clear_pointer (&word->inks[i], cairo_surface_destroy);
  cairo_path_destroy (word->outline);
  g_free (word->key.text);
  g_free (word);
}

static RenderWords *
words_of (TextPen *shaper)
{
  RenderWords *words = g_new0 (RenderWords, 1);
  words->shaper = shaper;
  words->words = g_hash_table_new_full (word_hash, word_equal, NULL, word_free);
  return words;
}

RenderWords *
render_words_new (void)
{
  return words_of (text_pen_new (NULL));
}

RenderWords *
render_words_new_apart (void)
{
  return words_of (text_pen_new_apart ());
}

void
render_words_free (RenderWords *words)
{
  if (!words)
    return;
  g_hash_table_unref (words->words);
  stamps_free (words->stamps);
  text_pen_free (words->shaper);
  g_free (words);
}

static Word *
word_new (RenderWords *words, const WordKey *key)
{
  Word *word = g_new0 (Word, 1);
  word->key = *key;
  word->key.text = g_strdup (key->text);
  word->outline = text_outline (words->shaper, key->text, key->style, &word->width_px);
  return word;
}

Word *
words_find (RenderWords *words, const char *text, TextStyle style, double halo_px)
{
  WordKey key = { (char *)text, style, halo_px };
  Word *word = g_hash_table_lookup (words->words, &key);
  if (word)
    return word;
  if (g_hash_table_size (words->words) >= MOST_WORDS)
    g_hash_table_remove_all (words->words);
  word = word_new (words, &key);
  g_hash_table_insert (words->words, &word->key, word);
  return word;
}

double
word_width (const Word *word)
{
  return word->width_px;
}

/* The whole device px that hold the word at any phase. */
static void
measure_ink (Word *word, cairo_t *cr, double scale)
{
  double x0, y0, x1, y1, room = word->key.halo_px * scale + INK_ROOM_PX;
  cairo_path_extents (cr, &x0, &y0, &x1, &y1);
  word->x0 = floor (x0 * scale - room);
  word->y0 = floor (y0 * scale - room);
  word->x1 = ceil (x1 * scale + room);
  word->y1 = ceil (y1 * scale + room);
}

static cairo_surface_t *
ink_word (Word *word, double scale, int phase)
{
  cairo_surface_t *nowhere = cairo_recording_surface_create (CAIRO_CONTENT_ALPHA, NULL);
  cairo_t *cr = cairo_create (nowhere);
  cairo_append_path (cr, word->outline);
  measure_ink (word, cr, scale);
  cairo_destroy (cr);
  cairo_surface_destroy (nowhere);

  cairo_surface_t *ink = cairo_image_surface_create (CAIRO_FORMAT_A8, (int)(word->x1 - word->x0), (int)(word->y1 - word->y0));
  cr = cairo_create (ink);
  cairo_translate (cr, (double)(phase % N_STEPS) / N_STEPS - word->x0, (double)(phase / N_STEPS) / N_STEPS - word->y0);
  cairo_scale (cr, scale, scale);
  cairo_append_path (cr, word->outline);
  text_ink_path (cr, word->key.halo_px);
  cairo_destroy (cr);
  cairo_surface_flush (ink);
  return ink;
}

double
words_scale (cairo_t *cr)
{
  cairo_surface_t *target = cairo_get_group_target (cr);
  cairo_matrix_t matrix;
  double across, down, x, y;
  if (cairo_surface_get_type (target) != CAIRO_SURFACE_TYPE_IMAGE)
    return 0;
  cairo_get_matrix (cr, &matrix);
  cairo_surface_get_device_scale (target, &across, &down);
  cairo_surface_get_device_offset (target, &x, &y);
  bool is_plain
      = matrix.xy == 0 && matrix.yx == 0 && matrix.xx == matrix.yy && matrix.xx > 0 && across == down && x == 0 && y == 0;
  return is_plain ? matrix.xx * across : 0;
}

/* Inks of another scale are of no use any more. */
static void
use_scale (RenderWords *words, double scale)
{
  GHashTableIter iter;
  gpointer word;
  if (scale == words->scale)
    return;
  g_hash_table_iter_init (&iter, words->words);
  while (g_hash_table_iter_next (&iter, NULL, &word))
    for (int i = 0; i < N_PHASES; i++)
      g_clear_pointer (&((Word *)word)->inks[i], cairo_surface_destroy);
  words->scale = scale;
}

bool
words_is_near (double x_px, double y_px)
{
  return fabs (x_px) < FARTHEST_PX && fabs (y_px) < FARTHEST_PX;
}

Stamps **
words_stamps (RenderWords *words)
{
  return &words->stamps;
}

bool
words_draw (RenderWords *words, cairo_t *cr, Word *word, double x, double baseline)
{
  double scale = words_scale (cr), device, unused;
  if (!(scale > 0))
    return false;
  use_scale (words, scale);
  cairo_surface_get_device_scale (cairo_get_group_target (cr), &device, &unused);
  cairo_user_to_device (cr, &x, &baseline);
  if (!words_is_near (x * device, baseline * device))
    return false;
  int column = (int)floor (x * device * N_STEPS + 0.5), row = (int)floor (baseline * device * N_STEPS + 0.5);
  int phase = (column & (N_STEPS - 1)) + N_STEPS * (row & (N_STEPS - 1));
  if (!word->inks[phase])
    word->inks[phase] = ink_word (word, scale, phase);
  cairo_matrix_t saved;
  cairo_get_matrix (cr, &saved);
  cairo_identity_matrix (cr);
  cairo_scale (cr, 1 / device, 1 / device);
  cairo_mask_surface (cr, word->inks[phase], floor ((double)column / N_STEPS) + word->x0,
                      floor ((double)row / N_STEPS) + word->y0);
  cairo_set_matrix (cr, &saved);
  return true;
}
