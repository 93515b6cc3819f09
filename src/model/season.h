/* season.h - a club's seasons, camps, their phases, and the findings that are waived in them. */
#ifndef BELL_MODEL_SEASON_H
#define BELL_MODEL_SEASON_H

#include <stdbool.h>
#include <stddef.h>

#include "model/quantity.h"

struct activity;
struct athlete;
struct gym;
struct language;
struct limits;
struct zone;

/* A year of the club, or how long it counts as one; both days inside. */
struct season {
    struct name name;
    int first, last; /* 0: not known, which was reported */
};

struct phase {
    struct name name;
    int first, last;          /* days, both inside */
    bool open;                /* no end known (recovery after the last bout) */
    bool after_bout;
    int longest;              /* the most days that its line asks for; 0: it has no length of its own */
    const struct bout *bout;  /* that it counts back to or, after it, follows; or NULL */
};

/* A bout of a camp. A tournament is one bout on several days. */
struct bout {
    int day;                  /* that is counted back to, of a tournament the first */
    const int *days;          /* all of them, rising: one at least */
    size_t day_count;
    int last;                 /* the last of them */
    int out;                  /* of a tournament: the day that was lost, behind which none was reached; 0 none */
    int clock;                /* seconds from midnight; -1 not given */
    const struct activity *rules; /* the rule set that it names, for its clock; or NULL */
    int rounds, work, rest;   /* as its line says, in seconds; 0: it does not */
    int cancelled;            /* day on which it was cancelled, or 0: phases stay as they were */
    int moved_on;             /* day on which it was postponed, or 0: what came before stays counted to: */
    int planned;
    int stopped_on;           /* of STOPPED: on which day */
    bool result_known, checked; /* the result and the medical check after the bout have been entered */
    bool stopped;             /* it ended by knockout or stoppage, not won, and nothing says that the head was not hit */
    bool lost;
    struct span span, result_span;
    mass division;            /* the most that may be weighed in; 0: not given */
    const char *words;        /* "kickboxing 3 x 2:00 rest 1:00", or NULL */
    const char *plain;        /* the same without that it was cancelled */
};

/* Days of a camp that are spent at another gym than where its athletes train; both inside. */
struct stay {
    const struct gym *gym;
    int first, last;
    const struct athlete **athletes; /* whom it is for */
    size_t athlete_count;            /* 0: all of the camp */
    struct span span;
};

/* Days that are spent in another time zone; both inside. */
struct zone_days {
    const struct zone *zone;
    int first, last;
    struct span span;
};

/* A day that the plan takes out of its weeks (`thursday off`), and why. */
struct day_off {
    int day;
    const char *because;
};

/* From when to when somebody is in a camp; both inside. */
struct membership {
    int first, last; /* 0 and DATE_LAST where nothing is said */
};

struct camp {
    struct name name;
    const struct language *language; /* of its athletes' sheets; NULL: not said */
    const struct stay *stays;
    size_t stay_count;
    struct day_off *days_off; /* those whose line says why, by date */
    size_t day_off_count;
    const struct zone_days *zone_days;
    size_t zone_day_count;
    const struct athlete **athletes;
    size_t athlete_count;
    const struct membership *members; /* of ATHLETES, in their order; NULL: all of them from first to last */
    int first, last;          /* days of the camp, both inside; last is the end of the last week planned */
    struct bout **bouts;      /* in the order of their days */
    size_t bout_count;
    struct phase *phases;
    size_t phase_count;
    struct name *left_phases; /* those for which the days before the bout do not reach */
    size_t left_phase_count;
    const struct limits **limits; /* in force, house defaults last */
    size_t limits_count;
    int weeks;                /* how many ISO weeks it spans */
    size_t number;            /* place in programme.camps */
};

/* A finding waived in one place (`waive`). */
struct waiver {
    const char *check;           /* name of the check */
    const char *because;
    int first, last;             /* days it covers */
    bool capped;                 /* it applies only up to a figure, or for an "at least" down to it: */
    milli cap;                   /* in the unit in which the message gives the figure; time in minutes */
    const struct camp *camp;     /* of all its athletes; or NULL */
    const void *place;           /* the line it stands under, or NULL; occasions made by it carry the same */
    struct span span;
};

#endif
