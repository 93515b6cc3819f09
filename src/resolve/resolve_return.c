/* resolve_return.c - `return left knee` below `private NAME`: the steps of a way back, and who said that one was reached.
 * Each stage becomes a restriction from its day to the next one's, so that every sheet, check and proposal knows it. */
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "figures/dates.h"
#include "model/athlete.h"
#include "model/recovery.h"
#include "model/test.h"
#include "resolve/resolver.h"

enum { MOST_RETURN_STEPS = 20, MOST_STAGES = 100 };

/* --- steps --- */

/* `single leg hop more than 90% of the other side`: the words of anything else are for a person alone. */
static void read_figure(struct resolver *r, const struct node *name, struct criterion *criterion)
{
    static const struct {
        const char *words;
        bool strict;
    } bounds[] = {{" more than ", true}, {" at least ", false}};
    const char *folded = resolver_fold(r, name);
    for (size_t i = 0; i < sizeof bounds / sizeof *bounds; i++) {
        const char *at = strstr(folded, bounds[i].words);
        char *end;
        double share = at ? strtod(at + strlen(bounds[i].words), &end) : 0;
        if (!at || !(share > 0 && share <= 200) || strcmp(end, "% of the other side") != 0)
            continue;
        criterion->share = (milli)(share * 1000 + 0.5);
        criterion->strict = bounds[i].strict;
        criterion->test = names_find(r->tests, arena_copy(r->arena, folded, (size_t)(at - folded)));
        if (criterion->test && !criterion->test->each_side)
            diag_error(r->diag, DIAG_BAD_PROTOCOL, name->span, "%s does not tell the sides apart", criterion->test->name.shown);
        else if (!criterion->test)
            diag_error(r->diag, DIAG_BAD_PROTOCOL, name->span, "there is no test with that name: look for it with "
                                                               "`bellsheet find`, or declare it with a line `test`");
    }
}

/* `pain at most 2 of 10`. */
static void read_pain_bound(struct resolver *r, const struct node *name, struct criterion *criterion)
{
    static const char start[] = "pain at most ";
    const char *folded = resolver_fold(r, name);
    char *end = NULL;
    long most = strncmp(folded, start, strlen(start)) == 0 ? strtol(folded + strlen(start), &end, 10) : -1;
    criterion->pain = most >= 0 && most <= 10 && end && strcmp(end, " of 10") == 0;
    criterion->most = criterion->pain ? (int)most : 0;
}

static void read_step_criteria(struct resolver *r, const struct node *node, struct recovery_step *step)
{
    const struct node *when = resolver_single(r, node, STATEMENT_WHEN);
    struct criterion *criteria = when ? arena_alloc(r->arena, resolver_count(when->first) * sizeof *criteria) : NULL;
    for (const struct node *name = when ? when->first : NULL; name; name = name->next) {
        if (strcmp(resolver_fold(r, name), "agreed by doctor") == 0)
            step->wants_agreed = true;
        criteria[step->criterion_count] = (struct criterion){.words = name->text, .span = name->span};
        read_pain_bound(r, name, &criteria[step->criterion_count]);
        read_figure(r, name, &criteria[step->criterion_count++]);
    }
    step->criteria = criteria;
}

static size_t read_steps(struct resolver *r, const struct node *node, struct recovery_step *steps)
{
    size_t count = 0;
    for (const struct node *line = node_find(node, STATEMENT_STEP); line; line = node_next_alike(line)) {
        struct recovery_step *step = &steps[count];
        if (count == MOST_RETURN_STEPS) {
            diag_error(r->diag, DIAG_BAD_PROTOCOL, line->span, "a way back has at most %d steps", MOST_RETURN_STEPS);
            break;
        }
        *step = (struct recovery_step){.span = line->span};
        step_title(r, line->first->text, &step->name, &step->title);
        for (size_t i = 0; i < count; i++)
            if (strcmp(steps[i].name, step->name) == 0)
                diag_error(r->diag, DIAG_BAD_PROTOCOL, line->first->span, "there is another step `%s` above", step->name);
        step->allows = step_permits(r, line);
        read_step_criteria(r, line, step);
        count++;
    }
    return count;
}

/* --- stages --- */

static int step_of(struct resolver *r, const struct node *name, const struct recovery *recovery)
{
    const char *folded = resolver_fold(r, name);
    for (size_t i = 0; i < recovery->step_count; i++)
        if (strcmp(recovery->steps[i].name, folded) == 0)
            return (int)i;
    diag_error(r->diag, DIAG_UNKNOWN_STEP, name->span, "this way back has no step `%s`", name->text);
    return -1;
}

static void refuse_entry(struct resolver *r, const struct node *line, const char *why)
{
    diag_error(r->diag, DIAG_HOLD_ENTRY, line->span, "this entry does not count: %s", why);
}

/* The first day of a `reached` that counts after the stage BEFORE; 0: it does not. */
static int reached_day(struct resolver *r, const struct node *line, const struct recovery *recovery,
                       const struct recovery_stage *before, int step, int agreed)
{
    int day = entered_on(r, line);
    if (!day || step < 0)
        return 0;
    if (step > before->step + 1)
        refuse_entry(r, line, "the step before it is not entered as reached");
    else if (day < before->first)
        refuse_entry(r, line, "an entry above it is of a later day");
    else if (recovery->steps[step].wants_agreed && (!agreed || agreed > day))
        refuse_entry(r, line, "it wants a doctor's word first; write `agreed by doctor NAME on DATE`");
    else
        return day;
    return 0;
}

/* Symptoms lead back by one step from their day on (common practice, no source). */
static void read_stages(struct resolver *r, const struct node *node, struct recovery *recovery)
{
    struct recovery_stage *stages = arena_alloc(r->arena, MOST_STAGES * sizeof *stages);
    const struct node *since = resolver_single(r, node, STATEMENT_SINCE);
    int agreed = 0;
    stages[0] = (struct recovery_stage){since ? (int)node_find(since, NODE_DATE)->number : 0, -1, NULL};
    recovery->stage_count = 1;
    for (const struct node *line = node->first; line && recovery->stage_count < MOST_STAGES; line = line->next) {
        const struct recovery_stage *before = &stages[recovery->stage_count - 1];
        struct recovery_stage stage = {0};
        if (line->kind == STATEMENT_AGREED_BY) {
            agreed = entered_by_doctor(r, node_find(line, NODE_NAME)) ? entered_on(r, line) : 0;
        } else if (line->kind == STATEMENT_REACHED) {
            stage.step = step_of(r, node_find(line, NODE_NAME), recovery);
            stage.first = reached_day(r, line, recovery, before, stage.step, agreed);
            stage.by = node_find(line, NODE_BY)->first->text;
        } else if (line->kind == STATEMENT_SYMPTOMS) {
            stage.first = (int)node_find(line, NODE_ON)->number;
            stage.step = before->step > -1 ? before->step - 1 : -1;
            agreed = 0;
        } else if (line->kind == STATEMENT_ENDED_BY) {
            recovery->ended = entered_on(r, line);
        }
        if (stage.first)
            stages[recovery->stage_count++] = stage;
    }
    recovery->stages = stages;
}

/* --- restrictions --- */

/* Is there a restriction in the plan itself that a copy without the private file keeps to? */
static bool is_in_plan(const struct athlete *athlete, const struct recovery *recovery)
{
    for (size_t i = 0; i < athlete->avoid_count; i++) {
        const struct avoid *avoid = &athlete->avoids[i];
        bool same = recovery->joint >= 0 ? avoid->joint == recovery->joint : avoid->region == recovery->region;
        if (!avoid->private && !avoid->recovery && !avoid->ended && same &&
            (!avoid->sides || (recovery->sides && (avoid->sides & recovery->sides) == recovery->sides)))
            return true;
    }
    return false;
}

static void add_restrictions(struct resolver *r, struct athlete *athlete, const struct recovery *recovery,
                             struct avoid avoid, size_t *capacity)
{
    for (size_t i = 0; i < recovery->stage_count; i++) {
        const struct recovery_stage *stage = &recovery->stages[i];
        avoid.recovery = recovery;
        avoid.recovery_step = stage->step;
        avoid.since = stage->first;
        avoid.ended = i + 1 < recovery->stage_count ? recovery->stages[i + 1].first : recovery->ended;
        struct avoid *avoids =
            arena_grow(r->arena, (struct avoid *)athlete->avoids, athlete->avoid_count, capacity, sizeof *avoids);
        avoids[athlete->avoid_count++] = avoid;
        athlete->avoids = avoids;
    }
}

static void read_return(struct resolver *r, const struct node *node, struct athlete *athlete, size_t *capacity)
{
    struct recovery *recovery = arena_alloc(r->arena, sizeof *recovery);
    struct recovery_step *steps = arena_alloc(r->arena, MOST_RETURN_STEPS * sizeof *steps);
    struct avoid avoid = {.shown = node->first->text, .pattern = -1, .region = -1, .kind = -1, .joint = -1, .demand = -1,
                          .private = true, .span = node->span};
    if (!read_avoided_joint(r, node->first, resolver_fold(r, node->first), &avoid)) {
        struct finding *finding = diag_error(r->diag, DIAG_UNKNOWN_AVOID, node->first->span,
                                             "`%s` is not a joint or a body region", node->first->text);
        diag_help(r->diag, finding, "write it like `return left knee`");
        return;
    }
    *recovery = (struct recovery){.shown = avoid.shown, .joint = avoid.joint, .demand = avoid.demand,
                                  .region = avoid.region, .sides = avoid.sides, .steps = steps, .span = node->span};
    recovery->step_count = read_steps(r, node, steps);
    read_stages(r, node, recovery);
    if (!recovery->step_count && node->first->next)
        diag_error(r->diag, DIAG_BAD_PROTOCOL, node->span, "this way back has no step");
    if (!recovery->ended && !is_in_plan(athlete, recovery)) {
        struct finding *finding = diag_error(r->diag, DIAG_RETURN_NOT_IN_PLAN, node->span,
                                             "without this file, a copy of the plan would bar nothing for it");
        diag_help(r->diag, finding, "below `athlete %s`, write `avoid %s` and what `can do` at this step",
                  athlete->name.shown, avoid.shown);
    }
    if (resolver_is_full(r, &athlete->recoveries, athlete->recovery_count, MOST_STAGES, node->span, "an athlete", "ways back"))
        return;
    const struct recovery **recoveries = arena_grow(r->arena, athlete->recoveries, athlete->recovery_count,
                                                    &athlete->recovery_room, sizeof *recoveries);
    recoveries[athlete->recovery_count++] = recovery;
    athlete->recoveries = recoveries;
    add_restrictions(r, athlete, recovery, avoid, capacity);
}

void resolve_returns(struct resolver *r, const struct node *node, struct athlete *athlete)
{
    size_t capacity = arena_room(athlete->avoid_count);
    for (const struct node *line = node_find(node, STATEMENT_RETURN); line; line = node_next_alike(line)) {
        if (node->kind == STATEMENT_PRIVATE) {
            read_return(r, line, athlete, &capacity);
            continue;
        }
        struct finding *finding = diag_error(r->diag, DIAG_HEALTH_REASON, line->span,
                                             "a way back from an injury does not belong in a plan that others read");
        diag_help(r->diag, finding, "move it below `private %s`, and write here only what `avoid` has to say",
                  athlete->name.shown);
        diag_set_neutral(finding, "");
    }
}
