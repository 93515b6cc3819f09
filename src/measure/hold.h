/* hold.h - a suspected concussion: which step of its protocol is in force on a day, and what that allows.
 *
 * Whatever the protocol does not mention is barred. Nothing ends by the calendar: only an entry that somebody made
 * moves a hold on, and one that is dated after today, comes too soon or was made by the wrong person does not count. */
#ifndef BELL_MEASURE_HOLD_H
#define BELL_MEASURE_HOLD_H

#include "model/quantity.h"

struct athlete;
struct block;
struct exercise;
struct hold;
struct hold_entry;
struct item;
struct left_out;
struct occasion;
struct permits;
struct programme;
struct protocol_step;

/* The state of a hold once everything that counts up to a day is taken in. */
struct hold_state {
    int step;    /* in force; of the protocol, the first from the day after the knock */
    int began;   /* its first day */
    int agreed;  /* day on which a doctor agreed, or 0 */
    int upset;   /* day of the last symptoms: nothing more is done on it; or 0 */
    bool ended;
};

/* Why an entry does not count. */
enum hold_fault {
    HOLD_FINE,
    HOLD_FUTURE,    /* dated after today */
    HOLD_BEFORE,    /* dated before the hold, or on the day of the knock */
    HOLD_OVER,      /* the hold had ended */
    HOLD_SKIPS,     /* the step before was not reached */
    HOLD_EARLY,     /* the step before has to last longer */
    HOLD_NO_DOCTOR, /* under 18 a doctor enters the step */
    HOLD_UNAGREED,  /* no doctor has agreed since the last symptoms */
    HOLD_IS_END,    /* the last step is entered as the end */
    HOLD_TOO_FEW    /* the step before the last was not reached */
};

/* A hold before any entry. */
struct hold_state hold_begin(const struct hold *hold);

/* STEP of the protocol of HOLD; NULL: none that the program knows. */
const struct protocol_step *hold_step(const struct hold *hold, int step);

/* Takes in ENTRY, which comes after everything that STATE has taken in, unless it does not count. YOUNG: the athlete is
 * under 18 on its day. TODAY: 0 is never. */
enum hold_fault hold_enter(struct hold_state *state, const struct hold *hold, const struct hold_entry *entry,
                           bool young, int today);

/* The first day on which the step after STATE's may begin. */
int hold_next_day(const struct hold_state *state, const struct hold *hold, bool young);

/* Whose entries are looked at. */
enum hold_sight {
    HOLD_ALL,
    HOLD_SHARED,  /* those that a copy without the private file has */
    HOLD_MORNING  /* all, but of the day itself no symptoms: what was done before them */
};

/* HOLD, of ATHLETE, on DAY. */
struct hold_state hold_on(const struct hold *hold, const struct athlete *athlete, int day, int today,
                          enum hold_sight sight);

/* Is HOLD, of ATHLETE, in force on DAY, at whichever step? */
bool hold_stands(const struct hold *hold, const struct athlete *athlete, int day, int today);
bool athlete_held(const struct athlete *athlete, int day, int today);

/* Does the plan say that nothing is planned for ATHLETE on DAY? And is it `away` that says so? */
bool athlete_said_away(const struct athlete *athlete, int day);
bool athlete_out(const struct athlete *athlete, int day);

/* Is ATHLETE held, out, absent or before a closed door on one of the days from FIRST to LAST? Nothing can be asked of
 * what is left of those days. */
bool athlete_away(const struct programme *programme, const struct athlete *athlete, int first, int last);

/* Is a hold of ATHLETE in force on DAY, at a step that does not allow all training? Loads do not rise then. */
bool athlete_stands_still(const struct athlete *athlete, int day, int today);

/* The first day from FIRST to LAST on which ATHLETE is not out, or 0. */
int athlete_not_out(const struct athlete *athlete, int first, int last);

/* Does a hold of ATHLETE reach OCCASION? What was logged before its moment is history, and so is what was logged on
 * its day if no hour is known. *HOLD, if not NULL, is the first that does. */
bool hold_reaches(const struct athlete *athlete, const struct occasion *occasion, int today, const struct hold **hold);

/* The first hold of OCCASION's athlete that bars ITEM of BLOCK, or OCCASION if it is an activity; NULL: none does. */
const struct hold *hold_bars_item(const struct occasion *occasion, const struct block *block, const struct item *item,
                                  int today);
const struct hold *hold_bars_activity(const struct occasion *occasion, int today);

/* Do the holds of OCCASION's athlete allow ITEM of BLOCK, or all of it if it is an activity? */
bool hold_allows_item(const struct occasion *occasion, const struct block *block, const struct item *item, int today);
bool hold_allows_activity(const struct occasion *occasion, int today);

/* What of ATHLETE's is left out of the plan, and how many they are. */
const struct left_out *athlete_left_out(const struct programme *programme, const struct athlete *athlete, size_t *count);

/* Is there no work at all that the athlete's holds allow at the time of OCCASION? */
bool hold_allows_nothing(const struct occasion *occasion, int today);

/* Do PERMITS name EXERCISE, whatever its effort? And the highest RPE that they allow it; 0: none is set. */
bool permits_name(const struct permits *permits, const struct exercise *exercise);
milli permits_cap(const struct permits *permits, const struct exercise *exercise);

#endif
