#include "layout/frame.h"

#include <math.h>

#include "figures/dates.h"
#include "figures/sight.h"
#include "language/language.h"
#include "layout/foot.h"
#include "wording/wording.h"

static const double SECOND_LEAST = 8.2, FOOT_SIZE = 7.6;

struct frame frame_of(const struct sheet_request *request)
{
    struct frame frame = {.press = {request->arena, request->type},
                          .request = request,
                          .margin = 24,
                          .foot = FOOT_SIZE};
    paper_points(request->paper, request->landscape, &frame.width, &frame.height);
    frame.inner = frame.width - 2 * frame.margin;
    frame.first = sheet_size(request->type, request->distance, SIGHT_MINUTES_LEAST);
    frame.second =
        fmax(SECOND_LEAST, sheet_size(request->type, request->distance / 3, SIGHT_MINUTES_LEAST));
    return frame;
}

const char *frame_day(struct arena *arena, int day)
{
    int year, month, of_month;
    if (!date_to_ymd(day, &year, &month, &of_month))
        return "";
    return arena_printf(arena, said_as(arena, "date", "%1$d\u00a0%2$s"), of_month, said_month(arena, SAID_SHORT, month));
}

struct face frame_face(double size, enum weight weight, enum ink ink, enum rank rank)
{
    return (struct face){size, weight, {ink, rank, ROLE_PLAIN}};
}

double frame_capital(const struct frame *frame, double size)
{
    return size * type_capital(frame->press.type);
}

struct box *frame_header(const struct frame *frame, const struct frame_title *title, bool again)
{
    const struct press *press = &frame->press;
    struct box *header = box_new(press->arena);
    double info_size = frame->first * 1.05, bar = 3.5, y = bar + 9;
    struct face info = frame_face(info_size, WEIGHT_BOLD, INK_BLACK, RANK_SECOND);
    double right = fmax(type_width(press->type, title->when, info_size, WEIGHT_BOLD),
                        type_width(press->type, title->then, info_size, WEIGHT_BOLD));
    double size = again ? 16 : 26, room = frame->inner - right - 20;
    double wide = type_width(press->type, title->title, size, WEIGHT_BOLD);
    size *= fmax(0.6, fmin(1, room / wide));
    struct face bold = frame_face(size, WEIGHT_BOLD, INK_BLACK, RANK_SECOND);
    bold.style.role = ROLE_TITLE;
    struct box *name = press_paragraph(press, title->title, bold, room, 0, 0.9, false);
    box_rectangle(header, 0, 0, frame->inner, bar, INK_BLACK, INK_NONE, 0);
    box_place(header, name, 0, y);
    double low = y + name->height - 0.22 * size, line = y + frame_capital(frame, info_size);
    press_put_end(press, header, frame->inner, line, title->when, info);
    info.style.ink = INK_SPOT;
    line += 1.35 * info_size;
    press_put_end(press, header, frame->inner, line, title->then, info);
    low = fmax(low, *title->then ? line : line - 1.35 * info_size);
    const char *const below[] = {again ? "" : title->beside, title->provisional};
    for (size_t i = 0; i < 2; i++) {
        if (!*below[i])
            continue;
        info.style.ink = i == 0 ? INK_BLACK : INK_SPOT;
        struct box *words = press_paragraph(press, below[i], info, frame->inner, 0, 1, false);
        box_place(header, words, 0, low + 0.7 * info_size);
        low += 0.7 * info_size + words->height - 0.22 * info_size;
    }
    header->height = low + 11;
    return header;
}

void frame_stack(struct box *column, const struct box *part, double gap)
{
    if (!part || part->count == 0)
        return;
    double y = column->height + (column->count ? gap : 0);
    box_place(column, part, 0, y);
    column->height = y + part->height;
    column->width = fmax(column->width, part->width);
}

struct box *frame_close_by(struct box *box)
{
    struct box *flat = box_flat(box);
    for (size_t i = 0; i < flat->count; i++)
        if (flat->elements[i].rank == RANK_FIRST)
            flat->elements[i].rank = RANK_SECOND;
    return flat;
}

struct box *frame_foot(const struct frame *frame, struct box *const *parts, size_t count)
{
    const struct press *press = &frame->press;
    struct box *foot = box_new(press->arena);
    struct face face = frame_face(frame->foot, WEIGHT_REGULAR, INK_BLACK, RANK_FOOT);
    box_rectangle(foot, 0, 0, frame->inner, 0.7, INK_BLACK, INK_NONE, 0);
    foot->height = 0.7;
    for (size_t i = 0; i < count; i++)
        frame_stack(foot, parts[i], 0.7 * frame->foot);
    frame_stack(foot, press_paragraph(press, foot_cautions(press->arena), face, frame->inner, 0, 1, false),
                0.7 * frame->foot);
    foot->height += 0.6 * frame->foot;
    return foot;
}

struct box *frame_last_line(const struct frame *frame, int page, int pages)
{
    const struct sheet_request *request = frame->request;
    return foot_last_line(&frame->press, request->plan, request->version, page, pages, frame->inner,
                          frame_face(frame->foot, WEIGHT_REGULAR, INK_GREY, RANK_FOOT));
}

struct scene *frame_scene(const struct frame *frame, const char *title, const char *kind)
{
    const struct sheet_request *request = frame->request;
    struct scene *scene = scene_new(request->arena, frame->width, frame->height, frame->margin);
    scene->title = title;
    scene->author = request->author;
    scene->subject = request->plan;
    scene->keywords = arena_printf(request->arena, "training plan, %s, %s", kind, request->version);
    return scene;
}

void frame_report_reach(struct scene *scene, const struct frame *frame)
{
    const char *text = "";
    double letters = scene_smallest(scene, RANK_FIRST, &text);
    double reach = sheet_reach(letters), asked = frame->request->distance;
    if (letters <= 0 || reach >= asked * 0.995)
        return;
    struct layout_problem *problem = scene_problem(
        scene, PROBLEM_TOO_SMALL, 1, text,
        arena_printf(scene->arena, "the sheet can be read from %.0f cm, not from %.0f cm", reach,
                     asked));
    problem->distance = reach;
}
