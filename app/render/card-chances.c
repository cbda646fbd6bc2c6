// SPDX-License-Identifier: GPL-3.0-or-later
/* Where a planned shot may end, in one line of the card: "fairway 58 %, rough 22 %, bunker 12 %". */
#include "card-private.h"

#include "plan-ends.h"

/* Chances nearer to none or to all are told as such: no figure is more certain than the model. */
#define NEAR_NONE 0.01
#define NEAR_ALL 0.995

void
card_gather_chances (Card *card)
{
  /* Whose strokes put the ends in order matters little; a card does not say whose it is. */
  g_autoptr (StrokesTable) table = strokes_table_new (LEVEL_DEFAULT);
  card->ends = g_new0 (CardEnds, card->n_shots);
  for (size_t i = 0; i < card->n_shots; i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (OddsTable) odds = odds_table_new (card->hole, &card->shots[i], &error);
      if (odds == NULL)
        {
          card_warn (card, "the chances are left out: %s", error->message);
          return;
        }
      card->ends[i].n = plan_ends (odds, table, card->shots[i].left_m, card->ends[i].ends);
    }
}

/* What is hoped for: the likeliest end that is no trouble, or the likeliest. */
static size_t
best_end (const CardEnds *ends)
{
  size_t best = 0;
  for (size_t i = 1; i < ends->n; i++)
    {
      bool is_trouble = kind_info (ends->ends[i].kind)->is_trouble, was_trouble = kind_info (ends->ends[best].kind)->is_trouble;
      if (is_trouble == was_trouble ? ends->ends[i].chance > ends->ends[best].chance : was_trouble)
        best = i;
    }
  return best;
}

static void
add_end (const Card *card, GString *line, const ShotEnd *end)
{
  g_string_append_printf (line, "%s%s ", line->len > 0 ? ", " : "", card_word (card, kind_info (end->kind)->label));
  if (end->chance < NEAR_NONE)
    g_string_append (line, card_word (card, N_ ("under 1 %")));
  else if (end->chance > NEAR_ALL)
    g_string_append (line, card_word (card, N_ ("over 99 %")));
  else
    g_string_append_printf (line, "%.0f %%", 100 * end->chance);
}

char *
card_chance_words (const Card *card, size_t shot, size_t most)
{
  const CardEnds *ends = card->ends != NULL ? &card->ends[shot] : NULL;
  if (ends == NULL || ends->n == 0 || most == 0)
    return NULL;
  size_t best = best_end (ends), n = 1;
  GString *line = g_string_new (NULL);
  add_end (card, line, &ends->ends[best]);
  for (size_t i = 0; i < ends->n && n < most; i++)
    if (i != best)
      {
        add_end (card, line, &ends->ends[i]);
        n++;
      }
  return g_string_free (line, FALSE);
}
