/* The checks, in the order in which they are run and of which a screen shows a week's first five warnings: what
 * cannot be done first, then what was set by the coach, then what rests on opinion. */
#include <string.h>

#include "base/text.h"
#include "rules/checks.h"
#include "rules/run.h"

enum {
    ALL_SUMS = SCOPE_OCCASION | SCOPE_WEEK | SCOPE_PHASE | SCOPE_CAMP,
};

#define OVER(name, group, title)                                                       \
    {                                                                                  \
        name, FAMILY_VOLUME, ALL_SUMS, SEVERITY_ERROR, title, check_over, group, 0 \
    }
#define UNDER(name, group, title)                                                         \
    {                                                                                     \
        name, FAMILY_VOLUME, ALL_SUMS, SEVERITY_WARNING, title, check_under, group, 0 \
    }
#define EACH_OCCASION(name, family, severity, title, check)                         \
    {                                                                               \
        name, family, SCOPE_OCCASION, severity, title, check, GROUP_MEASURED, 0 \
    }
#define PAIR(name, severity, title, check) \
    EACH_OCCASION(name, FAMILY_PAIRING, severity, title, check)
#define DAY(name, severity, title, check) EACH_OCCASION(name, FAMILY_PHASE, severity, title, check)
#define SENSE(name, severity, title, check) \
    EACH_OCCASION(name, FAMILY_SENSE, severity, title, check)

const struct rule rules[] = {
    {"hold-broken", FAMILY_PERSON, SCOPE_OCCASION, SEVERITY_ERROR,
     "sparring, contact or neck work on hold", check_hold_broken, GROUP_MEASURED, FIRM | HEALTH},
    {"hold-entry", FAMILY_PERSON, SCOPE_ATHLETE, SEVERITY_ERROR,
     "a hold ended on a day that is still to come", check_hold_future, GROUP_MEASURED, FIRM | HEALTH},
    {"avoid-broken", FAMILY_PERSON, SCOPE_OCCASION, SEVERITY_ERROR,
     "work that a standing restriction rules out", check_avoid_broken, GROUP_MEASURED, FIRM | HEALTH},
    PAIR("kit-missing", SEVERITY_ERROR, "kit that the gym does not have", check_kit_missing),
    PAIR("kit-twice", SEVERITY_ERROR, "one piece of kit wanted twice at once", check_kit_twice),
    PAIR("discs-short", SEVERITY_ERROR, "two bars that want more discs than there are",
         check_discs_short),
    DAY("hours-overlap", SEVERITY_ERROR, "two things at one hour", check_overlap),

    OVER("sparring-over", GROUP_SPARRING, "more sparring than the limit"),
    OVER("strikes-over", GROUP_STRIKES, "more strikes than the limit"),
    OVER("contacts-over", GROUP_CONTACTS, "more landings than the limit"),
    OVER("lifts-over", GROUP_LIFTS, "more lifts than the limit"),
    OVER("throws-over", GROUP_THROWS, "more throws than the limit"),
    OVER("time-over", GROUP_TIME, "longer than the limit"),
    OVER("rounds-over", GROUP_ROUNDS, "more rounds than the limit"),
    OVER("holds-over", GROUP_HOLDS, "more holding than the limit"),
    OVER("distance-over", GROUP_DISTANCE, "farther than the limit"),
    OVER("tonnage-over", GROUP_TONNAGE, "more tonnage than the limit"),
    OVER("load-over", GROUP_LOAD, "more session load than the limit"),
    OVER("sets-over", GROUP_SETS, "more sets than the limit"),
    OVER("sessions-over", GROUP_SESSIONS, "more sessions than the limit"),
    {"session-too-long", FAMILY_VOLUME, SCOPE_OCCASION, SEVERITY_ERROR,
     "a session longer than it is to be", check_overtime, GROUP_TIME, 0},
    {"load-rise", FAMILY_VOLUME, SCOPE_WEEK, SEVERITY_WARNING,
     "a week's load far above the four weeks before it", check_load_rise, GROUP_LOAD, 0},

    DAY("legs-before-sparring", SEVERITY_WARNING, "heavy legs too soon before hard sparring or a bout",
        check_legs_before_sparring),
    DAY("neck-before-sparring", SEVERITY_WARNING, "neck work right before sparring",
        check_neck_before_sparring),
    DAY("heavy-days-close", SEVERITY_WARNING, "heavy days of one pattern too close together",
        check_heavy_days),
    DAY("intensity-outside", SEVERITY_ERROR, "strength work outside the phase's intensity",
        check_intensity),
    DAY("reps-outside", SEVERITY_ERROR, "repetitions outside the phase's range",
        check_reps_outside),
    SENSE("reps-exceed-load", SEVERITY_WARNING, "more repetitions than the load allows",
          check_reps_exceed),
    {"first-weeks-effort", FAMILY_PERSON, SCOPE_OCCASION, SEVERITY_WARNING,
     "a new exercise at high effort", check_first_weeks_effort, GROUP_MEASURED, 0},
    PAIR("pair-same-region", SEVERITY_WARNING, "a superset that loads one region twice",
         check_same_region),
    PAIR("contrast-not-heavy", SEVERITY_WARNING, "a contrast whose first part is not heavy",
         check_contrast_light),
    PAIR("contrast-not-explosive", SEVERITY_WARNING,
         "a contrast whose second part is not explosive, or not prepared by the first",
         check_contrast_slow),
    PAIR("grip-before-hands", SEVERITY_WARNING, "tired hands right before fast ones",
         check_grip_before_hands),
    PAIR("skill-after-work", SEVERITY_WARNING, "a new skill after exhausting work",
         check_skill_after_work),
    PAIR("filler-loads-round", SEVERITY_WARNING, "a filler that loads what the round needs",
         check_filler_load),
    PAIR("filler-too-long", SEVERITY_WARNING, "fillers longer than the rest", check_filler_long),
    SENSE("tempo-on-fast-work", SEVERITY_WARNING, "a tempo on what is done as fast as possible",
          check_tempo_ballistic),
    SENSE("kilograms-open", SEVERITY_WARNING, "kilograms whose meaning is not said",
          check_kilograms_open),
    SENSE("best-old", SEVERITY_INFO, "a load taken from an old best", check_best_old),
    PAIR("contrast-rest-short", SEVERITY_INFO, "a contrast with little rest", check_contrast_rest),
    PAIR("wraps-on", SEVERITY_INFO, "no time to wrap the hands before the bag", check_wraps),

    UNDER("sessions-under", GROUP_SESSIONS, "fewer sessions than asked for"),
    UNDER("sets-under", GROUP_SETS, "fewer sets than asked for"),
    UNDER("sparring-under", GROUP_SPARRING, "less sparring than asked for"),
    UNDER("strikes-under", GROUP_STRIKES, "fewer strikes than asked for"),
    UNDER("contacts-under", GROUP_CONTACTS, "fewer landings than asked for"),
    UNDER("lifts-under", GROUP_LIFTS, "fewer lifts than asked for"),
    UNDER("throws-under", GROUP_THROWS, "fewer throws than asked for"),
    UNDER("time-under", GROUP_TIME, "shorter than asked for"),
    UNDER("rounds-under", GROUP_ROUNDS, "fewer rounds than asked for"),
    UNDER("holds-under", GROUP_HOLDS, "less holding than asked for"),
    UNDER("distance-under", GROUP_DISTANCE, "less distance than asked for"),
    UNDER("tonnage-under", GROUP_TONNAGE, "less tonnage than asked for"),
    UNDER("load-under", GROUP_LOAD, "less session load than asked for"),
    {"ratio-outside", FAMILY_VOLUME, ALL_SUMS, SEVERITY_WARNING,
     "two accounts out of the proportion asked for", check_ratio, GROUP_MEASURED, 0},
    {"strength-balance", FAMILY_VOLUME, SCOPE_WEEK, SEVERITY_WARNING,
     "strength work that leans to one side", check_strength_balance, GROUP_MEASURED, 0},
    {"strike-balance", FAMILY_VOLUME, SCOPE_WEEK, SEVERITY_INFO, "strikes that lean to one side",
     check_strike_balance, GROUP_MEASURED, 0},

    {"taper-volume", FAMILY_PHASE, SCOPE_PHASE, SEVERITY_WARNING,
     "a taper that cuts too little or too much", check_taper_volume, GROUP_MEASURED, 0},
    {"phase-too-short", FAMILY_PHASE, SCOPE_PHASE, SEVERITY_WARNING,
     "a phase of too few days to be one", check_phase_short, GROUP_MEASURED, 0},
    {"new-exercise-late", FAMILY_PHASE, SCOPE_PHASE, SEVERITY_WARNING,
     "new exercises where none are to come", check_new_exercise, GROUP_MEASURED, 0},
    {"lowering-late", FAMILY_PHASE, SCOPE_PHASE, SEVERITY_WARNING,
     "slow lowering where none is to come", check_lowering, GROUP_MEASURED, 0},
    {"substituted", FAMILY_PAIRING, SCOPE_ATHLETE, SEVERITY_WARNING,
     "another exercise than the line says", check_substituted, GROUP_MEASURED, 0},
    {"review-due", FAMILY_PERSON, SCOPE_ATHLETE, SEVERITY_WARNING,
     "a restriction whose review is due", check_review_due, GROUP_MEASURED, HEALTH},
    {"provisional", FAMILY_PERSON, SCOPE_OCCASION, SEVERITY_INFO,
     "what is planned after a bout whose entries are missing", check_provisional, GROUP_MEASURED,
     0},
    {"age-group-missing", FAMILY_PERSON, SCOPE_ATHLETE, SEVERITY_ERROR,
     "somebody under 18 by the private file alone", check_age_group, GROUP_MEASURED, FIRM | HEALTH},
    {"supervision", FAMILY_PERSON, SCOPE_ATHLETE, SEVERITY_INFO,
     "who lifts only with a coach on the floor", check_supervision, GROUP_MEASURED, HEALTH},
    {"mass-planned", FAMILY_PERSON, SCOPE_ATHLETE, SEVERITY_WARNING,
     "a lower body mass planned for the young", check_mass_planned, GROUP_MEASURED, HEALTH},
    {"mass-falling", FAMILY_PERSON, SCOPE_ATHLETE, SEVERITY_WARNING,
     "weighings that somebody should look at", check_mass_falling, GROUP_MEASURED, HEALTH},
    {"limit-never-holds", FAMILY_SENSE, SCOPE_PROGRAMME, SEVERITY_WARNING,
     "a limit for a phase that no camp has", check_never_holds, GROUP_MEASURED, 0},
    {"limit-loosened", FAMILY_VOLUME, SCOPE_PROGRAMME, SEVERITY_INFO,
     "a limit looser than the one it takes over", check_loosened, GROUP_MEASURED, 0},
    {"session-never-placed", FAMILY_SENSE, SCOPE_PROGRAMME, SEVERITY_WARNING,
     "a session that is in no week", check_never_placed, GROUP_MEASURED, 0},
    {"allow-unknown", FAMILY_SENSE, SCOPE_PROGRAMME, SEVERITY_ERROR,
     "an `allow` for a check that there is not, or that cannot be waived", check_waiver_unknown,
     GROUP_MEASURED, FIRM},
    {"allow-unused", FAMILY_SENSE, SCOPE_PROGRAMME, SEVERITY_WARNING,
     "an `allow` that waives nothing", check_waiver_unused, GROUP_MEASURED, FIRM},
    {"more-warnings", FAMILY_SENSE, 0, SEVERITY_WARNING,
     "warnings of one athlete's week beyond the first five", NULL, GROUP_MEASURED, FIRM},
    {"floors-missed", FAMILY_VOLUME, 0, SEVERITY_WARNING,
     "what one athlete's week has too little of, in a table", NULL, GROUP_MEASURED, FIRM},
};

#undef OVER
#undef UNDER
#undef PAIR
#undef DAY
#undef SENSE
#undef EACH_OCCASION

const size_t rules_count = sizeof rules / sizeof rules[0];

/* --- asking about them --- */

size_t rule_count(void)
{
    return rules_count;
}

const struct rule *rule_at(size_t index)
{
    return index < rules_count ? &rules[index] : NULL;
}

const struct rule *rule_find(const char *name)
{
    for (size_t i = 0; i < rules_count; i++)
        if (strcmp(rules[i].name, name) == 0)
            return &rules[i];
    return NULL;
}

const char *rule_nearest(const char *name)
{
    enum { FAR = 4 };
    const char *nearest = NULL;
    unsigned best = FAR;
    for (size_t i = 0; i < rules_count; i++) {
        unsigned distance = text_distance(rules[i].name, name, FAR);
        if (distance < best) {
            best = distance;
            nearest = rules[i].name;
        }
    }
    return nearest;
}

const char *rule_name(const struct rule *rule)
{
    return rule->name;
}

const char *rule_title(const struct rule *rule)
{
    return rule->title;
}

enum rule_family rule_family_of(const struct rule *rule)
{
    return rule->family;
}

enum severity rule_severity(const struct rule *rule)
{
    return rule->severity;
}

const char *rule_family_name(enum rule_family family)
{
    switch (family) {
    case FAMILY_VOLUME:
        return "volume";
    case FAMILY_PAIRING:
        return "pairing";
    case FAMILY_PHASE:
        return "phase";
    case FAMILY_PERSON:
        return "person";
    case FAMILY_SENSE:
        return "sense";
    }
    return "";
}
