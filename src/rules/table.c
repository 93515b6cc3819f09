/* The checks, in the order in which they are run and in which a week's five warnings are told: what cannot
 * be done first, then what was set by the coach, then what rests on opinion. */
#include <string.h>

#include "rules/checks.h"
#include "rules/run.h"

enum {
    ALL_SUMS = SCOPE_OCCASION | SCOPE_WEEK | SCOPE_PHASE | SCOPE_CAMP,
};

#define OVER(name, group, title)                                                \
    {                                                                           \
        name, FAMILY_VOLUME, ALL_SUMS, SEVERITY_ERROR, title, check_over, group \
    }
#define UNDER(name, group, title)                                                  \
    {                                                                              \
        name, FAMILY_VOLUME, ALL_SUMS, SEVERITY_WARNING, title, check_under, group \
    }

const struct rule rules[] = {
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
     "a session longer than it is to be", check_overtime, GROUP_TIME},
    {"load-rise", FAMILY_VOLUME, SCOPE_WEEK, SEVERITY_WARNING,
     "a week's load far above the four weeks before it", check_load_rise, GROUP_LOAD},

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
     "two accounts out of the proportion asked for", check_ratio, GROUP_MEASURED},
    {"limit-loosened", FAMILY_VOLUME, SCOPE_PROGRAMME, SEVERITY_INFO,
     "a limit looser than the one it takes over", check_loosened, GROUP_MEASURED},
    {"more-warnings", FAMILY_VOLUME, 0, SEVERITY_WARNING,
     "warnings of one athlete's week beyond the first five", NULL, GROUP_MEASURED},
};

#undef OVER
#undef UNDER

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
