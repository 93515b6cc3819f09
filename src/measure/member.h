/* member.h - who is in a camp on which day, and on which its bout is. */
#ifndef BELL_MEASURE_MEMBER_H
#define BELL_MEASURE_MEMBER_H

#include "model/season.h"

struct athlete;
struct occasion;
struct programme;

/* Is the athlete of CAMP at INDEX in it on DAY? */
bool member_on(const struct camp *camp, size_t index, int day);

/* Is ATHLETE in CAMP on DAY, and on one of the days from FIRST to LAST? */
bool camp_has(const struct camp *camp, const struct athlete *athlete, int day);
bool camp_has_between(const struct camp *camp, const struct athlete *athlete, int first, int last);

/* Does ATHLETE join or leave CAMP within these days? */
bool camp_has_partly(const struct camp *camp, const struct athlete *athlete, int first, int last);

/* Is CAMP to have its bout, or has it had it? Not where it was cancelled. And is DAY one of its days? */
bool camp_has_bout(const struct camp *camp);
bool camp_bouts_on(const struct camp *camp, int day);

/* The last day of CAMP's bout: of a tournament the day that was lost, or else its last. 0: it has none. */
int camp_bout_end(const struct camp *camp);

/* Is it the bout of its own camp, and not a line that names one? */
bool occasion_is_bout(const struct occasion *occasion);

/* Is it no training: travel, an exam? It takes up its hour and counts for nothing. */
bool occasion_is_rest(const struct occasion *occasion);

/* Is DAY one of SEASON, and which of the plan's seasons has it? NULL: none. */
bool season_has(const struct season *season, int day);
const struct season *season_of(const struct programme *programme, int day);

#endif
