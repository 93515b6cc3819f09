/* notation.h - figures and sets as a plan writes them, so that it can read them again. Texts live in the given
 * arena. */
#ifndef BELL_EXPORT_NOTATION_H
#define BELL_EXPORT_NOTATION_H

#include "base/text.h"
#include "model/quantity.h"

struct item;
struct load;
struct set_run;

/* "82.5", "8-10". */
const char *notation_range(struct arena *arena, struct range range);
/* "1:30", in minutes and seconds. */
const char *notation_time(struct arena *arena, int seconds);
/* "53 min", or minutes and seconds if the minutes are not whole. */
const char *notation_length(struct arena *arena, int seconds);

/* Adds how much one set of RUN is: "hold 25 s", "4 orthodox + 4 southpaw". */
void notation_amounts(struct arena *arena, const struct item *item, const struct set_run *run, struct text *out);

/* A load as it is planned, or as it would be logged: one figure of a range, and no share of body mass, because that
 * is not what was lifted. Never the kilograms of such a share, which would reveal what somebody weighs. */
enum load_use { LOAD_PLANNED, LOAD_LIFTED };

/* Adds " @ 60 kg"; nothing if there is no such load. */
void notation_load(struct arena *arena, const struct load *load, enum load_use use, struct text *out);

#endif
