/* How long, how far and how hard an activity is that stands on a day. */
#include "figures/clock.h"
#include "model/programme.h"
#include "resolve/place.h"
#include "resolve/template.h"

enum { USUAL_ROUND_REST = 60 /* seconds; common practice, no source */ };

/* The middle of a length of time. */
static int middle_seconds(struct resolver *r, struct figures *figures, int column)
{
    struct range value = figures->values[figures_column(r, figures, column)];
    int seconds = figures_seconds(r, figures, (value.low + value.high + 1) / 2);
    return seconds > 0 ? seconds : 0;
}

static int whole_rounds(struct resolver *r, struct figures *figures, int column)
{
    struct range value = figures->values[figures_column(r, figures, column)];
    if (value.low != value.high || value.low % 1000 || value.low < 1000 || value.low > 100000) {
        diag_error(r->diag, DIAG_BAD_COUNT, figures->span, "the number of rounds is a whole number from 1 to 100");
        return 0;
    }
    return (int)(value.low / 1000);
}

static bool is_distance(const struct dose *dose)
{
    return dose->part_count == 1 && dose->parts[0].figures->measure == MEASURE_METRE;
}

static void settle_activity_effort(struct resolver *r, const struct dose *dose, struct occasion *occasion)
{
    const struct dose_effort *effort = &dose->effort;
    if (!effort->given)
        return;
    struct range band = effort->figures ? effort->figures->values[figures_column(r, effort->figures, occasion->column)]
                                        : (struct range){0, 0};
    if (effort->word == EFFORT_WORD_RPE)
        occasion->rpe = band;
    else if (effort->word == EFFORT_WORD_PULSE)
        occasion->pulse = band;
    else
        diag_error(r->diag, DIAG_WRONG_EFFORT, effort->span, "an activity's effort is its RPE or its pulse");
}

/* Reports what only an exercise has. */
static void report_lifted(struct resolver *r, const struct dose *dose, const struct activity *activity)
{
    if (!dose->load.given && !dose->tempo.given)
        return;
    struct finding *finding = diag_error(r->diag, DIAG_WRONG_EFFORT, dose->load.given ? dose->load.span : dose->span,
                                         "%s is an activity, and has no %s", activity->name.shown,
                                         dose->load.given ? "load" : "tempo");
    diag_help(r->diag, finding, "leave it out, or write it into a session, below an exercise's name");
}

static int by_the_clock(int rounds, int work, int rest)
{
    int seconds = clock_rounds(rounds, work, rest);
    return seconds < 0 ? CLOCK_LIMIT : seconds;
}

void activity_settle(struct resolver *r, const struct dose *dose, struct occasion *occasion)
{
    const struct activity *activity = occasion->activity;
    int column = occasion->column, seconds = 0;
    settle_activity_effort(r, dose, occasion);
    report_lifted(r, dose, activity);
    if (is_distance(dose)) {
        occasion->metres = dose->parts[0].figures->values[figures_column(r, dose->parts[0].figures, column)];
        seconds = dose->within ? middle_seconds(r, dose->within, column) : 0;
        if (!dose->within)
            diag_error(r->diag, DIAG_NO_AMOUNT, dose->span, "in what time? `5000 m in 25:00`");
    } else if (dose->part_count == 1) {
        seconds = middle_seconds(r, dose->parts[0].figures, column);
    }
    occasion->seconds = seconds;
    if (dose->times) {
        int rest = dose->rest ? middle_seconds(r, dose->rest, column)
                   : activity->clock_rest ? activity->clock_rest : USUAL_ROUND_REST;
        occasion->rounds = whole_rounds(r, dose->times, column);
        occasion->round_seconds = seconds;
        if (occasion->rounds)
            occasion->seconds = by_the_clock(occasion->rounds, seconds, rest);
    } else if (dose->sets && dose->sets->measure == MEASURE_ROUNDS) {
        occasion->rounds = whole_rounds(r, dose->sets, column);
    }
    if (!occasion->seconds && !occasion->rounds && !is_distance(dose))
        diag_error(r->diag, DIAG_NO_AMOUNT, dose->span, "how long? `60 min` or `6 x 2:00`");
}

void activity_use_clock(struct occasion *occasion)
{
    const struct activity *activity = occasion->activity;
    occasion->rounds = activity->clock_rounds;
    occasion->round_seconds = activity->clock_work;
    occasion->seconds = by_the_clock(activity->clock_rounds, activity->clock_work, activity->clock_rest);
}
