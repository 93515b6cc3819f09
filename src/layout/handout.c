#include "layout/handout.h"
#include "language/language.h"
#include "layout/marks.h"

struct face handout_face(const struct frame *frame, enum weight weight)
{
    return frame_face(frame->first, weight, INK_BLACK, RANK_FIRST);
}

struct box *handout_heading(const struct frame *frame, const char *words)
{
    struct box *box = box_new(frame->press.arena);
    struct face bold = handout_face(frame, WEIGHT_BOLD);
    bold.style.role = ROLE_HEADING;
    struct box *title = press_paragraph(&frame->press, words, bold, frame->inner, 0, 1, false);
    box_rectangle(box, 0, 0, frame->inner, 0.8, INK_BLACK, INK_NONE, 0);
    box_place(box, title, 0, 0.6 * bold.size);
    box->height = 0.6 * bold.size + title->height + 0.3 * bold.size;
    return box;
}

struct box *handout_blanks(const struct frame *frame, const char *const *leads, size_t count, double share)
{
    const struct press *press = &frame->press;
    struct face face = handout_face(frame, WEIGHT_REGULAR);
    struct box *line = box_new(press->arena);
    double gap = 0.6 * face.size;
    line->baseline = frame_capital(frame, face.size);
    for (size_t i = 0; i < count; i++) {
        atom_join(line, press_word(press, said(press->arena, leads[i]), face), line->count ? 2 * gap : 0);
        atom_join(line, mark_blank(press, share * frame->inner, 1.6 * face.size), gap);
    }
    return line;
}

static size_t page_count(const struct frame *frame, const struct frame_title *title, handout_pages *add_pages)
{
    struct scene *trial = frame_scene(frame, "", "");
    add_pages(trial, frame, title);
    return trial->page_count;
}

void handout_fit(struct frame *frame, const struct frame_title *title, handout_pages *add_pages)
{
    static const double scales[] = {1.6, 1.45, 1.3, 1.15};
    const struct frame least = *frame;
    size_t pages = page_count(frame, title, add_pages);
    for (size_t i = 0; i < sizeof scales / sizeof *scales; i++) {
        frame->first = scales[i] * least.first;
        frame->second = scales[i] * least.second;
        if (page_count(frame, title, add_pages) <= pages)
            return;
    }
    *frame = least;
}
