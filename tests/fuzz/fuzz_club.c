/* Bytes as a club and what happens to it, so that what is wrong is wrong in its meaning: the first two choose one that
 * property/club_maker.h makes without an error, each four that follow change a figure, a word or a line of it, or put in a
 * statement of the language. It is checked, told in each format of a report, compared with what it was, and drawn. */
#include "fuzz/fuzz.h"

#include <jansson.h>
#include <stdlib.h>
#include <string.h>

#include "compare/compare.h"
#include "done/camp_review.h"
#include "export/export.h"
#include "export/show_programme.h"
#include "layout/sheet.h"
#include "model/programme.h"
#include "property/club_maker.c"
#include "render/render.h"
#include "resolve/resolve.h"
#include "rules/rules.h"
#include "source/screen.h"
#include "squad/squad.h"
#include "syntax/read.h"

enum { MOST_EDITS = 24, DAY = 740048 /* 2027-03-08 */, RUNS_A_TYPESETTER = 256 };

static const char *const statements[] = {
#define STATEMENT(id, phrases, places, form, opens) phrases,
#include "syntax/kinds.def"
};

/* A plan, read, understood and checked. */
struct club_read {
    struct arena *arena;
    struct sources sources;
    struct diag *diag;
    struct tree *tree;
    struct programme *programme;
};

/* --- what happens to a club --- */

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

/* --- what is done with it --- */

static void read_club(struct club_read *club, const struct text *plan)
{
    club->arena = arena_new();
    club->sources = (struct sources){.arena = club->arena};
    club->diag = diag_new(club->arena, &club->sources);
    int file = source_add(&club->sources, "club.bell", text_get(plan), plan->length);
    club->tree = read_file(club->arena, &club->sources, (unsigned)file, phrasebook_new(club->arena), club->diag);
    club->programme = programme_resolve(club->arena, &club->sources, &club->tree, 1, DAY, club->diag);
    rules_run(club->programme, club->diag);
    diag_sort(club->diag);
}

static void must_be_json(const struct text *words)
{
    json_t *json = json_loadb(text_get(words), words->length, JSON_ALLOW_NUL, NULL);
    if (!json)
        abort();
    json_decref(json);
}

static void report(const struct club_read *club)
{
    static export_write *const writers[] = {export_json, export_sarif, export_quality, export_annotations};
    const struct export_context context = {.version = "0", .infos = true};
    for (size_t i = 0; i < sizeof writers / sizeof *writers; i++) {
        struct text out = {.arena = club->arena};
        writers[i](club->diag, &context, &out);
        if (writers[i] != export_annotations)
            must_be_json(&out);
    }
}

static void show(const struct club_read *club)
{
    const struct programme *programme = club->programme;
    const struct occasion **all = arena_alloc(club->arena, (programme->occasion_count + 1) * sizeof *all);
    struct text out = {.arena = club->arena};
    for (size_t i = 0; i < programme->occasion_count; i++)
        all[i] = &programme->occasions[i];
    programme_json(&(struct programme_view){.programme = programme, .arena = club->arena, .occasions = all,
                                            .count = programme->occasion_count, .version = "0", .ledgers = true},
                   &out);
    must_be_json(&out);
}

/* What changed is JSON, and nothing is what differs from itself. */
static void compare(struct club_read *old, struct club_read *now)
{
    struct arena *arena = arena_new();
    struct squad_memo *memo = squad_memo_new(arena);
    struct plan_parts parts[2], again;
    struct comparison changes, none;
    struct text out = {.arena = arena};
    parts_of(arena, old->programme, memo, &parts[0]);
    parts_of(arena, now->programme, memo, &parts[1]);
    parts_of(arena, now->programme, memo, &again);
    compare_plans(&changes, arena, &parts[0], &parts[1]);
    compare_findings(&changes, old->diag, "", now->diag, "");
    compare_json(&changes, "0", &out);
    must_be_json(&out);
    compare_plans(&none, arena, &parts[1], &again);
    if (!comparison_is_empty(&none))
        abort();
    arena_free(arena);
}

static struct type *typesetter(void)
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

/* One sheet of the first session, which CHOICE says, in each format. */
static void draw_sheet(const struct club_read *club, uint8_t choice)
{
    const struct programme *programme = club->programme;
    const struct sheet *sheet = &sheets[choice % sheet_count];
    size_t first = 0;
    while (first < programme->occasion_count && !programme->occasions[first].session)
        first++;
    if (first == programme->occasion_count)
        return;
    const struct occasion *occasion = &programme->occasions[first];
    const struct season season = {.name = occasion->camp->name, .first = occasion->camp->first, .last = occasion->camp->last};
    const struct camp_review review = review_of(club->arena, programme, occasion->camp, false);
    struct sheet_request request = {.arena = club->arena, .season = &season, .type = typesetter(), .programme = programme,
                                    .occasions = &occasion, .count = 1, .plan = "plan", .version = "0",
                                    .date_words = "Monday 1 March 2027", .author = "Slipway", .review = &review};
    const struct scene *scene = sheet_make(sheet, &request);
    struct text out = {.arena = club->arena};
    if (!scene || !scene->page_count)
        return;
    if (render_pdf(&scene, 1, 0, &out) || strncmp(text_get(&out), "%PDF", 4) != 0)
        abort();
    text_clear(&out);
    if (render_svg(scene, 1, &out) || !strstr(text_get(&out), "</svg>"))
        abort();
    render_plain(scene, &out);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct text plan = {0}, edited = {0};
    struct club_read old, now;
    if (size < 3)
        return 0;
    club_make(&(struct club_seed){.shape = (uint64_t)data[0] << 8 | data[1]}, &plan);
    read_club(&old, &plan);
    text_add_bytes(&edited, plan.data, plan.length);
    for (size_t i = 3; i + 3 < size && i < 3 + 4 * MOST_EDITS && edited.length; i += 4) {
        struct text next = {0};
        change(&edited, data + i, &next);
        text_free(&edited);
        edited = next;
    }
    read_club(&now, &edited);
    report(&now);
    if (!diag_count(now.diag, SEVERITY_ERROR)) {
        show(&now);
        compare(&old, &now);
        draw_sheet(&now, data[2]);
    }
    arena_free(old.arena);
    arena_free(now.arena);
    text_free(&plan);
    text_free(&edited);
    return 0;
}
