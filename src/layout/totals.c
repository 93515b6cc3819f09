#include "layout/totals.h"

#include <math.h>
#include <string.h>

#include "figures/dates.h"
#include "language/language.h"
#include "layout/chart.h"
#include "done/adherence.h"
#include "done/as_done.h"
#include "measure/kit.h"
#include "measure/tally.h"
#include "model/programme.h"
#include "wording/wording.h"

enum { DAYS = 7, COLUMNS = 2 };

/* A figure and how it compares with its limit. */
struct total_row {
    const char *name, *amount, *words; /* words: of the limit, or "" */
    const char *waived;                /* why the limit need not be kept, or NULL */
    double share;                      /* of the limit's figure; negative: no limit */
    double done;                       /* the same of what was done; negative: nobody says, or there is no limit */
    bool floor;                        /* the limit is an "at least" */
    bool missed;
};

struct rows {
    struct total_row *items;
    size_t count, capacity;
};

/* The athlete's work of the week, whatever camp it is in: limits of a week count all of it. */
struct week_work {
    struct tally all, done;
    double loads[DAYS], loads_done[DAYS];
    bool known;               /* logs tell of the week, or of later ones: DONE is what was done of it */
    const struct camp *beside; /* whose work the sheet does not show but counts; or NULL */
};

/* --- limits --- */

const char *bound_words(struct arena *arena, const struct sheet_bound *bound)
{
    const struct sheet_end *end = bound->most.asked ? &bound->most : &bound->least;
    const char *lead = bound->most.asked ? said(arena, "at most") : said(arena, "at least");
    const char *side = bound->a_side ? said(arena, " a side") : "";
    if (bound->against != COUNTED_NONE)
        return arena_printf(arena, said_as(arena, "ratio", "%s %s to 1"), lead, wording_number(arena, end->value));
    const char *value = counted_amount_in(arena, bound->counted, end->value, bound->unit);
    if (bound->least.asked && bound->most.asked)
        return arena_printf(arena, said_as(arena, "from", "%s to %s%s"),
                            counted_amount_in(arena, bound->counted, bound->least.value, bound->unit), value, side);
    return arena_printf(arena, "%s %s%s", lead, value, side);
}

const struct sheet_bound *bound_next(const struct sheet_request *request, enum counted counted,
                                     int week, size_t *index)
{
    while (*index < request->bound_count) {
        const struct sheet_bound *bound = &request->bounds[(*index)++];
        if (bound->counted == counted && bound->week == week)
            return bound;
    }
    return NULL;
}

/* --- rows --- */

static bool sums_loosely(const struct range sum)
{
    return sum.low != sum.high;
}

static milli shown(enum counted counted, milli value)
{
    return counted == COUNTED_TIME ? (value + 30000) / 60000 * 60000 : value;
}

/* A sum as it is shown: time in whole minutes. */
static const char *amount_of(const struct frame *frame, enum counted counted, struct range sum)
{
    struct arena *arena = frame->press.arena;
    const struct sheet_request *request = frame->request;
    enum mass_unit unit = gym_unit(request->occasions[0]->athlete->gym);
    sum = (struct range){shown(counted, sum.low), shown(counted, sum.high)};
    const char *high = counted_amount_in(arena, counted, sum.high, unit);
    if (!sums_loosely(sum))
        return high;
    return arena_printf(arena, said_as(arena, "from", "%s to %s"), counted_amount_in(arena, counted, sum.low, unit), high);
}

static void add_row(const struct frame *frame, struct rows *rows, struct total_row row)
{
    rows->items = arena_grow(frame->press.arena, rows->items, rows->count, &rows->capacity,
                             sizeof *rows->items);
    rows->items[rows->count++] = row;
}

/* What was done of AMOUNT, "60 of 74", where WORK knows it. */
static const char *amount_with_done(const struct frame *frame, const struct week_work *work, enum counted counted,
                                    const char *amount)
{
    if (!work->known)
        return amount;
    return arena_printf(frame->press.arena, said_as(frame->press.arena, "share", "%s of %s"), amount_of(frame, counted, work->done.sum[counted]), amount);
}

/* What share of its limit was done, where SHARE of it is planned. */
static double share_done(const struct week_work *work, enum counted counted, double share)
{
    milli planned = work->all.sum[counted].high;
    if (!work->known || planned <= 0)
        return -1;
    return fmin(share * (double)work->done.sum[counted].high / (double)planned, 2);
}

/* What BOUND counts, beside its words. */
static struct total_row row_against(const struct frame *frame, const struct week_work *work, const struct sheet_bound *bound)
{
    struct arena *arena = frame->press.arena;
    enum counted counted = bound->counted;
    const char *name = said_as(arena, "count", counted_name(arena, counted));
    const char *amount = amount_of(frame, counted, bound->amount);
    bool plain = !bound->a_side && bound->against == COUNTED_NONE && counted < COUNTED_COUNT;
    if (plain)
        amount = amount_with_done(frame, work, counted, amount);
    if (bound->a_side)
        amount = arena_printf(arena, said(arena, "left %s, right %s"), amount, amount_of(frame, counted, bound->right));
    if (bound->against != COUNTED_NONE) {
        name = arena_printf(arena, said_as(arena, "ratio", "%s to %s"), name,
                            said_as(arena, "count", counted_name(arena, bound->against)));
        amount = arena_printf(arena, said_as(arena, "ratio", "%s to %s"), amount, amount_of(frame, bound->against, bound->other));
    }
    return (struct total_row){.name = name,
                              .amount = amount,
                              .words = bound_words(arena, bound),
                              .waived = bound->waived,
                              .share = fmin((double)bound->reached / 1000, 2),
                              .done = plain ? share_done(work, counted, (double)bound->reached / 1000) : -1,
                              .floor = !bound->most.asked,
                              .missed = bound->missed};
}

static void add_counted(const struct frame *frame, struct rows *rows, const struct week_work *work,
                        enum counted counted, int week)
{
    const struct tally *tally = &work->all;
    size_t index = 0;
    bool any = false;
    for (const struct sheet_bound *bound;
         (bound = bound_next(frame->request, counted, week, &index)) != NULL; any = true)
        add_row(frame, rows, row_against(frame, work, bound));
    if (any || tally->sum[counted].high == 0)
        return;
    add_row(frame, rows,
            (struct total_row){.name = said_as(frame->press.arena, "count", counted_name(frame->press.arena, counted)),
                               .amount = amount_with_done(frame, work, counted, amount_of(frame, counted, tally->sum[counted])),
                               .words = "",
                               .share = -1,
                               .done = -1});
}

/* What a coach looks for first comes first and is shown even without a limit. */
static struct rows find_rows(const struct frame *frame, const struct week_work *work, int week)
{
    static const enum counted first_shown[] = {
        COUNTED_TIME,       COUNTED_SESSION_LOAD, COUNTED_SPARRING_ROUNDS,
        COUNTED_BAG_ROUNDS, COUNTED_STRIKES,      COUNTED_ALL_OUT_STRIKES,
        COUNTED_SETS,       COUNTED_LIFTS,        COUNTED_HEAVY_LIFTS,
        COUNTED_THROWS,     COUNTED_CONTACTS};
    enum { FIRST_SHOWN = sizeof first_shown / sizeof *first_shown };
    struct rows rows = {0};
    for (size_t i = 0; i < FIRST_SHOWN; i++)
        add_counted(frame, &rows, work, first_shown[i], week);
    for (int counted = 0; counted < COUNTED_COUNT; counted++) {
        size_t index = 0;
        bool there = false;
        for (size_t i = 0; i < FIRST_SHOWN; i++)
            there = there || first_shown[i] == (enum counted)counted;
        if (!there && bound_next(frame->request, (enum counted)counted, week, &index))
            add_counted(frame, &rows, work, (enum counted)counted, week);
    }
    return rows;
}

/* --- drawing --- */

/* A bar as long as the share of the limit, the limit itself a tick across it. */
static void draw_gauge(struct box *box, double x, double middle, double width, double size,
                       const struct total_row *row)
{
    double limit = width / 1.6, high = 0.5 * size;
    double length = fmin(row->share * limit, width);
    struct element *bar = box_rectangle(box, x, middle - high / 2, length, high,
                                        row->floor ? INK_HAIR : INK_BLACK, INK_BLACK, 0.4);
    bar->radius = 0;
    if (row->done >= 0)
        box_rectangle(box, x, middle - 0.2 * high, fmax(1, fmin(row->done * limit, width)), 0.4 * high,
                      row->floor ? INK_BLACK : INK_PAPER, INK_NONE, 0);
    box_line(box, x + limit, middle - 0.55 * size, 0, 1.1 * size, 1.4, INK_SPOT);
}

/* What the limit of ROW says, from X on: on the line of Y, or, where that is too long, on several from there down. */
static void put_limit(const struct frame *frame, struct box *box, const struct total_row *row, double x, double y, double width)
{
    const struct press *press = &frame->press;
    double size = frame->second;
    struct face spot = frame_face(size, row->missed ? WEIGHT_BOLD : WEIGHT_REGULAR, INK_SPOT, RANK_SECOND);
    spot.style.role = ROLE_CELL;
    const char *words = row->missed ? arena_printf(press->arena, "! %s", row->words) : row->words;
    if (!*words)
        return;
    if (type_width(press->type, words, size, spot.weight) <= width) {
        press_put(press, box, x, y, words, spot);
        return;
    }
    struct box *lines = press_paragraph(press, words, spot, width, 0, 0.95, false);
    box_place(box, lines, x, y - lines->baseline);
    box->height = fmax(box->height, y - lines->baseline + lines->height + 0.12 * size);
}

static struct box *row_box(const struct frame *frame, const struct total_row *row, double width)
{
    const struct press *press = &frame->press;
    struct box *box = box_new(press->arena);
    double size = frame->second, capital = frame_capital(frame, size);
    double gauge = 46, words = 88, name = width - gauge - words - 12;
    struct face plain = frame_face(size, WEIGHT_REGULAR, INK_BLACK, RANK_SECOND);
    struct face bold = frame_face(size, WEIGHT_BOLD, INK_BLACK, RANK_SECOND);
    double amount = type_width(press->type, row->amount, size, WEIGHT_BOLD);
    plain.style.role = bold.style.role = ROLE_CELL;
    struct box *title =
        press_paragraph(press, row->name, plain, fmax(50, name - amount - 8), 0, 0.95, false);
    box_open(box, ROLE_ROW);
    box_place_as(box, ROLE_HEAD, title, 0, 0);
    double y =
        title->width + amount + 8 > name ? title->height - 0.22 * size + 4 + capital : capital;
    box->height = fmax(title->height - 0.22 * size, y) + 0.34 * size;
    box_open(box, ROLE_DATUM);
    press_put_end(press, box, name, y, row->amount, bold);
    box_close(box, ROLE_DATUM);
    if (row->share >= 0)
        draw_gauge(box, name + 6, y - capital / 2, gauge, size, row);
    box_open(box, ROLE_DATUM);
    put_limit(frame, box, row, name + gauge + 12, y, words);
    if (row->waived) {
        struct box *why = press_paragraph(press, arena_printf(press->arena, said(press->arena, "waived, because %s"), row->waived), plain, width, 0, 0.95,
                                          false);
        box_place(box, why, 0, box->height);
        box->height += why->height;
    }
    box_close(box, ROLE_DATUM);
    box_close(box, ROLE_ROW);
    box_line(box, 0, box->height, width, 0, 0.4, INK_HAIR);
    box->height += 0.28 * size;
    box->width = width;
    return box;
}

/* The rows in two columns, read downwards. */
static struct box *table_box(const struct frame *frame, const struct rows *rows, double width)
{
    double gap = 16, column = (width - gap * (COLUMNS - 1)) / (double)COLUMNS, sum = 0;
    struct box *table = box_new(frame->press.arena);
    struct box **boxes =
        arena_alloc(frame->press.arena, (rows->count + 1) * sizeof(struct box *));
    for (size_t i = 0; i < rows->count; i++) {
        boxes[i] = row_box(frame, &rows->items[i], column);
        sum += boxes[i]->height;
    }
    double y = 0, x = 0;
    box_open(table, ROLE_TABLE);
    for (size_t i = 0; i < rows->count; i++) {
        if (x < gap && y + boxes[i]->height / 2 > sum / (double)COLUMNS) {
            x += column + gap;
            y = 0;
        }
        box_place(table, boxes[i], x, y);
        y += boxes[i]->height;
        table->height = fmax(table->height, y);
    }
    box_close(table, ROLE_TABLE);
    return table;
}

/* Session load by day, under the days' names. */
static struct box *days_chart(const struct frame *frame, const struct week_work *work, double width, double height)
{
    const char *names[DAYS];
    static const double edges[DAYS + 1] = {0,       1 / 7.0, 2 / 7.0, 3 / 7.0,
                                           4 / 7.0, 5 / 7.0, 6 / 7.0, 1};
    for (int d = 0; d < DAYS; d++)
        names[d] = said_initial(frame->press.arena, d + 1);
    struct chart chart = {.title = said(frame->press.arena, "Session load"),
                          .unit = said(frame->press.arena, "RPE \u00d7 min, by day"),
                          .columns = DAYS,
                          .names = names,
                          .edges = edges,
                          .bars = {{"", SHADE_PALE, work->loads}},
                          .bar_count = 1,
                          .done = work->known ? work->loads_done : NULL,
                          .nothing = said(frame->press.arena, "no effort planned")};
    struct chart_frame plot = {.left = 84,
                               .width = width - 84,
                               .height = height,
                               .size = frame->second,
                               .rank = RANK_SECOND};
    return chart_box(&frame->press, &chart, &plot);
}

static bool shows(const struct sheet_request *request, const struct occasion *occasion)
{
    for (size_t i = 0; i < request->count; i++)
        if (request->occasions[i] == occasion)
            return true;
    return false;
}

static struct week_work work_of(const struct sheet_request *request)
{
    const struct programme *programme = request->programme;
    const struct occasion *first = request->occasions[0];
    int monday = date_monday(first->date);
    int last = adherence_last(programme, first->athlete);
    struct week_work work = {.known = last >= monday};
    for (int d = 0; d < DAYS; d++)
        work.loads_done[d] = monday + d <= last ? 0 : NAN;
    for (size_t i = 0; i < programme->occasion_count; i++) {
        const struct occasion *occasion = &programme->occasions[i];
        if (occasion->athlete != first->athlete || date_monday(occasion->date) != monday)
            continue;
        struct tally day = {0};
        tally_occasion(&day, occasion);
        tally_add(&work.all, &day);
        int weekday = date_weekday(occasion->date) - 1;
        if (occasion->date <= last && occasion_done(occasion)) {
            struct occasion kept = occasion_as_done(request->arena, occasion);
            struct tally done = {0};
            tally_occasion(&done, &kept);
            tally_add(&work.done, &done);
            work.loads_done[weekday] += (double)done.sum[COUNTED_SESSION_LOAD].high / 1000;
        }
        work.loads[weekday] += (double)day.sum[COUNTED_SESSION_LOAD].high / 1000;
        if (!shows(request, occasion))
            work.beside = occasion->camp;
    }
    return work;
}

/* What the figures include that the sheet does not show, and what they leave out; or "". */
static const char *note_words(struct arena *arena, const struct week_work *work)
{
    int64_t load = tally_uncounted(&work->all, COUNTED_SESSION_LOAD);
    int64_t strikes = tally_uncounted(&work->all, COUNTED_STRIKES);
    const char *beside =
        work->beside ? arena_printf(arena, said(arena, "Counted with the work of %s. "), work->beside->name.shown) : "";
    const char *one =
        load ? arena_printf(arena, said(arena, "Not in the load: %d\u00a0min with no effort given. "),
                            (int)((load + 30) / 60))
             : "";
    const char *two =
        strikes ? arena_printf(arena, said(arena, "Not in the strikes: %d\u00a0min of timed work. "),
                               (int)((strikes + 30) / 60))
                : "";
    const char *done = work->known ? said(arena, "The narrow column in a bar is what was done, as the logs tell it. ") : "";
    return arena_printf(arena, "%s%s%s%s", beside, done, one, two);
}

struct box *totals_box(const struct frame *frame)
{
    const struct sheet_request *request = frame->request;
    const struct press *press = &frame->press;
    struct week_work work = work_of(request);
    double left = 214, gap = 18;
    struct rows rows = find_rows(frame, &work, request->occasions[0]->week);
    struct box *box = box_new(press->arena);
    struct box *table = table_box(frame, &rows, frame->inner - left - gap);
    struct box *note = press_paragraph(
        press, note_words(press->arena, &work), frame_face(frame->second, WEIGHT_REGULAR, INK_GREY, RANK_SECOND), left, 0,
        1, false);
    double height = fmax(table->height, 74 + note->height);
    box_rectangle(box, 0, 0, frame->inner, 1.6, INK_BLACK, INK_NONE, 0);
    box_place(
        box, days_chart(frame, &work, left, height - note->height - (note->count ? 6 : 0)), 0, 8);
    box_place(box, note, 0, 8 + height - note->height);
    box_place(box, table, left + gap, 9);
    box->height = height + 16;
    return box;
}
