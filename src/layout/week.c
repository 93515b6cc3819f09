/* week.c - one athlete's week on a page: the days as columns, then what it adds up to. */
#include <math.h>
#include <string.h>

#include "base/text.h"
#include "figures/dates.h"
#include "done/adherence.h"
#include "language/language.h"
#include "layout/printed_dose.h"
#include "layout/foot.h"
#include "layout/frame.h"
#include "layout/group.h"
#include "layout/marks.h"
#include "layout/strips.h"
#include "layout/totals.h"
#include "layout/week_title.h"
#include "layout/week_words.h"
#include "measure/absence.h"
#include "measure/clocks.h"
#include "measure/member.h"
#include "model/activity.h"
#include "model/athlete.h"
#include "model/exercise.h"
#include "model/occasion.h"
#include "model/season.h"
#include "wording/wording.h"

enum { DAYS = 7 };
static const double GAP = 9; /* between two days, in points */
/* Of the lines of a session, as shares of first-rank text. The smallest is what is read second at arm's length;
 * whoever has more to say needs a further page. */
static const double SIZES[] = {1, 0.95, 0.9, 0.85, 0.8, 0.77, 0.74};

struct week {
    struct frame frame;
    int monday;
    int last_logged; /* the last day of which logs tell what was done; 0: of none */
    bool abroad; /* hours are by other clocks than those at home, some of them or all */
    double size; /* of the lines of a session */
    double x[DAYS], width[DAYS];
    struct strips days[DAYS];
    struct box *totals;
    struct box *header, *again, *foot;
};

/* --- one day --- */

/* Dose and load in one flow, set for reading close by. */
static struct box *dose_box(const struct week *week, const struct occasion *occasion,
                            const struct block *block, const struct item *item, double width)
{
    const struct press *press = &week->frame.press;
    struct printed_dose dose = {.arena = press->arena};
    struct flow flow = {0};
    dose_add_amounts(&dose, block, item);
    dose_add_loads(&dose, block, item, occasion->athlete->pounds, false);
    dose_set(press, &flow, &dose, (struct dose_sizes){.size = week->size, .small = week->size});
    return frame_close_by(flow_set(press, &flow, width, 0.5 * week->size, 1.2 * week->size,
                                   frame_capital(&week->frame, week->size)));
}

/* The name, then the dose behind it or, where the line has no room for both, below. */
static struct box *item_box(const struct week *week, const struct occasion *occasion,
                            const struct block *block, const struct item *item, int rounds,
                            double width)
{
    const struct press *press = &week->frame.press;
    struct face bold = frame_face(week->size, WEIGHT_BOLD, INK_BLACK, RANK_SECOND);
    const char *words = wording_exercise(press->arena, item->exercise);
    if (item->round > 0)
        words = arena_printf(press->arena, "%s, %s", words,
                             wording_rounds(press->arena, item->round, item->round + rounds - 1));
    struct box *box = box_new(press->arena);
    struct box *name = press_paragraph(press, words, bold, width, 0, 0.95, false);
    struct box *dose = dose_box(week, occasion, block, item, width);
    double capital = frame_capital(&week->frame, week->size), gap = 0.6 * week->size;
    bool beside = name->height < 2 * week->size && dose->height < 1.2 * week->size &&
                  name->width + gap + dose->width <= width;
    box_place(box, name, 0, 0);
    box->height = name->height;
    if (dose->count == 0)
        return box;
    if (beside) {
        box_place(box, dose, name->width + gap, 0);
        return box;
    }
    double y = name->height - 0.22 * week->size + 0.42 * week->size;
    box_place(box, dose, 0, y);
    box->height = y + fmax(dose->height, capital) + 0.22 * week->size;
    return box;
}

static struct box *block_box(const struct week *week, const struct occasion *occasion,
                             const struct block *block, double width)
{
    const struct frame *frame = &week->frame;
    const struct press *press = &frame->press;
    struct box *column = box_new(press->arena), *box = box_new(press->arena);
    double inset = 1.1 * week->size;
    struct face grey =
        frame_face(fmax(frame->second, week->size * 0.9), WEIGHT_REGULAR, INK_GREY, RANK_SECOND);
    frame_stack(column,
                press_paragraph(press, wording_block(press->arena, block), grey, width - inset, 0,
                                1, false),
                0);
    size_t rounds = 1;
    for (size_t i = 0; i < block->item_count; i += rounds) {
        rounds = group_rounds_alike(press->arena, block, i);
        frame_stack(column,
                    item_box(week, occasion, block, &block->items[i], (int)rounds, width - inset),
                    i ? 0.3 * week->size : 0.18 * week->size);
    }
    if (block->letter) {
        const char *letter = arena_printf(press->arena, "%c", block->letter);
        press_put(press, box, 0, frame_capital(frame, week->size), letter,
                  frame_face(week->size, WEIGHT_BOLD, INK_SPOT, RANK_SECOND));
    }
    box_place(box, column, inset, 0);
    box->height = column->height;
    return box;
}

static bool is_bout(const struct occasion *occasion)
{
    return occasion->activity && occasion->activity->bout;
}

static const char *title_of(const struct arena *arena, const struct occasion *occasion)
{
    return occasion->session ? occasion->session->name.shown : wording_activity(arena, occasion->activity);
}

/* How long and hard it is; of a bout its rule set, as its line has it. */
static const char *amount_of(const struct week *week, const struct occasion *occasion)
{
    const char *words = wording_occasion(week->frame.press.arena, occasion);
    const struct bout *bout = occasion_bout(occasion);
    const char *rules = bout ? bout->words : NULL;
    if (!rules)
        return words;
    return occasion->rounds && !strstr(rules, " x ")
               ? arena_printf(week->frame.press.arena, "%s " WORDING_DOT " %s", rules, words)
               : rules;
}

/* Hour, name and length of what is done. Nothing of a week is set larger than its bout. */
static struct box *head_box(const struct week *week, const struct occasion *occasion,
                            double width, bool again)
{
    const struct frame *frame = &week->frame;
    const struct press *press = &frame->press;
    struct box *box = box_new(press->arena);
    double size = (is_bout(occasion) ? 1.6 : 1) * frame->first;
    struct face name = frame_face(size, WEIGHT_BOLD, INK_BLACK, RANK_FIRST);
    struct face hour = frame_face(frame->first, WEIGHT_BOLD, INK_SPOT, RANK_FIRST);
    struct face length = frame_face(frame->first, WEIGHT_REGULAR, INK_BLACK, RANK_FIRST);
    name.style.role = ROLE_HEADING;
    box_line(box, 0, 0.3, width, 0, 0.6, INK_BLACK);
    box->height = 0.6;
    if (occasion->clock >= 0)
        frame_stack(box,
                    press_word(press, said_hour(press->arena, occasion->clock), hour),
                    0.45 * frame->first);
    const char *words =
        arena_printf(press->arena, "%s%s", title_of(press->arena, occasion), again ? said(press->arena, ", continued") : "");
    frame_stack(box, press_paragraph(press, words, name, width, 0, 0.95, false),
                0.5 * frame->first);
    const char *const lines[] = {amount_of(week, occasion), week_check(week->frame.press.arena, occasion), week_done(&week->frame, week->last_logged, occasion)};
    for (size_t i = 0; !again && i < sizeof lines / sizeof *lines; i++)
        if (*lines[i] || i == 0)
            frame_stack(box, press_paragraph(press, lines[i], length, width, 0, 1, false), 0.25 * frame->first);
    box->height += 0.35 * frame->first;
    return box;
}

static void add_occasion(struct week *week, struct strips *day, const struct occasion *occasion,
                         double width)
{
    const struct press *press = &week->frame.press;
    struct strip strip = {.heading = head_box(week, occasion, width, false),
                          .again = head_box(week, occasion, width, true),
                          .body = box_new(press->arena),
                          .before = 0.8 * week->size,
                          .first = true,
                          .title = title_of(press->arena, occasion)};
    if (occasion->block_count == 0)
        strips_add(press, day, strip);
    for (size_t b = 0; b < occasion->block_count; b++) {
        strip.body = block_box(week, occasion, &occasion->blocks[b], width);
        strip.first = b == 0;
        strip.before = b == 0 ? 0.8 * week->size : 0.55 * week->size;
        strips_add(press, day, strip);
    }
}

/* --- columns --- */

static int day_of(const struct week *week, const struct occasion *occasion)
{
    return occasion->date - week->monday;
}

/* All days are as wide as one another: a week is read across, and an empty day is a day too. */
static void share_width(struct week *week)
{
    for (int d = 0; d < DAYS; d++) {
        week->width[d] = (week->frame.inner - (DAYS - 1) * GAP) / (double)DAYS;
        week->x[d] = week->frame.margin + d * (week->width[d] + GAP);
    }
}

static void fill_days(struct week *week, double size)
{
    const struct sheet_request *request = week->frame.request;
    week->size = size;
    for (int d = 0; d < DAYS; d++)
        week->days[d] = (struct strips){0};
    for (size_t i = 0; i < request->count; i++) {
        int d = day_of(week, request->occasions[i]);
        add_occasion(week, &week->days[d], request->occasions[i], week->width[d]);
    }
}

/* "53 min"; of a day without work, why: "rest" unless a reason is known. */
static const char *sum_words(const struct week *week, int d)
{
    const struct sheet_request *request = week->frame.request;
    int seconds = 0;
    for (size_t i = 0; i < request->count; i++)
        if (day_of(week, request->occasions[i]) == d)
            seconds += request->occasions[i]->seconds;
    if (seconds)
        return arena_printf(week->frame.press.arena, said(week->frame.press.arena, "%d\u00a0min"), (seconds + 30) / 60);
    if (strips_height(&week->days[d]) > 0)
        return "";
    enum absence absence = athlete_absence(request->programme, request->occasions[0]->athlete, week->monday + d);
    return absence == ABSENCE_NONE ? said_as(week->frame.press.arena, "day", "rest")
                                   : said_as(week->frame.press.arena, "absence", absence_name(absence));
}

/* "Bangkok time": by which clocks the day's hours are, or "London time, New York time". */
static const char *zone_words(const struct week *week, int d)
{
    const struct sheet_request *request = week->frame.request;
    struct arena *arena = week->frame.press.arena;
    struct text out = {.arena = arena};
    for (size_t i = 0; i < request->count; i++) {
        const char *words = day_of(week, request->occasions[i]) == d ? wording_local_time(arena, request->occasions[i]->zone) : "";
        if (*words && !strstr(text_get(&out), words))
            text_addf(&out, "%s%s", out.length ? ", " : "", words);
    }
    return text_keep(arena, &out);
}

/* "Mon 8", and what the day adds up to. */
static struct box *day_head(const struct week *week, int d)
{
    const struct frame *frame = &week->frame;
    const struct press *press = &frame->press;
    int year, month, of_month;
    struct box *box = box_new(press->arena);
    date_to_ymd(week->monday + d, &year, &month, &of_month);
    double baseline = frame_capital(frame, frame->first);
    box_rectangle(box, 0, 0, week->width[d], 1.6, INK_BLACK, INK_NONE, 0);
    baseline += 1.6 + 0.45 * frame->first;
    double wide = press_put(press, box, 0, baseline,
                            arena_printf(press->arena, "%s %d", said_weekday(press->arena, SAID_SHORT, d + 1), of_month),
                            frame_face(frame->first, WEIGHT_BOLD, INK_BLACK, RANK_FIRST));
    struct face grey = frame_face(frame->second, WEIGHT_REGULAR, INK_GREY, RANK_SECOND);
    const char *sum = sum_words(week, d);
    bool beside = wide + 4 + type_width(press->type, sum, grey.size, grey.weight) <= week->width[d];
    if (beside)
        press_put_end(press, box, week->width[d], baseline, sum, grey);
    box->height = baseline + 0.5 * frame->first;
    if (!beside)
        frame_stack(box, press_paragraph(press, sum, grey, week->width[d], 0, 1, false), 0);
    const char *reason = week_reason(week->frame.request, week->monday + d);
    if (*reason)
        frame_stack(box, press_paragraph(press, reason, grey, week->width[d], 0, 1, false), 0);
    if (week->abroad)
        frame_stack(box, press_paragraph(press, zone_words(week, d), grey, week->width[d], 0, 1, false), 0);
    return box;
}

/* --- pages --- */

static double body_height(const struct week *week, bool again)
{
    const struct frame *frame = &week->frame;
    return frame->height - 2 * frame->margin - (again ? week->again : week->header)->height -
           week->foot->height - frame_last_line(frame, 1, 1)->height;
}

static double tallest(const struct week *week)
{
    double most = 0;
    for (int d = 0; d < DAYS; d++)
        most = fmax(most, day_head(week, d)->height + strips_height(&week->days[d]));
    return most;
}

/* Whether the days fit a page in a size not below what can be read, MORE points left below them; in the largest such. */
static bool fits_page(struct week *week, double more)
{
    for (size_t i = 0; i < sizeof SIZES / sizeof *SIZES; i++) {
        fill_days(week, fmax(week->frame.second, SIZES[i] * week->frame.first));
        if (tallest(week) + more <= body_height(week, false))
            return true;
    }
    return false;
}

/* Of the first page the totals take no more than this share from the days. */
static const double TOTALS_MOST = 0.55;

/* What the days leave below them on page 1: the totals stand there, since they are what a meeting asks for first. */
static double totals_room(const struct week *week)
{
    double room = 10 + week->totals->height;
    return room <= TOTALS_MOST * body_height(week, false) ? room : 0;
}

/* Days and totals on one page, or else as many pages as the days take in an easy size. */
static void fit_size(struct week *week)
{
    if (!fits_page(week, totals_room(week)))
        fill_days(week, 0.85 * week->frame.first);
}

/* The days as far as they fit into HEIGHT from Y down; STARTS goes on to what is left. Returns how low they reach. */
static double draw_days(struct scene *scene, struct box *page, struct week *week, double y,
                        double height, size_t starts[DAYS], bool *left)
{
    double low = 0;
    *left = false;
    for (int d = 0; d < DAYS; d++) {
        double used = 0;
        struct box *head = day_head(week, d);
        const struct strips *day = &week->days[d];
        box_place(page, head, week->x[d], y);
        low = fmax(low, head->height);
        if (starts[d] == day->count)
            continue;
        double room = height - head->height, line = 1.3 * week->frame.second;
        bool whole = strips_height_of(day, starts[d], day->count) <= room;
        size_t fitting = strips_fit(day, starts[d], whole ? room : room - line, &used);
        strips_draw(scene, page, day, starts[d], starts[d] + fitting, week->x[d], y + head->height,
                    0);
        starts[d] += fitting;
        if (starts[d] < day->count) {
            press_put_end(&week->frame.press, page, week->x[d] + week->width[d], y + head->height + used + 0.9 * line,
                          said(week->frame.press.arena, "goes on overleaf"), frame_face(week->frame.second, WEIGHT_REGULAR, INK_GREY, RANK_SECOND));
            used += line;
        }
        *left = *left || starts[d] < day->count;
        low = fmax(low, head->height + used);
    }
    return low;
}

static struct box *open_page(struct scene *scene, const struct week *week)
{
    bool again = scene->page_count > 0;
    struct box *page = scene_page(scene);
    if (!again)
        scene_bookmark(scene, scene->title, 0, false);
    box_place(page, again ? week->again : week->header, week->frame.margin, week->frame.margin);
    return page;
}

static void add_pages(struct scene *scene, struct week *week)
{
    const struct frame *frame = &week->frame;
    size_t starts[DAYS] = {0};
    bool left = true;
    double below = totals_room(week), low = 0;
    while (left) {
        struct box *page = open_page(scene, week);
        bool again = scene->page_count > 1;
        double y = frame->margin + (again ? week->again : week->header)->height, room = body_height(week, again);
        low = draw_days(scene, page, week, y, again ? room : room - below, starts, &left);
        if (!again && low > room - below + 0.5)
            below = 0; /* one line alone is higher than what they leave */
        if (!again && below > 0)
            box_place(page, week->totals, frame->margin, y + room - week->totals->height);
    }
    if (below <= 0) { /* too much for page 1 */
        bool again = scene->page_count > 1;
        double room = body_height(week, again), y = frame->margin + (again ? week->again : week->header)->height;
        bool here = low + 10 + week->totals->height <= room;
        struct box *page = here ? scene->pages[scene->page_count - 1] : open_page(scene, week);
        box_place(page, week->totals, frame->margin,
                  here ? y + room - week->totals->height : frame->margin + week->again->height);
    }
    double line = frame->height - frame->margin - frame_last_line(frame, 1, 1)->height;
    for (size_t i = 0; i < scene->page_count; i++) {
        box_place(scene->pages[i], week->foot, frame->margin, line - week->foot->height);
        box_place(scene->pages[i], frame_last_line(frame, (int)i + 1, (int)scene->page_count),
                  frame->margin, line);
    }
}

/* --- the whole --- */

static const char *describe(const struct week *week)
{
    const struct sheet_request *request = week->frame.request;
    struct arena *arena = week->frame.press.arena;
    struct text out = {.arena = arena};
    for (size_t i = 0; i < request->count; i++) {
        const struct occasion *occasion = request->occasions[i];
        const char *amount = wording_occasion(arena, occasion);
        text_addf(&out, "%s: %s%s%s. ", said_weekday(arena, SAID_LONG, day_of(week, occasion) + 1),
                  title_of(arena, occasion), *amount ? ", " : "", amount);
    }
    return text_keep(arena, &out);
}

/* The stances' feet, where any dose shows them. */
static struct box *key_box(const struct week *week)
{
    const struct frame *frame = &week->frame;
    const struct sheet_request *request = frame->request;
    struct foot_marks used = {.stances =
                                  foot_marks_used(request->occasions, request->count).stances};
    return foot_key(&frame->press, used,
                    frame_face(frame->foot, WEIGHT_REGULAR, INK_BLACK, RANK_FOOT), frame->inner);
}

struct scene *week_scene(const struct sheet_request *request)
{
    struct week week = {.frame = frame_of(request),
                        .monday = date_monday(request->occasions[0]->date),
                        .last_logged = adherence_last(request->programme, request->occasions[0]->athlete),
                        .abroad = clocks_change(request->occasions, request->count) ||
                                  zone_abroad(request->occasions[0])};
    struct frame_title title = week_title(&week.frame);
    struct box *key = key_box(&week);
    week.header = frame_header(&week.frame, &title, false);
    week.again = frame_header(&week.frame, &title, true);
    week.foot = frame_foot(&week.frame, &key, 1);
    week.totals = totals_box(&week.frame);
    share_width(&week);
    fit_size(&week);
    const char *name = arena_printf(request->arena, "%s, %s", title.title, title.when);
    struct scene *scene = frame_scene(&week.frame, name, "week sheet");
    scene->description = describe(&week);
    add_pages(scene, &week);
    frame_report_reach(scene, &week.frame);
    return scene;
}
