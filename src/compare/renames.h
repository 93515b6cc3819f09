/* renames.h - what is called otherwise and is the same. For compare.c alone. */
#ifndef BELL_COMPARE_RENAMES_H
#define BELL_COMPARE_RENAMES_H

#include "compare/compare.h"

/* Finds what was renamed, and calls it in the old parts as it is called now. */
void renames_find(struct comparison *comparison);

#endif
