/* Which parts of a plan are for the coach alone: private files, `private` blocks, and the lines of an athlete that are
 * about health. Messages about them are worded for the coach's own screen, and reports leave them out. */
#include <string.h>

#include "resolve/resolver.h"

/* Statements of an athlete or a log that reveal who is hurt or barred, how old or how heavy. `out since` and `age
 * group` are not among them: they are what the plan says instead. */
static bool tells_health(int kind)
{
    switch (kind) {
    case STATEMENT_AVOID:
    case STATEMENT_HOLD_HEAD:
    case STATEMENT_HEAD_KNOCK:
    case STATEMENT_MORNING:
    case STATEMENT_PAIN:
    case STATEMENT_RETURN:
    case STATEMENT_SUSPENDED:
    case STATEMENT_BORN:
    case STATEMENT_BODY_MASS:
        return true;
    default:
        return false;
    }
}

/* Where the lines below NODE end: at the next line like it, or where its own heading's part does. */
static uint32_t end_of(const struct node *node, uint32_t end)
{
    for (const struct node *next = node->next; next; next = next->next)
        if (node_is_statement(next) || next->kind == NODE_BROKEN)
            return next->span.start;
    return end;
}

/* A line that could not be read may have been any of them. */
static void keep_lines(struct resolver *r, const struct node *athlete, uint32_t end)
{
    for (const struct node *line = athlete->first; line; line = line->next) {
        bool unread = line->kind == NODE_BROKEN && (line->code == 0 || tells_health(line->code));
        if (unread || tells_health((int)line->kind))
            diag_keep_private(r->diag, (struct span){line->span.file, line->span.start, end_of(line, end)});
    }
}

static bool is_called_private(const char *path)
{
    const char *slash = strrchr(path, '/');
    return strcmp(slash ? slash + 1 : path, "private.bell") == 0;
}

/* A file of that name, or one that contains nothing else. */
static bool is_private_file(const struct source *source, const struct tree *tree)
{
    bool any = false, others = false;
    for (const struct node *node = tree->root->first; node; node = node->next) {
        any = any || node->kind == STATEMENT_PRIVATE;
        others = others || (node->kind != STATEMENT_PRIVATE && node->kind != NODE_BROKEN);
    }
    return is_called_private(source->path) || (any && !others);
}

void resolve_private_parts(struct resolver *r, const struct tree *tree)
{
    const struct source *source = &r->sources->items[tree->file];
    uint32_t end = (uint32_t)source->length + 1; /* what is missing at the end of a file is reported there */
    if (is_private_file(source, tree)) {
        diag_keep_private(r->diag, (struct span){tree->file, 0, end});
        return;
    }
    for (const struct node *node = tree->root->first; node; node = node->next) {
        if (node->kind == STATEMENT_PRIVATE)
            diag_keep_private(r->diag, (struct span){tree->file, node->span.start, end_of(node, end)});
        else if (node->kind == STATEMENT_ATHLETE || node->kind == STATEMENT_LOG)
            keep_lines(r, node, end_of(node, end));
    }
}
