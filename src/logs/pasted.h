/* pasted.h - logs that came by message: what mail and messengers put before their lines or took from them. */
#ifndef BELL_LOGS_PASTED_H
#define BELL_LOGS_PASTED_H

#include <stddef.h>

#include "base/text.h"

struct phrasebook;

/* TEXT, LENGTH bytes, with the marks of a quoted message removed and what belongs below a log or results indented again,
 * line for line. In ARENA. */
struct text pasted_restore(struct arena *arena, const struct phrasebook *phrases, const char *text, size_t length);

#endif
