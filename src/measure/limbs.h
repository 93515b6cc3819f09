/* limbs.h - the stance ledger: how much of the work each hand, leg and hip did, by stance.
 *
 * Orthodox is left foot and left hand in front, southpaw right. So every repetition whose stance and working limb are
 * known counts for a named limb, by these rules:
 *
 *   dose                   counts for
 *   so many in a stance    the lead or rear limb of that stance, as dose or exercise names it
 *   no stance, lead/rear   the same, in the athlete's own stance
 *   each side              the full count on the left and the full count on the right, in no stance
 *   left, right            that side, in no stance
 *   neither                both sides, each in full, in no stance
 *   each way               no limb; two or four ways in the total, as the exercise has
 *
 * With its limb goes a hip: the one named (`rear hip`), else the hip of the limb's own side. A
 * repetition counts once for a limb or hip however many reasons there are for it, but twice where
 * the exercise names the limb twice and the dose names none.
 *
 * A range keeps both ends: compare the top with an "at most" and the bottom with an "at least". */
#ifndef BELL_MEASURE_LIMBS_H
#define BELL_MEASURE_LIMBS_H

#include "model/kinds.h"
#include "model/quantity.h"

struct exercise;
struct item;
struct occasion;
struct part;
struct set_run;

enum { STANCE_COUNT = 3 };

/* Amounts in thousandths of the unit, over STANCE_UNKNOWN (no stance), STANCE_ORTHODOX and
 * STANCE_SOUTHPAW. Starts as {0}. */
struct ledger {
    /* Whose lead and rear count if a dose names no stance; ledger_occasion sets it. */
    enum stance own;
    struct range limbs[UNIT_COUNT][LIMB_COUNT][STANCE_COUNT];
    /* Everything that was done, whatever limb did it, if any; both sides count. */
    struct range done[UNIT_COUNT][STANCE_COUNT];
    /* Of that, what names lead or rear in a stance that is not known. */
    struct range unplaced[UNIT_COUNT];
    /* Something was done that has no number: `max`, as many rounds as possible. */
    bool open;
};

/* Adds TIMES sets of RUN, a run of ITEM. */
void ledger_add(struct ledger *ledger, const struct item *item, const struct set_run *run,
                int times);

/* The limbs and hips, as bits 1 << enum limb, that work in PART of EXERCISE for somebody whose own stance is OWN. Of what
 * is done on each side, those of the repetitions on SIDE (BARRED_LEFT or BARRED_RIGHT). 0: nobody can say. */
unsigned part_limbs(const struct exercise *exercise, const struct part *part, enum stance own, unsigned side);

/* What TIMES sets of RUN come to in UNIT, whatever limb did it: ledger.done, for callers that do not need the limbs. */
struct range run_done(const struct set_run *run, const struct exercise *exercise, enum unit unit,
                      int times);

/* Whether RUN asks for as many as possible, which has no number. */
bool run_is_open(const struct set_run *run);

/* Adds every set of an occasion as often as its blocks have it done. */
void ledger_occasion(struct ledger *ledger, const struct occasion *occasion);

/* What LIMB did of UNIT, in whatever stance. */
struct range ledger_limb(const struct ledger *ledger, enum unit unit, enum limb limb);

#endif
