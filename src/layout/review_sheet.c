/* review_sheet.c - a camp as it turned out: phases and weeks, planned and done, what gave way and what was waived,
 * and of each athlete what was done, what the lifts point to, and tests first and last. All figures are
 * done/camp_review.h's. */
#include "done/camp_review.h"

#include <math.h>

#include "base/text.h"
#include "figures/dates.h"
#include "language/language.h"
#include "layout/chart.h"
#include "layout/flow.h"
#include "layout/frame.h"
#include "layout/strips.h"
#include "layout/test_results.h"
#include "model/athlete.h"
#include "model/exercise.h"
#include "model/log.h"
#include "model/season.h"
#include "wording/wording.h"

enum { COLUMNS_MOST = 5 };
static const double CHART = 118, GAP = 10, BAR = 110;

struct review_sheet {
    struct frame frame;
    const struct camp_review *review;
    struct strips strips;
    const char *section; /* that its next strip begins; NULL: it has begun */
    const char *heading;
};

static struct face face_of(const struct review_sheet *sheet, enum weight weight, enum ink ink)
{
    return frame_face(sheet->frame.first, weight, ink, RANK_FIRST);
}

/* --- words --- */

static const char *days_words(const struct review_sheet *sheet, int first, int last)
{
    struct arena *arena = sheet->frame.press.arena;
    return arena_printf(arena, said_as(arena, "days", "%s to\u00a0%s"), frame_day(arena, first), frame_day(arena, last));
}

static const char *whole(const struct review_sheet *sheet, milli value)
{
    return wording_number(sheet->frame.press.arena, (value + 500) / 1000 * 1000);
}

/* "12 of 14 (86 %)" */
static const char *share_words(const struct review_sheet *sheet, const struct adherence *kept, enum adherence_of of)
{
    const struct done_share *share = &kept->of[of];
    struct arena *arena = sheet->frame.press.arena;
    struct range percent;
    if (!kept->known)
        return said(arena, "no log");
    if (!kept_share(share, &percent))
        return share->done ? arena_printf(arena, said(arena, "%s, none planned"), whole(sheet, share->done))
                           : said(arena, "none planned");
    return arena_printf(arena, said_as(arena, "share", "%s of %s (%s\u00a0%%)"), whole(sheet, share->done),
                        whole(sheet, share->planned.high), whole(sheet, percent.low));
}

/* --- sections --- */

static struct box *heading_box(const struct review_sheet *sheet, const char *words)
{
    const struct frame *frame = &sheet->frame;
    struct box *box = box_new(frame->press.arena);
    struct face bold = frame_face(1.25 * frame->first, WEIGHT_BOLD, INK_BLACK, RANK_FIRST);
    bold.style.role = ROLE_HEADING;
    struct box *title = press_paragraph(&frame->press, words, bold, frame->inner, 0, 1, false);
    box_rectangle(box, 0, 0, frame->inner, 0.8, INK_BLACK, INK_NONE, 0);
    box_place(box, title, 0, 0.6 * bold.size);
    box->height = 0.6 * bold.size + title->height + 0.25 * bold.size;
    return box;
}

static void begin(struct review_sheet *sheet, const char *words)
{
    sheet->section = sheet->heading = words;
}

static void add(struct review_sheet *sheet, struct box *body, double before)
{
    bool first = sheet->section != NULL;
    struct box *heading = heading_box(sheet, sheet->heading);
    strips_add(&sheet->frame.press, &sheet->strips,
               (struct strip){.heading = heading, .again = heading, .body = body, .before = first ? 1.1 * sheet->frame.first : before,
                              .first = first, .title = sheet->section});
    sheet->section = NULL;
}

static void add_words(struct review_sheet *sheet, const char *words, double before)
{
    add(sheet, press_paragraph(&sheet->frame.press, words, face_of(sheet, WEIGHT_REGULAR, INK_BLACK), sheet->frame.inner, 0, 1,
                               false), before);
}

/* --- phases --- */

/* DONE within PLANNED, both on one scale. */
static void draw_bar(struct box *box, double x, double y, double height, milli done, milli planned, milli most)
{
    double scale = most > 0 ? BAR / (double)most : 0;
    box_rectangle(box, x, y, scale * (double)done, height, INK_GREY, INK_NONE, 0);
    box_rectangle(box, x, y, scale * (double)planned, height, INK_NONE, INK_BLACK, 0.8);
}

struct column {
    const char *head;
    double x;
};

/* A row of CELLS at COLUMNS, and of DAYS a bar of the load, MOST being as wide as a bar gets. */
static struct box *row_box(const struct review_sheet *sheet, const struct column *columns, const char *const *cells, size_t count,
                           const struct review_days *days, milli most, bool bold)
{
    const struct press *press = &sheet->frame.press;
    struct box *box = box_new(press->arena);
    struct face face = face_of(sheet, bold ? WEIGHT_BOLD : WEIGHT_REGULAR, INK_BLACK);
    double baseline = frame_capital(&sheet->frame, face.size);
    face.style.role = ROLE_CELL;
    box_open(box, ROLE_ROW);
    for (size_t i = 0; i < count; i++) {
        box_open(box, i ? ROLE_DATUM : ROLE_HEAD);
        press_put(press, box, columns[i].x, baseline, cells[i], face);
        box_close(box, i ? ROLE_DATUM : ROLE_HEAD);
    }
    box_close(box, ROLE_ROW);
    if (days)
        draw_bar(box, sheet->frame.inner - BAR, 0, baseline, days->kept.known ? days->kept.of[ADHERENCE_LOAD].done : 0,
                 days->load, most);
    box->height = 1.45 * face.size;
    box->width = sheet->frame.inner;
    return box;
}

static void add_days(const struct review_sheet *sheet, struct box *table, const struct column *columns, const struct review_days *days,
                     milli most)
{
    const char *const cells[COLUMNS_MOST] = {days->name ? days->name : said(table->arena, "whole camp"), days_words(sheet, days->first, days->last),
                                             arena_printf(table->arena, "%zu", days->planned),
                                             share_words(sheet, &days->kept, ADHERENCE_SESSIONS),
                                             share_words(sheet, &days->kept, ADHERENCE_LOAD)};
    frame_stack(table, row_box(sheet, columns, cells, COLUMNS_MOST, days->name ? days : NULL, most, !days->name), 2);
}

/* What is most of MOST and the load of DAYS, planned or done. */
static milli load_most(const struct review_days *days, milli most)
{
    milli done = days->kept.known ? days->kept.of[ADHERENCE_LOAD].done : 0;
    milli load = done > days->load ? done : days->load;
    return load > most ? load : most;
}

static struct box *phases_box(const struct review_sheet *sheet)
{
    struct arena *arena = sheet->frame.press.arena;
    const char *const heads[COLUMNS_MOST] = {"", said(arena, "days"), said(arena, "planned"), said(arena, "sessions done"),
                                             said(arena, "session load done")};
    const struct camp_review *review = sheet->review;
    double inner = sheet->frame.inner, widths[COLUMNS_MOST] = {0.17, 0.18, 0.09, 0.165, 0.2};
    struct column columns[COLUMNS_MOST];
    double x = 0;
    struct box *table = box_new(arena);
    milli most = 0;
    for (size_t i = 0; i < review->phase_count; i++)
        most = load_most(&review->phases[i], most);
    for (size_t i = 0; i < COLUMNS_MOST; i++) {
        columns[i] = (struct column){heads[i], x};
        x += widths[i] * inner;
    }
    box_open(table, ROLE_TABLE);
    frame_stack(table, row_box(sheet, columns, heads, COLUMNS_MOST, NULL, 0, true), 0);
    for (size_t i = 0; i < review->phase_count; i++)
        add_days(sheet, table, columns, &review->phases[i], most);
    add_days(sheet, table, columns, &review->all, most);
    box_close(table, ROLE_TABLE);
    return table;
}

/* What gave way to what matters more. */
static void add_cuts(struct review_sheet *sheet)
{
    struct arena *arena = sheet->frame.press.arena;
    const struct camp_review *review = sheet->review;
    for (size_t i = 0; i < review->camp->left_phase_count; i++)
        add_words(sheet, arena_printf(arena, said(arena, "%s was left out: there were too few days before the bout."),
                                      review->camp->left_phases[i].shown), 5);
    for (size_t i = 0; i < review->shorter_count; i++) {
        const struct phase *phase = review->shorter[i];
        add_words(sheet, arena_printf(arena, said(arena, "%s had %d of its full %d days."), phase->name.shown,
                                      phase->last - phase->first + 1, phase->longest), 5);
    }
}

/* --- weeks --- */

/* The load of each week: what was done, and above it what was planned and not done. */
static struct box *weeks_box(const struct review_sheet *sheet, const struct review_days *weeks, size_t count, const char *title,
                             double height)
{
    struct arena *arena = sheet->frame.press.arena;
    double *done = arena_alloc(arena, (count + 1) * sizeof *done), *left = arena_alloc(arena, (count + 1) * sizeof *left);
    double *edges = arena_alloc(arena, (count + 1) * sizeof *edges);
    const char **names = arena_alloc(arena, (count + 1) * sizeof(char *));
    for (size_t w = 0; w < count; w++) {
        milli kept = weeks[w].kept.known ? weeks[w].kept.of[ADHERENCE_LOAD].done : 0;
        edges[w + 1] = (double)(w + 1) / (double)count;
        done[w] = (double)kept / 1000;
        left[w] = fmax(0, (double)(weeks[w].load - kept) / 1000);
        names[w] = count <= 16 || w % 2 == 0 ? arena_printf(arena, "%zu", w + 1) : "";
    }
    struct chart chart = {.title = title, .unit = said(arena, "RPE \u00d7 min"), .columns = count, .names = names, .edges = edges,
                          .nothing = said(arena, "no effort planned for whole sessions")};
    chart.bars[chart.bar_count++] = (struct chart_series){said(arena, "done"), SHADE_HALF, done};
    chart.bars[chart.bar_count++] = (struct chart_series){said(arena, "planned, not done"), SHADE_OPEN, left};
    struct chart_frame frame = {.left = 104, .width = sheet->frame.inner - 104, .right = 0, .height = height,
                                .size = sheet->frame.second, .rank = RANK_SECOND};
    return chart_box(&sheet->frame.press, &chart, &frame);
}

/* --- one athlete --- */

static const char *estimate_words(const struct review_sheet *sheet, const struct lift_estimate *one)
{
    struct arena *arena = sheet->frame.press.arena;
    enum mass_unit unit = mass_written_in(one->maximum);
    int day = one->line->log->date;
    const char *last = arena_printf(arena, said(arena, "%s on %s (%s to\u00a0%s)"), wording_mass(arena, one->maximum, unit, false),
                                    frame_day(arena, day), wording_mass(arena, one->low, unit, false),
                                    wording_mass(arena, one->high, unit, false));
    if (!one->first_day || one->first_day >= day)
        return last;
    const char *first = arena_printf(arena, said(arena, "%s on %s"), wording_mass(arena, one->first, unit, false),
                                     frame_day(arena, one->first_day));
    return arena_printf(arena, said(arena, "%s, then %s"), first, last);
}

static const char *day_result_words(struct arena *arena, const struct test *test, const struct test_value *value)
{
    return arena_printf(arena, said(arena, "%s on %s"), result_words(arena, test, value->value), frame_day(arena, value->date));
}

static const char *test_result_words(const struct review_sheet *sheet, const struct review_test *one)
{
    struct arena *arena = sheet->frame.press.arena;
    const char *first = day_result_words(arena, one->test, &one->first);
    if (one->last.date == one->first.date)
        return first;
    const char *words = arena_printf(arena, said(arena, "%s, then %s"), first, day_result_words(arena, one->test, &one->last));
    const char *verdict = said_as(arena, "verdict", test_verdict_words(one->change.verdict));
    const char *least = one->change.error > 0 ? arena_printf(arena, said(arena, " (up\u00a0to\u00a0%s)"),
                                                             result_words(arena, one->test, one->change.least)) : "";
    return arena_printf(arena, "%s: %s%s", words, verdict, least);
}

/* NAME, and beside it WORDS. */
static void add_fact(const struct review_sheet *sheet, struct box *table, const char *name, const char *words)
{
    const struct press *press = &sheet->frame.press;
    struct box *row = box_new(press->arena);
    double names = 0.3 * sheet->frame.inner;
    struct box *lead = press_paragraph(press, name, face_of(sheet, WEIGHT_REGULAR, INK_GREY), names - GAP, 0, 1, false);
    struct box *body = press_paragraph(press, words, face_of(sheet, WEIGHT_REGULAR, INK_BLACK), sheet->frame.inner - names, 0,
                                       1, false);
    box_open(row, ROLE_ROW);
    box_place_as(row, ROLE_HEAD, lead, 0, 0);
    box_place_as(row, ROLE_DATUM, body, names, 0);
    box_close(row, ROLE_ROW);
    row->height = fmax(lead->height, body->height);
    frame_stack(table, row, 2.5);
}

/* "single leg hop, left" */
static const char *test_name(struct arena *arena, const struct review_test *one)
{
    const char *name = said_as(arena, "test", one->test->name.shown);
    return one->side ? arena_printf(arena, "%s, %s", name, said_as(arena, "side", test_side_words(one->side))) : name;
}

static void add_facts(const struct review_sheet *sheet, struct box *table, const struct review_athlete *own)
{
    struct arena *arena = table->arena;
    add_fact(sheet, table, said(arena, "done of what was planned"),
             own->all.kept.known
                 ? arena_printf(arena, said(arena, "sessions %s; sets %s; load %s"), share_words(sheet, &own->all.kept, ADHERENCE_SESSIONS),
                                share_words(sheet, &own->all.kept, ADHERENCE_SETS),
                                share_words(sheet, &own->all.kept, ADHERENCE_LOAD))
                 : said(arena, "no log"));
    for (size_t i = 0; i < own->estimate_count; i++)
        add_fact(sheet, table, arena_printf(arena, said(arena, "%s, estimated maximum"), wording_exercise(arena, own->estimates[i].exercise)),
                 estimate_words(sheet, &own->estimates[i]));
    for (size_t i = 0; i < own->test_count; i++)
        add_fact(sheet, table, test_name(arena, &own->tests[i]),
                 test_result_words(sheet, &own->tests[i]));
    for (size_t i = 0; i < own->hold_count; i++)
        add_fact(sheet, table, said(arena, "on hold"),
                 own->holds[i].ended ? days_words(sheet, own->holds[i].since, own->holds[i].ended)
                                     : arena_printf(arena, said(arena, "from\u00a0%s, not ended"), frame_day(arena, own->holds[i].since)));
}

static void add_athlete(struct review_sheet *sheet, const struct review_athlete *own)
{
    struct box *table = box_new(sheet->frame.press.arena);
    begin(sheet, own->athlete->name.shown);
    box_open(table, ROLE_TABLE);
    add_facts(sheet, table, own);
    box_close(table, ROLE_TABLE);
    add(sheet, table, 0);
}

/* --- the whole --- */

static void add_waivers(struct review_sheet *sheet)
{
    struct arena *arena = sheet->frame.press.arena;
    for (size_t i = 0; i < sheet->review->waiver_count; i++) {
        const struct waiver *waiver = sheet->review->waivers[i];
        if (i == 0)
            begin(sheet, said(arena, "Waived"));
        add_words(sheet, arena_printf(arena, "%s, %s: %s", waiver->check, days_words(sheet, waiver->first, waiver->last),
                                      waiver->because), 4);
    }
}

static void add_all(struct review_sheet *sheet)
{
    const struct camp_review *review = sheet->review;
    begin(sheet, said(sheet->frame.press.arena, "Planned and done"));
    add(sheet, phases_box(sheet), 0);
    add_cuts(sheet);
    add(sheet, weeks_box(sheet, review->weeks, review->week_count, said(sheet->frame.press.arena, "Load by week"), CHART), 12);
    add_waivers(sheet);
    for (size_t i = 0; i < review->athlete_count; i++)
        add_athlete(sheet, &review->athletes[i]);
}

static struct box *key_box(const struct review_sheet *sheet)
{
    return press_paragraph(&sheet->frame.press,
                           said(sheet->frame.press.arena,
                                "Done is what logs say of the days so far. A bar's outline is the planned load, its filled part "
                                "the load done. Maxima are estimates from logged sets, each with the range that its error leaves; "
                                "a change within a test's error may be no change at all."),
                           frame_face(sheet->frame.foot, WEIGHT_REGULAR, INK_BLACK, RANK_FOOT), sheet->frame.inner, 0, 1, false);
}

static void add_pages(struct scene *scene, const struct review_sheet *sheet, const struct frame_title *title)
{
    struct box *key = key_box(sheet), *foot = frame_foot(&sheet->frame, &key, 1);
    flow_pages(scene, &sheet->frame, title, &sheet->strips, foot, NULL);
}

static const char *beside_words(const struct review_sheet *sheet)
{
    const struct camp_review *review = sheet->review;
    const struct camp *camp = review->camp;
    struct arena *arena = sheet->frame.press.arena;
    struct text out = {.arena = arena};
    const char *weeks = arena_printf(arena, said_count(arena, camp->weeks, "%d week", "%d weeks"), camp->weeks);
    const char *athletes = arena_printf(arena, said_count(arena, (long)review->athlete_count, "%zu athlete", "%zu athletes"),
                                        review->athlete_count);
    text_addf(&out, said(arena, "The camp as it turned out: %s, %s"), weeks, athletes);
    for (size_t i = 0; i < camp->bout_count; i++) {
        const struct bout *bout = camp->bouts[i];
        const char *words = wording_bout(arena, bout);
        text_addf(&out, said(arena, "; bout on %s"), frame_day(arena, bout->day));
        text_addf(&out, "%s%s", *words ? ": " : "", words);
    }
    return text_keep(arena, &out);
}

static bool names_private(const struct camp_review *review)
{
    bool any = false;
    for (size_t i = 0; i < review->athlete_count; i++) {
        any |= review->athletes[i].hold_count > 0;
        for (size_t t = 0; t < review->athletes[i].test_count; t++)
            any |= review->athletes[i].tests[t].first.private || review->athletes[i].tests[t].last.private;
    }
    return any;
}

struct scene *review_scene(const struct sheet_request *request)
{
    struct review_sheet sheet = {.frame = frame_of(request), .review = request->review};
    const char *own = names_private(request->review)
                          ? said_guard(request->arena, "The coach's own copy: some of this is private. Do not hang it up.")
                          : "";
    struct frame_title title = {.title = request->review->camp->name.shown, .beside = beside_words(&sheet),
                                .when = request->date_words, .then = "", .provisional = own};
    struct scene *scene = frame_scene(&sheet.frame, arena_printf(request->arena, said(request->arena, "%s, review"), title.title),
                                      "review");
    add_all(&sheet);
    scene->description = arena_printf(request->arena, said(request->arena, "%s. Sessions done: %s; session load: %s."), title.beside,
                                      share_words(&sheet, &request->review->all.kept, ADHERENCE_SESSIONS),
                                      share_words(&sheet, &request->review->all.kept, ADHERENCE_LOAD));
    add_pages(scene, &sheet, &title);
    frame_report_reach(scene, &sheet.frame);
    return scene;
}
