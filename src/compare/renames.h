/* renames.h - what has a new name and is otherwise the same. For compare.c alone. */
#ifndef BELL_COMPARE_RENAMES_H
#define BELL_COMPARE_RENAMES_H

#include "compare/compare.h"

/* Finds what was renamed, and gives it its new name in the old parts. */
void renames_find(struct comparison *comparison);

#endif
