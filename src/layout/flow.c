#include "layout/flow.h"

static const double BELOW_INTRO = 10, ABOVE_FOOT = 6; /* points */

void flow_pages(struct scene *scene, const struct frame *frame, const struct frame_title *title, const struct strips *strips,
                struct box *foot, struct box *intro)
{
    double line = frame->height - frame->margin - frame_last_line(frame, 1, 1)->height;
    for (size_t start = 0; start < strips->count;) {
        struct box *page = scene_page(scene), *header = frame_header(frame, title, scene->page_count > 1);
        double used, y = frame->margin + header->height;
        box_place(page, header, frame->margin, frame->margin);
        if (start == 0)
            scene_bookmark(scene, scene->title, 0, false);
        if (start == 0 && intro) {
            box_place(page, intro, frame->margin, y);
            y += intro->height + BELOW_INTRO;
        }
        size_t fitting = strips_fit(strips, start, line - foot->height - ABOVE_FOOT - y, &used);
        strips_draw(scene, page, strips, start, start + fitting, frame->margin, y, 0);
        box_place(page, foot, frame->margin, line - foot->height);
        start += fitting;
    }
    for (size_t i = 0; i < scene->page_count; i++)
        box_place(scene->pages[i], frame_last_line(frame, (int)i + 1, (int)scene->page_count), frame->margin, line);
}
