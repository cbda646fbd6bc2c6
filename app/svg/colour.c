// SPDX-License-Identifier: GPL-3.0-or-later
/* Colours as drawings write them (CSS Color Module Level 3, section 4) in one form, "#rrggbb", so that equal colours are equal texts. */
#include "number-private.h"
#include "style-private.h"

#include <math.h>
#include <pango/pango.h>
#include <string.h>

static char *
print_colour (const int *channels)
{
  return g_strdup_printf ("#%02x%02x%02x", (unsigned)channels[0], (unsigned)channels[1], (unsigned)channels[2]);
}

/* "#rgb", "#rgba", "#rrggbb", "#rrggbbaa"; the last channel is left out. */
static char *
read_hex (const char *text)
{
  size_t length = strspn (text + 1, "0123456789abcdefABCDEF");
  int channels[3], width = length >= 6 ? 2 : 1;
  if (text[1 + length] != '\0' || (length != 3 && length != 4 && length != 6 && length != 8))
    return NULL;
  for (int i = 0; i < 3; i++)
    {
      int high = g_ascii_xdigit_value (text[1 + i * width]), low = g_ascii_xdigit_value (text[1 + i * width + width - 1]);
      channels[i] = high * 16 + low;
    }
  return print_colour (channels);
}

/* "rgb(1, 2, 3)", "rgb(10%, 20%, 30%)", also with a fourth number, which is left out. */
static char *
read_rgb (const char *text)
{
  int channels[3];
  text = strchr (text, '(') + 1;
  for (int i = 0; i < 3; i++)
    {
      double value;
      number_skip_space (&text);
      if (!number_scan (&text, &value))
        return NULL;
      if (*text == '%')
        {
          value *= 255.0 / 100;
          text++;
        }
      channels[i] = (int)lround (fmin (fmax (value, 0), 255));
      number_skip_comma (&text);
    }
  return print_colour (channels);
}

static char *
read_name (const char *text)
{
  PangoColor colour;
  if (!pango_color_parse (&colour, text))
    return NULL;
  const int channels[3] = { colour.red >> 8, colour.green >> 8, colour.blue >> 8 };
  return print_colour (channels);
}

/* One form for each colour; what is none comes back as written. NULL for "none". */
static char *
canonical_colour (const char *text, const char *current)
{
  char *read = NULL;
  if (g_ascii_strcasecmp (text, "currentcolor") == 0)
    text = current && g_ascii_strcasecmp (current, "currentcolor") != 0 ? current : "#000000";
  if (*text == '\0' || g_ascii_strcasecmp (text, "none") == 0 || g_ascii_strcasecmp (text, "transparent") == 0)
    return NULL;
  if (*text == '#')
    read = read_hex (text);
  else if (g_ascii_strncasecmp (text, "rgb(", 4) == 0 || g_ascii_strncasecmp (text, "rgba(", 5) == 0)
    read = read_rgb (text);
  else if (g_ascii_isalpha (*text))
    read = read_name (text);
  return read ? read : g_strdup (text);
}

char *
style_colour (const Style *style, bool *is_stroke)
{
  const char *fill = style->values[PROPERTY_FILL], *stroke = style->values[PROPERTY_STROKE];
  const char *opacity = style->values[PROPERTY_FILL_OPACITY], *current = style->values[PROPERTY_COLOR];
  double share = 1;
  bool is_clear = opacity && number_read (opacity, &share) && share <= 0;
  /* SVG 1.1, sections 11.3 and 11.4: black unless said otherwise, and no line. */
  char *colour = is_clear ? NULL : canonical_colour (fill ? fill : "#000000", current);
  *is_stroke = false;
  if (colour)
    return colour;
  colour = stroke ? canonical_colour (stroke, current) : NULL;
  *is_stroke = colour != NULL;
  return colour ? colour : g_strdup ("none");
}
