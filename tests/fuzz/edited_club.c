#ifndef BELL_FUZZ_EDITED_CLUB
#define BELL_FUZZ_EDITED_CLUB
#include "fuzz/edited_club.h"

#include <jansson.h>
#include <stdlib.h>
#include <string.h>

#include "layout/type.h"
#include "property/club_maker.c"
#include "resolve/resolve.h"
#include "rules/rules.h"
#include "syntax/read.h"

enum { MOST_EDITS = 24, RUNS_A_TYPESETTER = 256 };

static const char *const statements[] = {
#define STATEMENT(id, phrases, places, form, opens) phrases,
#include "syntax/kinds.def"
};

static size_t line_at(const struct text *plan, size_t at)
{
    while (at > 0 && plan->data[at - 1] != '\n')
        at--;
    return at;
}

static size_t line_end(const struct text *plan, size_t at)
{
    const char *end = memchr(plan->data + at, '\n', plan->length - at);
    return end ? (size_t)(end - plan->data) + 1 : plan->length;
}

/* The first words of a row of kinds.def. */
static void add_statement(size_t number, struct text *out)
{
    const char *phrases = statements[number % (sizeof statements / sizeof *statements)];
    text_add_bytes(out, phrases, strcspn(phrases, "|"));
}

/* Puts PLAN with one thing changed into OUT: the four bytes of EDIT say where, what and how. */
static void change(const struct text *plan, const uint8_t *edit, struct text *out)
{
    size_t place = ((size_t)edit[1] << 8 | edit[2]) * plan->length >> 16;
    size_t from = line_at(plan, place), to = line_end(plan, from), next = to < plan->length ? line_end(plan, to) : to;
    text_add_bytes(out, plan->data, from);
    switch (edit[0] % 6) {
    case 0: break; /* left out */
    case 1:        /* twice */
        text_add_bytes(out, plan->data + from, to - from);
        text_add_bytes(out, plan->data + from, to - from);
        break;
    case 2: /* below the next */
        text_add_bytes(out, plan->data + to, next - to);
        text_add_bytes(out, plan->data + from, to - from);
        text_add_bytes(out, plan->data + next, plan->length - next);
        return;
    case 3: /* a statement of the language in its place, with what stood behind */
        text_addf(out, "%*s", (int)(edit[3] % 4 * 4), "");
        add_statement(edit[3], out);
        text_add_char(out, ' ');
        text_add_bytes(out, plan->data + from, to - from);
        break;
    default: /* another figure, or another letter */
        text_add_bytes(out, plan->data + from, to - from);
        for (char *at = out->data + place; at < out->data + out->length; at++)
            if (edit[0] % 6 == 5 ? *at >= 'a' && *at <= 'z' : *at >= '0' && *at <= '9') {
                *at = edit[0] % 6 == 5 ? (char)('a' + edit[3] % 26) : (char)('0' + edit[3] % 10);
                break;
            }
    }
    text_add_bytes(out, plan->data + to, plan->length - to);
}

void club_edit(struct text *plan, const uint8_t *edits, size_t size)
{
    for (size_t i = 0; i + 3 < size && i < 4 * MOST_EDITS && plan->length; i += 4) {
        struct text next = {0};
        change(plan, edits + i, &next);
        text_free(plan);
        *plan = next;
    }
}

void club_resolve(struct club_read *club, const struct text *plan)
{
    club->arena = arena_new();
    club->sources = (struct sources){.arena = club->arena};
    club->diag = diag_new(club->arena, &club->sources);
    int file = source_add(&club->sources, "club.bell", text_get(plan), plan->length);
    club->tree = read_file(club->arena, &club->sources, (unsigned)file, phrasebook_new(club->arena), club->diag);
    club->programme = programme_resolve(club->arena, &club->sources, &club->tree, 1, CLUB_DAY, club->diag);
}

void club_read(struct club_read *club, const struct text *plan)
{
    club_resolve(club, plan);
    rules_run(club->programme, club->diag);
    diag_sort(club->diag);
}

const struct occasion **club_occasions(const struct club_read *club, const struct athlete *athlete, size_t *count)
{
    const struct programme *programme = club->programme;
    const struct occasion **list = arena_alloc(club->arena, (programme->occasion_count + 1) * sizeof *list);
    *count = 0;
    for (size_t i = 0; i < programme->occasion_count; i++)
        if (!athlete || programme->occasions[i].athlete == athlete)
            list[(*count)++] = &programme->occasions[i];
    return list;
}

void club_must_be_json(const struct text *words)
{
    json_t *json = json_loadb(text_get(words), words->length, JSON_ALLOW_NUL, NULL);
    if (!json)
        abort();
    json_decref(json);
}

void club_must_read(const struct text *words)
{
    struct arena *arena = arena_new();
    struct sources sources = {.arena = arena};
    struct diag *diag = diag_new(arena, &sources);
    int file = source_add(&sources, "written.bell", text_get(words), words->length);
    read_file(arena, &sources, (unsigned)file, phrasebook_new(arena), diag);
    if (diag_count(diag, SEVERITY_ERROR))
        abort();
    arena_free(arena);
}

struct type *club_typesetter(void)
{
    static struct type *type;
    static unsigned runs;
    const char *wrong;
    if (runs++ % RUNS_A_TYPESETTER == 0) {
        type_close(type);
        type = type_open(&wrong);
        if (!type)
            abort();
    }
    return type;
}

#endif
