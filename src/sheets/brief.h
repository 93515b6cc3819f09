/* brief.h - what the head coach's page says about each athlete in a week. Nothing on it comes from a private file,
 * and nothing reveals anybody's health: that is left to the coach's own `check`. */
#ifndef BELL_SHEETS_BRIEF_H
#define BELL_SHEETS_BRIEF_H

#include "sheets/request.h"

/* The briefs of those who are in a camp in the week of MONDAY, in the order of their declaration; *COUNT of them. */
const struct brief *sheet_briefs(const struct sheet_origin *origin, int monday, size_t *count);

#endif
