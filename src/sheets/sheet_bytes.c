/* sheet_bytes.c - what include/bellsheet/sheets.h declares. */
#include <bellsheet/sheets.h>

#include <stdio.h>
#include <string.h>

#include "base/text.h"
#include "figures/dates.h"
#include "layout/sheet.h"
#include "library/session.h"
#include "measure/member.h"
#include "model/programme.h"
#include "render/render.h"
#include "rules/rules.h"
#include "sheets/version.h"

static const double USUAL_DOTS = 150, MOST_DOTS = 600; /* an inch */

const char *bell_sheet_kind(size_t index, const char **what)
{
    if (index >= sheet_count)
        return NULL;
    if (what)
        *what = sheets[index].what;
    return sheets[index].name;
}

/* --- which part of the plan --- */

struct sheet_making {
    const struct bell_sheet *asked;
    const struct sheet *sheet;
    const struct paper *paper; /* or NULL */
    int day;
    struct type *type;
    int pages;
    struct text bytes;
};

static bool is_called(const struct name *name, const char *folded)
{
    return !folded || strcmp(name->folded, folded) == 0;
}

static const char *fold(struct arena *arena, const char *name)
{
    return name ? text_fold(arena, name, strlen(name)) : NULL;
}

/* The first occasion that is meant, or NULL. */
static const struct occasion *find_first(const struct programme *programme, struct arena *arena,
                                         const struct sheet_making *making)
{
    const char *athlete = fold(arena, making->asked->athlete), *session = fold(arena, making->asked->session);
    const struct season *season = season_of(programme, making->day);
    bool of_session = !sheet_is_for_each(making->sheet) || session;
    for (size_t i = 0; i < programme->occasion_count; i++) {
        const struct occasion *occasion = &programme->occasions[i];
        bool near = sheet_is_of_season(making->sheet) ? season && season_has(season, occasion->date)
                    : making->sheet->scope == SCOPE_CAMP_EACH || making->sheet->scope == SCOPE_CAMP
                        ? occasion->camp->first <= making->day && making->day <= occasion->camp->last
                    : making->sheet->scope == SCOPE_WEEK_EACH || making->sheet->scope == SCOPE_WEEK
                        ? date_monday(occasion->date) == date_monday(making->day)
                        : occasion->date == making->day;
        if (near && is_called(&occasion->athlete->name, athlete) &&
            (!of_session || (occasion->session && is_called(&occasion->session->name, session))))
            return occasion;
    }
    return NULL;
}

/* Is OCCASION on the same sheet as FIRST? */
static bool shares_sheet(const struct sheet_making *making, const struct season *season, const struct occasion *first,
                         const struct occasion *occasion)
{
    if (sheet_is_of_season(making->sheet))
        return season_has(season, occasion->date) &&
               (making->sheet->scope == SCOPE_SEASON || first->athlete == occasion->athlete);
    bool own = first->athlete == occasion->athlete;
    switch (making->sheet->scope) {
    case SCOPE_WEEK_EACH: return own && date_monday(first->date) == date_monday(occasion->date);
    case SCOPE_CAMP_EACH: return own && first->camp == occasion->camp;
    case SCOPE_WEEK: return date_monday(first->date) == date_monday(occasion->date);
    case SCOPE_CAMP: return first->camp == occasion->camp;
    case SCOPE_SESSION_EACH: return first == occasion;
    case SCOPE_SESSION: case SCOPE_SEASON_EACH: case SCOPE_SEASON: break;
    }
    return first->camp == occasion->camp && first->session == occasion->session && first->date == occasion->date &&
           first->clock == occasion->clock && (!making->asked->athlete || first->athlete == occasion->athlete);
}

/* Everything on the sheet; empty if nothing is planned. */
static struct occasion_group find_group(const struct programme *programme, struct arena *arena,
                                        const struct sheet_making *making)
{
    struct occasion_group group = {0};
    const struct occasion *first = find_first(programme, arena, making);
    group.season = first && sheet_is_of_season(making->sheet) ? season_of(programme, first->date) : NULL;
    for (size_t i = 0; first && i < programme->occasion_count; i++) {
        const struct occasion *occasion = &programme->occasions[i];
        if (!shares_sheet(making, group.season, first, occasion))
            continue;
        group.occasions = arena_grow(arena, group.occasions, group.count, &group.capacity, sizeof *group.occasions);
        group.occasions[group.count++] = occasion;
    }
    return group;
}

/* Removes from GROUP what contains an error, as `print` does: one athlete's week or camp is made whole or not at
 * all. */
static void drop_barred(const struct programme *programme, struct arena *arena, const struct sheet_making *making,
                        struct occasion_group *group)
{
    bool *barred = arena_alloc(arena, programme->occasion_count + 1);
    const struct wanted wanted = {.occasions = arena_alloc(arena, programme->occasion_count + 1),
                                  .left_out = arena_alloc(arena, programme->left_out_count + 1),
                                  .unhelped = true};
    for (size_t i = 0; i < group->count; i++)
        wanted.occasions[group->occasions[i] - programme->occasions] = true;
    rules_run_wanted(programme, &wanted, SEVERITY_ERROR, barred, diag_new(arena, programme->sources));
    size_t all = group->count, kept = 0;
    for (size_t i = 0; i < all; i++)
        if (!barred[group->occasions[i] - programme->occasions])
            group->occasions[kept++] = group->occasions[i];
    group->count = sheet_is_for_each(making->sheet) && kept < all ? 0 : kept;
}

/* --- making it --- */

static void end_type(void *type)
{
    type_close(type);
}

static enum bell_status paint(struct sheet_making *making, const struct scene *scene)
{
    const struct bell_sheet *asked = making->asked;
    int page = asked->page ? asked->page : 1;
    const char *wrong = NULL;
    making->pages = (int)scene->page_count;
    if (page > making->pages)
        return BELL_NOTHING;
    switch (asked->format) {
    case BELL_SHEET_PDF: wrong = render_pdf(&scene, 1, 0, &making->bytes); break;
    case BELL_SHEET_SVG: wrong = render_svg(scene, page, &making->bytes); break;
    case BELL_SHEET_PNG: wrong = render_png(scene, page, asked->dots > 0 ? asked->dots : USUAL_DOTS, &making->bytes); break;
    case BELL_SHEET_TEXT: render_plain(scene, &making->bytes); break;
    case BELL_SHEET_FORMATS: break;
    }
    return wrong ? BELL_NO_MEMORY : BELL_OK;
}

static enum bell_status make(struct bell_session *session, void *with)
{
    struct sheet_making *making = with;
    struct arena *arena = session->compile;
    const struct programme *programme = session_programme(session);
    const char *wrong = NULL;
    if (programme->incomplete)
        return BELL_BARRED;
    struct occasion_group group = find_group(programme, arena, making);
    size_t planned = group.count;
    if (planned && !making->sheet->reports)
        drop_barred(programme, arena, making, &group);
    if (!group.count)
        return planned ? BELL_BARRED : BELL_NOTHING;
    struct sheet_origin origin = {.programme = programme, .arena = arena, .paper = making->paper,
                                  .landscape = making->asked->landscape != 0, .coach = making->asked->coach != 0};
    if (making->sheet->scope == SCOPE_SESSION)
        group = sheet_held_last(&origin, making->sheet, &group);
    if (!group.count)
        return BELL_NOTHING;
    origin.version = sheet_version(sheet_versions_new(&origin), making->sheet, &group);
    struct sheet_request request = sheet_request_for(&origin, making->sheet, &group);
    request.arena = arena_beside(arena); /* before the type, which nobody would close if there were no memory for it */
    request.type = type_open(&wrong);
    if (!request.type) {
        snprintf(session->failure, sizeof session->failure, "fonts: %s", wrong);
        arena_free(request.arena);
        return BELL_NO_FILE;
    }
    arena_at_end(request.arena, end_type, request.type);
    enum bell_status status = paint(making, sheet_make(making->sheet, &request));
    arena_free(request.arena);
    return status;
}

/* Is there a sheet called SHEET? Then MAKING is about it. */
static bool fits(const struct bell_sheet *sheet, struct sheet_making *making)
{
    *making = (struct sheet_making){.asked = sheet, .sheet = sheet->kind ? sheet_find(sheet->kind) : NULL,
                              .paper = sheet->paper ? paper_find(sheet->paper) : NULL,
                              .day = sheet->day ? session_read_day(sheet->day) : 0};
    return making->sheet && making->day && (!sheet->paper || making->paper) && sheet->page >= 0 &&
           (unsigned)sheet->format < BELL_SHEET_FORMATS && sheet->dots >= 0 && sheet->dots <= MOST_DOTS;
}

enum bell_status bell_sheet_make(struct bell_session *session, const struct bell_sheet *sheet, const char **bytes,
                                 size_t *length, int *pages)
{
    struct sheet_making making;
    if (!session || !sheet || !bytes || !length || !fits(sheet, &making))
        return BELL_BAD_ARGUMENT;
    *bytes = NULL;
    *length = 0;
    if (!session->compiled)
        return BELL_NOT_COMPILED;
    making.bytes.arena = session->compile;
    enum bell_status status = session_guard(session, make, &making);
    if (pages)
        *pages = status == BELL_OK ? making.pages : 0;
    if (status != BELL_OK)
        return status;
    *bytes = text_get(&making.bytes);
    *length = making.bytes.length;
    return BELL_OK;
}
