#include "measure/hold.h"

#include <string.h>

#include "figures/dates.h"
#include "measure/demand.h"
#include "measure/member.h"
#include "measure/person.h"
#include "model/programme.h"

enum { EASY_RPE = 3000, ALL_OUT_RPE = 10000 };

/* --- the state of a hold --- */

struct hold_state hold_begin(const struct hold *hold)
{
    /* The first step never begins on the day of the knock. */
    return (struct hold_state){.step = 0, .began = hold->since + 1};
}

const struct protocol_step *hold_step(const struct hold *hold, int step)
{
    const struct protocol *protocol = hold->protocol;
    return protocol && step >= 0 && (size_t)step < protocol->step_count ? &protocol->steps[step] : NULL;
}

int hold_next_day(const struct hold_state *state, const struct hold *hold, bool young)
{
    const struct protocol_step *step = hold_step(hold, state->step);
    int days = !step ? 1 : young ? step->young_days : step->days;
    return state->began + (days > 0 ? days : 1);
}

static enum hold_fault enter_reached(struct hold_state *state, const struct hold *hold, const struct hold_entry *entry,
                                     bool young)
{
    const struct protocol_step *step = hold_step(hold, entry->step);
    if (!step || entry->step > state->step + 1)
        return step && step->end ? HOLD_IS_END : HOLD_SKIPS;
    if (step->end)
        return HOLD_IS_END;
    bool onward = entry->step > state->step;
    if (entry->day < state->began || (onward && entry->day < hold_next_day(state, hold, young)))
        return HOLD_EARLY;
    if (onward && young && step->young_doctor && !entry->doctor)
        return HOLD_NO_DOCTOR;
    if (onward && step->wants_agreed && !state->agreed)
        return HOLD_UNAGREED;
    state->step = entry->step;
    state->began = entry->day;
    return HOLD_FINE;
}

static enum hold_fault enter_end(struct hold_state *state, const struct hold *hold, const struct hold_entry *entry,
                                 bool young)
{
    const struct protocol_step *next = hold_step(hold, state->step + 1);
    if (!next || !next->end)
        return HOLD_TOO_FEW;
    if (entry->day < hold_next_day(state, hold, young))
        return HOLD_EARLY;
    state->ended = true;
    state->began = entry->day;
    return HOLD_FINE;
}

/* The step is repeated the next day, or an earlier one is. After the end, from the last step on. */
static void enter_symptoms(struct hold_state *state, const struct hold *hold, int day)
{
    const struct protocol_step *step = hold_step(hold, state->step);
    if (step && step->back >= 0)
        state->step = step->back;
    state->began = day + 1;
    state->upset = day;
    state->agreed = 0;
    state->ended = false;
}

enum hold_fault hold_enter(struct hold_state *state, const struct hold *hold, const struct hold_entry *entry,
                           bool young, int today)
{
    if (today && entry->day > today)
        return HOLD_FUTURE;
    if (entry->day < hold->since || (entry->kind == ENTRY_REACHED && entry->day == hold->since))
        return HOLD_BEFORE;
    if (state->ended && entry->kind != ENTRY_SYMPTOMS)
        return HOLD_OVER;
    switch (entry->kind) {
    case ENTRY_REACHED:
        return enter_reached(state, hold, entry, young);
    case ENTRY_ENDED:
        return enter_end(state, hold, entry, young);
    case ENTRY_AGREED:
        state->agreed = entry->day;
        return HOLD_FINE;
    case ENTRY_SYMPTOMS:
        break;
    }
    enter_symptoms(state, hold, entry->day);
    return HOLD_FINE;
}

struct hold_state hold_on(const struct hold *hold, const struct athlete *athlete, int day, int today,
                          enum hold_sight sight)
{
    struct hold_state state = hold_begin(hold);
    for (size_t i = 0; i < hold->entry_count && hold->entries[i].day <= day; i++) {
        const struct hold_entry *entry = &hold->entries[i];
        bool symptoms = entry->kind == ENTRY_SYMPTOMS;
        if ((sight == HOLD_SHARED && entry->private) || (sight == HOLD_MORNING && symptoms && entry->day == day))
            continue;
        hold_enter(&state, hold, entry, athlete_is_young(athlete, entry->day), today);
    }
    return state;
}

bool hold_stands(const struct hold *hold, const struct athlete *athlete, int day, int today)
{
    return day >= hold->since && !hold_on(hold, athlete, day, today, HOLD_ALL).ended;
}

bool athlete_held(const struct athlete *athlete, int day, int today)
{
    for (size_t i = 0; i < athlete->hold_count; i++)
        if (hold_stands(&athlete->holds[i], athlete, day, today))
            return true;
    return false;
}

bool athlete_said_away(const struct athlete *athlete, int day)
{
    for (size_t i = 0; i < athlete->out_count; i++)
        if (athlete->outs[i].away && day >= athlete->outs[i].first && day <= athlete->outs[i].last)
            return true;
    return false;
}

bool athlete_out(const struct athlete *athlete, int day)
{
    for (size_t i = 0; i < athlete->out_count; i++)
        if (day >= athlete->outs[i].first && day <= athlete->outs[i].last)
            return true;
    return false;
}

int athlete_not_out(const struct athlete *athlete, int first, int last)
{
    for (int day = first; day <= last;) {
        int end = 0;
        for (size_t i = 0; i < athlete->out_count; i++)
            if (athlete->outs[i].first <= day && athlete->outs[i].last > end)
                end = athlete->outs[i].last;
        if (end < day)
            return day;
        if (end == DATE_LAST)
            return 0;
        day = end + 1;
    }
    return 0;
}

/* Is HOLD in force on one of the days from FIRST to LAST? It changes only on days of its own entries. */
static bool stands_between(const struct hold *hold, const struct athlete *athlete, int first, int last, int today)
{
    bool stands = hold_stands(hold, athlete, first, today) || (hold->since > first && hold->since <= last);
    for (size_t i = 0; i < hold->entry_count && !stands; i++) {
        int day = hold->entries[i].day;
        stands = day > first && day <= last && hold_stands(hold, athlete, day, today);
    }
    return stands;
}

/* Is something of ATHLETE's left out on these days for a reason other than a hold or a day out? */
static bool misses_something(const struct programme *programme, const struct athlete *athlete, int first, int last)
{
    size_t count;
    const struct left_out *left_out = athlete_left_out(programme, athlete, &count);
    for (size_t i = 0; i < count && left_out[i].occasion.date <= last; i++)
        if (left_out[i].occasion.date >= first &&
            (left_out[i].why == LEFT_ABSENT || left_out[i].why == LEFT_CLOSED))
            return true;
    return false;
}

bool athlete_away(const struct programme *programme, const struct athlete *athlete, int first, int last)
{
    int today = programme->today;
    for (size_t i = 0; i < athlete->out_count; i++)
        if (athlete->outs[i].first <= last && athlete->outs[i].last >= first)
            return true;
    for (size_t i = 0; i < athlete->hold_count; i++)
        if (stands_between(&athlete->holds[i], athlete, first, last, today))
            return true;
    for (size_t i = 0; i < programme->camp_count; i++)
        if (camp_has_partly(programme->camps[i], athlete, first, last))
            return true;
    return misses_something(programme, athlete, first, last);
}

static bool allows_all(const struct protocol_step *step)
{
    for (size_t i = 0; step && i < step->allows.count; i++)
        if (step->allows.items[i].training)
            return true;
    return false;
}

bool athlete_stands_still(const struct athlete *athlete, int day, int today)
{
    for (size_t i = 0; i < athlete->hold_count; i++) {
        const struct hold *hold = &athlete->holds[i];
        struct hold_state state = hold_on(hold, athlete, day, today, HOLD_ALL);
        if (day >= hold->since && !state.ended && !allows_all(hold_step(hold, state.step)))
            return true;
    }
    return false;
}

/* --- what it reaches --- */

static bool before_knock(const struct hold *hold, const struct occasion *occasion)
{
    if (occasion->date != hold->since)
        return occasion->date < hold->since;
    bool bout = occasion->activity && occasion->activity->bout; /* it is what the hold began with, more likely than not */
    if (hold->clock < 0 || occasion->clock < 0)
        return occasion->logged || bout;
    return occasion->clock < hold->clock;
}

static bool reaches(const struct hold *hold, const struct athlete *athlete, const struct occasion *occasion, int today)
{
    return !before_knock(hold, occasion) && hold_stands(hold, athlete, occasion->date, today);
}

bool hold_reaches(const struct athlete *athlete, const struct occasion *occasion, int today, const struct hold **hold)
{
    for (size_t i = 0; i < athlete->hold_count; i++) {
        if (!reaches(&athlete->holds[i], athlete, occasion, today))
            continue;
        if (hold)
            *hold = &athlete->holds[i];
        return true;
    }
    return false;
}

/* The step that is in force at the time of OCCASION, or NULL: none of it allows anything. */
static const struct protocol_step *step_at(const struct hold *hold, const struct occasion *occasion, int today,
                                  struct hold_state *state)
{
    enum hold_sight sight = occasion->logged ? HOLD_MORNING : HOLD_ALL;
    *state = hold_on(hold, occasion->athlete, occasion->date, today, sight);
    return occasion->date < state->began ? NULL : hold_step(hold, state->step);
}

/* --- what a step allows --- */

static bool needs_kit(const struct exercise *exercise, const char *kit)
{
    for (size_t i = 0; kit && i < exercise->need_count; i++)
        if (strcmp(exercise->needs[i].name.folded, kit) == 0)
            return true;
    return false;
}

static bool names_exercise(const struct permit *permit, const struct exercise *exercise)
{
    return permit->training || permit->exercise == exercise ||
           (permit->pattern >= 0 && exercise->patterns >> permit->pattern & 1u) ||
           permit->kind == (int)exercise->kind || needs_kit(exercise, permit->kit);
}

bool permits_name(const struct permits *permits, const struct exercise *exercise)
{
    for (size_t i = 0; i < permits->count; i++)
        if (names_exercise(&permits->items[i], exercise))
            return true;
    return false;
}

milli permits_cap(const struct permits *permits, const struct exercise *exercise)
{
    milli most = 0;
    for (size_t i = 0; i < permits->count; i++)
        if (names_exercise(&permits->items[i], exercise) && permits->items[i].cap > most)
            most = permits->items[i].cap;
    return most;
}

/* The RPE that a set asks for at most; -1 where that is not known. */
static milli effort_of(const struct occasion *occasion, const struct block *block, const struct item *item,
                       const struct set_run *run)
{
    milli rpe = run_rpe(run).high;
    for (size_t i = 0; i < run->part_count; i++)
        if (run->parts[i].max)
            return ALL_OUT_RPE;
    if (run->work_up || run_is_heavy(occasion->athlete, item->exercise, run, occasion->date))
        return ALL_OUT_RPE;
    if (run_is_hard(occasion->athlete, item->exercise, run, occasion->date) && rpe < HARD_RPE)
        return HARD_RPE;
    if (rpe > 0)
        return rpe;
    if (run->load.effort == EFFORT_EASY)
        return EASY_RPE;
    bool against_time = block->kind == BLOCK_FOR_TIME || block->kind == BLOCK_AS_MANY;
    bool weighted = run->load.kind != LOAD_NONE;
    return !against_time && !weighted && occasion->rpe.high > 0 ? occasion->rpe.high : -1;
}

static bool within_cap(const struct occasion *occasion, const struct block *block, const struct item *item, milli cap)
{
    for (size_t i = 0; i < item->run_count && cap > 0; i++) {
        milli effort = effort_of(occasion, block, item, &item->runs[i]);
        if (effort < 0 || effort > cap)
            return false;
    }
    return true;
}

/* Does one of PERMITS name the item's exercise, its effort within what that one allows? */
static bool names_item(const struct permits *permits, const struct occasion *occasion, const struct block *block,
                       const struct item *item)
{
    for (size_t i = 0; i < permits->count; i++)
        if (names_exercise(&permits->items[i], item->exercise) &&
            within_cap(occasion, block, item, permits->items[i].cap))
            return true;
    return false;
}

static bool step_allows_item(const struct protocol_step *step, const struct hold_state *state, const struct occasion *occasion,
                             const struct block *block, const struct item *item)
{
    if (permits_name(&step->bars, item->exercise))
        return false;
    if (permits_name(&step->if_agreed, item->exercise))
        return state->agreed && names_item(&step->if_agreed, occasion, block, item);
    return names_item(&step->allows, occasion, block, item);
}

static bool names_activity(const struct permits *permits, const struct occasion *occasion, bool capped)
{
    for (size_t i = 0; i < permits->count; i++) {
        const struct permit *permit = &permits->items[i];
        bool within = !capped || !permit->cap || (occasion->rpe.high > 0 && occasion->rpe.high <= permit->cap);
        /* No name allows anything that lands blows, whatever a club puts in its place. */
        bool named = permit->activity == occasion->activity && !occasion->activity->contact &&
                     !occasion->activity->sparring && !occasion->activity->head;
        if ((permit->training || named) && within)
            return true;
    }
    return false;
}

static bool step_allows_activity(const struct protocol_step *step, const struct hold_state *state,
                                 const struct occasion *occasion)
{
    if (names_activity(&step->bars, occasion, false))
        return false;
    if (names_activity(&step->if_agreed, occasion, false))
        return state->agreed && names_activity(&step->if_agreed, occasion, true);
    return names_activity(&step->allows, occasion, true);
}

const struct hold *hold_bars_item(const struct occasion *occasion, const struct block *block, const struct item *item,
                                  int today)
{
    const struct athlete *athlete = occasion->athlete;
    struct hold_state state;
    for (size_t i = 0; i < athlete->hold_count; i++) {
        if (!reaches(&athlete->holds[i], athlete, occasion, today))
            continue;
        const struct protocol_step *step = step_at(&athlete->holds[i], occasion, today, &state);
        if (!step || !step_allows_item(step, &state, occasion, block, item))
            return &athlete->holds[i];
    }
    return NULL;
}

bool hold_allows_item(const struct occasion *occasion, const struct block *block, const struct item *item, int today)
{
    return !hold_bars_item(occasion, block, item, today);
}

const struct hold *hold_bars_activity(const struct occasion *occasion, int today)
{
    const struct athlete *athlete = occasion->athlete;
    struct hold_state state;
    for (size_t i = 0; i < athlete->hold_count && !occasion->activity->rest; i++) {
        if (!reaches(&athlete->holds[i], athlete, occasion, today))
            continue;
        const struct protocol_step *step = step_at(&athlete->holds[i], occasion, today, &state);
        if (!step || !step_allows_activity(step, &state, occasion))
            return &athlete->holds[i];
    }
    return NULL;
}

bool hold_allows_activity(const struct occasion *occasion, int today)
{
    return !hold_bars_activity(occasion, today);
}

/* The place of the first entry of an athlete whose number is NUMBER or more. */
static size_t first_left_out(const struct programme *programme, size_t number)
{
    size_t low = 0, high = programme->left_out_count;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (programme->left_out[middle].occasion.athlete->number < number)
            low = middle + 1;
        else
            high = middle;
    }
    return low;
}

const struct left_out *athlete_left_out(const struct programme *programme, const struct athlete *athlete, size_t *count)
{
    size_t first = first_left_out(programme, athlete->number);
    *count = first_left_out(programme, athlete->number + 1) - first;
    return *count ? &programme->left_out[first] : NULL;
}

bool hold_allows_nothing(const struct occasion *occasion, int today)
{
    const struct athlete *athlete = occasion->athlete;
    struct hold_state state;
    for (size_t i = 0; i < athlete->hold_count; i++) {
        if (!reaches(&athlete->holds[i], athlete, occasion, today))
            continue;
        const struct protocol_step *step = step_at(&athlete->holds[i], occasion, today, &state);
        if (!step || (!step->allows.count && !step->if_agreed.count))
            return true;
    }
    return false;
}
