/* monday.c - the head coach's page: three lines an athlete, what was done, what comes, and what is to be decided. Figures
 * and plain words, twelve athletes a page, and nothing that only the coach may know. */
#include <math.h>

#include "base/text.h"
#include "language/language.h"
#include "layout/frame.h"
#include "model/athlete.h"

enum { A_PAGE = 12, DECISION_LINES = 2 };
static const double SIZE_MOST = 10.4, LEAD = 1.34, PITCH_MOST = 74;

enum { LAST_WEEK, THIS_WEEK, TO_DECIDE, LABELS };
static const char *const labels[LABELS] = {SAID("last week"), SAID("this week"), SAID("to decide")};

struct monday {
    struct frame frame;
    double size;          /* of the lines */
    double names, labels; /* widths of the columns before them */
};

static struct face face_of(const struct monday *sheet, enum weight weight, enum ink ink)
{
    return frame_face(sheet->size, weight, ink, RANK_FIRST);
}

static double words_width(const struct monday *sheet)
{
    return sheet->frame.inner - sheet->names - sheet->labels;
}

/* --- one athlete --- */

static bool fits_below(const struct monday *sheet, const char *words)
{
    const struct press *press = &sheet->frame.press;
    struct face face = face_of(sheet, WEIGHT_BOLD, INK_BLACK);
    double most = press_height(press, "x\nx", face, words_width(sheet), 1);
    return press_height(press, words, face, words_width(sheet), 1) <= most + 0.5;
}

static const char *and_more(struct arena *arena, const char *words, size_t more)
{
    return more ? arena_printf(arena, said(arena, "%s; and %zu more"), words, more) : words;
}

/* As many decisions as two lines hold, and how many more there are. */
static const char *decide_words(const struct monday *sheet, const struct brief *brief)
{
    struct arena *arena = sheet->frame.press.arena;
    const char *words = brief->decision_count ? brief->decisions[0] : said(arena, "nothing");
    size_t shown = 1;
    for (; shown < brief->decision_count; shown++) {
        const char *longer = arena_printf(arena, "%s; %s", words, brief->decisions[shown]);
        if (!fits_below(sheet, and_more(arena, longer, brief->decision_count - shown - 1)))
            break;
        words = longer;
    }
    return brief->decision_count ? and_more(arena, words, brief->decision_count - shown) : words;
}

/* A line under the others of COLUMN, LABEL before it. */
static void add_line(const struct monday *sheet, struct box *column, const char *label, const char *words,
                     enum weight weight)
{
    const struct press *press = &sheet->frame.press;
    struct box *line = box_new(press->arena);
    box_open(line, ROLE_ROW);
    struct box *head = press_word(press, said(press->arena, label), face_of(sheet, WEIGHT_REGULAR, INK_GREY));
    struct box *body = press_paragraph(press, words, face_of(sheet, weight, INK_BLACK), words_width(sheet), 0, 1, false);
    double lower = fmax(0, head->baseline - body->baseline); /* marks may rise above the letters of one of them */
    box_place_as(line, ROLE_HEAD, head, 0, fmax(0, body->baseline - head->baseline));
    box_place_as(line, ROLE_DATUM, body, sheet->labels, lower);
    box_close(line, ROLE_ROW);
    line->height = fmax(body->height + lower, sheet->size);
    frame_stack(column, line, (LEAD - 1.2) * sheet->size);
}

static struct box *athlete_box(const struct monday *sheet, const struct brief *brief)
{
    const struct press *press = &sheet->frame.press;
    struct box *box = box_new(press->arena), *lines = box_new(press->arena);
    struct face bold = frame_face(1.1 * sheet->size, WEIGHT_BOLD, INK_BLACK, RANK_FIRST);
    bold.style.role = ROLE_HEADING;
    struct box *name = press_paragraph(press, brief->athlete->name.shown, bold, sheet->names - 10, 0, 1, false);
    box_place(box, name, 0, 0);
    box_open(lines, ROLE_TABLE);
    add_line(sheet, lines, labels[LAST_WEEK], brief->last, WEIGHT_REGULAR);
    add_line(sheet, lines, labels[THIS_WEEK], brief->next, WEIGHT_REGULAR);
    add_line(sheet, lines, labels[TO_DECIDE], decide_words(sheet, brief), brief->decision_count ? WEIGHT_BOLD : WEIGHT_REGULAR);
    box_close(lines, ROLE_TABLE);
    box_place(box, lines, sheet->names, 0);
    box->height = fmax(name->height, lines->height);
    return box;
}

/* --- sizes --- */

static double widest_of(const struct monday *sheet)
{
    const struct sheet_request *request = sheet->frame.request;
    struct type *type = sheet->frame.press.type;
    double widest = 0;
    for (size_t i = 0; i < request->brief_count; i++) {
        widest = fmax(widest, type_width(type, request->briefs[i].last, sheet->size, WEIGHT_REGULAR));
        widest = fmax(widest, type_width(type, request->briefs[i].next, sheet->size, WEIGHT_REGULAR));
    }
    return widest;
}

static void set_widths(struct monday *sheet)
{
    const struct sheet_request *request = sheet->frame.request;
    struct type *type = sheet->frame.press.type;
    double widest = 40;
    for (size_t i = 0; i < request->brief_count; i++)
        widest = fmax(widest, type_width(type, request->briefs[i].athlete->name.shown, 1.1 * sheet->size, WEIGHT_BOLD));
    sheet->names = fmin(widest, 0.2 * sheet->frame.inner) + 12;
    sheet->labels = 0;
    for (size_t i = 0; i < LABELS; i++)
        sheet->labels = fmax(sheet->labels, type_width(type, said(request->arena, labels[i]), sheet->size, WEIGHT_REGULAR) + 9);
}

/* The largest letters in which what was done and what comes take a line each. */
static void fit_size(struct monday *sheet)
{
    for (sheet->size = fmax(SIZE_MOST, sheet->frame.first); ; sheet->size *= 0.97) {
        set_widths(sheet);
        if (sheet->size <= sheet->frame.first || widest_of(sheet) <= words_width(sheet))
            return;
    }
}

/* --- pages --- */

static struct box *key_box(const struct monday *sheet)
{
    return press_paragraph(&sheet->frame.press,
                           said(sheet->frame.press.arena,
                                "Load is minutes times RPE, added up over the week. What was meant is what the plan says. "
                                "Restrictions and anything else about anybody's health are not on this page: ask whoever "
                                "wrote the plan."),
                           frame_face(sheet->frame.foot, WEIGHT_REGULAR, INK_BLACK, RANK_FOOT), sheet->frame.inner, 0, 1,
                           false);
}

/* How many of COUNT boxes fit into ROOM, at most twelve; *HEIGHT is what they take without any space between. */
static size_t fit_page(struct box *const *boxes, size_t count, double room, double gap, double *height)
{
    size_t fitting = 0;
    for (*height = 0; fitting < count && fitting < A_PAGE; fitting++) {
        double more = boxes[fitting]->height + gap;
        if (fitting && *height + more > room)
            break;
        *height += more;
    }
    return fitting;
}

static void add_page(struct scene *scene, const struct monday *sheet, const struct frame_title *title,
                     struct box *const *boxes, size_t fitting, double spare, double gap)
{
    const struct frame *frame = &sheet->frame;
    struct box *page = scene_page(scene), *header = frame_header(frame, title, scene->page_count > 1);
    double y = frame->margin + header->height;
    box_place(page, header, frame->margin, frame->margin);
    for (size_t i = 0; i < fitting; i++) {
        double pitch = fmin(boxes[i]->height + gap + spare, fmax(PITCH_MOST, boxes[i]->height + gap));
        box_line(page, frame->margin, y, frame->inner, 0, 0.5, i ? INK_HAIR : INK_BLACK);
        box_place(page, boxes[i], frame->margin, y + fmin(0.5 * (gap + spare), 0.9 * sheet->size));
        y += pitch;
    }
}

static void add_pages(struct scene *scene, const struct monday *sheet, const struct frame_title *title)
{
    const struct frame *frame = &sheet->frame;
    const struct sheet_request *request = frame->request;
    struct box *key = key_box(sheet), *foot = frame_foot(frame, &key, 1);
    struct box **boxes = arena_alloc(request->arena, (request->brief_count + 1) * sizeof *boxes);
    double line = frame->height - frame->margin - frame_last_line(frame, 1, 1)->height, gap = 7, height;
    for (size_t i = 0; i < request->brief_count; i++)
        boxes[i] = athlete_box(sheet, &request->briefs[i]);
    for (size_t start = 0, fitting; start < request->brief_count; start += fitting) {
        double top = frame->margin + frame_header(frame, title, scene->page_count > 0)->height;
        double room = line - foot->height - 4 - top;
        fitting = fit_page(boxes + start, request->brief_count - start, room, gap, &height);
        add_page(scene, sheet, title, boxes + start, fitting, fmax(0, (room - height) / (double)fitting), gap);
    }
    scene_bookmark(scene, scene->title, 0, false);
    for (size_t i = 0; i < scene->page_count; i++) {
        box_place(scene->pages[i], foot, frame->margin, line - foot->height);
        box_place(scene->pages[i], frame_last_line(frame, (int)i + 1, (int)scene->page_count), frame->margin, line);
    }
}

static const char *describe(const struct sheet_request *request)
{
    struct text out = {.arena = request->arena};
    for (size_t i = 0; i < request->brief_count; i++)
        text_addf(&out, "%s%s", i ? " " : "",
                  arena_printf(request->arena, said(request->arena, "%s. Last week: %s. This week: %s."),
                               request->briefs[i].athlete->name.shown, request->briefs[i].last, request->briefs[i].next));
    return text_keep(request->arena, &out);
}

struct scene *monday_scene(const struct sheet_request *request)
{
    struct monday sheet = {.frame = frame_of(request)};
    struct arena *arena = request->arena;
    struct frame_title title = {.title = said_as(arena, "sheet", "Monday"),
                                .beside = said(arena, "For the head coach: what was done, what is next, what to decide"),
                                .when = request->date_words, .then = "", .provisional = ""};
    fit_size(&sheet);
    struct scene *scene = frame_scene(&sheet.frame, arena_printf(arena, "%s, %s", title.title, request->date_words),
                                      "head coach's page");
    scene->description = describe(request);
    add_pages(scene, &sheet, &title);
    frame_report_reach(scene, &sheet.frame);
    return scene;
}
