/* camp.c - a camp back from the bout, on one scale of time: phases above, and below what each week contains. */
#include "layout/camp.h"

#include <math.h>

#include "base/text.h"
#include "figures/dates.h"
#include "language/language.h"
#include "layout/foot.h"
#include "measure/clocks.h"
#include "measure/member.h"
#include "model/activity.h"
#include "model/athlete.h"
#include "model/occasion.h"
#include "model/season.h"
#include "wording/wording.h"

/* Where DAY begins. */
static double x_of(const struct camp_sheet *sheet, int day)
{
    double share = (double)(day - sheet->first) / (double)(7 * sheet->weeks);
    return sheet->left + fmax(0, fmin(1, share)) * sheet->width;
}

static struct face face_of(const struct camp_sheet *sheet, enum weight weight, enum ink ink)
{
    return frame_face(sheet->frame.second, weight, ink, RANK_SECOND);
}

static double wide(const struct camp_sheet *sheet, const char *words, struct face face)
{
    return type_width(sheet->frame.press.type, words, face.size, face.weight);
}

/* WORDS in the middle of LEFT to RIGHT, if there is room. */
static bool put_between(const struct camp_sheet *sheet, struct box *box, double left,
                        double right, double baseline, const char *words, struct face face)
{
    double width = wide(sheet, words, face);
    if (width > right - left - 2)
        return false;
    press_put(&sheet->frame.press, box, (left + right - width) / 2, baseline, words, face);
    return true;
}

/* --- the band of time --- */

/* The number of weeks to the bout that comes next, or "" after the last. */
static const char *out_words(const struct camp_sheet *sheet, size_t week)
{
    const struct camp *camp = sheet->camp;
    int monday = sheet->first + 7 * (int)week;
    for (size_t i = 0; i < camp->bout_count; i++) {
        int bout = date_monday(camp->bouts[i]->day);
        if (monday <= date_monday(bout_end(camp->bouts[i])))
            return arena_printf(sheet->frame.press.arena, "%d", monday < bout ? (bout - monday) / 7 : 0);
    }
    return "";
}

/* The phase of the week's Thursday, and so of most of its days; or "". */
static const char *phase_words(const struct camp_sheet *sheet, size_t week)
{
    int thursday = sheet->first + 7 * (int)week + 3;
    for (size_t i = 0; i < sheet->camp->phase_count; i++) {
        const struct phase *phase = &sheet->camp->phases[i];
        if (phase->first <= thursday && (thursday <= phase->last || phase->open))
            return phase->name.shown;
    }
    return "";
}

const char *camp_week_words(const struct camp_sheet *sheet, size_t row, size_t week)
{
    struct arena *arena = sheet->frame.press.arena;
    if (row == 0)
        return arena_printf(arena, "%zu", week + 1);
    if (row == 3)
        return phase_words(sheet, week);
    return row == 1 ? frame_day(arena, sheet->first + 7 * (int)week) : out_words(sheet, week);
}

/* One row of words over the weeks; of many weeks every second, third, ... as there is room. */
static void draw_row(const struct camp_sheet *sheet, struct box *band, size_t row,
                     double baseline, struct face face)
{
    double widest = 0, week = sheet->width / (double)sheet->weeks;
    for (size_t w = 0; w < sheet->weeks; w++)
        widest = fmax(widest, wide(sheet, camp_week_words(sheet, row, w), face));
    size_t step = (size_t)fmax(1, ceil((widest + 3) / week));
    /* Weeks out are counted from the end. */
    size_t first = row == 2 ? (sheet->weeks - 1) % step : 0;
    for (size_t w = 0; w < sheet->weeks; w++) {
        const char *words = w % step == first % step ? camp_week_words(sheet, row, w) : "";
        double middle = sheet->left + ((double)w + 0.5) * week;
        box_open(band, row == 0 ? ROLE_HEAD : ROLE_DATUM);
        press_put(&sheet->frame.press, band, middle - wide(sheet, words, face) / 2, baseline, words,
                  face);
        box_close(band, row == 0 ? ROLE_HEAD : ROLE_DATUM);
    }
}

static void draw_weeks(const struct camp_sheet *sheet, struct box *band)
{
    double size = sheet->frame.second, line = frame_capital(&sheet->frame, size);
    static const char *const leads[] = {SAID("week"), SAID("from Monday"), SAID("weeks out")};
    struct face faces[] = {face_of(sheet, WEIGHT_BOLD, INK_BLACK),
                           face_of(sheet, WEIGHT_REGULAR, INK_GREY),
                           face_of(sheet, WEIGHT_BOLD, INK_SPOT)};
    box_open(band, ROLE_TABLE);
    for (size_t row = 0; row < (sheet->camp->bout_count ? 3 : 2); row++) {
        double baseline = band->height + line + 1.32 * size * (double)row;
        faces[row].style.role = ROLE_CELL;
        box_open(band, ROLE_ROW);
        box_open(band, ROLE_HEAD);
        press_put(&sheet->frame.press, band, 0, baseline, said(sheet->frame.press.arena, leads[row]), faces[row]);
        box_close(band, ROLE_HEAD);
        draw_row(sheet, band, row, baseline, faces[row]);
        box_close(band, ROLE_ROW);
    }
    box_close(band, ROLE_TABLE);
    band->height += line + 2.64 * size + 0.5 * size;
}

/* A phase's name in its rectangle, or where that is too narrow its number, which the list below the title explains. */
static void draw_phase(const struct camp_sheet *sheet, struct box *band, size_t index,
                       double high)
{
    const struct phase *phase = &sheet->camp->phases[index];
    double left = x_of(sheet, phase->first), right = x_of(sheet, phase->last + 1);
    if (right - left < 0.5)
        return;
    struct element *rectangle = box_rectangle(band, left, band->height, right - left, high,
                                              index % 2 ? INK_PAPER : INK_HAIR, INK_BLACK, 0.7);
    rectangle->radius = 0;
    double baseline = band->height + (high + frame_capital(&sheet->frame, sheet->frame.first)) / 2;
    struct face face = frame_face(sheet->frame.first, WEIGHT_BOLD, INK_BLACK, RANK_FIRST);
    if (!put_between(sheet, band, left, right, baseline, phase->name.shown, face))
        put_between(sheet, band, left, right, baseline,
                    arena_printf(sheet->frame.press.arena, "%zu", index + 1), face);
}

/* "12 Feb", and of a tournament "12, 13, 14 Feb", or from the first to the last where they are many. */
static const char *bout_day_words(struct arena *arena, const struct bout *bout)
{
    enum { MANY = 4 };
    const char *words = frame_day(arena, bout->day);
    if (bout->day_count > MANY)
        return arena_printf(arena, said_as(arena, "days", "%s to\u00a0%s"), words, frame_day(arena, bout->last));
    for (size_t i = 1; i < bout->day_count; i++)
        words = arena_printf(arena, "%s, %s", words, frame_day(arena, bout->days[i]));
    return words;
}

/* The first day of each bout: "bout 12 Feb", "bouts 12 Feb, 20 Mar". */
static const char *bouts_words(const struct camp_sheet *sheet)
{
    struct arena *arena = sheet->frame.press.arena;
    struct text out = {.arena = arena};
    for (size_t i = 0; i < sheet->camp->bout_count; i++)
        text_addf(&out, "%s%s", i ? ", " : said_count(arena, (long)sheet->camp->bout_count, "bout ", "bouts "),
                  frame_day(arena, sheet->camp->bouts[i]->day));
    return text_keep(arena, &out);
}

static void draw_phases(const struct camp_sheet *sheet, struct box *band)
{
    double high = 1.75 * sheet->frame.first;
    struct face bold = face_of(sheet, WEIGHT_BOLD, INK_BLACK);
    if (sheet->camp->phase_count == 0)
        return;
    press_put(&sheet->frame.press, band, 0,
              band->height + (high + frame_capital(&sheet->frame, bold.size)) / 2, said(sheet->frame.press.arena, "phases"), bold);
    for (size_t i = 0; i < sheet->camp->phase_count; i++)
        draw_phase(sheet, band, i, high);
    if (sheet->camp->bout_count)
        press_put(&sheet->frame.press, band, sheet->left + sheet->width + 10,
                  band->height + (high + frame_capital(&sheet->frame, bold.size)) / 2,
                  bouts_words(sheet), face_of(sheet, WEIGHT_BOLD, INK_SPOT));
    band->height += high + 0.3 * sheet->frame.second;
}

static struct box *band_box(const struct camp_sheet *sheet)
{
    struct box *band = box_new(sheet->frame.press.arena);
    draw_weeks(sheet, band);
    draw_phases(sheet, band);
    return band;
}

/* A line through all charts where a phase begins, and a heavy one at each bout. */
static void draw_uprights(const struct camp_sheet *sheet, struct box *page, double top,
                          double bottom)
{
    const struct camp *camp = sheet->camp;
    double margin = sheet->frame.margin;
    for (size_t i = 0; i < camp->phase_count; i++)
        if (camp->phases[i].first > camp->first)
            box_line(page, margin + x_of(sheet, camp->phases[i].first), top, 0, bottom - top, 0.5,
                     INK_HAIR);
    for (size_t i = 0; i < camp->bout_count; i++)
        for (size_t d = 0; d < camp->bouts[i]->day_count; d++)
            box_line(page, margin + x_of(sheet, camp->bouts[i]->days[d]), top, 0, bottom - top, 1.8, INK_SPOT);
}

/* --- title and foot --- */

/* "1 base 1 Mar to 28 Mar", each, and the bout. */
static const char *phases_words(const struct camp_sheet *sheet)
{
    const struct camp *camp = sheet->camp;
    struct arena *arena = sheet->frame.press.arena;
    struct text out = {.arena = arena};
    for (size_t i = 0; i < camp->phase_count; i++) {
        const struct phase *phase = &camp->phases[i];
        if (phase->last < phase->first)
            continue;
        const char *first = frame_day(arena, phase->first);
        const char *days = phase->open ? arena_printf(arena, said(arena, "from\u00a0%s"), first)
                                       : arena_printf(arena, said_as(arena, "days", "%s to\u00a0%s"), first,
                                                      frame_day(arena, phase->last));
        text_addf(&out, "%s%zu" WORDING_GAP "%s %s", out.length ? "   " : "", i + 1, phase->name.shown, days);
    }
    const char *left = wording_left_phases(arena, camp);
    text_addf(&out, "%s%s", *left && out.length ? "   " : "", left);
    return text_keep(arena, &out);
}

/* " Bangkok time" where BOUT is abroad, else "". */
static const char *bout_zone(const struct camp_sheet *sheet, const struct bout *bout)
{
    const struct sheet_request *request = sheet->frame.request;
    for (size_t i = 0; i < request->count; i++) {
        const struct occasion *occasion = request->occasions[i];
        if (occasion->activity && occasion->activity->bout && occasion->date == bout->day && zone_abroad(occasion))
            return arena_printf(sheet->frame.press.arena, " %s", abroad_words(sheet->frame.press.arena, occasion));
    }
    return "";
}

/* Each bout with its hour and its rule set. */
static const char *bout_words(const struct camp_sheet *sheet)
{
    struct arena *arena = sheet->frame.press.arena;
    struct text out = {.arena = arena};
    for (size_t i = 0; i < sheet->camp->bout_count; i++) {
        const struct bout *bout = sheet->camp->bouts[i];
        text_addf(&out, "%s%s%s", i ? "   " : "", said_count(arena, 1, "bout ", "bouts "), bout_day_words(arena, bout));
        if (bout->clock >= 0)
            text_addf(&out, ", %s%s", said_hour(arena, bout->clock), bout_zone(sheet, bout));
        const char *words = wording_bout(arena, bout);
        text_addf(&out, "%s%s", *words ? ": " : "", words);
    }
    return text_keep(arena, &out);
}

static const char *provisional_words(const struct camp_sheet *sheet)
{
    const struct sheet_request *request = sheet->frame.request;
    const char *words = "";
    for (size_t i = 0; i < request->count && !*words; i++)
        words = foot_provisional(sheet->frame.press.arena, request->occasions[i]);
    for (size_t i = 0; i < sheet->camp->phase_count && !*words; i++) {
        const struct bout *bout = sheet->camp->phases[i].after_bout ? sheet->camp->phases[i].bout : NULL;
        if (bout && !(bout->result_known && bout->checked))
            words = said(sheet->frame.press.arena,
                         "Everything after the bout is provisional until its result and the medical check are entered.");
    }
    return words;
}

static struct frame_title title_words(const struct camp_sheet *sheet)
{
    const struct occasion *first = sheet->frame.request->occasions[0];
    struct arena *arena = sheet->frame.press.arena;
    return (struct frame_title){
        .title = arena_printf(arena, "%s, %s", sheet->camp->name.shown, first->athlete->name.shown),
        .beside = phases_words(sheet),
        .when = sheet->frame.request->date_words,
        .then = bout_words(sheet),
        .provisional = provisional_words(sheet)};
}

static struct box *key_box(const struct camp_sheet *sheet)
{
    const struct press *press = &sheet->frame.press;
    int64_t load = 0, strikes = 0;
    for (size_t w = 0; w < sheet->weeks; w++) {
        load += tally_uncounted(&sheet->tallies[w], COUNTED_SESSION_LOAD);
        strikes += tally_uncounted(&sheet->tallies[w], COUNTED_STRIKES);
    }
    const char *more = "";
    if (load)
        more = arena_printf(press->arena,
                            said(press->arena, " Not in the load: %lld\u00a0min with no effort given."),
                            (long long)((load + 30) / 60));
    if (strikes)
        more = arena_printf(press->arena,
                            said(press->arena, "%s Not in the strikes: %lld\u00a0min of timed work."), more,
                            (long long)((strikes + 30) / 60));
    const char *done = sheet->done ? said(press->arena, " The narrow column in a bar is what was done, as the logs tell it.") : "";
    const char *narrow = camp_numbers_fit(sheet) ? "" : said(press->arena, " Numbers wider than their week are left out.");
    const char *notes = camp_notes_words(sheet);
    const char *words = arena_printf(press->arena, "%s%s%s%s%s%s",
                                     said(press->arena, "Coloured lines are limits, over the days to which they apply; a "
                                                        "rise in load is compared with the highest of the four weeks before."),
                                     done, narrow, more, *notes ? "   " : "", notes);
    return press_paragraph(press, words,
                           frame_face(sheet->frame.foot, WEIGHT_REGULAR, INK_BLACK, RANK_FOOT),
                           sheet->frame.inner, 0, 1, false);
}

static const char *describe(const struct camp_sheet *sheet)
{
    struct arena *arena = sheet->frame.press.arena;
    struct text out = {.arena = arena};
    for (size_t w = 0; w < sheet->weeks; w++)
        text_addf(
            &out, said(arena, "Week %zu: sets %s, strikes %s, sparring rounds %s. "), w + 1,
            counted_amount(arena, COUNTED_SETS, sheet->tallies[w].sum[COUNTED_SETS].high),
            counted_amount(arena, COUNTED_STRIKES, sheet->tallies[w].sum[COUNTED_STRIKES].high),
            counted_amount(arena, COUNTED_SPARRING_ROUNDS,
                           sheet->tallies[w].sum[COUNTED_SPARRING_ROUNDS].high));
    return text_keep(arena, &out);
}

/* --- pages --- */

static struct box *open_page(struct scene *scene, const struct frame *frame,
                             const struct frame_title *title)
{
    bool again = scene->page_count > 0;
    struct box *page = scene_page(scene);
    box_place(page, frame_header(frame, title, again), frame->margin, frame->margin);
    return page;
}

/* Down to where the foot begins. */
static double foot_top(const struct frame *frame, const struct box *foot)
{
    return frame->height - frame->margin - frame_last_line(frame, 1, 1)->height - foot->height;
}

static void add_charts(struct scene *scene, const struct camp_sheet *sheet,
                       const struct frame_title *title, const struct box *foot)
{
    const struct frame *frame = &sheet->frame;
    struct box *band = band_box(sheet), *charts[CAMP_CHARTS], *page = NULL;
    double gap = 9, least = camp_charts_least(sheet), bottom = foot_top(frame, foot);
    double top = frame->margin + frame_header(frame, title, false)->height;
    double room = bottom - top - band->height - gap;
    size_t count = CAMP_CHARTS, a_page = count;
    while (a_page > 1 && room / (double)a_page - gap < least)
        a_page--;
    camp_charts(sheet, room / (double)a_page - gap, charts);
    for (size_t i = 0; i < count; i++) {
        if (!page || i % a_page == 0) {
            page = open_page(scene, frame, title);
            if (i == 0)
                scene_bookmark(scene, scene->title, 0, false);
            draw_uprights(sheet, page, top + band->height, bottom - 3);
            box_place(page, band, frame->margin, top);
        }
        double y = top + band->height + (double)(i % a_page) * room / (double)a_page + gap;
        box_place(page, charts[i], frame->margin, y);
    }
}

/* How many strips from START on go on a page: a table that would be broken off, and has room on the next page, goes
 * there. */
static size_t tables_fit(const struct strips *strips, size_t start, double room)
{
    double used;
    size_t end = start + strips_fit(strips, start, room, &used), first = end, over = end;
    while (over < strips->count && !strips->items[over].first)
        over++;
    if (over == end)
        return end - start;
    while (!strips->items[first].first && first > start)
        first--;
    bool whole = first + strips_fit(strips, first, room, &used) >= over;
    return (whole && first > start ? first : end) - start;
}

static void add_lifts(struct scene *scene, const struct camp_sheet *sheet,
                      const struct frame_title *title, const struct box *foot)
{
    const struct frame *frame = &sheet->frame;
    struct strips strips = camp_lifts(sheet);
    double y = frame->margin + frame_header(frame, title, true)->height;
    double room = foot_top(frame, foot) - 8 - y;
    for (size_t start = 0; start < strips.count;) {
        struct box *page = open_page(scene, frame, title);
        size_t fitting = tables_fit(&strips, start, room);
        if (start == 0)
            scene_bookmark(scene, said(scene->arena, "week by week"), 0, true);
        strips_draw(scene, page, &strips, start, start + fitting, frame->margin, y, 0);
        start += fitting;
    }
}

static void add_pages(struct scene *scene, const struct camp_sheet *sheet,
                      const struct frame_title *title)
{
    const struct frame *frame = &sheet->frame;
    struct box *key = key_box(sheet), *foot = frame_foot(frame, &key, 1);
    struct foot_marks used = {
        .stances = foot_marks_used(frame->request->occasions, frame->request->count).stances};
    struct box *marks =
        foot_key(&frame->press, used, frame_face(frame->foot, WEIGHT_REGULAR, INK_BLACK, RANK_FOOT),
                 frame->inner);
    struct box *rest = press_paragraph(&frame->press,
                                       said(sheet->frame.press.arena, "Strength and power alone. Rounds, skill, conditioning and mobility stand on the "
                                       "sheet of each week."),
                                       frame_face(frame->foot, WEIGHT_REGULAR, INK_BLACK, RANK_FOOT), frame->inner, 0, 1, false);
    struct box *below[] = {marks, rest};
    struct box *plain = frame_foot(frame, below, 2);
    add_charts(scene, sheet, title, foot);
    size_t charts = scene->page_count;
    add_lifts(scene, sheet, title, plain);
    for (size_t i = 0; i < scene->page_count; i++) {
        const struct box *own = i < charts ? foot : plain;
        box_place(scene->pages[i], own, frame->margin, foot_top(frame, own));
        box_place(scene->pages[i], frame_last_line(frame, (int)i + 1, (int)scene->page_count),
                  frame->margin, foot_top(frame, own) + own->height);
    }
}

struct scene *camp_scene(const struct sheet_request *request)
{
    struct camp_sheet sheet = camp_sheet_of(request);
    struct frame_title title = title_words(&sheet);
    struct scene *scene = frame_scene(
        &sheet.frame, arena_printf(request->arena, said(request->arena, "%s, camp"), title.title), "camp sheet");
    scene->description = describe(&sheet);
    add_pages(scene, &sheet, &title);
    frame_report_reach(scene, &sheet.frame);
    return scene;
}
