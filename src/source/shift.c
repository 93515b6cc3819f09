#include "source/shift.h"

#include <string.h>

size_t part_at(const uint32_t *starts, size_t count, uint32_t offset)
{
    size_t low = 0, high = count;
    while (high - low > 1) {
        size_t middle = (low + high) / 2;
        if (starts[middle] <= offset)
            low = middle;
        else
            high = middle;
    }
    return low;
}

void span_move(const struct shift *shift, struct span *span)
{
    if (span->file >= shift->count || !shift->files[span->file].count)
        return;
    const struct file_shift *file = &shift->files[span->file];
    size_t part = part_at(file->before, file->count, span->start);
    uint32_t by = file->now[part] - file->before[part]; /* wraps where it moves back, and so do the sums */
    span->start += by;
    span->end += by;
}

void finding_move(const struct shift *shift, struct finding *finding)
{
    span_move(shift, &finding->span);
    if (finding->replacement)
        span_move(shift, &finding->fix);
    for (size_t i = 0; i < finding->note_count; i++)
        if (finding->notes[i].placed)
            span_move(shift, &finding->notes[i].span);
}

void finding_move_copy(struct arena *arena, const struct shift *shift, struct finding *finding)
{
    if (!shift->count)
        return;
    struct note *notes = arena_alloc(arena, (finding->note_count + 1) * sizeof *notes);
    if (finding->note_count)
        memcpy(notes, finding->notes, finding->note_count * sizeof *notes);
    finding->notes = notes;
    finding_move(shift, finding);
}
