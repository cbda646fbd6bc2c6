// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * appearance - one provider holds the palette (light.css or dark.css), one the shapes (style.css), which name colours only.
 *
 * The desktop's wish comes from the settings portal ("color-scheme", 1 = dark), asked asynchronously; without a portal GTK's own settings
 * decide. A theme that is dark by itself (Adwaita:dark, HighContrastInverse) is told by its text colour, one of high contrast by its edges;
 * contrast.css then makes edges and small words as plain as the rest.
 */
#include "appearance.h"

/* Text of 10 points at 96 dots per inch. */
#define USUAL_TEXT_PX (10.0 * 96 / 72)
#define RESOURCES "/org/holewright/Holewright/"

/* Edges that stand out from their ground at least this much are a theme of high contrast: GTK's own have 2.3 and 4.1, its usual themes 1.4 and
 * 1.6, by the contrast ratio of WCAG 2.1 (relative luminance with a plain exponent of 2.2). */
#define CONTRAST_OF_EDGES 2.0

typedef struct
{
  HwSettings *settings;
  GtkSettings *gtk;
  GtkCssProvider *palette, *contrast;
  const char *loaded;          /* resource in `palette` */
  bool is_contrasting;         /* contrast.css is in force */
  gboolean theme_prefers_dark; /* what GTK's settings said at the start */
  gboolean desktop_prefers_dark;
  GDBusProxy *portal;
  bool is_applying;
} Appearance;

static double
luminance (const GdkRGBA *colour)
{
  /* Rec. 709 weights; the threshold between dark and light text needs no linearisation. */
  return 0.2126 * (double)colour->red + 0.7152 * (double)colour->green + 0.0722 * (double)colour->blue;
}

/* Does the theme in force write light text? Asked of a style context outside the program's own palette. */
static bool
theme_is_dark (void)
{
  GdkRGBA text = { 0, 0, 0, 1 };
  GtkWidget *probe = g_object_ref_sink (gtk_label_new (NULL));
  gtk_style_context_lookup_color (gtk_widget_get_style_context (probe), "theme_fg_color", &text);
  g_object_unref (probe);
  return luminance (&text) > 0.5;
}

static double
relative_luminance (const GdkRGBA *colour)
{
  GdkRGBA linear = { powf (colour->red, 2.2f), powf (colour->green, 2.2f), powf (colour->blue, 2.2f), 1 };
  return luminance (&linear);
}

/* Does the theme in force draw edges that stand out? */
static bool
theme_is_contrasting (void)
{
  GdkRGBA edge = { 0, 0, 0, 1 }, ground = { 0, 0, 0, 1 };
  GtkWidget *probe = g_object_ref_sink (gtk_label_new (NULL));
  GtkStyleContext *context = gtk_widget_get_style_context (probe);
  bool has_both = gtk_style_context_lookup_color (context, "borders", &edge)
                  && gtk_style_context_lookup_color (context, "theme_bg_color", &ground);
  g_object_unref (probe);
  /* 0.05: the flare of WCAG's ratio */
  double a = relative_luminance (&edge) + 0.05, b = relative_luminance (&ground) + 0.05;
  return has_both && fmax (a, b) / fmin (a, b) >= CONTRAST_OF_EDGES;
}

static void
apply (Appearance *self)
{
  if (self->is_applying)
    return;
  self->is_applying = true;
  HwStyle style = hw_settings_get_style (self->settings);
  gboolean dark
      = style == HW_STYLE_DARK || (style == HW_STYLE_FOLLOW && (self->desktop_prefers_dark || self->theme_prefers_dark));
  gboolean dark_before = FALSE;
  g_object_get (self->gtk, "gtk-application-prefer-dark-theme", &dark_before, NULL);
  /* Setting it makes GTK read its theme anew, which takes longer than everything else here. */
  if (dark != dark_before)
    g_object_set (self->gtk, "gtk-application-prefer-dark-theme", dark, NULL);
  const char *palette = theme_is_dark () ? RESOURCES "dark.css" : RESOURCES "light.css";
  if (g_strcmp0 (palette, self->loaded) != 0)
    gtk_css_provider_load_from_resource (self->palette, palette);
  self->loaded = palette;
  bool is_contrasting = theme_is_contrasting ();
  if (is_contrasting && !self->is_contrasting)
    gtk_css_provider_load_from_resource (self->contrast, RESOURCES "contrast.css");
  else if (!is_contrasting && self->is_contrasting)
    gtk_css_provider_load_from_data (self->contrast, "", 0);
  self->is_contrasting = is_contrasting;
  self->is_applying = false;
}

static void
take_desktop_wish (Appearance *self, GVariant *value)
{
  g_autoptr (GVariant) inner = g_variant_ref (value);
  while (g_variant_is_of_type (inner, G_VARIANT_TYPE_VARIANT))
    {
      GVariant *deeper = g_variant_get_variant (inner);
      g_variant_unref (inner);
      inner = deeper;
    }
  if (!g_variant_is_of_type (inner, G_VARIANT_TYPE_UINT32))
    return;
  self->desktop_prefers_dark = g_variant_get_uint32 (inner) == 1;
  apply (self);
}

static void
on_portal_signal_cb (GDBusProxy *proxy, const char *sender, const char *signal, GVariant *parameters, Appearance *self)
{
  if (g_strcmp0 (signal, "SettingChanged") != 0 || !g_variant_is_of_type (parameters, G_VARIANT_TYPE ("(ssv)")))
    return;
  const char *group, *key;
  g_autoptr (GVariant) value = NULL;
  g_variant_get (parameters, "(&s&sv)", &group, &key, &value);
  if (g_strcmp0 (group, "org.freedesktop.appearance") == 0 && g_strcmp0 (key, "color-scheme") == 0)
    take_desktop_wish (self, value);
}

static void
on_scheme_read_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  /* A desktop without this setting answers with an error: then GTK's own settings stand. */
  g_autoptr (GVariant) answer = g_dbus_proxy_call_finish (G_DBUS_PROXY (source), result, NULL);
  if (answer == NULL)
    return;
  g_autoptr (GVariant) value = g_variant_get_child_value (answer, 0);
  take_desktop_wish (user_data, value);
}

static void
on_portal_ready_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  Appearance *self = user_data;
  self->portal = g_dbus_proxy_new_for_bus_finish (result, NULL);
  if (self->portal == NULL)
    return;
  g_signal_connect (self->portal, "g-signal", G_CALLBACK (on_portal_signal_cb), self);
  g_dbus_proxy_call (self->portal, "Read", g_variant_new ("(ss)", "org.freedesktop.appearance", "color-scheme"),
                     G_DBUS_CALL_FLAGS_NO_AUTO_START, -1, NULL, on_scheme_read_cb, self);
}

static void
appearance_free (gpointer data)
{
  Appearance *self = data;
  g_clear_object (&self->portal);
  g_object_unref (self->palette);
  g_object_unref (self->contrast);
  g_free (self);
}

void
hw_appearance_start (GdkDisplay *display, HwSettings *settings)
{
  Appearance *self = g_new0 (Appearance, 1);
  self->settings = settings;
  self->gtk = gtk_settings_get_for_display (display);
  self->palette = gtk_css_provider_new ();
  self->contrast = gtk_css_provider_new ();
  g_object_get (self->gtk, "gtk-application-prefer-dark-theme", &self->theme_prefers_dark, NULL);
  g_object_set_data_full (G_OBJECT (settings), "hw-appearance", self, appearance_free);

  g_autoptr (GtkCssProvider) shapes = gtk_css_provider_new ();
  gtk_css_provider_load_from_resource (shapes, RESOURCES "style.css");
  gtk_style_context_add_provider_for_display (display, GTK_STYLE_PROVIDER (self->palette),
                                              GTK_STYLE_PROVIDER_PRIORITY_APPLICATION);
  gtk_style_context_add_provider_for_display (display, GTK_STYLE_PROVIDER (shapes), GTK_STYLE_PROVIDER_PRIORITY_APPLICATION);
  gtk_style_context_add_provider_for_display (display, GTK_STYLE_PROVIDER (self->contrast),
                                              GTK_STYLE_PROVIDER_PRIORITY_APPLICATION + 1);
  apply (self);
  g_signal_connect_swapped (settings, "changed", G_CALLBACK (apply), self);
  g_signal_connect_swapped (self->gtk, "notify::gtk-theme-name", G_CALLBACK (apply), self);
  g_dbus_proxy_new_for_bus (G_BUS_TYPE_SESSION,
                            G_DBUS_PROXY_FLAGS_DO_NOT_LOAD_PROPERTIES | G_DBUS_PROXY_FLAGS_DO_NOT_AUTO_START, NULL,
                            "org.freedesktop.portal.Desktop", "/org/freedesktop/portal/desktop",
                            "org.freedesktop.portal.Settings", NULL, on_portal_ready_cb, self);
}

bool
hw_appearance_is_dark (GtkWidget *widget)
{
  GdkRGBA text = { 0, 0, 0, 1 };
  gtk_style_context_lookup_color (gtk_widget_get_style_context (widget), "theme_fg_color", &text);
  return luminance (&text) > 0.5;
}

double
hw_text_scale (GtkWidget *widget)
{
  PangoContext *context = gtk_widget_get_pango_context (widget);
  const PangoFontDescription *font = pango_context_get_font_description (context);
  double size = pango_font_description_get_size (font) / (double)PANGO_SCALE;
  if (!pango_font_description_get_size_is_absolute (font))
    size *= pango_cairo_context_get_resolution (context) / 72;
  return fmax (1, size / USUAL_TEXT_PX);
}
