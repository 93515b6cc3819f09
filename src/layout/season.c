/* season.c - one athlete's year on a page: camps and what happened on one axis, and below it the load of each week. */
#include <math.h>

#include "figures/dates.h"
#include "language/language.h"
#include "layout/chart.h"
#include "layout/season_page.h"
#include "measure/tally.h"
#include "model/athlete.h"
#include "model/exercise.h"
#include "model/occasion.h"
#include "model/season.h"
#include "wording/wording.h"

enum { CHARTS = 3 };
static const double GAP = 9, CHART_MOST = 190;

struct year {
    struct season_sheet sheet;
    const struct athlete *athlete;
    struct tally *tallies; /* of each week */
};

static struct year year_of(const struct sheet_request *request)
{
    struct year year = {.sheet = season_sheet_of(request, 122, 40), .athlete = request->occasions[0]->athlete};
    struct season_sheet *sheet = &year.sheet;
    year.tallies = arena_alloc(request->arena, sheet->weeks * sizeof *year.tallies);
    for (size_t i = 0; i < request->count; i++) {
        int week = (request->occasions[i]->date - sheet->first) / 7;
        if (week >= 0 && (size_t)week < sheet->weeks)
            tally_occasion(&year.tallies[week], request->occasions[i]);
    }
    return year;
}

/* --- rows --- */

/* Bests of the season, which are what there is of tests; none that only the private file has. */
static void add_bests(const struct year *year, struct season_marks *marks)
{
    struct arena *arena = year->sheet.frame.press.arena;
    for (size_t i = 0; i < year->athlete->best_count; i++) {
        const struct best *best = &year->athlete->bests[i];
        if (best->private)
            continue;
        const char *load = wording_mass(arena, best->load, mass_written_in(best->load), year->athlete->pounds);
        const char *words = arena_printf(arena, "%s %s" WORDING_GAP WORDING_TIMES WORDING_GAP "%s", wording_exercise(arena, best->exercise),
                                         wording_number(arena, best->reps), load);
        season_add(&year->sheet, marks, (struct season_mark){best->date, best->date, words, INK_BLACK, false});
    }
}

static const char *restriction_days(struct arena *arena, const struct avoid *avoid)
{
    if (!avoid->since)
        return "";
    const char *since = frame_day(arena, avoid->since);
    return avoid->ended ? arena_printf(arena, said(arena, "from\u00a0%s to\u00a0%s"), since, frame_day(arena, avoid->ended))
                        : arena_printf(arena, said(arena, "from\u00a0%s"), since);
}

/* From when to when something is restricted; what it is stands on the coach's own copy alone. */
static void add_restrictions(const struct year *year, struct season_marks *marks)
{
    struct arena *arena = year->sheet.frame.press.arena;
    bool coach = year->sheet.frame.request->coach;
    for (size_t i = 0; i < year->athlete->avoid_count; i++) {
        const struct avoid *avoid = &year->athlete->avoids[i];
        if (avoid->private)
            continue;
        int last = avoid->ended ? avoid->ended : DATE_LAST;
        const char *words = coach ? arena_printf(arena, said(arena, "avoids %s"), wording_avoid(arena, avoid))
                                  : said(arena, "something left out");
        words = arena_printf(arena, "%s %s", words, restriction_days(arena, avoid));
        season_add(&year->sheet, marks, (struct season_mark){avoid->since, last, words, INK_HAIR, false});
    }
}

/* All rows, one under the other. */
static struct box *rows_box(const struct year *year)
{
    struct box *box = box_new(year->sheet.frame.press.arena);
    struct season_marks bouts = {0}, tests = {0}, absences = {0}, restrictions = {0};
    season_add_bouts(&year->sheet, &bouts, year->athlete, true);
    add_bests(year, &tests);
    season_add_absences(&year->sheet, &absences, year->athlete);
    add_restrictions(year, &restrictions);
    frame_stack(box, season_camps(&year->sheet, said(box->arena, "camps and phases"), year->athlete), 0);
    frame_stack(box, season_row(&year->sheet, said(box->arena, "bouts"), &bouts), 6);
    frame_stack(box, season_row(&year->sheet, said(box->arena, "bests tested"), &tests), 6);
    frame_stack(box, season_row(&year->sheet, said(box->arena, "absences"), &absences), 6);
    frame_stack(box, season_row(&year->sheet, said(box->arena, "restrictions"), &restrictions), 6);
    return box;
}

/* --- charts --- */

static double *sums(const struct year *year, enum counted counted)
{
    double *values = arena_alloc(year->sheet.frame.press.arena, year->sheet.weeks * sizeof *values);
    for (size_t w = 0; w < year->sheet.weeks; w++) {
        const struct tally *tally = &year->tallies[w];
        struct range range = counted == COUNTED_SESSION_LOAD ? tally_load(tally) : tally->sum[counted];
        values[w] = (double)range.high / 1000;
    }
    return values;
}

static struct box *chart_at(const struct year *year, size_t index, double height)
{
    static const struct {
        const char *title, *unit;
        enum counted counted;
        const char *nothing;
    } rows[CHARTS] = {
        {SAID("Session load"), SAID("RPE \u00d7 min, a week"), COUNTED_SESSION_LOAD, SAID("no effort planned for whole sessions")},
        {SAID("Sparring"), SAID("rounds a week"), COUNTED_SPARRING_ROUNDS, SAID("no rounds planned")},
        {SAID("Heavy lifts"), SAID("80\u00a0% and up, a week"), COUNTED_HEAVY_LIFTS, SAID("none planned")}};
    const struct season_sheet *sheet = &year->sheet;
    struct arena *arena = sheet->frame.press.arena;
    struct chart chart = {.title = said(arena, rows[index].title), .unit = said(arena, rows[index].unit), .columns = sheet->weeks,
                          .edges = sheet->edges, .nothing = said(arena, rows[index].nothing)};
    chart.bars[chart.bar_count++] = (struct chart_series){"", SHADE_PALE, sums(year, rows[index].counted)};
    struct chart_frame frame = {.left = sheet->left, .width = sheet->width, .right = sheet->right, .height = height,
                                .size = sheet->frame.second, .rank = RANK_SECOND};
    return chart_box(&sheet->frame.press, &chart, &frame);
}

/* --- the page --- */

static const char *describe(const struct year *year)
{
    struct arena *arena = year->sheet.frame.press.arena;
    const struct season *season = year->sheet.season;
    return arena_printf(arena, said(arena, "The season %s of %s, %s to %s, by weeks."), season->name.shown,
                        year->athlete->name.shown, frame_day(arena, season->first), frame_day(arena, season->last));
}

static struct box *key_box(const struct season_sheet *sheet)
{
    return press_paragraph(&sheet->frame.press,
                           said(sheet->frame.press.arena,
                                "A week's load is what the logs say, or what was planned where there are none. Weeks begin "
                                "on Monday and are numbered through the year (ISO 8601)."),
                           frame_face(sheet->frame.foot, WEIGHT_REGULAR, INK_BLACK, RANK_FOOT), sheet->frame.inner, 0, 1,
                           false);
}

/* A line through the charts on each day of a bout. */
static void draw_bouts(const struct year *year, struct box *page, double top, double bottom)
{
    const struct season_sheet *sheet = &year->sheet;
    struct season_marks bouts = {0};
    season_add_bouts(sheet, &bouts, year->athlete, false);
    for (size_t i = 0; i < bouts.count; i++)
        if (bouts.items[i].fill == INK_SPOT)
            box_line(page, sheet->frame.margin + season_x(sheet, bouts.items[i].first), top, 0, bottom - top, 1.2, INK_SPOT);
}

/* A page with its title and axis, down to *TOP, and the months' lines down to BOTTOM. */
static struct box *open_page(struct scene *scene, const struct season_sheet *sheet, const struct frame_title *title,
                             double *top, double bottom)
{
    const struct frame *frame = &sheet->frame;
    bool again = scene->page_count > 0;
    struct box *page = scene_page(scene), *header = frame_header(frame, title, again);
    box_place(page, header, frame->margin, frame->margin);
    *top = frame->margin + header->height;
    struct box *axis = season_axis(sheet);
    box_place(page, axis, frame->margin, *top);
    *top += axis->height;
    season_uprights(sheet, page, *top, bottom - 3);
    *top += 4;
    return page;
}

/* The charts below the rows, or on a page of their own where the rows leave too little room. */
static void add_pages(struct scene *scene, const struct year *year, const struct frame_title *title, double bottom)
{
    const struct season_sheet *sheet = &year->sheet;
    const struct frame *frame = &sheet->frame;
    struct box *rows = rows_box(year);
    double top, least = (double)CHARTS * (48 + GAP);
    struct box *page = open_page(scene, sheet, title, &top, bottom);
    bool fits = bottom - top - rows->height >= least;
    box_place(page, rows, frame->margin, top);
    top += rows->height;
    if (!fits)
        page = open_page(scene, sheet, title, &top, bottom);
    draw_bouts(year, page, top, bottom - 3);
    double pitch = fmin(CHART_MOST, (bottom - top - GAP) / (double)CHARTS);
    for (size_t i = 0; i < CHARTS; i++)
        box_place(page, chart_at(year, i, pitch - GAP - 3), frame->margin, top + GAP + pitch * (double)i);
}

struct scene *season_scene(const struct sheet_request *request)
{
    const struct year year = year_of(request);
    const struct frame *frame = &year.sheet.frame;
    struct frame_title title = season_title(&year.sheet, year.athlete->name.shown);
    struct scene *scene = frame_scene(
        frame, arena_printf(request->arena, said(request->arena, "%s, season %s"), title.title, request->season->name.shown),
        "season sheet");
    struct box *key = key_box(&year.sheet), *foot = frame_foot(frame, &key, 1);
    double bottom = frame->height - frame->margin - frame_last_line(frame, 1, 1)->height - foot->height;
    scene->description = describe(&year);
    add_pages(scene, &year, &title, bottom);
    season_finish(&year.sheet, scene, foot, bottom);
    return scene;
}
