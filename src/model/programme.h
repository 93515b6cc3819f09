/* programme.h - what a plan means, once every name, date, load and limb is worked out. No syntax in it: the rules,
 * the sheets and the exports read this and nothing else.
 *
 * Units, everywhere: mass in hundredths of a microgram, in which kilograms and pounds are both whole (figures/mass.h);
 * plain numbers, percentages, RPE and repetitions in thousandths (`milli`, so
 * 82.5 % is 82500 and 5 reps are 5000); time in whole seconds; length in centimetres; dates as day numbers
 * (figures/dates.h), 0 where none is given. Everything lives in the compile's arena. */
#ifndef BELL_MODEL_PROGRAMME_H
#define BELL_MODEL_PROGRAMME_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "base/arena.h"
#include "figures/mass.h"
#include "model/kinds.h"
#include "source/source.h"

typedef int64_t milli; /* thousandths of a plain number */
typedef int64_t mass;  /* hundredths of a microgram */

enum stance { STANCE_UNKNOWN, STANCE_ORTHODOX, STANCE_SOUTHPAW };

/* A figure or a range; low == high for a plain figure. */
struct range {
    milli low, high;
};

/* --- what is declared --- */

/* A name as written, how it is compared, and where it was declared. */
struct name {
    const char *shown, *folded;
    struct span span;
};

struct disc {
    mass mass;
    int count;
};

/* A piece of the gym's kit, by its name: "trap bar", "medium band", "rack". */
struct kit {
    struct name name;
    mass mass;      /* for a bar; 0 for what has no mass */
    int count;      /* how many there are */
};

/* A step of the warm-up to a heavy lift. */
struct ramp_wish {
    milli percent; /* of the load it leads to */
    int reps;
};

enum { RAMP_STEPS = 6 };

/* Days on which a gym's doors are closed, in all camps; both included. */
struct closure {
    int first, last;
    const char *because; /* or NULL */
    struct span span;
};

struct gym {
    struct name name;
    const struct closure *closures;
    size_t closure_count;
    enum mass_unit unit; /* the unit that its sheets and messages put first */
    bool both_units;     /* some discs are in kilograms and some in pounds */
    struct ramp_wish ramp[RAMP_STEPS]; /* rising */
    int ramp_count;                    /* 0: as usual, see load_ramp */
    int between_athletes; /* seconds from one athlete to the next at one piece of kit */
    int plate_change;     /* seconds to put on or take off one disc, both sides at once */
    struct kit *bars; /* barbells first, each mass once and each by the name "barbell"; then the named bars */
    size_t bar_count;
    struct disc *discs;      /* each mass once, heaviest first; count is of single plates */
    size_t disc_count;
    mass collar;             /* of one collar; 0 where none are used */
    struct disc *dumbbells;  /* count is of single dumbbells */
    size_t dumbbell_count;
    struct disc *kettlebells;
    size_t kettlebell_count;
    struct disc *balls;      /* throwing balls */
    size_t ball_count;
    struct kit *others;      /* bands, stations, and all other kit, named */
    size_t other_count;
    struct loading *loadings; /* prepared by model/loads.c: every load its discs make, on two sleeves and on one */
    size_t loading_count;
    size_t number;            /* place in programme.gyms */
};

/* Which limbs do the work of one repetition, by bits. Lead and rear follow the stance of the rep. */
enum worker {
    WORKER_LEAD_HAND = 1,
    WORKER_REAR_HAND = 2,
    WORKER_LEAD_LEG = 4,
    WORKER_REAR_LEG = 8,
    WORKER_LEAD_HIP = 16, /* a hip not named turns with the hand or leg of its own side */
    WORKER_REAR_HIP = 32,
    WORKER_HAND = 64, /* of exercises done by each side or both: which limb the side's rep lands on */
    WORKER_LEG = 128,
    WORKER_HIP = 256
};

enum side_rule { SIDE_BOTH, SIDE_EACH_SIDE, SIDE_EACH_WAY, SIDE_PER_STANCE };

struct fault {
    const char *fault, *fix; /* fix may be NULL */
};

/* Kit that an exercise needs. Alternatives are not kept: one line, one need. */
struct need {
    struct name name;
    int count;
};

struct substitute {
    struct name kit;             /* what is missing */
    const struct exercise *instead;
    struct name instead_name;
};

struct exercise {
    struct name name;
    struct name *aliases;
    size_t alias_count;
    enum exercise_kind kind;
    unsigned patterns;           /* bit 1 << enum pattern */
    enum pattern pattern;        /* the first named */
    enum side_rule side;
    int ways;                    /* of SIDE_EACH_WAY: 2, or the neck's 4; else 0 */
    unsigned workers;            /* bits of enum worker */
    unsigned again;              /* of these, what strikes twice in a repetition (the hook of a jab, cross, hook) */
    enum level level;            /* the least lifting age it is meant for; novice by default */
    struct need *needs;
    size_t need_count;
    milli loads[REGION_COUNT];   /* share of a set that counts for each region */
    const struct exercise *base; /* `percent of`: whose best a percentage is taken from; itself by default */
    milli factor;                /* of that best; 1000 by default */
    enum unit counts;
    enum weigh weigh;
    const char **cues;
    size_t cue_count;
    struct fault *faults;
    size_t fault_count;
    const char *stop;            /* stop rule or NULL */
    const struct exercise *easier, *harder;
    struct substitute *without;
    size_t without_count;
    bool shelf;                  /* from the shelf that comes with the program */
    bool lost;                   /* declared nowhere: only the record of closed days still names it */
    bool replaced;               /* replaced by one of the club's own: no name leads to it any more */
    const char **positions;      /* folded: "overhead", "kneeling" */
    size_t position_count;
    bool ballistic;              /* throws, strikes, jumps and all power work: done as fast as possible */
    size_t number;               /* place in programme.exercises */
};

/* Work outside the weight room: pads, sparring, roadwork. */
struct activity {
    struct name name;
    bool head;                   /* blows to the head can happen */
    int clock_rounds, clock_work, clock_rest; /* of a rule set's bout; 0 where none is given */
    const char *source;          /* of that clock, or NULL */
    bool sparring, contact;
    bool bag;                    /* its rounds count as bag rounds */
    bool rest;                   /* not training: travel, a medical check */
    bool outside;                /* not done at a gym: one that is closed does not matter */
    bool strikes;                /* its minutes include blows that nobody counts: pads, bag work, sparring */
    bool counts_rounds;
    bool shelf;
    struct range rpe;            /* usual effort, used if a line names none; low 0: none */
};

/* A best on a day. ONE_MAX is the one-rep maximum, estimated where reps > 1. */
struct best {
    const struct exercise *exercise;
    milli reps;
    mass load, one_max;
    bool estimated;
    int equation;   /* enum onerm_equation that estimated it (figures/onerm.h) */
    int date;
    bool private;   /* from a private file: sheets load by it, and reports do not name it */
    struct span span;
};

struct body_mass {
    mass mass;
    int date;
    bool private; /* from a private file */
};

/* What an athlete must not do until somebody with the right to say so ends it. Never why. */
struct avoid {
    const char *shown;         /* as written: "overhead press" */
    const struct exercise *exercise; /* one of these five is meant */
    int pattern, region, kind; /* of the vocabularies, or -1 */
    const char *position;      /* folded: "overhead"; or NULL */
    bool all_out;              /* efforts: nothing all-out or at RPE 9 and up */
    int since;                 /* its first day, or 0: it always stood */
    int expected;              /* day until which it is expected to stand, or 0; lifts nothing */
    int review;                /* day, or 0 */
    int ended;                 /* day on which it was ended, or 0 */
    const char *ended_by;
    const struct exercise *instead; /* or NULL */
    const struct exercise **can_do; /* exercises that stay allowed */
    size_t can_do_count;
    unsigned can_do_patterns;  /* bits of patterns that stay allowed (`all pulling`) */
    struct span span;
};

/* Work that a step of a protocol names. A name may belong to an exercise, an activity and more at once: all are
 * meant. */
struct permit {
    const struct exercise *exercise;
    const struct activity *activity;
    int pattern, kind; /* of the vocabularies, or -1 */
    const char *kit;   /* folded: all that needs it; or NULL */
    bool training;     /* any there is */
    milli cap;         /* RPE at most; 0: none */
};

struct permits {
    const struct permit *items;
    size_t count;
};

/* A step on the way back. Whatever it does not name is barred. */
struct protocol_step {
    const char *name, *title;  /* "2a", "light aerobic work" */
    struct permits allows;
    struct permits if_agreed;  /* only once a doctor has agreed, whatever `allows` says */
    struct permits bars;       /* not even where `allows` says so */
    int days, young_days;      /* how long it lasts at least, and under 18 */
    bool young_doctor;         /* under 18 a doctor enters that it was reached */
    bool wants_agreed;         /* a doctor has agreed before it begins */
    int back;                  /* the step that symptoms lead back to; -1: this one, again */
    bool end;                  /* it allows everything: its entry is `ended by` */
    struct span span;
};

struct protocol {
    struct name name;
    const struct protocol_step *steps;
    size_t step_count;
};

enum hold_entry_kind { ENTRY_REACHED, ENTRY_AGREED, ENTRY_ENDED, ENTRY_SYMPTOMS };

/* What somebody entered below a hold. */
struct hold_entry {
    enum hold_entry_kind kind;
    int day;
    int step;         /* of ENTRY_REACHED: place in the protocol's steps */
    const char *by;   /* "doctor Ines Tarrant"; NULL of symptoms */
    bool doctor;      /* its first word says so */
    bool private;     /* from a private file */
    struct span span;
};

/* A suspected concussion: no training from its moment on, then what the step of the protocol that was reached names. */
struct hold {
    int since, clock;                /* CLOCK: seconds from midnight, -1 not given */
    const struct protocol *protocol; /* NULL: none yet, and nothing is allowed */
    const struct hold_entry *entries; /* by day; within one day symptoms come last */
    size_t entry_count;
    bool private;                    /* written in a private file alone */
    struct span span;
};

/* Days for which nothing is planned. */
struct out {
    int first, last; /* both inside; LAST is DATE_LAST while it is open */
    bool away;       /* given with its days, by `away`: no hold takes its place */
    struct span span;
};

/* A commission's or federation's own bar. The days are the first allowed; 0: none, DATE_LAST: until further notice. */
struct suspension {
    const char *by;
    int since; /* 0: not given */
    int contact, bout;
    struct span span, contact_span, bout_span;
};

/* A blow to the head that somebody wrote down. */
struct knock {
    int day, clock; /* -1: no hour */
    bool shared;    /* not in a private file, where it belongs */
    struct span span;
};

struct athlete {
    struct name name;
    const char *called; /* on walls, boards and tables; NULL: by the whole name */
    const struct avoid *avoids;
    size_t avoid_count;
    const struct hold *holds;
    size_t hold_count;
    const struct out *outs;
    size_t out_count;
    const struct suspension *suspensions;
    size_t suspension_count;
    const struct knock *knocks;
    size_t knock_count;
    enum stance stance;
    int born;
    int under_age;     /* of `age group under 18`: 18; else 0. A day of birth in the plan goes before it */
    struct span under_span; /* of that line */
    int born_private;  /* written in a private file alone: no verdict, load or variant looks at it */
    struct span born_span; /* of that line */
    int lifting_since; /* first day of the month given */
    bool level_given;
    enum level level;  /* given, or worked out for the programme's first day */
    const struct gym *gym;
    struct best *bests;
    size_t best_count;
    struct body_mass *masses;
    size_t mass_count;
    bool pounds;       /* print pounds too */
    size_t number;     /* place in programme.athletes */
};

/* --- doses --- */

enum dose_side {
    DOSE_WHOLE,      /* both limbs at once, or nothing to split */
    DOSE_EACH_SIDE,  /* so many on the left and so many on the right */
    DOSE_EACH_WAY,   /* so many in each direction, of which the exercise has two or four */
    DOSE_ORTHODOX,
    DOSE_SOUTHPAW,
    DOSE_LEFT,
    DOSE_RIGHT
};

/* One summand of a set: `4 orthodox` of `4 orthodox + 2 southpaw`. */
struct part {
    struct range amount;  /* milli reps, seconds x 1000, metres x 1000, ...; high 0 with MAX */
    enum unit unit;
    enum dose_side side;
    unsigned workers;     /* 0: the exercise's own; else the limb the dose names (`3 lead hand`) */
    bool max;             /* as many as possible */
    bool several;         /* one time is more than one strike: a combination */
    bool assumed_each;    /* the dose named no side and the exercise is one-sided: meant on each */
};

enum { MOST_DISCS = 12 };

/* What goes on a bar: the discs of one side (or of the one sleeve), heaviest first. */
struct plating {
    const struct kit *bar; /* NULL for dumbbells, kettlebells and balls */
    mass collar;
    bool one_sleeve;
    int disc_count;
    mass discs[MOST_DISCS];
    bool both_units; /* the gym has discs in kilograms and in pounds, so each is shown with its unit */
};

struct load {
    enum load_kind kind;
    struct range percent;     /* LOAD_PERCENT; LOAD_BODY: share of body mass */
    mass asked, made;         /* what was meant, and what the gym's kit makes of it (equal if it makes nothing) */
    mass asked_high;          /* top of a range, else 0 */
    mass added;               /* LOAD_BODY: the kilograms on top of the share, as written: all a sheet may say */
    mass body;                /* LOAD_BODY: the share in kilograms, 0 where body mass is not known. It reveals what
                               * somebody weighs, so it is in neither ASKED nor MADE: only what was asked for with
                               * --private reads it */
    enum mass_unit unit;      /* the unit of all these: what is stamped on an implement, otherwise the gym's */
    int pieces;               /* `2 x 16 kg`: 2; else 1 */
    const char *thing;        /* LOAD_BAND */
    const struct best *best;  /* the best a percentage was taken from, or NULL */
    bool estimated;
    bool rounded_down;
    struct plating plating;   /* meant when plating.bar or plating.disc_count */
    enum effort_kind effort;  /* may accompany any kind of load */
    struct range effort_band; /* RPE, reps in reserve, rep maximum or beats a minute */
};

/* Seconds; fast marks a place written X (counted one second). All zero: none given. */
struct item_tempo {
    int lower, low_pause, lift, high_pause;
    bool lower_fast, low_pause_fast, lift_fast, high_pause_fast;
    bool given;
};

/* COUNT sets that are alike. */
struct set_run {
    int count;
    const struct part *parts;
    size_t part_count;
    bool hold;             /* `hold 25 s` */
    bool alternating;      /* one repetition in each stance in turn; the parts say how many that makes for each */
    bool cut;              /* of intervals: what the bell leaves of the last one */
    bool work_up;          /* `work up to a 3RM`: as many sets as it takes; the parts are those of the last */
    int repeats;           /* `6 x 40 m`: repeats inside the set; else 1 */
    int rest_low, rest_high; /* seconds between repeats; in a set not repeated, between its parts (a cluster's 2+2+2) */
    int within;            /* seconds that one repeat should take (`500 m in 2:00`); 0: not given */
    struct load load;
    struct item_tempo tempo;
    int seconds;           /* of one set of this run, both sides */
    struct span span;      /* of the dose */
};

/* Why a different exercise is done from the one in the line. */
enum exchange {
    EXCHANGE_NONE,    /* it is done itself */
    EXCHANGE_WRITTEN, /* a line below says so */
    EXCHANGE_AVOID,   /* in place of what the athlete has to avoid */
    EXCHANGE_KIT      /* the gym lacks what it needs */
};

/* One exercise of a block as one athlete does it. */
struct item {
    const struct exercise *exercise;
    const struct exercise *line_exercise; /* the one in the line; NULL: the same */
    enum exchange exchange;
    bool load_left;           /* the line's load is for the other implement, and only its effort carried over */
    const char *ref;          /* "A.1" */
    int index;                /* from 0 in its block, as in the session declared: pairs items across athletes */
    bool filler;              /* done in the rests of rounds */
    int round;                /* of `round 2 : ...`; 0 is every round */
    int after;                /* seconds before it starts, after the item above it; -1: not given */
    const struct set_run *runs; /* of a block of rounds: what is done in one round, or in one rest by a filler */
    size_t run_count;
    int sets;                 /* sum of the runs' counts */
    const char *cue;          /* the line's own cue, else NULL */
    const char *stop;         /* the line's own stop rule, else the exercise's, or NULL */
    const char *why;          /* why a variant was taken, for `show`; NULL if none was */
    bool own;                 /* chosen for the athlete, by a line `for` or by a restriction */
    struct span span;         /* of the line, or of the one below it that says what is done here */
};

struct block {
    enum block_kind kind;
    char letter;              /* 'A'...; 0 for rounds without one */
    int sets;                 /* sets or rounds */
    int work;                 /* seconds of one round, or of the whole for `every` and `as many` */
    int interval;             /* `every 1:00 for 10:00`: 60; else 0 */
    int rest_low, rest_high;  /* seconds between sets or rounds */
    int times;                /* `2 x` before rounds: how often the whole block is done; 0 and 1: once */
    int times_rest;           /* seconds between those */
    int keep;                 /* 1 matters most .. 3; 0 not given */
    const char *on_purpose;   /* why its partners load one region, as the plan says; or NULL */
    const struct item *items;
    size_t item_count;
    int seconds;              /* of the whole block, including rests inside it */
    int starts;               /* seconds from the start of the session */
    struct span span;         /* of the header line */
};

/* Whether each athlete may do some of the blocks in an order of their own. */
enum block_order {
    ORDER_WRITTEN,
    ORDER_ANY,
    ORDER_WAVES /* each starts at any of them and goes round from there */
};

/* A session as declared; its doses are resolved for each athlete and day. */
struct session {
    struct name name;
    const char *purpose;
    int under;                /* seconds; 0 none */
    enum block_order order;
    uint32_t free_blocks;     /* bits by letter, A first, of the blocks that this order covers */
    const void *node;         /* the tree it came from, and what was read from it: */
    void *template;           /* only the resolver looks at these two */
    int placed;               /* how often */
    int from;                 /* the first day of this version; 0: it is the only one, or the earliest */
    struct session *first, *later; /* the version that was declared first, itself mostly, and the next of its row, or NULL */
    bool is_base;             /* another is based on it: it need not be placed itself */
    size_t number;            /* place in programme.sessions, from 1 */
};

/* --- the calendar --- */

struct phase {
    struct name name;
    int first, last;          /* days, both inside */
    bool open;                /* no end known (recovery after the bout) */
    bool after_bout;
};

/* Days of a camp that are spent at another gym than where its athletes train; both inside. */
struct stay {
    const struct gym *gym;
    int first, last;
    const struct athlete **athletes; /* whom it is for */
    size_t athlete_count;            /* 0: all of the camp */
    struct span span;
};

/* From when to when somebody is in a camp; both inside. */
struct membership {
    int first, last; /* 0 and DATE_LAST where nothing is said */
};

struct camp {
    struct name name;
    const struct stay *stays;
    size_t stay_count;
    const struct athlete **athletes;
    size_t athlete_count;
    const struct membership *members; /* of ATHLETES, in their order; NULL: all of them from first to last */
    int first, last;          /* days of the camp, both inside; last is the end of the last week planned */
    int bout;                 /* day that the camp counts back to, of a tournament the first; or 0 */
    const int *bout_days;     /* of a tournament, rising; NULL: the one day */
    size_t bout_day_count;
    int bout_last;            /* the last of its days */
    int cancelled;            /* day on which it was cancelled, or 0: phases stay as they were */
    int moved_on;             /* day on which it was postponed, or 0: what came before stays counted to: */
    int planned_bout;
    int stopped_on;           /* of STOPPED: on which day */
    bool result_known, checked; /* the result and the medical check after the bout have been entered */
    bool stopped;             /* it ended by knockout or stoppage, not won, and nothing says that the head was not hit */
    bool lost;
    struct span bout_span, result_span;
    const char *bout_words;   /* "kickboxing 3 x 2:00 rest 1:00", or NULL */
    struct phase *phases;
    size_t phase_count;
    const struct limits **limits; /* in force, house defaults last */
    size_t limits_count;
    int weeks;                /* how many ISO weeks it spans */
    size_t number;            /* place in programme.camps */
};

/* A finding waived in one place (`waive`). */
struct waiver {
    const char *check;           /* name of the check */
    const char *because;         /* or NULL: not given, which is an error of its own */
    int first, last;             /* days it covers */
    bool capped;                 /* it applies only up to a figure, or for an "at least" down to it: */
    milli cap;                   /* in the unit in which the message gives the figure; time in minutes */
    const struct athlete *athlete; /* or NULL: the whole camp */
    const struct camp *camp;
    const void *place;           /* the line it stands under, or NULL; occasions made by it carry the same */
    struct span span;
};

/* How long and hard something really was, as a log says. */
struct outcome {
    bool logged, timed;
    int seconds;      /* where TIMED; 0: it was not done */
    struct range rpe; /* high 0: not given */
};

struct lateness {
    const struct athlete *athlete;
    int seconds;
};

/* Athletes who hold for each other. */
struct pairing {
    const struct athlete *const *athletes;
    size_t count;
};

/* Who comes to a session when, and how its room is run, according to the line that places it. */
struct attendance {
    int out_by;               /* the doors close; seconds from midnight, -1 not given */
    int coaches;              /* 0: not given */
    const struct lateness *late;
    size_t late_count;
    const struct pairing *pairs; /* none: as the camp names its athletes */
    size_t pair_count;
    struct span out_by_span;
};

/* Something one athlete does on one day. Either SESSION or ACTIVITY is set. */
struct occasion {
    const struct camp *camp;
    const struct athlete *athlete;
    const struct session *session;
    const struct activity *activity;
    const struct gym *gym;    /* where its line or camp says; NULL: where the athlete trains (occasion_gym) */
    int date;
    int clock;                /* seconds from midnight; -1 not given */
    int week;                 /* of the camp, from 1 */
    int weeks_out;            /* from the bout; -1 where there is none or it is past */
    const struct phase *phase; /* or NULL */
    int column;               /* of series, from 0 */
    const struct block *blocks;
    size_t block_count;
    int seconds;              /* of the whole */
    /* of an activity */
    int rounds;               /* 0 where minutes count */
    int round_seconds;
    struct range rpe;         /* planned effort of the whole session; low 0: none */
    struct outcome outcome;
    bool logged;              /* a log covers it, with or without what it took */
    struct range pulse;       /* beats a minute; high 0: none */
    struct range metres;      /* of roadwork and the like; high 0: not given */
    bool optional;            /* may be left out: counts against "at most" and not for "at least" */
    const struct attendance *attendance; /* NULL: the line that places it does not say */
    bool held;                /* of a closed day, as the record has it: no edit of the plan changes it */
    const void *place;        /* that line, for comparison with a waiver's */
    struct span span;         /* of the line that places it */
};

/* Why something that was placed is not planned. */
enum left_why {
    LEFT_OUT,    /* the athlete is out or away */
    LEFT_HELD,   /* a hold bars it */
    LEFT_ABSENT, /* the athlete is absent from this alone */
    LEFT_CLOSED  /* its gym is closed */
};

/* What was placed for an athlete and is not planned. */
struct left_out {
    struct occasion occasion; /* as it was placed; without blocks where nothing of it is planned */
    bool whole;               /* nothing of it is planned */
    enum left_why why;
    bool out;                 /* the plan itself says so: there is nothing to report */
    const struct closure *closure; /* of LEFT_CLOSED */
};

/* How long and hard something was, as a log says. Either SESSION or ACTIVITY is set. */
struct done {
    const struct athlete *athlete;
    const struct session *session;
    const struct activity *activity;
    int date;
    int clock; /* seconds from midnight; -1 not said */
    struct outcome outcome;
    struct span span;
};

/* --- limits --- */

enum limit_scope { LIMIT_WEEK, LIMIT_SESSION, LIMIT_PHASE, LIMIT_CAMP };
enum limit_bound { LIMIT_AT_MOST, LIMIT_AT_LEAST, LIMIT_WITHIN };

/* Days of a camp that a heading names: `first 2 weeks`, `10 days before a bout`, `2 weeks after a bout`. */
enum limit_stretch { STRETCH_ALL, STRETCH_FIRST, STRETCH_BEFORE_BOUT, STRETCH_AFTER_BOUT };

struct limit {
    enum limit_scope scope;
    const char *phase;        /* folded name of the phase it applies in, or NULL */
    struct span heading;      /* of that name */
    int level;                /* enum level, or -1 */
    int under_age;            /* applies to athletes under this age; 0: to all */
    enum limit_stretch stretch; /* applies on these days of the camp alone */
    int stretch_days;         /* how many they are */
    const char *counted;      /* folded: "sparring rounds", "pull sets", "time" (see model/counts.h) */
    enum limit_bound bound;
    milli value;              /* in the count's unit; time in seconds x 1000; percentages in thousandths */
    enum mass_unit unit;      /* of a mass, as it was written */
    milli top;                /* LIMIT_WITHIN: from VALUE to TOP, both allowed; else 0 */
    bool below_peak;          /* VALUE and TOP are per cent below the camp's largest week before the phase */
    bool a_side;              /* `a side`: left and right are each compared with VALUE */
    const char *against;      /* `at least 1.2 to 1 push`: folded count compared with ("push sets"), or NULL */
    const struct athlete *athlete; /* applies to one athlete alone, or NULL */
    int first_weeks;          /* `first 2 weeks of an exercise`: 2 (the count is "effort"); else 0 */
    enum force force;         /* what breaking it is */
    const char *source;       /* published source or "common practice", or NULL */
    struct span span;
};

struct limits {
    struct name name;
    const struct limits *base;
    struct limit *items;
    size_t count;
    size_t number; /* place in programme.limits */
};

struct programme {
    struct arena *arena;
    const struct sources *sources;
    struct exercise **exercises;
    size_t exercise_count;
    struct activity **activities;
    size_t activity_count;
    struct gym **gyms;
    size_t gym_count;
    struct athlete **athletes;
    size_t athlete_count;
    struct session **sessions;
    size_t session_count;
    struct camp **camps;
    size_t camp_count;
    struct limits **limits;
    size_t limits_count;
    const struct occasion *occasions; /* by date, clock, session, athlete in order of declaration */
    size_t occasion_count;
    const struct left_out *left_out;  /* by athlete, then by date */
    size_t left_out_count;
    const struct done *logs;
    size_t log_count;
    const struct waiver *waivers;
    size_t waiver_count;
    int closed;                       /* the last day that is closed: from the record until then; 0 none */
    int today;                        /* the date given; 0 none */
    bool has_private;                 /* a private file was read */
    bool incomplete; /* something was not understood and was reported: what seems to be missing may be there */
};

#endif
