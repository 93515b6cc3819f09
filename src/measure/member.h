/* member.h - who is in a camp on which day, and when its bouts are. */
#ifndef BELL_MEASURE_MEMBER_H
#define BELL_MEASURE_MEMBER_H

#include "model/season.h"

struct athlete;
struct occasion;
struct programme;

/* Is the athlete of CAMP at INDEX in it on DAY? */
bool member_on(const struct camp *camp, size_t index, int day);

/* Is ATHLETE in CAMP, on whichever days? */
bool camp_lists(const struct camp *camp, const struct athlete *athlete);

/* Is ATHLETE in CAMP on DAY, and on one of the days from FIRST to LAST? */
bool camp_has(const struct camp *camp, const struct athlete *athlete, int day);
bool camp_has_between(const struct camp *camp, const struct athlete *athlete, int first, int last);

/* Does ATHLETE join or leave CAMP within these days? */
bool camp_has_partly(const struct camp *camp, const struct athlete *athlete, int first, int last);

/* Is DAY one of the days on which BOUT is, or was? Not where it was cancelled, nor behind the day that lost a tournament. */
bool bout_is_on(const struct bout *bout, int day);

/* The last day of BOUT: of a tournament the day that was lost, or else its last. */
int bout_end(const struct bout *bout);

/* When BOUT began, as it was planned on DAY: one that is postponed moves from the day on which that was announced. */
int bout_as_planned(const struct bout *bout, int day);

/* The bout of CAMP that is on DAY; the one that comes next, that day or later, as was known then; or NULL. */
const struct bout *camp_bout_on(const struct camp *camp, int day);
const struct bout *camp_next_bout(const struct camp *camp, int day);

/* From which day on the work towards DAY's bout counts: the first of CAMP, or the Monday after the bout before DAY.
 * What follows the last bout goes with that. */
int camp_towards_from(const struct camp *camp, int day);

/* The bout that OCCASION is; NULL where it is none, or a line of the camp that names one. */
const struct bout *occasion_bout(const struct occasion *occasion);

/* Is it no training: travel, an exam? It takes up its hour and counts for nothing. */
bool occasion_is_rest(const struct occasion *occasion);

/* Is DAY one of SEASON, and which of the plan's seasons has it? NULL: none. */
bool season_has(const struct season *season, int day);
const struct season *season_of(const struct programme *programme, int day);

#endif
