/* plan_parts.h - a plan taken apart for comparison: each thing that it declares or places, with its facts in words.
 *
 * * Nothing in it is private: what an athlete has to avoid, holds, body mass, dates of birth and what private files
 * say are not among the facts. */
#ifndef BELL_COMPARE_PLAN_PARTS_H
#define BELL_COMPARE_PLAN_PARTS_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "base/arena.h"

struct occasion;
struct programme;
struct squad_memo;

/* LABEL is a line ("A1"), a phase, or "" for the whole; ASPECT is what the fact is about: "load", "sets". */
struct fact {
    const char *label, *aspect, *words;
};

struct facts {
    struct fact *items;
    size_t count, capacity;
};

enum part_kind { PART_GYM, PART_ATHLETE, PART_EXERCISE, PART_LIMIT, PART_CAMP, PART_WAIVER, PART_ROOM, PART_OCCASION, PART_KINDS };

/* The word for a kind: "gym". */
const char *part_kind_word(enum part_kind kind);

/* Something of a plan. NAME, CAMP and ATHLETE are as they are written; CAMP, ATHLETE and SET may be "". */
struct part_of_plan {
    enum part_kind kind;
    const char *name;    /* for an occasion, what is done; for a limit, what it counts and for whom */
    const char *camp, *athlete;
    int date, clock;     /* 0 and -1 where it has none */
    int nth;             /* a number, from 0, among several that agree in all of this */
    uint64_t digest;     /* of all facts, and of what no fact shows */
    struct facts facts;  /* for an occasion, empty until part_tell */
    const struct occasion *occasion; /* or NULL */
    const void *subject; /* the camp, athlete, session or other thing that it is about, or NULL */
    struct part_of_plan *pair; /* the same part in the other plan, if it moved with a bout (bouts.h); or NULL */
};

struct plan_parts {
    struct arena *arena;
    const struct programme *programme;
    struct part_of_plan *items; /* by kind, then athlete, camp, date, clock, name */
    size_t count, capacity;
    bool incomplete;     /* some of the plan was not understood */
};

/* All parts of PROGRAMME, in ARENA. MEMO has timetables that were worked out before. */
void parts_of(struct arena *arena, const struct programme *programme, struct squad_memo *memo, struct plan_parts *parts);

/* Fills in the facts of PART. */
void part_tell(struct arena *arena, struct part_of_plan *part);

/* Sorts the parts and numbers those that are alike; call it again after renaming. */
void parts_sort(struct plan_parts *parts);

/* The order of parts: below 0 if A comes first, 0 if they have the same place. */
int parts_order(const struct part_of_plan *a, const struct part_of_plan *b);

void facts_add(struct arena *arena, struct facts *facts, const char *label, const char *aspect, const char *words);

/* The same for a declaration, in parts_declared.c. */
void parts_declare(struct plan_parts *parts);

/* Adds a part with the digest of its facts. */
void parts_add(struct plan_parts *parts, struct part_of_plan part);

/* "2027-03-08". */
const char *part_day(struct arena *arena, int day);

#endif
