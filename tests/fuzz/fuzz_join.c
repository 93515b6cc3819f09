/* Any bytes as two versions of a file of logs and, third, what both come from, with lines `---` between them. Where nothing
 * conflicts each stanza of either version is in the result, and what is joined with itself stays as it is. */
#include "fuzz/fuzz.h"

#include <stdlib.h>
#include <string.h>

#include "logs/join.h"
#include "logs/stanzas.h"
#include "source/source.h"
#include "syntax/read.h"

/* The part of *TEXT up to a line `---`, which is passed. */
static struct join_side take_part(struct arena *arena, const char **text)
{
    const char *mark = strstr(*text, "---\n");
    size_t length = mark ? (size_t)(mark - *text) : strlen(*text);
    struct join_side side = {arena_copy(arena, *text, length), length};
    *text += length + (mark ? strlen("---\n") : 0);
    return side;
}

static void must_have(struct arena *arena, const struct text *out, const struct join_side *side)
{
    const struct stanzas all = stanzas_of(arena, text_get(out), out->length);
    const struct stanzas wanted = stanzas_of(arena, side->text, side->length);
    for (size_t i = 0; i < wanted.count; i++)
        if (!wanted.items[i].orphan && !stanzas_find(&all, wanted.items[i].key))
            abort();
}

static void try_join(struct arena *arena, const char *text)
{
    const struct phrasebook *phrases = phrasebook_new(arena);
    const struct join_side nothing = {"", 0}, ours = take_part(arena, &text), theirs = take_part(arena, &text),
                           base = take_part(arena, &text);
    const struct joined with_base = join(arena, phrases, &base, &ours, &theirs);
    const struct joined joined = join(arena, phrases, &nothing, &ours, &theirs);
    const struct join_side result = {text_get(&with_base.out), with_base.out.length};
    if (!joined.conflict_count) {
        must_have(arena, &joined.out, &ours);
        must_have(arena, &joined.out, &theirs);
    }
    const struct joined again = join(arena, phrases, &base, &result, &result);
    if (again.conflict_count)
        abort();
    must_have(arena, &again.out, &result);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct arena *arena = arena_new();
    struct sources sources = {.arena = arena};
    const char *what;
    size_t fault_length;
    int file = source_add(&sources, "logs.bell", (const char *)data, size);
    const struct source *source = &sources.items[file];
    if (text_first_fault(source->text, source->length, &what, &fault_length) == source->length)
        try_join(arena, source->text);
    arena_free(arena);
    return 0;
}
