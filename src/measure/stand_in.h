/* stand_in.h - what can stand in for an exercise that an athlete must not do, the nearest first.
 *
 * How near one exercise is to another is common practice, no source: first the movement, then the regions that a set
 * counts for, then whether it is lifted, held or thrown, whether the same limbs work, and whether a kilogram means the
 * same. */
#ifndef BELL_MEASURE_STAND_IN_H
#define BELL_MEASURE_STAND_IN_H

#include <stdbool.h>
#include <stddef.h>

struct arena;
struct athlete;
struct exercise;
struct gym;
struct programme;

enum { STAND_INS_MOST = 8 };

struct stand_in {
    const struct exercise *exercise;
    int kept; /* of 1000 */
};

/* For whom, where and when. ATHLETE and GYM may be NULL: nobody's restrictions, and all kit. */
struct stand_in_for {
    const struct programme *programme;
    const struct exercise *exercise;
    const struct athlete *athlete;
    const struct gym *gym;
    int day;
    bool freely;    /* as if the athlete had to avoid nothing */
    bool same_dose; /* only what the dose of EXERCISE can be read for */
};

/* The nearest STAND_INS_MOST or fewer that ASKED's gym has the kit for, that no restriction of its athlete bars on its day,
 * not on one side either, and that are meant for the athlete's lifting age. Where the athlete is on hold there are none:
 * the hold's own step says what may be done. Returns how many. */
size_t stand_ins_find(const struct stand_in_for *asked, struct stand_in found[STAND_INS_MOST]);

/* "keeps squat, hips; loses low back; another load", in ARENA. */
const char *stand_in_words(struct arena *arena, const struct exercise *from, const struct exercise *to);

/* Does anything of ASKED's gym that ASKED's athlete may do load REGION, and is any of it more than a hold? ASKED's exercise
 * is not looked at. */
enum left_of { LEFT_NOTHING, LEFT_HOLDS, LEFT_WORK };
enum left_of region_left(const struct stand_in_for *asked, int region);

#endif
