#include "measure/counts.h"

#include <string.h>

#include "base/text.h"
#include "language/language.h"
#include "wording/wording.h"

/* How a figure is worded. */
enum count_style {
    STYLE_NAMED,   /* the name is what is counted: "30 sparring rounds" */
    STYLE_TIME,    /* "78 min" */
    STYLE_SECONDS, /* "3 min 30 s" */
    STYLE_MASS,    /* "1520 kg of tonnage" */
    STYLE_OF,      /* "a session load of 420" */
    STYLE_FRACTION, /* "a monotony of 1.81" */
    STYLE_PERCENT,
    STYLE_HOURS,
    STYLE_WEEKS,
    STYLE_EFFORT /* "RPE 8" */
};

struct count_row {
    enum counted counted;
    const char *name, *also; /* ALSO is another accepted name, or NULL */
    enum counted_group group;
    enum count_style style;
    const char *meaning;
};

static const struct count_row rows[] = {
    {COUNTED_STRIKES, "strikes", NULL, GROUP_STRIKES, STYLE_NAMED,
     "Every strike that a dose counts, on the hand or leg that throws it; a combination counts "
     "each "
     "limb that it uses. Timed rounds, pads and sparring are not counted one by one."},
    {COUNTED_HAND_STRIKES, "hand strikes", "punches", GROUP_STRIKES, STYLE_NAMED,
     "The strikes that land on a hand or an elbow."},
    {COUNTED_LEG_STRIKES, "leg strikes", "kicks", GROUP_STRIKES, STYLE_NAMED,
     "The strikes that land on a leg or a knee."},
    {COUNTED_ALL_OUT_STRIKES, "all-out strikes", NULL, GROUP_STRIKES, STYLE_NAMED,
     "The strikes of lines that say `all-out`."},
    {COUNTED_THROWS, "throws", NULL, GROUP_THROWS, STYLE_NAMED,
     "Repetitions of throws, on the hand that does the work."},
    {COUNTED_CONTACTS, "contacts", "landing contacts", GROUP_CONTACTS, STYLE_NAMED,
     "Landings of jumps and hops; those with a rope are counted separately."},
    {COUNTED_ROPE_CONTACTS, "rope contacts", NULL, GROUP_CONTACTS, STYLE_NAMED,
     "Landings with a skipping rope, where the dose counts them."},
    {COUNTED_TIME, "time", "minutes", GROUP_TIME, STYLE_TIME,
     "Time from the first set to the end of the last, including rests and changes of station."},
    {COUNTED_SESSION_LOAD, "session load", NULL, GROUP_LOAD, STYLE_OF,
     "Effort of the whole session (RPE) times its minutes, added up."},
    {COUNTED_SPARRING_ROUNDS, "sparring rounds", NULL, GROUP_SPARRING, STYLE_NAMED,
     "Rounds of every activity that is sparring."},
    {COUNTED_SPARRING_TIME, "sparring time", "sparring minutes", GROUP_SPARRING, STYLE_TIME,
     "Time of every activity that is sparring, including its rests."},
    {COUNTED_BAG_ROUNDS, "bag rounds", NULL, GROUP_ROUNDS, STYLE_NAMED,
     "Rounds by the clock on a heavy bag, in sessions and as an activity."},
    {COUNTED_CLOCK_ROUNDS, "clock rounds", "rounds", GROUP_ROUNDS, STYLE_NAMED,
     "All rounds by the clock, whatever is done in them, including sparring."},
    {COUNTED_HOLD_SECONDS, "hold seconds", NULL, GROUP_HOLDS, STYLE_NAMED,
     "Seconds of holding still, with each side and each way counted."},
    {COUNTED_METRES, "metres", "distance", GROUP_DISTANCE, STYLE_NAMED,
     "Metres that doses ask for, with each side counted."},
    {COUNTED_LIFTS, "lifts", NULL, GROUP_LIFTS, STYLE_NAMED,
     "Repetitions of strength exercises, with each side counted."},
    {COUNTED_LIFTS_BELOW_70, "lifts below 70%", NULL, GROUP_LIFTS, STYLE_NAMED,
     "Lifts below 70 % of the best; a lift on a border belongs to the heavier zone."},
    {COUNTED_LIFTS_70_TO_80, "lifts 70-80%", NULL, GROUP_LIFTS, STYLE_NAMED,
     "Lifts from 70 % to below 80 % of the best."},
    {COUNTED_LIFTS_80_TO_90, "lifts 80-90%", NULL, GROUP_LIFTS, STYLE_NAMED,
     "Lifts from 80 % to below 90 % of the best."},
    {COUNTED_LIFTS_FROM_90, "lifts 90% and up", NULL, GROUP_LIFTS, STYLE_NAMED,
     "Lifts at 90 % of the best and up."},
    {COUNTED_HEAVY_LIFTS, "heavy lifts", NULL, GROUP_LIFTS, STYLE_NAMED,
     "Lifts at 80 % of the best and up. Where no percentage is known: lifts of a weight at RPE 8 and up whose "
     "repetitions, including those in reserve, are no more than 80 % allows, which is 8. Work with body weight alone "
     "does not count."},
    {COUNTED_ONE_REP_TESTS, "one-rep tests", NULL, GROUP_LIFTS, STYLE_NAMED,
     "Sets of one repetition of strength work that try for a best: `work up to a 1RM`, a load that is a 1RM, 95 % and up, "
     "or RPE 9 and up."},
    {COUNTED_TONNAGE, "tonnage", NULL, GROUP_TONNAGE, STYLE_MASS,
     "Repetitions times kilograms of strength work, or pounds; a load for each hand counts both hands, and of a lift with "
     "body mass what is added to it. Left out are throws, jumps and strikes with a weight, body mass and shares of it, "
     "what is carried or held, and work without kilograms: with a band, at a rep maximum, by effort alone. The tally "
     "has a row for each."},
    {COUNTED_TONNAGE_WITH_THROWS, "tonnage with throws", NULL, GROUP_TONNAGE, STYLE_MASS,
     "The tonnage with throws, jumps and strikes that are done with a weight."},
    {COUNTED_TONNAGE_WITH_BODY, "tonnage with body mass", NULL, GROUP_TONNAGE, STYLE_MASS,
     "The tonnage including body mass and shares of it, where a line says so and body mass is known. It gives away "
     "what somebody weighs, so its figures are for the coach alone."},
    {COUNTED_TONNAGE_WITH_ALL, "tonnage with throws, with body mass", "tonnage with body mass, with throws",
     GROUP_TONNAGE, STYLE_MASS, "The tonnage including both. Its figures are for the coach alone."},
    {COUNTED_SETS, "sets", "working sets", GROUP_SETS, STYLE_NAMED,
     "Sets of strength, power, holds and care, except what is marked easy. Bursts on the bag and other skill, and "
     "conditioning, are counted separately: `skill sets`, `conditioning sets`."},
    {COUNTED_SESSIONS, "sessions", NULL, GROUP_SESSIONS, STYLE_NAMED,
     "Sessions placed, not including activities."},
    {COUNTED_LOAD_RISE, "load rise", NULL, GROUP_MEASURED, STYLE_PERCENT,
     "How far a week's session load lies above the highest of the four weeks before it."},
    {COUNTED_INTENSITY, "intensity", NULL, GROUP_MEASURED, STYLE_PERCENT,
     "Percentage of the best at which strength work is done."},
    {COUNTED_REPS, "reps", NULL, GROUP_MEASURED, STYLE_NAMED,
     "Repetitions in one set of strength work."},
    {COUNTED_VOLUME, "volume", NULL, GROUP_MEASURED, STYLE_PERCENT,
     "How far a phase's mean week lies below the peak week before it."},
    {COUNTED_NEW_EXERCISES, "new exercises", NULL, GROUP_MEASURED, STYLE_NAMED,
     "Exercises that the athlete does for the first time."},
    {COUNTED_LOWERING_WORK, "lowering work", NULL, GROUP_MEASURED, STYLE_NAMED,
     "Sets of strength work lowered for four seconds or longer."},
    {COUNTED_EFFORT, "effort", NULL, GROUP_MEASURED, STYLE_EFFORT,
     "RPE asked for, from the line itself or from its repetitions in reserve."},
    {COUNTED_STRENGTH_BALANCE, "strength balance", NULL, GROUP_MEASURED, STYLE_PERCENT,
     "Share of the left limb in a fortnight's strength and power work of one pair of limbs."},
    {COUNTED_STRIKE_BALANCE, "strike balance", NULL, GROUP_MEASURED, STYLE_PERCENT,
     "Share of the left limb in a fortnight's strikes of one pair of limbs."},
    {COUNTED_DAYS_BETWEEN_HEAVY, "hours between heavy days", NULL, GROUP_MEASURED, STYLE_HOURS,
     "Hours between two days with heavy lifts of one pattern."},
    {COUNTED_LEGS_BEFORE_SPARRING, "hours from heavy legs to sparring", NULL, GROUP_MEASURED,
     STYLE_HOURS, "Hours from heavy squats, hinges or lunges to hard sparring."},
    {COUNTED_NECK_BEFORE_SPARRING, "hours from neck work to sparring", NULL, GROUP_MEASURED,
     STYLE_HOURS, "Hours from neck work to sparring."},
    {COUNTED_CONTRAST_REST, "contrast rest", NULL, GROUP_MEASURED, STYLE_SECONDS,
     "Rest in a contrast pair, between its two parts or between its sets."},
    {COUNTED_AGE_OF_BEST, "age of a best", NULL, GROUP_MEASURED, STYLE_WEEKS,
     "Weeks from the day of a best to the day a load is taken from it."},
    {COUNTED_PHASE_DAYS, "days of a phase", NULL, GROUP_MEASURED, STYLE_NAMED,
     "Days from the first to the last of a phase, including both; what follows a bout is not checked."},
    {COUNTED_MONOTONY, "monotony", NULL, GROUP_MEASURED, STYLE_FRACTION,
     "A week's mean daily session load divided by the standard deviation of its seven days, over six (Foster 1998)."},
    {COUNTED_STRAIN, "strain", NULL, GROUP_MEASURED, STYLE_OF, "A week's session load times its monotony (Foster 1998)."},
    {COUNTED_ADHERENCE, "adherence", NULL, GROUP_MEASURED, STYLE_PERCENT,
     "Share of a week's planned sessions that logs tell of, up to the last day that counts."},
};

enum { ROW_COUNT = sizeof rows / sizeof rows[0] };

/* Counts that exist for each word of a vocabulary. The order is that in which a word is looked
 * for. */
struct count_family {
    enum counted first;
    const struct vocabulary *words;
    const char *suffix;
    enum counted_group group;
    const char *meaning;
};

static const struct count_family families[] = {
    {COUNTED_REGION_SETS, &regions, " sets", GROUP_SETS,
     "Sets that load the region, each by the share that the exercise declares: 1 where it is worked directly, 0.5 "
     "where it helps (fractional counting, Pelland et al. 2024, preprint), and 0.25 where it hardly does (common "
     "practice, no source). Skill and conditioning do not count."},
    {COUNTED_PATTERN_SETS, &patterns, " sets", GROUP_SETS,
     "Sets of exercises with the pattern: 1 where it is the first that the exercise names, 0.5 where it is a later "
     "one."},
    {COUNTED_KIND_SETS, &exercise_kinds, " sets", GROUP_SETS, "Sets of exercises of the kind."},
    {COUNTED_REGION_SESSIONS, &regions, " sessions", GROUP_SESSIONS,
     "Sessions with at least one set that works the region directly."},
    {COUNTED_PATTERN_SESSIONS, &patterns, " sessions", GROUP_SESSIONS,
     "Sessions with at least one set of an exercise with the pattern."},
    {COUNTED_KIND_SESSIONS, &exercise_kinds, " sessions", GROUP_SESSIONS,
     "Sessions with at least one set of an exercise of the kind."},
};

enum { FAMILY_COUNT = sizeof families / sizeof families[0] };

/* Those of sums stand in the order of their counts, from the first on. */
static const struct count_row *row_of(enum counted counted)
{
    if (counted >= 0 && counted < COUNTED_PATTERN_SETS)
        return &rows[counted];
    if (counted < COUNTED_COUNT)
        return NULL; /* of a family */
    for (size_t i = 0; i < ROW_COUNT; i++)
        if (rows[i].counted == counted)
            return &rows[i];
    return NULL;
}

static const struct count_family *family_of(enum counted counted)
{
    for (size_t i = 0; i < FAMILY_COUNT; i++)
        if (counted >= families[i].first &&
            (size_t)(counted - families[i].first) < families[i].words->count)
            return &families[i];
    return NULL;
}

static enum counted find_in_family(const struct count_family *family, const char *folded)
{
    size_t length = strlen(folded), suffix = strlen(family->suffix);
    if (length <= suffix || strcmp(folded + length - suffix, family->suffix) != 0)
        return COUNTED_NONE;
    for (size_t i = 0; i < family->words->count; i++) {
        const char *word = family->words->names[i];
        if (strlen(word) == length - suffix && strncmp(word, folded, length - suffix) == 0)
            return (enum counted)((int)family->first + (int)i);
    }
    return COUNTED_NONE;
}

enum counted counted_find(const char *folded)
{
    for (size_t i = 0; i < ROW_COUNT; i++)
        if (text_same(rows[i].name, folded) || (rows[i].also && text_same(rows[i].also, folded)))
            return rows[i].counted;
    for (size_t i = 0; i < FAMILY_COUNT; i++) {
        enum counted found = find_in_family(&families[i], folded);
        if (found != COUNTED_NONE)
            return found;
    }
    return COUNTED_NONE;
}

const char *counted_name(struct arena *arena, enum counted counted)
{
    const struct count_row *row = row_of(counted);
    if (row)
        return row->name;
    const struct count_family *family = family_of(counted);
    if (!family)
        return "";
    return arena_printf(arena, "%s%s", family->words->names[counted - family->first],
                        family->suffix);
}

size_t counted_nearest(struct arena *arena, const char *folded, const char **names, size_t most)
{
    unsigned limit = strlen(folded) > 6 ? 3 : 2;
    size_t count = 0;
    for (unsigned distance = 0; distance <= limit && count < most; distance++)
        for (int counted = 0; counted < COUNTED_END && count < most; counted++) {
            const char *name = counted_name(arena, (enum counted)counted);
            /* "neck sets" is the region's; the pattern of that name cannot be asked for. */
            if (counted_find(name) == (enum counted)counted &&
                text_distance(name, folded, limit) == distance)
                names[count++] = name;
        }
    return count;
}

enum counted_group counted_group(enum counted counted)
{
    const struct count_row *row = row_of(counted);
    if (row)
        return row->group;
    const struct count_family *family = family_of(counted);
    return family ? family->group : GROUP_MEASURED;
}

bool counted_tells_body(enum counted counted)
{
    return counted == COUNTED_TONNAGE_WITH_BODY || counted == COUNTED_TONNAGE_WITH_ALL;
}

bool counted_is_sided(enum counted counted)
{
    return counted >= 0 && counted < COUNTED_SIDED_COUNT;
}

const char *counted_meaning(enum counted counted)
{
    const struct count_row *row = row_of(counted);
    if (row)
        return row->meaning;
    const struct count_family *family = family_of(counted);
    return family ? family->meaning : "";
}

/* --- figures --- */

/* "45 s", "78 min", "3 min 30 s": a session is planned in minutes, so hours are not used. */
static const char *time_words(struct arena *arena, milli value)
{
    milli seconds = value / 1000;
    long long minutes = (long long)(seconds / 60);
    int rest = (int)(seconds % 60);
    if (minutes == 0)
        return arena_printf(arena, said(arena, "%d s"), rest);
    if (rest == 0)
        return arena_printf(arena, said(arena, "%lld min"), minutes);
    return arena_printf(arena, said(arena, "%lld min %d s"), minutes, rest);
}

static enum count_style style_of(enum counted counted)
{
    const struct count_row *row = row_of(counted);
    return row ? row->style : STYLE_NAMED;
}

/* A figure in kilograms is a sum of many, so pounds are shown without fractions. */
static const char *mass_sum(struct arena *arena, milli kilograms, enum mass_unit unit)
{
    if (unit == MASS_IN_KG)
        return arena_printf(arena, "%s %s", wording_number(arena, kilograms), wording_mass_unit(arena, MASS_IN_KG));
    return arena_printf(arena, "%lld %s", (long long)((mass_sum_to_lb(kilograms) + 500) / 1000), wording_mass_unit(arena, MASS_IN_LB));
}

const char *counted_amount(struct arena *arena, enum counted counted, milli value)
{
    return counted_amount_in(arena, counted, value, MASS_IN_KG);
}

const char *counted_amount_in(struct arena *arena, enum counted counted, milli value, enum mass_unit unit)
{
    switch (style_of(counted)) {
    case STYLE_TIME:
    case STYLE_SECONDS:
        return time_words(arena, value);
    case STYLE_MASS:
        return mass_sum(arena, value, unit);
    case STYLE_PERCENT:
        /* A share worked out to thousandths is shown to tenths, cut so that it never says too much. */
        return arena_printf(arena, "%s %%", wording_number(arena, value - value % 100));
    case STYLE_HOURS:
        return arena_printf(arena, said(arena, "%s h"), wording_number(arena, value - value % 100));
    case STYLE_WEEKS:
        return arena_printf(arena, said_count(arena, value == 1000 ? 1 : 2, "%s week", "%s weeks"), wording_number(arena, value));
    case STYLE_EFFORT:
        return arena_printf(arena, said(arena, "RPE %s"), wording_number(arena, value));
    case STYLE_OF:
        return wording_number(arena, (value + 500) / 1000 * 1000);
    case STYLE_FRACTION:
        return wording_number(arena, (value + 5) / 10 * 10);
    case STYLE_NAMED:
        break;
    }
    return wording_number(arena, value);
}

/* "neck sessions" for one of them: "neck session". Every name that is counted ends in a plain s, except for the zones
 * of lifts, where the word to shorten comes first. */
static const char *singular(struct arena *arena, const char *name)
{
    size_t length = strlen(name);
    if (strncmp(name, "lifts ", 6) == 0)
        return arena_printf(arena, "lift %s", name + 6);
    return length && name[length - 1] == 's' ? arena_copy(arena, name, length - 1) : name;
}

const char *counted_figure(struct arena *arena, enum counted counted, milli value)
{
    return counted_figure_in(arena, counted, value, MASS_IN_KG);
}

const char *counted_figure_in(struct arena *arena, enum counted counted, milli value, enum mass_unit unit)
{
    const char *amount = counted_amount_in(arena, counted, value, unit);
    const char *name = counted_name(arena, counted);
    switch (style_of(counted)) {
    case STYLE_NAMED:
        return arena_printf(arena, "%s %s", amount, value == 1000 ? singular(arena, name) : name);
    case STYLE_MASS:
        return arena_printf(arena, "%s of %s", amount, name);
    case STYLE_OF:
    case STYLE_FRACTION:
        return arena_printf(arena, "a %s of %s", name, amount);
    case STYLE_TIME:
        return counted == COUNTED_TIME ? amount : arena_printf(arena, "%s of sparring", amount);
    case STYLE_SECONDS:
    case STYLE_PERCENT:
    case STYLE_HOURS:
    case STYLE_WEEKS:
    case STYLE_EFFORT:
        break;
    }
    return amount;
}
