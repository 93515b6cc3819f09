/* stretch.h - the phases between two days of a camp; shared by resolve_phases.c and resolve_stretch.c only. */
#ifndef BELL_RESOLVE_STRETCH_H
#define BELL_RESOLVE_STRETCH_H

#include "figures/phases.h"
#include "model/season.h"
#include "resolve/resolver.h"

enum { MOST_PHASES = 20 };

struct span_of_phase {
    struct phase phase;
    const struct node *node, *length; /* its line, and how long that says it is */
    struct phase_length fit;
    bool after; /* comes after the bout */
    bool begun; /* some of it was over when the bout was moved */
    bool past;  /* all of it was */
};

/* Phases between two days that are both known: FIRST, and LAST, on which the last of them ends. */
struct phase_stretch {
    struct span_of_phase *phases;
    int count;
    int first, last;
    const struct node *node; /* what is reported if they do not fit */
    const struct bout *bout; /* that it leads to */
    bool to_bout;            /* LAST is the bout's day */
    bool between;            /* FIRST is behind another bout */
    bool quiet;              /* what is left out of it is not reported */
};

/* What was over when the bout was moved. */
struct phases_past {
    const struct phase *phases; /* as they were counted to the day planned at first */
    size_t count;
    int from; /* the first day that is to come */
};

/* What is over of STRETCH needs no days any more: only what is to come shares those that are left. PAST may be NULL. */
void take_past(struct phase_stretch *stretch, const struct phases_past *past);

/* Puts the phases of STRETCH on their days, and reports those that do not fit and those that are left out. */
void place_stretch(struct resolver *r, const struct phase_stretch *stretch);

/* Reports a PHASE that lasts until a day on or before FIRST, on which it would begin. */
void ends_before_it_begins(struct resolver *r, const struct node *phase, int first);

/* Reports, at NODE, days that belong to no phase: they would if the one before them lasted until UNTIL. */
void in_no_phase(struct resolver *r, const struct node *node, int first, int last, const char *until);

/* DAY as it is written in a plan. */
const char *phase_day(struct resolver *r, int day);

#endif
