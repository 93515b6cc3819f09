/* record.h - closed days in the notation, as `bellsheet close` keeps them: what was planned, worked out. */
#ifndef BELL_EXPORT_RECORD_H
#define BELL_EXPORT_RECORD_H

#include "base/text.h"
#include "model/occasion.h"

struct programme;

/* Adds a stanza for OCCASION to OUT. It tells what a card tells and no more: of body mass its share, and nothing of why
 * anything is done otherwise. */
void record_occasion(struct arena *arena, const struct occasion *occasion, struct text *out);

#endif
