#include "measure/accounts.h"

#include <string.h>

#include "base/text.h"
#include "wording/wording.h"

/* How a figure is said. */
enum style {
    STYLE_NAMED,   /* the name is what is counted: "30 sparring rounds" */
    STYLE_TIME,    /* "78 min" */
    STYLE_SECONDS, /* "3 min 30 s" */
    STYLE_MASS,    /* "1520 kg of tonnage" */
    STYLE_OF,      /* "a session load of 420" */
    STYLE_PERCENT,
    STYLE_HOURS,
    STYLE_WEEKS,
    STYLE_EFFORT /* "RPE 8" */
};

struct row {
    enum account account;
    const char *name, *also; /* ALSO is another name that is taken, or NULL */
    enum account_group group;
    enum style style;
    const char *meaning;
};

static const struct row rows[] = {
    {ACCOUNT_STRIKES, "strikes", NULL, GROUP_STRIKES, STYLE_NAMED,
     "Every strike that a dose counts, on the hand or leg that throws it; a combination counts "
     "each "
     "limb that it uses. Timed rounds, pads and sparring are not counted one by one."},
    {ACCOUNT_HAND_STRIKES, "hand strikes", "punches", GROUP_STRIKES, STYLE_NAMED,
     "The strikes that land on a hand or an elbow."},
    {ACCOUNT_LEG_STRIKES, "leg strikes", "kicks", GROUP_STRIKES, STYLE_NAMED,
     "The strikes that land on a leg or a knee."},
    {ACCOUNT_ALL_OUT_STRIKES, "all-out strikes", NULL, GROUP_STRIKES, STYLE_NAMED,
     "The strikes of lines that say `all-out`."},
    {ACCOUNT_THROWS, "throws", NULL, GROUP_THROWS, STYLE_NAMED,
     "Repetitions of throws, on the hand that does the work."},
    {ACCOUNT_CONTACTS, "contacts", "landing contacts", GROUP_CONTACTS, STYLE_NAMED,
     "Landings of jumps and hops; those with a rope are counted apart."},
    {ACCOUNT_ROPE_CONTACTS, "rope contacts", NULL, GROUP_CONTACTS, STYLE_NAMED,
     "Landings with a skipping rope, where the dose counts them."},
    {ACCOUNT_TIME, "time", "minutes", GROUP_TIME, STYLE_TIME,
     "Time from the first set to the end of the last, rests and changes of station included."},
    {ACCOUNT_SESSION_LOAD, "session load", NULL, GROUP_LOAD, STYLE_OF,
     "Effort of the whole session (RPE) times its minutes, added up."},
    {ACCOUNT_SPARRING_ROUNDS, "sparring rounds", NULL, GROUP_SPARRING, STYLE_NAMED,
     "Rounds of every activity that is sparring."},
    {ACCOUNT_SPARRING_TIME, "sparring time", "sparring minutes", GROUP_SPARRING, STYLE_TIME,
     "Time of every activity that is sparring, its rests included."},
    {ACCOUNT_BAG_ROUNDS, "bag rounds", NULL, GROUP_ROUNDS, STYLE_NAMED,
     "Rounds on the clock on a heavy bag, in sessions and as an activity."},
    {ACCOUNT_CLOCK_ROUNDS, "clock rounds", "rounds", GROUP_ROUNDS, STYLE_NAMED,
     "All rounds on the clock, whatever is done in them, sparring included."},
    {ACCOUNT_HOLD_SECONDS, "hold seconds", NULL, GROUP_HOLDS, STYLE_NAMED,
     "Seconds held still, each side and each way counted."},
    {ACCOUNT_METRES, "metres", "distance", GROUP_DISTANCE, STYLE_NAMED,
     "Metres that doses ask for, each side counted."},
    {ACCOUNT_LIFTS, "lifts", NULL, GROUP_LIFTS, STYLE_NAMED,
     "Repetitions of strength exercises, each side counted."},
    {ACCOUNT_LIFTS_BELOW_70, "lifts below 70%", NULL, GROUP_LIFTS, STYLE_NAMED,
     "Lifts below 70 % of the best; a lift on a border belongs to the heavier zone."},
    {ACCOUNT_LIFTS_70_TO_80, "lifts 70-80%", NULL, GROUP_LIFTS, STYLE_NAMED,
     "Lifts from 70 % to below 80 % of the best."},
    {ACCOUNT_LIFTS_80_TO_90, "lifts 80-90%", NULL, GROUP_LIFTS, STYLE_NAMED,
     "Lifts from 80 % to below 90 % of the best."},
    {ACCOUNT_LIFTS_FROM_90, "lifts 90% and up", NULL, GROUP_LIFTS, STYLE_NAMED,
     "Lifts at 90 % of the best and up."},
    {ACCOUNT_HEAVY_LIFTS, "heavy lifts", NULL, GROUP_LIFTS, STYLE_NAMED,
     "Lifts at 80 % of the best and up. Where no percentage is known: lifts of a weight at RPE 8 and up "
     "whose repetitions, those in reserve counted, are no more than 80 % allows, which is 8; what "
     "is done with the body's weight alone is not among them."},
    {ACCOUNT_ONE_REP_TESTS, "one-rep tests", NULL, GROUP_LIFTS, STYLE_NAMED,
     "Sets of one repetition of strength work that try for a best: `work up to a 1RM`, a load that is a 1RM, 95 % and up, "
     "or RPE 9 and up."},
    {ACCOUNT_TONNAGE, "tonnage", NULL, GROUP_TONNAGE, STYLE_MASS,
     "Repetitions times kilograms of strength work, or pounds; a load for each hand counts both hands, and of a lift with "
     "body mass what is added to it. Left out are throws, jumps and strikes with a weight, body mass and shares of it, "
     "what is carried or held, and work without kilograms: with a band, at a rep maximum, by effort alone. The tally "
     "has a row for each."},
    {ACCOUNT_TONNAGE_WITH_THROWS, "tonnage with throws", NULL, GROUP_TONNAGE, STYLE_MASS,
     "The tonnage with throws, jumps and strikes that are done with a weight."},
    {ACCOUNT_TONNAGE_WITH_BODY, "tonnage with body mass", NULL, GROUP_TONNAGE, STYLE_MASS,
     "The tonnage with body mass and shares of it, where a line says so and body mass is known. It tells what somebody "
     "weighs: figures of it are for the coach alone."},
    {ACCOUNT_TONNAGE_WITH_ALL, "tonnage with throws, with body mass", "tonnage with body mass, with throws",
     GROUP_TONNAGE, STYLE_MASS, "The tonnage with both. Figures of it are for the coach alone."},
    {ACCOUNT_SETS, "sets", "working sets", GROUP_SETS, STYLE_NAMED,
     "Sets of strength, power, holds and care, but for what is marked easy. Bursts on the bag and other skill, and "
     "conditioning, have sets of their own: `skill sets`, `conditioning sets`."},
    {ACCOUNT_SESSIONS, "sessions", NULL, GROUP_SESSIONS, STYLE_NAMED,
     "Sessions placed, activities not counted."},
    {ACCOUNT_LOAD_RISE, "load rise", NULL, GROUP_MEASURED, STYLE_PERCENT,
     "How far a week's session load lies above the highest of the four weeks before it."},
    {ACCOUNT_INTENSITY, "intensity", NULL, GROUP_MEASURED, STYLE_PERCENT,
     "Percentage of the best at which strength work is done."},
    {ACCOUNT_REPS, "reps", NULL, GROUP_MEASURED, STYLE_NAMED,
     "Repetitions in one set of strength work."},
    {ACCOUNT_VOLUME, "volume", NULL, GROUP_MEASURED, STYLE_PERCENT,
     "How far a phase's mean week lies below the peak week before it."},
    {ACCOUNT_NEW_EXERCISES, "new exercises", NULL, GROUP_MEASURED, STYLE_NAMED,
     "Exercises that the athlete meets for the first time."},
    {ACCOUNT_LOWERING_WORK, "lowering work", NULL, GROUP_MEASURED, STYLE_NAMED,
     "Sets of strength work lowered for four seconds or longer."},
    {ACCOUNT_EFFORT, "effort", NULL, GROUP_MEASURED, STYLE_EFFORT,
     "RPE asked for, from the line itself or from its repetitions in reserve."},
    {ACCOUNT_STRENGTH_BALANCE, "strength balance", NULL, GROUP_MEASURED, STYLE_PERCENT,
     "Share of the left in a fortnight's strength and power work of one pair of limbs."},
    {ACCOUNT_STRIKE_BALANCE, "strike balance", NULL, GROUP_MEASURED, STYLE_PERCENT,
     "Share of the left in a fortnight's strikes of one pair of limbs."},
    {ACCOUNT_HEAVY_DAYS_APART, "hours between heavy days", NULL, GROUP_MEASURED, STYLE_HOURS,
     "Hours between two days with heavy lifts of one pattern."},
    {ACCOUNT_LEGS_BEFORE_SPARRING, "hours from heavy legs to sparring", NULL, GROUP_MEASURED,
     STYLE_HOURS, "Hours from heavy squats, hinges or lunges to hard sparring."},
    {ACCOUNT_NECK_BEFORE_SPARRING, "hours from neck work to sparring", NULL, GROUP_MEASURED,
     STYLE_HOURS, "Hours from neck work to sparring."},
    {ACCOUNT_CONTRAST_REST, "contrast rest", NULL, GROUP_MEASURED, STYLE_SECONDS,
     "Rest in a contrast pair, between its two parts or between its sets."},
    {ACCOUNT_AGE_OF_BEST, "age of a best", NULL, GROUP_MEASURED, STYLE_WEEKS,
     "Weeks from the day of a best to the day a load is taken from it."},
    {ACCOUNT_PHASE_DAYS, "days of a phase", NULL, GROUP_MEASURED, STYLE_NAMED,
     "Days from the first to the last of a phase, both counted; what follows a bout is not held to it."},
};

enum { ROW_COUNT = sizeof rows / sizeof rows[0] };

/* Accounts that exist for each word of a vocabulary. The order is that in which a word is looked
 * for. */
struct family {
    enum account first;
    const struct vocabulary *words;
    const char *suffix;
    enum account_group group;
    const char *meaning;
};

static const struct family families[] = {
    {ACCOUNT_REGION_SETS, &regions, " sets", GROUP_SETS,
     "Sets that load the region, each by the share that the exercise declares: 1 where it is "
     "worked directly, 0.5 where it helps (fractional counting, Pelland et al. 2024, preprint), and 0.25 where it "
     "hardly does (common practice, no source). Skill and conditioning are not among them."},
    {ACCOUNT_PATTERN_SETS, &patterns, " sets", GROUP_SETS,
     "Sets of exercises with the pattern: 1 where it is the first that the exercise names, 0.5 "
     "where "
     "it is another."},
    {ACCOUNT_KIND_SETS, &exercise_kinds, " sets", GROUP_SETS, "Sets of exercises of the kind."},
    {ACCOUNT_REGION_SESSIONS, &regions, " sessions", GROUP_SESSIONS,
     "Sessions with at least one set that works the region directly."},
    {ACCOUNT_PATTERN_SESSIONS, &patterns, " sessions", GROUP_SESSIONS,
     "Sessions with at least one set of an exercise with the pattern."},
    {ACCOUNT_KIND_SESSIONS, &exercise_kinds, " sessions", GROUP_SESSIONS,
     "Sessions with at least one set of an exercise of the kind."},
};

enum { FAMILY_COUNT = sizeof families / sizeof families[0] };

/* Those of sums stand in the order of their accounts, from the first on. */
static const struct row *row_of(enum account account)
{
    if (account >= 0 && account < ACCOUNT_PATTERN_SETS)
        return &rows[account];
    if (account < ACCOUNT_COUNT)
        return NULL; /* of a family */
    for (size_t i = 0; i < ROW_COUNT; i++)
        if (rows[i].account == account)
            return &rows[i];
    return NULL;
}

static const struct family *family_of(enum account account)
{
    for (size_t i = 0; i < FAMILY_COUNT; i++)
        if (account >= families[i].first &&
            (size_t)(account - families[i].first) < families[i].words->count)
            return &families[i];
    return NULL;
}

static enum account find_in_family(const struct family *family, const char *folded)
{
    size_t length = strlen(folded), suffix = strlen(family->suffix);
    if (length <= suffix || strcmp(folded + length - suffix, family->suffix) != 0)
        return ACCOUNT_NONE;
    for (size_t i = 0; i < family->words->count; i++) {
        const char *word = family->words->names[i];
        if (strlen(word) == length - suffix && strncmp(word, folded, length - suffix) == 0)
            return (enum account)((int)family->first + (int)i);
    }
    return ACCOUNT_NONE;
}

enum account account_find(const char *folded)
{
    for (size_t i = 0; i < ROW_COUNT; i++)
        if (text_same(rows[i].name, folded) || (rows[i].also && text_same(rows[i].also, folded)))
            return rows[i].account;
    for (size_t i = 0; i < FAMILY_COUNT; i++) {
        enum account found = find_in_family(&families[i], folded);
        if (found != ACCOUNT_NONE)
            return found;
    }
    return ACCOUNT_NONE;
}

const char *account_name(struct arena *arena, enum account account)
{
    const struct row *row = row_of(account);
    if (row)
        return row->name;
    const struct family *family = family_of(account);
    if (!family)
        return "";
    return arena_printf(arena, "%s%s", family->words->names[account - family->first],
                        family->suffix);
}

size_t account_nearest(struct arena *arena, const char *folded, const char **names, size_t most)
{
    unsigned limit = strlen(folded) > 6 ? 3 : 2;
    size_t count = 0;
    for (unsigned distance = 0; distance <= limit && count < most; distance++)
        for (int account = 0; account < ACCOUNT_END && count < most; account++) {
            const char *name = account_name(arena, (enum account)account);
            /* "neck sets" is the region's; the pattern of that name cannot be asked for. */
            if (account_find(name) == (enum account)account &&
                text_distance(name, folded, limit) == distance)
                names[count++] = name;
        }
    return count;
}

enum account_group account_group(enum account account)
{
    const struct row *row = row_of(account);
    if (row)
        return row->group;
    const struct family *family = family_of(account);
    return family ? family->group : GROUP_MEASURED;
}

bool account_tells_body(enum account account)
{
    return account == ACCOUNT_TONNAGE_WITH_BODY || account == ACCOUNT_TONNAGE_WITH_ALL;
}

bool account_is_sided(enum account account)
{
    return account >= 0 && account < ACCOUNT_SIDED_COUNT;
}

const char *account_meaning(enum account account)
{
    const struct row *row = row_of(account);
    if (row)
        return row->meaning;
    const struct family *family = family_of(account);
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
        return arena_printf(arena, "%d s", rest);
    if (rest == 0)
        return arena_printf(arena, "%lld min", minutes);
    return arena_printf(arena, "%lld min %d s", minutes, rest);
}

static enum style style_of(enum account account)
{
    const struct row *row = row_of(account);
    return row ? row->style : STYLE_NAMED;
}

/* A figure of kilograms is a sum of many, so pounds are told without what is left of one. */
static const char *mass_sum(struct arena *arena, milli kilograms, enum mass_unit unit)
{
    if (unit == MASS_IN_KG)
        return arena_printf(arena, "%s kg", wording_number(arena, kilograms));
    return arena_printf(arena, "%lld lb", (long long)((mass_sum_to_lb(kilograms) + 500) / 1000));
}

const char *account_amount(struct arena *arena, enum account account, milli value)
{
    return account_amount_in(arena, account, value, MASS_IN_KG);
}

const char *account_amount_in(struct arena *arena, enum account account, milli value, enum mass_unit unit)
{
    switch (style_of(account)) {
    case STYLE_TIME:
    case STYLE_SECONDS:
        return time_words(arena, value);
    case STYLE_MASS:
        return mass_sum(arena, value, unit);
    case STYLE_PERCENT:
        /* A share worked out to thousandths is shown to tenths, cut so that it never says more. */
        return arena_printf(arena, "%s %%", wording_number(arena, value - value % 100));
    case STYLE_HOURS:
        return arena_printf(arena, "%s h", wording_number(arena, value - value % 100));
    case STYLE_WEEKS:
        return arena_printf(arena, "%s %s", wording_number(arena, value),
                            value == 1000 ? "week" : "weeks");
    case STYLE_EFFORT:
        return arena_printf(arena, "RPE %s", wording_number(arena, value));
    case STYLE_OF:
        return wording_number(arena, (value + 500) / 1000 * 1000);
    case STYLE_NAMED:
        break;
    }
    return wording_number(arena, value);
}

/* "neck sessions" for one of them: "neck session". Every name that is counted ends in a plain s,
 * but for the zones of lifts, where the word to shorten stands first. */
static const char *singular(struct arena *arena, const char *name)
{
    size_t length = strlen(name);
    if (strncmp(name, "lifts ", 6) == 0)
        return arena_printf(arena, "lift %s", name + 6);
    return length && name[length - 1] == 's' ? arena_copy(arena, name, length - 1) : name;
}

const char *account_figure(struct arena *arena, enum account account, milli value)
{
    return account_figure_in(arena, account, value, MASS_IN_KG);
}

const char *account_figure_in(struct arena *arena, enum account account, milli value, enum mass_unit unit)
{
    const char *amount = account_amount_in(arena, account, value, unit);
    const char *name = account_name(arena, account);
    switch (style_of(account)) {
    case STYLE_NAMED:
        return arena_printf(arena, "%s %s", amount, value == 1000 ? singular(arena, name) : name);
    case STYLE_MASS:
        return arena_printf(arena, "%s of %s", amount, name);
    case STYLE_OF:
        return arena_printf(arena, "a %s of %s", name, amount);
    case STYLE_TIME:
        return account == ACCOUNT_TIME ? amount : arena_printf(arena, "%s of sparring", amount);
    case STYLE_SECONDS:
    case STYLE_PERCENT:
    case STYLE_HOURS:
    case STYLE_WEEKS:
    case STYLE_EFFORT:
        break;
    }
    return amount;
}
