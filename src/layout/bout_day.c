/* bout_day.c - the days of a week on which an athlete has a bout, for whoever goes along: when, by which rules, what else is
 * on that day, who is there, and what to write down. No figure of the body stands on it. */
#include <string.h>

#include "base/text.h"
#include "language/language.h"
#include "layout/flow.h"
#include "layout/frame.h"
#include "layout/handout.h"
#include "layout/marks.h"
#include "layout/strips.h"
#include "measure/clocks.h"
#include "measure/member.h"
#include "model/activity.h"
#include "model/athlete.h"
#include "model/occasion.h"
#include "wording/wording.h"

static const char AFTERWARDS[] = SAID("Afterwards, write the result and the medical check below the bout "
                                 "in the plan, and log the bout with its minutes and "
                                 "RPE, because it counts in the load. A bout lost by knockout or stoppage "
                                 "needs a hold from that day on. Write down any knock to the "
                                 "head at once, however the bout ended.");

/* "19:30", and abroad "19:30 Tokyo time"; "" where no hour is given. */
static const char *hour_words(struct arena *arena, const struct occasion *occasion)
{
    if (occasion->clock < 0)
        return "";
    const char *zone = abroad_words(arena, occasion);
    return arena_printf(arena, "%s%s%s", said_hour(arena, occasion->clock), *zone ? " " : "", zone);
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
static const char *weigh_in_words(const struct frame *frame, const struct occasion *occasion)
{
    const struct sheet_request *request = frame->request;
    struct text out = {.arena = request->arena};
    for (size_t i = 0; i < request->count; i++)
        if (is_weigh_in(request->occasions[i]) && request->occasions[i]->date <= occasion->date &&
            request->occasions[i]->camp == occasion->camp)
            text_addf(&out, "%s%s", out.length ? "; " : said(request->arena, "Weigh-in: "), when_words(request->arena, request->occasions[i]));
    return text_keep(request->arena, &out);
}

/* What else is planned that day, a warm-up of the plan's among it. */
static const char *beside_words(const struct frame *frame, const struct occasion *bout)
{
    const struct sheet_request *request = frame->request;
    struct text out = {.arena = request->arena};
    for (size_t i = 0; i < request->count; i++) {
        const struct occasion *other = request->occasions[i];
        if (other == bout || other->date != bout->date || is_weigh_in(other))
            continue;
        const char *hour = hour_words(request->arena, other), *amount = wording_occasion(request->arena, other);
        text_addf(&out, "%s%s%s%s%s%s", out.length ? "; " : said(request->arena, "Also that day: "), hour, *hour ? " " : "",
                  other->session ? other->session->name.shown : wording_activity(request->arena, other->activity),
                  *amount ? ", " : "", amount);
    }
    return text_keep(request->arena, &out);
}

/* "Day 2 of 3: only if no earlier day is lost.", of a tournament; DAY is one of its days. */
static const char *tournament_words(struct arena *arena, const struct bout *bout, int day)
{
    size_t at = 0;
    if (bout->day_count < 2)
        return "";
    while (bout->days[at] != day)
        at++;
    const char *form = at ? said(arena, "Day %zu of %zu: only if no earlier day is lost.") : said(arena, "Day %zu of %zu.");
    return arena_printf(arena, form, at + 1, bout->day_count);
}

static struct box *body_box(const struct frame *frame, const struct occasion *occasion)
{
    static const char *const before[] = {SAID("medical check by"), SAID("at")}, *const corner[] = {SAID("in the corner"), SAID("and")},
                             *const after[] = {SAID("rounds"), SAID("minutes"), SAID("RPE")}, *const result[] = {SAID("result"), SAID("seen by a doctor")},
                             *const notes[] = {SAID("notes")};
    const struct press *press = &frame->press;
    const struct bout *bout = occasion_bout(occasion);
    struct box *column = box_new(press->arena);
    struct face face = handout_face(frame, WEIGHT_REGULAR);
    const char *const lines[] = {rules_words(press->arena, bout, occasion), weigh_in_words(frame, occasion),
                                 tournament_words(press->arena, bout, occasion->date), beside_words(frame, occasion)};
    for (size_t i = 0; i < sizeof lines / sizeof *lines; i++)
        if (*lines[i])
            frame_stack(column, press_paragraph(press, lines[i], face, frame->inner, 0, 1, false), 0.45 * face.size);
    double gap = 1.2 * face.size;
    frame_stack(column, handout_blanks(frame, before, 2, 0.25), gap);
    frame_stack(column, handout_blanks(frame, corner, 2, 0.25), gap);
    frame_stack(column, handout_blanks(frame, after, 3, 0.12), gap);
    frame_stack(column, handout_blanks(frame, result, 2, 0.2), gap);
    frame_stack(column, handout_blanks(frame, notes, 1, 0.75), gap);
    return column;
}

static struct strips all_strips(const struct frame *frame)
{
    const struct sheet_request *request = frame->request;
    const struct press *press = &frame->press;
    struct strips strips = {0};
    for (size_t i = 0; i < request->count; i++) {
        if (!occasion_bout(request->occasions[i]))
            continue;
        const char *title = when_words(press->arena, request->occasions[i]);
        strips_add(press, &strips,
                   (struct strip){.heading = handout_heading(frame, title),
                                  .again = handout_heading(frame, title),
                                  .body = body_box(frame, request->occasions[i]),
                                  .before = 12,
                                  .first = true,
                                  .title = title});
    }
    if (!strips.count) {
        struct box *none =
            press_paragraph(press, said(press->arena, "There is no bout in this week."), handout_face(frame, WEIGHT_REGULAR), frame->inner, 0, 1, false);
        strips_add(press, &strips,
                   (struct strip){.heading = handout_heading(frame, said(press->arena, "No bout")),
                                  .again = handout_heading(frame, said(press->arena, "No bout")),
                                  .body = none,
                                  .first = true,
                                  .title = said(press->arena, "No bout")});
    }
    return strips;
}

static struct box *foot_box(const struct frame *frame)
{
    const struct press *press = &frame->press;
    struct face face = frame_face(1.25 * frame->foot, WEIGHT_REGULAR, INK_BLACK, RANK_FOOT);
    struct box *parts[] = {press_paragraph(press, said_guard(press->arena, AFTERWARDS), face, frame->inner, 0, 1, false)};
    return frame_foot(frame, parts, sizeof parts / sizeof *parts);
}

static void add_pages(struct scene *scene, const struct frame *frame, const struct frame_title *title)
{
    struct strips strips = all_strips(frame);
    flow_pages(scene, frame, title, &strips, foot_box(frame), NULL);
}

struct scene *bout_day_scene(const struct sheet_request *request)
{
    struct frame frame = frame_of(request);
    const struct athlete *athlete = request->occasions[0]->athlete;
    struct frame_title title = {.title = athlete->name.shown,
                                .beside = said(request->arena, "On the day of the bout"),
                                .when = request->date_words,
                                .then = "",
                                .provisional = ""};
    handout_fit(&frame, &title, add_pages);
    struct scene *scene =
        frame_scene(&frame, arena_printf(request->arena, said(request->arena, "%s, on the day of the bout"), athlete->name.shown), "day of a bout");
    scene->description = arena_printf(request->arena, said(request->arena, "What is planned on the day of %s's bout, and what to write down."),
                                      athlete->name.shown);
    add_pages(scene, &frame, &title);
    frame_report_reach(scene, &frame);
    return scene;
}
