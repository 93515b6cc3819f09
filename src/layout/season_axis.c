/* season_axis.c - a season's axis of time, and marks and camps in rows below it. */
#include <math.h>
#include <stdlib.h>

#include "base/text.h"
#include "figures/dates.h"
#include "language/language.h"
#include "layout/foot.h"
#include "layout/season_page.h"
#include "measure/hold.h"
#include "measure/member.h"
#include "model/programme.h"
#include "wording/wording.h"

/* No sheet has more lines than that in a row. */
enum { LANES = 24 };

struct season_sheet season_sheet_of(const struct sheet_request *request, double left, double right)
{
    struct season_sheet sheet = {.frame = frame_of(request), .season = request->season, .left = left, .right = right};
    sheet.first = date_monday(sheet.season->first);
    sheet.weeks = (size_t)(date_monday(sheet.season->last) - sheet.first) / 7 + 1;
    sheet.edges = arena_alloc(request->arena, (sheet.weeks + 1) * sizeof *sheet.edges);
    for (size_t w = 0; w <= sheet.weeks; w++)
        sheet.edges[w] = (double)w / (double)sheet.weeks;
    sheet.size = sheet.frame.first;
    sheet.width = sheet.frame.inner - left - right;
    return sheet;
}

double season_x(const struct season_sheet *sheet, int day)
{
    double share = (double)(day - sheet->first) / (double)(7 * sheet->weeks);
    return sheet->left + fmax(0, fmin(1, share)) * sheet->width;
}

static struct face face_of(const struct season_sheet *sheet, enum weight weight, enum ink ink)
{
    struct face face = frame_face(sheet->size, weight, ink, RANK_SECOND);
    face.style.role = ROLE_CELL;
    return face;
}

static double wide(const struct season_sheet *sheet, const char *words, struct face face)
{
    return type_width(sheet->frame.press.type, words, face.size, face.weight);
}

/* LEAD left of a row, on as many lines as it takes there; returns how far down it reaches. */
static double put_lead(const struct season_sheet *sheet, struct box *box, const char *lead, double baseline)
{
    struct face face = face_of(sheet, WEIGHT_BOLD, INK_BLACK);
    double room = sheet->left - 6, end = baseline;
    box_open(box, ROLE_HEAD);
    if (wide(sheet, lead, face) <= room) {
        press_put(&sheet->frame.press, box, 0, baseline, lead, face);
    } else {
        struct box *lines = press_paragraph(&sheet->frame.press, lead, face, room, 0, 1, false);
        box_place(box, lines, 0, baseline - lines->baseline);
        end += lines->height - lines->baseline;
    }
    box_close(box, ROLE_HEAD);
    return end;
}

/* --- the axis --- */

/* The first day of the month after that of DAY. */
static int next_month(int day)
{
    int year, month, of_month;
    if (!date_to_ymd(day, &year, &month, &of_month))
        return DATE_LAST;
    int next = month == 12 ? date_from_ymd(year + 1, 1, 1) : date_from_ymd(year, month + 1, 1);
    return next ? next : DATE_LAST;
}

static void draw_months(const struct season_sheet *sheet, struct box *box, double baseline)
{
    int end = sheet->first + 7 * (int)sheet->weeks, year, month, of_month;
    struct arena *arena = sheet->frame.press.arena;
    struct face face = face_of(sheet, WEIGHT_BOLD, INK_BLACK);
    box_open(box, ROLE_ROW);
    put_lead(sheet, box, said(arena, "month"), baseline);
    for (int day = sheet->first, next; day < end && date_to_ymd(day, &year, &month, &of_month); day = next) {
        next = next_month(day);
        double left = season_x(sheet, day), right = season_x(sheet, next < end ? next : end);
        const char *words = said_month(arena, SAID_SHORT, month);
        if (month == 1 || day == sheet->first)
            words = arena_printf(arena, "%s %d", words, said_year(arena, year));
        if (wide(sheet, words, face) > right - left - 3)
            continue;
        box_open(box, ROLE_DATUM);
        press_put(&sheet->frame.press, box, left + 2, baseline, words, face);
        box_close(box, ROLE_DATUM);
    }
    box_close(box, ROLE_ROW);
}

static void draw_weeks(const struct season_sheet *sheet, struct box *box, double baseline)
{
    double week = sheet->width / (double)sheet->weeks;
    struct face face = face_of(sheet, WEIGHT_REGULAR, INK_GREY);
    size_t step = (size_t)fmax(1, ceil((wide(sheet, "53", face) + 3) / week));
    box_open(box, ROLE_ROW);
    put_lead(sheet, box, said(sheet->frame.press.arena, "week of the year"), baseline);
    for (size_t w = 0; w < sheet->weeks; w += step) {
        int year = 0, number = 0;
        if (!date_iso_week(sheet->first + 7 * (int)w, &year, &number))
            continue;
        const char *words = arena_printf(sheet->frame.press.arena, "%d", number);
        double middle = sheet->left + ((double)w + 0.5) * week;
        box_open(box, ROLE_DATUM);
        press_put(&sheet->frame.press, box, middle - wide(sheet, words, face) / 2, baseline, words, face);
        box_close(box, ROLE_DATUM);
    }
    box_close(box, ROLE_ROW);
}

struct box *season_axis(const struct season_sheet *sheet)
{
    struct box *box = box_new(sheet->frame.press.arena);
    double size = sheet->size, line = frame_capital(&sheet->frame, size);
    box_open(box, ROLE_TABLE);
    draw_months(sheet, box, line);
    draw_weeks(sheet, box, line + 1.4 * size);
    box_close(box, ROLE_TABLE);
    box->height = line + 1.9 * size;
    box_line(box, sheet->left, box->height, sheet->width, 0, 0.8, INK_BLACK);
    return box;
}

void season_uprights(const struct season_sheet *sheet, struct box *page, double top, double bottom)
{
    int end = sheet->first + 7 * (int)sheet->weeks;
    for (int day = sheet->first; day < end; day = next_month(day))
        box_line(page, sheet->frame.margin + season_x(sheet, day), top, 0, bottom - top, 0.5, INK_HAIR);
}

/* --- marks --- */

void season_add(const struct season_sheet *sheet, struct season_marks *marks, struct season_mark mark)
{
    const struct season *season = sheet->season;
    if (mark.last < season->first || mark.first > season->last || mark.last < mark.first)
        return;
    mark.first = mark.first < season->first ? season->first : mark.first;
    mark.last = mark.last > season->last ? season->last : mark.last;
    marks->items = arena_grow(sheet->frame.press.arena, marks->items, marks->count, &marks->capacity,
                              sizeof *marks->items);
    marks->items[marks->count++] = mark;
}

static int by_day(const void *left, const void *right)
{
    const struct season_mark *a = left, *b = right;
    return a->first != b->first ? (a->first > b->first) - (a->first < b->first) : (a->last > b->last) - (a->last < b->last);
}

/* The first line in which LEFT to RIGHT is free, with GAP before it; it is taken then. */
static size_t take_lane(double ends[LANES], size_t *used, double left, double right, double gap)
{
    size_t lane = 0;
    while (lane < *used && ends[lane] > left - gap + 0.01)
        lane++;
    if (lane == LANES)
        lane = LANES - 1;
    if (lane == *used)
        *used = lane + 1;
    ends[lane] = right;
    return lane;
}

/* Where the words of MARK stand that lies from LEFT to RIGHT: inside it, behind it or, at the page's end, before it. */
static double words_place(const struct season_sheet *sheet, double left, double right, double width)
{
    double end = sheet->left + sheet->width + sheet->right;
    if (width + 6 <= right - left)
        return left + 3;
    return right + 3 + width <= end ? right + 3 : left - 3 - width;
}

struct box *season_row(const struct season_sheet *sheet, const char *lead, struct season_marks *marks)
{
    double ends[LANES] = {0}, line = 1.5 * sheet->size, capital = frame_capital(&sheet->frame, sheet->size);
    size_t used = 0;
    struct box *box = box_new(sheet->frame.press.arena);
    if (!marks->count)
        return NULL;
    qsort(marks->items, marks->count, sizeof *marks->items, by_day);
    box_open(box, ROLE_TABLE);
    box_open(box, ROLE_ROW);
    double reach = put_lead(sheet, box, lead, 0.25 * line + capital);
    for (size_t i = 0; i < marks->count; i++) {
        const struct season_mark *mark = &marks->items[i];
        struct face face = face_of(sheet, mark->day ? WEIGHT_BOLD : WEIGHT_REGULAR, mark->day ? INK_SPOT : INK_BLACK);
        double left = season_x(sheet, mark->first), right = fmax(season_x(sheet, mark->last + 1), left + 4);
        double width = wide(sheet, mark->words, face), x = words_place(sheet, left, right, width);
        size_t lane = take_lane(ends, &used, fmin(x, left), fmax(x + width, right), 5);
        double top = (double)lane * line;
        box_rectangle(box, left, top + 0.1 * line, right - left, 0.8 * line, mark->fill,
                      mark->day ? INK_SPOT : INK_BLACK, 0.6);
        if (x > right || x < left)
            box_rectangle(box, x - 1, top + 0.1 * line, width + 2, 0.8 * line, INK_PAPER, INK_NONE, 0);
        box_open(box, ROLE_DATUM);
        press_put(&sheet->frame.press, box, x, top + 0.25 * line + capital, mark->words, face);
        box_close(box, ROLE_DATUM);
    }
    box_close(box, ROLE_ROW);
    box_close(box, ROLE_TABLE);
    box->height = fmax((double)used * line, reach);
    return box;
}

/* --- what an athlete's marks are --- */

static void add_bout(const struct season_sheet *sheet, struct season_marks *marks, const struct bout *bout, bool with_kind)
{
    struct arena *arena = sheet->frame.press.arena;
    const char *words = frame_day(arena, bout->day);
    if (bout->last > bout->day)
        words = arena_printf(arena, said_as(arena, "days", "%s to\u00a0%s"), words, frame_day(arena, bout->last));
    if (bout->cancelled)
        words = arena_printf(arena, said(arena, "%s, cancelled"), words);
    else if (with_kind && bout->words)
        words = arena_printf(arena, "%s: %s", words, bout->words);
    season_add(sheet, marks, (struct season_mark){bout->day, bout->last, words, bout->cancelled ? INK_PAPER : INK_SPOT, true});
}

void season_add_bouts(const struct season_sheet *sheet, struct season_marks *marks, const struct athlete *athlete,
                      bool with_kind)
{
    const struct programme *programme = sheet->frame.request->programme;
    for (size_t i = 0; i < programme->camp_count; i++) {
        const struct camp *camp = programme->camps[i];
        for (size_t b = 0; b < camp->bout_count; b++)
            if (camp_has(camp, athlete, camp->bouts[b]->day))
                add_bout(sheet, marks, camp->bouts[b], with_kind);
    }
}

/* "away 2 Apr to 11 Apr", or "away from 2 Apr" if it GOES_ON after LAST: no end is known then, or none in this season. */
static const char *absence_words(struct arena *arena, int first, int last, bool goes_on)
{
    const char *days = frame_day(arena, first);
    if (goes_on)
        return arena_printf(arena, said(arena, "away from %s"), days);
    if (last > first)
        days = arena_printf(arena, said_as(arena, "days", "%s to\u00a0%s"), days, frame_day(arena, last));
    return arena_printf(arena, said(arena, "away %s"), days);
}

void season_add_absences(const struct season_sheet *sheet, struct season_marks *marks, const struct athlete *athlete)
{
    const struct season *season = sheet->season;
    for (int day = season->first, last; day <= season->last; day = last + 1) {
        last = day;
        if (!athlete_out(athlete, day))
            continue;
        while (last < season->last && athlete_out(athlete, last + 1))
            last++;
        const char *words = absence_words(sheet->frame.press.arena, day, last, athlete_out(athlete, last + 1));
        season_add(sheet, marks, (struct season_mark){day, last, words, INK_HAIR, false});
    }
}

/* --- camps --- */

/* From when to when ATHLETE is in CAMP and in the season; false: never. */
static bool camp_days(const struct season_sheet *sheet, const struct camp *camp, const struct athlete *athlete, int *first,
                      int *last)
{
    *first = DATE_LAST;
    *last = 0;
    for (size_t a = 0; a < camp->athlete_count; a++) {
        if (camp->athletes[a] != athlete)
            continue;
        int from = camp->members ? camp->members[a].first : 0, to = camp->members ? camp->members[a].last : DATE_LAST;
        from = from < camp->first ? camp->first : from;
        to = to > camp->last ? camp->last : to;
        *first = from < *first ? from : *first;
        *last = to > *last ? to : *last;
    }
    *first = *first < sheet->season->first ? sheet->season->first : *first;
    *last = *last > sheet->season->last ? sheet->season->last : *last;
    return *first <= *last;
}

static void draw_phase(const struct season_sheet *sheet, struct box *box, const struct phase *phase, int first, int last,
                       double top, bool shaded)
{
    double high = 1.5 * sheet->size;
    int end = phase->open ? last : phase->last;
    double left = season_x(sheet, phase->first < first ? first : phase->first);
    double right = season_x(sheet, (end > last ? last : end) + 1);
    struct face face = face_of(sheet, WEIGHT_REGULAR, INK_BLACK);
    if (right - left < 0.5 || phase->first > last)
        return;
    box_rectangle(box, left, top, right - left, high, shaded ? INK_HAIR : INK_PAPER, INK_BLACK, 0.7);
    double width = wide(sheet, phase->name.shown, face);
    if (width > right - left - 3)
        return;
    box_open(box, ROLE_DATUM);
    press_put(&sheet->frame.press, box, (left + right - width) / 2,
              top + (high + frame_capital(&sheet->frame, face.size)) / 2, phase->name.shown, face);
    box_close(box, ROLE_DATUM);
}

/* A camp with the athlete's days in it. */
struct own_days {
    const struct camp *camp;
    int first, last;
};

static int by_first_day(const void *left, const void *right)
{
    const struct own_days *a = left, *b = right;
    return a->first != b->first ? (a->first > b->first) - (a->first < b->first) : (a->last > b->last) - (a->last < b->last);
}

/* The camps of ATHLETE by their days; *COUNT of them. */
static struct own_days *find_camps(const struct season_sheet *sheet, const struct athlete *athlete, size_t *count)
{
    const struct programme *programme = sheet->frame.request->programme;
    struct own_days *own = arena_alloc(sheet->frame.press.arena, (programme->camp_count + 1) * sizeof *own);
    *count = 0;
    for (size_t i = 0; i < programme->camp_count; i++) {
        struct own_days *days = &own[*count];
        days->camp = programme->camps[i];
        *count += camp_days(sheet, days->camp, athlete, &days->first, &days->last);
    }
    qsort(own, *count, sizeof *own, by_first_day);
    return own;
}

static void draw_camp(const struct season_sheet *sheet, struct box *box, const struct own_days *own, double top)
{
    const struct camp *camp = own->camp;
    int first = own->first, last = own->last;
    struct face bold = face_of(sheet, WEIGHT_BOLD, INK_BLACK);
    const char *without = wording_left_phases(sheet->frame.press.arena, camp);
    const char *words = *without ? arena_printf(sheet->frame.press.arena, "%s, %s", camp->name.shown, without) : camp->name.shown;
    double size = bold.size, left = season_x(sheet, first), width = wide(sheet, words, bold);
    double name = fmin(left, sheet->left + sheet->width + sheet->right - width);
    box_open(box, ROLE_DATUM);
    press_put(&sheet->frame.press, box, name, top + 0.3 * size + frame_capital(&sheet->frame, size), words, bold);
    box_close(box, ROLE_DATUM);
    box_rectangle(box, left, top + 1.3 * size, season_x(sheet, last + 1) - left, 1.5 * size, INK_PAPER, INK_BLACK, 0.7);
    for (size_t p = 0; p < camp->phase_count; p++)
        draw_phase(sheet, box, &camp->phases[p], first, last, top + 1.3 * size, p % 2 == 0);
}

struct box *season_camps(const struct season_sheet *sheet, const char *lead, const struct athlete *athlete)
{
    struct box *box = box_new(sheet->frame.press.arena);
    struct face bold = face_of(sheet, WEIGHT_BOLD, INK_BLACK);
    double ends[LANES] = {0}, size = bold.size, high = 3.1 * size, end = sheet->left + sheet->width + sheet->right;
    size_t used = 0, count;
    struct own_days *own = find_camps(sheet, athlete, &count);
    box_open(box, ROLE_TABLE);
    box_open(box, ROLE_ROW);
    double reach = put_lead(sheet, box, lead, 0.3 * size + frame_capital(&sheet->frame, size));
    for (size_t i = 0; i < count; i++) {
        double left = season_x(sheet, own[i].first), width = wide(sheet, own[i].camp->name.shown, bold);
        double right = fmax(season_x(sheet, own[i].last + 1), left + width + 4);
        size_t lane = take_lane(ends, &used, fmin(left, end - width), right, 0);
        draw_camp(sheet, box, &own[i], high * (double)lane);
    }
    box_close(box, ROLE_ROW);
    box_close(box, ROLE_TABLE);
    box->height = fmax(high * (double)used, reach);
    return used ? box : NULL;
}

struct frame_title season_title(const struct season_sheet *sheet, const char *whose)
{
    const struct sheet_request *request = sheet->frame.request;
    const char *provisional = "";
    for (size_t i = 0; i < request->count && !*provisional; i++)
        provisional = foot_provisional(request->arena, request->occasions[i]);
    return (struct frame_title){.title = whose, .beside = "", .when = request->date_words,
                                .then = arena_printf(request->arena, said(request->arena, "season %s"),
                                                     sheet->season->name.shown),
                                .provisional = provisional};
}

void season_finish(const struct season_sheet *sheet, struct scene *scene, const struct box *foot, double bottom)
{
    const struct frame *frame = &sheet->frame;
    scene_bookmark(scene, scene->title, 0, false);
    for (size_t i = 0; i < scene->page_count; i++) {
        box_place(scene->pages[i], foot, frame->margin, bottom);
        box_place(scene->pages[i], frame_last_line(frame, (int)i + 1, (int)scene->page_count), frame->margin,
                  bottom + foot->height);
    }
}
