/* programme.h - what a plan means, once every name, date, load and limb is worked out. No syntax in it: the rules,
 * the sheets and the exports read this and nothing else. Its parts have a file each; who reads only some of them
 * includes those. */
#ifndef BELL_MODEL_PROGRAMME_H
#define BELL_MODEL_PROGRAMME_H

#include <stdbool.h>
#include <stddef.h>

#include "base/arena.h"
#include "model/activity.h"
#include "model/athlete.h"
#include "model/block.h"
#include "model/exercise.h"
#include "model/gym.h"
#include "model/limit.h"
#include "model/log.h"
#include "model/occasion.h"
#include "model/season.h"
#include "model/set.h"
#include "model/test.h"

struct sources;

struct programme {
    struct arena *arena;
    const struct sources *sources;
    struct exercise **exercises;
    size_t exercise_count;
    struct activity **activities;
    size_t activity_count;
    struct gym **gyms;
    size_t gym_count;
    struct athlete **athletes;
    size_t athlete_count;
    struct session **sessions;
    size_t session_count;
    struct camp **camps;
    size_t camp_count;
    struct test **tests;
    size_t test_count;
    struct season **seasons;
    size_t season_count;
    struct limits **limits;
    size_t limits_count;
    const struct occasion *occasions; /* by date, clock, session, athlete in order of declaration */
    size_t occasion_count;
    const struct left_out *left_out;  /* by athlete, then by date */
    size_t left_out_count;
    const struct done *logs;
    size_t log_count;
    const struct logged_line **lifted; /* those with sets, by athlete, exercise, date, and as they were written */
    size_t lifted_count;
    const struct waiver *waivers;
    size_t waiver_count;
    int closed;                       /* the last day that is closed: from the record until then; 0 none */
    int today;                        /* the date given; 0 none */
    bool has_private;                 /* a private file was read */
    bool incomplete; /* something was not understood and was reported: what seems to be missing may be there */
    const bool *unclear; /* then, by athlete: that may be of theirs; NULL where all was understood */
};

#endif
