#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "figures/mass.h"
#include "measure/counts.h"
#include "model/limit.h"
#include "resolve/resolver.h"

/* What the words of a heading can be about; each once. */
enum { SAYS_OVER = 1, SAYS_STRETCH = 2, SAYS_LEVEL = 4, SAYS_AGE = 8, SAYS_ATHLETE = 16, SAYS_PHASE = 32 };

/* What a heading says, as a limit without a figure. */
struct heading_scope {
    struct limit shared;
    unsigned said;
};

static bool read_over(const char *folded, enum limit_scope *over)
{
    static const struct {
        const char *words;
        enum limit_scope over;
    } scopes[] = {{"every week", LIMIT_WEEK}, {"every session", LIMIT_SESSION},
                  {"every phase", LIMIT_PHASE}, {"every camp", LIMIT_CAMP}};
    for (size_t i = 0; i < sizeof scopes / sizeof *scopes; i++)
        if (strcmp(folded, scopes[i].words) == 0) {
            *over = scopes[i].over;
            return true;
        }
    return false;
}

/* `first 2 weeks`, `10 days before a bout`, `2 weeks after a bout`. */
static bool read_stretch(const char *folded, struct limit *limit)
{
    enum { MOST_DAYS = 1000, DAYS_OF_WEEK = 7 };
    bool first = strncmp(folded, "first ", 6) == 0;
    const char *rest;
    char *after;
    long count = strtol(folded + (first ? 6 : 0), &after, 10);
    if (after == folded || count < 1 || count > MOST_DAYS)
        return false;
    int unit = strncmp(after, " week", 5) == 0 ? DAYS_OF_WEEK : strncmp(after, " day", 4) == 0 ? 1 : 0;
    if (!unit)
        return false;
    rest = after + (unit == 1 ? 4 : 5);
    rest += *rest == 's';
    limit->stretch_days = (int)count * unit;
    limit->stretch = strcmp(rest, " before a bout") == 0  ? STRETCH_BEFORE_BOUT
                     : strcmp(rest, " after a bout") == 0 ? STRETCH_AFTER_BOUT
                     : first && *rest == '\0'             ? STRETCH_FIRST
                                                          : STRETCH_ALL;
    return limit->stretch != STRETCH_ALL;
}

static bool read_under(const char *folded, struct limit *limit)
{
    if (strncmp(folded, "under ", 6) != 0 || strspn(folded + 6, "0123456789") != strlen(folded + 6))
        return false;
    enum { OLDEST = 120 };
    long age = strtol(folded + 6, NULL, 10);
    limit->under_age = age > OLDEST ? OLDEST : (int)age;
    return age > 0;
}

/* What one name of a heading is about; a name that is nothing else is that of a phase. */
static unsigned read_scope_word(struct resolver *r, const struct node *name, struct limit *limit)
{
    const char *folded = resolver_fold(r, name);
    if (read_over(folded, &limit->scope))
        return SAYS_OVER;
    if (read_stretch(folded, limit))
        return SAYS_STRETCH;
    if (read_under(folded, limit))
        return SAYS_AGE;
    int level = vocabulary_find(&levels, folded);
    if (level >= 0) {
        limit->level = level;
        return SAYS_LEVEL;
    }
    const struct athlete *athlete = names_find(r->athletes, folded);
    if (athlete) {
        limit->athlete = athlete;
        return SAYS_ATHLETE;
    }
    limit->phase = folded;
    limit->heading = name->span;
    return SAYS_PHASE;
}

/* The heading of a group of limits: `every week`, `novice`, `under 18`, an athlete, a phase, or several of them. */
static struct heading_scope read_scope(struct resolver *r, const struct node *node)
{
    struct heading_scope scope = {.shared = {.scope = LIMIT_WEEK, .level = -1}};
    for (const struct node *name = node_find(node, NODE_NAME); name; name = node_next_alike(name)) {
        unsigned says = read_scope_word(r, name, &scope.shared);
        if (scope.said & says)
            diag_error(r->diag, DIAG_SAID_TWICE, name->span, "a heading names one of each kind; `%s` is a second one",
                       name->text);
        scope.said |= says;
    }
    return scope;
}

/* Each line of a tonnage is counted to the gram, so the sum of a week of pounds may be off by this much. */
enum { POUNDS_OFF = 50 };

/* The count's unit decides what a figure may be written in. A ceiling in pounds is raised, and a floor lowered, by what
 * the sum may be off. */
static milli limit_value(struct resolver *r, struct figures *figures, milli value, bool ceiling)
{
    switch (figures->measure) {
    case MEASURE_CLOCK: case MEASURE_SECOND: return value;
    case MEASURE_MINUTE: return value * 60;
    case MEASURE_HOUR: return value * 3600;
    case MEASURE_NONE: case MEASURE_KG: case MEASURE_PERCENT: case MEASURE_REPS: case MEASURE_METRE:
        return value;
    case MEASURE_LB:
        return mass_sum_from_lb(value) + (ceiling ? POUNDS_OFF : -POUNDS_OFF);
    default:
        diag_error(r->diag, DIAG_WRONG_UNIT, figures->span, "a limit cannot be written in %s",
                   measure_words(figures->measure));
        return value;
    }
}

static bool measure_fits(enum counted counted, enum measure measure)
{
    bool time = measure == MEASURE_CLOCK || measure == MEASURE_SECOND || measure == MEASURE_MINUTE ||
                measure == MEASURE_HOUR;
    bool timed = counted == COUNTED_TIME || counted == COUNTED_SPARRING_TIME;
    bool in_mass = measure == MEASURE_KG || measure == MEASURE_LB, weighed = counted_group(counted) == GROUP_TONNAGE;
    if (timed)
        return time;
    if (in_mass || weighed)
        return in_mass && weighed;
    if (measure == MEASURE_PERCENT)
        return counted >= COUNTED_COUNT;
    if (measure == MEASURE_METRE)
        return counted == COUNTED_METRES;
    if (measure == MEASURE_REPS)
        return counted == COUNTED_REPS;
    if (counted == COUNTED_HOLD_SECONDS)
        return time || measure == MEASURE_NONE;
    return !time || counted >= COUNTED_COUNT;
}

static void read_bound(struct resolver *r, const struct node *bound, enum counted counted, struct limit *limit)
{
    const struct node *inner = bound->first;
    if (bound->code == BOUND_NONE) {
        limit->bound = LIMIT_AT_MOST;
        return;
    }
    if (inner->kind == NODE_EFFORT)
        inner = inner->first;
    struct figures *figures = figures_read_total(r, inner);
    if (figures->count > 1)
        diag_error(r->diag, DIAG_WRONG_UNIT, figures->span, "a limit is one figure or one range");
    if (!measure_fits(counted, figures->measure)) {
        struct finding *finding = diag_error(r->diag, DIAG_WRONG_UNIT, figures->span, "this limit cannot be in %s",
                                             measure_words(figures->measure));
        if (figures->measure == MEASURE_NONE)
            diag_help(r->diag, finding,
                      counted_group(counted) == GROUP_TONNAGE ? "write `%d kg` or `%d lb`"
                                                              : "write `%d min`, or another unit of time",
                      (int)(figures->values[0].low / 1000), (int)(figures->values[0].low / 1000));
    }
    limit->value = limit_value(r, figures, figures->values[0].low, bound->code == BOUND_AT_MOST);
    limit->unit = figures->measure == MEASURE_LB ? MASS_IN_LB : MASS_IN_KG;
    limit->bound = bound->code == BOUND_AT_MOST    ? LIMIT_AT_MOST
                   : bound->code == BOUND_AT_LEAST ? LIMIT_AT_LEAST
                                                   : LIMIT_WITHIN;
    if (limit->bound == LIMIT_WITHIN)
        limit->top = limit_value(r, figures, figures->values[0].high, true);
    else if (figures->values[0].high != figures->values[0].low)
        diag_error(r->diag, DIAG_WRONG_UNIT, figures->span, "`at most` and `at least` take one figure, not a range");
}

static void read_tail(struct resolver *r, const struct node *tail, enum counted counted, struct limit *limit)
{
    switch (tail->code) {
    case TAIL_A_SIDE:
        limit->a_side = true;
        if (counted != COUNTED_NONE && !counted_is_sided(counted))
            diag_error(r->diag, DIAG_WRONG_UNIT, tail->span, "this is not counted for each side");
        break;
    case TAIL_WARN: limit->force = FORCE_WARN; break;
    case TAIL_INFO: limit->force = FORCE_INFO; break;
    case TAIL_A_WEEK: limit->scope = LIMIT_WEEK; break;
    case TAIL_BELOW_PEAK: limit->below_peak = true; break;
    case TAIL_TO_ONE: {
        const char *folded = resolver_fold(r, tail->first);
        const char *sets = arena_printf(r->arena, "%s sets", folded);
        if (tail->number != 1000)
            diag_error(r->diag, DIAG_WRONG_UNIT, tail->span, "a ratio is a figure `to 1`");
        if (counted_find(folded) == COUNTED_NONE && counted_find(sets) == COUNTED_NONE)
            diag_error(r->diag, DIAG_UNKNOWN_COUNTED, tail->first->span, "`%s` is not something that is counted",
                       tail->first->text);
        limit->against = counted_find(sets) != COUNTED_NONE ? sets : folded;
        break;
    }
    default: break; /* `must` is the default */
    }
}

/* `first 2 weeks of an exercise at most RPE 7` is a limit on effort with a span of its own. */
static bool read_first_weeks(const char *folded, struct limit *limit)
{
    int weeks;
    char rest[32];
    if (sscanf(folded, "first %3d weeks of an %31[a-z]", &weeks, rest) != 2 || strcmp(rest, "exercise") != 0 || weeks < 1)
        return false;
    limit->first_weeks = weeks;
    limit->counted = "effort";
    return true;
}

static void unknown_counted(struct resolver *r, const struct node *name)
{
    enum { MOST_GUESSED = 500 }; /* each is compared with everything that is counted */
    const char *near[1];
    const char *folded = resolver_fold(r, name);
    struct finding *finding = diag_error(r->diag, DIAG_UNKNOWN_COUNTED, name->span, "`%s` is not something that is "
                                                                                    "counted",
                                         name->text);
    if (r->counted_guessed++ < MOST_GUESSED && counted_nearest(r->arena, folded, near, 1))
        diag_fix(r->diag, finding, name->span, near[0]);
}

static bool is_below_peak(const struct node *limit)
{
    for (const struct node *tail = node_find(limit, NODE_TAIL); tail; tail = node_next_alike(tail))
        if (tail->code == TAIL_BELOW_PEAK)
            return true;
    return false;
}

/* A rise is a percentage above the weeks before, checked in each week: anything else would never be looked at. */
static void check_rise(struct resolver *r, const struct node *bound, const struct limit *limit)
{
    bool percent = bound->first && bound->first->code == MEASURE_PERCENT;
    if (percent && limit->bound == LIMIT_AT_MOST && limit->scope == LIMIT_WEEK && !limit->below_peak && !limit->against)
        return;
    struct finding *finding = diag_error(r->diag, DIAG_WRONG_UNIT, limit->span,
                                         "a rise in load has a limit in per cent, from week to week");
    diag_help(r->diag, finding, "below `every week` write `load rise at most 15%%`");
}

/* Sums alone stand beside one another: a monotony, say, is worked out by a check of its own. */
static bool is_of_sums(struct resolver *r, enum counted counted, const struct limit *limit)
{
    if (!limit->against)
        return true;
    bool sums = counted < COUNTED_COUNT && counted_find(limit->against) < COUNTED_COUNT;
    if (sums && !limit->below_peak)
        return true;
    diag_error(r->diag, DIAG_WRONG_UNIT, limit->span, "a ratio is one of two sums, and %s is not a sum",
               counted >= COUNTED_COUNT ? limit->counted
               : sums                   ? "what lies below the peak week"
                                        : limit->against);
    return false;
}

static bool read_limit(struct resolver *r, const struct node *node, const struct heading_scope *scope,
                       struct limit *limit)
{
    const struct node *name = node->first, *bound = node_find(node, NODE_BOUND);
    *limit = scope->shared;
    limit->span = node->span;
    const char *folded = resolver_fold(r, name);
    if (!read_first_weeks(folded, limit))
        limit->counted = folded;
    enum counted counted = counted_find(limit->counted);
    if (counted == COUNTED_NONE) {
        unknown_counted(r, name);
        return false;
    }
    /* Whatever is counted, below a peak it is a share. */
    read_bound(r, bound, is_below_peak(node) ? COUNTED_VOLUME : counted, limit);
    for (const struct node *tail = node_find(node, NODE_TAIL); tail; tail = node_next_alike(tail))
        read_tail(r, tail, counted, limit);
    if (counted == COUNTED_LOAD_RISE)
        check_rise(r, bound, limit);
    else if (!is_of_sums(r, counted, limit))
        return false;
    limit->source = resolver_text(node_find(node, STATEMENT_SOURCE));
    if (!limit->source && node_find(node, STATEMENT_COMMON_PRACTICE))
        limit->source = "common practice";
    return true;
}

/* A limit that stands where a heading should. */
static bool heading_is_missing(struct resolver *r, const struct node *group)
{
    const char *folded = resolver_fold(r, group->first);
    if (!strstr(folded, " at most ") && !strstr(folded, " at least "))
        return false;
    struct finding *finding = diag_error(r->diag, DIAG_NO_HEADING, group->span, "a limit goes below a heading");
    diag_help(r->diag, finding, "put `every week`, or whatever it applies to, above it, and indent it below that");
    return true;
}

void resolve_limits(struct resolver *r, const struct node *node, struct limits *limits)
{
    size_t capacity = 0;
    const struct node *base = resolver_single(r, node, STATEMENT_BASED_ON);
    if (base)
        limits->base = resolver_find(r, base->first, "limits", r->limits);
    for (const struct node *group = node->first; group; group = group->next) {
        if (group->kind != STATEMENT_SCOPE)
            continue;
        if (heading_is_missing(r, group))
            continue;
        struct heading_scope scope = read_scope(r, group);
        resolver_filled(r, group);
        for (const struct node *line = group->first; line; line = line->next) {
            struct limit limit;
            if (line->kind != STATEMENT_LIMIT || !read_limit(r, line, &scope, &limit))
                continue;
            limits->items = arena_grow(r->arena, limits->items, limits->count, &capacity, sizeof *limits->items);
            limits->items[limits->count++] = limit;
        }
    }
}
