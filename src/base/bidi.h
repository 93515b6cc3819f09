/* bidi.h - right-to-left words among others, as they are shown.
 *
 * Without isolation a figure behind an Arabic or Hebrew name is drawn before it, and may come to stand beside somebody
 * else's. Plans may not contain the characters that isolate (unicode_fault), so they are put in only where a text is shown. */
#ifndef BELL_BASE_BIDI_H
#define BELL_BASE_BIDI_H

#include <stdbool.h>

#include "base/arena.h"

/* TEXT with each run of right-to-left words between U+2068 and U+2069 (Unicode Standard Annex 9). TEXT itself if it has
 * none, or no word of the other direction: a cue in Arabic is a paragraph of its own. What stands in `backticks` is meant to
 * be copied into a plan and is left as it is. */
const char *bidi_isolated(struct arena *arena, const char *text) __attribute__((returns_nonnull));

/* Whether TEXT holds what bidi_isolated puts in: it then runs from left to right, whoever's name it begins with. */
bool bidi_is_isolated(const char *text);

#endif
