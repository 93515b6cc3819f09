#include "logs/join.h"

#include <glib.h>
#include <string.h>

#include "logs/stanzas.h"
#include "syntax/format.h"

/* --- are two the same? --- */

/* TEXT in canonical layout, or NULL if it cannot be read. */
static const char *laid_out(struct arena *arena, const struct phrasebook *phrases, const char *text, size_t length,
                            enum format_outcome *outcome)
{
    struct sources sources = {.arena = arena};
    struct diag *diag = diag_new(arena, &sources);
    struct text out = {.arena = arena};
    int file = source_add(&sources, "log", text, length);
    *outcome = format_source(arena, &sources, (unsigned)file, phrases, diag, &out);
    if (*outcome == FORMAT_SAME)
        return arena_copy(arena, text, length);
    return *outcome == FORMAT_CHANGED ? text_get(&out) : NULL;
}

bool join_same(struct arena *arena, const struct phrasebook *phrases, const char *a, size_t a_length, const char *b,
               size_t b_length)
{
    if (a_length == b_length && memcmp(a, b, a_length) == 0)
        return true;
    struct arena *beside = arena_beside(arena);
    enum format_outcome outcome;
    const char *one = laid_out(beside, phrases, a, a_length, &outcome);
    const char *other = one ? laid_out(beside, phrases, b, b_length, &outcome) : NULL;
    bool same = other && strcmp(one, other) == 0;
    arena_free(beside);
    return same;
}

/* --- what becomes of each stanza --- */

/* A stanza of the result, or two between marks. */
struct joined_stanza {
    const struct stanza *ours, *theirs; /* which is taken; both: they conflict, and then either may be NULL with GONE */
    const char *title;
    bool conflict;
    bool shared;         /* THEIRS has it too, so what only they have may follow it */
    const struct stanza *about; /* what it is about, in whichever version */
    struct joined_stanza *next;
};

struct joining {
    struct arena *arena;
    const struct phrasebook *phrases;
    struct stanzas base, ours, theirs;
    GHashTable *in_base, *in_theirs; /* by key */
    struct joined_stanza head;                         /* stands for the start of the file */
};

static GHashTable *by_key(const struct stanzas *stanzas)
{
    GHashTable *table = g_hash_table_new(g_str_hash, g_str_equal);
    for (size_t i = 0; i < stanzas->count; i++)
        g_hash_table_insert(table, (void *)stanzas->items[i].key, &stanzas->items[i]);
    return table;
}

static bool same(const struct joining *joining, const struct stanza *a, const struct stanza *b)
{
    return join_same(joining->arena, joining->phrases, a->text, a->length, b->text, b->length);
}

/* What becomes of a stanza, given as ANY of its versions, OURS and THEIRS, which are NULL if that side has none.
 * Returns false if nothing of it stays. */
static bool settle(const struct joining *joining, const struct stanza *any, const struct stanza *ours,
                   const struct stanza *theirs, struct joined_stanza *place)
{
    const struct stanza *base = g_hash_table_lookup(joining->in_base, any->key);
    *place = (struct joined_stanza){.ours = ours, .about = any, .title = any->title, .shared = theirs != NULL};
    if (ours && theirs && same(joining, ours, theirs))
        return true;
    if (!base && !(ours && theirs)) {
        place->theirs = ours ? NULL : theirs;
        return true;
    }
    bool ours_as_it_was = base && ours && same(joining, base, ours);
    bool theirs_as_it_was = base && theirs && same(joining, base, theirs);
    if (theirs_as_it_was)
        return ours != NULL;
    place->theirs = theirs;
    if (ours_as_it_was) {
        place->ours = NULL;
        return theirs != NULL;
    }
    place->conflict = true;
    return true;
}

static struct joined_stanza *add_place(const struct joining *joining, struct joined_stanza *after,
                                       const struct joined_stanza *made)
{
    struct joined_stanza *place = arena_alloc(joining->arena, sizeof *place);
    *place = *made;
    place->next = after->next;
    after->next = place;
    return place;
}

/* Where a stanza of THEIRS goes that is missing from OURS (unless it is an orphan, which would become part of what
 * is above it): after AFTER, which comes before it in their version too, and after what OURS added there, except
 * that logs of later days stay behind it: files that are in order stay in order. */
static struct joined_stanza *place_before(struct joined_stanza *after, const struct stanza *theirs)
{
    struct joined_stanza *best = after;
    for (struct joined_stanza *at = after->next; at && !at->shared; at = at->next) {
        if (theirs->log && at->about->log && strcmp(at->about->day, theirs->day) > 0)
            return best;
        if (!theirs->log || at->about->log || !at->next || at->next->shared)
            best = at;
    }
    return best;
}

static void join_stanzas(struct joining *joining)
{
    GHashTable *placed = g_hash_table_new(g_direct_hash, g_direct_equal); /* where each of THEIRS is */
    struct joined_stanza *last = &joining->head, made;
    for (size_t i = 0; i < joining->ours.count; i++) {
        const struct stanza *ours = &joining->ours.items[i];
        const struct stanza *theirs = g_hash_table_lookup(joining->in_theirs, ours->key);
        if (!settle(joining, ours, ours, theirs, &made))
            continue;
        last = add_place(joining, last, &made);
        if (theirs)
            g_hash_table_insert(placed, (void *)theirs, last);
    }
    last = &joining->head;
    for (size_t i = 0; i < joining->theirs.count; i++) {
        const struct stanza *theirs = &joining->theirs.items[i];
        struct joined_stanza *there = g_hash_table_lookup(placed, theirs);
        if (!there && settle(joining, theirs, NULL, theirs, &made))
            there = add_place(joining, theirs->orphan ? &joining->head : place_before(last, theirs), &made);
        last = there ? there : last;
    }
    g_hash_table_destroy(placed);
}

/* --- the result as text --- */

static void add_stanza(const struct stanza *stanza, struct text *out)
{
    if (!stanza)
        return;
    text_add_bytes(out, stanza->text, stanza->length);
    text_add_char(out, '\n');
}

static const struct stanza *last_of(const struct joined_stanza *place)
{
    return place->conflict || !place->ours ? place->theirs : place->ours;
}

/* Blank lines between ABOVE and PLACE: as many as in the version that PLACE comes from, but at least one below a
 * comment of its own, which would otherwise become part of what follows. */
static int gap_between(const struct joined_stanza *above, const struct joined_stanza *place)
{
    const struct stanza *stanza = place->ours ? place->ours : place->theirs, *before = last_of(above);
    bool alone = before && !*before->title;
    return place->conflict || stanza->line == 1 || (alone && stanza->gap == 0) ? 1 : stanza->gap;
}

/* Adds PLACE below ABOVE (NULL: it is the first). */
static void add_place_text(struct joined *joined, struct arena *arena, const struct joined_stanza *above,
                           const struct joined_stanza *place, unsigned *line)
{
    struct text *out = &joined->out;
    size_t from = out->length;
    int gap = above ? gap_between(above, place) : 0;
    for (int i = 0; i < gap; i++)
        text_add_char(out, '\n');
    if (place->conflict) {
        joined->conflicts = arena_grow(arena, joined->conflicts, joined->conflict_count, &joined->conflict_capacity,
                                       sizeof *joined->conflicts);
        joined->conflicts[joined->conflict_count++] =
            (struct join_conflict){place->title, *line + (unsigned)gap};
        text_add(out, "<<<<<<< ours\n");
        add_stanza(place->ours, out);
        text_add(out, "=======\n");
        add_stanza(place->theirs, out);
        text_add(out, ">>>>>>> theirs\n");
    } else {
        add_stanza(place->ours ? place->ours : place->theirs, out);
    }
    for (const char *at = text_get(out) + from; *at; at++)
        *line += *at == '\n';
}

static bool is_canonical(struct arena *arena, const struct phrasebook *phrases, const struct join_side *side)
{
    enum format_outcome outcome;
    laid_out(arena, phrases, side->text, side->length, &outcome);
    return outcome == FORMAT_SAME;
}

/* Gives OUT the line ends of OURS: with mixed ones, every line would change back and forth. */
static void set_line_ends(struct arena *arena, const struct join_side *ours, struct text *out)
{
    const char *end = memchr(ours->text, '\n', ours->length);
    const char *with = end && end > ours->text && end[-1] == '\r' ? "\r\n" : "\n";
    struct text made = {.arena = arena};
    for (const char *line = text_get(out); *line;) {
        size_t length = strcspn(line, "\n"), kept = length;
        while (kept && line[kept - 1] == '\r')
            kept--;
        text_add_bytes(&made, line, kept);
        text_add(&made, with);
        line += length + (line[length] == '\n');
    }
    *out = made;
}

struct joined join(struct arena *arena, const struct phrasebook *phrases, const struct join_side *base,
                   const struct join_side *ours, const struct join_side *theirs)
{
    struct joining joining = {.arena = arena, .phrases = phrases, .base = stanzas_of(arena, base->text, base->length),
                              .ours = stanzas_of(arena, ours->text, ours->length),
                              .theirs = stanzas_of(arena, theirs->text, theirs->length)};
    struct joined joined = {.out = {.arena = arena}};
    unsigned line = 1;
    joining.in_base = by_key(&joining.base);
    joining.in_theirs = by_key(&joining.theirs);
    join_stanzas(&joining);
    g_hash_table_destroy(joining.in_base);
    g_hash_table_destroy(joining.in_theirs);
    const struct joined_stanza *above = NULL;
    for (const struct joined_stanza *place = joining.head.next; place; above = place, place = place->next)
        add_place_text(&joined, arena, above, place, &line);
    if (!joined.conflict_count && is_canonical(arena, phrases, ours) && is_canonical(arena, phrases, theirs)) {
        enum format_outcome outcome;
        const char *out = laid_out(arena, phrases, text_get(&joined.out), joined.out.length, &outcome);
        if (outcome == FORMAT_CHANGED) {
            text_clear(&joined.out);
            text_add(&joined.out, out);
        }
    }
    set_line_ends(arena, ours, &joined.out);
    return joined;
}
