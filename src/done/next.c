#include "done/next.h"

#include <string.h>

#include "done/estimates.h"
#include "done/turn.h"
#include "figures/step.h"
#include "measure/avoid.h"
#include "measure/hold.h"
#include "measure/kit.h"
#include "measure/loads.h"
#include "measure/person.h"
#include "model/programme.h"

/* The line whose next load is wanted, and what is known about it. */
struct asking {
    struct arena *arena;
    const struct programme *programme;
    const struct occasion *occasion;
    const struct block *block;
    const struct item *item;
    struct turn turns[2]; /* the last first */
    size_t turn_count;
    bool down;   /* loads are rounded down */
    bool frozen; /* nothing goes up */
    bool once;   /* only the first occasion of each line is asked; the rules in ASKED have had theirs */
    const struct next_rule **asked;
    size_t asked_count, asked_capacity;
};

/* What a rule proposes: a load, or more repetitions with the same load. */
struct said_next {
    mass load;
    int reps;
    const char *why;
};

/* --- what may be --- */

static bool in_taper(const struct occasion *occasion)
{
    return occasion->phase && strcmp(occasion->phase->name.folded, "taper") == 0;
}

static void look_at_athlete(struct asking *asking)
{
    const struct occasion *occasion = asking->occasion;
    const struct athlete *athlete = occasion->athlete;
    bool taper = in_taper(occasion);
    asking->frozen = taper || athlete_stands_still(athlete, occasion->date, asking->programme->today);
    asking->down = taper || athlete_under(athlete, occasion->date, 18) || athlete_restricted(athlete, occasion->date);
}

static mass made_of(const struct asking *asking, mass asked)
{
    struct load load = {0};
    load_make(occasion_gym(asking->occasion), asking->item->exercise, asked, asking->item->runs[0].load.pieces, asking->down, &load);
    return load.made;
}

static mass most_up(mass load)
{
    return load + mass_share(load, PROGRESS_MOST);
}

/* --- up by a step --- */

/* LOAD raised by STEP as the gym can make it, or the next load up that it can make; LOAD itself if none is within a
 * tenth. */
static mass step_up(const struct asking *asking, mass load, mass step)
{
    mass made = made_of(asking, load + step);
    for (mass asked = load + step; made <= load && asked <= most_up(load) && !asking->down; asked += step / 4 + 1)
        made = made_of(asking, asked);
    return made > load && made <= most_up(load) ? made : load;
}

static struct said_next stays(const struct turn *last, const char *why)
{
    return (struct said_next){.load = last->load, .why = why};
}

static struct said_next go_up(const struct asking *asking, const struct turn *last, int reps, const char *why)
{
    mass load = step_up(asking, last->load, asking->item->next->step);
    if (load > last->load)
        return (struct said_next){.load = load, .why = why};
    return (struct said_next){.load = last->load, .reps = reps + 1,
                           .why = arena_printf(asking->arena, "%s, and no step of the gym fits: the next is above 10 %%, or "
                                                              "there is none", why)};
}

static struct said_next by_range(const struct asking *asking)
{
    const struct turn *last = &asking->turns[0];
    milli top = asking->item->next->band.high;
    if (!last->one_load || last->sets < last->item->sets || last->least_reps < top)
        return stays(last, "not every set reached the top");
    return go_up(asking, last, (int)(last->least_reps / 1000),
                 arena_printf(asking->arena, "every set reached %lld", (long long)(top / 1000)));
}

static bool is_two_over(const struct turn *turn)
{
    milli goal = turn->item->runs[turn->item->run_count - 1].parts[0].amount.high;
    return turn->last_reps >= goal + 2000;
}

static struct said_next by_twice(const struct asking *asking)
{
    const struct turn *last = &asking->turns[0], *before = &asking->turns[1];
    bool twice = asking->turn_count > 1 && before->done && before->load == last->load;
    if (!twice || !is_two_over(last) || !is_two_over(before))
        return stays(last, "the last set was not two over twice running");
    return go_up(asking, last, (int)(last->least_reps / 1000), "the last set was two over twice running");
}

/* --- by a share, by a table --- */

/* LOAD changed to ASKED as the gym can make it, at most a tenth higher. */
static mass moved(const struct asking *asking, mass load, mass asked)
{
    mass made = made_of(asking, asked);
    if (made > most_up(load) || (asked < load && made > load))
        return load;
    return made;
}

static struct said_next by_effort(const struct asking *asking)
{
    const struct turn *last = &asking->turns[0];
    const struct range band = asking->item->next->band;
    if (!last->rpe)
        return stays(last, "no effort was logged");
    milli share = progress_by_effort(last->rpe, band.low, band.high);
    if (!share)
        return stays(last, "the effort was as it should be");
    return (struct said_next){.load = moved(asking, last->load, mass_share(last->load, 100000 + share)),
                           .why = share > 0 ? "the effort was below what it should be" : "the effort was above what it should be"};
}

static struct said_next by_last_set(const struct asking *asking)
{
    const struct turn *last = &asking->turns[0];
    struct progress_pounds change;
    if (!last->all_out || !progress_by_last_set(asking->item->next->of, (int)(last->last_reps / 1000), &change))
        return stays(last, "no all-out last set was logged");
    int pounds = asking->down ? change.low : change.high;
    mass by = mass_from((milli)(pounds < 0 ? -pounds : pounds) * 1000, MASS_IN_LB);
    return (struct said_next){.load = moved(asking, last->load, pounds < 0 ? last->load - by : last->load + by),
                           .why = arena_printf(asking->arena, "the last set was %lld", (long long)(last->last_reps / 1000))};
}

static struct said_next answer_of(const struct asking *asking)
{
    switch (asking->item->next->kind) {
    case PROGRESS_RANGE: return by_range(asking);
    case PROGRESS_TWICE: return by_twice(asking);
    case PROGRESS_EFFORT: return by_effort(asking);
    case PROGRESS_LAST_SET: break;
    }
    return by_last_set(asking);
}

/* --- against what is planned --- */

static bool is_planned(const struct item *item, const struct said_next *answer)
{
    for (size_t i = 0; i < item->run_count; i++) {
        const struct part *part = &item->runs[i].parts[0];
        if (item->runs[i].load.made != answer->load)
            return false;
        if (answer->reps && (part->amount.low != answer->reps * 1000 || part->amount.high != answer->reps * 1000))
            return false;
    }
    return true;
}

/* Does the line have a rule, one load, and the exercise that the rule is for, not a substitute? */
static bool can_be_asked(const struct item *item)
{
    bool can = item->next && !item->line_exercise && item->exchange == EXCHANGE_NONE && item->run_count > 0;
    for (size_t i = 0; can && i < item->run_count; i++) {
        const struct set_run *run = &item->runs[i];
        can = run->load.kind == LOAD_MASS && run->load.made == item->runs[0].load.made && run->part_count == 1 &&
              run->parts[0].unit == UNIT_REPS && run->repeats <= 1;
    }
    return can;
}

static bool propose(struct asking *asking, struct proposal *proposal)
{
    const struct item *item = asking->item;
    const struct turn *last = &asking->turns[0];
    if (!asking->turn_count || !last->done || last->load <= 0)
        return false;
    look_at_athlete(asking);
    struct said_next answer = answer_of(asking);
    bool up = answer.load > item->runs[0].load.made || answer.reps;
    if (is_planned(item, &answer) || (up && asking->frozen))
        return false;
    *proposal = (struct proposal){.occasion = asking->occasion, .block = asking->block, .item = item, .load = answer.load,
                                  .reps = answer.reps, .why = answer.why, .ground_count = asking->turn_count};
    if (item->next->kind != PROGRESS_TWICE)
        proposal->ground_count = 1;
    for (size_t i = 0; i < proposal->ground_count; i++)
        proposal->grounds[i] = (struct next_ground){asking->turns[i].log, asking->turns[i].line, asking->turns[i].item};
    return true;
}

/* --- all of a week --- */

struct found {
    struct proposal *items;
    size_t count, capacity;
};

/* Has the line of ITEM been dealt with already? */
static bool is_over(struct asking *asking, const struct item *item)
{
    if (!asking->once)
        return false;
    for (size_t i = 0; i < asking->asked_count; i++)
        if (asking->asked[i] == item->next)
            return true;
    asking->asked = arena_grow(asking->arena, asking->asked, asking->asked_count, &asking->asked_capacity,
                               sizeof(struct next_rule *));
    asking->asked[asking->asked_count++] = item->next;
    return false;
}

static void ask_occasion(struct asking *asking, const struct diary_of *diary, size_t at, struct found *found)
{
    const struct occasion *occasion = diary->items[at];
    asking->occasion = occasion;
    for (size_t b = 0; b < occasion->block_count; b++)
        for (size_t i = 0; i < occasion->blocks[b].item_count; i++) {
            struct proposal proposal;
            asking->block = &occasion->blocks[b];
            asking->item = &occasion->blocks[b].items[i];
            if (!can_be_asked(asking->item) || is_over(asking, asking->item))
                continue;
            asking->turn_count = turns_before(diary, at, asking->item, asking->turns);
            if (!propose(asking, &proposal))
                continue;
            found->items = arena_grow(asking->arena, found->items, found->count, &found->capacity, sizeof *found->items);
            found->items[found->count++] = proposal;
        }
}

/* Is OCCASION still to be done, in the week in question? */
static bool is_asked(const struct occasion *occasion, int week, int last_log)
{
    if (!occasion->session || occasion->held || occasion->log)
        return false;
    return week ? occasion->week == week : last_log && occasion->date > last_log;
}

static void ask_athlete(struct arena *arena, const struct programme *programme, int week, const struct athlete *athlete,
                        struct found *found)
{
    struct asking asking = {.arena = arena, .programme = programme, .once = week == 0};
    const struct diary_of diary = diary_of_athlete(arena, programme, athlete);
    for (size_t i = 0; i < diary.count; i++)
        if (is_asked(diary.items[i], week, diary.last_log))
            ask_occasion(&asking, &diary, i, found);
}

size_t next_of(struct arena *arena, const struct programme *programme, int week, const struct athlete *athlete,
               struct proposal **proposals)
{
    struct found found = {0};
    if (athlete)
        ask_athlete(arena, programme, week, athlete, &found);
    for (size_t a = 0; a < programme->athlete_count && !athlete; a++)
        ask_athlete(arena, programme, week, programme->athletes[a], &found);
    *proposals = found.items;
    return found.count;
}
