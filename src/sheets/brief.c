#include "sheets/brief.h"

#include <math.h>
#include <string.h>

#include "base/text.h"
#include "done/adherence.h"
#include "done/felt.h"
#include "done/next.h"
#include "done/week_load.h"
#include "figures/dates.h"
#include "language/language.h"
#include "measure/absence.h"
#include "measure/member.h"
#include "measure/tally.h"
#include "measure/tests.h"
#include "model/programme.h"
#include "rules/rules.h"
#include "wording/wording.h"

enum { WEEK = 7, WEEKS_BEFORE = 4, DAYS_NEW = 14 /* how long a change in a test is news: common practice */ };

/* One athlete's days around the week. */
struct briefing {
    const struct sheet_origin *origin;
    const struct athlete *athlete;
    int monday;
    const struct occasion **occasions; /* from four weeks before the week to its end, by date */
    size_t count;
    const char **decisions;
    size_t decided, capacity;
};

static struct briefing briefing_of(const struct sheet_origin *origin, const struct athlete *athlete, int monday)
{
    const struct programme *programme = origin->programme;
    struct briefing briefing = {.origin = origin, .athlete = athlete, .monday = monday};
    size_t capacity = 0;
    for (size_t i = 0; i < programme->occasion_count; i++) {
        const struct occasion *one = &programme->occasions[i];
        if (one->athlete != athlete || one->date < monday - WEEKS_BEFORE * WEEK || one->date >= monday + WEEK)
            continue;
        briefing.occasions = arena_grow(origin->arena, briefing.occasions, briefing.count, &capacity, sizeof one);
        briefing.occasions[briefing.count++] = one;
    }
    return briefing;
}

/* Those of the week of MONDAY: how many, and *FIRST of them. */
static size_t week_of(const struct briefing *briefing, int monday, const struct occasion *const **first)
{
    size_t from = 0, to;
    while (from < briefing->count && briefing->occasions[from]->date < monday)
        from++;
    for (to = from; to < briefing->count && briefing->occasions[to]->date < monday + WEEK;)
        to++;
    *first = briefing->occasions + from;
    return to - from;
}

static const char *whole(struct arena *arena, milli value)
{
    return wording_number(arena, (value + 500) / 1000 * 1000);
}

static const char *tenths(struct arena *arena, milli value)
{
    return wording_number(arena, (value + 50) / 100 * 100);
}

/* --- the week before --- */

/* "; it felt like RPE 7.2, where RPE 7 was meant"; "" if nobody said. */
static const char *felt_words(struct arena *arena, const struct occasion *const *week, size_t count)
{
    struct felt *felt;
    size_t kinds = felt_of(arena, week, count, 0, DATE_LAST, &felt);
    milli intended = 0, found = 0, times = 0;
    for (size_t i = 0; i < kinds; i++) {
        intended += felt[i].intended * (milli)felt[i].count;
        found += felt[i].felt * (milli)felt[i].count;
        times += (milli)felt[i].count;
    }
    if (!times)
        return "";
    return arena_printf(arena, said(arena, "; it felt like RPE\u00a0%s, where RPE\u00a0%s was meant"), tenths(arena, found / times),
                        tenths(arena, intended / times));
}

static size_t sessions_in(const struct occasion *const *week, size_t count)
{
    size_t sessions = 0;
    for (size_t i = 0; i < count; i++)
        sessions += !occasion_is_rest(week[i]);
    return sessions;
}

/* How many of them were over and were not logged. */
static size_t unlogged_in(const struct occasion *const *week, size_t count)
{
    size_t found = 0;
    for (size_t i = 0; i < count; i++)
        found += !occasion_is_rest(week[i]) && !week[i]->log && !week[i]->optional;
    return found;
}

static bool any_logged(const struct occasion *const *week, size_t count)
{
    bool any = false;
    for (size_t i = 0; i < count; i++)
        any |= week[i]->log != NULL;
    return any;
}

static const char *last_words(const struct briefing *briefing)
{
    struct arena *arena = briefing->origin->arena;
    const struct occasion *const *week;
    size_t count = week_of(briefing, briefing->monday - WEEK, &week), planned = sessions_in(week, count);
    if (!planned)
        return said(arena, "nothing was planned");
    if (!any_logged(week, count))
        return arena_printf(arena, said_count(arena, (long)planned, "%zu\u00a0session planned, none logged",
                                              "%zu\u00a0sessions planned, none logged"), planned);
    struct adherence kept = adherence_of(week, count, briefing->monday - 1);
    const struct done_share *load = &kept.of[ADHERENCE_LOAD], *sessions = &kept.of[ADHERENCE_SESSIONS];
    const char *words = arena_printf(arena, said(arena, "%s of %s sessions done"), whole(arena, sessions->done),
                                     whole(arena, sessions->planned.high));
    if (load->planned.high <= 0 && load->done > 0)
        words = arena_printf(arena, said(arena, "%s; load %s, none planned"), words, whole(arena, load->done));
    else if (load->planned.high > 0)
        words = arena_printf(arena, said(arena, "%s; load %s, planned %s"), words, whole(arena, load->done),
                             whole(arena, load->planned.high));
    return arena_printf(arena, "%s%s", words, felt_words(arena, week, count));
}

/* --- this week --- */

/* The mean load of the four weeks before, as they turned out; 0 if one of them is not counted in full. */
static milli load_before(const struct briefing *briefing)
{
    milli sum = 0;
    for (int w = 1; w <= WEEKS_BEFORE; w++) {
        struct week_load load = week_load_from(briefing->occasions, briefing->count, briefing->monday - w * WEEK, LOAD_AS_DONE);
        if (!load.counted)
            return 0;
        sum += load.total.high;
    }
    return sum / WEEKS_BEFORE;
}

/* "strength, 9 weeks out", or the bout itself if it is in the week. */
static const char *place_words(const struct briefing *briefing, const struct occasion *first)
{
    struct arena *arena = briefing->origin->arena;
    const struct camp *camp = first->camp;
    const struct bout *bout = camp_next_bout(camp, briefing->monday);
    bool in_week = bout && !bout->cancelled && bout->day < briefing->monday + WEEK;
    const char *phase = first->phase ? first->phase->name.shown : "";
    const char *out = in_week ? arena_printf(arena, said(arena, "bout on %s"), sheet_day_words(arena, bout->day))
                              : wording_weeks_out(arena, first->weeks_out);
    return arena_printf(arena, "%s%s%s%s", *phase || *out ? "; " : "", phase, *phase && *out ? ", " : "", out);
}

static const char *hours_words(struct arena *arena, int64_t minutes)
{
    if (minutes < 120)
        return arena_printf(arena, said(arena, "%d\u00a0min"), (int)minutes);
    return arena_printf(arena, said(arena, "%d\u00a0h\u00a0%02d"), (int)(minutes / 60), (int)(minutes % 60));
}

static const char *nothing_words(const struct briefing *briefing)
{
    struct arena *arena = briefing->origin->arena;
    enum absence why = athlete_absence(briefing->origin->programme, briefing->athlete, briefing->monday);
    return why ? arena_printf(arena, said(arena, "nothing is planned: %s"), said_as(arena, "absence", absence_name(why)))
               : said(arena, "nothing is planned");
}

static const char *next_words(const struct briefing *briefing)
{
    struct arena *arena = briefing->origin->arena;
    const struct occasion *const *week;
    size_t count = week_of(briefing, briefing->monday, &week), planned = sessions_in(week, count);
    int64_t seconds = 0, rounds = 0;
    if (!planned)
        return nothing_words(briefing);
    struct tally tally = {0};
    for (size_t i = 0; i < count; i++) {
        seconds += occasion_is_rest(week[i]) ? 0 : week[i]->seconds;
        tally_occasion(&tally, week[i]);
    }
    rounds = tally.sum[COUNTED_SPARRING_ROUNDS].high;
    milli load = tally.sum[COUNTED_SESSION_LOAD].high, before = load_before(briefing);
    struct text out = {.arena = arena};
    text_addf(&out, said_count(arena, (long)planned, "%zu\u00a0session, %s", "%zu\u00a0sessions, %s"), planned,
              hours_words(arena, (seconds + 30) / 60));
    if (load && before)
        text_addf(&out, said(arena, "; load %s, %s a week in the four before"), whole(arena, load), whole(arena, before));
    else if (load)
        text_addf(&out, said(arena, "; load %s"), whole(arena, load));
    if (rounds)
        text_addf(&out, said_count(arena, rounds == 1000 ? 1 : 2, "; %s sparring round", "; %s sparring rounds"),
                  wording_number(arena, rounds));
    text_add(&out, place_words(briefing, week[0]));
    return text_keep(arena, &out);
}

/* --- to decide --- */

/* Adds WORDS once, however often they were found. */
static void decide(struct briefing *briefing, const char *words)
{
    for (size_t i = 0; i < briefing->decided; i++)
        if (strcmp(briefing->decisions[i], words) == 0)
            return;
    briefing->decisions = arena_grow(briefing->origin->arena, briefing->decisions, briefing->decided, &briefing->capacity,
                                     sizeof words);
    briefing->decisions[briefing->decided++] = words;
}

/* Is FINDING for the head coach to decide: about the week and the person, and neither private nor about health? */
static bool is_for_head_coach(const struct diag *diag, const struct finding *finding)
{
    enum family family = diagnostic_family(finding->diagnostic);
    return !finding->private && !finding->neutral && !diag_is_private(diag, finding->span) &&
           (family == FAMILY_VOLUME || family == FAMILY_PHASE || family == FAMILY_PERSON);
}

/* The words of FINDING without the person and the time, which the page gives already. */
static const char *short_words(struct arena *arena, const struct finding *finding)
{
    const struct whose *of = finding->of;
    const char *words = finding->words, *when;
    size_t who = of ? strlen(of->who) : 0;
    if (of && strncmp(words, of->who, who) == 0 && strncmp(words + who, ": ", 2) == 0)
        words += who + 2;
    const char *days = of ? arena_printf(arena, " in %s", of->when) : "";
    if (*days && (when = strstr(words, days)) != NULL)
        words = arena_printf(arena, "%.*s%s", (int)(when - words), words, when + strlen(days));
    return words;
}

/* What a check found: as it says so itself, which is in English; in another language what it looks for, and its name. */
static const char *finding_words(struct arena *arena, const struct finding *finding)
{
    const struct language *language = arena_language(arena);
    if (!language || language == languages[0])
        return short_words(arena, finding);
    return arena_printf(arena, "%s (%s)", said_as(arena, "check", diagnostic_title(finding->diagnostic)),
                        diagnostic_name(finding->diagnostic));
}

/* Runs the checks over WANTED; what they say is in no language but their own. */
static struct diag *check_week(const struct briefing *briefing, const struct wanted *wanted)
{
    struct arena *arena = briefing->origin->arena;
    const struct programme *programme = briefing->origin->programme;
    const struct language *before = arena_language(arena);
    struct diag *diag = diag_new(arena, programme->sources);
    arena_speak(arena, NULL);
    rules_run_wanted(programme, wanted, SEVERITY_WARNING, NULL, diag);
    arena_speak(arena, before);
    diag_sort(diag);
    return diag;
}

static void decide_findings(struct briefing *briefing)
{
    const struct programme *programme = briefing->origin->programme;
    struct arena *arena = briefing->origin->arena;
    const struct occasion *const *week;
    size_t count = week_of(briefing, briefing->monday, &week);
    struct wanted wanted = {.occasions = arena_alloc(arena, programme->occasion_count + 1),
                            .left_out = arena_alloc(arena, programme->left_out_count + 1)};
    for (size_t i = 0; i < count; i++)
        wanted.occasions[week[i] - programme->occasions] = true;
    if (!count)
        return;
    const struct diag *diag = check_week(briefing, &wanted);
    for (int severity = SEVERITY_ERROR; severity >= SEVERITY_WARNING; severity--)
        for (size_t i = 0; i < diag->count; i++)
            if ((int)diag->items[i]->severity == severity && is_for_head_coach(diag, diag->items[i]))
                decide(briefing, finding_words(arena, diag->items[i]));
}

/* Tests that are due again, and results that changed by more than their error. */
static void decide_tests(struct briefing *briefing, const struct test_error *error, enum test_side side)
{
    struct arena *arena = briefing->origin->arena;
    const struct test *test = error->test;
    struct test_values values = test_values_seen(arena, briefing->athlete, test, side, false);
    values = test_values_between(values, 0, briefing->monday + WEEK - 1);
    if (!values.count)
        return;
    const struct test_value *last = &values.items[values.count - 1];
    const char *name = said_as(arena, "test", test->name.shown);
    int due = test_due(test, last->date);
    if (due && due < briefing->monday + WEEK && (!side || side == TEST_LEFT))
        decide(briefing, arena_printf(arena, due < briefing->monday ? said(arena, "%s is due again since %s")
                                                                    : said(arena, "%s is due again on %s"),
                                      name, sheet_day_words(arena, due)));
    if (values.count < 2 || last->date < briefing->monday - DAYS_NEW)
        return;
    struct test_change change = test_change(error, last[-1].value, last->value);
    if (side)
        name = arena_printf(arena, "%s %s", name, said_as(arena, "side", test_side_words(side)));
    if (change.verdict == TEST_BEYOND_ERROR)
        decide(briefing, arena_printf(arena, said(arena, "%s went from %s to %s, more than the error"), name,
                                      test_figure(arena, test, last[-1].value), test_words(arena, test, last->value)));
}

/* "bench press at 52.5 kg next, by its rule". */
static const char *proposal_words(struct arena *arena, const struct proposal *proposal)
{
    const char *load = wording_mass(arena, proposal->load, mass_written_in(proposal->load), false);
    const char *name = wording_exercise(arena, proposal->item->exercise);
    if (!proposal->reps)
        return arena_printf(arena, said(arena, "%s at %s next, by its rule"), name, load);
    return arena_printf(arena, said_count(arena, proposal->reps, "%1$s at %2$s for %3$d rep next, by its rule",
                                          "%1$s at %2$s for %3$d reps next, by its rule"), name, load, proposal->reps);
}

static void decide_all(struct briefing *briefing, const struct test_error *errors)
{
    struct arena *arena = briefing->origin->arena;
    const struct programme *programme = briefing->origin->programme;
    const struct occasion *const *week;
    size_t count = week_of(briefing, briefing->monday - WEEK, &week), unlogged = unlogged_in(week, count);
    struct proposal *proposals;
    decide_findings(briefing);
    for (size_t t = 0; briefing->athlete->result_count && t < programme->test_count; t++)
        for (enum test_side side = TEST_WHOLE; side <= TEST_RIGHT; side++)
            decide_tests(briefing, &errors[t], side);
    size_t loads = next_of(arena, programme, 0, briefing->athlete, &proposals);
    for (size_t i = 0; i < loads; i++)
        decide(briefing, proposal_words(arena, &proposals[i]));
    if (unlogged && unlogged < sessions_in(week, count))
        decide(briefing, arena_printf(arena, said_count(arena, (long)unlogged, "%zu\u00a0session of last week not logged",
                                                        "%zu\u00a0sessions of last week not logged"), unlogged));
}

/* --- all --- */

static bool is_in_camp(const struct programme *programme, const struct athlete *athlete, int monday)
{
    for (size_t c = 0; c < programme->camp_count; c++) {
        const struct camp *camp = programme->camps[c];
        if (camp->first < monday + WEEK && camp->last >= monday && camp_has_between(camp, athlete, monday, monday + WEEK - 1))
            return true;
    }
    return false;
}

const struct brief *sheet_briefs(const struct sheet_origin *origin, int monday, size_t *count)
{
    const struct programme *programme = origin->programme;
    struct brief *briefs = arena_alloc(origin->arena, (programme->athlete_count + 1) * sizeof *briefs);
    const struct test_error *errors = test_errors(origin->arena, programme);
    *count = 0;
    for (size_t a = 0; a < programme->athlete_count; a++) {
        const struct athlete *athlete = programme->athletes[a];
        if (!is_in_camp(programme, athlete, monday))
            continue;
        struct briefing briefing = briefing_of(origin, athlete, monday);
        decide_all(&briefing, errors);
        briefs[(*count)++] = (struct brief){.athlete = athlete, .last = last_words(&briefing), .next = next_words(&briefing),
                                            .decisions = briefing.decisions, .decision_count = briefing.decided};
    }
    return briefs;
}
