#include "lsp/offer.h"

#include <string.h>

#include "base/text.h"
#include "lsp/outline.h"
#include "measure/avoid.h"
#include "measure/counts.h"
#include "measure/kit.h"
#include "model/programme.h"
#include "rules/rules.h"
#include "wording/entry.h"

enum { RANK_CAN, RANK_SOME_CANNOT, RANK_NO_KIT };

void offer(struct offers *offers, const char *label, int kind, const char *detail, int rank)
{
    if (!label || !*label)
        return;
    for (size_t i = 0; i < offers->count; i++)
        if (text_same(offers->items[i].label, label))
            return;
    offers->items = arena_grow(offers->arena, offers->items, offers->count, &offers->capacity, sizeof *offers->items);
    offers->items[offers->count++] = (struct offered){label, detail, kind, rank};
}

static int kind_of(enum named what)
{
    switch (what) {
    case NAMED_ATHLETE: return OFFER_CLASS;
    case NAMED_SESSION: case NAMED_ACTIVITY: return OFFER_FUNCTION;
    case NAMED_EXERCISE: return OFFER_METHOD;
    case NAMED_GYM: return OFFER_STRUCT;
    default: return OFFER_MODULE;
    }
}

/* --- exercises --- */

/* The session that the caret is in, or NULL. */
static const struct session *session_around(const struct offers *offers)
{
    const struct programme *programme = club_programme(offers->focus->club);
    const struct node *at = statement_at(offers->focus->tree->root, offers->caret);
    while (at && at->kind != STATEMENT_SESSION)
        at = at->parent;
    const struct node *name = at ? node_find(at, NODE_NAME) : NULL;
    const char *folded = name ? text_fold(offers->arena, name->text, strlen(name->text)) : "";
    for (size_t i = 0; i < programme->session_count; i++)
        if (text_same(programme->sessions[i]->name.folded, folded))
            return programme->sessions[i];
    return NULL;
}

/* The athletes for whom exercises are offered: those who do SESSION, if anybody does, else everybody. */
static const bool *athletes_of(const struct offers *offers, const struct session *session)
{
    const struct programme *programme = club_programme(offers->focus->club);
    bool *asked = arena_alloc(offers->arena, (programme->athlete_count + 1) * sizeof *asked), any = false;
    for (size_t i = 0; session && i < programme->occasion_count; i++) {
        if (programme->occasions[i].session != session)
            continue;
        asked[programme->occasions[i].athlete->number] = any = true;
    }
    for (size_t i = 0; !any && i < programme->athlete_count; i++)
        asked[i] = true;
    return asked;
}

static bool is_barred(const struct athlete *athlete, const struct exercise *exercise, int today)
{
    for (size_t i = 0; i < athlete->avoid_count; i++)
        if (avoid_stands(&athlete->avoids[i], today) && avoid_bars(&athlete->avoids[i], exercise))
            return true;
    return false;
}

/* Where EXERCISE comes in the list; *LACKS is what is missing from one of their gyms. */
static int rank_exercise(const struct offers *offers, const bool *asked, const struct exercise *exercise, const char **missing)
{
    const struct programme *programme = club_programme(offers->focus->club);
    int rank = RANK_CAN;
    for (size_t i = 0; i < programme->athlete_count; i++) {
        const struct athlete *athlete = programme->athletes[i];
        if (!asked[i])
            continue;
        const struct need *need = athlete->gym ? gym_missing(athlete->gym, exercise) : NULL;
        if (need)
            *missing = arena_printf(offers->arena, "%s has no %s", athlete->gym->name.shown, need->name.shown);
        if (need)
            return RANK_NO_KIT;
        if (is_barred(athlete, exercise, programme->today))
            rank = RANK_SOME_CANNOT;
    }
    return rank;
}

/* Those that the gym has kit for and that the athletes may do come first. */
static void offer_exercises(struct offers *offers)
{
    const struct programme *programme = club_programme(offers->focus->club);
    const bool *asked = athletes_of(offers, session_around(offers));
    for (size_t i = 0; i < programme->exercise_count; i++) {
        const struct exercise *exercise = programme->exercises[i];
        const char *missing = NULL;
        if (exercise->replaced || !focus_may_show(offers->focus, exercise->name.span))
            continue;
        int rank = rank_exercise(offers, asked, exercise, &missing);
        offer(offers, exercise->name.shown, OFFER_METHOD, missing ? missing : entry_patterns(offers->arena, exercise), rank);
    }
}

/* --- other names --- */

static void offer_things(struct offers *offers, unsigned what)
{
    const struct index *index = club_index(offers->focus->club);
    for (size_t i = 0; i < index->thing_count; i++) {
        const struct thing *thing = index->things[i];
        if (what & thing->what && !thing->alias && focus_may_show(offers->focus, thing->name->span))
            offer(offers, thing->shown, kind_of(thing->what), NULL, thing->shelf ? 1 : 0);
    }
}

static void offer_vocabulary(struct offers *offers, const struct vocabulary *words)
{
    for (size_t i = 0; i < words->count; i++)
        offer(offers, words->names[i], OFFER_WORD, words->what, 0);
}

static void offer_kit(struct offers *offers)
{
    const struct programme *programme = club_programme(offers->focus->club);
    for (size_t g = 0; g < programme->gym_count; g++) {
        const struct gym *gym = programme->gyms[g];
        for (size_t i = 0; i < gym->bar_count; i++)
            offer(offers, gym->bars[i].name.shown, OFFER_STRUCT, gym->name.shown, 0);
        for (size_t i = 0; i < gym->other_count; i++)
            offer(offers, gym->others[i].name.shown, OFFER_STRUCT, gym->name.shown, 0);
    }
    for (size_t i = 0; i < programme->exercise_count; i++)
        for (size_t k = 0; k < programme->exercises[i]->need_count; k++)
            offer(offers, programme->exercises[i]->needs[k].name.shown, OFFER_STRUCT, NULL, 1);
}

/* The phases of the camp that the caret is in. */
static void offer_phases(struct offers *offers)
{
    const struct node *at = statement_at(offers->focus->tree->root, offers->caret);
    while (at && at->kind != STATEMENT_CAMP)
        at = at->parent;
    const struct node *phases = at ? node_find(at, STATEMENT_PHASES) : NULL;
    const struct node *phase = phases ? node_find(phases, STATEMENT_PHASE) : NULL;
    for (; phase; phase = node_next_alike(phase)) {
        const struct node *name = node_find(phase, NODE_NAME);
        offer(offers, name ? name->text : NULL, OFFER_WORD, "phase", 0);
    }
}

static void offer_checks(struct offers *offers)
{
    for (size_t i = 0; i < rule_count(); i++) {
        enum diagnostic diagnostic = rule_diagnostic(rule_at(i));
        offer(offers, diagnostic_name(diagnostic), OFFER_WORD, diagnostic_title(diagnostic), 0);
    }
}

void offer_names(struct offers *offers, unsigned what)
{
    if (what & NAMED_EXERCISE)
        offer_exercises(offers);
    offer_things(offers, what & ~(unsigned)NAMED_EXERCISE);
    if (what & NAMED_KIT)
        offer_kit(offers);
    if (what & NAMED_REGION)
        offer_vocabulary(offers, &regions);
    if (what & NAMED_PATTERN)
        offer_vocabulary(offers, &patterns);
    if (what & NAMED_KIND)
        offer_vocabulary(offers, &exercise_kinds);
    if (what & NAMED_LEVEL)
        offer_vocabulary(offers, &levels);
    if (what & NAMED_UNIT)
        offer_vocabulary(offers, &units);
    if (what & NAMED_WEIGH)
        offer_vocabulary(offers, &weighs);
    if (what & NAMED_PHASE)
        offer_phases(offers);
    if (what & NAMED_CHECK)
        offer_checks(offers);
    for (int i = 0; what & NAMED_COUNT && i < COUNTED_END; i++)
        offer(offers, counted_name(offers->arena, (enum counted)i), OFFER_WORD, NULL, 0);
}
