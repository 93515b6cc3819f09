#include "library/file_parts.h"

#include <string.h>

#include "base/text.h"

/* The kinds whose changes reach no further than the athletes who depend on them. */
static bool is_local(enum node_kind kind)
{
    return kind == STATEMENT_ATHLETE || kind == STATEMENT_PRIVATE || kind == STATEMENT_LOG ||
           kind == STATEMENT_SESSION || kind == STATEMENT_CAMP;
}

/* Logs have no names of their own: each is told apart by its place among the others. */
static uint64_t hash_name(const struct node *node)
{
    const struct node *name = node->kind == STATEMENT_LOG ? NULL : node_find(node, NODE_NAME);
    return text_hash((uint64_t)node->kind, name ? name->text : "", name ? strlen(name->text) : 0);
}

static struct parts parts_new(struct arena *arena, uint64_t content, size_t count)
{
    return (struct parts){.content = content,
                          .count = count,
                          .starts = arena_alloc(arena, count * sizeof(uint32_t)),
                          .marks = arena_alloc(arena, count * sizeof(struct part_mark))};
}

struct parts parts_read(struct arena *arena, const struct kept_file *file)
{
    const struct source *source = &file->source;
    const struct node *first = source->shelf ? NULL : file->tree->root->first;
    size_t count = 1;
    for (const struct node *node = first; node; node = node->next)
        count++;
    struct parts parts = parts_new(arena, file->content, count);
    parts.marks[0] = (struct part_mark){.bytes = source->shelf ? file->content : 0, .local = !source->shelf};
    size_t i = 1;
    for (const struct node *node = first; node; node = node->next, i++) {
        size_t end = node->next ? node->next->span.start : source->length;
        parts.starts[i] = node->span.start;
        parts.marks[i] = (struct part_mark){.name = hash_name(node),
                                            .bytes = text_hash(0, source->text + node->span.start, end - node->span.start),
                                            .local = is_local(node->kind)};
    }
    return parts;
}

struct parts parts_keep(struct arena *arena, const struct parts *parts)
{
    struct parts kept = parts_new(arena, parts->content, parts->count);
    memcpy(kept.starts, parts->starts, parts->count * sizeof *kept.starts);
    memcpy(kept.marks, parts->marks, parts->count * sizeof *kept.marks);
    return kept;
}

bool parts_mean_the_same(const struct parts *before, const struct parts *now)
{
    bool same = before->count == now->count;
    for (size_t i = 0; i < before->count && same; i++) {
        const struct part_mark *a = &before->marks[i], *b = &now->marks[i];
        same = a->name == b->name && a->local == b->local && (a->local || a->bytes == b->bytes);
    }
    return same;
}
