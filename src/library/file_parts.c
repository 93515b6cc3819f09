#include "library/file_parts.h"

#include <string.h>

#include "base/text.h"

/* A line that cannot be read is an error, with which nothing is checked. */
static enum part_reach reach_of(enum node_kind kind)
{
    switch (kind) {
    case STATEMENT_ATHLETE:
    case STATEMENT_PRIVATE:
    case STATEMENT_CAMP: return PART_REACHES_SOME;
    case STATEMENT_SESSION:
    case STATEMENT_LOG:
    case NODE_BROKEN: return PART_COMES_AND_GOES;
    default: return PART_REACHES_ALL;
    }
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
    parts.marks[0] = (struct part_mark){.bytes = source->shelf ? file->content : 0,
                                        .reach = source->shelf ? PART_REACHES_ALL : PART_REACHES_SOME};
    size_t i = 1;
    for (const struct node *node = first; node; node = node->next, i++) {
        size_t end = node->next ? node->next->span.start : source->length;
        parts.starts[i] = node->span.start;
        parts.marks[i] = (struct part_mark){.name = hash_name(node),
                                            .bytes = text_hash(0, source->text + node->span.start, end - node->span.start),
                                            .reach = reach_of(node->kind)};
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

static bool is_same(const struct part_mark *a, const struct part_mark *b)
{
    return a->name == b->name && a->reach == b->reach && a->bytes == b->bytes;
}

/* Do BEFORE and NOW declare the same, part by part, and is all the same that can reach everybody? */
static bool changed_inside(const struct parts *before, const struct parts *now)
{
    bool same = before->count == now->count;
    for (size_t i = 0; i < before->count && same; i++) {
        const struct part_mark *a = &before->marks[i], *b = &now->marks[i];
        same = a->name == b->name && a->reach == b->reach && (a->reach != PART_REACHES_ALL || a->bytes == b->bytes);
    }
    return same;
}

static bool all_come_and_go(const struct part_mark *marks, size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (marks[i].reach != PART_COMES_AND_GOES)
            return false;
    return true;
}

bool parts_compare(const struct parts *before, const struct parts *now, struct parts_change *change)
{
    *change = (struct parts_change){.head = before->count};
    if (changed_inside(before, now))
        return true;
    size_t least = before->count < now->count ? before->count : now->count, head = 0, tail = 0;
    while (head < least && is_same(&before->marks[head], &now->marks[head]))
        head++;
    while (tail < least - head && is_same(&before->marks[before->count - 1 - tail], &now->marks[now->count - 1 - tail]))
        tail++;
    *change = (struct parts_change){head, before->count - head - tail, now->count - head - tail};
    return all_come_and_go(before->marks + head, change->gone) && all_come_and_go(now->marks + head, change->come);
}

void parts_drop(struct parts *parts, const struct parts_change *change)
{
    size_t behind = change->head + change->gone, rest = parts->count - behind;
    memmove(parts->starts + change->head, parts->starts + behind, rest * sizeof *parts->starts);
    memmove(parts->marks + change->head, parts->marks + behind, rest * sizeof *parts->marks);
    parts->count -= change->gone;
}
