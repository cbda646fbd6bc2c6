// SPDX-License-Identifier: GPL-3.0-or-later
/* empty-window - the peer of the first window: a GTK application that shows an empty window and says when its first frame was drawn. */
#include <gtk/gtk.h>

#include <stdio.h>

static void
on_after_paint_cb (GdkFrameClock *clock, gpointer user_data)
{
  fprintf (stderr, "trace window at %" G_GINT64_FORMAT " us\n", g_get_monotonic_time ());
}

static void
on_activate_cb (GApplication *application, gpointer user_data)
{
  GtkWidget *window = gtk_application_window_new (GTK_APPLICATION (application));
  gtk_window_set_default_size (GTK_WINDOW (window), 1280, 860);
  gtk_widget_realize (window);
  g_signal_connect (gtk_widget_get_frame_clock (window), "after-paint", G_CALLBACK (on_after_paint_cb), NULL);
  gtk_window_present (GTK_WINDOW (window));
}

int
main (int argc, char **argv)
{
  g_autoptr (GtkApplication) application = gtk_application_new ("org.holewright.EmptyWindow", G_APPLICATION_NON_UNIQUE);
  g_signal_connect (application, "activate", G_CALLBACK (on_activate_cb), NULL);
  return g_application_run (G_APPLICATION (application), argc, argv);
}
