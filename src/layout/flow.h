/* flow.h - strips that flow over as many pages as they take, each page with the sheet's header, foot and last line. */
#ifndef BELL_LAYOUT_FLOW_H
#define BELL_LAYOUT_FLOW_H

#include "layout/frame.h"
#include "layout/strips.h"

/* Adds the pages of STRIPS to SCENE, and its bookmark. FOOT stands on each page; INTRO, or NULL, above the strips of the
 * first. */
void flow_pages(struct scene *scene, const struct frame *frame, const struct frame_title *title, const struct strips *strips,
                struct box *foot, struct box *intro);

#endif
