#include "syntax/tree.h"

#include <inttypes.h>
#include <string.h>

#include "base/text.h"

static const char *const kind_names[NODE_KIND_COUNT] = {
    [NODE_FILE] = "file",
#define STATEMENT(id, phrases, places, form, opens) [STATEMENT_##id] = phrases,
#include "syntax/kinds.def"
    [STATEMENT_END] = "",
#define VALUE(id, name) [NODE_##id] = name,
#include "syntax/kinds.def"
};

void tree_grow(struct tree *tree)
{
    enum { MORE = 32 };
    tree->spare = arena_alloc(tree->arena, MORE * sizeof *tree->spare);
    tree->spare_end = tree->spare + MORE;
}

struct node *node_add(struct node *parent, struct node *child)
{
    if (!child)
        return parent;
    child->parent = parent;
    if (parent->last)
        parent->last->next = child;
    else
        parent->first = child;
    parent->last = child;
    return parent;
}

bool node_is_statement(const struct node *node)
{
    return node->kind > NODE_FILE && node->kind < STATEMENT_END;
}

struct node *node_find(const struct node *node, enum node_kind kind)
{
    for (struct node *child = node->first; child; child = child->next)
        if (child->kind == kind)
            return child;
    return NULL;
}

bool node_is_broken(const struct node *node)
{
    const struct node *behind = node;
    while (behind->parent && !behind->next)
        behind = behind->parent;
    return node_find(node, NODE_BROKEN) || (behind->next && behind->next->kind == NODE_BROKEN);
}

struct node *node_next_alike(const struct node *node)
{
    for (struct node *other = node->next; other; other = other->next)
        if (other->kind == node->kind)
            return other;
    return NULL;
}

struct node *node_statement_at(struct node *root, uint32_t offset)
{
    struct node *found = root;
    for (struct node *inside = root; inside;) {
        found = inside;
        inside = NULL;
        for (struct node *child = found->first; child && child->span.start <= offset; child = child->next)
            if (node_is_statement(child))
                inside = child;
    }
    return found;
}

struct node *node_value_at(const struct node *statement, uint32_t offset)
{
    struct node *found = NULL;
    for (struct node *value = statement->first; value;) {
        bool inside = !node_is_statement(value) && value->span.start <= offset && offset <= value->span.end;
        found = inside ? value : found;
        value = inside ? value->first : value->next;
    }
    return found;
}

const char *node_kind_name(enum node_kind kind)
{
    return kind_names[kind];
}

static bool same_words(const char *a, const char *b)
{
    static const char white[] = " \t\r";
    while (*a && *b) {
        if (strchr(white, *a) && strchr(white, *b)) {
            a += strspn(a, white);
            b += strspn(b, white);
        } else if (*a++ != *b++) {
            return false;
        }
    }
    return *a == *b;
}

static bool has_text(const struct node *node)
{
    return node->kind == NODE_NAME || node->kind == NODE_TEXT || node->kind == NODE_REF || node->kind == NODE_TEMPO;
}

bool node_same(const struct node *a, const struct node *b)
{
    const struct node *top = a;
    for (;;) {
        if (a->kind != b->kind || a->code != b->code)
            return false;
        if (has_text(a) ? !same_words(a->text, b->text) : a->number != b->number)
            return false;
        if (!a->first != !b->first)
            return false;
        if (a->first) {
            a = a->first;
            b = b->first;
            continue;
        }
        while (a != top && !a->next && !b->next) {
            a = a->parent;
            b = b->parent;
        }
        if (a == top)
            return true;
        a = a->next;
        b = b->next;
        if (!a || !b)
            return false;
    }
}

static void dump_one(const struct node *node, unsigned depth, struct text *out)
{
    for (unsigned i = 0; i < depth; i++)
        text_add(out, "    ");
    const char *name = kind_names[node->kind];
    size_t length = strcspn(name, "|");
    if (length)
        text_add_bytes(out, name, length);
    else
        text_add(out, "line");
    if (node->code)
        text_addf(out, " code %d", node->code);
    if (has_text(node))
        text_addf(out, " \"%s\"", node->text);
    else if (node->number)
        text_addf(out, " %" PRId64, node->number);
    text_addf(out, " [%u-%u]\n", node->span.start, node->span.end);
}

void node_dump(const struct node *node, struct text *out)
{
    const struct node *top = node;
    unsigned depth = 0;
    for (;;) {
        dump_one(node, depth, out);
        if (node->first) {
            node = node->first;
            depth++;
            continue;
        }
        while (node != top && !node->next) {
            node = node->parent;
            depth--;
        }
        if (node == top)
            return;
        node = node->next;
    }
}
