// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * A field blurred by a round normal: rows, then columns. A wide blur is smooth, so that it is worked out on every second, third, ... cell only, and a cubic spline
 * stands for it between; the spline's own filter is part of the kernel. A field is taken to run straight from cell to cell.
 */
#include "solve-private.h"

#include <math.h>
#include <string.h>

/* A blur is known well enough from nodes this share of its deviation apart: the spline is then off by 1e-4 of what the field varies. */
#define STEPS_PER_SD 2.2
#define MOST_STEP 8
/* Kernels end where they are less than this of their middle. */
#define KERNEL_END 1e-5f
/* Deviations out to which a kernel is looked at. */
#define MOST_SDS 4.6
/* The spline's filter: its pole is sqrt (3) - 2, and this many of its terms count. */
#define POLE (-0.26794919243112270)
#define N_POLES 8

/* No pattern is wider than this many cells; a wider one is cut. */
#define MOST_SD 64.0
#define LEAST_SD 0.01

/* One vector of a machine's registers, loaded and stored anywhere. */
typedef float Lane __attribute__ ((vector_size (32), aligned (4), may_alias));
#define LANES 8

/* Twice integrated standard normal: u Phi (u) + phi (u). */
static double
twice_integrated (double u)
{
  return u * normal_below (u) + exp (-0.5 * u * u) / sqrt (2 * PI);
}

/* Weights of the nodes 0 .. reach cells away under a normal of sd cells: the normal over the tent of a field that runs straight between nodes. */
static void
make_taps (double sd, int reach, float *taps)
{
  double before = twice_integrated (-1 / sd), here = twice_integrated (0);
  for (int n = 0; n <= reach; n++)
    {
      double after = twice_integrated ((n + 1) / sd);
      taps[n] = (float)(sd * (after - 2 * here + before));
      before = here;
      here = after;
    }
}

static int
step_of (double sd)
{
  return (int)fmax (1, fmin (MOST_STEP, floor (sd / STEPS_PER_SD)));
}

/* Half width of the kernel; the kernel itself from -half to half. */
static int
make_kernel (double sd, int step, BlurRoom *room)
{
  int reach = (int)ceil (MOST_SDS * sd) + 1, half = reach + N_POLES * step;
  g_assert ((size_t)(2 * half + 1) <= room->n_kernel);
  float *kernel = room->kernel, *taps = room->taps, poles[N_POLES + 1];
  make_taps (sd, reach, taps);
  for (int k = 0; k <= N_POLES; k++)
    poles[k] = (float)(k == 0 ? -6 * POLE / (1 - POLE * POLE) : poles[k - 1] * POLE);
  int end = 0;
  double total = 0;
  for (int n = 0; n <= half; n++)
    {
      float sum = 0;
      for (int k = -N_POLES; k <= N_POLES; k++)
        if (abs (n - k * step) <= reach)
          sum += poles[abs (k)] * taps[abs (n - k * step)];
      kernel[half + n] = sum;
      if (fabsf (sum) >= KERNEL_END * fabsf (kernel[half]))
        end = n;
    }
  for (int n = 0; n <= end; n++)
    total += n == 0 ? kernel[half] : 2 * kernel[half + n];
  for (int n = 0; n <= end; n++)
    taps[n] = (float)(kernel[half + n] / total);
  for (int n = -end; n <= end; n++)
    kernel[n + end] = taps[abs (n)];
  return end;
}

/* to[i] += weight * from[i] */
__attribute__ ((target_clones ("avx2", "default"))) static void
add_weighted (float *to, const float *from, float weight, int n)
{
  int i = 0;
  for (; i + LANES <= n; i += LANES)
    {
      Lane sum = *(const Lane *)(const void *)(to + i);
      sum += weight * *(const Lane *)(const void *)(from + i);
      *(Lane *)(void *)(to + i) = sum;
    }
  for (; i < n; i++)
    to[i] += weight * from[i];
}

static int
clamp (int i, int n)
{
  return i < 0 ? 0 : (i >= n ? n - 1 : i);
}

static int
n_nodes (int n, int step)
{
  return (n - 1 + step - 1) / step + 1 + 2 * BLUR_EDGE;
}

/* Beyond an edge the field is as at it. `line` is parted into `step` runs of every step-th cell, so that a row's sums run over neighbours. */
static void
part_line (const float *field, int nx, int step, int first, int length, float *line)
{
  for (int phase = 0; phase < step; phase++, line += length)
    {
      /* The stretch within the field, and what lies before and behind it. */
      int x = first + phase, before = x < 0 ? (-x + step - 1) / step : 0, i = 0;
      for (; i < before && i < length; i++)
        line[i] = field[0];
      for (x += i * step; i < length && x < nx; i++, x += step)
        line[i] = field[x];
      for (; i < length; i++)
        line[i] = field[nx - 1];
    }
}

static void
blur_row (const float *field, int nx, int step, int half, const float *kernel, float *line, int n_out, float *out)
{
  int length = n_out + (2 * half) / step + 2;
  part_line (field, nx, step, -BLUR_EDGE * step - half, length, line);
  memset (out, 0, (size_t)n_out * sizeof *out);
  for (int n = 0; n <= 2 * half; n++)
    add_weighted (out, line + n % step * length + n / step, kernel[n], n_out);
}

void
blur_make (const SolveGrid *grid, const float *field, double sd_m, BlurRoom *room, Blur *blur)
{
  double sd = fmax (LEAST_SD, fmin (MOST_SD, sd_m / grid->cell_m));
  int step = step_of (sd), half = make_kernel (sd, step, room);
  int nx = n_nodes (grid->nx, step), ny = n_nodes (grid->ny, step);
  blur->per_cell = 1 / (float)step;
  blur->nx = nx;
  blur->ny = ny;
  for (int y = 0; y < grid->ny; y++)
    blur_row (field + (size_t)y * (size_t)grid->nx, grid->nx, step, half, room->kernel, room->line, nx,
              room->rows + (size_t)y * (size_t)nx);
  for (int y = 0; y < ny; y++)
    {
      float *out = blur->coefficients + (size_t)y * (size_t)nx;
      memset (out, 0, (size_t)nx * sizeof *out);
      for (int n = -half; n <= half; n++)
        add_weighted (out, room->rows + (size_t)clamp ((y - BLUR_EDGE) * step + n, grid->ny) * (size_t)nx,
                      room->kernel[n + half], nx);
    }
}

/* ---- room ---- */

size_t
blur_size (const SolveGrid *grid)
{
  return (size_t)n_nodes (grid->nx, 1) * (size_t)n_nodes (grid->ny, 1) + LANES;
}

void
blur_room_init (BlurRoom *room, const SolveGrid *grid)
{
  room->n_kernel = 2 * (size_t)(MOST_SDS * MOST_SD + 2 + N_POLES * MOST_STEP) + 1;
  room->kernel = g_new (float, room->n_kernel);
  room->taps = g_new (float, room->n_kernel);
  room->rows = g_new (float, (size_t)n_nodes (grid->nx, 1) * (size_t)grid->ny + LANES);
  room->line = g_new (float, (size_t)n_nodes (grid->nx, 1) + room->n_kernel + 10 * MOST_STEP + LANES);
}

void
blur_room_clear (BlurRoom *room)
{
  g_free (room->kernel);
  g_free (room->taps);
  g_free (room->rows);
  g_free (room->line);
}

/* ---- looking up ---- */

typedef float Four __attribute__ ((vector_size (16), aligned (4), may_alias));

/* The cubic B-spline's four weights at a share t between two nodes. */
static inline void
spline_weights (float t, float w[4])
{
  float u = 1 - t;
  w[0] = u * u * u * (1 / 6.0f);
  w[3] = t * t * t * (1 / 6.0f);
  w[1] = 2 / 3.0f - 0.5f * t * t * (2 - t);
  w[2] = 1 - w[0] - w[1] - w[3];
}

static inline float
within (float value, float low, float high)
{
  return value < low ? low : (value > high ? high : value);
}

float
blur_at (const Blur *blur, float x, float y)
{
  float fx = within (x * blur->per_cell + BLUR_EDGE, 1, (float)(blur->nx - 3));
  float fy = within (y * blur->per_cell + BLUR_EDGE, 1, (float)(blur->ny - 3));
  int i = (int)fx, j = (int)fy;
  float wx[4], wy[4];
  spline_weights (fx - (float)i, wx);
  spline_weights (fy - (float)j, wy);
  const float *row = blur->coefficients + (j - 1) * blur->nx + (i - 1);
  Four sum = wy[0] * *(const Four *)(const void *)row;
  sum += wy[1] * *(const Four *)(const void *)(row + blur->nx);
  sum += wy[2] * *(const Four *)(const void *)(row + 2 * blur->nx);
  sum += wy[3] * *(const Four *)(const void *)(row + 3 * blur->nx);
  return sum[0] * wx[0] + sum[1] * wx[1] + sum[2] * wx[2] + sum[3] * wx[3];
}
