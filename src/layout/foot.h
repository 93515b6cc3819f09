/* foot.h - the small print at a sheet's foot: kit, how to read the marks, the usual cautions. */
#ifndef BELL_LAYOUT_FOOT_H
#define BELL_LAYOUT_FOOT_H

#include "layout/press.h"

struct best;
struct occasion;

/* Everything that COUNT occasions need, each once: "landmine", "barbell", "2 × kettlebell". Returns how many. */
size_t foot_kit_list(struct arena *arena, const struct occasion *const *occasions, size_t count, const char ***kit);
/* All of it in a row: "landmine, barbell, 2 × kettlebell"; "" if nothing. */
const char *foot_kit(struct arena *arena, const struct occasion *const *occasions, size_t count);

/* Which marks the occasions make use of. */
struct foot_marks {
    bool stances, tempo;
    bool discs[2];                /* by enum mass_unit */
    const struct best *estimated; /* one that a percentage was taken from, or NULL */
};
struct foot_marks foot_marks_used(const struct occasion *const *occasions, size_t count);

/* How to read the marks that are USED, each drawn once; lines of WIDTH. */
struct box *foot_key(const struct press *press, struct foot_marks used, struct face face,
                     double width);

/* When it is, how long and how far from the bout: "17:30 · 53 min · 10 weeks out", as far as it is known. */
const char *foot_when(struct arena *arena, const struct occasion *occasion);

/* The line for work after a bout whose result or medical check has not been entered, or "". */
const char *foot_provisional(const struct arena *arena, const struct occasion *occasion);

/* The usual cautions, as on every sheet. Common practice; the rules that count are the commission's. */
const char *foot_cautions(struct arena *arena);

/* "Harbour final · version 3f9c2a1", and right of it "page 1 of 2": as wide as WIDTH. A long name is broken. */
struct box *foot_last_line(const struct press *press, const char *plan, const char *version,
                           int page, int pages, double width, struct face face);

/* The line for who is under 18 on the day of the occasion, or "". */
const char *foot_minor(struct arena *arena, const struct occasion *occasion);

/* The line for who must leave something out, or do without contact, on the day of the occasion as it is known TODAY; or
 * "". It is one line for all, so that it reveals to nobody what is the matter. */
const char *foot_restricted(struct arena *arena, const struct occasion *occasion, int today);

#endif
