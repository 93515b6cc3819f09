/* shift.h - places in files some of whose lines have moved since: what was found in an earlier compile then points to where
 * the same bytes stand now. */
#ifndef BELL_SOURCE_SHIFT_H
#define BELL_SOURCE_SHIFT_H

#include "source/diag.h"

/* Where COUNT places of a file were and where they are now, in order; the first is at 0. What stood behind a place, up to
 * the next, still stands as far behind it. COUNT is 0 where nothing has moved. */
struct file_shift {
    const uint32_t *before, *now;
    size_t count;
};

/* Of all files, by number. */
struct shift {
    const struct file_shift *files;
    size_t count;
};

/* Which of COUNT parts that start at STARTS, the first at 0, the byte OFFSET stands in. */
size_t part_at(const uint32_t *starts, size_t count, uint32_t offset);

/* Moves SPAN, or all places of FINDING but those of whom it is about, as SHIFT says. Nothing is allocated. */
void span_move(const struct shift *shift, struct span *span);
void finding_move(const struct shift *shift, struct finding *finding);

/* The same for a copy that shares its notes with the FINDING that it was made of: they get places of their own. */
void finding_move_copy(struct arena *arena, const struct shift *shift, struct finding *finding);

#endif
