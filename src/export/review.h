/* review.h - a camp as it turned out, as Markdown: what was planned and done, tests first and last, what was waived
 * and what was left out. */
#ifndef BELL_EXPORT_REVIEW_H
#define BELL_EXPORT_REVIEW_H

#include "export/show_programme.h"

/* Adds a review of each camp that VIEW has occasions of. Holds are named only if the view asks for private parts. */
void review_markdown(const struct programme_view *view, struct text *out);

#endif
