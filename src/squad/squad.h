/* squad.h - those who do one session in one gym on one day at one hour, and the room that it makes of them.
 *
 * * The sets of a room come from the blocks as the athletes do them: their own loads, substitutes and warm-up sets.
 * Times that a line does not give come from time_usual. Rounds, `every`, `as many rounds` and `for time` ring for
 * all who do them. If their work needs a partner, they ring for both halves of each pair, one after the other, as
 * one bell of twice the length. */
#ifndef BELL_SQUAD_SQUAD_H
#define BELL_SQUAD_SQUAD_H

#include <pthread.h>

#include "room/room.h"

struct block;
struct gym;
struct item;
struct load;
struct occasion;
struct set_run;

/* What one item of the room is in the programme. */
struct squad_task {
    const struct block *block;
    const struct item *item;     /* NULL at a bell */
    const struct load *load;     /* NULL at a bell */
    const struct set_run *run;   /* NULL at a bell */
    int reps;                    /* of a warm-up set; else 0 */
};

/* One athlete's part of a block of the room: a task for each item, set after set. */
struct squad_part {
    const struct block *block;   /* NULL: the athlete does not do it */
    const struct squad_task *tasks;
    const size_t *first;         /* task of each set */
};

struct squad {
    const struct occasion *const *members; /* in the order in which the camp names its athletes */
    size_t count;
    const struct gym *gym;
    const struct squad_part *parts;        /* for each member, as many as the room has blocks */
    struct room room;
    bool too_large;                        /* too many sets for a timetable */
};

/* The occasions of one squad. */
struct squad_meeting {
    const struct occasion **members; /* in squad order */
    size_t count;
};

/* All squads among the COUNT occasions of ALL, which are sorted as the programme's are. A squad has two athletes or
 * more, and its hour and gym are known. *MEETINGS are ARENA's, by date. */
size_t squad_meetings(struct arena *arena, const struct occasion *all, size_t count, struct squad_meeting **meetings);

/* The squad of COUNT occasions (1 or more, which share camp, session, date, hour and gym) in squad order. */
const struct squad *squad_of(struct arena *arena, const struct occasion *const *members, size_t count);

/* SQUAD's room, with what each athlete can do there instead of an exercise whose kit is scarce: what its `without`
 * names, if the gym has the kit for it, the athlete has lifted for long enough and nothing bars it. Kinds that only
 * these need come after those of SQUAD's own room. */
const struct room *squad_room_with_substitutes(struct arena *arena, const struct squad *squad);

/* What ROW, of a timetable of SQUAD's own room, is. */
const struct squad_task *squad_task(const struct squad *squad, const struct room_row *row);

/* "A2", the line of a task as every sheet prints it; "rounds" where its block has no letter. */
const char *squad_line(struct arena *arena, const struct squad_task *task);

/* --- solved --- */

/* Timetables that were worked out before, so that days that are alike are solved once. */
struct squad_memo;
struct squad_memo *squad_memo_new(struct arena *arena);
/* One that several threads may ask, which take the lock HELD in turn; nobody else may make anything in ARENA meanwhile. */
struct squad_memo *squad_memo_shared(struct arena *arena, pthread_mutex_t *held);

/* SQUAD's timetable, as room_solve makes it; NULL if the squad is too large. The items of its rows belong to the
 * squad for which it was first worked out, and live as long as that squad. */
const struct room_table *squad_solve(struct squad_memo *memo, const struct squad *squad);

/* The same, as room_solve_until makes it. */
const struct room_table *squad_solve_until(struct squad_memo *memo, const struct squad *squad, struct room_enough enough);

/* What that would give, if it was worked out before; else NULL. */
const struct room_table *squad_solved(struct squad_memo *memo, const struct squad *squad, struct room_enough enough);

#endif
