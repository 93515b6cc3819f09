/* suggest.h - one small edit that would bring a count down to its limit, tried before it is suggested. */
#ifndef BELL_RULES_SUGGEST_H
#define BELL_RULES_SUGGEST_H

#include "rules/run.h"

/* What an edit is to do. */
struct suggestion_aim {
    enum counted counted;
    enum side side;
    milli most;      /* what the count may come to */
    int first, last; /* days whose occasions are summed */
};

/* Up to three sets or rounds fewer of one line of WINDOW on one day, or up to fifteen minutes less of an activity, in
 * words, if that is enough: the window is summed again without them, and no floor of it or of that week that was met
 * may be broken. What the plan keeps least (`keep`) comes first, then the least, then what leaves most; NULL if there
 * is none. If time is short, a block with `keep 3` may be left out. Neck and shoulder care is left alone. */
const char *suggest_over(struct run *run, const struct window *window, const struct suggestion_aim *aim);

#endif
