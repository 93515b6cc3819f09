/* camp_charts.c - what a camp's weeks contain, as charts with their limits. */
#include <math.h>
#include <string.h>

#include "base/text.h"
#include "done/adherence.h"
#include "done/as_done.h"
#include "figures/dates.h"
#include "language/language.h"
#include "layout/camp.h"
#include "layout/totals.h"
#include "measure/demand.h"
#include "model/occasion.h"
#include "model/season.h"
#include "wording/wording.h"

/* --- weeks --- */

static double heaviest_of(const struct occasion *occasion)
{
    milli most = 0;
    for (size_t b = 0; b < occasion->block_count; b++)
        for (size_t i = 0; i < occasion->blocks[b].item_count; i++) {
            const struct item *item = &occasion->blocks[b].items[i];
            for (size_t r = 0; r < item->run_count; r++) {
                struct range percent =
                    run_percent(occasion->athlete, item->exercise, &item->runs[r], occasion->date);
                most = percent.high > most ? percent.high : most;
            }
        }
    return most > 0 ? (double)most / 1000 : NAN;
}

/* What was done in the weeks up to the athlete's last log or yesterday. */
static void add_done(struct camp_sheet *sheet)
{
    const struct sheet_request *request = sheet->frame.request;
    int last = adherence_last(request->programme, request->occasions[0]->athlete);
    if (last < sheet->first)
        return;
    size_t gone = (size_t)(last - sheet->first) / 7 + 1;
    sheet->weeks_gone = gone < sheet->weeks ? gone : sheet->weeks;
    sheet->done = arena_alloc(request->arena, sheet->weeks * sizeof *sheet->done);
    sheet->heaviest_done = arena_alloc(request->arena, sheet->weeks * sizeof *sheet->heaviest_done);
    for (size_t w = 0; w < sheet->weeks; w++)
        sheet->heaviest_done[w] = NAN;
    for (size_t i = 0; i < request->count; i++) {
        const struct occasion *occasion = request->occasions[i];
        size_t w = (size_t)(occasion->week - 1);
        if (w >= sheet->weeks_gone || occasion->date > last || !occasion_done(occasion))
            continue;
        struct occasion kept = occasion_as_done(request->arena, occasion);
        tally_occasion(&sheet->done[w], &kept);
        sheet->heaviest_done[w] = fmax(sheet->heaviest_done[w], heaviest_of(&kept));
    }
}

/* The limits that are waived, each reason once. */
static void add_notes(struct camp_sheet *sheet)
{
    const struct sheet_request *request = sheet->frame.request;
    sheet->notes = arena_alloc(request->arena, CAMP_NOTES * sizeof *sheet->notes);
    for (size_t i = 0; i < request->bound_count; i++) {
        const struct sheet_bound *bound = &request->bounds[i];
        size_t at = 0;
        if (!bound->waived)
            continue;
        while (at < sheet->note_count &&
               (sheet->notes[at].counted != bound->counted || strcmp(sheet->notes[at].because, bound->waived) != 0))
            at++;
        if (at == CAMP_NOTES)
            continue;
        if (at == sheet->note_count)
            sheet->notes[sheet->note_count++] = (struct camp_note){
                bound->counted, bound->waived, arena_alloc(request->arena, sheet->weeks * sizeof(bool))};
        sheet->notes[at].weeks[bound->week - 1] = true;
    }
}

const char *camp_notes_words(const struct camp_sheet *sheet)
{
    struct arena *arena = sheet->frame.press.arena;
    struct text out = {.arena = arena};
    for (size_t i = 0; i < sheet->note_count; i++) {
        const struct camp_note *note = &sheet->notes[i];
        struct text weeks = {.arena = arena};
        int count = 0;
        for (size_t w = 0; w < sheet->weeks; w++)
            if (note->weeks[w])
                text_addf(&weeks, "%s%zu", count++ ? ", " : "", w + 1);
        text_addf(&out, said_count(arena, (long)count, "%s%c\u00a0\u00a0week %s, %s: waived, because %s.",
                                   "%s%c\u00a0\u00a0weeks %s, %s: waived, because %s."),
                  i ? "   " : "", 'a' + (char)i, text_keep(arena, &weeks), said_as(arena, "count", counted_name(arena, note->counted)),
                  note->because);
    }
    return text_keep(arena, &out);
}

struct camp_sheet camp_sheet_of(const struct sheet_request *request)
{
    struct camp_sheet sheet = {.frame = frame_of(request), .camp = request->occasions[0]->camp};
    const struct camp *camp = sheet.camp;
    struct arena *arena = request->arena;
    sheet.first = date_monday(camp->first);
    sheet.weeks = camp->weeks > 0 ? (size_t)camp->weeks : 1;
    sheet.tallies = arena_alloc(arena, sheet.weeks * sizeof *sheet.tallies);
    sheet.heaviest = arena_alloc(arena, sheet.weeks * sizeof *sheet.heaviest);
    sheet.edges = arena_alloc(arena, (sheet.weeks + 1) * sizeof *sheet.edges);
    for (size_t w = 0; w <= sheet.weeks; w++)
        sheet.edges[w] = (double)w / (double)sheet.weeks;
    for (size_t w = 0; w < sheet.weeks; w++)
        sheet.heaviest[w] = NAN;
    for (size_t i = 0; i < request->count; i++) {
        const struct occasion *occasion = request->occasions[i];
        size_t w = (size_t)(occasion->week - 1);
        if (w >= sheet.weeks) /* nor is a week below 1, as a size */
            continue;
        tally_occasion(&sheet.tallies[w], occasion);
        sheet.heaviest[w] =
            fmax(sheet.heaviest[w], heaviest_of(occasion)); /* fmax passes over NAN */
    }
    add_done(&sheet);
    add_notes(&sheet);
    sheet.left = 122;
    sheet.right = 122;
    sheet.width = sheet.frame.inner - sheet.left - sheet.right;
    return sheet;
}

/* --- values --- */

static double *no_values(const struct camp_sheet *sheet)
{
    double *values = arena_alloc(sheet->frame.press.arena, sheet->weeks * sizeof *values);
    for (size_t w = 0; w < sheet->weeks; w++)
        values[w] = NAN;
    return values;
}

/* The top of COUNTED in a week. */
static double sum_of(const struct tally *week, enum counted counted)
{
    return (double)week->sum[counted].high / 1000;
}

/* The top of a sided COUNTED in a week, of the busier side. */
static double busier_side(const struct tally *week, enum counted counted)
{
    milli left = week->side[counted][SIDE_LEFT].high, right = week->side[counted][SIDE_RIGHT].high;
    return (double)(left > right ? left : right) / 1000;
}

typedef double of_week(const struct tally *week, enum counted counted);

/* What OF makes of COUNTED in each of the first COUNT of WEEKS. */
static double *values_of(const struct camp_sheet *sheet, const struct tally *weeks, size_t count, of_week *of,
                         enum counted counted)
{
    double *values = no_values(sheet);
    for (size_t w = 0; w < count; w++)
        values[w] = of(&weeks[w], counted);
    return values;
}

static double *planned(const struct camp_sheet *sheet, of_week *of, enum counted counted)
{
    return values_of(sheet, sheet->tallies, sheet->weeks, of, counted);
}

/* What was done of it; NULL where no log tells. */
static double *done(const struct camp_sheet *sheet, of_week *of, enum counted counted)
{
    return sheet->done ? values_of(sheet, sheet->done, sheet->weeks_gone, of, counted) : NULL;
}

static double *sums(const struct camp_sheet *sheet, enum counted counted)
{
    return planned(sheet, sum_of, counted);
}

/* What is left of WHOLE above PART. */
static double *rest_of(const struct camp_sheet *sheet, const double *whole, const double *part)
{
    double *values = no_values(sheet);
    for (size_t w = 0; w < sheet->weeks; w++)
        values[w] = fmax(0, whole[w] - part[w]);
    return values;
}

/* --- limits --- */

/* Where of the plot's width DAY begins. */
static double share_of(const struct camp_sheet *sheet, int day)
{
    return fmax(0, fmin(1, (double)(day - sheet->first) / (double)(7 * sheet->weeks)));
}

/* The phase that BOUND was set for, or NULL. */
static const struct phase *phase_of(const struct camp_sheet *sheet, const struct sheet_bound *bound)
{
    for (size_t i = 0; bound->only && i < sheet->camp->phase_count; i++)
        if (strcmp(sheet->camp->phases[i].name.shown, bound->only) == 0)
            return &sheet->camp->phases[i];
    return NULL;
}

/* The line of BOUND, called WORDS; that of a phase runs over the phase's own days. NULL where a chart has no more
 * room. */
static struct chart_limit *limit_of(const struct camp_sheet *sheet, struct chart *chart,
                                    const struct sheet_bound *bound, const char *words)
{
    for (size_t i = 0; i < chart->limit_count; i++)
        if (strcmp(chart->limits[i].words, words) == 0)
            return &chart->limits[i];
    if (chart->limit_count == CHART_LIMITS)
        return NULL;
    struct chart_limit *limit = &chart->limits[chart->limit_count++];
    const struct phase *phase = phase_of(sheet, bound);
    *limit = (struct chart_limit){.words = words, .values = no_values(sheet)};
    if (phase) {
        limit->left = share_of(sheet, phase->first);
        limit->right = share_of(sheet, phase->last + 1);
    }
    return limit;
}

/* Adds VALUE in WEEK, and in the weeks that the bound's phase shares with another. */
static void put_limit(const struct camp_sheet *sheet, struct chart *chart, size_t week,
                      const struct sheet_bound *bound, const char *words, double value)
{
    struct chart_limit *limit = limit_of(sheet, chart, bound, words);
    if (!limit)
        return;
    double *values = (double *)limit->values;
    values[week] = value;
    if (limit->right <= 0)
        return;
    for (size_t w = 0; w < sheet->weeks; w++)
        if (isnan(values[w]) && sheet->edges[w] < limit->right && sheet->edges[w + 1] > limit->left)
            values[w] = value;
}

/* "heavy: at most 60 in strength". */
static const char *limit_words(struct arena *arena, const struct sheet_bound *bound,
                               const char *lead)
{
    return arena_printf(arena, "%s%s%s%s", lead, bound_words(arena, bound),
                        bound->only ? said(arena, " in ") : "", bound->only ? bound->only : "");
}

/* Adds END of BOUND, if it says anything. A ceiling is drawn as the limit says it, over the days of its phase; a floor as
 * it is lowered, week by week. */
static void put_end(const struct camp_sheet *sheet, struct chart *chart, size_t week,
                    const struct sheet_bound *bound, const struct sheet_end *end, const char *lead)
{
    struct sheet_bound alone = *bound;
    bool most = end == &bound->most;
    milli value = most ? end->whole : end->value;
    alone.most.value = value;
    *(most ? &alone.least : &alone.most) = (struct sheet_end){0};
    if (end->asked)
        put_limit(sheet, chart, week, bound, limit_words(sheet->frame.press.arena, &alone, lead), (double)value / 1000);
}

/* Puts the letters of COUNTED's waived limits behind the numbers of their weeks. */
static void add_marks(const struct camp_sheet *sheet, struct chart *chart, enum counted counted)
{
    struct arena *arena = sheet->frame.press.arena;
    for (size_t i = 0; i < sheet->note_count; i++) {
        const struct camp_note *note = &sheet->notes[i];
        if (note->counted != counted)
            continue;
        const char **marks = arena_alloc(arena, sheet->weeks * sizeof *marks);
        for (size_t w = 0; w < sheet->weeks; w++) {
            const char *before = chart->marks ? chart->marks[w] : "";
            marks[w] = note->weeks[w] ? arena_printf(arena, "%s%c", before, 'a' + (char)i) : before;
        }
        chart->marks = marks;
    }
}

/* The limits on COUNTED, each over the weeks in which it applies. LEAD says which part of the chart is meant. */
static void add_limits(const struct camp_sheet *sheet, struct chart *chart, enum counted counted,
                       bool sided, const char *lead)
{
    add_marks(sheet, chart, counted);
    for (size_t w = 0; w < sheet->weeks; w++) {
        size_t index = 0;
        for (const struct sheet_bound *bound;
             (bound = bound_next(sheet->frame.request, counted, (int)w + 1, &index)) != NULL;) {
            if (bound->against != COUNTED_NONE || bound->a_side != sided)
                continue;
            put_end(sheet, chart, w, bound, &bound->most, lead);
            put_end(sheet, chart, w, bound, &bound->least, lead);
        }
    }
}

static bool any_sided(const struct camp_sheet *sheet, enum counted counted)
{
    const struct sheet_request *request = sheet->frame.request;
    for (size_t i = 0; i < request->bound_count; i++)
        if (request->bounds[i].counted == counted && request->bounds[i].a_side)
            return true;
    return false;
}

/* Where a rise of the load over the weeks before would become too steep. */
static void add_rise(const struct camp_sheet *sheet, struct chart *chart)
{
    struct arena *arena = sheet->frame.press.arena;
    add_marks(sheet, chart, COUNTED_LOAD_RISE);
    for (size_t w = 1; w < sheet->weeks; w++) {
        size_t index = 0;
        const struct sheet_bound *bound =
            bound_next(sheet->frame.request, COUNTED_LOAD_RISE, (int)w + 1, &index);
        if (bound && bound->most.asked && bound->from > 0)
            put_limit(sheet, chart, w, bound,
                      arena_printf(arena, said(arena, "rise of at most %s"),
                                   counted_amount(arena, COUNTED_LOAD_RISE, bound->most.value)),
                      (double)bound->from / 1000 * (1 + (double)bound->most.value / 100000));
    }
}

/* --- charts --- */

static struct chart chart_of(const struct camp_sheet *sheet, const char *title, const char *unit)
{
    return (struct chart){.title = title,
                          .unit = unit,
                          .columns = sheet->weeks,
                          .edges = sheet->edges,
                          .nothing = said(sheet->frame.press.arena, "nothing planned")};
}

static struct chart chart_load(const struct camp_sheet *sheet)
{
    struct chart chart = chart_of(sheet, said(sheet->frame.press.arena, "Session load"), said(sheet->frame.press.arena, "RPE \u00d7 min"));
    const double *loads = sums(sheet, COUNTED_SESSION_LOAD);
    chart.bars[chart.bar_count++] = (struct chart_series){"", SHADE_PALE, loads};
    chart.done = done(sheet, sum_of, COUNTED_SESSION_LOAD);
    chart.nothing = said(sheet->frame.press.arena, "no effort planned for whole sessions");
    add_limits(sheet, &chart, COUNTED_SESSION_LOAD, false, "");
    add_rise(sheet, &chart);
    return chart;
}

static struct chart chart_sets(const struct camp_sheet *sheet)
{
    struct chart chart = chart_of(sheet, said(sheet->frame.press.arena, "Sets"), "");
    double *strength = sums(sheet, (int)COUNTED_KIND_SETS + EXERCISE_STRENGTH);
    double *power = sums(sheet, (int)COUNTED_KIND_SETS + EXERCISE_POWER);
    double *others = rest_of(sheet, sums(sheet, COUNTED_SETS), strength);
    others = rest_of(sheet, others, power);
    chart.bars[chart.bar_count++] = (struct chart_series){said_as(sheet->frame.press.arena, "bars", "strength"), SHADE_FULL, strength};
    chart.bars[chart.bar_count++] = (struct chart_series){said_as(sheet->frame.press.arena, "bars", "power"), SHADE_PALE, power};
    chart.bars[chart.bar_count++] = (struct chart_series){said_as(sheet->frame.press.arena, "bars", "others"), SHADE_OPEN, others};
    chart.done = done(sheet, sum_of, COUNTED_SETS);
    add_limits(sheet, &chart, COUNTED_SETS, false, "");
    return chart;
}

static struct chart chart_lifts(const struct camp_sheet *sheet)
{
    struct chart chart = chart_of(sheet, said(sheet->frame.press.arena, "Lifts"), "");
    double *heavy = sums(sheet, COUNTED_HEAVY_LIFTS);
    double *others = rest_of(sheet, sums(sheet, COUNTED_LIFTS), heavy);
    chart.bars[chart.bar_count++] = (struct chart_series){arena_printf(sheet->frame.press.arena, said_as(sheet->frame.press.arena, "bars", "heavy, %s and up"), "80 %"), SHADE_FULL, heavy};
    chart.bars[chart.bar_count++] = (struct chart_series){said_as(sheet->frame.press.arena, "bars", "others"), SHADE_OPEN, others};
    chart.done = done(sheet, sum_of, COUNTED_LIFTS);
    add_limits(sheet, &chart, COUNTED_HEAVY_LIFTS, false, said(sheet->frame.press.arena, "heavy: "));
    add_limits(sheet, &chart, COUNTED_LIFTS, false, said(sheet->frame.press.arena, "all: "));
    return chart;
}

static struct chart chart_intensity(const struct camp_sheet *sheet)
{
    struct chart chart = chart_of(sheet, said(sheet->frame.press.arena, "Heaviest lift"), arena_printf(sheet->frame.press.arena, said(sheet->frame.press.arena, "%s of the best"), "%"));
    chart.line = (struct chart_series){"", SHADE_FULL, sheet->heaviest};
    chart.done = sheet->heaviest_done;
    chart.least = 40;
    chart.nothing = said(sheet->frame.press.arena, "no share of a best planned");
    add_limits(sheet, &chart, COUNTED_INTENSITY, false, "");
    return chart;
}

static struct chart chart_strikes(const struct camp_sheet *sheet)
{
    bool sided = any_sided(sheet, COUNTED_ALL_OUT_STRIKES) || any_sided(sheet, COUNTED_STRIKES);
    struct chart chart = chart_of(sheet, said(sheet->frame.press.arena, "Strikes"), sided ? said(sheet->frame.press.arena, "on the busier side") : "");
    of_week *top = sided ? busier_side : sum_of;
    double *all_out = planned(sheet, top, COUNTED_ALL_OUT_STRIKES);
    double *others = rest_of(sheet, planned(sheet, top, COUNTED_STRIKES), all_out);
    chart.done = done(sheet, top, COUNTED_STRIKES);
    chart.bars[chart.bar_count++] = (struct chart_series){said_as(sheet->frame.press.arena, "bars", "all-out"), SHADE_FULL, all_out};
    chart.bars[chart.bar_count++] = (struct chart_series){said_as(sheet->frame.press.arena, "bars", "others"), SHADE_OPEN, others};
    add_limits(sheet, &chart, COUNTED_ALL_OUT_STRIKES, sided, said(sheet->frame.press.arena, "all-out: "));
    add_limits(sheet, &chart, COUNTED_STRIKES, sided, said(sheet->frame.press.arena, "all: "));
    return chart;
}

static struct chart chart_sparring(const struct camp_sheet *sheet)
{
    struct chart chart = chart_of(sheet, said(sheet->frame.press.arena, "Sparring"), said(sheet->frame.press.arena, "rounds"));
    chart.bars[chart.bar_count++] =
        (struct chart_series){"", SHADE_PALE, sums(sheet, COUNTED_SPARRING_ROUNDS)};
    chart.done = done(sheet, sum_of, COUNTED_SPARRING_ROUNDS);
    add_limits(sheet, &chart, COUNTED_SPARRING_ROUNDS, false, "");
    chart.nothing = said(sheet->frame.press.arena, "no rounds planned");
    return chart;
}

typedef struct chart make_chart(const struct camp_sheet *sheet);

static make_chart *const makers[CAMP_CHARTS] = {chart_load, chart_sparring, chart_strikes,
                                                chart_sets, chart_lifts,    chart_intensity};

static struct chart_frame frame_for(const struct camp_sheet *sheet, double height)
{
    return (struct chart_frame){.left = sheet->left,
                                .width = sheet->width,
                                .right = sheet->right,
                                .height = height,
                                .size = sheet->frame.second,
                                .rank = RANK_SECOND};
}

double camp_charts_least(const struct camp_sheet *sheet)
{
    double least = 0;
    struct chart_frame frame = frame_for(sheet, 60);
    for (size_t i = 0; i < CAMP_CHARTS; i++) {
        struct chart chart = makers[i](sheet);
        least = fmax(least, chart_least_height(&sheet->frame.press, &chart, &frame));
    }
    return least;
}

bool camp_numbers_fit(const struct camp_sheet *sheet)
{
    struct chart_frame frame = frame_for(sheet, 60);
    bool fit = true;
    for (size_t i = 0; i < CAMP_CHARTS; i++) {
        struct chart chart = makers[i](sheet);
        fit = fit && chart_holds_numbers(&sheet->frame.press, &chart, &frame);
    }
    return fit;
}

size_t camp_charts(const struct camp_sheet *sheet, double height, struct box *out[CAMP_CHARTS])
{
    struct chart_frame frame = frame_for(sheet, height);
    for (size_t i = 0; i < CAMP_CHARTS; i++) {
        struct chart chart = makers[i](sheet);
        out[i] = chart_box(&sheet->frame.press, &chart, &frame);
    }
    return CAMP_CHARTS;
}
