/* parents.c - a week of somebody under 18, for parents and guardians: what each session holds, who is on the floor, whom to
 * call. No load, no figure of the body, nothing of anybody's health. */
#include "base/text.h"
#include "language/language.h"
#include "layout/foot.h"
#include "layout/flow.h"
#include "layout/frame.h"
#include "layout/handout.h"
#include "layout/marks.h"
#include "layout/strips.h"
#include "measure/clocks.h"
#include "measure/kit.h"
#include "model/activity.h"
#include "model/athlete.h"
#include "model/exercise.h"
#include "model/gym.h"
#include "model/occasion.h"
#include "model/season.h"
#include "wording/wording.h"

static const char INTRO[] = SAID("What is planned this week, who is on the floor, and whom to call. Ask the coach about "
                            "anything here that is not clear, "
                            "and tell the coach if your child is ill, hurt or very tired: nobody has to train.");
static const char KNOCK[] = SAID("After a knock to the head, at the club, at school or at home: stop, stay with your child, and "
                            "see a doctor before any "
                            "training. Call an ambulance for a bad or growing headache, vomiting, a fit, drowsiness, "
                            "confusion, double vision, a "
                            "painful neck, or weakness or tingling in an arm or leg. Tell the coach, wherever it happened.");

/* "Monday 8 March 2027, 19:00: Squad floor". */
static const char *title_words(struct arena *arena, const struct occasion *occasion)
{
    const char *name = occasion->session ? occasion->session->name.shown : wording_activity(arena, occasion->activity);
    const char *day = sheet_day_words(arena, occasion->date);
    if (occasion->clock < 0)
        return arena_printf(arena, "%s: %s", day, name);
    const char *zone = abroad_words(arena, occasion);
    return arena_printf(arena, "%s, %s%s%s: %s", day, said_hour(arena, occasion->clock), *zone ? " " : "", zone, name);
}

static const char *contact_words(struct arena *arena, const struct activity *activity)
{
    if (activity->bout)
        return said_guard(arena, "Opponents hit each other, and blows to the head can land.");
    if (activity->head)
        return said_guard(arena, "Partners hit each other, and blows to the head can land.");
    return activity->contact
               ? said_guard(arena, "There is contact with a partner, but none of it is meant to reach the head.")
               : said(arena, "No blows land on anybody.");
}

/* "About 45 min at Slipway"; of what has no length, such as a weigh-in, "At Slipway". */
static void add_length(struct text *out, const struct occasion *occasion, const struct gym *gym)
{
    struct arena *arena = out->arena;
    int minutes = (occasion->seconds + 30) / 60;
    if (minutes)
        text_addf(out, said(arena, "About %d\u00a0min"), minutes);
    if (gym)
        text_addf(out, minutes ? said(arena, " at %s") : said(arena, "At %s"), gym->name.shown);
}

/* "About 45 min at Slipway. No blows land." */
static const char *frame_words(struct arena *arena, const struct occasion *occasion)
{
    const struct gym *gym = occasion->activity && occasion->activity->outside ? NULL : occasion_gym(occasion);
    const char *purpose = occasion->session ? occasion->session->purpose : NULL;
    struct text out = {.arena = arena};
    add_length(&out, occasion, gym);
    if (purpose && out.length)
        text_addf(&out, said(arena, ", for this purpose: %s"), purpose);
    if (out.length)
        text_add(&out, ".");
    if (occasion->activity && !occasion->activity->rest)
        text_addf(&out, "%s%s", out.length ? " " : "", contact_words(arena, occasion->activity));
    if (occasion->optional)
        text_addf(&out, "%s%s", out.length ? " " : "", said(arena, "May be left out."));
    return text_keep(arena, &out);
}

/* "Exercises: rope, back squat, push-up.", each exercise once. */
static const char *holds_words(struct arena *arena, const struct occasion *occasion)
{
    struct text out = {.arena = arena};
    for (size_t b = 0; b < occasion->block_count; b++)
        for (size_t i = 0; i < occasion->blocks[b].item_count; i++) {
            const struct exercise *exercise = occasion->blocks[b].items[i].exercise;
            bool named = false;
            for (size_t c = 0; c <= b && !named; c++)
                for (size_t k = 0; k < occasion->blocks[c].item_count && !named && (c < b || k < i); k++)
                    named = occasion->blocks[c].items[k].exercise == exercise;
            if (!named)
                text_addf(&out, "%s%s", out.length ? ", " : said(arena, "Exercises: "), wording_exercise(arena, exercise));
        }
    if (out.length)
        text_add(&out, ".");
    return text_keep(arena, &out);
}

static struct box *body_box(const struct frame *frame, const struct occasion *occasion)
{
    const struct press *press = &frame->press;
    struct box *column = box_new(press->arena);
    struct face face = handout_face(frame, WEIGHT_REGULAR);
    double gap = 0.45 * face.size;
    const char *const lines[] = {frame_words(press->arena, occasion), holds_words(press->arena, occasion)};
    for (size_t i = 0; i < sizeof lines / sizeof *lines; i++)
        if (*lines[i])
            frame_stack(column, press_paragraph(press, lines[i], face, frame->inner, 0, 1, false), i ? gap : 0);
    const char *by = occasion->attendance ? occasion->attendance->run_by : NULL;
    if (occasion->activity && occasion->activity->rest)
        return column;
    if (by)
        frame_stack(column,
                    press_paragraph(press, arena_printf(press->arena, said(press->arena, "Run by: %s."), by), face, frame->inner, 0, 1, false),
                    gap);
    const char *who = occasion->session ? SAID("On the floor, beside whoever lifts:") : SAID("With them:");
    frame_stack(column, handout_blanks(frame, &who, 1, 0.4), 1.6 * gap);
    return column;
}

static struct strips all_strips(const struct frame *frame)
{
    const struct sheet_request *request = frame->request;
    const struct press *press = &frame->press;
    struct strips strips = {0};
    for (size_t i = 0; i < request->count; i++) {
        const char *title = title_words(press->arena, request->occasions[i]);
        strips_add(press, &strips,
                   (struct strip){.heading = handout_heading(frame, title),
                                  .again = handout_heading(frame, title),
                                  .body = body_box(frame, request->occasions[i]),
                                  .before = 7,
                                  .first = true,
                                  .title = title});
    }
    return strips;
}

static struct box *foot_box(const struct frame *frame)
{
    const struct press *press = &frame->press;
    struct face face = frame_face(1.25 * frame->foot, WEIGHT_REGULAR, INK_BLACK, RANK_FOOT);
    static const char *const call[] = {SAID("To call the coach:"), SAID("or:")};
    struct box *room = box_new(press->arena); /* the blanks reach above their line */
    frame_stack(room, handout_blanks(frame, call, 2, 0.28), 0.8 * frame->first);
    struct box *parts[] = {room, press_paragraph(press, said_guard(press->arena, KNOCK), face, frame->inner, 0, 1, false)};
    return frame_foot(frame, parts, sizeof parts / sizeof *parts);
}

static void add_pages(struct scene *scene, const struct frame *frame, const struct frame_title *title)
{
    struct strips strips = all_strips(frame);
    struct box *intro = press_paragraph(&frame->press, said_guard(frame->press.arena, INTRO), handout_face(frame, WEIGHT_REGULAR), frame->inner, 0, 1, false);
    flow_pages(scene, frame, title, &strips, foot_box(frame), intro);
}

struct scene *parents_scene(const struct sheet_request *request)
{
    struct frame frame = frame_of(request);
    const struct athlete *athlete = request->occasions[0]->athlete;
    struct frame_title title = {.title = athlete->name.shown,
                                .beside = said(request->arena, "For parents and guardians"),
                                .when = request->date_words,
                                .then = "",
                                .provisional = ""};
    handout_fit(&frame, &title, add_pages);
    struct scene *scene = frame_scene(
        &frame, arena_printf(request->arena, said(request->arena, "%s, for parents and guardians"), athlete->name.shown), "parents' page");
    scene->description = arena_printf(request->arena,
                                      said_count(request->arena, (long)request->count,
                                                 "A week of %s for parents and guardians: %zu session.",
                                                 "A week of %s for parents and guardians: %zu sessions."),
                                      athlete->name.shown, request->count);
    add_pages(scene, &frame, &title);
    frame_report_reach(scene, &frame);
    return scene;
}
