// SPDX-License-Identifier: GPL-3.0-or-later
/* Findings one by one and in lists. */
#include "findings-private.h"

void
finding_free (Finding *finding)
{
  if (!finding)
    return;
  g_free (finding->what);
  g_free (finding->mend);
  g_free (finding);
}

GPtrArray *
findings_new (void)
{
  return g_ptr_array_new_with_free_func ((GDestroyNotify)finding_free);
}

static Finding *
add (GPtrArray *findings, FindingSeverity severity, unsigned line, char *what, const char *mend)
{
  Finding *finding = g_new0 (Finding, 1);
  finding->severity = severity;
  finding->line = line;
  finding->what = what;
  finding->mend = g_strdup (mend);
  finding->part = -1;
  g_ptr_array_add (findings, finding);
  return finding;
}

Finding *
findings_add (GPtrArray *findings, FindingSeverity severity, unsigned line, char *what, const char *mend)
{
  if (findings->len < MOST_FINDINGS)
    return add (findings, severity, line, what, mend);
  if (findings->len == MOST_FINDINGS)
    add (findings, severity, line, g_strdup ("from here on more is suspect than is told"), "mend what was told and look again");
  g_free (what);
  return NULL;
}
