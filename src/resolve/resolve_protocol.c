/* A protocol of return: its steps, and what each of them names. */
#include <string.h>

#include "base/text.h"
#include "model/barred.h"
#include "resolve/resolver.h"

enum { MOST_STEPS = 32, MOST_DAYS = 365 };

static bool is_word(struct resolver *r, const struct node *name, const char *word)
{
    return strcmp(resolver_fold(r, name), word) == 0;
}

/* The nearest name of what a step can name, or NULL. */
static const char *nearest_work(const struct resolver *r, const char *folded)
{
    const struct vocabulary *const words[] = {&patterns, &exercise_kinds};
    for (size_t w = 0; w < sizeof words / sizeof *words; w++)
        for (size_t i = 0; i < words[w]->count; i++)
            if (text_distance(folded, words[w]->names[i], 2) <= 1)
                return words[w]->names[i];
    const char *near = names_nearest(r->exercises, folded);
    return near ? near : names_nearest(r->activities, folded);
}

/* One name may be an exercise's, an activity's and a pattern's: all of them are meant. */
static bool read_permit(struct resolver *r, const struct node *name, struct permit *permit)
{
    const char *folded = resolver_fold(r, name);
    permit->exercise = names_find(r->exercises, folded);
    permit->activity = names_find(r->activities, folded);
    permit->pattern = vocabulary_find(&patterns, folded);
    permit->kind = vocabulary_find(&exercise_kinds, folded);
    permit->kit = names_find(r->kit, folded) ? folded : NULL;
    permit->training = is_word(r, name, "training") || is_word(r, name, "everything");
    if (permit->exercise || permit->activity || permit->pattern >= 0 || permit->kind >= 0 || permit->kit ||
        permit->training)
        return true;
    if (resolver_is_poisoned(r, r->exercises) || resolver_is_poisoned(r, r->activities)) {
        resolver_mark_unclear(r, name->span);
        return false;
    }
    struct finding *finding = diag_error(r->diag, DIAG_UNKNOWN_WORK, name->span,
                                         "`%s` is not an exercise, activity, pattern, kind or kit", name->text);
    const char *near = nearest_work(r, folded);
    if (near) {
        diag_help(r->diag, finding, "did you mean `%s`?", near);
        diag_fix(r->diag, finding, name->span, near);
    }
    return false;
}

/* The RPE of `at most RPE 3`, or 0 if the line has none. */
static milli read_cap(struct resolver *r, const struct node *line)
{
    const struct node *bound = node_find(line, NODE_BOUND);
    if (!bound)
        return 0;
    const struct node *effort = node_find(bound, NODE_EFFORT);
    const struct figures *figures = effort ? figures_read(r, effort->first) : NULL;
    if (figures && figures->count == 1 && figures->values[0].high >= 1000 && figures->values[0].high <= 10000)
        return figures->values[0].high;
    struct finding *finding = diag_error(r->diag, DIAG_BAD_PROTOCOL, bound->span, "a cap on work is an RPE from 1 to "
                                                                                  "10");
    diag_help(r->diag, finding, "write it like `at most RPE 3`");
    return 1000; /* what is not understood allows as little as can be */
}

/* All that the lines of KIND below STEP name. `nothing` is said for the reader. */
static struct permits read_permits(struct resolver *r, const struct node *step, enum node_kind kind)
{
    struct permit *items = NULL;
    size_t count = 0, capacity = 0;
    for (const struct node *line = node_find(step, kind); line; line = node_next_alike(line)) {
        milli cap = read_cap(r, line);
        for (const struct node *name = node_find(line, NODE_NAME); name; name = node_next_alike(name)) {
            struct permit permit = {.cap = cap};
            if (is_word(r, name, "nothing") || !read_permit(r, name, &permit))
                continue;
            items = arena_grow(r->arena, items, count, &capacity, sizeof *items);
            items[count++] = permit;
        }
    }
    return (struct permits){items, count};
}

/* `at least 1 day` below OWNER; LESS if it is not there. */
static int read_days(struct resolver *r, const struct node *owner, int less)
{
    const struct node *line = owner ? resolver_single(r, owner, STATEMENT_AT_LEAST) : NULL;
    if (!line)
        return less;
    const struct node *when = line->first;
    const struct node *figure = when->code == WHEN_LENGTH ? when->first : NULL;
    int64_t days = figure && figure->first->kind == NODE_NUMBER ? figure->first->number : 0;
    if (figure && figure->code == MEASURE_WEEKS)
        days *= 7;
    if (days >= 1000 && days % 1000 == 0 && days <= MOST_DAYS * INT64_C(1000))
        return (int)(days / 1000);
    struct finding *finding =
        diag_error(r->diag, DIAG_BAD_PROTOCOL, when->span, "a step lasts whole days, from 1 to %d", MOST_DAYS);
    diag_help(r->diag, finding, "write it like `at least 1 day`");
    return less;
}

/* The place of the step that NAME names among the first COUNT of PROTOCOL; reports it and returns -1 otherwise. */
static int earlier_step(struct resolver *r, const struct node *name, const struct protocol_step *steps, size_t count)
{
    const char *folded = resolver_fold(r, name);
    for (size_t i = 0; i < count; i++)
        if (strcmp(steps[i].name, folded) == 0)
            return (int)i;
    diag_error(r->diag, DIAG_BAD_PROTOCOL, name->span, "there is no step `%s` above this one", name->text);
    return -1;
}

/* Under 18: a step may last longer, and a doctor may have to enter it. */
static void read_young(struct resolver *r, const struct node *node, struct protocol_step *step)
{
    const struct node *young = resolver_single(r, node, STATEMENT_UNDER_18);
    step->young_days = read_days(r, young, step->days);
    const struct node *by = young ? resolver_single(r, young, STATEMENT_REACHED_BY) : NULL;
    step->young_doctor = by != NULL;
    if (by && !is_word(r, by->first, "doctor"))
        diag_error(r->diag, DIAG_BAD_PROTOCOL, by->first->span, "the only form is `reached by doctor`");
    if (young)
        resolver_filled(r, young);
}

/* What must be true before the step begins. */
static void read_criteria(struct resolver *r, const struct node *node, struct protocol_step *step)
{
    const struct node *when = resolver_single(r, node, STATEMENT_WHEN);
    for (const struct node *name = when ? when->first : NULL; name; name = name->next) {
        if (is_word(r, name, "agreed by doctor"))
            step->wants_agreed = true;
        else
            diag_error(r->diag, DIAG_BAD_PROTOCOL, name->span, "the only form is `when agreed by doctor`");
    }
}

void step_title(struct resolver *r, const char *text, const char **name, const char **title)
{
    size_t length = strcspn(text, " \t");
    const char *behind = text + length + strspn(text + length, " \t");
    *name = text_fold(r->arena, text, length);
    *title = arena_copy(r->arena, behind, strlen(behind));
}

struct permits step_permits(struct resolver *r, const struct node *step)
{
    return read_permits(r, step, STATEMENT_ALLOWS);
}

static bool allows_everything(struct resolver *r, const struct node *node)
{
    for (const struct node *line = node_find(node, STATEMENT_ALLOWS); line; line = node_next_alike(line))
        for (const struct node *name = node_find(line, NODE_NAME); name; name = node_next_alike(name))
            if (is_word(r, name, "everything"))
                return true;
    return false;
}

static void read_step(struct resolver *r, const struct node *node, struct protocol_step *steps, size_t count)
{
    struct protocol_step *step = &steps[count];
    *step = (struct protocol_step){.back = -1, .span = node->span};
    step_title(r, node->first->text, &step->name, &step->title);
    for (size_t i = 0; i < count; i++)
        if (strcmp(steps[i].name, step->name) == 0)
            diag_error(r->diag, DIAG_BAD_PROTOCOL, node->first->span, "there is another step `%s` above", step->name);
    step->allows = read_permits(r, node, STATEMENT_ALLOWS);
    step->if_agreed = read_permits(r, node, STATEMENT_IF_AGREED);
    const struct node *bars = resolver_single(r, node, STATEMENT_STEP_BARS);
    step->bars = bars ? read_permits(r, node, STATEMENT_STEP_BARS) : (struct permits){0};
    step->days = read_days(r, node, 1);
    read_young(r, node, step);
    read_criteria(r, node, step);
    const struct node *back = resolver_single(r, node, STATEMENT_BACK_TO);
    step->back = back ? earlier_step(r, back->first, steps, count) : -1;
    step->end = allows_everything(r, node);
}

void resolve_protocol(struct resolver *r, const struct node *node, struct protocol *protocol)
{
    size_t count = 0;
    struct protocol_step *steps = arena_alloc(r->arena, MOST_STEPS * sizeof *steps);
    resolver_filled(r, node);
    for (const struct node *line = node_find(node, STATEMENT_STEP); line; line = node_next_alike(line)) {
        if (count == MOST_STEPS) {
            diag_error(r->diag, DIAG_BAD_PROTOCOL, line->span, "a protocol has at most %d steps", MOST_STEPS);
            break;
        }
        read_step(r, line, steps, count++);
    }
    if (!count && node->first->next)
        diag_error(r->diag, DIAG_BAD_PROTOCOL, node->span, "`%s` has no step", protocol->name.shown);
    protocol->steps = steps;
    protocol->step_count = count;
}
