/* Bytes as a plan and what is made of it on paper: the first two choose a club of property/club_maker.h or a plan with long names
 * and many scripts of property/sheet_plans.h, the third which and how it is drawn, the fourth the sheet, the next two how it is
 * asked for, and each four that follow change the plan. An SVG is XML, and so is the page for the phone. */
#include "fuzz/fuzz.h"

#include <glib.h>
#include <stdlib.h>
#include <string.h>

#include "cli/phone_page.h"
#include "done/camp_review.h"
#include "fuzz/edited_club.c"
#include "language/language.h"
#include "layout/sheet.h"
#include "model/season.h"
#include "property/sheet_plans.c"
#include "render/render.h"

enum { CHOICES = 6 };

static void must_be_xml(const char *words, size_t length)
{
    static const GMarkupParser none;
    GMarkupParseContext *context = g_markup_parse_context_new(&none, G_MARKUP_DEFAULT_FLAGS, NULL, NULL);
    if (!g_markup_parse_context_parse(context, words, (gssize)length, NULL) || !g_markup_parse_context_end_parse(context, NULL))
        abort();
    g_markup_parse_context_free(context);
}

/* Does OTHER stand on a sheet of SCOPE with FIRST? */
static bool shares(const struct occasion *first, const struct occasion *other, enum sheet_scope scope)
{
    bool camp = other->camp == first->camp, athlete = other->athlete == first->athlete;
    switch (scope) {
    case SCOPE_SESSION:
        return camp && other->session == first->session && other->date == first->date && other->clock == first->clock;
    case SCOPE_SESSION_EACH: return other == first;
    case SCOPE_WEEK_EACH: return camp && athlete && other->week == first->week;
    case SCOPE_CAMP_EACH: return camp && athlete;
    case SCOPE_WEEK: return date_monday(other->date) == date_monday(first->date);
    case SCOPE_CAMP: return camp;
    case SCOPE_SEASON_EACH: return athlete;
    case SCOPE_SEASON: return true;
    }
    return false;
}

static const struct occasion *first_session(const struct programme *programme)
{
    for (size_t i = 0; i < programme->occasion_count; i++)
        if (programme->occasions[i].session)
            return &programme->occasions[i];
    return NULL;
}

/* Is an input one of the few whose plan stays as long as it is made, and its squads whole? Those take half a second each, and an
 * hour of them tries little. All bytes decide, so that what the fuzzer makes of a large one is rarely large again. */
static bool is_large(const uint8_t *data, size_t size)
{
    unsigned sum = 0;
    for (size_t i = 0; i < size; i++)
        sum += data[i];
    return sum % 128 == 0;
}

/* Leaves two blocks of the session of a plan of sheet_plans.h. */
static void shorten(struct text *plan)
{
    const char *words = text_get(plan), *camp = strstr(words, "\ncamp "), *block = strstr(words, "\nsession ");
    for (int i = 0; i < 3 && block; i++)
        block = strstr(block + 1, "\n    s");
    struct text rest = {0};
    if (!block || !camp || block > camp)
        return;
    text_add(&rest, camp);
    plan->length = (size_t)(block - words);
    text_add(plan, text_get(&rest));
    text_free(&rest);
}

/* Leaves of those who train together only the first. */
static void part_squads(const struct club_read *club)
{
    const struct occasion *all = club->programme->occasions;
    struct occasion *kept = arena_alloc(club->arena, (club->programme->occasion_count + 1) * sizeof *kept);
    size_t count = 0;
    for (size_t i = 0; i < club->programme->occasion_count; i++) {
        bool other = false;
        for (size_t k = 0; k < count && !other; k++)
            other = all[i].session && shares(&kept[k], &all[i], SCOPE_SESSION);
        if (!other)
            kept[count++] = all[i];
    }
    club->programme->occasions = kept;
    club->programme->occasion_count = count;
}

/* How an input is drawn: in one way, because all of them take four times as long. */
enum drawn { DRAWN_PDF, DRAWN_SVG, DRAWN_PLAIN, DRAWN_PHONE, DRAWN_COUNT };

static void draw_scene(const struct scene *scene, enum drawn drawn)
{
    struct text out = {.arena = scene->arena};
    if (drawn == DRAWN_PLAIN)
        render_plain(scene, &out);
    if (drawn == DRAWN_PDF && (render_pdf(&scene, 1, 0, &out) || strncmp(text_get(&out), "%PDF", 4) != 0))
        abort();
    for (int page = 1; drawn == DRAWN_SVG && page <= (int)scene->page_count && page <= 2; page++) {
        text_clear(&out);
        if (render_svg(scene, page, &out))
            abort();
        must_be_xml(text_get(&out), out.length);
    }
}

static void make_sheet(const struct club_read *club, const struct occasion *first, const uint8_t *choices, enum drawn drawn)
{
    static const char *const sizes[] = {"A3", "A4", "A2", "A1", "Letter", "Tabloid"};
    const struct sheet *sheet = &sheets[choices[0] % sheet_count];
    if (sheet->measured && !first->athlete->result_count)
        return;
    size_t count, on = 0;
    const struct occasion **all = club_occasions(club, NULL, &count);
    for (size_t i = 0; i < count; i++)
        if (shares(first, all[i], sheet->scope))
            all[on++] = all[i];
    const struct season season = {.name = first->camp->name, .first = first->camp->first, .last = first->camp->last};
    const struct camp_review review = review_of(club->arena, club->programme, first->camp, choices[1] % 2);
    struct sheet_request request = {
        .arena = club->arena, .season = &season, .type = club_typesetter(), .language = languages[choices[2] % language_count],
        .programme = club->programme, .occasions = all, .count = on, .plan = "plan", .version = "0",
        .paper = choices[1] / 2 % 4 ? NULL : paper_find(sizes[choices[2] / 8 % 6]), .landscape = choices[1] / 8 % 2,
        .pages = 1 + choices[1] / 16 % 2, .coach = choices[1] / 32 % 2, .private = choices[1] / 64 % 2,
        .date_words = "Monday 1 March 2027", .author = "Slipway", .review = &review};
    const struct scene *scene = sheet_make(sheet, &request);
    if (scene && scene->page_count)
        draw_scene(scene, drawn);
}

/* Its body is XML, too, without the script, which comes from the shelf. */
static void make_phone_page(const struct club_read *club, const struct athlete *athlete)
{
    static const struct phone_parts parts = {"", ""};
    size_t count;
    const struct occasion **own = club_occasions(club, athlete, &count);
    struct text page = {.arena = club->arena};
    phone_page(club->arena, &parts, own, count, "plan", &page);
    const char *body = strstr(text_get(&page), "\n<body"), *end = body ? strstr(body, "</body>") : NULL;
    if (!end)
        abort();
    must_be_xml(body, (size_t)(end - body) + strlen("</body>"));
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct text plan = {0};
    struct club_read club;
    if (size < CHOICES)
        return 0;
    bool large = is_large(data, size);
    uint64_t seed = (uint64_t)data[0] << 8 | data[1];
    if (data[2] % 2) {
        sheet_plan_make(seed, &plan);
        if (!large)
            shorten(&plan);
    } else {
        club_make(&(struct club_seed){.shape = seed}, &plan);
    }
    club_edit(&plan, data + CHOICES, size - CHOICES);
    club_resolve(&club, &plan); /* no rules: where a room is too full they search for a way out for a second */
    if (!large)
        part_squads(&club);
    const struct occasion *first = first_session(club.programme);
    if (first && !diag_count(club.diag, SEVERITY_ERROR)) {
        enum drawn drawn = data[2] / 2 % DRAWN_COUNT;
        if (drawn == DRAWN_PHONE)
            make_phone_page(&club, first->athlete);
        else
            make_sheet(&club, first, data + 3, drawn);
    }
    arena_free(club.arena);
    text_free(&plan);
    return 0;
}
