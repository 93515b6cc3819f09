/* Bytes as a club whose days are past: the first two choose one, each four that follow change it. What `close` keeps of each
 * occasion and what `log` gives to fill in read as lines of the language, the first also after the formatter had it. */
#include "fuzz/fuzz.h"

#include <stdlib.h>

#include "export/record.h"
#include "fuzz/edited_club.c"
#include "logs/skeleton.h"
#include "logs/stanzas.h"
#include "syntax/format.h"

static void must_format(const struct text *words)
{
    struct arena *arena = arena_new();
    struct sources sources = {.arena = arena};
    struct text out = {.arena = arena};
    int file = source_add(&sources, "2027-03.bell", text_get(words), words->length);
    enum format_outcome outcome =
        format_source(arena, &sources, (unsigned)file, phrasebook_new(arena), diag_new(arena, &sources), &out);
    if (outcome == FORMAT_FAULTY || outcome == FORMAT_UNPROVEN)
        abort();
    arena_free(arena);
}

/* Each log is a stanza of its own: it is known by its key. */
static void must_be_log(struct arena *arena, const struct text *words)
{
    const struct stanzas made = stanzas_of(arena, text_get(words), words->length);
    if (made.count != 1 || !made.items[0].log || made.items[0].filled)
        abort();
}

static void keep(const struct club_read *club)
{
    size_t count;
    const struct occasion **all = club_occasions(club, NULL, &count);
    struct text record = {.arena = club->arena}, logs = {.arena = club->arena};
    for (size_t i = 0; i < count; i++) {
        struct text one = {.arena = club->arena};
        record_occasion(club->arena, all[i], &record);
        skeleton_add(club->arena, club->programme, all[i], &one);
        must_be_log(club->arena, &one);
        text_addf(&logs, "%s\n", text_get(&one));
        skeleton_add_private(all[i]->athlete, all[i]->date, &logs);
        text_add_char(&logs, '\n');
    }
    must_format(&record);
    club_must_read(&logs);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct text plan = {0};
    struct club_read club;
    if (size < 2)
        return 0;
    club_make(&(struct club_seed){.shape = (uint64_t)data[0] << 8 | data[1]}, &plan);
    club_edit(&plan, data + 2, size - 2);
    club_read(&club, &plan);
    if (!diag_count(club.diag, SEVERITY_ERROR))
        keep(&club);
    arena_free(club.arena);
    text_free(&plan);
    return 0;
}
