/* beam_parts.h - what the files of the beam share. */
#ifndef BELL_ROOM_BEAM_PARTS_H
#define BELL_ROOM_BEAM_PARTS_H

#include <stdint.h>

#include "room/bodies.h"
#include "room/list.h"

/* A beginning: the one it extends, its last turn, and the state after it. */
struct room_node {
    int parent;  /* in the level before; ROOM_NONE */
    int turn;    /* the last */
    struct room_state *state;
    int *perms, *legs;
    int time;    /* when the last turn was taken: turns come by start */
};

/* A beginning extended by one turn, before the search decides whether to keep it. */
struct room_child {
    int parent, athlete, place; /* place in the order, if it was chosen; else ROOM_NONE */
    bool patient;
    int time;
    struct room_score score;    /* a bound on the best score that it can lead to */
    const int *face;            /* what must be equal for two to be compared, then what is better the smaller it is */
    uint64_t hash;
    int order;                  /* in the order in which they were found */
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
    int *kind_from;      /* where the bodies of each kind begin, and where the last kind's end */
    int *classes;        /* of each athlete: the first athlete with the same session */
    int slack;           /* seconds: kit that has been free this long counts as always free */
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
    int tries, most_tries; /* turns tried so far, and turns that may be tried */
    struct room_score limit;
};

/* Finds the athletes whose sessions are the same, so that it does not matter who is who. */
void room_beam_classes(struct room_beam *beam);

/* Works out from which step on each leg is still to do. */
void room_beam_left(const struct room_beam *beam, const struct room_state *state);
/* The best score that the beginning which led to STATE can reach; call room_beam_left first. Marks who wants which
 * kind. */
struct room_score room_beam_score(const struct room_beam *beam, const struct room_state *state);
/* Writes into beam->face all that matters of a beginning whose last turn came at TIME; call room_beam_score first.
 * First comes what must be equal for two to be compared, then what is better the smaller it is. */
void room_beam_face(const struct room_beam *beam, const struct room_state *state, int time);

#endif
