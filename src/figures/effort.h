#ifndef BELL_FIGURES_EFFORT_H
#define BELL_FIGURES_EFFORT_H

#include <stdbool.h>
#include <stdint.h>

/* Every figure here is in thousandths: 82.5 % is 82500, RPE 8.5 is 8500, 7 repetitions 7000. */

enum effort_reps {
    EFFORT_REPS_KNOWN,
    EFFORT_REPS_AT_LEAST, /* lighter than the table's last row: that row's count, or more */
    EFFORT_REPS_REFUSED   /* not a load: 0 % or below */
};

/*
 * Repetitions possible at a percentage of the one-rep maximum, in thousandths. Between two rows
 * of the table the count is taken on the straight line between them and cut, not rounded, so that
 * it never promises more than the table; above 100 % it is 0. The interpolation is ours; the
 * table is Haff and Triplett (eds), Essentials of Strength Training and Conditioning, 4th ed.
 * 2016, chapter 17, quoted from memory. Individuals vary widely around it (6 to 26 repetitions at
 * 70 % in the squat: J Strength Cond Res 35(2), 2021).
 */
enum effort_reps effort_reps_at(int64_t percent, int64_t *reps);

/* 
 * The percentage at which this many repetitions and no more are possible, by the same table and on the same straight
 * lines, to the nearest. 0 outside of its rows, from 1 to 15 repetitions.
 */
int64_t effort_percent_for(int64_t reps);

/*
 * Repetitions left in reserve at an RPE, a lowest and a highest, in thousandths and whole. The scale says 1 at RPE 9, 2 at
 * 8 and 3 at 7, "1 or 2" at 8.5, "2 or 3" at 7.5, none more at 9.5 (though more load), none at 10, and "4 to 6" from 5
 * to below 7; what lies between two of its steps has the range of both. False, and both 0, below 5, where the scale
 * counts no repetitions, and above 10. Published: Zourdos et al. 2016, J Strength Cond Res 30:267-275.
 */
bool effort_reserve(int64_t rpe, int64_t *least, int64_t *most);

/* Intensity zones for counting lifts; a lift on a border belongs to the heavier zone. */
enum effort_zone {
    EFFORT_BELOW_70,
    EFFORT_70_TO_80,
    EFFORT_80_TO_90,
    EFFORT_FROM_90,
    EFFORT_ZONES /* how many there are */
};

/*
 * The zone of a percentage of the one-rep maximum. The borders are those of the table attributed
 * to Prilepin, which is known from secondary sources only.
 */
enum effort_zone effort_zone_of(int64_t percent);

#endif
