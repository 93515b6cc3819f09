#include "lsp/lifted.h"
#include "model/programme.h"

#include <string.h>

/* --- lines --- */

/* The first percentage that is a load among the values below PARENT, or NULL. */
static const struct node *find_percentage(const struct node *parent)
{
    for (const struct node *at = parent->first; at; at = at->next) {
        if (node_is_statement(at))
            continue;
        if (at->kind == NODE_LOAD && at->code == LOAD_WORD_FIGURE && at->first && at->first->code == MEASURE_PERCENT)
            return at;
        const struct node *inner = find_percentage(at);
        if (inner)
            return inner;
    }
    return NULL;
}

static void add_lines(struct arena *arena, const struct focus *focus, const struct node *parent, size_t first, size_t last,
                      struct lifted_lines *lines)
{
    const struct page *page = &focus->page;
    for (const struct node *at = parent->first; at; at = at->next) {
        if (!node_is_statement(at))
            continue;
        const struct node *load = find_percentage(at);
        size_t length, line = page_caret(page, at->span.start).line;
        const char *text = page_line(page, line, &length);
        size_t start = page->lines[line], end = start + length;
        if (load && end >= first && start <= last) {
            const char *sign = memchr(text + (load->span.start - start), '%', end - load->span.start);
            lines->items = arena_grow(arena, lines->items, lines->count, &lines->capacity, sizeof *lines->items);
            lines->items[lines->count++] =
                (struct lifted_line){.start = start, .end = end, .behind = sign ? start + (size_t)(sign + 1 - text) : end};
        }
        add_lines(arena, focus, at, first, last, lines);
    }
}

/* --- who lifts --- */

/* The line that SPAN starts in, or NULL. */
static struct lifted_line *line_of(const struct lifted_lines *lines, unsigned file, struct span span)
{
    size_t low = 0, high = lines->count;
    if (span.file != file)
        return NULL;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        struct lifted_line *line = &lines->items[middle];
        if (span.start < line->start)
            high = middle;
        else if (span.start > line->end)
            low = middle + 1;
        else
            return line;
    }
    return NULL;
}

static void add_runs(struct arena *arena, const struct lifted_lines *lines, unsigned file,
                     const struct occasion *occasion, const struct item *item)
{
    for (size_t i = 0; i < item->run_count; i++) {
        const struct set_run *run = &item->runs[i];
        if (run->load.kind != LOAD_PERCENT)
            continue;
        struct lifted_line *line = line_of(lines, file, item->span);
        if (!line)
            line = line_of(lines, file, run->span);
        if (!line)
            continue;
        line->items = arena_grow(arena, line->items, line->count, &line->capacity, sizeof *line->items);
        line->items[line->count++] = (struct lifted){occasion, item, run};
    }
}

struct lifted_lines lifted_find(struct arena *arena, const struct focus *focus, size_t first, size_t last)
{
    const struct programme *programme = club_programme(focus->club);
    struct lifted_lines lines = {0};
    add_lines(arena, focus, focus->tree->root, first, last, &lines);
    for (size_t o = 0; lines.count && o < programme->occasion_count; o++) {
        const struct occasion *occasion = &programme->occasions[o];
        for (size_t b = 0; b < occasion->block_count; b++)
            for (size_t i = 0; i < occasion->blocks[b].item_count; i++)
                add_runs(arena, &lines, focus->file, occasion, &occasion->blocks[b].items[i]);
    }
    return lines;
}
