/* beam_parts.h - what the files of the beam share. */
#ifndef BELL_ROOM_BEAM_PARTS_H
#define BELL_ROOM_BEAM_PARTS_H

#include <stdint.h>

#include "room/bodies.h"
#include "room/list.h"

/* A beginning: where it comes from, and how things stand after it. */
struct room_node {
    int parent;  /* in the level before; ROOM_NONE */
    int turn;    /* the last */
    struct room_state *state;
    int *perms, *legs;
    int time;    /* when the last turn was taken: turns come by start */
};

/* A beginning by one turn longer, before it is known whether it is kept. */
struct room_child {
    int parent, athlete, place; /* place in the order, where that was chosen; else ROOM_NONE */
    bool patient;
    int time;
    struct room_score score;    /* a bound of what it can come to */
    const int *face;            /* what must be alike to compare it, then what the lesser is the better of */
    uint64_t hash;
    int order;                  /* as they were met */
    int next;                   /* of those with the same hash */
    bool beaten;
};

struct room_level {
    struct room_node *nodes;
    int count;
};

struct room_beam {
    struct room_search *search;
    const struct room_chains *chains;
    struct arena *arena; /* of one level */
    struct room_bodies bodies;
    int *kind_from;      /* of each kind, and behind the last: where its bodies begin */
    int *classes;        /* of each athlete: the first whose session is the same */
    int slack;           /* seconds: kit that is free for so long is as good as ever */
    struct room_level *levels;
    struct room_child *children;
    size_t child_count, child_capacity;
    int *buckets;
    int bucket_count;
    struct room_state *state;
    int *perms, *legs;   /* of the child that is tried */
    int *from_step;      /* of each athlete and leg: first step still to do */
    bool *wants;         /* of each athlete and kind */
    int key_length, face_length;
    int *face, *sorted, *slots;
    int width;
    int tries, most_tries; /* turns that were tried, and that may be */
    struct room_score limit;
};

/* Finds the athletes whose sessions are the same, so that it does not matter who is who. */
void room_beam_classes(struct room_beam *beam);

/* Works out from which step on each leg is still to do. */
void room_beam_left(const struct room_beam *beam, const struct room_state *state);
/* What the beginning that led to STATE can come to at best; room_beam_left went before. Marks who wants which kind. */
struct room_score room_beam_score(const struct room_beam *beam, const struct room_state *state);
/* All that matters of a beginning whose last turn came at TIME, after room_beam_score: beam->face, first what must be
 * alike in two to compare them, then what is the better the less it is. */
void room_beam_face(const struct room_beam *beam, const struct room_state *state, int time);

#endif
