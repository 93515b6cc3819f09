/* run.h - what every check gets: a stretch of one athlete's plan, the limits that apply in it, and a place to report
 * to. Read by the files of this room only. */
#ifndef BELL_RULES_RUN_H
#define BELL_RULES_RUN_H

#include <glib.h>

#include "base/arena.h"
#include "measure/counts.h"
#include "model/limit.h"
#include "model/occasion.h"
#include "measure/tally.h"
#include "limits/limits.h"
#include "rules/rules.h"
#include "source/diag.h"

struct athlete;
struct camp;
struct exercise;
struct gym;
struct phase;
struct programme;

/* What a check is called for, by bits. */
enum scope {
    SCOPE_OCCASION = 1,
    SCOPE_WEEK = 2,      /* an ISO week of an athlete, over all camps */
    SCOPE_PHASE = 4,     /* a phase of a camp, for one athlete */
    SCOPE_CAMP = 8,      /* a camp, for one athlete */
    SCOPE_ATHLETE = 16,  /* all that an athlete does */
    SCOPE_PROGRAMME = 32 /* the programme itself; no athlete, no occasions: an open session has those of some alone (recall.h) */
};

/* A stretch of an athlete's plan. */
struct window {
    enum scope scope;
    const struct timeline *timeline; /* NULL for the programme */
    const struct athlete *athlete;   /* the timeline's, or NULL */
    const struct camp *camp;         /* of an occasion, a phase or a camp, else NULL */
    const struct phase *phase;       /* of an occasion or a phase, else NULL */
    int first, last;                 /* days, both inside */
    const struct occasion *const *occasions;
    size_t count;
    size_t at;                     /* of the first of them in timeline->occasions */
    const struct tally **sum;      /* of them all, once window_tally was asked; NULL for the athlete and the programme */
    const struct in_force *limits; /* of this scope */
    size_t limit_count;
    unsigned kinds; /* of these limits, as bits 1 << enum counted_group */
};

/* All that an athlete does, by date. */
struct timeline {
    const struct athlete *athlete;
    const struct occasion **occasions;
    size_t count;
    struct arena *arena;       /* of what is summed */
    struct tally *tallies;     /* of each occasion that is SUMMED; only while the athlete is checked */
    bool *summed;
    const struct camp **camps; /* those the athlete is in */
    size_t camp_count;
    struct window *weeks; /* from the first to the last, empty ones too */
    size_t week_count;
    int *first_seen; /* day, by number of exercise; 0 never */
    bool *missing_kit; /* of the exercises seen: the athlete's gym lacks something for it */
};

struct run;

/* The occasions of every athlete, in order of date, as they stand in the programme. */
struct timeline *timelines_of(struct run *run);

/* What the checks ask of one athlete's occasions, with room for their sums in TALLIES. One athlete after another, so that a
 * large club's figures are still near the processor when they are checked. */
void timeline_gather(struct run *run, struct timeline *timeline, struct tally *tallies);

/* The window of all occasions from FIRST to LAST. */
struct window timeline_window(const struct timeline *timeline, enum scope scope, int first, int last);

/* Room for the sum of a window. */
const struct tally **timeline_sum_place(const struct timeline *timeline);

/* The sums of one occasion, and of all occasions of WINDOW, worked out when they are first asked for: where a week is asked
 * for, most others are not looked at. NULL for the athlete and the programme. */
const struct tally *timeline_tally(const struct timeline *timeline, size_t at);
const struct tally *window_tally(const struct window *window);

/* What is true of all findings of a check, as bits. */
enum rule_mark {
    FIRM = 1,  /* they cannot be waived */
    TOGETHER = 8, /* they rest on who trains beside the athlete */
    TO_COME = 4, /* they hold what is to be done against what is known now: a closed day is none of their concern */
    HEALTH = 2 /* they reveal who is hurt, where or since when: services learn only that the work is not for this
                * athlete on this day (run_meet sees to it) */
};

struct rule {
    enum diagnostic diagnostic; /* its name and title, and its severity unless a limit says another */
    unsigned scopes;
    void (*check)(struct run *run, const struct rule *rule, const struct window *window);
    enum counted_group group; /* of the checks of limits: which counts they are about */
    unsigned marks;           /* bits of enum rule_mark */
};

static inline enum severity rule_severity(const struct rule *rule)
{
    return diagnostic_severity(rule->diagnostic);
}

extern const struct rule rules[];
extern const size_t rules_count;

struct rooms;
struct groups; /* findings so far, by what they are about (report.c) */

/* Repetitions and strikes of each limb in WEEK; NULL: none yet (balance.c). */
struct week_done {
    const struct window *week;
    milli limbs[LIMB_COUNT];
};

/* What a waiver came to. */
struct waived {
    bool used;        /* it has kept something quiet */
    bool passed;      /* something went past its figure: */
    bool figureless;  /* which has no figure */
    milli worst;
};

/* That something went past the figure of a waiver, by its place among them. */
struct passing {
    size_t waiver;
    milli figure; /* as in struct about */
    bool floor;
};

struct recalls;

struct run {
    struct arena *arena;
    const struct programme *programme;
    struct diag *diag;
    struct groups *groups;
    struct margins *margins;          /* where they are asked for, or NULL */
    const struct wanted *wanted;      /* the only occasions about which something is reported; NULL: all of them */
    enum severity least;              /* of what is reported about them */
    bool *barred;                     /* occasions with an error are noted here; or NULL */
    struct waived *waived;            /* by waiver */
    const struct limit_table *tables; /* one for each camp, in order */
    const struct window *week;        /* the athlete's week that is being checked, or NULL */
    const struct recalls *recalls;    /* findings of each athlete are kept apart (recall.h); or NULL */
    struct passing *passings;         /* then, of the athlete who is checked */
    size_t passing_count, passing_capacity;
    GHashTable *identities;           /* and what things of the programme are called from one run to the next */
    struct week_done strength, strikes; /* of the week whose balance was asked for last */
    struct rooms *rooms;                /* NULL until they are asked for (rooms.c) */
    bool company_unclear; /* of the athlete who is checked: somebody in a camp with them is in doubt */
};

/* The layered limits of CAMP, a camp of the programme. */
const struct limit_table *run_table(const struct run *run, const struct camp *camp);

/* The day on which the athlete of WINDOW first does EXERCISE, or 0. */
int run_first_seen(const struct window *window, const struct exercise *exercise);

/* Whether EXERCISE is in its first WEEKS for the athlete when WINDOW begins. With an earlier best in it, or result of its
 * test, it is already known. */
bool run_is_new(const struct window *window, const struct exercise *exercise, int weeks);

/* counted_amount and counted_figure, mass in the unit that leads at the gym of the athlete of WINDOW. */
const char *run_amount(struct run *run, const struct window *window, enum counted counted, milli value);
const char *run_figure(struct run *run, const struct window *window, enum counted counted, milli value);

/* --- reporting (report.c) --- */

/* What a finding is about. Findings of one rule, SPAN and SUBJECT are one fault met several times: the one with the
 * largest WEIGHT is reported, and how often it was met. */
struct about {
    const struct window *window;
    enum severity severity;
    struct span span;
    const void *subject;    /* a thing of one athlete, or one that recall_identify numbers; else OTHER tells faults apart */
    int64_t subject_number; /* beside SUBJECT, a day for instance */
    struct span other;      /* a second place that tells it apart; all 0: there is none */
    milli weight;
    milli figure; /* as the message gives it, for a `waive ... up to`; 0 if it gives none */
    bool floor;   /* less of it is worse */
    const struct left_out *left_out; /* what it is about, if that is not planned; or NULL */
};

/* Notes that what a waiver is for goes past its figure. */
void waived_pass(struct waived *waived, const struct passing *passing);

/* Whether somebody asks for WINDOW: for at least one occasion of it, if not for all. */
bool run_wants(const struct run *run, const struct window *window);

/* Reports, unless the fault is already known: then returns NULL, and nothing more is to be added. */
struct finding *run_report(struct run *run, const struct rule *rule, const struct about *about,
                           const char *format, ...) __attribute__((format(printf, 4, 5)));

/* The same in two steps, for checks whose words take long to form and that meet one fault in week after week: counts
 * the fault, and returns a finding that waits for its words; or NULL, as above. */
struct finding *run_meet(struct run *run, const struct rule *rule, const struct about *about);
void run_say(struct run *run, struct finding *finding, const char *format, ...)
    __attribute__((format(printf, 3, 4)));

/* For a fault that becomes worse each time it is met: the finding that run_meet has just returned is worded and noted at
 * the end, by SAY, which is given the last WHAT of SIZE bytes. */
typedef void (*run_sayer)(struct run *run, struct finding *finding, const void *what);
void run_say_last(struct run *run, run_sayer say, const void *what, size_t size);

/* The lines that add up to a count, as notes, largest first; *LARGEST is where the first of them stands. */
bool run_note_lines(struct run *run, struct finding *finding, const struct window *window,
                    enum counted counted, enum side side, struct span *largest);

/* A note at the line of LIMIT that says where it comes from. */
void run_note_limit(struct run *run, struct finding *finding, const struct limit *limit);

/* --- what is left (margin.c) --- */

/* Records, for margins, that SIDE of COUNTED in WINDOW has LEFT before it reaches LIMIT; below 0 it is past it. Without
 * a LIMIT, and while findings are asked for, nothing happens. */
void run_margin(struct run *run, const struct window *window, const struct limit *limit,
                enum counted counted, enum side side, milli left);

/* From FIGURE to the nearer end of a band, below 0 outside it. */
milli margin_within(milli figure, milli low, milli high);

/* "week 10 of Harbour final (from 2027-05-03)", "Hips before hands on 2027-03-01", "strength of Harbour final": where a
 * window is. */
const char *window_words(struct run *run, const struct window *window);

/* "on 2027-03-01", "Oriel Tamsin, Hips before hands on 2027-03-01" */
const char *occasion_words(struct run *run, const struct occasion *occasion);

/* "A.1 back squat", or what is done in rounds without a letter: "rope". */
const char *item_words(struct run *run, const struct item *item);

const char *date_words(struct run *run, int day);

/* Today, or 0 where no day is known; and has DAY gone by, as far as it is? */
int run_today(const struct run *run);
bool run_is_past(const struct run *run, int day);

/* "2027-03-01", and close to a bout "2027-05-20 (2 days before the bout)". */
const char *day_words(struct run *run, const struct occasion *occasion);

/* Whether GYM lacks something that EXERCISE needs (kit.c). */
bool kit_is_missing(const struct gym *gym, const struct exercise *exercise);

struct groups *groups_new(struct arena *arena);
/* Adds to every finding how often else its fault was met, and ends the groups. */
void groups_finish(struct run *run);

#endif
