/* resolver.h - from trees to a programme; shared by the resolve_*.c files, which are the only ones of the model that
 * know of syntax. */
#ifndef BELL_RESOLVE_RESOLVER_H
#define BELL_RESOLVE_RESOLVER_H

#include "resolve/names.h"
#include "model/occasion.h"
#include "source/diag.h"
#include "syntax/tree.h"

struct activity;
struct athlete;
struct avoid;
struct best;
struct bout;
struct camp;
struct clocks;
struct deload;
struct exercise;
struct gym;
struct limits;
struct need;
struct programme;
struct protocol;
struct season;
struct strains;
struct test;
struct test_result;
struct waiver;

struct resolver {
    struct arena *arena;
    struct diag *diag;
    const struct sources *sources;
    struct programme *programme;
    struct names *exercises, *activities, *gyms, *athletes, *sessions, *camps, *limits, *protocols, *seasons, *tests;
    struct names *positions; /* that exercises are done in */
    struct names *looks; /* what names look like that look like others; see resolver_declare */
    size_t look_count;
    struct placed *placed; /* one for each occasion to be */
    size_t placed_count, placed_capacity;
    const struct placed **placed_order; /* those of sessions, see placed_near; NULL until it is asked for */
    size_t placed_ordered;
    struct placed *held;   /* the occasions of the record, without blocks as yet where they are of no session */
    size_t held_count, held_capacity;
    struct placed *overtaken; /* what the plan places on closed days */
    size_t overtaken_count, overtaken_capacity;
    int closed; /* the last day that is */
    bool full; /* more would have been placed; that has been said */
    bool large; /* more would have been worked out; that has been said */
    struct waiver *waivers;
    size_t waiver_count, waiver_capacity;
    struct done *done;
    size_t done_count, done_capacity;
    struct done **done_order; /* see order_logs */
    bool log_to_come;     /* a log of a future day was reported */
    struct names *called; /* athletes, by what they are called */
    struct left_out *left_out;
    size_t left_out_count, left_out_capacity;
    struct names *kit;    /* what exercises need, each with the first need of it */
    const char **needed;  /* the same in the order in which it came, folded */
    size_t needed_count, needed_capacity;
    size_t kit_compared;  /* what gyms have, with these */
    size_t counted_guessed; /* what may have been meant by names of nothing that is counted */
    struct shared **shared; /* a hash table; see resolve_alike.c */
    size_t shared_count, shared_room;
    const void **poisoned; /* a hash table; see resolver_poison */
    size_t poisoned_count, poisoned_capacity;
    struct span *unclear_spans; /* see resolver_mark_unclear */
    size_t unclear_count, unclear_capacity;
    bool unclear_all; /* it concerns everybody */
    struct missing_need **missing; /* by number of gym, NULL where not asked yet, and there by number of exercise */
    int today;
    struct clocks *clocks; /* see resolve_local_time.c; NULL until a zone is asked for */
    struct tracking *tracking; /* what athletes rest on and leave to others (tracking.h); NULL: nobody asks */
};

/* What a gym lacks of what an exercise needs; NULL: nothing. */
struct missing_need {
    bool known;
    const struct need *need;
};

struct template;

/* An occasion and what it will be worked out from. */
struct placed {
    struct occasion occasion;
    struct template *template;
    int from_column;     /* where its series start, from 0; -1 not said */
    bool by_camp;        /* they go by the weeks of the camp, not by those in which the session is met */
    bool absent;         /* the athlete does not come */
    struct figures *rpe; /* of the whole, as the line that places it says; or NULL */
    const struct deload *deload; /* of its day; NULL: none */
    const char *held_phase; /* of what the record has: folded; NULL: none */
};

/* --- resolver.c: what every file of the resolver does --- */

/* The ends of a NUMBER or RANGE of WHAT, whole numbers from 1 to MOST; reports and returns false otherwise. */
bool resolver_whole_range(struct resolver *r, const struct node *node, int most, const char *what, int *low, int *high);

/* What stands at SPAN in its file. */
const char *resolver_written(struct resolver *r, struct span span);

/* The name that NAME_NODE holds. */
struct name resolver_name(struct resolver *r, const struct node *name_node);

/* TEXT as it is compared, of which it is part where it is so written already: it lives as long as the tree. And the
 * same of a NAME or TEXT node. */
const char *resolver_folded(struct resolver *r, const char *text) __attribute__((returns_nonnull));
const char *resolver_fold(struct resolver *r, const struct node *node) __attribute__((returns_nonnull));

/* What of THING was not understood was reported: what seems to be missing from it is not a fault of its own. THING is
 * a table of names, a thing declared, or a member of one. SPAN tells whom that concerns, see resolver_mark_unclear. */
void resolver_poison(struct resolver *r, const void *thing, struct span span);
bool resolver_is_poisoned(const struct resolver *r, const void *thing);

/* What stands at SPAN was not understood, or names what could not be read: whoever rests on the statement at the margin
 * that it stands in is in doubt (resolve_unclear.c). */
void resolver_mark_unclear(struct resolver *r, struct span span);

/* The most restrictions, holds and such that one athlete has. */
enum { MOST_BARRED = 200 };

/* Has LIST, of WHOSE (`an athlete`), MOST of WHAT? Reports at SPAN, once, one that is more: each of them is compared with
 * each line of work. */
bool resolver_is_full(struct resolver *r, const void *list, size_t count, size_t most, struct span span, const char *whose,
                      const char *what);

/* Weeks times athletes times sets can make gigabytes of a few lines: is that so? Says so at SPAN, once. */
bool resolver_is_too_large(struct resolver *r, struct span span);

/* How many errors there are so far. */
size_t resolver_errors(const struct resolver *r);

/* Reports a STATEMENT with nothing below it where something has to be. */
void resolver_filled(struct resolver *r, const struct node *statement);

/* Adds to FINDING, which is about the name NODE, what may be meant instead: the nearest name of the COUNT TABLES; or those
 * that share its words; or the one and else the other. Returns whether there is something. */
bool resolver_propose_near(struct resolver *r, struct finding *finding, const struct node *node,
                           struct names *const *tables, size_t count);
bool resolver_propose_alike(struct resolver *r, struct finding *finding, const struct node *node,
                            struct names *const *tables, size_t count);
bool resolver_propose(struct resolver *r, struct finding *finding, const struct node *node, struct names *const *tables,
                      size_t count);

/* Reports NODE as an unknown WHAT, with the nearest name of TABLE as the fix. */
void resolver_unknown(struct resolver *r, const struct node *node, const char *what,
                      struct names *table);

/* Reports a line whose colon was forgotten, or has no space behind it, so that all of its dose lies in NAME: then NAME
 * starts with one of TABLE. WHAT are the two that the colon parts. Returns whether it was so. */
bool resolver_missing_colon(struct resolver *r, const struct node *name, const struct names *table, const char *what);

/* What NODE names in TABLE; reports it and returns NULL when there is none. */
void *resolver_find(struct resolver *r, const struct node *node, const char *what,
                    struct names *table);

/* The same of the athlete that NAME, one of a list, names; reports two whom no comma parts (resolve_camp.c). */
const struct athlete *resolver_athlete(struct resolver *r, const struct node *name);

/* The index of NODE's text in WORDS; reports it and returns -1 when it is not one of them. */
int resolver_word(struct resolver *r, const struct node *node, const struct vocabulary *words);

/* Reports a comma in the name of a WHAT that stands in lists: athletes, sessions, exercises, activities. */
void resolver_report_comma(struct resolver *r, const struct name *name, const char *what);

/* The name among those of WHAT, all of them in TABLE, that looks as that of THING does, or NULL; and its report. */
const struct name *resolver_find_alike(struct resolver *r, const struct names *table, const struct name *name,
                                       const void *thing, const char *what);
void resolver_report_alike(struct resolver *r, const struct name *name, const struct name *first, const char *what);

/* Adds THING under NAME to TABLE; reports a second declaration at the first, and a name that looks the same as one that is
 * there. */
void resolver_declare(struct resolver *r, struct names *table, const struct name *name, void *thing,
                      const char *what);

/* Reports a second statement of one kind in OWNER where only one may stand; returns the first or NULL. */
const struct node *resolver_single(struct resolver *r, const struct node *owner, enum node_kind kind);

/* The first statement of each kind in the block of one, and which kinds stand there more than once. */
struct said {
    const struct node *owner, *first[STATEMENT_END];
    bool twice[STATEMENT_END];
};

struct said resolver_said(const struct node *owner);

/* The language of the line `print in` below OWNER; NULL: there is none, or one without a catalogue, which is reported. */
const struct language *resolver_language(struct resolver *r, const struct node *owner);

/* resolver_single, where several kinds are asked for. */
const struct node *resolver_said_once(struct resolver *r, const struct said *said, enum node_kind kind);

/* How many nodes stand in a row from FIRST on, which may be NULL. */
size_t resolver_count(const struct node *first);

/* "yes" or "no" of a statement; reports anything else. */
bool resolver_yes(struct resolver *r, const struct node *statement);

/* The text of the first TEXT or NAME of a statement, or NULL where STATEMENT is NULL. */
const char *resolver_text(const struct node *statement);

/* --- resolve_figure.c: figures as written --- */

/* One figure, several week by week (`/`), or several set by set (`,`). Values in thousandths; what was written as
 * minutes:seconds is in thousandths of a second with MEASURE_CLOCK. */
struct figures {
    enum measure measure;
    int count;
    struct range *values;
    bool *max;              /* which of the values are `max` */
    bool series, list;
    bool repeat_last;       /* `/...` */
    int used;               /* columns of a series met so far */
    const struct athlete *marked_by; /* whose mark is noted last, and where; see tracking.c */
    size_t mark;
    bool reported;          /* as too short, or not to be */
    struct finding *too_short; /* that report; NULL: none so far */
    bool cut;               /* one was too large, which was reported */
    struct span span;
};

/* The figures of a FIGURE node; NULL for NULL. Ranges that run backward are reported, and figures larger than
 * anything that a line can mean, which are then cut: a time is at most a day, so that what it is multiplied with fits. */
struct figures *figures_read(struct resolver *r, const struct node *node);

/* The same of a limit on what a week or a whole camp comes to. */
struct figures *figures_read_total(struct resolver *r, const struct node *node);

/* The mass of a FIGURE with a unit of mass; reports and returns -1 otherwise. */
mass figures_mass(struct resolver *r, const struct figures *figures, int index);

/* Whole seconds of one figure: clock, s, min or h. Reports and returns -1 for other measures. */
int figures_seconds(struct resolver *r, const struct figures *figures, milli value);

/* One figure that is no range and no series. */
bool figures_is_one(const struct figures *figures);

/* The one figure that is all that DOSE says, as in `70 min`: no times, no side, no load. NULL if it says anything else. */
struct figures *figures_alone(struct resolver *r, const struct node *dose);

/* The one time that a dose such as `70 min` gives; reports and returns 0 otherwise. */
int figures_time_of(struct resolver *r, const struct node *dose);

/* The effort that a statement `rpe 7` gives, 1 to 10, with its series still open; NULL where STATEMENT is NULL or gives
 * none, which is reported. */
struct figures *figures_rpe(struct resolver *r, const struct node *statement);

/* Index of the value for COLUMN (from 0): marks it used; reports a series that is too short, once, and then
 * returns its last. A figure that is no series has one value for every column. */
int figures_column(struct resolver *r, struct figures *figures, int column);

/* The figure's unit in words, for messages. */
const char *measure_words(enum measure measure);

/* --- one file a declaration --- */

void resolve_gym(struct resolver *r, const struct node *node, struct gym *gym);
/* Warns of kit that no exercise needs by that name, but by one much like it: the exercise would be replaced. Called
 * once all exercises are known. */
void gym_check_names(struct resolver *r, const struct gym *gym);
void resolve_exercise(struct resolver *r, const struct node *node, struct exercise *exercise);
void resolve_activity(struct resolver *r, const struct node *node, struct activity *activity);
/* Tells the findings which parts of TREE are for the coach alone. In the order of the files. */
void resolve_private_parts(struct resolver *r, const struct tree *tree);
void resolve_athlete(struct resolver *r, const struct node *node, struct athlete *athlete);
/* Puts bests, results and mornings of ATHLETE in order, once all are there: to sort them behind each block that has some would
 * cost as much as their number squared. */
void order_entries(struct athlete *athlete);
/* From when to when a season lasts; and, once all are known, which of them share days. */
void resolve_season(struct resolver *r, const struct node *node, struct season *season);
void report_seasons_overlap(struct resolver *r);
void resolve_protocol(struct resolver *r, const struct node *node, struct protocol *protocol);

/* What NODE says of TEST, on top of what an entry of the shelf has said; and, once all are read, whether they can be worked
 * out of each other (resolve_test.c). */
void resolve_test(struct resolver *r, const struct node *node, struct test *test);
void check_test(struct resolver *r, const struct node *node, struct test *test);
/* VALUE of MEASURE in the unit of TEST; -1 where it does not measure that. */
milli test_measure(const struct test *test, enum measure measure, milli value);

/* --- resolve_outcome.c: results of tests --- */

/* The day of the line `results` above LINE; 0: it stands below no such line. */
int results_day(const struct node *line);
/* Adds the results of NODE, `results DATE NAME`, to those of ATHLETE. */
void resolve_results(struct resolver *r, const struct node *node, struct athlete *athlete);

/* What the result of TEST at LINE says; false where something is wrong, which is reported. */
bool read_outcome(struct resolver *r, const struct node *line, const struct test *test, struct test_result *result);
/* BEST, if it was lifted once, as a result of TEST, which measures its exercise. */
bool best_as_result(struct resolver *r, const struct best *best, const struct test *test, struct test_result *result);
/* Adds RESULT to those of ATHLETE, of which there is room for CAPACITY; and, once all are there, puts them in order. */
void keep_result(struct resolver *r, struct athlete *athlete, const struct test_result *result, size_t *capacity);
void order_results(struct athlete *athlete);

/* What of the block at NODE, of an athlete or private, bars that athlete's training: holds, days out, suspensions. */
void resolve_barred(struct resolver *r, const struct node *node, struct athlete *athlete);
/* Adds the `head knock` lines of NODE, of an athlete, private or log. */
void resolve_knocks(struct resolver *r, const struct node *node, struct athlete *athlete);

/* Reads the lines `return` below `private NAME`, once the athlete's own restrictions are read; elsewhere they are errors. */
void resolve_returns(struct resolver *r, const struct node *node, struct athlete *athlete);

/* What a step's lines `allows` name, and its short name and title from TEXT. */
struct permits step_permits(struct resolver *r, const struct node *step);
void step_title(struct resolver *r, const char *text, const char **name, const char **title);

/* Says of LINE, which counts, that it tells of ATHLETE's health in a file that others read. */
void report_shared(struct resolver *r, const struct node *line, const char *athlete);

/* Adds the lines `pain` of NODE, of an athlete, private or log; and, once all are there, puts them in order. */
void resolve_pains(struct resolver *r, const struct node *node, struct athlete *athlete);
void order_pains(struct athlete *athlete);

/* Reads the lines `morning` below `private NAME`; elsewhere they are errors. */
void resolve_mornings(struct resolver *r, const struct node *node, struct athlete *athlete);
void order_mornings(struct athlete *athlete);

/* Who entered something, as the NAME node says: is it a doctor? Reports where somebody else may not. */
bool entered_by_doctor(struct resolver *r, const struct node *name);
/* The day of an entry such as `ended by WHO on DATE`; reports and returns 0 where it is still to come. */
int entered_on(struct resolver *r, const struct node *entry);

/* The bout at LINE: its days, whether it was postponed or cancelled (resolve_bout.c), and what it
 * came to. And what BOUT, which that was, puts on its days, besides what was placed in CAMP from FIRST on. */
struct bout *resolve_bout(struct resolver *r, const struct node *line);
void place_bout(struct resolver *r, const struct node *line, const struct camp *camp, const struct bout *bout, size_t first);
void resolve_result(struct resolver *r, const struct node *of, struct bout *bout);

/* Leaves out of what is placed, and then of the occasions, what holds and days out bar. */
void leave_out_placed(struct resolver *r);
void leave_out_items(struct resolver *r, struct occasion *occasions, size_t *count);

/* Reads the log at NODE; and, once all that is planned is placed, puts what logs say into it: OCCASIONS are the
 * programme's. */
void resolve_log(struct resolver *r, const struct node *node);
void settle_logs(struct resolver *r, struct occasion *occasions);
/* Puts what logs tell in order, once all are read, so that it is found fast. */
void order_logs(struct resolver *r);
/* What a log at NODE of a session says of its lines: fills DONE's (resolve_logged.c). And puts those with sets in order,
 * for `@ last`. */
void resolve_logged(struct resolver *r, const struct node *node, struct done *done);
void order_lifted(struct resolver *r);
/* Does a log say that OCCASION was done? */
bool occasion_is_logged(const struct resolver *r, const struct occasion *occasion);
/* --- resolve_held.c: the record of closed days --- */

/* The name of the exercise that the line ITEM of a record names: without the place (`A1`) in front. And that place, "A.1",
 * or "". */
const char *held_exercise(struct resolver *r, const struct node *item, const char **ref);
/* The version of SESSION that holds on DAY: the last that began by then, or else the earliest. */
struct session *session_on(struct session *session, int day);
/* Reads the day until which all are closed, and what was held. */
void resolve_held_until(struct resolver *r, const struct node *node);
void resolve_held(struct resolver *r, const struct node *node);
/* --- held_days.c: the record as a whole --- */

/* Looks at all that was read. */
void check_held(struct resolver *r);
/* What the record has of SESSION for ATHLETE on DAY, or NULL; at the hour CLOCK, where that is not below 0. */
const struct occasion *held_session(const struct resolver *r, const struct athlete *athlete,
                                    const struct session *session, int day, int clock);
/* What the record has where the plan has PLANNED, or NULL. */
const struct occasion *held_of(const struct resolver *r, const struct occasion *planned);
/* Reports what the plan says of closed days against the record (resolve_history.c). */
void compare_history(struct resolver *r);
/* Puts the record in place of all that the plan places on closed days. */
void close_placed(struct resolver *r);
void resolve_limits(struct resolver *r, const struct node *node, struct limits *limits);
void resolve_camp(struct resolver *r, const struct node *node, struct camp *camp);

/* `12 x 3:00 rest 1:00`: rounds, and seconds of work and rest. */
void resolve_clock(struct resolver *r, const struct node *node, int *rounds, int *work, int *rest);

/* Reads the lines `joints` and `both sides`; either may be NULL. */
void read_strains(struct resolver *r, const struct node *joints_line, const struct node *both_line,
                  struct strains *strains);

/* A joint and its demand that FOLDED nearly says, "left knee deep"; or NULL. */
const char *nearest_joint(struct resolver *r, const char *folded);

/* Fills AVOID's region, joint, demand and sides from FOLDED, the words of NODE: `left back thigh`, `knee deep`. False: they
 * name neither; nothing is reported. */
bool read_avoided_joint(struct resolver *r, const struct node *node, const char *folded, struct avoid *avoid);

/* Declares an exercise's or activity's other names, and returns them and how many they are. */
struct name *declare_aliases(struct resolver *r, const struct node *node, struct names *table, void *thing,
                             const char *what, size_t *count);

#endif
