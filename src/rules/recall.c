#include "rules/recall.h"
#include "model/programme.h"

#include <string.h>

#include "rules/finding_groups.h"

/* What became of a fault of one athlete. */
struct recalled_group {
    struct key key;
    bool own; /* nobody else's can be the same */
    const struct rule *rule;
    struct finding *finding; /* as it was last reported */
    milli weight;
    bool uneven, of_work;
    int met, day, day_count;
    int days[NAMED];
    const struct telling *tellings;
    size_t telling_count;
    struct whose *of; /* its person is the athlete */
};

/* A waiver that the athlete used or went past, by where it stands: others come and go. */
struct recalled_waiver {
    struct span span;
    bool used;
};

struct recalled_passing {
    struct span span;
    struct passing passing;
};

struct recall {
    struct recalled_group *groups;
    size_t group_count;
    struct recalled_waiver *waivers;
    size_t waiver_count;
    struct recalled_passing *passings;
    size_t passing_count;
};

/* --- what findings are about, from one run to the next --- */

enum { OF_GYM = 1, OF_EXERCISE, OF_ACTIVITY, OF_CAMP, OF_LIMIT };

static void identify(struct run *run, const void *thing, int kind, size_t number)
{
    size_t *identity = arena_alloc(run->arena, sizeof *identity);
    *identity = number * 8 + (size_t)kind;
    g_hash_table_insert(run->identities, (void *)thing, identity);
}

/* What several athletes' findings can be about. These stand in files that bring all athletes with them where they change,
 * or, of camps, keep their order: each has its number again. */
void recall_identify(struct run *run)
{
    const struct programme *programme = run->programme;
    for (size_t i = 0; i < programme->gym_count; i++)
        identify(run, programme->gyms[i], OF_GYM, i);
    for (size_t i = 0; i < programme->exercise_count; i++)
        identify(run, programme->exercises[i], OF_EXERCISE, i);
    for (size_t i = 0; i < programme->activity_count; i++)
        identify(run, programme->activities[i], OF_ACTIVITY, i);
    for (size_t i = 0; i < programme->camp_count; i++)
        identify(run, programme->camps[i], OF_CAMP, i);
    for (size_t i = 0, number = 0; i < programme->limits_count; i++)
        for (size_t k = 0; k < programme->limits[i]->count; k++)
            identify(run, &programme->limits[i]->items[k], OF_LIMIT, number++);
}

/* --- keeping --- */

static const char *text_copy(struct arena *arena, const char *text)
{
    return text ? arena_copy(arena, text, strlen(text)) : NULL;
}

static struct whose *keep_of(struct arena *arena, const struct whose *of)
{
    if (!of)
        return NULL;
    struct whose *kept = arena_alloc(arena, sizeof *kept);
    *kept = *of;
    kept->person = NULL;
    kept->who = text_copy(arena, of->who);
    kept->when = text_copy(arena, of->when);
    return kept;
}

static void keep_group(const struct run *run, struct arena *arena, const struct finding_group *group,
                       struct recalled_group *kept)
{
    const size_t *identity = g_hash_table_lookup(run->identities, group->key.subject);
    group->tellings[group->telling_count - 1].private = group->finding->private;
    struct telling *tellings = arena_alloc(arena, group->telling_count * sizeof *tellings);
    memcpy(tellings, group->tellings, group->telling_count * sizeof *tellings);
    *kept = (struct recalled_group){.key = group->key,
                                    .own = group->key.subject && !identity,
                                    .rule = group->rule,
                                    .finding = finding_keep(arena, group->finding),
                                    .weight = group->weight,
                                    .uneven = group->uneven,
                                    .of_work = group->of_work,
                                    .met = group->met,
                                    .day = group->day,
                                    .day_count = group->day_count,
                                    .tellings = tellings,
                                    .telling_count = group->telling_count,
                                    .of = keep_of(arena, group->finding->of)};
    kept->key.subject = NULL;
    kept->key.identity = identity ? *identity : 0;
    memcpy(kept->days, group->days, sizeof kept->days);
}

struct recall *recall_keep(const struct run *run, struct arena *arena)
{
    const struct programme *programme = run->programme;
    const struct groups *groups = run->groups;
    struct recall *recall = arena_alloc(arena, sizeof *recall);
    recall->group_count = groups->count;
    recall->groups = arena_alloc(arena, (groups->count + 1) * sizeof *recall->groups);
    for (size_t i = 0; i < groups->count; i++)
        keep_group(run, arena, groups->items[i], &recall->groups[i]);
    size_t capacity = 0;
    for (size_t i = 0; i < programme->waiver_count; i++) {
        if (!run->waived[i].used)
            continue;
        recall->waivers = arena_grow(arena, recall->waivers, recall->waiver_count, &capacity, sizeof *recall->waivers);
        recall->waivers[recall->waiver_count++] = (struct recalled_waiver){programme->waivers[i].span, true};
    }
    recall->passing_count = run->passing_count;
    recall->passings = arena_alloc(arena, (run->passing_count + 1) * sizeof *recall->passings);
    for (size_t i = 0; i < run->passing_count; i++)
        recall->passings[i] = (struct recalled_passing){programme->waivers[run->passings[i].waiver].span,
                                                        run->passings[i]};
    return recall;
}

void recall_move(const struct shift *shift, struct recall *recall)
{
    for (size_t i = 0; i < recall->group_count; i++) {
        struct recalled_group *group = &recall->groups[i];
        span_move(shift, &group->key.span);
        span_move(shift, &group->key.other);
        finding_move(shift, group->finding);
        if (group->of)
            span_move(shift, &group->of->span);
    }
    for (size_t i = 0; i < recall->waiver_count; i++)
        span_move(shift, &recall->waivers[i].span);
    for (size_t i = 0; i < recall->passing_count; i++)
        span_move(shift, &recall->passings[i].span);
}

/* --- putting among the others --- */

static void take_finding(struct finding *finding, const struct recalled_group *recalled, const struct shift *shift,
                         const struct athlete *athlete, struct arena *arena)
{
    enum severity severity = finding->severity;
    size_t order = finding->order;
    bool private = finding->private;
    *finding = *recalled->finding;
    finding->severity = severity;
    finding->order = order;
    finding->private = private;
    finding->note_capacity = finding->note_count;
    finding_move_copy(arena, shift, finding);
    if (!recalled->of)
        return;
    struct whose *of = arena_alloc(arena, sizeof *of);
    *of = *recalled->of;
    span_move(shift, &of->span);
    of->person = athlete;
    finding->of = of;
}

/* Reports that are worse than earlier ones are reported. */
static void tell(struct run *run, struct finding_group *group, const struct recalled_group *recalled, bool fresh)
{
    for (size_t i = 0; i < recalled->telling_count; i++) {
        const struct telling *telling = &recalled->tellings[i];
        if (!fresh && telling->weight <= group->weight)
            continue;
        if (telling->severity > group->finding->severity)
            group->finding->severity = telling->severity;
        if (telling->private)
            diag_set_private(run->diag, group->finding);
    }
}

static void add_met(struct finding_group *group, const struct recalled_group *recalled, const struct athlete *athlete)
{
    group->met += recalled->met;
    group->of_work = recalled->of_work;
    if (group->athletes < NAMED)
        group->names[group->athletes] = athlete->name.shown;
    if (group->athletes == 0) {
        group->day = recalled->day;
        group->day_count = recalled->day_count;
        memcpy(group->days, recalled->days, sizeof group->days);
    }
    group->athletes++;
    group->last = athlete;
}

static void put_group(struct run *run, const struct recalled_group *recalled, const struct shift *shift,
                      const struct athlete *athlete)
{
    struct key key = recalled->key;
    span_move(shift, &key.span);
    span_move(shift, &key.other);
    if (recalled->own)
        key.subject = recalled; /* not met again */
    struct finding_group *group = group_find(run, &key);
    bool fresh = !group;
    if (fresh) {
        const struct telling *first = &recalled->tellings[0];
        group = group_new(run, recalled->rule, &key,
                          diag_add(run->diag, first->severity, key.diagnostic, key.span, ""));
    } else {
        group->uneven |= recalled->weight != group->weight;
    }
    group->uneven |= recalled->uneven;
    tell(run, group, recalled, fresh);
    if (fresh || recalled->weight > group->weight) {
        group->weight = recalled->weight;
        take_finding(group->finding, recalled, shift, athlete, run->arena);
    }
    add_met(group, recalled, athlete);
}

static struct waived *waived_at(struct run *run, struct span span)
{
    for (size_t i = 0; i < run->programme->waiver_count; i++)
        if (run->programme->waivers[i].span.file == span.file && run->programme->waivers[i].span.start == span.start)
            return &run->waived[i];
    return NULL;
}

/* Where WAIVED, kept at SPAN, is now among the waivers, or NULL. */
static struct waived *waived_since(struct run *run, const struct shift *shift, struct span span)
{
    span_move(shift, &span);
    return waived_at(run, span);
}

void recall_put(struct run *run, const struct recall *recall, const struct shift *shift, const struct athlete *athlete)
{
    for (size_t i = 0; i < recall->group_count; i++)
        if (!(run->company_unclear && recall->groups[i].rule->marks & TOGETHER))
            put_group(run, &recall->groups[i], shift, athlete);
    for (size_t i = 0; i < recall->waiver_count; i++) {
        struct waived *waived = waived_since(run, shift, recall->waivers[i].span);
        if (waived)
            waived->used = true;
    }
    for (size_t i = 0; i < recall->passing_count; i++) {
        struct waived *waived = waived_since(run, shift, recall->passings[i].span);
        if (waived)
            waived_pass(waived, &recall->passings[i].passing);
    }
}
