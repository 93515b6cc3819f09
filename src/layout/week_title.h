/* week_title.h - the title of a week's sheet. */
#ifndef BELL_LAYOUT_WEEK_TITLE_H
#define BELL_LAYOUT_WEEK_TITLE_H

#include "layout/frame.h"

struct frame_title week_title(const struct frame *frame);

#endif
