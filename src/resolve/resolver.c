#include "resolve/resolver.h"

#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include "base/text.h"
#include "base/unicode.h"

const char *resolver_written(struct resolver *r, struct span span)
{
    const struct source *source = &r->sources->items[span.file];
    return arena_copy(r->arena, source->text + span.start, span.end - span.start);
}

bool resolver_whole_range(struct resolver *r, const struct node *node, int most, const char *what, int *low, int *high)
{
    const struct node *first = node->kind == NODE_RANGE ? node->first : node;
    const struct node *last = node->kind == NODE_RANGE ? node->last : node;
    int64_t a = first->number, b = last->number, top = most * INT64_C(1000);
    if (node->kind == NODE_MAX || first->code == 1 || a % 1000 || b % 1000 || a < 1000 || b < 1000 || a > top ||
        b > top) {
        diag_error(r->diag, DIAG_BAD_COUNT, node->span, "%s are whole numbers from 1 to %d", what, most);
        return false;
    }
    *low = (int)(a / 1000);
    *high = (int)(b / 1000);
    if (a <= b)
        return true;
    struct finding *finding =
        diag_error(r->diag, DIAG_RANGE_BACKWARD, node->span, "a range runs from the smaller to the larger");
    diag_fix(r->diag, finding, node->span, arena_printf(r->arena, "%d-%d", *high, *low));
    return false;
}

/* Most names are written as they are compared. */
const char *resolver_folded(struct resolver *r, const char *text)
{
    return text_is_folded(text) ? text : text_fold(r->arena, text, strlen(text));
}

const char *resolver_fold(struct resolver *r, const struct node *node)
{
    return resolver_folded(r, node->text);
}

/* The name as shown: its runs of white space made one space. */
static const char *shown_name(struct resolver *r, const char *text)
{
    char *shown = arena_alloc(r->arena, strlen(text) + 1), *out = shown;
    for (const char *p = text; *p; p++) {
        bool space = *p == ' ' || *p == '\t';
        if (space && out > shown && out[-1] == ' ')
            continue;
        *out++ = space ? ' ' : *p;
    }
    *out = '\0';
    return shown;
}

struct name resolver_name(struct resolver *r, const struct node *name_node)
{
    const char *folded = resolver_fold(r, name_node);
    return (struct name){.shown = folded == name_node->text ? folded : shown_name(r, name_node->text),
                         .folded = folded,
                         .span = name_node->span};
}

/* Where THING stands among the doubts, a table of a power of two that is never full, or where it would. */
static size_t poison_at(const void **poisoned, size_t capacity, const void *thing)
{
    size_t at = (size_t)((uintptr_t)thing / sizeof(max_align_t) * 0x9e3779b1u) & (capacity - 1);
    while (poisoned[at] && poisoned[at] != thing)
        at = (at + 1) & (capacity - 1);
    return at;
}

static void grow_poisoned(struct resolver *r)
{
    size_t capacity = r->poisoned_capacity ? 2 * r->poisoned_capacity : 16;
    const void **poisoned = arena_alloc(r->arena, capacity * sizeof *poisoned);
    for (size_t i = 0; i < r->poisoned_capacity; i++)
        if (r->poisoned[i])
            poisoned[poison_at(poisoned, capacity, r->poisoned[i])] = r->poisoned[i];
    r->poisoned = poisoned;
    r->poisoned_capacity = capacity;
}

void resolver_poison(struct resolver *r, const void *thing, struct span span)
{
    resolver_mark_unclear(r, span);
    if (resolver_is_poisoned(r, thing))
        return;
    if (2 * r->poisoned_count >= r->poisoned_capacity)
        grow_poisoned(r);
    r->poisoned[poison_at(r->poisoned, r->poisoned_capacity, thing)] = thing;
    r->poisoned_count++;
}

bool resolver_is_poisoned(const struct resolver *r, const void *thing)
{
    return r->poisoned_count && r->poisoned[poison_at(r->poisoned, r->poisoned_capacity, thing)];
}

bool resolver_is_full(struct resolver *r, const void *list, size_t count, size_t most, struct span span, const char *whose,
                      const char *what)
{
    if (count < most)
        return false;
    if (!resolver_is_poisoned(r, list))
        diag_error(r->diag, DIAG_TOO_MANY_ENTRIES, span, "%s has at most %zu %s", whose, most, what);
    resolver_poison(r, list, span);
    return true;
}

bool resolver_is_too_large(struct resolver *r, struct span span)
{
    enum { MOST_MEGABYTES = 1024 };
    if (arena_used(r->arena) >> 20 < MOST_MEGABYTES)
        return false;
    if (!r->large)
        diag_error(r->diag, DIAG_PLAN_TOO_LARGE, span,
                   "with every session worked out for every athlete, the plan takes more than the %d MB allowed; it is "
                   "read only up to here",
                   MOST_MEGABYTES);
    r->large = true;
    return true;
}

size_t resolver_errors(const struct resolver *r)
{
    return diag_count(r->diag, SEVERITY_ERROR);
}

void resolver_filled(struct resolver *r, const struct node *statement)
{
    for (const struct node *child = statement->first; child; child = child->next)
        if (node_is_statement(child))
            return;
    if (node_is_broken(statement))
        return;
    struct finding *finding = diag_error(r->diag, DIAG_NOTHING_BELOW, statement->span, "there is nothing below `%s`",
                                         resolver_written(r, statement->span));
    diag_help(r->diag, finding, "indent the lines that belong to it, or leave it out");
}

/* What a name that is nowhere declared can be given. */
static void help_declare(struct resolver *r, struct finding *finding, const char *what, const char *name)
{
    if (strcmp(what, "exercise") == 0)
        diag_help(r->diag, finding, "look for it with `bellsheet find`, or declare it with a line `exercise %s`", name);
    else
        diag_help(r->diag, finding, "check the spelling, or declare it with a line `%s %s`", what, name);
}

/* What is reported of a name that declares no WHAT. */
static enum diagnostic unknown(const char *what)
{
    static const struct {
        const char *what;
        enum diagnostic diagnostic;
    } all[] = {{"exercise", DIAG_UNKNOWN_EXERCISE}, {"athlete", DIAG_UNKNOWN_ATHLETE},
               {"session", DIAG_UNKNOWN_SESSION},   {"gym", DIAG_UNKNOWN_GYM},
               {"activity", DIAG_UNKNOWN_ACTIVITY}, {"limits", DIAG_UNKNOWN_LIMITS},
               {"test", DIAG_UNKNOWN_TEST}};
    size_t i = 0;
    while (strcmp(all[i].what, what) != 0)
        i++;
    return all[i].diagnostic;
}

static void did_you_mean(struct resolver *r, struct finding *finding, const struct node *node, const char *name)
{
    diag_help(r->diag, finding, "did you mean `%s`?", name);
    diag_fix(r->diag, finding, node->span, name);
}

bool resolver_propose_near(struct resolver *r, struct finding *finding, const struct node *node,
                           struct names *const *tables, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        const char *near = names_nearest(tables[i], resolver_fold(r, node));
        if (near)
            return did_you_mean(r, finding, node, near), true;
    }
    return false;
}

bool resolver_propose_alike(struct resolver *r, struct finding *finding, const struct node *node,
                            struct names *const *tables, size_t count)
{
    const char *alike[NAMES_ALIKE];
    for (size_t i = 0; i < count; i++) {
        size_t found = names_alike(tables[i], resolver_fold(r, node), alike);
        if (found == 1)
            return did_you_mean(r, finding, node, alike[0]), true;
        if (!found)
            continue;
        struct text list = {.arena = r->arena};
        for (size_t k = 0; k < found; k++)
            text_addf(&list, "%s`%s`", k ? ", " : "", alike[k]);
        diag_help(r->diag, finding, "did you mean one of these: %s?", text_keep(r->arena, &list));
        return true;
    }
    return false;
}

bool resolver_propose(struct resolver *r, struct finding *finding, const struct node *node, struct names *const *tables,
                      size_t count)
{
    return resolver_propose_near(r, finding, node, tables, count) ||
           resolver_propose_alike(r, finding, node, tables, count);
}

void resolver_unknown(struct resolver *r, const struct node *node, const char *what, struct names *table)
{
    if (resolver_is_poisoned(r, table)) {
        resolver_mark_unclear(r, node->span);
        return;
    }
    resolver_poison(r, r->programme, node->span);
    const char *shown = shown_name(r, node->text);
    bool several = strcmp(what, "limits") == 0;
    struct finding *finding = diag_error(r->diag, unknown(what), node->span,
                                         "there %s %s called `%s`", several ? "are no" : "is no", what, shown);
    if (!resolver_propose(r, finding, node, &table, table ? 1 : 0))
        help_declare(r, finding, what, shown);
}

bool resolver_missing_colon(struct resolver *r, const struct node *name, const struct names *table, const char *what)
{
    const char *text = name->text;
    for (const char *p = strpbrk(text, "0123456789@"); p; p = strpbrk(p + 1, "0123456789@")) {
        if (p == text || !strchr(" :-=", p[-1]))
            continue;
        size_t length = (size_t)(p - text);
        while (length && strchr(" :-=", text[length - 1]))
            length--;
        if (!names_find(table, text_fold(r->arena, text, length)))
            continue;
        struct span at = {name->span.file, name->span.start + (uint32_t)length,
                          name->span.start + (uint32_t)(p - text)};
        bool colon = memchr(text + length, ':', (size_t)(p - text) - length) != NULL;
        struct finding *finding = diag_error(r->diag, DIAG_MISSING_COLON, at, "%s between %s",
                                             colon ? "a space is missing after the colon" : "a colon is missing", what);
        diag_fix(r->diag, finding, at, " : ");
        diag_help(r->diag, finding, "write `%.*s : %s`", (int)length, text, p);
        return true;
    }
    return false;
}

void *resolver_find(struct resolver *r, const struct node *node, const char *what, struct names *table)
{
    void *thing = names_find(table, node->text); /* as it is compared, most often */
    if (!thing)
        thing = names_find(table, resolver_fold(r, node));
    if (!thing)
        resolver_unknown(r, node, what, table);
    return thing;
}

int resolver_word(struct resolver *r, const struct node *node, const struct vocabulary *words)
{
    int index = vocabulary_find(words, node->text); /* as it is compared, most often */
    if (index >= 0)
        return index;
    const char *folded = resolver_fold(r, node);
    index = vocabulary_find(words, folded);
    if (index >= 0)
        return index;
    struct finding *finding = diag_error(r->diag, DIAG_UNKNOWN_WORD, node->span, "`%s` is not a %s", node->text,
                                         words->what);
    const char *near = NULL;
    unsigned least = 3;
    struct text all = {.arena = r->arena};
    for (size_t i = 0; i < words->count; i++) {
        unsigned distance = text_distance(folded, words->names[i], 3);
        if (distance < least) {
            least = distance;
            near = words->names[i];
        }
        text_addf(&all, "%s%s", all.length ? ", " : "", words->names[i]);
    }
    if (near)
        diag_fix(r->diag, finding, node->span, near);
    else
        diag_help(r->diag, finding, "one of: %s", text_get(&all));
    return -1;
}

void resolver_report_comma(struct resolver *r, const struct name *name, const char *what)
{
    static const char *const listed[] = {"athlete", "session", "exercise", "activity", "test"};
    bool in_lists = false;
    for (size_t i = 0; i < sizeof listed / sizeof *listed; i++)
        in_lists = in_lists || strcmp(what, listed[i]) == 0;
    if (!in_lists || !strchr(name->shown, ','))
        return;
    struct finding *finding = diag_error(r->diag, DIAG_COMMA_IN_NAME, name->span,
                                         "the name of %s %s cannot contain a comma: commas separate the items of a "
                                         "list",
                                         *what == 's' ? "a" : "an", what);
    diag_help(r->diag, finding, "leave the comma out; if you mean two, give each a line of its own");
}

/* Do two names look the same, whose looks are the same but for capitals? Whoever writes in one alphabet tells Ian from Lan;
 * where one has letters of another among them, capitals hide it as well. */
static bool looks_alike(struct resolver *r, const struct name *a, const struct name *b)
{
    return unicode_is_latin(a->shown) != unicode_is_latin(b->shown) ||
           strcmp(unicode_look(r->arena, a->shown), unicode_look(r->arena, b->shown)) == 0;
}

/* Most names look like themselves, and are found where they are declared; the others are kept besides. */
const struct name *resolver_find_alike(struct resolver *r, const struct names *table, const struct name *name,
                                       const void *thing, const char *what)
{
    const char *look = unicode_look(r->arena, name->shown);
    bool like_others = look != name->shown;
    if (!like_others && !r->look_count)
        return NULL;
    look = resolver_folded(r, look);
    const char *key = arena_printf(r->arena, "%s %s", what, look);
    const struct name *same = names_declared(r->looks, key);
    if (same && names_find(r->looks, key) != thing && looks_alike(r, same, name))
        return same;
    if (!like_others)
        return NULL;
    struct name *kept = arena_alloc(r->arena, sizeof *kept);
    *kept = (struct name){.shown = name->shown, .folded = key, .span = name->span};
    names_add(r->looks, kept, (void *)thing);
    r->look_count++;
    same = names_declared(table, look);
    return same && names_find(table, look) != thing && looks_alike(r, same, name) ? same : NULL;
}

void resolver_report_alike(struct resolver *r, const struct name *name, const struct name *first, const char *what)
{
    struct finding *finding = diag_error(r->diag, DIAG_LOOKS_ALIKE, name->span, "`%s` looks the same as the %s `%s`",
                                         name->shown, what, first->shown);
    diag_note(r->diag, finding, first->span, "the first one is here");
    diag_help(r->diag, finding, "give one of the two another name");
}

void resolver_declare(struct resolver *r, struct names *table, const struct name *name, void *thing,
                      const char *what)
{
    resolver_report_comma(r, name, what);
    bool twice = names_add(table, name, thing) != NULL;
    const struct name *first = twice ? names_declared(table, name->folded)
                                     : resolver_find_alike(r, table, name, thing, what);
    if (!first)
        return;
    if (!twice) {
        resolver_report_alike(r, name, first, what);
        return;
    }
    struct finding *finding =
        diag_error(r->diag, DIAG_DECLARED_TWICE, name->span, "there is another %s called `%s`", what, name->shown);
    diag_note(r->diag, finding, first->span, "the first one is here");
    diag_help(r->diag, finding, "give one of the two another name");
}

const struct node *resolver_single(struct resolver *r, const struct node *owner, enum node_kind kind)
{
    const struct node *first = node_find(owner, kind);
    for (const struct node *more = first ? node_next_alike(first) : NULL; more; more = node_next_alike(more)) {
        const char *phrases = node_kind_name(kind);
        struct finding *finding = diag_error(r->diag, DIAG_SAID_TWICE, more->span, "`%.*s` appears here twice",
                                             (int)strcspn(phrases, "|"), phrases);
        diag_note(r->diag, finding, first->span, "the first one is here");
    }
    return first;
}

struct said resolver_said(const struct node *owner)
{
    struct said said = {.owner = owner};
    for (const struct node *child = owner->first; child; child = child->next) {
        if (!node_is_statement(child))
            continue;
        if (said.first[child->kind])
            said.twice[child->kind] = true;
        else
            said.first[child->kind] = child;
    }
    return said;
}

const struct node *resolver_said_once(struct resolver *r, const struct said *said, enum node_kind kind)
{
    return said->twice[kind] ? resolver_single(r, said->owner, kind) : said->first[kind];
}

size_t resolver_count(const struct node *first)
{
    size_t count = 0;
    for (; first; first = first->next)
        count++;
    return count;
}

bool resolver_yes(struct resolver *r, const struct node *statement)
{
    const char *folded = resolver_fold(r, statement->first);
    if (strcmp(folded, "yes") == 0)
        return true;
    if (strcmp(folded, "no") != 0)
        diag_error(r->diag, DIAG_UNKNOWN_WORD, statement->first->span, "this is `yes` or `no`");
    return false;
}

const char *resolver_text(const struct node *statement)
{
    return statement ? statement->first->text : NULL;
}
