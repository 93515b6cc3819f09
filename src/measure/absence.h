/* absence.h - why an athlete does nothing on a day, as far as everybody may know it. */
#ifndef BELL_MEASURE_ABSENCE_H
#define BELL_MEASURE_ABSENCE_H

struct athlete;
struct programme;

enum absence { ABSENCE_NONE, ABSENCE_AWAY, ABSENCE_CLOSED, ABSENCE_ABSENT };

/* Of ATHLETE on DAY. Who is ill is away like anybody else, and a hold is no absence: neither is for a sheet to tell. */
enum absence athlete_absence(const struct programme *programme, const struct athlete *athlete, int day);

/* "away", "closed", "absent"; "" for none. */
const char *absence_name(enum absence absence);

#endif
