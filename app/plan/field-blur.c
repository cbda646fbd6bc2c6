// SPDX-License-Identifier: GPL-3.0-or-later
/* A field blurred by the round part of the smallest pattern. */
#include "field-private.h"

#include <math.h>
#include <string.h>

typedef float Floats __attribute__ ((vector_size (16), aligned (4)));
/* Deviations that the blur reaches; the rest is 1 in 10 000. */
#define KERNEL_SDS 4.0

/* to[x] = sum over k of weights[|k|] from[x + k * stride], x in whole vectors. */
static void
add_taps (float *to, const float *from, ptrdiff_t stride, const float *weights, int n_taps, int n)
{
  for (int x = 0; x < n; x += LANES)
    {
      Floats sum = *(const Floats *)(from + x) * weights[0];
      for (int k = 1; k < n_taps; k++)
        sum += (*(const Floats *)(from + x + k * stride) + *(const Floats *)(from + x - k * stride)) * weights[k];
      *(Floats *)(to + x) = sum;
    }
}

/* Gaussian, one axis after the other; beyond its edge the field goes on as at the edge. */
static void
blur (const Field *field, float *values, const float *weights, int n_taps)
{
  int pad = (n_taps + LANES - 1) / LANES * LANES, width = field->pitch + 2 * pad, height = field->n_along + 2 * n_taps;
  g_autofree float *padded = g_new0 (float, (gsize)width *(gsize)height);
  g_autofree float *row = g_new (float, (gsize)width);
  for (int j = 0; j < field->n_along; j++)
    {
      float *from = values + j * field->pitch, last = from[field->n_across - 1];
      memcpy (row + pad, from, sizeof (float) * (size_t)field->n_across);
      for (int x = 0; x < pad; x++)
        row[x] = from[0];
      for (int x = pad + field->n_across; x < width; x++)
        row[x] = last;
      add_taps (padded + (j + n_taps) * width + pad, row + pad, 1, weights, n_taps, field->pitch);
    }
  for (int j = 0; j < n_taps; j++)
    {
      memcpy (padded + j * width, padded + n_taps * width, sizeof (float) * (size_t)width);
      memcpy (padded + (height - 1 - j) * width, padded + (height - 1 - n_taps) * width, sizeof (float) * (size_t)width);
    }
  for (int j = 0; j < field->n_along; j++)
    add_taps (values + j * field->pitch, padded + (j + n_taps) * width + pad, width, weights, n_taps, field->pitch);
}

void
field_blur (Field *field)
{
  double sd = field->blur_m / field->step_m;
  int n_taps = 1 + (int)ceil (KERNEL_SDS * sd);
  if (n_taps <= 1)
    return;
  g_autofree float *weights = g_new (float, (gsize)n_taps);
  double sum = 0;
  for (int k = 0; k < n_taps; k++)
    sum += (k == 0 ? 1 : 2) * exp (-0.5 * k * k / (sd * sd));
  for (int k = 0; k < n_taps; k++)
    weights[k] = (float)(exp (-0.5 * k * k / (sd * sd)) / sum);
  blur (field, field->strokes, weights, n_taps);
  if (field->again != NULL)
    blur (field, field->again, weights, n_taps);
}
