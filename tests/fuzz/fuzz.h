// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * fuzz - one function per reader, in libFuzzer's shape. The ordinary tests run each over its seeds and a fixed number of
 * mutations of them (fuzz-main.c); a build with clang and -fsanitize=fuzzer runs it without end, see DEVELOPERS.md.
 */
#ifndef HOLEWRIGHT_FUZZ_H
#define HOLEWRIGHT_FUZZ_H

#include <stddef.h>
#include <stdint.h>

/* Feeds `data` to the reader and aborts when what comes out breaks a promise of its header. Always returns 0. */
int LLVMFuzzerTestOneInput (const uint8_t *data, size_t size);

#endif
