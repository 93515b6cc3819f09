/* diff.h - what changed between two texts, line by line. */
#ifndef BELL_BASE_DIFF_H
#define BELL_BASE_DIFF_H

#include <stddef.h>

#include "base/text.h"

/* Adds to OUT how to make NEW from OLD, in the unified format that patch(1) reads, with three lines of context and NAME
 * as the file on both sides. Adds nothing where they are equal. */
void diff_unified(const char *name, const char *old, size_t old_length, const char *new_text,
                  size_t new_length, struct text *out);

#endif
