/* hover_plan.h - what a hover tells of a session and of an athlete. Read by hover.c. */
#ifndef BELL_LSP_HOVER_PLAN_H
#define BELL_LSP_HOVER_PLAN_H

#include "lsp/server.h"

struct athlete;
struct session;

/* Adds "- LABEL: WORDS" to OUT, unless WORDS are NULL or empty. */
void hover_row(struct text *out, const char *label, const char *words);

/* Its purpose and minutes, and of a squad's the room on the first day that is not past: when all are done, and which kit
 * decides it. */
void hover_session(struct arena *arena, const struct focus *focus, const struct session *session, struct text *out);

/* Camps and bouts. What bars the athlete is told only of lines that stand in the very file that is looked at. */
void hover_athlete(struct arena *arena, const struct focus *focus, const struct athlete *athlete, struct text *out);

#endif
