/* Lines that both texts have in the same order are found with the greedy algorithm of Myers (An O(ND) difference
 * algorithm and its variations, Algorithmica 1986). Texts that differ in more than MOST_EDITS lines are shown as one
 * replaced by the other, which is also correct, only longer. */
#include "base/diff.h"

#include <stdbool.h>
#include <stdlib.h>
#include <string.h>

enum { CONTEXT = 3, MOST_EDITS = 2000 };

struct diff_line {
    const char *text;
    size_t length; /* with its line end */
};

struct diff_lines {
    struct diff_line *items;
    size_t count;
};

struct diff {
    struct diff_lines old, new;
    bool *dropped, *added; /* of old lines; of new lines */
};

static struct diff_lines split(const char *text, size_t length)
{
    size_t count = 0;
    for (size_t i = 0; i < length; i++)
        count += text[i] == '\n';
    struct diff_lines lines = {memory_get((count + 1) * sizeof *lines.items), 0};
    for (const char *end = text + length; text < end;) {
        const char *stop = memchr(text, '\n', (size_t)(end - text));
        const char *next = stop ? stop + 1 : end;
        lines.items[lines.count++] = (struct diff_line){text, (size_t)(next - text)};
        text = next;
    }
    return lines;
}

static bool same_line(const struct diff_line *a, const struct diff_line *b)
{
    return a->length == b->length && memcmp(a->text, b->text, a->length) == 0;
}

/* --- the shortest way from one to the other --- */

/* The lines between those that both texts start with and those that both end with. FURTHEST[d]
 * holds, for each diagonal k from -d to d, how many old lines d edits get through. */
struct middle {
    const struct diff_line *old, *new;
    long old_count, new_count;
    long **furthest;
};

static long reach(const struct middle *middle, long d, long k)
{
    const long *before = d ? middle->furthest[d - 1] + (d - 1) : NULL;
    long x = 0;
    if (d && (k == -d || (k != d && before[k - 1] < before[k + 1])))
        x = before[k + 1];
    else if (d)
        x = before[k - 1] + 1;
    while (x < middle->old_count && x - k < middle->new_count &&
           same_line(&middle->old[x], &middle->new[x - k]))
        x++;
    return x;
}

/* The least number of edits, or -1 when there are too many. */
static long count_edits(struct middle *middle)
{
    for (long d = 0; d <= MOST_EDITS; d++) {
        long *row = memory_get((size_t)(2 * d + 1) * sizeof *row);
        middle->furthest[d] = row;
        for (long k = -d; k <= d; k += 2) {
            row[k + d] = reach(middle, d, k);
            if (row[k + d] >= middle->old_count && row[k + d] - k >= middle->new_count)
                return d;
        }
    }
    return -1;
}

static void mark_edits(const struct middle *middle, long edits, bool *dropped, bool *added)
{
    long k = middle->old_count - middle->new_count;
    for (long d = edits; d > 0; d--) {
        const long *before = middle->furthest[d - 1] + (d - 1);
        if (k == -d || (k != d && before[k - 1] < before[k + 1])) {
            k++;
            added[before[k] - k] = true;
        } else {
            k--;
            dropped[before[k]] = true;
        }
    }
}

static void find_edits(struct diff *diff)
{
    size_t start = 0, old_end = diff->old.count, new_end = diff->new.count;
    while (start < old_end && start < new_end &&
           same_line(&diff->old.items[start], &diff->new.items[start]))
        start++;
    while (old_end > start && new_end > start &&
           same_line(&diff->old.items[old_end - 1], &diff->new.items[new_end - 1])) {
        old_end--;
        new_end--;
    }
    long *furthest[MOST_EDITS + 1] = {NULL};
    struct middle middle = {diff->old.items + start, diff->new.items + start,
                            (long)(old_end - start), (long)(new_end - start), furthest};
    long edits = count_edits(&middle);
    if (edits >= 0) {
        mark_edits(&middle, edits, diff->dropped + start, diff->added + start);
    } else {
        for (size_t i = start; i < old_end; i++)
            diff->dropped[i] = true;
        for (size_t i = start; i < new_end; i++)
            diff->added[i] = true;
    }
    for (long d = 0; d <= MOST_EDITS; d++)
        free(furthest[d]);
}

/* --- writing --- */

static void add_line(struct text *out, char mark, const struct diff_line *line)
{
    text_add_char(out, mark);
    text_add_bytes(out, line->text, line->length);
    if (line->text[line->length - 1] != '\n')
        text_add(out, "\n\\ No newline at end of file\n");
}

/* The place of a hunk as it is written: an empty one stands after the line before it. */
static void add_place(struct text *out, char mark, size_t start, size_t count)
{
    text_addf(out, "%c%zu", mark, count ? start + 1 : start);
    if (count != 1)
        text_addf(out, ",%zu", count);
}

/* Where both texts stand: lines AT of each. */
struct diff_position {
    size_t old, new;
};

static bool is_edit(const struct diff *diff, const struct diff_position *at)
{
    return (at->old < diff->old.count && diff->dropped[at->old]) ||
           (at->new < diff->new.count && diff->added[at->new]);
}

/* One step on: a dropped line, an added one, or one that both have. Returns its mark. */
static char step(const struct diff *diff, struct diff_position *at)
{
    if (at->old < diff->old.count && diff->dropped[at->old]) {
        at->old++;
        return '-';
    }
    if (at->new < diff->new.count && diff->added[at->new]) {
        at->new ++;
        return '+';
    }
    at->old++;
    at->new ++;
    return ' ';
}

static void add_hunk(const struct diff *diff, const struct diff_position *from, const struct diff_position *to,
                     struct text *out)
{
    text_add(out, "@@ ");
    add_place(out, '-', from->old, to->old - from->old);
    text_add_char(out, ' ');
    add_place(out, '+', from->new, to->new - from->new);
    text_add(out, " @@\n");
    for (struct diff_position at = *from; at.old < to->old || at.new < to->new;) {
        struct diff_position line = at;
        char mark = step(diff, &at);
        add_line(out, mark, mark == '+' ? &diff->new.items[line.new] : &diff->old.items[line.old]);
    }
}

/* The end of the hunk that the edit at AT starts: edits with few lines between them share one. */
static struct diff_position hunk_end(const struct diff *diff, struct diff_position at)
{
    size_t alike = 0;
    struct diff_position end = at;
    while ((at.old < diff->old.count || at.new < diff->new.count) && alike <= 2 * CONTEXT) {
        alike = step(diff, &at) == ' ' ? alike + 1 : 0;
        if (alike <= CONTEXT)
            end = at;
    }
    return end;
}

static void add_hunks(const struct diff *diff, struct text *out)
{
    struct diff_position at = {0, 0};
    size_t alike = 0; /* lines before AT that may serve as context */
    while (at.old < diff->old.count || at.new < diff->new.count) {
        if (!is_edit(diff, &at)) {
            step(diff, &at);
            alike = alike < CONTEXT ? alike + 1 : CONTEXT;
            continue;
        }
        struct diff_position from = {at.old - alike, at.new - alike}, to = hunk_end(diff, at);
        add_hunk(diff, &from, &to, out);
        at = to;
        alike = 0;
    }
}

void diff_unified(const char *name, const char *old, size_t old_length, const char *new_text,
                  size_t new_length, struct text *out)
{
    if (old_length == new_length && memcmp(old, new_text, old_length) == 0)
        return;
    struct diff diff = {.old = split(old, old_length), .new = split(new_text, new_length)};
    diff.dropped = memory_get(diff.old.count + 1);
    diff.added = memory_get(diff.new.count + 1);
    memset(diff.dropped, 0, diff.old.count + 1);
    memset(diff.added, 0, diff.new.count + 1);
    find_edits(&diff);
    text_addf(out, "--- %s\n+++ %s\n", name, name);
    add_hunks(&diff, out);
    free(diff.old.items);
    free(diff.new.items);
    free(diff.dropped);
    free(diff.added);
}
