// SPDX-License-Identifier: GPL-3.0-or-later
/* The main of every Check suite: TAP to standard output under Meson, Check's totals to standard error always. */
#include "suite.h"

#include <stdio.h>
#include <stdlib.h>

int
main (void)
{
  SRunner *runner = srunner_create (suite_make ());
  srunner_set_tap (runner, "-");
  srunner_run_all (runner, CK_SILENT);
  int failed = srunner_ntests_failed (runner);
  int run = srunner_ntests_run (runner);
  fprintf (stderr, "%d%%: Checks: %d, Failures: %d, Errors: 0\n", run > 0 ? 100 * (run - failed) / run : 0, run, failed);
  srunner_free (runner);
  return failed == 0 && run > 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
