/* Any bytes through the formatter. It must be able to prove each layout that it writes, and what it wrote it must
 * leave alone. */
#include "fuzz/fuzz.h"

#include <stdlib.h>

#include "syntax/format.h"

static enum format_outcome format_once(struct arena *arena, const char *bytes, size_t size, struct text *out)
{
    struct sources sources = {.arena = arena};
    struct diag *diag = diag_new(arena, &sources);
    int file = source_add(&sources, "plan.bell", bytes, size);
    return format_source(arena, &sources, (unsigned)file, phrasebook_new(arena), diag, out);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct arena *arena = arena_new();
    struct text once = {0}, twice = {0};
    enum format_outcome outcome = format_once(arena, (const char *)data, size, &once);
    if (outcome == FORMAT_UNPROVEN)
        abort();
    if (outcome != FORMAT_FAULTY && format_once(arena, text_get(&once), once.length, &twice) != FORMAT_SAME)
        abort();
    text_free(&once);
    text_free(&twice);
    arena_free(arena);
    return 0;
}
