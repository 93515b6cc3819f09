/* week_words.h - what a week's sheet says of days and of what was done on them. */
#ifndef BELL_LAYOUT_WEEK_WORDS_H
#define BELL_LAYOUT_WEEK_WORDS_H

struct arena;
struct frame;
struct occasion;
struct sheet_request;

/* "done: 52 min · RPE 7" or "not done" of what is gone by up to LAST_LOGGED; "" of what comes later. Why something was missed
 * is about somebody, and not for a sheet. */
const char *week_done(const struct frame *frame, int last_logged, const struct occasion *occasion);

/* Of a bout, that a medical check has to follow before there is more than recovery; else "". */
const char *week_check(struct arena *arena, const struct occasion *occasion);

/* Why DAY is as it is: "because exam", "closed, because school holiday"; "" where nobody says. Only what is said of the day:
 * what is said of somebody stands on no sheet. */
const char *week_reason(const struct sheet_request *request, int day);

#endif
