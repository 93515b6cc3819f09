#include <stdarg.h>
#include <string.h>

#include "figures/dates.h"
#include "limits/waive.h"
#include "measure/kit.h"
#include "model/programme.h"
#include "wording/wording.h"
#include "rules/finding_groups.h"

/* --- one fault, met several times --- */

static guint key_hash(gconstpointer pointer)
{
    const struct key *key = pointer;
    guint hash = (guint)key->diagnostic;
    hash = hash * 31 + key->span.file;
    hash = hash * 31 + key->span.start;
    hash = hash * 31 + key->other.start;
    hash = hash * 31 + g_direct_hash(key->subject) + (guint)key->identity;
    return hash * 31 + (guint)key->number;
}

static gboolean key_equal(gconstpointer left, gconstpointer right)
{
    const struct key *a = left, *b = right;
    return a->span.file == b->span.file && a->span.start == b->span.start && a->other.file == b->other.file &&
           a->other.start == b->other.start && a->subject == b->subject && a->identity == b->identity && a->number == b->number &&
           a->diagnostic == b->diagnostic;
}

static void drop_table(void *table)
{
    g_hash_table_destroy(table);
}

struct groups *groups_new(struct arena *arena)
{
    struct groups *groups = arena_alloc(arena, sizeof *groups);
    groups->table = g_hash_table_new(key_hash, key_equal);
    arena_at_end(arena, drop_table, groups->table);
    return groups;
}

/* Counts that the fault of GROUP was met in WINDOW. */
static void meet(struct finding_group *group, const struct window *window)
{
    const struct athlete *athlete = window->athlete;
    group->met++;
    if (!athlete)
        return;
    group->of_work = window->scope == SCOPE_OCCASION;
    if (athlete != group->last) {
        group->last = athlete;
        if (group->athletes < NAMED)
            group->names[group->athletes] = athlete->name.shown;
        group->athletes++;
    }
    if (group->athletes == 1 && window->first != group->day) {
        group->day = window->first;
        if (group->day_count < NAMED)
            group->days[group->day_count] = window->first;
        group->day_count++;
    }
}

/* "for A, B, C and 2 more", or for one athlete the days. */
static const char *met_words(struct run *run, const struct finding_group *group)
{
    bool several = group->athletes > 1;
    int count = several ? group->athletes : group->day_count;
    const char *words = several ? "for " : "on ";
    for (int i = 0; i < count && i < NAMED; i++)
        words = arena_printf(run->arena, "%s%s%s", words, i > 0 ? ", " : "",
                             several ? group->names[i] : date_words(run, group->days[i]));
    if (count > NAMED)
        words = arena_printf(run->arena, "%s and %d more", words, count - NAMED);
    return words;
}

static void tell_others(struct run *run, const struct finding_group *group)
{
    if (group->met < 2)
        return;
    group->finding->met = group->met;
    group->finding->met_words =
        arena_printf(run->arena, "found %d times in all%s%s%s", group->met, group->athletes > 0 ? ", " : "",
                     group->athletes > 0 ? met_words(run, group) : "", group->uneven ? "; the worst is shown" : "");
    diag_remark(run->diag, group->finding, "%s", group->finding->met_words);
}

/* The camp in which the athlete trains in a week, the first where there are several. */
static const struct camp *camp_of_week(const struct window *week)
{
    const struct timeline *timeline = week->timeline;
    for (size_t i = 0; i < timeline->camp_count; i++)
        if (timeline->camps[i]->first <= week->last && timeline->camps[i]->last >= week->first)
            return timeline->camps[i];
    return timeline->camp_count ? timeline->camps[0] : NULL;
}

static const struct whose *whose_window(struct run *run, const struct window *window)
{
    const struct camp *camp = window->camp ? window->camp : camp_of_week(window);
    if (!camp)
        return NULL;
    struct whose *of = arena_alloc(run->arena, sizeof *of);
    *of = (struct whose){.person = window->athlete,
                         .first = window->first,
                         .last = window->last,
                         .week = window->scope == SCOPE_WEEK,
                         .who = window->athlete->name.shown,
                         .when = window_words(run, window),
                         .span = camp->name.span};
    return of;
}

/* The window whose findings appear together on a screen: what is found in a week counts among the week's, whether it is
 * about all of it or about one day. */
static const struct window *screen_window(struct run *run, const struct window *window)
{
    if (run->week)
        return run->week;
    if (!window->athlete || !(window->scope & (SCOPE_PHASE | SCOPE_CAMP)))
        return NULL;
    struct window *copy = arena_alloc(run->arena, sizeof *copy);
    *copy = *window;
    return copy;
}

/* What others read in place of a health fact: whom the work is not for, and when; and nothing if it is not about
 * work. */
static const char *neutral_words(struct run *run, const struct finding_group *group)
{
    if (!group->of_work)
        return "";
    const char *met = met_words(run, group);
    return group->athletes > 1
               ? arena_printf(run->arena, "this work is not %s", met)
               : arena_printf(run->arena, "this work is not for %s %s", group->names[0], met);
}

void groups_word(struct run *run)
{
    for (size_t i = 0; i < run->groups->count; i++) {
        const struct finding_group *group = run->groups->items[i];
        if (group->say)
            group->say(run, group->finding, group->what);
        if (group->of)
            group->finding->of = whose_window(run, group->of);
    }
}

void groups_finish(struct run *run)
{
    groups_word(run);
    for (size_t i = 0; i < run->groups->count; i++) {
        const struct finding_group *group = run->groups->items[i];
        tell_others(run, group);
        if (group->rule->marks & HEALTH)
            diag_set_neutral(group->finding, neutral_words(run, group));
    }
}

/* --- waivers --- */

static struct waived_days days_of(const struct window *window)
{
    return (struct waived_days){.athlete = window->athlete,
                                .camp = window->camp,
                                .first = window->first,
                                .last = window->last,
                                .occasions = window->occasions,
                                .count = window->count};
}

void waived_pass(struct waived *waived, const struct passing *passing)
{
    milli figure = passing->figure;
    if (!passing->floor && figure <= 0)
        waived->figureless = true;
    else if (!waived->passed || (passing->floor ? figure < waived->worst : figure > waived->worst))
        waived->worst = figure;
    waived->passed = true;
}

static void note_passing(struct run *run, const struct passing *passing)
{
    run->passings = arena_grow(run->arena, run->passings, run->passing_count, &run->passing_capacity,
                               sizeof *run->passings);
    run->passings[run->passing_count++] = *passing;
}

/* Whether a waiver keeps a finding of RULE quiet; every one that does is marked as used. */
static bool is_waived(struct run *run, const struct rule *rule, const struct about *about)
{
    const struct window *window = about->window;
    bool quiet = false;
    for (size_t i = 0; !(rule->marks & FIRM) && i < run->programme->waiver_count; i++) {
        const struct waiver *waiver = &run->programme->waivers[i];
        if (strcmp(waiver->check, diagnostic_name(rule->diagnostic)) != 0)
            continue;
        const struct waived_days days = days_of(window);
        if (!waiver_reaches(waiver, &days))
            continue;
        if (!waiver_covers(waiver, about->figure, about->floor)) {
            const struct passing passing = {i, about->figure, about->floor};
            waived_pass(&run->waived[i], &passing);
            if (run->recalls)
                note_passing(run, &passing);
            continue;
        }
        run->waived[i].used = true;
        quiet = true;
    }
    return quiet;
}

/* --- telling --- */

struct finding_group *group_find(const struct run *run, const struct key *key)
{
    return g_hash_table_lookup(run->groups->table, key);
}

struct finding_group *group_new(struct run *run, const struct rule *rule, const struct key *key,
                                struct finding *finding)
{
    struct groups *groups = run->groups;
    struct finding_group *group = arena_alloc(run->arena, sizeof *group);
    group->key = *key;
    group->rule = rule;
    group->finding = finding;
    groups->items = arena_grow(run->arena, groups->items, groups->count, &groups->capacity,
                               sizeof(struct finding_group *));
    groups->items[groups->count++] = group;
    g_hash_table_insert(groups->table, &group->key, group);
    return group;
}

bool run_wants(const struct run *run, const struct window *window)
{
    bool wants = !run->wanted;
    for (size_t i = 0; window && !wants && i < window->count; i++)
        wants = run->wanted->occasions[window->occasions[i] - run->programme->occasions];
    return wants;
}

/* Does somebody ask for what ABOUT is about? */
static bool is_wanted(const struct run *run, const struct about *about)
{
    if (!run->wanted)
        return true;
    return about->left_out ? run->wanted->left_out[about->left_out - run->programme->left_out]
                           : run_wants(run, about->window);
}

static void note_barred(struct run *run, const struct about *about)
{
    if (!run->barred || about->severity != SEVERITY_ERROR)
        return;
    for (size_t i = 0; i < about->window->count; i++)
        run->barred[about->window->occasions[i] - run->programme->occasions] = true;
}

/* Notes how GROUP is reported now, so that it can be put among others' later: whether it is for the coach alone is
 * known once it is worded. */
static void note_telling(struct run *run, struct finding_group *group, const struct about *about)
{
    if (group->telling_count)
        group->tellings[group->telling_count - 1].private = group->finding->private;
    group->finding->private = false;
    group->tellings = arena_grow(run->arena, group->tellings, group->telling_count, &group->telling_capacity,
                                 sizeof *group->tellings);
    group->tellings[group->telling_count++] = (struct telling){.weight = about->weight, .severity = about->severity};
}

struct finding *run_meet(struct run *run, const struct rule *rule, const struct about *about)
{
    if (!is_wanted(run, about) || is_waived(run, rule, about))
        return NULL;
    if (run->wanted && about->severity < run->least)
        return NULL; /* a waiver has been of use all the same */
    note_barred(run, about);
    struct key key = {.diagnostic = rule->diagnostic, .span = about->span, .other = about->other,
                      .subject = about->subject, .number = about->subject_number};
    struct finding_group *group = group_find(run, &key);
    if (group) {
        meet(group, about->window);
        group->uneven |= about->weight != group->weight;
        if (about->weight <= group->weight)
            return NULL;
    }

    if (!group) {
        struct finding *finding =
            diag_add(run->diag, about->severity, rule->diagnostic, about->span, "");
        group = group_new(run, rule, &key, finding);
        meet(group, about->window);
    } else {
        /* The same fault, and worse: it is reported instead of the first. */
        struct finding *finding = group->finding;
        finding->note_count = 0;
        finding->help = NULL;
        if (about->severity > finding->severity)
            finding->severity = about->severity;
    }
    if (run->recalls)
        note_telling(run, group, about);
    group->of = screen_window(run, about->window);
    group->weight = about->weight;
    run->groups->last = group;
    return group->finding;
}

void run_say_last(struct run *run, run_sayer say, const void *what, size_t size)
{
    struct finding_group *group = run->groups->last;
    if (!group->say)
        group->what = arena_alloc(run->arena, size);
    group->say = say;
    memcpy(group->what, what, size);
}

void run_say(struct run *run, struct finding *finding, const char *format, ...)
{
    va_list args;
    va_start(args, format);
    finding->words = arena_vprintf(run->arena, format, args);
    va_end(args);
}

struct finding *run_report(struct run *run, const struct rule *rule, const struct about *about,
                           const char *format, ...)
{
    struct finding *finding = run_meet(run, rule, about);
    if (!finding)
        return NULL;
    va_list args;
    va_start(args, format);
    finding->words = arena_vprintf(run->arena, format, args);
    va_end(args);
    return finding;
}

/* --- notes --- */

const char *run_amount(struct run *run, const struct window *window, enum counted counted, milli value)
{
    return counted_amount_in(run->arena, counted, value, gym_unit(window->athlete->gym));
}

const char *run_figure(struct run *run, const struct window *window, enum counted counted, milli value)
{
    return counted_figure_in(run->arena, counted, value, gym_unit(window->athlete->gym));
}

static const char *share_words(struct run *run, const struct window *window,
                               const struct share *share)
{
    const struct occasion *occasion = share->occasion;
    if (share->block && !share->item)
        return share->block->letter
                   ? arena_printf(run->arena, "block %c (%s)", share->block->letter,
                                  block_kinds.names[share->block->kind])
                   : block_kinds.names[share->block->kind];
    const char *what = share->item         ? item_words(run, share->item)
                       : occasion->session ? occasion->session->name.shown
                                           : occasion->activity->name.shown;
    if (window->count == 1)
        return what;
    if (share->times > 1)
        return arena_printf(run->arena, "%s, %d times", what, share->times);
    return arena_printf(run->arena, "%s on %s", what, date_words(run, occasion->date));
}

bool run_note_lines(struct run *run, struct finding *finding, const struct window *window,
                    enum counted counted, enum side side, struct span *largest)
{
    /* What logs say about a session's load is how the week turned out. */
    bool done = counted == COUNTED_SESSION_LOAD && window_tally(window)->logged;
    struct share *shares;
    size_t count = done ? tally_shares_done(run->arena, window->occasions, window->count, &shares)
                        : tally_shares(run->arena, window->occasions, window->count, counted, side, &shares);
    for (size_t i = 0; i < count; i++)
        diag_summand(run->diag, finding, shares[i].span, "%s from %s",
                     run_amount(run, window, counted, shares[i].amount.high),
                     share_words(run, window, &shares[i]));
    if (count > 0)
        *largest = shares[0].span;
    return count > 0;
}

void run_note_limit(struct run *run, struct finding *finding, const struct limit *limit)
{
    const char *source = limit->source;
    if (!source)
        diag_note(run->diag, finding, limit->span, "the limit is set here; no source is given");
    else if (strcmp(source, "common practice") == 0)
        diag_note(run->diag, finding, limit->span,
                  "the limit is set here: common practice, no source");
    else
        diag_note(run->diag, finding, limit->span, "the limit is set here: source %s", source);
}

/* --- words --- */

const char *item_words(struct run *run, const struct item *item)
{
    const char *name = item->exercise->name.shown;
    return *item->ref ? arena_printf(run->arena, "%s %s", item->ref, name) : name;
}

int run_today(const struct run *run)
{
    return run->programme->today;
}

bool run_is_past(const struct run *run, int day)
{
    return run->programme->today && day < run->programme->today;
}

const char *date_words(struct run *run, int day)
{
    char text[DATE_TEXT_SIZE];
    return arena_copy(run->arena, date_format(day, text), DATE_TEXT_SIZE - 1);
}

const char *day_words(struct run *run, const struct occasion *occasion)
{
    const char *date = date_words(run, occasion->date);
    const char *before = wording_before_bout(run->arena, occasion);
    return *before ? arena_printf(run->arena, "%s (%s)", date, before) : date;
}

const char *occasion_words(struct run *run, const struct occasion *occasion)
{
    const char *what =
        occasion->session ? occasion->session->name.shown : occasion->activity->name.shown;
    return arena_printf(run->arena, "%s on %s", what, day_words(run, occasion));
}

/* The camp that a week lies in, where there is just one. */
static const struct camp *only_camp(const struct window *week)
{
    const struct camp *only = NULL;
    for (size_t i = 0; i < week->timeline->camp_count; i++) {
        const struct camp *camp = week->timeline->camps[i];
        if (camp->first > week->last || camp->last < week->first)
            continue;
        if (only)
            return NULL;
        only = camp;
    }
    return only;
}

static const char *week_words(struct run *run, const struct window *week)
{
    const char *from = date_words(run, week->first);
    const struct camp *camp = only_camp(week);
    if (!camp)
        return arena_printf(run->arena, "the week from %s", from);
    int number = (week->first - date_monday(camp->first)) / 7 + 1;
    return arena_printf(run->arena, "week %d of %s (from %s)", number, camp->name.shown, from);
}

const char *window_words(struct run *run, const struct window *window)
{
    switch (window->scope) {
    case SCOPE_OCCASION:
        return occasion_words(run, window->occasions[0]);
    case SCOPE_WEEK:
        return week_words(run, window);
    case SCOPE_PHASE:
        return arena_printf(run->arena, "%s of %s", window->phase->name.shown,
                            window->camp->name.shown);
    case SCOPE_CAMP:
        return window->camp->name.shown;
    case SCOPE_ATHLETE:
    case SCOPE_PROGRAMME:
        break;
    }
    return "the programme";
}
