/* Bytes as one club in two states: the first two choose it, the third says how many of the changes that follow are the older
 * state's, and the rest the newer's. What differs is reported in each format, and where nothing does, nothing does from the
 * other side either, if both states are understood: of two phases with one name, which is an error, the first is meant.
 * A comment for a change request is no longer than services take. */
#include "fuzz/fuzz.h"

#include <stdlib.h>

#include "compare/compare.h"
#include "fuzz/edited_club.c"
#include "squad/squad.h"

enum { LONGEST_COMMENT = 65536 };

static void tell(struct arena *arena, const struct comparison *changes)
{
    struct text text = {.arena = arena}, comment = {.arena = arena}, json = {.arena = arena};
    compare_text(changes, &(struct compare_style){.color = true}, &text);
    compare_markdown(changes, &comment);
    compare_json(changes, "0", &json);
    club_must_be_json(&json);
    if (comment.length >= LONGEST_COMMENT)
        abort();
}

static void compare_states(const struct club_read *old, const struct club_read *now)
{
    struct arena *arena = arena_new();
    struct squad_memo *memo = squad_memo_new(arena);
    struct plan_parts there[2], back[2];
    struct comparison forth, again;
    parts_of(arena, old->programme, memo, &there[0]);
    parts_of(arena, now->programme, memo, &there[1]);
    parts_of(arena, now->programme, memo, &back[0]);
    parts_of(arena, old->programme, memo, &back[1]);
    compare_plans(&forth, arena, &there[0], &there[1]);
    compare_plans(&again, arena, &back[0], &back[1]);
    bool understood = !diag_count(old->diag, SEVERITY_ERROR) && !diag_count(now->diag, SEVERITY_ERROR);
    if (understood && comparison_is_empty(&forth) != comparison_is_empty(&again))
        abort();
    compare_findings(&forth, old->diag, "", now->diag, "");
    tell(arena, &forth);
    arena_free(arena);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct text older = {0}, newer = {0};
    struct club_read old, now;
    if (size < 3)
        return 0;
    club_make(&(struct club_seed){.shape = (uint64_t)data[0] << 8 | data[1]}, &older);
    text_add_bytes(&newer, older.data, older.length);
    size_t first = 4 * (data[2] % 8u), changes = size - 3;
    first = first < changes ? first : changes;
    club_edit(&older, data + 3, first);
    club_edit(&newer, data + 3 + first, changes - first);
    club_read(&old, &older);
    club_read(&now, &newer);
    compare_states(&old, &now);
    arena_free(old.arena);
    arena_free(now.arena);
    text_free(&older);
    text_free(&newer);
    return 0;
}
