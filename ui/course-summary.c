// SPDX-License-Identifier: GPL-3.0-or-later
/* course-summary - rows come as the worker tells of holes; another bag or course makes all of them old. */
#include "course-summary.h"

#include "summary-job.h"

#include <glib/gi18n.h>

#include <string.h>

/* Less is not told to be lost: it would read 0.00. */
#define LEAST_LOST_STROKES 0.005

struct _HwCourseSummary
{
  GtkWidget parent_instance;
  HwDocument *document;
  HwWorker *worker;
  double strokes, open_strokes, lost[N_PLAN_LOSSES];
  int par;
  bool lacks_par; /* of a hole */
  size_t n_told, n_failed;

  GtkWidget *content, *work_button, *cancel_button;
  GtkProgressBar *progress;
  GtkLabel *total, *note;
  GtkListBox *list;
};

G_DEFINE_FINAL_TYPE (HwCourseSummary, hw_course_summary, GTK_TYPE_WIDGET)

static const char *
translated (const char *text)
{
  return _ (text);
}

/* "+0.31", "−0.06", "level". */
static char *
over_par_words (double strokes, int par)
{
  double over = strokes - par;
  if (par <= 0)
    return g_strdup ("");
  if (fabs (over) < LEAST_LOST_STROKES)
    return g_strdup (_ ("level"));
  return g_strdup_printf (over < 0 ? "−%.2f" : "+%.2f", fabs (over));
}

/* "+0.31" after what it is lost to. */
static void
append_loss (GString *words, const char *what, double strokes)
{
  if (fabs (strokes) >= LEAST_LOST_STROKES)
    g_string_append_printf (words, strokes < 0 ? "%s%s −%.2f" : "%s%s +%.2f", words->len > 0 ? ", " : "", what, fabs (strokes));
}

/* "length +0.10, sand +0.05, tee and fairway shots −0.12": all that the strokes over par are made of, or without a par those over an open hole. */
static char *
lost_words (double open_strokes, int par, const double lost[N_PLAN_LOSSES])
{
  GString *words = g_string_new (NULL);
  if (par > 0)
    append_loss (words, _ ("length"), open_strokes - par);
  for (int loss = 0; loss < N_PLAN_LOSSES; loss++)
    append_loss (words, plan_loss_words ((PlanLoss)loss, translated), lost[loss]);
  return g_string_free (words, FALSE);
}

/* ---- rows ---- */

static GtkWidget *
label_of (const char *text, const char *css, bool is_wrapped)
{
  GtkWidget *label = gtk_label_new (text);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), is_wrapped);
  if (!is_wrapped)
    gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  gtk_widget_add_css_class (label, css);
  return label;
}

/* Rows stand in playing order, whichever hole is solved first. */
static void
insert_row (HwCourseSummary *self, GtkWidget *row, size_t hole)
{
  GtkListBoxRow *other;
  int at = 0;
  g_object_set_data (G_OBJECT (row), "hole", GSIZE_TO_POINTER (hole));
  while ((other = gtk_list_box_get_row_at_index (self->list, at)) != NULL
         && GPOINTER_TO_SIZE (g_object_get_data (G_OBJECT (other), "hole")) < hole)
    at++;
  gtk_list_box_insert (self->list, row, at);
}

static void
add_row (HwCourseSummary *self, size_t hole, const char *name, const char *figures, const char *more)
{
  GtkWidget *row = gtk_list_box_row_new (), *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 1),
            *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 10);
  GtkWidget *title = label_of (name, "strong", false), *score = gtk_label_new (figures);
  gtk_widget_set_hexpand (title, TRUE);
  gtk_widget_add_css_class (score, "figures");
  gtk_widget_add_css_class (score, "strong");
  gtk_box_append (GTK_BOX (line), title);
  gtk_box_append (GTK_BOX (line), score);
  gtk_box_append (GTK_BOX (box), line);
  if (*more != '\0')
    gtk_box_append (GTK_BOX (box), label_of (more, "caption", true));
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), box);
  gtk_list_box_row_set_activatable (GTK_LIST_BOX_ROW (row), FALSE);
  g_autofree char *spoken = g_strdup_printf ("%s: %s. %s", name, figures, more);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken, -1);
  insert_row (self, row, hole);
}

static void
add_hole (HwCourseSummary *self, const HwHoleSummary *summary)
{
  double length_m;
  const HoleInfo *info = hw_document_peek_info (self->document, summary->i, &length_m);
  g_autofree char *number = g_strdup_printf ("%d", info != NULL && info->number > 0 ? info->number : (int)summary->i + 1);
  g_autofree char *name = g_strdup_printf ("%s %s", number, info != NULL && info->title != NULL ? info->title : "");
  if (summary->error != NULL)
    {
      self->n_failed++;
      add_row (self, summary->i, name, "–", summary->error);
      return;
    }
  g_autofree char *over = over_par_words (summary->strokes, summary->par),
                  *lost = lost_words (summary->losses.open_strokes, summary->par, summary->losses.lost);
  g_autofree char *figures = g_strdup_printf ("%.2f  %s", summary->strokes, over);
  g_autofree char *par = summary->par > 0 ? g_strdup_printf (_ ("par %d · %s"), summary->par, summary->club) : NULL;
  g_autofree char *more = g_strdup_printf (*lost != '\0' ? "%s · %s" : "%s%s", par != NULL ? par : summary->club, lost);
  add_row (self, summary->i, name, figures, more);
  self->strokes += summary->strokes;
  self->par += summary->par;
  self->lacks_par |= summary->par <= 0;
  self->open_strokes += summary->losses.open_strokes;
  for (int loss = 0; loss < N_PLAN_LOSSES; loss++)
    self->lost[loss] += summary->losses.lost[loss];
}

static void
show_total (HwCourseSummary *self)
{
  size_t n_planned = self->n_told - self->n_failed;
  if (n_planned == 0)
    {
      gtk_label_set_text (self->total, "");
      return;
    }
  int par = self->lacks_par ? 0 : self->par;
  g_autofree char *over = over_par_words (self->strokes, par), *lost = lost_words (self->open_strokes, par, self->lost);
  g_autofree char *holes = g_strdup_printf (ngettext ("%zu hole", "%zu holes", n_planned), n_planned);
  g_autoptr (GString) words = g_string_new (NULL);
  g_string_append_printf (words, _ ("Expected %.2f on %s"), self->strokes, holes);
  if (par > 0)
    g_string_append_printf (words, _ (", par %d (%s)"), par, over);
  if (*lost != '\0')
    g_string_append_printf (words, ": %s", lost);
  gtk_label_set_text (self->total, words->str);
}

/* ---- the work ---- */

/* One button takes the place of the other, and the keyboard stays with it. */
static void
show_work (HwCourseSummary *self)
{
  bool is_busy = hw_worker_is_busy (self->worker);
  bool has_focus = gtk_widget_has_focus (self->cancel_button) || gtk_widget_has_focus (self->work_button);
  gtk_widget_set_visible (GTK_WIDGET (self->progress), is_busy);
  gtk_widget_set_visible (self->cancel_button, is_busy);
  gtk_widget_set_visible (self->work_button, !is_busy);
  if (has_focus)
    gtk_widget_grab_focus (is_busy ? self->cancel_button : self->work_button);
}

static void
say (HwCourseSummary *self, const char *text)
{
  gtk_label_set_text (self->note, text);
  gtk_widget_set_visible (GTK_WIDGET (self->note), *text != '\0');
}

static gpointer
make_job (gpointer summary)
{
  HwCourseSummary *self = summary;
  return hw_summary_job_new (self->document);
}

static void
take_hole (gpointer summary, double share, gpointer draft)
{
  HwCourseSummary *self = summary;
  gtk_progress_bar_set_fraction (self->progress, share);
  if (draft == NULL)
    return;
  self->n_told++;
  add_hole (self, draft);
  hw_hole_summary_free (draft);
  show_total (self);
}

static void
take_end (gpointer summary, gpointer job)
{
  hw_summary_job_free (job);
  show_work (summary);
}

static const HwWork course_work
    = { make_job, hw_summary_job_work, take_hole, take_end, hw_summary_job_free, hw_hole_summary_free };

static void
forget (HwCourseSummary *self)
{
  hw_worker_stop (self->worker);
  for (GtkListBoxRow *row; (row = gtk_list_box_get_row_at_index (self->list, 0)) != NULL;)
    gtk_list_box_remove (self->list, GTK_WIDGET (row));
  memset (self->lost, 0, sizeof self->lost);
  self->strokes = self->open_strokes = 0;
  self->par = 0;
  self->lacks_par = false;
  self->n_told = self->n_failed = 0;
  gtk_progress_bar_set_fraction (self->progress, 0);
  show_total (self);
  say (self, "");
}

static void
on_work_cb (HwCourseSummary *self)
{
  Bag *bag = hw_document_get_bag (self->document);
  forget (self);
  if (bag == NULL || bag_n_clubs (bag) == 0)
    {
      say (self, _ ("There is no club in the bag; add one with Bag…."));
      return;
    }
  hw_worker_ask (self->worker, 0);
  show_work (self);
}

static void
on_cancel_cb (HwCourseSummary *self)
{
  hw_worker_stop (self->worker);
  show_work (self);
  say (self, _ ("Given up; what stands here is what was found until then."));
}

/* What was found is of another course. */
static void
on_course_changed_cb (HwCourseSummary *self)
{
  bool is_told = self->n_told > 0 || hw_worker_is_busy (self->worker);
  forget (self);
  show_work (self);
  if (is_told)
    say (self, _ ("The course is another; work it out again."));
}

void
hw_course_summary_set_document (HwCourseSummary *self, HwDocument *document)
{
  self->document = g_object_ref (document);
  g_signal_connect_object (document, "course-changed", G_CALLBACK (on_course_changed_cb), self, G_CONNECT_SWAPPED);
  forget (self);
  show_work (self);
}

static void
hw_course_summary_dispose (GObject *object)
{
  HwCourseSummary *self = HW_COURSE_SUMMARY (object);
  hw_worker_close (self->worker);
  gtk_widget_dispose_template (GTK_WIDGET (object), HW_TYPE_COURSE_SUMMARY);
  g_clear_object (&self->document);
  G_OBJECT_CLASS (hw_course_summary_parent_class)->dispose (object);
}

static void
hw_course_summary_finalize (GObject *object)
{
  hw_worker_free (HW_COURSE_SUMMARY (object)->worker);
  G_OBJECT_CLASS (hw_course_summary_parent_class)->finalize (object);
}

static void
hw_course_summary_class_init (HwCourseSummaryClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = hw_course_summary_dispose;
  G_OBJECT_CLASS (klass)->finalize = hw_course_summary_finalize;
  gtk_widget_class_set_template_from_resource (widget_class, "/org/holewright/Holewright/course-summary.ui");
  gtk_widget_class_bind_template_child (widget_class, HwCourseSummary, content);
  gtk_widget_class_bind_template_child (widget_class, HwCourseSummary, work_button);
  gtk_widget_class_bind_template_child (widget_class, HwCourseSummary, cancel_button);
  gtk_widget_class_bind_template_child (widget_class, HwCourseSummary, progress);
  gtk_widget_class_bind_template_child (widget_class, HwCourseSummary, total);
  gtk_widget_class_bind_template_child (widget_class, HwCourseSummary, note);
  gtk_widget_class_bind_template_child (widget_class, HwCourseSummary, list);
  gtk_widget_class_bind_template_callback (widget_class, on_work_cb);
  gtk_widget_class_bind_template_callback (widget_class, on_cancel_cb);
}

static void
hw_course_summary_init (HwCourseSummary *self)
{
  self->worker = hw_worker_new (&course_work, self);
  gtk_widget_init_template (GTK_WIDGET (self));
}
