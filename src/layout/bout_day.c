/* bout_day.c - the days of a week on which an athlete has a bout, for whoever goes along: when, by which rules, what else is
 * on that day, who is there, and what to write down. No figure of the body stands on it. */
#include <string.h>

#include "base/text.h"
#include "layout/flow.h"
#include "layout/frame.h"
#include "layout/marks.h"
#include "layout/strips.h"
#include "measure/clocks.h"
#include "measure/member.h"
#include "model/activity.h"
#include "model/athlete.h"
#include "model/occasion.h"
#include "wording/wording.h"

static const char AFTERWARDS[] =
    "Afterwards write the result and the medical check into the plan, below the bout, and a log of the bout with its minutes and "
    "RPE: it counts in the load. A bout lost by knockout or stoppage asks for a hold from that day on. Write down any knock to the "
    "head at once, however the bout ended.";

struct bout_day {
    struct frame frame;
};

static struct face plain(const struct bout_day *sheet, enum weight weight)
{
    return frame_face(sheet->frame.first, weight, INK_BLACK, RANK_FIRST);
}

/* "19:30", and abroad "19:30 Tokyo time"; "" where no hour is given. */
static const char *hour_words(struct arena *arena, const struct occasion *occasion)
{
    if (occasion->clock < 0)
        return "";
    const char *zone = abroad_words(arena, occasion);
    return arena_printf(arena, "%s%s%s", wording_clock(arena, occasion->clock / 60), *zone ? " " : "", zone);
}

/* "Saturday 13 February 2027, 19:30". */
static const char *when_words(struct arena *arena, const struct occasion *occasion)
{
    const char *hour = hour_words(arena, occasion);
    return arena_printf(arena, "%s%s%s", sheet_day_words(arena, occasion->date), *hour ? ", " : "", hour);
}

/* "kickboxing 3 x 2:00 rest 1:00." A bout without a rule set says how long it is taken to be. */
static const char *rules_words(struct arena *arena, const struct bout *bout, const struct occasion *occasion)
{
    return arena_printf(arena, "%s.", bout->words ? bout->words : wording_occasion(arena, occasion));
}

static bool is_weigh_in(const struct occasion *occasion)
{
    return occasion->activity && strcmp(occasion->activity->name.folded, "weigh-in") == 0;
}

/* The weigh-ins of the week up to OCCASION's day. */
static const char *weigh_in_words(const struct bout_day *sheet, const struct occasion *occasion)
{
    const struct sheet_request *request = sheet->frame.request;
    struct text out = {.arena = request->arena};
    for (size_t i = 0; i < request->count; i++)
        if (is_weigh_in(request->occasions[i]) && request->occasions[i]->date <= occasion->date &&
            request->occasions[i]->camp == occasion->camp)
            text_addf(&out, "%s%s", out.length ? "; " : "Weigh-in: ", when_words(request->arena, request->occasions[i]));
    return text_keep(request->arena, &out);
}

/* What else is planned that day, a warm-up of the plan's among it. */
static const char *beside_words(const struct bout_day *sheet, const struct occasion *bout)
{
    const struct sheet_request *request = sheet->frame.request;
    struct text out = {.arena = request->arena};
    for (size_t i = 0; i < request->count; i++) {
        const struct occasion *other = request->occasions[i];
        if (other == bout || other->date != bout->date || is_weigh_in(other))
            continue;
        const char *hour = hour_words(request->arena, other);
        text_addf(&out, "%s%s%s%s, %s", out.length ? "; " : "Also that day: ", hour, *hour ? " " : "",
                  other->session ? other->session->name.shown : other->activity->name.shown,
                  wording_occasion(request->arena, other));
    }
    return text_keep(request->arena, &out);
}

/* "Day 2 of 3: not reached where the day before is lost.", of a tournament. */
static const char *tournament_words(struct arena *arena, const struct bout *bout, int day)
{
    size_t at = 0;
    while (at < bout->day_count && bout->days[at] != day)
        at++;
    if (bout->day_count < 2)
        return "";
    return arena_printf(arena, "Day %zu of %zu%s", at + 1, bout->day_count, at ? ": not reached where an earlier day is lost." : ".");
}

/* A line of places to write, each behind its word. */
static struct box *blanks_box(const struct bout_day *sheet, const char *const *leads, size_t count, double share)
{
    const struct press *press = &sheet->frame.press;
    struct face face = plain(sheet, WEIGHT_REGULAR);
    struct box *line = box_new(press->arena);
    double gap = 0.6 * face.size;
    line->baseline = frame_capital(&sheet->frame, face.size);
    for (size_t i = 0; i < count; i++) {
        atom_join(line, press_word(press, leads[i], face), line->count ? 2 * gap : 0);
        atom_join(line, mark_blank(press, share * sheet->frame.inner, 1.6 * face.size), gap);
    }
    return line;
}

static struct box *body_box(const struct bout_day *sheet, const struct occasion *occasion)
{
    static const char *const before[] = {"medical check by", "at"}, *const corner[] = {"in the corner", "and"},
                      *const after[] = {"rounds", "minutes", "RPE"}, *const result[] = {"result", "seen by a doctor"},
                      *const notes[] = {"notes"};
    const struct press *press = &sheet->frame.press;
    const struct bout *bout = occasion_bout(occasion);
    struct box *column = box_new(press->arena);
    struct face face = plain(sheet, WEIGHT_REGULAR);
    const char *const lines[] = {rules_words(press->arena, bout, occasion), weigh_in_words(sheet, occasion),
                                 tournament_words(press->arena, bout, occasion->date), beside_words(sheet, occasion)};
    for (size_t i = 0; i < sizeof lines / sizeof *lines; i++)
        if (*lines[i])
            frame_stack(column, press_paragraph(press, lines[i], face, sheet->frame.inner, 0, 1, false), 0.45 * face.size);
    double gap = 1.2 * face.size;
    frame_stack(column, blanks_box(sheet, before, 2, 0.25), gap);
    frame_stack(column, blanks_box(sheet, corner, 2, 0.25), gap);
    frame_stack(column, blanks_box(sheet, after, 3, 0.12), gap);
    frame_stack(column, blanks_box(sheet, result, 2, 0.2), gap);
    frame_stack(column, blanks_box(sheet, notes, 1, 0.75), gap);
    return column;
}

static struct box *heading_box(const struct bout_day *sheet, const char *words)
{
    const struct frame *frame = &sheet->frame;
    struct box *box = box_new(frame->press.arena);
    struct face bold = plain(sheet, WEIGHT_BOLD);
    bold.style.role = ROLE_HEADING;
    struct box *title = press_paragraph(&frame->press, words, bold, frame->inner, 0, 1, false);
    box_rectangle(box, 0, 0, frame->inner, 0.8, INK_BLACK, INK_NONE, 0);
    box_place(box, title, 0, 0.6 * bold.size);
    box->height = 0.6 * bold.size + title->height + 0.3 * bold.size;
    return box;
}

static struct strips all_strips(const struct bout_day *sheet)
{
    const struct sheet_request *request = sheet->frame.request;
    const struct press *press = &sheet->frame.press;
    struct strips strips = {0};
    for (size_t i = 0; i < request->count; i++) {
        if (!occasion_bout(request->occasions[i]))
            continue;
        const char *title = when_words(press->arena, request->occasions[i]);
        strips_add(press, &strips, (struct strip){.heading = heading_box(sheet, title), .again = heading_box(sheet, title),
                                                  .body = body_box(sheet, request->occasions[i]), .before = 12, .first = true,
                                                  .title = title});
    }
    if (!strips.count) {
        struct box *none = press_paragraph(press, "No bout is in this week.", plain(sheet, WEIGHT_REGULAR), sheet->frame.inner,
                                           0, 1, false);
        strips_add(press, &strips, (struct strip){.heading = heading_box(sheet, "No bout"), .again = heading_box(sheet, "No bout"),
                                                  .body = none, .first = true, .title = "No bout"});
    }
    return strips;
}

static struct box *foot_box(const struct bout_day *sheet)
{
    const struct press *press = &sheet->frame.press;
    struct face face = frame_face(1.25 * sheet->frame.foot, WEIGHT_REGULAR, INK_BLACK, RANK_FOOT);
    struct box *parts[] = {press_paragraph(press, AFTERWARDS, face, sheet->frame.inner, 0, 1, false)};
    return frame_foot(&sheet->frame, parts, sizeof parts / sizeof *parts);
}

static void add_pages(struct scene *scene, const struct bout_day *sheet, const struct frame_title *title)
{
    struct strips strips = all_strips(sheet);
    flow_pages(scene, &sheet->frame, title, &strips, foot_box(sheet), NULL);
}

/* The largest letters that need no more pages than the smallest. */
static void fit_size(struct bout_day *sheet, const struct frame_title *title)
{
    static const double scales[] = {1.6, 1.45, 1.3, 1.15};
    const struct frame least = sheet->frame;
    struct scene *trial = frame_scene(&sheet->frame, "", "");
    add_pages(trial, sheet, title);
    size_t pages = trial->page_count;
    for (size_t i = 0; i < sizeof scales / sizeof *scales; i++) {
        sheet->frame.first = scales[i] * least.first;
        sheet->frame.second = scales[i] * least.second;
        trial = frame_scene(&sheet->frame, "", "");
        add_pages(trial, sheet, title);
        if (trial->page_count <= pages)
            return;
    }
    sheet->frame = least;
}

struct scene *bout_day_scene(const struct sheet_request *request)
{
    struct bout_day sheet = {.frame = frame_of(request)};
    const struct athlete *athlete = request->occasions[0]->athlete;
    struct frame_title title = {.title = athlete->name.shown, .beside = "On the day of the bout", .when = request->date_words,
                                .then = "", .provisional = ""};
    fit_size(&sheet, &title);
    struct scene *scene = frame_scene(&sheet.frame, arena_printf(request->arena, "%s, on the day of the bout", athlete->name.shown),
                                      "day of a bout");
    scene->description = arena_printf(request->arena, "What is to come on the day of a bout of %s, and what to write down.",
                                      athlete->name.shown);
    add_pages(scene, &sheet, &title);
    frame_report_reach(scene, &sheet.frame);
    return scene;
}
