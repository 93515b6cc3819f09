/* What the gym has: kit that is missing, and kit that a pair of exercises needs twice at once. */
#include <string.h>

#include "figures/mass.h"
#include "measure/bars.h"
#include "measure/kit.h"
#include "measure/facts.h"
#include "model/athlete.h"
#include "model/exercise.h"
#include "model/gym.h"
#include "rules/checks.h"
#include "rules/run.h"

/* "20 kg", "45 lb": in the unit that it is marked in. */
static const char *stamped(struct run *run, mass thing)
{
    char text[MASS_TEXT_SIZE];
    enum mass_unit unit = mass_written_in(thing);
    return arena_printf(run->arena, "%s %s", mass_format_exact(thing, unit, text), mass_unit_name(unit));
}

/* --- what is missing --- */

static const struct substitute *substitute_for(const struct exercise *exercise, const char *kit)
{
    for (size_t i = 0; i < exercise->without_count; i++)
        if (exercise->without[i].instead && strcmp(exercise->without[i].kit.folded, kit) == 0)
            return &exercise->without[i];
    return NULL;
}

static void report_missing(struct run *run, const struct rule *rule, const struct window *window,
                           const struct item *item, const struct need *need, int have)
{
    const struct gym *gym = occasion_gym(window->occasions[0]);
    struct about about = {.window = window,
                          .severity = rule_severity(rule),
                          .span = item->span,
                          .subject = gym,
                          .subject_number = need - item->exercise->needs};
    struct finding *finding =
        have == 0 ? run_report(run, rule, &about, "%s needs %s, and %s has none",
                               item_words(run, item), need->name.shown, gym->name.shown)
                  : run_report(run, rule, &about, "%s needs %d x %s, and %s has %d",
                               item_words(run, item), need->count, need->name.shown,
                               gym->name.shown, have);
    if (!finding)
        return;
    diag_note(run->diag, finding, gym->name.span, "what %s has is listed here", gym->name.shown);
    const struct substitute *without = substitute_for(item->exercise, need->name.folded);
    if (without)
        diag_help(run->diag, finding, "below the line, write `without %s, %s`", need->name.shown,
                  without->instead->name.shown);
}

static bool has_enough(const struct need *need, int have)
{
    return have >= (need->count > 1 ? need->count : 1);
}

bool kit_is_missing(const struct gym *gym, const struct exercise *exercise)
{
    for (size_t n = 0; n < exercise->need_count; n++)
        if (!has_enough(&exercise->needs[n], gym_count(gym, exercise->needs[n].name.folded)))
            return true;
    return false;
}

void check_kit_missing(struct run *run, const struct rule *rule, const struct window *window)
{
    const struct occasion *occasion = window->occasions[0];
    const struct gym *gym = occasion_gym(window->occasions[0]);
    for (size_t b = 0; gym && b < occasion->block_count; b++)
        for (size_t i = 0; i < occasion->blocks[b].item_count; i++) {
            const struct item *item = &occasion->blocks[b].items[i];
            if (gym == window->athlete->gym && !window->timeline->missing_kit[item->exercise->number])
                continue;
            for (size_t n = 0; n < item->exercise->need_count; n++) {
                const struct need *need = &item->exercise->needs[n];
                int have = gym_count(gym, need->name.folded);
                if (!has_enough(need, have))
                    report_missing(run, rule, window, item, need, have);
            }
        }
}

/* --- what is done instead --- */

static void report_substituted(struct run *run, const struct rule *rule,
                               const struct window *window, const struct item *item)
{
    const char *name = window->athlete->name.shown;
    bool kit = item->exchange == EXCHANGE_KIT;
    struct about about = {.window = window,
                          .severity = kit ? rule_severity(rule) : SEVERITY_INFO,
                          .span = item->span,
                          .subject = window->athlete,
                          .subject_number = (int64_t)item->line_exercise->number};
    struct finding *finding =
        run_report(run, rule, &about, "%s does %s in place of %s%s", name, item->exercise->name.shown,
                   item->line_exercise->name.shown, kit ? arena_printf(run->arena, ": %s", item->why) : "");
    if (!finding)
        return;
    if (item->load_left)
        diag_remark(run->diag, finding,
                    "the load of the line is for %s and does not carry over; only its effort applies",
                    item->line_exercise->name.shown);
    if (!kit) /* that there is a restriction is for the coach alone */
        diag_set_neutral(finding, arena_printf(run->arena, "this work is not for %s", name));
    else
        diag_help(run->diag, finding, "if you mean that, say so below the line: `for %s, %s`",
                  name, item->exercise->name.shown);
}

/* Whether a line is to be reported: what the coach wrote below it need not be, nor what was already asked because
 * neither load nor effort is left. */
static bool is_to_report(const struct item *item)
{
    bool asked = item->load_left && item->run_count && item->runs[0].load.effort == EFFORT_NONE;
    return item->line_exercise && item->exchange != EXCHANGE_WRITTEN && !asked;
}

/* What was chosen for the athlete, once for each exercise. */
void check_substituted(struct run *run, const struct rule *rule, const struct window *window)
{
    bool *reported = arena_alloc(run->arena, programme_exercise_count(run->programme) * sizeof *reported);
    for (size_t o = 0; o < window->count; o++) {
        const struct occasion *occasion = window->occasions[o];
        for (size_t b = 0; b < occasion->block_count; b++)
            for (size_t i = 0; i < occasion->blocks[b].item_count; i++) {
                const struct item *item = &occasion->blocks[b].items[i];
                if (!is_to_report(item) || reported[item->line_exercise->number])
                    continue;
                reported[item->line_exercise->number] = true;
                report_substituted(run, rule, window, item);
            }
    }
}

/* --- wanted twice at once --- */

/* Sets looked at: up to the last in which anything changes. */
static int sets_of(const struct block *block)
{
    int last = 1;
    for (size_t i = 0; i < block->item_count; i++) {
        const struct item *item = &block->items[i];
        int before = 0;
        for (size_t r = 0; r + 1 < item->run_count; r++)
            before += item->runs[r].count;
        last = before + 1 > last ? before + 1 : last;
    }
    return block->sets < last ? block->sets : last;
}

/* The run that is set SET (from 0) of ITEM, the last one beyond its end. */
static const struct set_run *run_at(const struct item *item, int set)
{
    for (size_t r = 0; r < item->run_count; r++) {
        if (set < item->runs[r].count)
            return &item->runs[r];
        set -= item->runs[r].count;
    }
    return item->run_count ? &item->runs[item->run_count - 1] : NULL;
}

/* What is loaded at once in one set of a block: a bar, or the discs of a sled, each different one once.
 */
struct setups {
    const struct plating *platings[MOST_DISCS];
    const struct item *items[MOST_DISCS];
    size_t count;
};

static void gather_setups(const struct block *block, int set, struct setups *setups)
{
    setups->count = 0;
    for (size_t i = 0; i < block->item_count && setups->count < MOST_DISCS; i++) {
        const struct item *item = &block->items[i];
        const struct set_run *run = run_at(item, set);
        if (item->filler || !run || (!run->load.plating.bar && !run->load.plating.disc_count))
            continue;
        bool known = false;
        for (size_t k = 0; k < setups->count; k++)
            known |= plating_same(setups->platings[k], &run->load.plating);
        if (known)
            continue;
        setups->platings[setups->count] = &run->load.plating;
        setups->items[setups->count++] = item;
    }
}

/* Something that only so many setups of one set can have to themselves. */
struct claim {
    const char *name;      /* folded; NULL: nothing is claimed */
    const struct kit *bar; /* NULL: a station */
};

enum { CLAIMS = 2 };

/* What setup K claims while the others are loaded: the station that it is loaded at, and its bar, which its mass
 * distinguishes from others of that name. */
static void claims_of(const struct setups *setups, size_t k, struct claim claims[CLAIMS])
{
    const struct exercise *exercise = setups->items[k]->exercise;
    const struct kit *bar = setups->platings[k]->bar;
    const char *station = exercise_needs(exercise, "landmine") ? "landmine"
                          : exercise_needs(exercise, "sled")   ? "sled"
                                                               : NULL;
    claims[0] = (struct claim){station, NULL};
    claims[1] = (struct claim){bar ? bar->name.folded : NULL, bar};
}

/* How many of the first setups, up to the one at LAST, make a claim such as CLAIM, and in *FIRST the first of them. */
static int claimed(const struct setups *setups, size_t last, const struct claim *claim,
                   const struct item **first)
{
    int count = 0;
    for (size_t k = 0; k <= last; k++) {
        struct claim claims[CLAIMS];
        bool same = false;
        claims_of(setups, k, claims);
        for (int c = 0; c < CLAIMS; c++)
            same = same || (claims[c].name && strcmp(claims[c].name, claim->name) == 0 &&
                            claims[c].bar == claim->bar);
        if (same && count++ == 0)
            *first = setups->items[k];
    }
    return count;
}

static const char *claim_words(struct run *run, const struct claim *claim)
{
    return claim->bar ? arena_printf(run->arena, "%s %s",
                                     stamped(run, claim->bar->mass),
                                     claim->bar->name.shown)
                      : claim->name;
}

static bool report_twice(struct run *run, const struct rule *rule, const struct window *window,
                         const struct block *block, const struct setups *setups)
{
    const struct gym *gym = occasion_gym(window->occasions[0]);
    for (size_t i = CLAIMS; i < setups->count * CLAIMS; i++) {
        const struct item *first = NULL, *item = setups->items[i / CLAIMS];
        struct claim claims[CLAIMS];
        claims_of(setups, i / CLAIMS, claims);
        const struct claim *claim = &claims[i % CLAIMS];
        int wanted = claim->name ? claimed(setups, i / CLAIMS, claim, &first) : 0;
        int have = claim->bar ? claim->bar->count : claim->name ? gym_count(gym, claim->name) : 0;
        if (wanted < 2 || wanted <= have)
            continue;
        struct about about = {
            .window = window, .severity = rule_severity(rule), .span = item->span, .subject = gym};
        struct finding *finding = run_report(
            run, rule, &about, "%s and %s both need the %s with different loads, and %s has %d",
            item_words(run, first), item_words(run, item), claim_words(run, claim), gym->name.shown, have);
        if (finding) {
            diag_note(run->diag, finding, first->span, "loaded here in the same %s",
                      block_kinds.names[block->kind]);
            diag_help(run->diag, finding,
                      "give both the same load, or put them in blocks of their own");
        }
        return true;
    }
    return false;
}

void check_kit_twice(struct run *run, const struct rule *rule, const struct window *window)
{
    const struct occasion *occasion = window->occasions[0];
    for (size_t b = 0; occasion_gym(occasion) && b < occasion->block_count; b++) {
        const struct block *block = &occasion->blocks[b];
        struct setups setups;
        bool found = false;
        for (int set = 0; block_shares_time(block) && !found && set < sets_of(block); set++) {
            gather_setups(block, set, &setups);
            found = report_twice(run, rule, window, block, &setups);
        }
    }
}

/* --- discs for two bars --- */

static int discs_of(const struct plating *plating, mass disc)
{
    int sides = plating->one_sleeve || !plating->bar ? 1 : 2, count = 0;
    for (int i = 0; i < plating->disc_count; i++)
        count += plating->discs[i] == disc ? sides : 0;
    return count;
}

static bool report_discs(struct run *run, const struct rule *rule, const struct window *window,
                         const struct setups *setups)
{
    const struct gym *gym = occasion_gym(window->occasions[0]);
    for (size_t d = 0; d < gym->disc_count; d++) {
        int wanted = 0;
        for (size_t k = 0; k < setups->count; k++)
            wanted += discs_of(setups->platings[k], gym->discs[d].mass);
        if (setups->count < 2 || wanted <= gym->discs[d].count)
            continue;
        const struct item *last = setups->items[setups->count - 1];
        struct about about = {
            .window = window, .severity = rule_severity(rule), .span = last->span, .subject = gym};
        struct finding *finding =
            run_report(run, rule, &about, "%s and %s together need %d discs of %s, and %s has %d",
                       item_words(run, setups->items[0]), item_words(run, last), wanted,
                       stamped(run, gym->discs[d].mass),
                       gym->name.shown, gym->discs[d].count);
        if (finding)
            diag_note(run->diag, finding, setups->items[0]->span, "loaded at the same time");
        return true;
    }
    return false;
}

void check_discs_short(struct run *run, const struct rule *rule, const struct window *window)
{
    const struct occasion *occasion = window->occasions[0];
    for (size_t b = 0; occasion_gym(occasion) && b < occasion->block_count; b++) {
        struct setups setups;
        bool found = false;
        const struct block *block = &occasion->blocks[b];
        for (int set = 0; block_shares_time(block) && !found && set < sets_of(block); set++) {
            gather_setups(block, set, &setups);
            found = report_discs(run, rule, window, &setups);
        }
    }
}
