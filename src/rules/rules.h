/* rules.h - what is checked in a plan once its meaning is known. */
#ifndef BELL_RULES_RULES_H
#define BELL_RULES_RULES_H

#include "source/diag.h"

struct programme;

/* Runs every check over PROGRAMME and reports to DIAG. Where something was not understood, those whom it may concern are not
 * checked, nor the rooms of whoever is in a camp with them, nor what is found in the programme as a whole. */
void rules_run(const struct programme *programme, struct diag *diag);

/* What is asked for, each by its place in the programme. */
struct wanted {
    bool *occasions, *left_out;
    bool unhelped; /* nobody reads what would help: to find that for a squad's room takes longer than all checks */
};

/* Reports what is of LEAST severity or worse, and only what is found in sessions, weeks, phases and camps that contain
 * a WANTED occasion or, for what is left out of the plan, in what is wanted of it. Occasions with an error in them are
 * noted in BARRED, which may be NULL. WANTED may be NULL: then all is, and what is less severe than LEAST is reported
 * unless it takes long to work out. */
void rules_run_wanted(const struct programme *programme, const struct wanted *wanted, enum severity least, bool *barred,
                      struct diag *diag);

/* For listing and explaining checks. */
struct rule;
size_t rule_count(void);
const struct rule *rule_at(size_t index);
/* The check called NAME, or NULL. */
const struct rule *rule_find(const char *name);
/* The name of the check whose name is closest to NAME, or NULL. */
const char *rule_nearest(const char *name);
enum diagnostic rule_diagnostic(const struct rule *rule);

#endif
