/* handout.h - a page in plain words for people who were not at the training: paragraphs below headings, places to write, and
 * letters as large as the pages allow. */
#ifndef BELL_LAYOUT_HANDOUT_H
#define BELL_LAYOUT_HANDOUT_H

#include "layout/frame.h"

/* Adds the pages of a handout to SCENE, in the letters of FRAME. */
typedef void handout_pages(struct scene *scene, const struct frame *frame, const struct frame_title *title);

struct face handout_face(const struct frame *frame, enum weight weight);
/* The heading of a strip, below a rule across the page. */
struct box *handout_heading(const struct frame *frame, const char *words);
/* A line of COUNT places to write, each SHARE of the width and behind its word. */
struct box *handout_blanks(const struct frame *frame, const char *const *leads, size_t count, double share);
/* Gives FRAME the largest letters that need no more pages than its own. */
void handout_fit(struct frame *frame, const struct frame_title *title, handout_pages *add_pages);

#endif
