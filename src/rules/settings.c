#include "rules/settings.h"
#include "model/season.h"

#include <string.h>

static const char COMMON[] = "common practice";

static const struct {
    enum counted counted;
    struct setting setting;
} defaults[] = {
    {COUNTED_STRENGTH_BALANCE,
     {.value = 35000, .top = 65000, .severity = SEVERITY_WARNING, .source = COMMON}},
    {COUNTED_STRIKE_BALANCE,
     {.value = 35000, .top = 65000, .severity = SEVERITY_INFO, .source = COMMON}},
    {COUNTED_DAYS_BETWEEN_HEAVY,
     {.value = 46000,
      .severity = SEVERITY_WARNING,
      .source = "the usual teaching of 48 to 72 hours from session to session, quoted from memory, less two "
                "hours for the session itself"}},
    {COUNTED_LEGS_BEFORE_SPARRING,
     {.value = 36000, .severity = SEVERITY_WARNING, .source = COMMON}},
    {COUNTED_NECK_BEFORE_SPARRING, {.value = 2000, .severity = SEVERITY_WARNING, .source = COMMON}},
    {COUNTED_CONTRAST_REST,
     {.value = 180000,
      .severity = SEVERITY_INFO,
      .source = "Wilson et al. 2013, J Strength Cond Res 27:854-859; Dobbs et al. 2019, 33:2009-2018 (jumps: 0.18 "
                "after 3 to 7 minutes, -0.15 below 3)"}},
    {COUNTED_AGE_OF_BEST,
     {.value = 8000, .top = 12000, .severity = SEVERITY_INFO, .source = COMMON}},
    {COUNTED_EFFORT,
     {.value = 7000, .first_weeks = 2, .severity = SEVERITY_WARNING, .source = COMMON}},
};

typedef const struct layered *(*finder)(const struct limit_table *table, enum counted counted,
                                        const struct holder *holder);

/* What FIND finds in the first camp that WINDOW touches and that has it. */
static const struct limit *find_in_camps(const struct run *run, const struct window *window,
                                         enum counted counted, finder find)
{
    const struct timeline *timeline = window->timeline;
    for (size_t i = 0; i < timeline->camp_count; i++) {
        const struct camp *camp = timeline->camps[i];
        if (window->camp ? camp != window->camp
                         : camp->first > window->last || camp->last < window->first)
            continue;
        struct holder holder = {window->athlete, window->phase, window->first, window->last};
        if (window->scope == SCOPE_WEEK)
            holder.phase = camp_phase_between(camp, window->first, window->last);
        const struct layered *found = find(run_table(run, camp), counted, &holder);
        if (found)
            return found->limit;
    }
    return NULL;
}

const struct limit *run_limit(const struct run *run, const struct window *window,
                              enum counted counted)
{
    return find_in_camps(run, window, counted, limit_table_find);
}

const struct limit *run_limit_beside(const struct run *run, const struct window *window,
                                     enum counted counted)
{
    return find_in_camps(run, window, counted, limit_table_find_beside);
}

struct setting run_setting(const struct run *run, const struct window *window, enum counted counted)
{
    struct setting setting = {.source = COMMON, .severity = SEVERITY_WARNING};
    for (size_t i = 0; i < sizeof defaults / sizeof defaults[0]; i++)
        if (defaults[i].counted == counted)
            setting = defaults[i].setting;
    const struct limit *limit = run_limit(run, window, counted);
    if (!limit)
        return setting;
    setting.value = limit->value;
    setting.top = limit->bound == LIMIT_WITHIN ? limit->top : setting.top;
    setting.first_weeks = limit->first_weeks ? limit->first_weeks : setting.first_weeks;
    setting.limit = limit;
    if (limit->force != FORCE_MUST || limit->bound != LIMIT_AT_LEAST)
        setting.severity = limit_severity(limit, true);
    return setting;
}

void run_note_setting(struct run *run, struct finding *finding, const struct setting *setting)
{
    if (setting->limit)
        run_note_limit(run, finding, setting->limit);
    else if (strcmp(setting->source, COMMON) == 0)
        diag_remark(run->diag, finding,
                    "common practice, no source; a limit of your own can say "
                    "otherwise");
    else
        diag_remark(run->diag, finding, "source: %s; a limit of your own can say otherwise",
                    setting->source);
}
