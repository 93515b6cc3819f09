#include "library/file_parts.h"

#include <string.h>

#include "base/text.h"

/* A line that cannot be read is an error, and then nothing is checked. */
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

/* Logs have no names of their own: each is identified by its place among the others. */
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
                          .marks = arena_alloc(arena, count * sizeof(struct part_mark)),
                          .firsts = arena_alloc(arena, (count + 1) * sizeof(size_t))};
}

/* --- lines --- */

/* The lines of a file that say something, one after the other. */
struct line_reader {
    struct arena *arena;
    const struct source *source;
    const struct comment *comment, *last; /* the next one, and the one after the last */
    uint32_t *lines;
    size_t count, capacity;
};

/* Where the line at START ends, without its comment and the blanks before it. */
static size_t words_end(struct line_reader *reader, size_t start, size_t end)
{
    const char *text = reader->source->text;
    while (reader->comment < reader->last && reader->comment->span.start < start)
        reader->comment++;
    if (reader->comment < reader->last && reader->comment->span.start < end)
        end = reader->comment->span.start;
    while (end > start && strchr(" \t\r", text[end - 1]))
        end--;
    return end;
}

/* A hash of the words of all lines from START to END, which are added to those of READER. */
static uint64_t read_lines(struct line_reader *reader, size_t start, size_t end)
{
    const char *text = reader->source->text;
    uint64_t hash = 0;
    while (start < end) {
        const char *found = memchr(text + start, '\n', end - start);
        size_t next = found ? (size_t)(found - text) + 1 : end;
        size_t behind = words_end(reader, start, found ? next - 1 : end);
        if (behind > start) {
            hash = text_hash(text_hash(hash, text + start, behind - start), "\n", 1);
            reader->lines = arena_grow(reader->arena, reader->lines, reader->count, &reader->capacity,
                                       sizeof *reader->lines);
            reader->lines[reader->count++] = (uint32_t)start;
        }
        start = next;
    }
    return hash;
}

/* --- parts --- */

static struct parts shelf_parts(struct arena *arena, const struct kept_file *file)
{
    struct parts parts = parts_new(arena, file->content, 1);
    parts.marks[0] = (struct part_mark){.words = file->content, .reach = PART_REACHES_ALL};
    return parts;
}

struct parts parts_read(struct arena *arena, const struct kept_file *file)
{
    if (file->source.shelf)
        return shelf_parts(arena, file);
    const struct tree *tree = file->tree;
    const struct node *first = tree->root->first;
    size_t count = 1;
    for (const struct node *node = first; node; node = node->next)
        count++;
    struct parts parts = parts_new(arena, file->content, count);
    struct line_reader reader = {.arena = arena, .source = &file->source, .comment = tree->comments,
                                 .last = tree->comments + tree->comment_count};
    parts.marks[0] = (struct part_mark){.reach = PART_REACHES_SOME};
    parts.marks[0].words = read_lines(&reader, 0, first ? first->span.start : file->source.length);
    size_t i = 1;
    for (const struct node *node = first; node; node = node->next, i++) {
        parts.firsts[i] = reader.count;
        parts.starts[i] = node->span.start;
        parts.marks[i] = (struct part_mark){.name = hash_name(node), .reach = reach_of(node->kind)};
        parts.marks[i].words =
            read_lines(&reader, node->span.start, node->next ? node->next->span.start : file->source.length);
    }
    parts.firsts[count] = reader.count;
    parts.lines = reader.lines;
    return parts;
}

struct parts parts_keep(struct arena *arena, const struct parts *parts)
{
    struct parts kept = parts_new(arena, parts->content, parts->count);
    size_t lines = parts->firsts[parts->count];
    memcpy(kept.starts, parts->starts, parts->count * sizeof *kept.starts);
    memcpy(kept.marks, parts->marks, parts->count * sizeof *kept.marks);
    memcpy(kept.firsts, parts->firsts, (parts->count + 1) * sizeof *kept.firsts);
    kept.lines = arena_alloc(arena, (lines + 1) * sizeof *kept.lines);
    if (lines)
        memcpy(kept.lines, parts->lines, lines * sizeof *kept.lines);
    return kept;
}

/* --- changes --- */

static bool is_same(const struct part_mark *a, const struct part_mark *b)
{
    return a->name == b->name && a->reach == b->reach && a->words == b->words;
}

/* Do BEFORE and NOW declare the same, part by part, and is everything unchanged that can reach everybody? */
static bool changed_inside(const struct parts *before, const struct parts *now)
{
    bool same = before->count == now->count;
    for (size_t i = 0; i < before->count && same; i++) {
        const struct part_mark *a = &before->marks[i], *b = &now->marks[i];
        same = a->name == b->name && a->reach == b->reach && (a->reach != PART_REACHES_ALL || a->words == b->words);
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

bool parts_before(const struct parts_change *change, size_t part, size_t *before)
{
    if (part >= change->head && part < change->head + change->come)
        return false;
    *before = part < change->head ? part : part - change->come + change->gone;
    return true;
}

static void add_place(struct file_shift *shift, uint32_t *before, uint32_t *now, uint32_t was, uint32_t is)
{
    if (shift->count && before[shift->count - 1] == was)
        return;
    before[shift->count] = was;
    now[shift->count++] = is;
}

struct file_shift parts_shift(struct arena *arena, const struct parts *before, const struct parts *now,
                              const struct parts_change *change)
{
    size_t most = before->count + before->firsts[before->count];
    uint32_t *was = arena_alloc(arena, most * sizeof *was), *is = arena_alloc(arena, most * sizeof *is);
    struct file_shift shift = {was, is, 0};
    for (size_t part = 0; part < now->count; part++) {
        size_t old;
        if (!parts_before(change, part, &old))
            continue;
        add_place(&shift, was, is, before->starts[old], now->starts[part]);
        if (!is_same(&before->marks[old], &now->marks[part]))
            continue;
        size_t from = before->firsts[old], to = now->firsts[part];
        for (size_t i = 0; from + i < before->firsts[old + 1]; i++)
            add_place(&shift, was, is, before->lines[from + i], now->lines[to + i]);
    }
    return shift;
}
