#include "model/resolver.h"

#include <string.h>

#include "base/text.h"

const char *resolver_fold(struct resolver *r, const struct node *node)
{
    return text_fold(r->arena, node->text, strlen(node->text));
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
    return (struct name){.shown = shown_name(r, name_node->text),
                         .folded = resolver_fold(r, name_node),
                         .span = name_node->span};
}

void resolver_unknown(struct resolver *r, const struct node *node, const char *what, const struct names *table)
{
    const char *folded = resolver_fold(r, node);
    const char *near = table ? names_nearest(table, folded) : NULL;
    struct finding *finding = diag_error(r->diag, arena_printf(r->arena, "unknown-%s", what), node->span,
                                         "there is no %s called `%s`", what, shown_name(r, node->text));
    if (near) {
        diag_help(r->diag, finding, "did you mean `%s`?", near);
        diag_fix(r->diag, finding, node->span, near);
    }
}

void *resolver_find(struct resolver *r, const struct node *node, const char *what, const struct names *table)
{
    void *thing = names_find(table, resolver_fold(r, node));
    if (!thing)
        resolver_unknown(r, node, what, table);
    return thing;
}

int resolver_word(struct resolver *r, const struct node *node, const struct vocabulary *words)
{
    const char *folded = resolver_fold(r, node);
    int index = vocabulary_find(words, folded);
    if (index >= 0)
        return index;
    struct finding *finding = diag_error(r->diag, "unknown-word", node->span, "`%s` is no %s", node->text,
                                         words->what);
    const char *near = NULL;
    unsigned least = 3;
    struct text all = {0};
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
    text_free(&all);
    return -1;
}

void resolver_declare(struct resolver *r, struct names *table, const struct name *name, void *thing,
                      const char *what)
{
    if (!names_add(table, name, thing))
        return;
    struct finding *finding = diag_error(r->diag, "declared-twice", name->span,
                                         "there is another %s called `%s`", what, name->shown);
    diag_note(r->diag, finding, names_declared(table, name->folded)->span, "the first one is here");
    diag_help(r->diag, finding, "give one of the two another name");
}

const struct node *resolver_single(struct resolver *r, const struct node *owner, enum node_kind kind)
{
    const struct node *first = node_find(owner, kind);
    for (const struct node *more = first ? node_next_alike(first) : NULL; more; more = node_next_alike(more)) {
        const char *phrases = node_kind_name(kind);
        struct finding *finding = diag_error(r->diag, "said-twice", more->span, "`%.*s` stands here twice",
                                             (int)strcspn(phrases, "|"), phrases);
        diag_note(r->diag, finding, first->span, "the first one is here");
    }
    return first;
}

bool resolver_yes(struct resolver *r, const struct node *statement)
{
    const char *folded = resolver_fold(r, statement->first);
    if (strcmp(folded, "yes") == 0)
        return true;
    if (strcmp(folded, "no") != 0)
        diag_error(r->diag, "unknown-word", statement->first->span, "this is `yes` or `no`");
    return false;
}

const char *resolver_text(const struct node *statement)
{
    return statement && statement->first ? statement->first->text : NULL;
}
