#include "amend/rework.h"

#include <string.h>

#include "amend/changes.h"
#include "model/programme.h"
#include "rules/rules.h"

enum {
    ASKS = 400,       /* plans to try: of 28 changes each one and each pair, a second or two for a small plan */
    MOST_ERRORS = 64, /* errors that are told apart in the search for what is in the way */
    MOST_IN_WAY = 3   /* at most this many of them are looked for together */
};

/* An error, told apart from others in any try. */
struct problem {
    enum diagnostic diagnostic;
    const char *who, *when; /* or NULL, and then the next two count: */
    const char *words;
    const char *lines; /* lines of the plan that cannot all be met; "" for an error of a try */
};

/* The plan with the first changes of a try, with which the next try usually begins too. */
struct stem {
    size_t change;
    struct arena *arena; /* NULL: from here on there is none */
    struct attempt attempt;
    bool made;
};

struct reworking {
    struct arena *arena;
    struct memory tries; /* reused from try to try, so that the kernel need not clear it for each */
    const struct project_request *request;
    const struct project *before;
    struct changes changes;
    struct stem stems[FEWEST_TOGETHER];
    struct attempt start; /* of the present try: all but its last change */
    int week;
    struct problem known[MOST_ERRORS]; /* each met in some try */
    size_t known_count;
    uint64_t *left; /* of each try: which of them remained */
    size_t left_count, left_capacity;
};

/* --- the errors of a week --- */

static bool is_problem(const struct problem *problem, const struct finding *finding)
{
    if (problem->diagnostic != finding->diagnostic || !problem->who != !finding->of)
        return false;
    return finding->of ? strcmp(problem->who, finding->of->who) == 0 && strcmp(problem->when, finding->of->when) == 0
                       : strcmp(problem->words, finding->words) == 0;
}

static const char *copy(struct arena *arena, const char *words)
{
    return arena_copy(arena, words, strlen(words));
}

/* "camp.bell:16: push-up : 10". */
static void add_line(struct text *out, const struct sources *sources, struct span span)
{
    const struct source *source = &sources->items[span.file];
    unsigned number = source_line(source, span.start);
    size_t length;
    const char *line = source_line_text(source, number, &length);
    while (length && (*line == ' ' || *line == '\t')) {
        line++;
        length--;
    }
    const char *words = arena_printf(out->arena, "%s:%u: %.*s", source->name, number, (int)length, line);
    if (!strstr(text_get(out), words))
        text_addf(out, "%s%s", out->length ? "\n" : "", words);
}

/* The lines between which FINDING of the unchanged plan lies: its own and those that it points to. */
static const char *lines_of(struct reworking *reworking, const struct finding *finding)
{
    const struct sources *sources = &reworking->before->sources;
    struct text out = {.arena = reworking->arena};
    if (reworking->left_count)
        return "";
    add_line(&out, sources, finding->span);
    for (size_t i = 0; i < finding->note_count; i++)
        if (!sources->items[finding->notes[i].span.file].shelf)
            add_line(&out, sources, finding->notes[i].span);
    return text_keep(reworking->arena, &out);
}

static uint64_t bit_of(struct reworking *reworking, const struct finding *finding)
{
    struct arena *arena = reworking->arena;
    for (size_t i = 0; i < reworking->known_count; i++)
        if (is_problem(&reworking->known[i], finding))
            return UINT64_C(1) << i;
    if (reworking->known_count == MOST_ERRORS)
        return 0;
    reworking->known[reworking->known_count] =
        (struct problem){finding->diagnostic, finding->of ? copy(arena, finding->of->who) : NULL,
                         finding->of ? copy(arena, finding->of->when) : NULL, copy(arena, finding->words),
                         lines_of(reworking, finding)};
    return UINT64_C(1) << reworking->known_count++;
}

/* The findings of PROJECT's week, in ARENA. */
static struct diag *check_week(struct arena *arena, const struct project *project, int week)
{
    const struct programme *programme = project->programme;
    struct diag *diag = diag_new(arena, &project->sources);
    struct wanted wanted = {arena_alloc(arena, programme->occasion_count + 1),
                            arena_alloc(arena, programme->left_out_count + 1), .unhelped = true};
    for (size_t i = 0; i < programme->occasion_count; i++)
        wanted.occasions[i] = programme->occasions[i].week == week;
    rules_run_wanted(programme, &wanted, SEVERITY_ERROR, NULL, diag);
    return diag;
}

static size_t note_errors(struct reworking *reworking, const struct diag *diag)
{
    uint64_t left = 0;
    size_t errors = 0;
    for (size_t i = 0; i < diag->count; i++) {
        if (diag->items[i]->severity != SEVERITY_ERROR || diag->items[i]->neutral)
            continue; /* no proposal touches what is about somebody's health */
        errors++;
        left |= bit_of(reworking, diag->items[i]);
    }
    reworking->left = arena_grow(reworking->arena, reworking->left, reworking->left_count, &reworking->left_capacity,
                                 sizeof *reworking->left);
    reworking->left[reworking->left_count++] = left;
    return errors;
}

/* --- a try --- */

/* ATTEMPT, which has the first COUNT of CHANGES, with the next of them. */
static bool make_next(struct reworking *reworking, struct arena *arena, const size_t *changes, size_t count,
                      struct attempt *attempt)
{
    const struct change *chosen[FEWEST_TOGETHER];
    for (size_t i = 0; i <= count; i++)
        chosen[i] = &reworking->changes.items[changes[i]];
    return changes_make(arena, reworking->before, chosen, count, reworking->week, attempt);
}

static void free_stems(struct reworking *reworking, size_t from)
{
    for (size_t i = from; i < FEWEST_TOGETHER; i++) {
        arena_free(reworking->stems[i].arena);
        reworking->stems[i].arena = NULL;
    }
}

/* The plan with COUNT of CHANGES, most of which the last try may have made already. NULL: it cannot be made. */
static const struct attempt *make_stem(struct reworking *reworking, const size_t *changes, size_t count)
{
    struct attempt attempt = {.project = *reworking->before, .request = *reworking->request};
    for (size_t i = 0; i < count; i++) {
        struct stem *stem = &reworking->stems[i];
        if (!stem->arena || stem->change != changes[i]) {
            free_stems(reworking, i);
            *stem = (struct stem){.change = changes[i], .arena = arena_open(&reworking->tries), .attempt = attempt};
            stem->made = make_next(reworking, stem->arena, changes, i, &stem->attempt);
        }
        if (!stem->made)
            return NULL;
        attempt = stem->attempt;
    }
    reworking->start = attempt;
    return &reworking->start;
}

/* Is the week free of errors, and has the rest of the plan no new ones? */
static bool holds(void *with, const size_t *changes, size_t count)
{
    struct reworking *reworking = with;
    const struct attempt *stem = make_stem(reworking, changes, count - 1);
    if (!stem)
        return false;
    struct arena *arena = arena_open(&reworking->tries);
    struct attempt attempt = *stem;
    bool free_of_errors = make_next(reworking, arena, changes, count - 1, &attempt)
                          && !note_errors(reworking, check_week(arena, &attempt.project, reworking->week));
    if (free_of_errors) {
        attempt_check(&attempt, reworking->before);
        free_of_errors = !attempt.errors;
    }
    arena_free(arena);
    return free_of_errors;
}

/* --- what stands in the way --- */

/* Did every try leave some problem of SET? */
static bool is_in_every(const struct reworking *reworking, uint64_t set)
{
    for (size_t i = 0; i < reworking->left_count; i++)
        if (!(reworking->left[i] & set))
            return false;
    return true;
}

/* The smallest such set of SIZE problems from FROM on, beside SET; 0: there is none. */
static uint64_t find_set(const struct reworking *reworking, uint64_t set, size_t from, int size)
{
    if (!size)
        return is_in_every(reworking, set) ? set : 0;
    for (size_t i = from; i < reworking->known_count; i++) {
        uint64_t found = find_set(reworking, set | UINT64_C(1) << i, i + 1, size - 1);
        if (found)
            return found;
    }
    return 0;
}

static void list_in_the_way(const struct reworking *reworking, struct rework *rework)
{
    uint64_t set = 0;
    for (int size = 1; size <= MOST_IN_WAY && !set; size++)
        set = find_set(reworking, 0, 0, size);
    rework->in_the_way = arena_alloc(reworking->arena, (reworking->known_count + 1) * sizeof *rework->in_the_way);
    for (size_t i = 0; i < reworking->known_count; i++)
        if (set >> i & 1)
            rework->in_the_way[rework->in_the_way_count++] =
                (struct rework_fault){reworking->known[i].words, reworking->known[i].lines};
}

/* --- the week --- */

static void keep_way(struct reworking *reworking, const struct fewest_way *found, struct rework_way *way)
{
    way->count = found->count;
    for (size_t i = 0; i < found->count; i++)
        way->words[i] = reworking->changes.items[found->changes[i]].words;
    way->attempt = (struct attempt){.project = *reworking->before, .request = *reworking->request};
    for (size_t i = 0; i < found->count; i++)
        make_next(reworking, reworking->arena, found->changes, i, &way->attempt);
    attempt_check(&way->attempt, reworking->before);
}

static struct fewest_found find_ways(struct reworking *reworking)
{
    size_t count = reworking->changes.count;
    int *groups = arena_alloc(reworking->arena, (count + 1) * sizeof *groups);
    for (size_t i = 0; i < count; i++)
        groups[i] = reworking->changes.items[i].group;
    const struct fewest fewest = {count, groups, ASKS, holds, reworking};
    const struct fewest_found found = fewest_find(&fewest);
    free_stems(reworking, 0);
    memory_free(&reworking->tries, NULL);
    return found;
}

struct rework rework_week(struct arena *arena, const struct project_request *request, const struct project *before,
                          int week)
{
    struct project_request named = *request; /* hundreds of tries read only what they need of the shelf */
    named.shelf = SHELF_NAMED;
    struct project first;
    if (project_load(&first, arena, &named))
        named.again = first.shelf;
    struct reworking reworking = {.arena = arena, .request = &named, .before = before, .week = week};
    struct rework rework = {.errors = note_errors(&reworking, check_week(arena, before, week))};
    if (!rework.errors)
        return rework;
    reworking.changes = changes_of(arena, before, week, request->today);
    rework.changes = reworking.changes.count;
    const struct fewest_found found = find_ways(&reworking);
    rework.all_tried = found.all_asked;
    for (size_t i = 0; i < found.count; i++)
        keep_way(&reworking, &found.ways[i], &rework.ways[rework.way_count++]);
    if (!found.count)
        list_in_the_way(&reworking, &rework);
    return rework;
}
