/* fewest.h - the fewest of many changes after which something holds.
 *
 * * The caller answers whether it holds, and each answer is expensive: a plan is compiled and checked. All sets of
 * one change are asked about before those of two, and so on, so that the set found is as small as it can be. Among
 * sets of one size, earlier changes come first: the caller puts the cheapest there. */
#ifndef BELL_AMEND_FEWEST_H
#define BELL_AMEND_FEWEST_H

#include <stdbool.h>
#include <stddef.h>

enum { FEWEST_TOGETHER = 4, FEWEST_WAYS = 3 };

struct fewest {
    size_t count;      /* how many changes there are */
    const int *groups; /* the group of each change, of which at most one is taken; NULL: any go together */
    int asks;          /* how many questions may be asked */
    bool (*holds)(void *with, const size_t *changes, size_t count);
    void *with;
};

struct fewest_way {
    size_t changes[FEWEST_TOGETHER];
    size_t count;
};

struct fewest_found {
    struct fewest_way ways[FEWEST_WAYS]; /* all of one size, the cheapest first */
    size_t count;
    bool all_asked; /* every smaller set was asked about; if none was found, every set of up to FEWEST_TOGETHER */
};

struct fewest_found fewest_find(const struct fewest *fewest);

#endif
