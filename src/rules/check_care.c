/* What an athlete's age, body mass and last bout ask of the coach. Nobody else is shown any of it, and none of it is
 * advice on weight or on days off. */
#include "figures/mass.h"
#include "measure/member.h"
#include "measure/person.h"
#include "model/athlete.h"
#include "rules/checks.h"
#include "rules/run.h"

enum { DAYS_OF_WEEK = 7, WEIGHINGS = 3, MOST_FALL = 15 /* thousandths a week */ };

/* --- under age --- */

/* The first day on which the athlete does something and is under age, or 0. What the coach is shown may depend on a
 * private file. */
static int young_on(const struct window *window)
{
    for (size_t i = 0; i < window->count; i++)
        if (athlete_is_young(window->athlete, window->occasions[i]->date))
            return window->occasions[i]->date;
    return 0;
}

/* What is asked of the young must not depend on a file that others lack. */
void check_age_group(struct run *run, const struct rule *rule, const struct window *window)
{
    const struct athlete *athlete = window->athlete;
    if (athlete->born || athlete->under_age || !young_on(window))
        return;
    struct about about = {.window = window, .severity = rule_severity(rule), .span = athlete->born_span};
    struct finding *finding = run_report(run, rule, &about,
                                         "%s: under %d by this date of birth, and the plan does not say so",
                                         athlete->name.shown, GROWN);
    if (!finding)
        return;
    diag_note(run->diag, finding, athlete->name.span, "the athlete is declared here");
    diag_help(run->diag, finding, "below `athlete %s`, write `age group under %d`", athlete->name.shown, GROWN);
}

/* The first day to come on which the athlete does something and has grown out of the group, or 0. */
static int outgrown_on(const struct run *run, const struct window *window)
{
    struct athlete person = *window->athlete;
    person.born = person.born ? person.born : person.born_private;
    for (size_t i = 0; i < window->count; i++) {
        int day = window->occasions[i]->date;
        if (!run_is_past(run, day) && athlete_age(&person, day) >= person.under_age)
            return day;
    }
    return 0;
}

/* A group that a day of birth belies: either of the two lines is wrong, and limits go by one of them. */
void check_age_outgrown(struct run *run, const struct rule *rule, const struct window *window)
{
    const struct athlete *athlete = window->athlete;
    int day = athlete->under_age ? outgrown_on(run, window) : 0;
    if (!day)
        return;
    struct about about = {.window = window, .severity = rule_severity(rule), .span = athlete->under_span};
    struct finding *finding = run_report(run, rule, &about, "%s: by the date of birth, no longer under %d on %s",
                                         athlete->name.shown, athlete->under_age, date_words(run, day));
    if (!finding)
        return;
    if (!athlete->born)
        diag_set_private(run->diag, finding);
    diag_remark(run->diag, finding, athlete->born ? "the date of birth is in the plan, and limits depend on it"
                                                  : "limits depend on this line as long as it is there");
    diag_help(run->diag, finding, "leave the line out, or correct the date of birth");
}

/* For the coach alone: it would reveal an age. */
void check_supervision(struct run *run, const struct rule *rule, const struct window *window)
{
    if (!young_on(window))
        return;
    struct about about = {
        .window = window, .severity = rule_severity(rule), .span = window->athlete->name.span};
    struct finding *finding =
        run_report(run, rule, &about, "%s: a coach is on the floor whenever there is lifting",
                   window->athlete->name.shown);
    if (!finding)
        return;
    diag_set_private(run->diag, finding);
    diag_remark(run->diag, finding,
                "common practice; the list `under 18` applies by itself, with lighter limits");
}

/* --- body mass --- */

/* Whether a private file is at hand; without one nothing here is reported. */
static bool has_private_mass(const struct athlete *athlete)
{
    for (size_t i = 0; i < athlete->mass_count; i++)
        if (athlete->masses[i].private)
            return true;
    return false;
}

static void refer(struct run *run, struct finding *finding)
{
    if (!finding)
        return;
    diag_set_private(run->diag, finding);
    diag_remark(run->diag, finding,
                "for the coach alone: a matter for the commission's rules and a physician or a "
                "dietitian; nothing here advises on weight");
}

/* The latest weighing not after TODAY (0: whenever it was), or NULL. */
static const struct body_mass *weighed_last(const struct athlete *athlete, int today)
{
    const struct body_mass *last = NULL;
    for (size_t i = 0; i < athlete->mass_count; i++) {
        const struct body_mass *weighing = &athlete->masses[i];
        if ((!today || weighing->date <= today) && (!last || weighing->date >= last->date))
            last = weighing;
    }
    return last;
}

void check_mass_planned(struct run *run, const struct rule *rule, const struct window *window)
{
    const struct athlete *athlete = window->athlete;
    int today = run_today(run);
    const struct body_mass *last = weighed_last(athlete, today);
    for (size_t i = 0; today && last && i < athlete->mass_count; i++) {
        const struct body_mass *weighing = &athlete->masses[i];
        if (weighing->date <= today || weighing->mass >= last->mass || !has_private_mass(athlete) ||
            !athlete_under(athlete, weighing->date, GROWN))
            continue;
        struct about about = {
            .window = window, .severity = rule_severity(rule), .span = athlete->name.span};
        refer(run, run_report(run, rule, &about, "%s: a lower body mass is planned",
                              athlete->name.shown));
    }
}

/* The masses of the seven days that end on LAST, in grams. */
struct weighed {
    int64_t sum;
    int count;
};

static struct weighed week_of(const struct athlete *athlete, int last)
{
    struct weighed week = {0, 0};
    for (size_t i = 0; i < athlete->mass_count; i++)
        if (athlete->masses[i].date <= last && athlete->masses[i].date > last - DAYS_OF_WEEK) {
            week.sum += mass_to(athlete->masses[i].mass, MASS_IN_KG);
            week.count++;
        }
    return week;
}

/* The mean of seven days, of which DAY has a weighing, against that of the seven before, without dividing. */
static bool falls_fast(const struct athlete *athlete, int day)
{
    struct weighed now = week_of(athlete, day), before = week_of(athlete, day - DAYS_OF_WEEK);
    if (!before.count || now.count + before.count < WEIGHINGS)
        return false;
    int64_t fall = before.sum * now.count - now.sum * before.count;
    return fall * 1000 > MOST_FALL * before.sum * now.count;
}

/* Looked at on the last day on which there was a weighing. */
void check_mass_falling(struct run *run, const struct rule *rule, const struct window *window)
{
    const struct athlete *athlete = window->athlete;
    const struct body_mass *last = weighed_last(athlete, run_today(run));
    if (!last || !has_private_mass(athlete) || !falls_fast(athlete, last->date))
        return;
    struct about about = {.window = window, .severity = rule_severity(rule), .span = athlete->name.span};
    refer(run, run_report(run, rule, &about, "%s: the last weighings are worth talking about",
                          athlete->name.shown));
}

/* --- after a bout --- */

/* A bout in any of the athlete's camps before DAY whose result or medical check has not been entered; or NULL. Its camp is
 * *CAMP. */
static const struct bout *open_bout(const struct window *window, int day, const struct camp **camp)
{
    for (size_t i = 0; i < window->timeline->camp_count; i++) {
        *camp = window->timeline->camps[i];
        for (size_t b = 0; b < (*camp)->bout_count; b++) {
            const struct bout *bout = (*camp)->bouts[b];
            if (!bout->cancelled && bout->last < day && !(bout->result_known && bout->checked))
                return bout;
        }
    }
    return NULL;
}

void check_provisional(struct run *run, const struct rule *rule, const struct window *window)
{
    const struct camp *camp = NULL;
    const struct bout *bout = open_bout(window, window->first, &camp);
    int today = run_today(run);
    if (!bout)
        return;
    struct about about = {.window = window,
                          .severity = today > bout->day ? SEVERITY_WARNING : rule_severity(rule),
                          .span = window->occasions[0]->span,
                          .subject = camp,
                          .subject_number = bout->day};
    struct finding *finding =
        run_report(run, rule, &about, "%s: what follows the bout on %s is provisional",
                   window->athlete->name.shown, date_words(run, bout->day));
    if (!finding)
        return;
    diag_note(run->diag, finding, camp->name.span,
              "below the bout, `result` and `medical check` are not entered");
    diag_remark(run->diag, finding,
                "when training goes on is for the commission's rules and a physician to say");
}
