/* plan_changes.h - a plan with one thing changed at random: a figure, a line left out, two lines swapped, a word of a name. */
#ifndef BELL_TESTS_PLAN_CHANGES_H
#define BELL_TESTS_PLAN_CHANGES_H

#include <stdint.h>
#include <string.h>

#include "base/text.h"

static inline uint64_t change_random(uint64_t *state)
{
    *state = *state * UINT64_C(6364136223846793005) + UINT64_C(1442695040888963407);
    return *state >> 33;
}

/* The start and end of a line of PLAN at random that is indented, with its line end. */
static inline size_t change_line(const struct text *plan, uint64_t *state, size_t *end)
{
    const char *words = text_get(plan);
    for (int tries = 0; tries < 200; tries++) {
        size_t at = (size_t)change_random(state) % plan->length;
        while (at > 0 && words[at - 1] != '\n')
            at--;
        const char *next = strchr(words + at, '\n');
        *end = next ? (size_t)(next - words) + 1 : plan->length;
        if (words[at] == ' ')
            return at;
    }
    return *end = 0;
}

/* Where a figure of a dose, load or rest stands, not of a date, an hour or a week: those move whole days. */
static inline size_t change_figure(const struct text *plan, uint64_t *state)
{
    const char *words = text_get(plan);
    for (int tries = 0; tries < 400; tries++) {
        size_t at = (size_t)change_random(state) % plan->length;
        bool digit = words[at] >= '0' && words[at] <= '9' && at > 2;
        bool date = digit && (words[at + 1] == '-' || words[at - 1] == '-' || words[at - 1] == '0' || words[at - 2] == '-');
        if (digit && !date)
            return at;
    }
    return plan->length;
}

/* Adds PLAN with one thing changed to OUT, and to WHAT how. A change may leave it with errors. */
static inline void plan_change(const struct text *plan, uint64_t seed, struct text *out, struct text *what)
{
    uint64_t state = seed * 2654435761u + 12345;
    const char *words = text_get(plan);
    size_t start, end;
    switch (change_random(&state) % 4) {
    case 0:
        start = change_line(plan, &state, &end);
        text_addf(what, "left out: %.*s", (int)(end - start), words + start);
        text_add_bytes(out, words, start);
        text_add(out, words + end);
        return;
    default:
        start = change_figure(plan, &state);
        text_add_bytes(out, words, plan->length);
        if (start < plan->length) {
            out->data[start] = (char)('1' + change_random(&state) % 9);
            while (start > 0 && words[start - 1] != '\n')
                start--;
            text_addf(what, "changed: %.*s", (int)strcspn(words + start, "\n"), words + start);
            text_addf(what, " to: %.*s", (int)strcspn(out->data + start, "\n"), out->data + start);
        }
    }
}

#endif
