/* action.h - what can be done with a line or about a finding, as the protocol's code actions; one file for each
 * kind. */
#ifndef BELL_LSP_ACTION_H
#define BELL_LSP_ACTION_H

#include "lsp/server.h"

struct finding;

/* Where actions are collected, and what was asked about. */
struct acting {
    struct call *call;
    const struct focus *focus;
    size_t first, last; /* bytes */
    json_t *all;
};

/* Adds the action TITLE of KIND that makes EDIT, which is taken over and may be NULL. It answers FINDING, which is
 * NULL if no finding called for it. */
json_t *action_add(const struct acting *acting, const char *kind, const char *title, json_t *edit,
                   const struct finding *finding);

/* A workspace edit that puts TEXT in place of the bytes from START to END of FILE. */
json_t *action_edit(const struct acting *acting, unsigned file, size_t start, size_t end, const char *text);

/* Does SPAN touch what was asked about? */
bool action_touches(const struct acting *acting, struct span span);

/* Another exercise instead of one: what that one names itself, and what may replace it where a finding says that kit
 * is missing or that somebody must not do it. */
void action_add_others(const struct acting *acting);
void action_add_stand_ins(const struct acting *acting);

/* The next loads by the rules of the lines (`next`): each one on its line, and all at once. */
void action_add_next(const struct acting *acting);

#endif
