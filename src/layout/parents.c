/* parents.c - a week of somebody under 18, for parents and guardians: what each session holds, who is on the floor, whom to
 * call. No load, no figure of the body, nothing of anybody's health. */
#include "base/text.h"
#include "layout/foot.h"
#include "layout/flow.h"
#include "layout/frame.h"
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

static const char INTRO[] =
    "What is planned this week, who is on the floor, and whom to call. Ask the coach about anything here that you wonder "
    "about, and say so if your child is ill, hurt or very tired: nobody has to train.";
static const char KNOCK[] =
    "After a knock to the head, at the club, at school or at home: stop, stay with your child, and see a doctor before any "
    "training. Call an ambulance for a bad or growing headache, vomiting, a fit, drowsiness, confusion, double vision, a "
    "painful neck, or weakness or tingling in an arm or leg. Tell the coach, wherever it happened.";

struct parents {
    struct frame frame;
};

static struct face plain(const struct parents *sheet, enum weight weight)
{
    return frame_face(sheet->frame.first, weight, INK_BLACK, RANK_FIRST);
}

/* "Monday 8 March 2027, 19:00: Squad floor". */
static const char *title_words(struct arena *arena, const struct occasion *occasion)
{
    const char *name = occasion->session ? occasion->session->name.shown : occasion->activity->name.shown;
    const char *day = sheet_day_words(arena, occasion->date);
    if (occasion->clock < 0)
        return arena_printf(arena, "%s: %s", day, name);
    const char *zone = abroad_words(arena, occasion);
    return arena_printf(arena, "%s, %02d:%02d%s%s: %s", day, occasion->clock / 3600, occasion->clock / 60 % 60, *zone ? " " : "",
                        zone, name);
}

static const char *contact_words(const struct activity *activity)
{
    if (activity->head)
        return "Partners hit each other, and blows to the head can land.";
    return activity->contact ? "There is contact with a partner, and none is meant to reach the head." : "No blows land on anybody.";
}

/* "45 min at Slipway. No blows land." */
static const char *frame_words(struct arena *arena, const struct occasion *occasion)
{
    const struct gym *gym = occasion->activity && occasion->activity->outside ? NULL : occasion_gym(occasion);
    int minutes = (occasion->seconds + 30) / 60;
    const char *purpose = occasion->session ? occasion->session->purpose : NULL;
    return arena_printf(arena, "About %d" WORDING_GAP "min%s%s%s%s.%s%s%s", minutes, gym ? " at " : "",
                        gym ? gym->name.shown : "", purpose ? ", for this purpose: " : "", purpose ? purpose : "",
                        occasion->activity && !occasion->activity->rest ? " " : "",
                        occasion->activity && !occasion->activity->rest ? contact_words(occasion->activity) : "",
                        occasion->optional ? " May be left out." : "");
}

/* "Holds: rope, back squat, push-up", each exercise once. */
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
                text_addf(&out, "%s%s", out.length ? ", " : "It holds: ", exercise->name.shown);
        }
    if (out.length)
        text_add(&out, ".");
    return text_keep(arena, &out);
}

/* Joins LEAD and a place to write behind it, of a share of the width, to LINE. */
static void add_blank(const struct parents *sheet, struct box *line, const char *lead, double share)
{
    const struct press *press = &sheet->frame.press;
    struct face face = plain(sheet, WEIGHT_REGULAR);
    double gap = 0.6 * face.size;
    line->baseline = frame_capital(&sheet->frame, face.size);
    atom_join(line, press_word(press, lead, face), line->count ? 2 * gap : 0);
    atom_join(line, mark_blank(press, share * sheet->frame.inner, 1.6 * face.size), gap);
}

static struct box *body_box(const struct parents *sheet, const struct occasion *occasion)
{
    const struct press *press = &sheet->frame.press;
    struct box *column = box_new(press->arena);
    struct face face = plain(sheet, WEIGHT_REGULAR);
    double gap = 0.45 * face.size;
    const char *const lines[] = {frame_words(press->arena, occasion), holds_words(press->arena, occasion)};
    for (size_t i = 0; i < sizeof lines / sizeof *lines; i++)
        if (*lines[i])
            frame_stack(column, press_paragraph(press, lines[i], face, sheet->frame.inner, 0, 1, false), i ? gap : 0);
    const char *by = occasion->attendance ? occasion->attendance->run_by : NULL;
    if (occasion->activity && occasion->activity->rest)
        return column;
    if (by)
        frame_stack(column, press_paragraph(press, arena_printf(press->arena, "Run by: %s.", by), face,
                                            sheet->frame.inner, 0, 1, false), gap);
    struct box *line = box_new(press->arena);
    add_blank(sheet, line, occasion->session ? "On the floor, beside whoever lifts:" : "With them:", 0.4);
    frame_stack(column, line, 1.6 * gap);
    return column;
}

static struct box *heading_box(const struct parents *sheet, const char *words)
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

static struct strips all_strips(const struct parents *sheet)
{
    const struct sheet_request *request = sheet->frame.request;
    const struct press *press = &sheet->frame.press;
    struct strips strips = {0};
    for (size_t i = 0; i < request->count; i++) {
        const char *title = title_words(press->arena, request->occasions[i]);
        strips_add(press, &strips,
                   (struct strip){.heading = heading_box(sheet, title),
                                  .again = heading_box(sheet, title),
                                  .body = body_box(sheet, request->occasions[i]),
                                  .before = 7,
                                  .first = true,
                                  .title = title});
    }
    return strips;
}

static struct box *foot_box(const struct parents *sheet)
{
    const struct press *press = &sheet->frame.press;
    struct face face = frame_face(1.25 * sheet->frame.foot, WEIGHT_REGULAR, INK_BLACK, RANK_FOOT);
    struct box *call = box_new(press->arena);
    add_blank(sheet, call, "To call the coach:", 0.28);
    add_blank(sheet, call, "or:", 0.28);
    struct box *room = box_new(press->arena); /* the blanks reach above their line */
    frame_stack(room, call, 0.8 * sheet->frame.first);
    struct box *parts[] = {room, press_paragraph(press, KNOCK, face, sheet->frame.inner, 0, 1, false)};
    return frame_foot(&sheet->frame, parts, sizeof parts / sizeof *parts);
}

static void add_pages(struct scene *scene, const struct parents *sheet, const struct frame_title *title)
{
    const struct frame *frame = &sheet->frame;
    struct strips strips = all_strips(sheet);
    struct box *intro = press_paragraph(&frame->press, INTRO, plain(sheet, WEIGHT_REGULAR), frame->inner, 0, 1, false);
    flow_pages(scene, frame, title, &strips, foot_box(sheet), intro);
}

/* The largest letters that need no more pages than the smallest. */
static void fit_size(struct parents *sheet, const struct frame_title *title)
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

struct scene *parents_scene(const struct sheet_request *request)
{
    struct parents sheet = {.frame = frame_of(request)};
    const struct athlete *athlete = request->occasions[0]->athlete;
    struct frame_title title = {.title = athlete->name.shown,
                                .beside = "For parents and guardians",
                                .when = request->date_words,
                                .then = "",
                                .provisional = ""};
    fit_size(&sheet, &title);
    struct scene *scene = frame_scene(&sheet.frame,
                                      arena_printf(request->arena, "%s, for parents and guardians", athlete->name.shown),
                                      "parents' page");
    scene->description = arena_printf(request->arena, "A week of %s for parents and guardians: %zu sessions.",
                                      athlete->name.shown, request->count);
    add_pages(scene, &sheet, &title);
    frame_report_reach(scene, &sheet.frame);
    return scene;
}
