/* Bytes as a club and what happens to it, so that what is wrong is wrong in its meaning: the first two choose one that
 * property/club_maker.h makes without an error, each four that follow change a figure, a word or a line of it, or put in a
 * statement of the language. It is checked, told in each format of a report, compared with what it was, and drawn. */
#include "fuzz/fuzz.h"

#include <stdlib.h>
#include <string.h>

#include "compare/compare.h"
#include "done/camp_review.h"
#include "export/export.h"
#include "export/show_programme.h"
#include "fuzz/edited_club.c"
#include "layout/sheet.h"
#include "render/render.h"
#include "squad/squad.h"

static void report(const struct club_read *club)
{
    static export_write *const writers[] = {export_json, export_sarif, export_quality, export_annotations};
    const struct export_context context = {.version = "0", .infos = true};
    for (size_t i = 0; i < sizeof writers / sizeof *writers; i++) {
        struct text out = {.arena = club->arena};
        writers[i](club->diag, &context, &out);
        if (writers[i] != export_annotations)
            club_must_be_json(&out);
    }
}

static void show(const struct club_read *club)
{
    const struct programme *programme = club->programme;
    size_t count;
    const struct occasion **all = club_occasions(club, NULL, &count);
    struct text out = {.arena = club->arena};
    programme_json(&(struct programme_view){.programme = programme, .arena = club->arena, .occasions = all,
                                            .count = count, .version = "0", .ledgers = true},
                   &out);
    club_must_be_json(&out);
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
    club_must_be_json(&out);
    compare_plans(&none, arena, &parts[1], &again);
    if (!comparison_is_empty(&none))
        abort();
    arena_free(arena);
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
    struct sheet_request request = {.arena = club->arena, .season = &season, .type = club_typesetter(), .programme = programme,
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
    club_read(&old, &plan);
    text_add_bytes(&edited, plan.data, plan.length);
    club_edit(&edited, data + 3, size - 3);
    club_read(&now, &edited);
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
