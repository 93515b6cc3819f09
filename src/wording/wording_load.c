/* wording_load.c - loads and efforts in a coach's words. */
#include <string.h>

#include "base/text.h"
#include "figures/mass.h"
#include "language/language.h"
#include "model/block.h"
#include "model/exercise.h"
#include "model/gym.h"
#include "model/test.h"
#include "wording/wording.h"

#define GAP WORDING_GAP
#define TIMES GAP WORDING_TIMES GAP
#define DOT " " WORDING_DOT " "

static mass hung(const struct load *load)
{
    return load->made > 0 ? load->made : load->asked;
}

/* Is what is hung on or held a figure that somebody wrote, or that the gym has? A share of a best that nothing makes is none. */
static bool is_exact(const struct load *load)
{
    return (load->kind == LOAD_MASS || load->made != load->asked) && mass_round_in(hung(load), load->unit) == hung(load);
}

static const char *hung_number(struct arena *arena, const struct load *load)
{
    char text[MASS_TEXT_SIZE];
    const char *words = is_exact(load) ? mass_format_exact(hung(load), load->unit, text) : mass_format(hung(load), load->unit, text);
    return said_figures(arena, arena_copy(arena, words, strlen(words)));
}

static const char *hung_words(struct arena *arena, const struct load *load, bool pounds)
{
    return is_exact(load) ? wording_mass_exact(arena, hung(load), load->unit, pounds)
                          : wording_mass(arena, hung(load), load->unit, pounds);
}

static bool has_mass(const struct load *load)
{
    return load_is_weighed(load->kind) && hung(load) > 0;
}

const char *wording_load_mass(struct arena *arena, const struct load *load, bool pounds)
{
    if (!has_mass(load))
        return "";
    const char *words = hung_words(arena, load, pounds);
    if (load->asked_high > load->asked)
        words = arena_printf(arena, "%s" WORDING_TO "%s", hung_number(arena, load),
                             wording_mass(arena, load->asked_high, load->unit, pounds));
    if (load->pieces > 1)
        return arena_printf(arena, "%d" TIMES "%s", load->pieces, words);
    return words;
}

const char *wording_load_share(struct arena *arena, const struct load *load)
{
    if (load->kind != LOAD_PERCENT)
        return "";
    return arena_printf(arena, "%s" GAP "%%%s", wording_range(arena, load->percent),
                        load->estimated ? said(arena, " est.") : "");
}

const char *wording_effort(struct arena *arena, const struct load *load)
{
    const char *band = wording_range(arena, load->effort_band);
    switch (load->effort) {
    case EFFORT_RPE:
        return arena_printf(arena, said(arena, "RPE\u00a0%s"), band);
    case EFFORT_RESERVE:
        return arena_printf(arena, said(arena, "%s\u00a0in\u00a0reserve"), band);
    case EFFORT_ALL_OUT:
        return said(arena, "all-out");
    case EFFORT_EASY:
        return said(arena, "easy");
    case EFFORT_REP_MAX:
        return arena_printf(arena, said(arena, "%sRM"), band);
    case EFFORT_PULSE:
        return arena_printf(arena, said(arena, "pulse\u00a0%s"), band);
    case EFFORT_NONE:
        break;
    }
    return "";
}

const char *wording_meaning(const struct arena *arena, const struct exercise *exercise, const struct load *load)
{
    if (!has_mass(load))
        return "";
    if (load->pieces == 2 &&
        (exercise->weigh == WEIGH_ONE_HAND || exercise->weigh == WEIGH_UNSAID))
        return said(arena, "each\u00a0hand");
    switch (exercise->weigh) {
    case WEIGH_BAR_AND_PLATES:
        return said(arena, "with\u00a0bar");
    case WEIGH_PLATES:
        return said(arena, "plates");
    case WEIGH_ONE_HAND:
        return said(arena, "one\u00a0hand");
    case WEIGH_BOTH_HANDS:
        return said(arena, "both\u00a0hands");
    case WEIGH_ADDED:
        return said(arena, "added");
    default:
        return "";
    }
}

const char *wording_bar(struct arena *arena, const struct kit *bar)
{
    const char *name = strcmp(bar->name.folded, "barbell") == 0 ? said(arena, "bar") : said_as(arena, "kit", bar->name.shown);
    return arena_printf(arena, said_as(arena, "bar", "%1$s %2$s"), wording_stamped(arena, bar->mass), name);
}

/* "body mass", "20 % of body mass + 5 kg". Never `asked` or `made`, which hold the share too. */
static const char *body_load(struct arena *arena, const struct load *load, bool pounds)
{
    const char *share = load->percent.high == 0 || load->percent.high == 100000
                            ? said(arena, "body\u00a0mass")
                            : arena_printf(arena, said(arena, "%s\u00a0%% of body\u00a0mass"),
                                           wording_range(arena, load->percent));
    const char *added = load->added > 0 ? arena_printf(arena, " +" GAP "%s",
                                                       wording_mass(arena, load->added, load->unit, pounds))
                                        : "";
    return text_joined(arena, share, added);
}

/* "70 % of isometric mid-thigh pull, 2100 N" */
static const char *test_load(struct arena *arena, const struct load *load)
{
    const char *unit = said_as(arena, "unit", test_units.names[load->test->unit]);
    const char *target = load->target.high > 0
                             ? arena_printf(arena, ", %s%s%s", wording_range(arena, load->target), *unit ? GAP : "", unit)
                             : "";
    return text_joined(arena, arena_printf(arena, said(arena, "%s\u00a0%% of %s"), wording_range(arena, load->percent),
                                           said_as(arena, "test", load->test->name.shown)), target);
}

const char *wording_load_words(struct arena *arena, const struct load *load, bool pounds)
{
    switch (load->kind) {
    case LOAD_BAND: return said_as(arena, "kit", load->thing);
    case LOAD_BODY: return body_load(arena, load, pounds);
    case LOAD_TEST: return test_load(arena, load);
    case LOAD_NONE: case LOAD_MASS: case LOAD_PERCENT: break;
    }
    return *wording_load_mass(arena, load, false) ? "" : wording_load_share(arena, load);
}

/* What stands before the effort. */
static const char *plain_load(struct arena *arena, const struct exercise *exercise,
                              const struct load *load, bool pounds)
{
    if (!load_is_weighed(load->kind))
        return wording_load_words(arena, load, pounds);
    const char *share = wording_load_share(arena, load);
    const char *built = wording_load_mass(arena, load, pounds);
    const char *meaning = wording_meaning(arena, exercise, load);
    return arena_printf(arena, "%s%s%s%s%s", share, *share && *built ? DOT : "", built,
                        *meaning ? GAP : "", meaning);
}

const char *wording_load(struct arena *arena, const struct exercise *exercise,
                         const struct load *load, bool pounds)
{
    const char *plain = plain_load(arena, exercise, load, pounds);
    const char *effort = wording_effort(arena, load);
    return arena_printf(arena, "%s%s%s", plain, *plain && *effort ? DOT : "", effort);
}

static bool same_loads(struct arena *arena, const struct item *item)
{
    for (size_t i = 1; i < item->run_count; i++)
        if (strcmp(wording_load(arena, item->exercise, &item->runs[0].load, false),
                   wording_load(arena, item->exercise, &item->runs[i].load, false)) != 0)
            return false;
    return true;
}

/* Whether every set has one plain mass and no effort, so that the unit can be said once. */
static bool plain_masses(const struct item *item)
{
    for (size_t i = 0; i < item->run_count; i++) {
        const struct load *load = &item->runs[i].load;
        if (!has_mass(load) || load->pieces > 1 || load->effort != EFFORT_NONE || load->asked_high > load->asked ||
            load->unit != item->runs[0].load.unit)
            return false;
    }
    return true;
}

/* Among sets that have a load, one without is named too: a comma with nothing before it says nothing. */
static const char *load_or_none(struct arena *arena, const struct exercise *exercise, const struct load *load,
                                bool pounds)
{
    const char *words = wording_load(arena, exercise, load, pounds);
    return *words ? words : said(arena, "no\u00a0load");
}

const char *wording_loads(struct arena *arena, const struct block *block, const struct item *item,
                          bool pounds)
{
    if (item->run_count == 0 || wording_intervals(block, item))
        return "";
    if (same_loads(arena, item))
        return wording_load(arena, item->exercise, &item->runs[0].load, pounds);
    struct text out = {.arena = arena};
    bool once = plain_masses(item) && !pounds;
    for (size_t i = 0; i < item->run_count; i++) {
        const struct set_run *run = &item->runs[i];
        for (int set = 0; set < run->count; set++) {
            bool last = i + 1 == item->run_count && set + 1 == run->count;
            if (once && !last)
                text_add(&out, hung_number(arena, &run->load));
            else if (once)
                text_addf(&out, "%s" GAP "%s", hung_words(arena, &run->load, false),
                          wording_meaning(arena, item->exercise, &run->load));
            else
                text_add(&out, load_or_none(arena, item->exercise, &run->load, pounds));
            if (!last)
                text_add(&out, ", ");
        }
    }
    return text_keep(arena, &out);
}
