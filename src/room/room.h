/* room.h - a squad's session in one room: who does which set when, and on which piece of kit.
 *
 * * A room is given as plain structs and knows nothing of the notation. Times are whole seconds from the hour of the
 * session. Athletes stand in squad order, blocks in written order, kinds of kit in the gym's order; wherever two
 * choices are as good as each other, these orders decide. No clock, no address and no hash decides anything, so the
 * same room always gets the same timetable.
 *
 * * A timetable is valid if every item is done once, in order, with at least its gaps and rests; if no piece of kit is
 * used by two at once, and there is time between two uses of it to change over and to change discs; if all whom a bell
 * calls start together; and if partners hold for each other. It aims at the least finish, then the least waiting, then
 * the fewest discs moved.
 *
 * * Turns taken in each other's rests, like loads together, groups that rotate and one bell for conditioning are
 * common practice, no source. In the terms of scheduling this is a job shop with parallel machines, set-up times
 * that depend on the order, and least and greatest lags. */
#ifndef BELL_ROOM_ROOM_H
#define BELL_ROOM_ROOM_H

#include <stdbool.h>
#include <stddef.h>

#include "base/arena.h"

enum { ROOM_ANY_GAP = -1, ROOM_NONE = -1, ROOM_DECODES = 4000 };

/* A bar or a disc, counted over the whole gym. */
struct room_stock {
    const char *name; /* "20 kg barbell", "10 kg disc" */
    int count;
};

/* All pieces of kit that are alike; the pieces are numbered from 1. */
struct room_kind {
    const char *name, *plural; /* "rack", "racks" */
    int count;
    bool seat;       /* loads stay on it between turns, so that changing them takes time */
    bool one_sleeve; /* discs on one end only, as in a landmine */
};

struct room_need {
    int kind, count;
};

struct room_item {
    const char *name;
    int work;                       /* seconds */
    const struct room_need *needs;  /* each kind once */
    size_t need_count;
    const int *stack;               /* bar, then one side's discs, heaviest first, as places in room.stock */
    size_t stack_count;             /* 0: it leaves its seat bare */
    int gap_least, gap_most;        /* seconds after the item before it in its set; most may be ROOM_ANY_GAP */
    bool partner;                   /* another of the group holds for it */
};

struct room_set {
    const struct room_item *items;
    size_t item_count;
    int rest;                       /* seconds after it, if a set of its block follows */
    int line;                       /* the line of its block, from 0: sets are cut from the end of a line */
    bool ramp;                      /* warms up for the sets behind it; never cut by itself */
};

/* What one athlete does in one block; without sets, the athlete leaves it out. A bell has one set of one item, which
 * lasts as long as the bell and needs the kit that the athlete holds throughout. */
struct room_part {
    const struct room_set *sets;
    size_t set_count;
};

struct room_athlete {
    const char *name;
    int arrival;
    const struct room_part *parts; /* one a block */
};

struct room_block {
    const char *name;   /* "A", or "rounds" */
    bool bell;          /* rings for all who do it */
    const int *rounds;  /* of a bell: when each round starts, seconds after the first bell */
    size_t round_count;
    int keep;           /* 1 matters most .. 3; 0 not given */
    bool free;          /* may change its place, as room.order says; free blocks are neighbours */
    bool fixed;         /* no proposal moves it, as a warm-up */
    bool care;          /* neck and shoulder care: never cut to save time */
    int least;          /* seconds that are never cut from it; 0 none */
};

enum room_order {
    ROOM_AS_WRITTEN,
    ROOM_ANY_ORDER, /* each athlete orders the free blocks freely, but those with warm-up sets as written */
    ROOM_WAVES      /* each may start at any free block and go round from there */
};

/* Athletes who hold for each other: each holds for the one before. */
struct room_group {
    const int *members;
    size_t count;
};

/* Something else that an athlete can do in a block. */
struct room_substitute {
    int athlete, block;
    int kind;                /* the kit that it does without */
    struct room_part part;
    const char *words;       /* "goblet squat for the back squat" */
};

struct room {
    const struct room_stock *stock;
    size_t stock_count;
    const struct room_kind *kinds;
    size_t kind_count;
    const struct room_block *blocks;
    size_t block_count;
    const struct room_athlete *athletes;
    size_t athlete_count;
    const struct room_group *groups; /* none: pairs in squad order, with a group of three if one is left over */
    size_t group_count;
    const struct room_substitute *substitutes;
    size_t substitute_count;
    enum room_order order;
    int changeover; /* seconds between two athletes at one piece of kit */
    int disc;       /* seconds to change one disc (both sides at once) */
    int between;    /* seconds between two blocks of one athlete */
    int doors;      /* when the doors close; ROOM_NONE */
};

/* --- the timetable --- */

struct room_unit {
    int kind, number; /* the piece's number, from 1 */
    int discs;        /* discs of one side, taken off and put on for this turn */
};

/* One item as it is done; block, set and item count from 0. An athlete who joins an opening bell late starts late. */
struct room_row {
    int athlete, block, set, item;
    int start, end;
    const struct room_item *what;
    struct room_unit *units;
    size_t unit_count;
};

/* A piece of kit over the session: its turns, and the time between them to change over and to change discs. */
struct room_busy {
    int kind, number, seconds;
};

/* How an athlete fares. */
struct room_fare {
    int alone;  /* seconds that the session would take with nobody else there */
    int finish; /* end of the last set */
    int wait;   /* seconds beyond that, including the time stood about at the start */
    int missed; /* rounds of the opening bell */
    int before; /* the row before which more than half of the wait falls; or ROOM_NONE */
};

struct room_table {
    const char *refused;         /* why there is none, in words; else NULL */
    int refused_block;           /* the bell that wants more kit than there is; else ROOM_NONE */
    const struct room_row *rows; /* by start, then in squad order */
    size_t row_count;
    const struct room_fare *fares; /* one an athlete */
    int finish;                  /* of the squad */
    int bound;                   /* no timetable ends before it; if finish is no later, it is the earliest possible */
    int longest;                 /* when the last of them would end if nobody waited for kit or others */
    int wait, discs;             /* sums */
    const struct room_busy *busy; /* of each piece that is used, in the gym's order */
    size_t busy_count;
    int bottleneck;              /* the kind with the greatest share of busy time; ROOM_NONE */
    int over;                    /* seconds after the doors; 0 it fits */
    int decodes;                 /* timetables that were tried */
};

/* The best timetable found. All that it holds is ARENA's; names are the room's. */
const struct room_table *room_solve(struct arena *arena, const struct room *room);

/* A timetable that is as good as the best to whoever asks: all finish within FINISH seconds of the hour, and nobody
 * waits for WAIT seconds. */
struct room_enough {
    int finish, wait;
};

/* The same, but the search ends with the first timetable that is good ENOUGH. */
const struct room_table *room_solve_until(struct arena *arena, const struct room *room, struct room_enough enough);

/* Whoever is ready first goes first: what happens without any plan. */
const struct room_table *room_queue(struct arena *arena, const struct room *room);

/* --- in words, those of the language of the arena --- */

/* What a piece of the room is called: NAME, or "25 kg" and what is weighed. */
const char *room_kit_called(struct arena *arena, const char *name);

/* "rack: 41 of 53 min busy", "racks: 41 and 39 of 53 min busy", or that nobody's end is put off by kit. */
const char *room_bottleneck_words(struct arena *arena, const struct room *room, const struct room_table *table);

/* "Bram waits 6 min more than planned, most of it before A3 (rack)"; NULL where ATHLETE waits under a quarter of a
 * minute. */
const char *room_wait_words(struct arena *arena, const struct room *room, const struct room_table *table, int athlete);

/* "the sets of 12 athletes take 94 min of work at 1 rack, which is there for 60 min: at most 7 of them fit in": the
 * kit that has too little time until the doors close for the work it is needed for, whatever the order of turns.
 * NULL if there is none. */
const char *room_serves_words(struct arena *arena, const struct room *room);

/* "this is the earliest there is", or "no timetable ends before 51 min". */
const char *room_bound_words(struct arena *arena, const struct room_table *table);

#endif
