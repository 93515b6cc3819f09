/* What follows what over days: heavy days too close, and what is done before sparring. */
#include "model/demand.h"
#include "rules/checks.h"
#include "rules/settings.h"

enum { HOUR = 3600, DAY = 86400, LOOK_BACK_DAYS = 4, SLOW_LOWERING = 4 };

/* Milli-hours from the start of EARLIER (or its end, with AFTER_END) to the start of LATER: by the
 * clock where both have one, else by whole days. */
static milli hours_between(const struct occasion *earlier, const struct occasion *later,
                           bool after_end)
{
    int64_t seconds = (int64_t)(later->date - earlier->date) * DAY;
    if (earlier->clock >= 0 && later->clock >= 0)
        seconds += later->clock - earlier->clock - (after_end ? earlier->seconds : 0);
    return seconds * 1000 / HOUR;
}

static const char *hours_words(struct run *run, milli hours)
{
    return hours <= 0 ? "the same day"
                      : account_amount(run->arena, ACCOUNT_HEAVY_DAYS_APART, hours);
}

/* --- heavy days --- */

static const struct item *heavy_item(const struct occasion *occasion, enum pattern pattern)
{
    for (size_t b = 0; b < occasion->block_count; b++)
        for (size_t i = 0; i < occasion->blocks[b].item_count; i++) {
            const struct item *item = &occasion->blocks[b].items[i];
            if (item->exercise->kind == EXERCISE_STRENGTH && item->exercise->pattern == pattern &&
                item_is_heavy(occasion, item))
                return item;
        }
    return NULL;
}

/* The last occasion on a day before that of window's with heavy work of PATTERN, or NULL. */
static const struct occasion *heavy_before(const struct window *window, enum pattern pattern,
                                           const struct item **item)
{
    for (size_t i = window->at; i-- > 0;) {
        const struct occasion *occasion = window->timeline->occasions[i];
        if (window->first - occasion->date > LOOK_BACK_DAYS)
            return NULL;
        if (occasion->date == window->first)
            continue;
        *item = heavy_item(occasion, pattern);
        if (*item)
            return occasion;
    }
    return NULL;
}

static unsigned heavy_patterns(const struct occasion *occasion)
{
    unsigned found = 0;
    for (size_t b = 0; b < occasion->block_count; b++)
        for (size_t i = 0; i < occasion->blocks[b].item_count; i++) {
            const struct item *item = &occasion->blocks[b].items[i];
            if (item->exercise->kind == EXERCISE_STRENGTH && item_is_heavy(occasion, item))
                found |= 1u << item->exercise->pattern;
        }
    return found;
}

void check_heavy_days(struct run *run, const struct rule *rule, const struct window *window)
{
    const struct occasion *occasion = window->occasions[0];
    unsigned found = heavy_patterns(occasion);
    if (!found)
        return;
    struct setting setting = run_setting(run, window, ACCOUNT_HEAVY_DAYS_APART);
    for (int p = 0; p < PATTERN_COUNT; p++) {
        const struct item *before = NULL;
        const struct occasion *earlier =
            found >> p & 1u ? heavy_before(window, (enum pattern)p, &before) : NULL;
        if (!earlier)
            continue;
        milli hours = hours_between(earlier, occasion, false);
        run_margin(run, window, setting.limit, ACCOUNT_HEAVY_DAYS_APART, SIDE_ALL,
                   hours - setting.value);
        if (hours >= setting.value)
            continue;
        const struct item *item = heavy_item(occasion, (enum pattern)p);
        struct about about = {.window = window,
                              .severity = setting.severity,
                              .span = item->span,
                              .subject = before->exercise,
                              .weight = -hours,
                              .figure = hours,
                              .floor = true};
        struct finding *finding = run_report(
            run, rule, &about, "%s is heavy on %s, %s after the last heavy %s; at least %s",
            item_words(run, item), date_words(run, occasion->date), hours_words(run, hours),
            patterns.names[p], account_amount(run->arena, ACCOUNT_HEAVY_DAYS_APART, setting.value));
        if (!finding)
            continue;
        diag_note(run->diag, finding, before->span, "%s is heavy on %s", item_words(run, before),
                  date_words(run, earlier->date));
        run_note_setting(run, finding, &setting);
    }
}

/* --- before sparring --- */

static bool is_hard_sparring(const struct occasion *occasion)
{
    return occasion->activity && occasion->activity->sparring && occasion->rpe.high >= HARD_RPE;
}

static bool lowers_slowly(const struct item *item)
{
    for (size_t r = 0; r < item->run_count; r++)
        if (item->runs[r].tempo.given && item->runs[r].tempo.lower >= SLOW_LOWERING)
            return true;
    return false;
}

/* Heavy leg work, or slow lowering that the legs do not know yet. */
static bool tires_legs(const struct window *window, const struct occasion *occasion,
                       const struct item *item)
{
    const unsigned legs = 1u << PATTERN_SQUAT | 1u << PATTERN_HINGE | 1u << PATTERN_LUNGE;
    if (item->exercise->kind != EXERCISE_STRENGTH || !(1u << item->exercise->pattern & legs))
        return false;
    return item_is_heavy(occasion, item) ||
           (lowers_slowly(item) && run_is_new(window, item->exercise, 1));
}

static bool is_neck_work(const struct window *window, const struct occasion *occasion,
                         const struct item *item)
{
    (void)window;
    (void)occasion;
    return item->exercise->patterns >> PATTERN_NECK & 1u &&
           item->exercise->kind != EXERCISE_WARM_UP && item->exercise->kind != EXERCISE_MOBILITY;
}

typedef bool (*meant)(const struct window *window, const struct occasion *occasion,
                      const struct item *item);

/* What a check of the hours before sparring looks for. */
struct before {
    enum account account;
    meant meant;
    bool after_end; /* from the end of the session, which needs both clocks */
    const char *what;
};

static void report_before(struct run *run, const struct rule *rule, const struct window *window,
                          const struct before *before, const struct item *item, milli hours,
                          const struct setting *setting)
{
    const struct occasion *sparring = window->occasions[0];
    struct about about = {.window = window,
                          .severity = setting->severity,
                          .span = item->span,
                          .subject = sparring->activity,
                          .weight = -hours,
                          .figure = hours,
                          .floor = true};
    struct finding *finding = run_report(
        run, rule, &about, "%s is %s, %s %s %s; at least %s", item_words(run, item), before->what,
        hours_words(run, hours), hours <= 0 ? "as" : "before", occasion_words(run, sparring),
        account_amount(run->arena, before->account, setting->value));
    if (!finding)
        return;
    diag_note(run->diag, finding, sparring->span, "the sparring is placed here");
    run_note_setting(run, finding, setting);
}

static void check_before(struct run *run, const struct rule *rule, const struct window *window,
                         const struct before *before)
{
    const struct occasion *sparring = window->occasions[0];
    struct setting setting = run_setting(run, window, before->account);
    for (size_t o = window->at; o-- > 0;) {
        const struct occasion *occasion = window->timeline->occasions[o];
        if (sparring->date - occasion->date > LOOK_BACK_DAYS)
            return;
        bool clocks = occasion->clock >= 0 && sparring->clock >= 0;
        milli hours = hours_between(occasion, sparring, before->after_end);
        if ((before->after_end && !clocks) || (hours >= setting.value && !run->margins))
            continue;
        for (size_t b = 0; b < occasion->block_count; b++)
            for (size_t i = 0; i < occasion->blocks[b].item_count; i++) {
                const struct item *item = &occasion->blocks[b].items[i];
                if (!before->meant(window, occasion, item))
                    continue;
                run_margin(run, window, setting.limit, before->account, SIDE_ALL,
                           hours - setting.value);
                if (hours < setting.value)
                    report_before(run, rule, window, before, item, hours, &setting);
            }
    }
}

void check_legs_before_sparring(struct run *run, const struct rule *rule,
                                const struct window *window)
{
    static const struct before legs = {ACCOUNT_LEGS_BEFORE_SPARRING, tires_legs, false,
                                       "hard on the legs"};
    if (is_hard_sparring(window->occasions[0]))
        check_before(run, rule, window, &legs);
}

void check_neck_before_sparring(struct run *run, const struct rule *rule,
                                const struct window *window)
{
    static const struct before neck = {ACCOUNT_NECK_BEFORE_SPARRING, is_neck_work, true,
                                       "neck work"};
    const struct activity *activity = window->occasions[0]->activity;
    if (activity && activity->sparring)
        check_before(run, rule, window, &neck);
}
