/* hover_plan.h - what a hover says about a session and about an athlete. Only hover.c reads it. */
#ifndef BELL_LSP_HOVER_PLAN_H
#define BELL_LSP_HOVER_PLAN_H

#include "lsp/server.h"

struct athlete;
struct session;

/* Adds "- LABEL: WORDS" to OUT, unless WORDS are NULL or empty. */
void hover_row(struct text *out, const char *label, const char *words);

/* Its purpose and minutes, and for a squad's session the room on the first day that is not past: when everybody
 * finishes, and which kit decides that. */
void hover_session(struct arena *arena, const struct focus *focus, const struct session *session, struct text *out);

/* Camps and bouts. What bars the athlete is only shown from lines in the very file that is looked at. */
void hover_athlete(struct arena *arena, const struct focus *focus, const struct athlete *athlete, struct text *out);

#endif
