/* decode.h - from a list of turns to a timetable.
 *
 * * The list names an athlete once for each step. Name by name, the athlete's next step is placed as early as the
 * rules allow beside what is placed already; a patient athlete waits for the seat with the fewest discs to change.
 * So every list gives a valid timetable. If the athlete has to wait for a partner or at a bell, the turn is put off.
 * Bells need no turn: they ring when everybody has come. */
#ifndef BELL_ROOM_DECODE_H
#define BELL_ROOM_DECODE_H

#include "room/chains.h"

/* Whose unit it was: nobody's yet, or a bell's. An athlete whom a bell calls takes it over from anybody, and from
 * another bell. */
enum { USED_NEVER = -1, USED_AT_BELL = -2, CALLED_BY_BELL = -3 };

struct room_use {
    int free; /* when the last use ended */
    int last; /* athlete, or as above */
    int stack;
    int by;   /* the turn of that use, counted from 0 */
};

struct room_turn {
    int ready;    /* the earliest start of the next step */
    int hold;     /* the earliest start of holding for another */
    int leg, step; /* place of the leg in the athlete's order */
    int ahead;    /* least seconds behind the present leg, to the end of the piece */
    int ends;     /* this athlete's piece cannot end earlier; once all is placed, its end */
    int done;     /* end of the last own work */
    int by;       /* the last own turn; ROOM_NONE */
    bool holds;   /* has finished, and still holds for the group */
    bool at_bell;
};

/* A seat in use with a stack, where bars or discs may run short. */
struct room_loaded {
    int start, end, stack;
    bool one_sleeve;
};

/* What the search makes as small as it can, in this order. */
struct room_score {
    int finish;
    long wait; /* sum of all ends; of the last piece only */
    int discs;
};

struct room_state {
    struct room_turn *turns;
    struct room_use *uses;
    int *come;                  /* of each block: how many stand at its bell */
    int *through;               /* of each group and block: how many are through */
    int *queue;                 /* turns that were put off, first come first */
    struct room_loaded *loaded;
    int queue_count, loaded_count;
    int placed;                 /* turns */
    struct room_score score;    /* so far: a bound that never shrinks */
    bool news;                  /* somebody put off may be able to go now */
};

/* Where one step would go. */
struct room_trial {
    int *starts; /* of each task */
    int *least;  /* no task starts before it */
    int **units; /* that each task takes */
    int *discs;
    int end;
};

/* A unit as it was before the step that is tried. */
struct room_undone {
    int unit;
    struct room_use use;
};

/* Who does what, as it was placed. */
struct room_placed {
    int athlete, leg, step, task; /* the leg by its place in the chain */
    int start;
    const int *units;
    int unit_count;
};

struct room_log {
    struct arena *arena;
    struct room_placed *items;
    size_t count, capacity;
};

/* Why a turn starts no earlier: the athlete's previous turn, or the one that had its kit; or ROOM_NONE. */
struct room_cause {
    int turn; /* as in the list */
    int own, kit;
};

struct room_decoder {
    const struct room_chains *chains;
    const struct room_piece *piece;
    struct arena *arena;
    bool patient;      /* who has the turn that is tried */
    const int *orders; /* each athlete's legs as they are done, room.block_count apart, by place in the chain */
    struct room_trial trial;
    struct room_undone *undone;
    int undone_count;
    int *wanted;          /* of each kind, at a bell */
    const struct room_loaded **near; /* what is loaded when the step that is tried would start, and later */
    int near_count;
    struct room_log *log;      /* NULL: nothing is kept */
    struct room_cause *causes; /* of each turn of the piece; NULL: they are not looked for */
};

/* How many tasks with a bar or discs a session has, where they can run short; else none is noted. */
size_t room_loaded_most(const struct room_chains *chains);
struct room_state *room_state_new(struct arena *arena, const struct room_chains *chains);
void room_state_copy(const struct room_chains *chains, struct room_state *to, const struct room_state *from);
/* The state before the session. */
void room_state_start(const struct room_chains *chains, struct room_state *state);

struct room_decoder *room_decoder_new(struct arena *arena, const struct room_chains *chains);
/* Brings STATE, in which the previous piece has ended, to the start of the decoder's piece. */
void room_piece_start(struct room_decoder *decoder, struct room_state *state);

/* --- parts of a turn, in trial.c --- */

/* The discs that go off and on for a unit of KIND to bear STACK. */
static inline int room_unit_discs(const struct room_chains *chains, const struct room_use *use, int kind, int stack)
{
    return chains->room->kinds[kind].seat ? room_moved(chains, use->stack, stack) : 0;
}

/* When a unit of KIND is ready for ATHLETE with STACK. */
static inline int room_unit_ready(const struct room_chains *chains, const struct room_use *use, int kind, int athlete,
                                  int stack)
{
    if (use->last == USED_NEVER)
        return use->free;
    int turn = use->last == athlete ? 0 : chains->room->changeover;
    return use->free + turn + chains->room->disc * room_unit_discs(chains, use, kind, stack);
}

/* When as many units as NEED asks for are ready. LATEST: see room_take_units. */
int room_need_ready(const struct room_decoder *decoder, const struct room_state *state, int athlete, int stack,
                    const struct room_need *need, int latest);
/* Of the units that are ready by START, puts those with the fewest discs to change, then with the lowest numbers,
 * into TAKEN; returns the discs to change. A unit that an earlier item of the step has taken and that is not ready
 * by LATEST never will be. */
int room_take_units(const struct room_decoder *decoder, const struct room_state *state, int athlete, int stack,
                    const struct room_need *need, int start, int latest, int *taken);
void room_use_units(const struct room_decoder *decoder, struct room_state *state, int athlete,
                    const struct room_task *task, const int *units, int end);
int room_units_of(const struct room_item *item);
/* Whether TASK puts a stack in use where bars or discs can run short. */
bool room_is_watched(const struct room_chains *chains, const struct room_task *task, bool *one_sleeve);

/* --- turns --- */

/* Whether ATHLETE has a step left in the piece, and may take it now. */
bool room_can_go(const struct room_decoder *decoder, const struct room_state *state, int athlete);
/* Works out where that step would go, patiently if decoder->patient, into decoder->trial. False: nowhere, because
 * its kit cannot be changed within its gaps. */
bool room_try(struct room_decoder *decoder, struct room_state *state, int athlete);
/* Puts it there. */
void room_put(struct room_decoder *decoder, struct room_state *state, int athlete);
/* A turn is an athlete's number; for a patient athlete, the number of athletes is added. */
static inline int room_turn_athlete(const struct room_decoder *decoder, int turn)
{
    return turn < decoder->chains->count ? turn : turn - decoder->chains->count;
}

/* The step is placed or put off; then those are placed who were put off and can go now. */
bool room_take_turn(struct room_decoder *decoder, struct room_state *state, int turn);

/* The athlete's LEG-th leg, by its place in the chain. */
static inline int room_leg_at(const struct room_decoder *decoder, int athlete, int leg)
{
    return decoder->orders[(size_t)athlete * decoder->chains->room->block_count + (size_t)leg];
}

/* NULL: the piece is over for ATHLETE. */
static inline const struct room_leg *room_next_leg(const struct room_decoder *decoder, const struct room_state *state,
                                                   int athlete)
{
    int leg = state->turns[athlete].leg;
    if (leg == decoder->piece->to[athlete])
        return NULL;
    return &decoder->chains->chains[athlete].legs[room_leg_at(decoder, athlete, leg)];
}

static inline int room_compare(const struct room_score *a, const struct room_score *b)
{
    if (a->finish != b->finish)
        return a->finish < b->finish ? -1 : 1;
    if (a->wait != b->wait)
        return a->wait < b->wait ? -1 : 1;
    return a->discs < b->discs ? -1 : a->discs > b->discs;
}

#endif
