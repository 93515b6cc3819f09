/* test_results.c - one athlete's results of tests over a year: each test a row, its results as points with their error on
 * one axis of months, and in words beside them whether they moved by more than that. */
#include "layout/test_results.h"

#include <math.h>

#include "base/text.h"
#include "figures/dates.h"
#include "language/language.h"
#include "layout/strips.h"
#include "measure/facts.h"
#include "model/athlete.h"
#include "model/occasion.h"
#include "model/season.h"
#include "wording/wording.h"

enum { DAYS_LEAST = 56 };
static const double NAMES = 118, VERDICTS = 152, GAP = 14, ROW = 62, ROW_OF_ONE = 36;

struct results_sheet {
    struct frame frame;
    const struct athlete *athlete;
    const struct test_error *errors; /* of each test */
    size_t test_count;
    int from, to;    /* results that are shown */
    int first, last; /* the axis */
    int latest;      /* of them */
    double width;    /* of the plots */
    size_t private;  /* how many of them only a private file has */
};

static struct face face_of(const struct results_sheet *sheet, enum weight weight, enum ink ink)
{
    return frame_face(sheet->frame.second, weight, ink, RANK_SECOND);
}

static struct test_values values_of(const struct results_sheet *sheet, const struct test *test, enum test_side side)
{
    struct test_values values = test_values_seen(sheet->frame.press.arena, sheet->athlete, test, side,
                                                 sheet->frame.request->private);
    return test_values_between(values, sheet->from, sheet->to);
}

static struct results_sheet results_of(const struct sheet_request *request)
{
    const struct occasion *first = request->occasions[0];
    struct results_sheet sheet = {.frame = frame_of(request), .athlete = first->athlete,
                            .errors = test_errors(request->arena, request->programme),
                            .test_count = programme_test_count(request->programme),
                            .from = first->camp->last - TEST_DAYS_SHOWN, .to = first->camp->last + TEST_DAYS_AFTER};
    sheet.width = sheet.frame.inner - NAMES - VERDICTS - 2 * GAP;
    for (size_t t = 0; t < sheet.test_count; t++)
        for (enum test_side side = TEST_WHOLE; side <= TEST_RIGHT; side++) {
            struct test_values values = values_of(&sheet, sheet.errors[t].test, side);
            for (size_t i = 0; i < values.count; i++) {
                int day = values.items[i].date;
                sheet.first = !sheet.first || day < sheet.first ? day : sheet.first;
                sheet.last = day > sheet.last ? day : sheet.last;
                sheet.private += values.items[i].private;
            }
        }
    sheet.latest = sheet.last;
    int spare = DAYS_LEAST - (sheet.last - sheet.first);
    sheet.first -= spare > 0 ? spare / 2 : 0;
    sheet.last += spare > 0 ? spare / 2 : 0;
    return sheet;
}

static double x_of(const struct results_sheet *sheet, int day)
{
    return NAMES + GAP + result_x(day, sheet->first, sheet->last, sheet->width);
}

const char *result_words(struct arena *arena, const struct test *test, double value)
{
    const char *unit = said_as(arena, "unit", test_units.names[test->unit]);
    return arena_printf(arena, "%s%s%s", test_figure(arena, test, value), *unit ? WORDING_GAP : "", unit);
}

/* --- the months --- */

static bool begins_month(int day)
{
    int year, month, of_month;
    return date_to_ymd(day, &year, &month, &of_month) && of_month == 1;
}

static void draw_uprights(const struct results_sheet *sheet, struct box *page, double x, double top, double bottom)
{
    for (int day = sheet->first; day <= sheet->last; day++)
        if (begins_month(day))
            box_line(page, x + x_of(sheet, day), top, 0, bottom - top, 0.5, INK_HAIR);
}

static struct box *axis_box(const struct results_sheet *sheet)
{
    struct box *box = box_new(sheet->frame.press.arena);
    struct face face = face_of(sheet, WEIGHT_REGULAR, INK_GREY);
    double baseline = frame_capital(&sheet->frame, face.size), end = 0;
    face.style.role = ROLE_SCALE;
    for (int day = sheet->first; day <= sheet->last; day++) {
        int year, month, of_month;
        if (!date_to_ymd(day, &year, &month, &of_month) || of_month != 1)
            continue;
        const char *words = arena_printf(box->arena, "%s%s", said_month(box->arena, SAID_SHORT, month),
                                         month == 1 ? arena_printf(box->arena, WORDING_GAP "%d", said_year(box->arena, year)) : "");
        double width = type_width(sheet->frame.press.type, words, face.size, face.weight), x = x_of(sheet, day);
        if (x < end + 4 || x + width > NAMES + GAP + sheet->width)
            continue;
        press_put(&sheet->frame.press, box, x, baseline, words, face);
        end = x + width;
    }
    box->height = 1.6 * face.size;
    box->width = sheet->frame.inner;
    return box;
}

/* --- one test --- */

/* How the error of a test is known. */
static const char *origin_words(const struct test_error *error)
{
    static const char *const from[] = {[ERROR_FROM_CLUB] = SAID("by the club's own pairs"),
                                       [ERROR_FROM_SOURCE] = SAID("by its source"), [ERROR_FROM_PARTS] = SAID("by its parts")};
    if (error->from == ERROR_FROM_SOURCE && !error->test->source)
        return error->test->common_practice ? SAID("common practice, no source") : SAID("no source given");
    return from[error->from];
}

static const char *error_words(const struct results_sheet *sheet, const struct test_error *error, double value)
{
    double typical = test_error_at(error, value);
    if (!(typical > 0))
        return said(sheet->frame.press.arena, "typical error not known");
    return arena_printf(sheet->frame.press.arena, said(sheet->frame.press.arena, "typical error %s, %s"),
                        result_words(sheet->frame.press.arena, error->test, typical),
                        said(sheet->frame.press.arena, origin_words(error)));
}

static struct box *name_box(const struct results_sheet *sheet, const struct test_error *error, enum test_side side, double last)
{
    const struct press *press = &sheet->frame.press;
    struct box *box = box_new(press->arena);
    struct face bold = frame_face(sheet->frame.first, WEIGHT_BOLD, INK_BLACK, RANK_FIRST);
    const char *name = arena_printf(press->arena, "%s%s%s", said_as(press->arena, "test", error->test->name.shown), side ? ", " : "",
                                    said_as(press->arena, "side", test_side_words(side)));
    frame_stack(box, press_paragraph(press, name, bold, NAMES, 0, 1, false), 0);
    frame_stack(box, press_paragraph(press, error_words(sheet, error, last), face_of(sheet, WEIGHT_REGULAR, INK_GREY), NAMES,
                                     0, 1, false), 2);
    return box;
}

/* "+2.1 cm since 11 Jan: within the error (up to 6.3 cm)". */
static const char *change_words(const struct results_sheet *sheet, const struct test_error *error,
                                const struct test_value *from, const struct test_value *to)
{
    struct arena *arena = sheet->frame.press.arena;
    struct test_change change = test_change(error, from->value, to->value);
    const char *moved = arena_printf(arena, "%s%s", change.change < 0 ? "\342\210\222" : "+",
                                     result_words(arena, error->test, fabs(change.change)));
    const char *least = change.error > 0 ? result_words(arena, error->test, change.least) : NULL;
    return arena_printf(arena, said(arena, "%s since %s: %s%s"), change.change == 0 ? said(arena, "the same") : moved,
                        frame_day(arena, from->date), said_as(arena, "verdict", test_verdict_words(change.verdict)),
                        least ? arena_printf(arena, said(arena, " (up\u00a0to\u00a0%s)"), least) : "");
}

static const char *due_words(const struct results_sheet *sheet, const struct test *test, int last)
{
    struct arena *arena = sheet->frame.press.arena;
    int due = test_due(test, last), today = programme_today(sheet->frame.request->programme);
    if (!due)
        return "";
    return arena_printf(arena, today > due ? said(arena, "retest overdue since %s") : said(arena, "again by %s"), frame_day(arena, due));
}

static struct box *verdict_box(const struct results_sheet *sheet, const struct test_error *error,
                               const struct test_values *values)
{
    const struct press *press = &sheet->frame.press;
    struct box *box = box_new(press->arena);
    const struct test_value *last = &values->items[values->count - 1];
    struct face bold = frame_face(sheet->frame.first, WEIGHT_BOLD, INK_BLACK, RANK_FIRST);
    const char *lines[3] = {said(press->arena, "one result: too few to tell"), "", due_words(sheet, error->test, last->date)};
    if (values->count > 1)
        lines[0] = change_words(sheet, error, last - 1, last);
    if (values->count > 2)
        lines[1] = change_words(sheet, error, &values->items[0], last);
    const char *latest = arena_printf(press->arena, said(press->arena, "%s on %s"), result_words(press->arena, error->test, last->value),
                                      frame_day(press->arena, last->date));
    frame_stack(box, press_paragraph(press, latest, bold, VERDICTS, 0, 1, false), 0);
    for (size_t i = 0; i < 3; i++)
        if (*lines[i])
            frame_stack(box, press_paragraph(press, lines[i], face_of(sheet, i == 2 ? WEIGHT_BOLD : WEIGHT_REGULAR, INK_BLACK),
                                             VERDICTS, 0, 1, false), 2);
    return box;
}

static struct box *row_box(const struct results_sheet *sheet, const struct test_error *error, enum test_side side,
                           const struct test_values *values)
{
    struct box *box = box_new(sheet->frame.press.arena);
    struct box *name = name_box(sheet, error, side, values->items[values->count - 1].value);
    struct box *verdict = verdict_box(sheet, error, values);
    double height = fmax(values->count > 1 ? ROW : ROW_OF_ONE, fmax(name->height, verdict->height));
    const struct result_plot plot = {.error = error, .values = *values, .first = sheet->first, .last = sheet->last,
                                     .width = sheet->width, .height = height};
    box_line(box, 0, 0, sheet->frame.inner, 0, 0.5, INK_BLACK);
    box_open(box, ROLE_ROW);
    box_place_as(box, ROLE_HEAD, name, 0, 5);
    box_place_as(box, ROLE_DATUM, result_plot_box(&sheet->frame, &plot), NAMES + GAP, 5);
    box_place_as(box, ROLE_DATUM, verdict, NAMES + 2 * GAP + sheet->width, 5);
    box_close(box, ROLE_ROW);
    box->width = sheet->frame.inner;
    box->height = height + 10;
    return box;
}

/* How the sides of a test stand to each other, as a line below them. */
static struct box *sides_box(const struct results_sheet *sheet, const struct test_error *error)
{
    const struct press *press = &sheet->frame.press;
    struct test_symmetry symmetry = test_symmetry(press->arena, sheet->athlete, error, sheet->frame.request->private);
    if (!symmetry.known || symmetry.date < sheet->from || symmetry.date > sheet->to)
        return NULL;
    const char *words = arena_printf(press->arena, said(press->arena, "%s, %s: %s has %s\u00a0%% of the other side; the difference is %s."),
                                     said_as(press->arena, "test", error->test->name.shown), frame_day(press->arena, symmetry.date),
                                     said_as(press->arena, "side", test_side_words(symmetry.lesser)),
                                     said_figures(press->arena, arena_printf(press->arena, "%.1f", symmetry.share * 100)),
                                     said_as(press->arena, "verdict", test_verdict_words(symmetry.verdict)));
    struct box *box = box_new(press->arena), *line = press_paragraph(press, words, face_of(sheet, WEIGHT_REGULAR, INK_BLACK),
                                                                     sheet->frame.inner, 0, 1, false);
    box_open(box, ROLE_ROW);
    box_place_as(box, ROLE_DATUM, line, 0, 0);
    box_close(box, ROLE_ROW);
    box->height = line->height + 5;
    return box;
}

static void add_row(const struct results_sheet *sheet, struct strips *strips, struct box *body, const char *title)
{
    if (body)
        strips_add(&sheet->frame.press, strips,
                   (struct strip){.body = body, .heading = axis_box(sheet), .again = axis_box(sheet), .first = !strips->count,
                                  .close = title == NULL, .row = sheet->latest != 0, .title = title});
}

static struct strips all_rows(const struct results_sheet *sheet)
{
    struct strips strips = {0};
    for (size_t t = 0; t < sheet->test_count; t++) {
        const struct test_error *error = &sheet->errors[t];
        for (enum test_side side = TEST_WHOLE; side <= TEST_RIGHT; side++) {
            struct test_values values = values_of(sheet, error->test, side);
            if (values.count)
                add_row(sheet, &strips, row_box(sheet, error, side, &values), error->test->name.shown);
        }
        if (error->test->each_side)
            add_row(sheet, &strips, sides_box(sheet, error), NULL);
    }
    struct face plain = face_of(sheet, WEIGHT_REGULAR, INK_BLACK);
    const char *none = said(sheet->frame.press.arena, "No result in the year before this camp's end.");
    if (!strips.count)
        add_row(sheet, &strips, press_paragraph(&sheet->frame.press, none, plain, sheet->frame.inner, 0, 1, false), NULL);
    return strips;
}

/* --- pages --- */

static struct box *key_box(const struct results_sheet *sheet)
{
    return press_paragraph(&sheet->frame.press,
                           said(sheet->frame.press.arena,
                           "A point is a day's result; its bar is one typical error up and down. The hatched band is how far a result "
                           "may lie from the first one although nothing has changed (the least detectable change, 1.96 "
                           "\303\227 \342\210\2322 \303\227 the typical error): only a result outside it differs by more than the error. "
                           "Each test has its own scale."),
                           frame_face(sheet->frame.foot, WEIGHT_REGULAR, INK_BLACK, RANK_FOOT), sheet->frame.inner, 0, 1, false);
}

static void add_pages(struct scene *scene, const struct results_sheet *sheet, const struct frame_title *title)
{
    const struct frame *frame = &sheet->frame;
    struct strips strips = all_rows(sheet);
    struct box *key = key_box(sheet), *foot = frame_foot(frame, &key, 1);
    double line = frame->height - frame->margin - frame_last_line(frame, 1, 1)->height, axis = axis_box(sheet)->height;
    for (size_t start = 0; start < strips.count;) {
        struct box *page = scene_page(scene), *header = frame_header(frame, title, scene->page_count > 1);
        double used, y = frame->margin + header->height;
        size_t fitting = strips_fit(&strips, start, line - foot->height - 6 - y, &used);
        box_place(page, header, frame->margin, frame->margin);
        if (start == 0)
            scene_bookmark(scene, scene->title, 0, false);
        draw_uprights(sheet, page, frame->margin, y + axis, y + used);
        strips_draw(scene, page, &strips, start, start + fitting, frame->margin, y, 0);
        box_place(page, foot, frame->margin, line - foot->height);
        start += fitting;
    }
    for (size_t i = 0; i < scene->page_count; i++)
        box_place(scene->pages[i], frame_last_line(frame, (int)i + 1, (int)scene->page_count), frame->margin, line);
}

/* Adds the values of one test on one side, in words. */
static void describe_test(const struct results_sheet *sheet, const struct test *test, enum test_side side, struct text *out)
{
    struct arena *arena = sheet->frame.press.arena;
    struct test_values values = values_of(sheet, test, side);
    if (!values.count)
        return;
    text_addf(out, "%s%s%s%s:", out->length ? " " : "", said_as(arena, "test", test->name.shown), side ? " " : "",
              said_as(arena, "side", test_side_words(side)));
    for (size_t i = 0; i < values.count; i++)
        text_addf(out, said(arena, "%s %s on %s"), i ? "," : "", result_words(arena, test, values.items[i].value),
                  frame_day(arena, values.items[i].date));
    text_add(out, ".");
}

static const char *describe(const struct results_sheet *sheet)
{
    struct text out = {.arena = sheet->frame.press.arena};
    for (size_t t = 0; t < sheet->test_count; t++)
        for (enum test_side side = TEST_WHOLE; side <= TEST_RIGHT; side++)
            describe_test(sheet, sheet->errors[t].test, side, &out);
    return text_keep(out.arena, &out);
}

struct scene *test_results_scene(const struct sheet_request *request)
{
    struct results_sheet sheet = results_of(request);
    const char *own = sheet.private ? said_guard(request->arena, "The coach's own copy: some of these results are private. Do not hang it up.") : "";
    const char *latest = sheet_day_words(request->arena, sheet.latest);
    struct frame_title title = {.title = sheet.athlete->name.shown,
                                .beside = said(request->arena, "Test results, and whether they changed by more than their error"),
                                .when = sheet.latest ? arena_printf(request->arena, said(request->arena, "to %s"), latest) : "",
                                .then = "", .provisional = own};
    struct scene *scene = frame_scene(&sheet.frame, arena_printf(request->arena, said(request->arena, "%s, tests"), title.title), "sheet of tests");
    scene->description = describe(&sheet);
    add_pages(scene, &sheet, &title);
    frame_report_reach(scene, &sheet.frame);
    return scene;
}
