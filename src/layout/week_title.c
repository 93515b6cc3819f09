/* week_title.c - whose week it is, in which week of which camps, and what stands beside that. */
#include "layout/week_title.h"

#include <string.h>

#include "base/text.h"
#include "language/language.h"
#include "layout/foot.h"
#include "model/athlete.h"
#include "model/occasion.h"
#include "model/season.h"
#include "wording/wording.h"

/* "base", or of a week in which one phase gives way to another "base, then strength". */
static const char *phase_words(const struct sheet_request *request)
{
    const struct phase *first = request->occasions[0]->phase;
    const struct phase *last = request->occasions[request->count - 1]->phase;
    if (!first || !last || first == last)
        return first ? first->name.shown : last ? last->name.shown : "";
    return arena_printf(request->arena, said(request->arena, "%s, then %s"), first->name.shown, last->name.shown);
}

/* "Spring, week 2 of 9", and of several camps in one week "Cup week 2 of 6, Derby week 1 of 4". */
static const char *camp_weeks(const struct sheet_request *request)
{
    struct arena *arena = request->arena;
    const struct occasion *first = request->occasions[0];
    struct text out = {.arena = arena};
    for (size_t i = 0; i < request->count; i++) {
        const struct occasion *occasion = request->occasions[i];
        bool named = false;
        for (size_t k = 0; k < i && !named; k++)
            named = request->occasions[k]->camp == occasion->camp;
        if (!named)
            text_addf(&out, said(arena, "%s%s week %d of %d"), out.length ? ", " : "", occasion->camp->name.shown,
                      occasion->week, occasion->camp->weeks);
    }
    for (size_t i = 1; i < request->count; i++)
        if (request->occasions[i]->camp != first->camp)
            return text_keep(arena, &out);
    return arena_printf(arena, said(arena, "%s, week %d of %d"), first->camp->name.shown, first->week, first->camp->weeks);
}

/* What its camps leave out before their bouts, the same of two camps once. */
static const char *left_words(const struct sheet_request *request)
{
    struct text out = {.arena = request->arena};
    for (size_t i = 0; i < request->count; i++) {
        const char *left = wording_left_phases(request->arena, request->occasions[i]->camp);
        if (!strstr(text_get(&out), left))
            text_addf(&out, "%s%s", out.length ? "; " : "", left);
    }
    return text_keep(request->arena, &out);
}

/* "taper · 1 week out · left out: base". */
static const char *phase_line(const struct sheet_request *request)
{
    const char *parts[] = {phase_words(request), wording_weeks_out(request->arena, request->occasions[0]->weeks_out),
                           left_words(request)};
    struct text out = {.arena = request->arena};
    for (size_t i = 0; i < sizeof parts / sizeof *parts; i++)
        text_addf(&out, "%s%s", out.length && *parts[i] ? " " WORDING_DOT " " : "", parts[i]);
    return text_keep(request->arena, &out);
}

struct frame_title week_title(const struct frame *frame)
{
    const struct sheet_request *request = frame->request;
    const struct occasion *first = request->occasions[0];
    const char *provisional = "";
    for (size_t i = 0; i < request->count && !*provisional; i++)
        provisional = foot_provisional(request->arena, request->occasions[i]);
    return (struct frame_title){
        .title = arena_printf(request->arena, "%s, %s", first->athlete->name.shown, camp_weeks(request)),
        .beside = "",
        .when = request->date_words,
        .then = phase_line(request),
        .provisional = provisional};
}
