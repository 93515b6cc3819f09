#include "resolve/rows.h"

#include <stdbool.h>

enum { UNKNOWN = -3, ON_THE_WAY = -4 };

/* Settles the LENGTH things of PATH, each of which leads to the next, and the last to END. */
static void settle_path(int *rows, const size_t *path, size_t length, size_t end, size_t count)
{
    bool circle = end < count && rows[end] == ON_THE_WAY;
    while (circle && length) {
        size_t thing = path[--length];
        rows[thing] = ROW_CIRCLE;
        circle = thing != end;
    }
    int last = length && end < count ? rows[end] : -1;
    bool endless = end < count && rows[end] < 0;
    while (length)
        rows[path[--length]] = endless ? ROW_TO_CIRCLE : ++last;
}

int *rows_measure(struct arena *arena, const size_t *next, size_t count)
{
    int *rows = arena_alloc(arena, count * sizeof *rows);
    size_t *path = arena_alloc(arena, count * sizeof *path);
    for (size_t i = 0; i < count; i++)
        rows[i] = UNKNOWN;
    for (size_t i = 0; i < count; i++) {
        size_t length = 0, at = i;
        for (; at < count && rows[at] == UNKNOWN; at = next[at]) {
            rows[at] = ON_THE_WAY;
            path[length++] = at;
        }
        settle_path(rows, path, length, at, count);
    }
    return rows;
}

bool rows_take_circle(int *rows, const size_t *next, size_t number)
{
    if (rows[number] != ROW_CIRCLE)
        return false;
    for (; rows[number] == ROW_CIRCLE; number = next[number])
        rows[number] = ROW_TO_CIRCLE;
    return true;
}
