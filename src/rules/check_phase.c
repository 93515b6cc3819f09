/* What follows what over days: heavy days too close, and what is done before sparring. */
#include "measure/clocks.h"
#include "measure/member.h"
#include "measure/demand.h"
#include "model/activity.h"
#include "model/exercise.h"
#include "model/season.h"
#include "rules/checks.h"
#include "rules/settings.h"

enum { HOUR = 3600, LOOK_BACK_DAYS = 4, SLOW_LOWERING = 4 };

/* What lies between the end of one thing and the start of a later one. */
struct gap {
    milli hours;  /* unless both have a clock time, by whole days */
    bool clocked; /* both have one */
    int days;     /* from the day of the one to that of the other */
};

static struct gap gap_between(const struct occasion *earlier, const struct occasion *later)
{
    struct gap gap = {.days = later->date - earlier->date};
    gap.hours = seconds_from_end(earlier, later, &gap.clocked) * 1000 / HOUR;
    return gap;
}

/* "23 h", "a day", "the same day". */
static const char *gap_words(struct run *run, struct gap gap)
{
    if (gap.days == 0 && gap.hours <= 0)
        return "the same day";
    if (gap.clocked)
        return counted_amount(run->arena, COUNTED_DAYS_BETWEEN_HEAVY, gap.hours > 0 ? gap.hours : 0);
    return gap.days == 1 ? "a day" : arena_printf(run->arena, "%d days", gap.days);
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
    struct setting setting = run_setting(run, window, COUNTED_DAYS_BETWEEN_HEAVY);
    for (int p = 0; p < PATTERN_COUNT; p++) {
        const struct item *before = NULL;
        const struct occasion *earlier =
            found >> p & 1u ? heavy_before(window, (enum pattern)p, &before) : NULL;
        if (!earlier)
            continue;
        struct gap gap = gap_between(earlier, occasion);
        run_margin(run, window, setting.limit, COUNTED_DAYS_BETWEEN_HEAVY, SIDE_ALL,
                   gap.hours - setting.value);
        if (gap.hours >= setting.value)
            continue;
        const struct item *item = heavy_item(occasion, (enum pattern)p);
        struct about about = {.window = window,
                              .severity = setting.severity,
                              .span = item->span,
                              .subject = before->exercise,
                              .weight = -gap.hours,
                              .figure = gap.hours,
                              .floor = true};
        struct finding *finding = run_report(
            run, rule, &about, "%s is heavy on %s, %s after the last heavy %s; at least %s",
            item_words(run, item), day_words(run, occasion), gap_words(run, gap),
            patterns.names[p], counted_amount(run->arena, COUNTED_DAYS_BETWEEN_HEAVY, setting.value));
        if (!finding)
            continue;
        diag_note(run->diag, finding, before->span, "%s is heavy on %s", item_words(run, before),
                  day_words(run, earlier));
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
    enum counted counted;
    meant meant;
    bool by_clock; /* looks only where both have a clock time */
    const char *what;
};

static void report_before(struct run *run, const struct rule *rule, const struct window *window,
                          const struct before *before, const struct item *item, struct gap gap,
                          const struct setting *setting)
{
    const struct occasion *sparring = window->occasions[0];
    struct about about = {.window = window,
                          .severity = setting->severity,
                          .span = item->span,
                          .subject = sparring->activity,
                          .weight = -gap.hours,
                          .figure = gap.hours,
                          .floor = true};
    const char *words = gap_words(run, gap);
    struct finding *finding = run_report(
        run, rule, &about, "%s is %s, %s %s %s; at least %s", item_words(run, item), before->what,
        words, gap.days == 0 && !gap.clocked ? "as" : "before", occasion_words(run, sparring),
        counted_amount(run->arena, before->counted, setting->value));
    if (!finding)
        return;
    diag_note(run->diag, finding, sparring->span, "the sparring is placed here");
    run_note_setting(run, finding, setting);
}

static void look_before(struct run *run, const struct rule *rule, const struct window *window,
                        const struct before *before, const struct occasion *occasion,
                        const struct setting *setting)
{
    struct gap gap = gap_between(occasion, window->occasions[0]);
    if (before->by_clock && !gap.clocked)
        return;
    for (size_t b = 0; b < occasion->block_count; b++)
        for (size_t i = 0; i < occasion->blocks[b].item_count; i++) {
            const struct item *item = &occasion->blocks[b].items[i];
            if (!before->meant(window, occasion, item))
                continue;
            run_margin(run, window, setting->limit, before->counted, SIDE_ALL,
                       gap.hours - setting->value);
            if (gap.hours < setting->value)
                report_before(run, rule, window, before, item, gap, setting);
        }
}

/* What is done before the sparring of WINDOW. On one day, what has no clock time may come before. */
static void check_before(struct run *run, const struct rule *rule, const struct window *window,
                         const struct before *before)
{
    const struct occasion *sparring = window->occasions[0];
    const struct timeline *timeline = window->timeline;
    struct setting setting = run_setting(run, window, before->counted);
    size_t end = window->at;
    while (sparring->clock < 0 && end + 1 < timeline->count &&
           timeline->occasions[end + 1]->date == sparring->date)
        end++;
    for (size_t o = end + 1; o-- > 0;) {
        const struct occasion *occasion = timeline->occasions[o];
        if (sparring->date - occasion->date > LOOK_BACK_DAYS)
            return;
        look_before(run, rule, window, before, occasion, &setting);
    }
}

static void report_before_bout(struct run *run, const struct rule *rule,
                               const struct window *window, const struct camp *camp, int bout,
                               const struct item *item, const struct setting *setting)
{
    struct gap gap = {.days = bout - window->first};
    gap.hours = (milli)gap.days * 24000;
    run_margin(run, window, setting->limit, COUNTED_LEGS_BEFORE_SPARRING, SIDE_ALL,
               gap.hours - setting->value);
    if (gap.hours >= setting->value)
        return;
    struct about about = {.window = window,
                          .severity = setting->severity,
                          .span = item->span,
                          .subject = camp,
                          .subject_number = bout,
                          .weight = -gap.hours,
                          .figure = gap.hours,
                          .floor = true};
    struct finding *finding = run_report(
        run, rule, &about, "%s is hard on the legs, %s %s the bout of %s on %s; at least %s",
        item_words(run, item), gap_words(run, gap), gap.days == 0 ? "as" : "before",
        camp->name.shown, date_words(run, bout),
        counted_amount(run->arena, COUNTED_LEGS_BEFORE_SPARRING, setting->value));
    if (finding)
        run_note_setting(run, finding, setting);
}

static void look_before_bout(struct run *run, const struct rule *rule, const struct window *window,
                             const struct camp *camp, int bout, const struct setting *setting)
{
    const struct occasion *occasion = window->occasions[0];
    int days = bout - occasion->date;
    if (days < 0 || days > LOOK_BACK_DAYS || !camp_bout_on(camp, bout) || !camp_has(camp, window->athlete, bout))
        return;
    for (size_t b = 0; b < occasion->block_count; b++)
        for (size_t i = 0; i < occasion->blocks[b].item_count; i++)
            if (tires_legs(window, occasion, &occasion->blocks[b].items[i]))
                report_before_bout(run, rule, window, camp, bout, &occasion->blocks[b].items[i], setting);
}

/* A bout is hard rounds too, on each of its days. Its hour may not be known, so whole days count. */
static void check_before_bout(struct run *run, const struct rule *rule, const struct window *window)
{
    const struct timeline *timeline = window->timeline;
    struct setting setting = run_setting(run, window, COUNTED_LEGS_BEFORE_SPARRING);
    for (size_t c = 0; c < timeline->camp_count; c++) {
        const struct camp *camp = timeline->camps[c];
        for (size_t b = 0; b < camp->bout_count; b++)
            for (size_t d = 0; d < camp->bouts[b]->day_count; d++)
                look_before_bout(run, rule, window, camp, camp->bouts[b]->days[d], &setting);
    }
}

void check_legs_before_sparring(struct run *run, const struct rule *rule,
                                const struct window *window)
{
    static const struct before legs = {COUNTED_LEGS_BEFORE_SPARRING, tires_legs, false,
                                       "hard on the legs"};
    if (is_hard_sparring(window->occasions[0]))
        check_before(run, rule, window, &legs);
    check_before_bout(run, rule, window);
}

void check_neck_before_sparring(struct run *run, const struct rule *rule,
                                const struct window *window)
{
    static const struct before neck = {COUNTED_NECK_BEFORE_SPARRING, is_neck_work, true,
                                       "neck work"};
    const struct activity *activity = window->occasions[0]->activity;
    if (activity && activity->sparring)
        check_before(run, rule, window, &neck);
}
