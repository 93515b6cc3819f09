/* Any bytes to the scanner alone. Its tokens follow one another, none is empty or lies outside what was scanned, and the
 * lines are all of it. */
#include "fuzz/fuzz.h"

#include <stdlib.h>

#include "syntax/raw.h"

/* Kept from one input to the next: an arena's making costs more than most inputs. */
enum { INPUTS_AN_ARENA = 1024 };

static struct arena *lexer_arena(void)
{
    static struct arena *arena;
    static unsigned inputs;
    if (inputs++ % INPUTS_AN_ARENA == 0) {
        if (arena)
            arena_free(arena);
        arena = arena_new();
    }
    return arena;
}

static void line_must_hold(const struct scan *scan, uint32_t from, uint32_t end)
{
    for (size_t i = 0; i < scan->count; i++) {
        const struct raw_token *token = &scan->tokens[i];
        if (token->start < from || token->end <= token->start || token->end > end)
            abort();
        from = token->end;
        if (token->kind == RAW_COMMENT && i + 1 < scan->count)
            abort();
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct arena *arena = lexer_arena();
    const char *text = arena_copy(arena, (const char *)data, size);
    struct scan scan;
    scan_open(&scan, arena, text, (struct extent){0, (uint32_t)size});
    uint32_t from = 0;
    for (bool more = true; more; from = scan.next) {
        more = scan_line(&scan);
        line_must_hold(&scan, from, (uint32_t)size);
        if (scan.next < from || scan.next > size || (more && scan.next == from))
            abort();
    }
    scan_close(&scan);
    return 0;
}
