/* record.h - closed days in the notation, as `bellsheet close` keeps them: what was planned, worked out. */
#ifndef BELL_EXPORT_RECORD_H
#define BELL_EXPORT_RECORD_H

#include "base/text.h"
#include "model/occasion.h"

struct programme;

/* Adds a stanza for OCCASION to OUT. It says what a card says and no more: of body mass only the share, and not why
 * anything is done differently. */
void record_occasion(struct arena *arena, const struct occasion *occasion, struct text *out);

#endif
