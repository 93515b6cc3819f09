/* ramp_words.h - the warm-up sets before a session's first heavy lift, in words. */
#ifndef BELL_LAYOUT_RAMP_WORDS_H
#define BELL_LAYOUT_RAMP_WORDS_H

#include "base/arena.h"

struct item;
struct occasion;

/* "Warm up: 5 × 17.5 kg (15 kg bar), 3 × 25 kg" of ITEM, one of OCCASION's: the bar is named if it is not that of the working
 * sets. "" where ITEM has none. */
const char *ramp_words(struct arena *arena, const struct occasion *occasion, const struct item *item);

#endif
