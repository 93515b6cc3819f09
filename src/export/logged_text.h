/* logged_text.h - what the logs say about maxima, for people. */
#ifndef BELL_EXPORT_LOGGED_TEXT_H
#define BELL_EXPORT_LOGGED_TEXT_H

#include "export/show_programme.h"

/* Adds the estimates of the athletes in VIEW; nothing if the logs say nothing. */
void logged_text(const struct programme_view *view, struct text *out);

#endif
