#include <string.h>

#include "base/text.h"
#include "figures/dates.h"
#include "figures/mass.h"
#include "measure/demand.h"
#include "resolve/dose.h"
#include "measure/kit.h"
#include "measure/logged_lifts.h"
#include "measure/loads.h"
#include "measure/tests.h"
#include "model/athlete.h"
#include "model/exercise.h"

enum {
    ROUND_DOWN_FROM = 90000, /* per cent in thousandths: from here up a load is rounded down */
    MOST_OFF = 2500         /* of the load, that rounding may cost unremarked (2.5 %) */
};

int figures_index(struct resolver *r, struct figures *figures, const struct dose_setting *setting, int set)
{
    if (figures->list)
        return set < figures->count ? set : figures->count - 1;
    return figures_column(r, figures, setting->column);
}

static const char *mass_words(struct resolver *r, mass value, enum mass_unit unit)
{
    char text[MASS_TEXT_SIZE];
    return arena_printf(r->arena, "%s %s", mass_format_exact(value, unit, text), mass_unit_name(unit));
}

/* The same to the hundredth, of a figure that nobody is to write. */
static const char *rough_words(struct resolver *r, mass value, enum mass_unit unit)
{
    char text[MASS_TEXT_SIZE];
    return arena_printf(r->arena, "%s %s", mass_format(value, unit, text), mass_unit_name(unit));
}

/* What was asked for, as the coach thinks of it: as written, or in the gym's unit. */
static const char *asked_words(struct resolver *r, const struct dose *dose, const struct load *load)
{
    bool written = dose->load.word == LOAD_WORD_FIGURE || dose->load.word == LOAD_WORD_PIECES;
    return written && load->kind == LOAD_MASS ? mass_words(r, load->asked, mass_written_in(load->asked))
                                              : rough_words(r, load->asked, load->unit);
}

/* A load that stands alone can be corrected in place; in a series only one week's is wrong. */
static void fix_load(struct resolver *r, struct finding *finding, const struct dose *dose, const char *which,
                     const struct load *load)
{
    const struct figures *figures = dose->load.figures;
    if (mass_round_in(load->made, load->unit) != load->made) { /* a bar in kilograms with discs in pounds: no figure is exact */
        diag_help(r->diag, finding, "%s that can be made is %s", which, rough_words(r, load->made, load->unit));
        return;
    }
    const char *nearest = mass_words(r, load->made, load->unit);
    if (figures && figures->count == 1 && figures->measure != MEASURE_NONE && figures->values[0].low == figures->values[0].high)
        diag_fix(r->diag, finding, figures->span, nearest);
    diag_help(r->diag, finding, "write `%s`, %s that can be made", nearest, which);
}

static const char *made_words(struct resolver *r, enum load_made made, const struct load *load, const char *gym)
{
    if (made == MADE_TOO_FEW)
        return arena_printf(r->arena, "in each of %d, but %s has no %d of the same mass", load->pieces, gym,
                            load->pieces);
    if (made == MADE_LIGHTEST)
        return arena_printf(r->arena, "is less than the lightest that %s has for it", gym);
    if (made == MADE_HEAVIEST)
        return arena_printf(r->arena, "is more than %s has for it", gym);
    return arena_printf(r->arena, "cannot be made at %s", gym);
}

/* A plate listed once is no use on a bar of two sleeves, and `pairs 20, 10 kg` lists one of 10. */
static const char *kit_words(struct resolver *r, const struct gym *gym, const struct plating *plating)
{
    struct text alone = { .arena = r->arena };
    for (size_t i = 0; plating->bar && !plating->one_sleeve && i < gym->disc_count; i++)
        if (gym->discs[i].count == 1)
            text_addf(&alone, "%s%s", alone.length > 0 ? ", " : "", mass_words(r, gym->discs[i].mass, gym->unit));
    if (alone.length == 0)
        return arena_printf(r->arena, "the kit of %s", gym->name.shown);
    return arena_printf(r->arena, "the kit of %s; a bar takes two plates alike, and this lists only one of %s",
                        gym->name.shown, text_get(&alone));
}

/* Says what the gym's kit could not make. A written mass must be met; a share may be off by a little. */
static void report_made(struct resolver *r, enum load_made made, const struct dose *dose,
                        const struct dose_setting *setting, const struct exercise *exercise, const struct load *load)
{
    mass off = load->made > load->asked ? load->made - load->asked : load->asked - load->made;
    bool share = load->kind == LOAD_PERCENT;
    bool far = off > mass_share(load->asked, MOST_OFF);
    if (made == MADE_EXACTLY || made == MADE_UNWEIGHED || made == MADE_FROM_NOTHING || (share && !far) ||
        resolver_is_poisoned(r, setting->gym))
        return;
    const char *gym = setting->gym->name.shown;
    enum severity severity = share && made == MADE_NEAREST ? SEVERITY_WARNING : SEVERITY_ERROR;
    struct finding *finding =
        diag_report(r->diag, severity, DIAG_LOAD_CANNOT_BE_MADE, dose->load.span, "%s for %s %s", asked_words(r, dose, load),
                    exercise->name.shown, made_words(r, made, load, gym));
    diag_note(r->diag, finding, setting->gym->name.span, "%s", kit_words(r, setting->gym, &load->plating));
    if (made == MADE_TOO_FEW)
        return;
    const char *which = load->rounded_down && made == MADE_NEAREST ? "the nearest below" : "the nearest";
    if (!share && made == MADE_NEAREST)
        fix_load(r, finding, dose, which, load);
    else
        diag_help(r->diag, finding, "%s that can be made is %s", which, rough_words(r, load->made, load->unit));
}

/* A load of the record was made once: its plates are given if they still make it. */
static void make_again(const struct dose_setting *setting, const struct exercise *exercise, struct load *load)
{
    struct load again = *load;
    if (load_make(setting->gym, exercise, load->asked, load->pieces, false, &again) == MADE_EXACTLY)
        *load = again;
}

static void make(struct resolver *r, const struct dose *dose, const struct dose_setting *setting,
                 const struct exercise *exercise, struct load *load)
{
    load->made = load->asked;
    load->unit = mass_written_in(load->asked);
    if (!setting->gym || load->asked <= 0)
        return;
    if (setting->held) {
        make_again(setting, exercise, load);
        return;
    }
    bool down = setting->down || (load->kind == LOAD_PERCENT && load->percent.high >= ROUND_DOWN_FROM);
    enum load_made made = load_make(setting->gym, exercise, load->asked, load->pieces, down, load);
    load->rounded_down = down && load->made < load->asked;
    report_made(r, made, dose, setting, exercise, load);
}

/* A best of EXERCISE in the plan, of whatever day. */
static const struct best *any_best(const struct athlete *athlete, const struct exercise *exercise)
{
    for (size_t i = 0; i < athlete->best_count; i++)
        if (athlete->bests[i].exercise->base == exercise->base)
            return &athlete->bests[i];
    return NULL;
}

static void report_no_best(struct resolver *r, const struct dose *dose, const struct dose_setting *setting,
                           const struct exercise *exercise)
{
    const struct best *later = any_best(setting->athlete, exercise);
    struct finding *finding =
        diag_error(r->diag, DIAG_UNKNOWN_BEST, dose->load.span, "%s has no best in %s to take a percentage of",
                   setting->athlete->name.shown, exercise->base->name.shown);
    if (later) {
        diag_note(r->diag, finding, later->span, "this one is from a later day than the session");
        diag_help(r->diag, finding, "correct its day, or load by RPE until then");
        return;
    }
    diag_note(r->diag, finding, setting->athlete->name.span, "no line of `bests` here names it");
    diag_help(r->diag, finding, "add a tested best, or load by RPE until there is one");
}

static void settle_percent(struct resolver *r, const struct dose *dose, const struct dose_setting *setting,
                           const struct exercise *exercise, struct range percent, struct load *load)
{
    if (percent.high > 150000 || percent.low < 1000) {
        diag_error(r->diag, DIAG_BAD_PERCENT, dose->load.figures->span, "a share of a maximum is from 1%% to 150%%");
        return;
    }
    load->kind = LOAD_PERCENT;
    load->percent = percent;
    load->best = athlete_best(setting->athlete, exercise->base, setting->date);
    if (!load->best && resolver_is_poisoned(r, setting->athlete))
        return;
    if (!load->best) {
        report_no_best(r, dose, setting, exercise);
        return;
    }
    load->estimated = load->best->estimated;
    mass base = mass_share(load->best->one_max, exercise->factor * 100);
    load->asked = mass_share(base, percent.low);
    load->asked_high = percent.high > percent.low ? mass_share(base, percent.high) : 0;
    make(r, dose, setting, exercise, load);
}

/* The test that the load of DOSE names; reports and returns NULL where there is none. */
static const struct test *find_test(struct resolver *r, const struct dose *dose)
{
    const struct test *test = names_find(r->tests, resolver_folded(r, dose->load.thing));
    if (test)
        return test;
    if (resolver_is_poisoned(r, r->tests)) {
        resolver_mark_unclear(r, dose->load.span);
        return NULL;
    }
    struct finding *finding = diag_error(r->diag, DIAG_UNKNOWN_TEST, dose->load.span, "there is no test called `%s`",
                                         dose->load.thing);
    const char *near = names_nearest(r->tests, resolver_folded(r, dose->load.thing));
    if (near)
        diag_help(r->diag, finding, "did you mean `%s`?", near);
    else
        diag_help(r->diag, finding, "declare it with a line `test %s`; for a lift with bests, `@ 70%%` is enough",
                  dose->load.thing);
    return NULL;
}

/* VALUE, in thousandths of the unit of TEST, as fine as it is measured. */
static milli round_target(const struct test *test, double value)
{
    const milli step = test->unit == TEST_IN_NEWTONS || test->unit == TEST_IN_WATTS || test->unit == TEST_IN_REPS ? 1000
                       : test->unit == TEST_IN_CM ? 100 : 10;
    return (milli)(value / (double)step + 0.5) * step;
}

/* `@ 70% of isometric mid-thigh pull`: nothing is put on a bar, and the figure is there to be aimed at. */
static void settle_share_of_test(struct resolver *r, const struct dose *dose, const struct dose_setting *setting, int set,
                                 struct load *load)
{
    struct figures *share = dose->load.figures;
    const struct test *test = find_test(r, dose);
    if (!test)
        return;
    struct range percent = share->values[figures_index(r, share, setting, set)];
    if (share->measure != MEASURE_PERCENT || percent.low < 1000 || percent.high > 150000) {
        diag_error(r->diag, DIAG_BAD_PERCENT, share->span, "a share of a result is from 1%% to 150%%");
        return;
    }
    load->kind = LOAD_TEST;
    load->percent = percent;
    load->test = test;
    const struct test_value *latest = test_latest(r->arena, setting->athlete, test, setting->date);
    if (!latest && !resolver_is_poisoned(r, setting->athlete)) {
        struct finding *finding = diag_error(r->diag, DIAG_UNKNOWN_BEST, dose->load.span,
                                             "%s has no result of %s by this day to take a percentage of",
                                             setting->athlete->name.shown, test->name.shown);
        diag_help(r->diag, finding, "enter one below `tests`, or give an effort until there is one");
    }
    if (!latest)
        return;
    load->target = (struct range){round_target(test, latest->value * (double)percent.low / 100),
                                  round_target(test, latest->value * (double)percent.high / 100)};
}

static mass body_mass_on(const struct athlete *athlete, int day)
{
    const struct body_mass *last = NULL;
    for (size_t i = 0; i < athlete->mass_count; i++)
        if (athlete->masses[i].date <= day && (!last || athlete->masses[i].date >= last->date))
            last = &athlete->masses[i];
    return last ? last->mass : 0;
}

static void settle_body(struct resolver *r, const struct dose *dose, const struct dose_setting *setting,
                        const struct exercise *exercise, int set, struct load *load)
{
    struct figures *share = dose->load.figures, *extra = dose->load.extra;
    mass more = extra ? figures_mass(r, extra, figures_index(r, extra, setting, set)) : 0;
    load->kind = LOAD_BODY;
    load->percent = (struct range){100000, 100000};
    load->asked = load->made = load->added = more > 0 ? more : 0;
    if (share && share->measure != MEASURE_PERCENT) {
        diag_error(r->diag, DIAG_WRONG_UNIT, share->span, "a share of body mass is a percentage");
        return;
    }
    if (share)
        load->percent = share->values[figures_index(r, share, setting, set)];
    else
        make(r, dose, setting, exercise, load); /* what is added to the athlete's own mass */
    load->body = mass_share(body_mass_on(setting->athlete, setting->date), load->percent.low);
}

static const struct item *find_item(const struct dose_setting *setting, const char *ref)
{
    for (size_t i = 0; i < setting->item_count; i++)
        if (strcmp(setting->items[i].ref, ref) == 0)
            return &setting->items[i];
    for (size_t b = 0; b < setting->block_count; b++)
        for (size_t i = 0; i < setting->blocks[b].item_count; i++)
            if (strcmp(setting->blocks[b].items[i].ref, ref) == 0)
                return &setting->blocks[b].items[i];
    return NULL;
}

/* The load of set SET of ITEM. */
static const struct load *load_of_set(const struct item *item, int set)
{
    static const struct load nothing;
    for (size_t i = 0; i < item->run_count; i++) {
        if (set < item->runs[i].count || i + 1 == item->run_count)
            return &item->runs[i].load;
        set -= item->runs[i].count;
    }
    return &nothing;
}

/* PERCENT of a load of body mass, which stays a share: kilograms would reveal what somebody weighs. */
static void share_body(const struct load *whole, milli percent, struct load *load)
{
    load->kind = LOAD_BODY;
    load->percent = (struct range){whole->percent.low * percent / 100000, whole->percent.high * percent / 100000};
    load->asked = load->made = load->added = mass_share(whole->added, percent);
    load->body = mass_share(whole->body, percent);
}

/* A share of what ITEM is loaded with means nothing if this athlete does it with another implement. */
static void report_other_implement(struct resolver *r, const struct dose *dose, const struct dose_setting *setting,
                                   const struct item *item)
{
    if (dose->effort.given)
        return;
    struct finding *finding = diag_error(r->diag, DIAG_LOAD_GONE, dose->load.span,
                                         "%s does %s at %s, and a share of that is not a load for %s",
                                         setting->athlete->name.shown, item->exercise->name.shown, item->ref,
                                         item->line_exercise->name.shown);
    diag_note(r->diag, finding, item->span, "%s is here", item->ref);
    diag_help(r->diag, finding, "give an effort too, as in `%s RPE 7`, or a line for this athlete",
              resolver_written(r, dose->load.span));
}

static void settle_share_of_item(struct resolver *r, const struct dose *dose, const struct dose_setting *setting,
                                 const struct exercise *exercise, int set, struct load *load)
{
    const struct item *item = find_item(setting, dose->load.ref);
    struct figures *share = dose->load.figures;
    if (!item && setting->poisoned)
        return;
    if (!item) {
        diag_error(r->diag, DIAG_UNKNOWN_ITEM, dose->load.span, "there is no %s above this line", dose->load.ref);
        return;
    }
    if (share->measure != MEASURE_PERCENT) {
        diag_error(r->diag, DIAG_WRONG_UNIT, share->span, "a share of another load is a percentage");
        return;
    }
    if (item->line_exercise && !loads_alike(setting->gym, item->line_exercise, item->exercise)) {
        report_other_implement(r, dose, setting, item);
        return;
    }
    const struct load *whole = load_of_set(item, set);
    milli percent = share->values[figures_index(r, share, setting, set)].low;
    if (whole->kind == LOAD_BODY) {
        share_body(whole, percent, load);
        return;
    }
    load->kind = LOAD_MASS;
    load->asked = mass_share(whole->made, percent);
    if (load->asked <= 0) {
        load->kind = LOAD_NONE;
        struct finding *finding = diag_report(r->diag, SEVERITY_WARNING, DIAG_NO_LOAD_TO_SHARE, dose->load.span,
                                              "%s has no load in kilograms to take a share of", dose->load.ref);
        diag_note(r->diag, finding, item->span, "%s is here", dose->load.ref);
        return;
    }
    load->percent = share->values[0];
    struct load loose = *load;
    loose.kind = LOAD_PERCENT; /* a share may be off by a little */
    make(r, dose, setting, exercise, &loose);
    *load = loose;
    load->kind = LOAD_MASS;
}

static void settle_last(struct resolver *r, const struct dose *dose, const struct dose_setting *setting,
                        const struct exercise *exercise, int set, struct load *load)
{
    struct figures *extra = dose->load.extra;
    mass more = extra ? figures_mass(r, extra, figures_index(r, extra, setting, set)) : 0;
    mass last = lifted_last(r->programme, setting->athlete, exercise, setting->date);
    if (!last) {
        diag_report(r->diag, SEVERITY_WARNING, DIAG_NO_LAST_LOAD, dose->load.span,
                    "%s has logged no load for %s yet: the sheet leaves it blank", setting->athlete->name.shown,
                    exercise->name.shown);
        return;
    }
    load->kind = LOAD_MASS;
    load->asked = last + (more > 0 ? more : 0);
    make(r, dose, setting, exercise, load);
}

/* Reports a load that is not in a unit of load, and returns -1. */
static mass load_mass(struct resolver *r, const struct figures *figures, int index)
{
    if (figures->measure == MEASURE_KG || figures->measure == MEASURE_LB)
        return figures_mass(r, figures, index);
    diag_error(r->diag, DIAG_WRONG_UNIT, figures->span, "a load is in kg, lb, %% or RM, not in %s",
               measure_words(figures->measure));
    return -1;
}

static void settle_figure(struct resolver *r, const struct dose *dose, const struct dose_setting *setting,
                          const struct exercise *exercise, int set, struct load *load)
{
    struct figures *figures = dose->load.figures;
    int index = figures_index(r, figures, setting, set);
    struct range value = figures->values[index];
    if (figures->measure == MEASURE_PERCENT) {
        settle_percent(r, dose, setting, exercise, value, load);
    } else if (figures->measure == MEASURE_RM) {
        if (value.low < 1000 || value.low % 1000 || value.high % 1000) {
            diag_error(r->diag, DIAG_BAD_COUNT, figures->span, "a rep maximum is of 1 rep or more, and whole: `5 @ 8RM`");
            return;
        }
        load->effort = EFFORT_REP_MAX;
        load->effort_band = value;
    } else {
        mass asked = load_mass(r, figures, index);
        if (asked < 0)
            return;
        if (asked == 0) {
            diag_help(r->diag, diag_error(r->diag, DIAG_BAD_COUNT, figures->span, "a load is more than 0"),
                      "leave the load out if there is none");
            return;
        }
        load->kind = LOAD_MASS;
        load->asked = asked;
        struct figures top = {.measure = figures->measure, .values = &(struct range){value.high, value.high},
                              .span = figures->span};
        load->asked_high = value.high > value.low ? figures_mass(r, &top, 0) : 0;
        make(r, dose, setting, exercise, load);
    }
}

/* `@ medium band`: given by its name. */
static void settle_thing(struct resolver *r, const struct dose *dose, const struct dose_setting *setting,
                         struct load *load)
{
    const struct gym *gym = setting->gym;
    load->kind = LOAD_BAND;
    load->thing = dose->load.thing;
    const char *folded = resolver_folded(r, load->thing);
    if (!gym || gym_count(gym, folded) || resolver_is_poisoned(r, gym))
        return;
    struct finding *finding = diag_error(r->diag, DIAG_UNKNOWN_KIT, dose->load.span, "%s has no `%s`", gym->name.shown,
                                         load->thing);
    diag_note(r->diag, finding, gym->name.span, "the kit of %s", gym->name.shown);
    const char *near = NULL;
    for (size_t i = 0; i < gym->other_count && !near; i++)
        if (text_distance(folded, gym->others[i].name.folded, 1) <= 1)
            near = gym->others[i].name.shown;
    diag_help(r->diag, finding, near ? "did you mean `%s`?" : "load it with what the gym has, or add it there%s",
              near ? near : "");
}

enum effort_kind effort_kind_of(enum effort_word word)
{
    switch (word) {
    case EFFORT_WORD_RPE: return EFFORT_RPE;
    case EFFORT_WORD_RESERVE: return EFFORT_RESERVE;
    case EFFORT_WORD_ALL_OUT: return EFFORT_ALL_OUT;
    case EFFORT_WORD_EASY: return EFFORT_EASY;
    case EFFORT_WORD_PULSE: break;
    }
    return EFFORT_PULSE;
}

static void settle_effort(struct resolver *r, const struct dose *dose, const struct dose_setting *setting, int set,
                          struct load *load)
{
    struct figures *figures = dose->effort.figures;
    load->effort = effort_kind_of(dose->effort.word);
    if (figures)
        load->effort_band = figures->values[figures_index(r, figures, setting, set)];
}

static void settle_given(struct resolver *r, const struct dose *dose, const struct dose_setting *setting,
                         const struct exercise *exercise, int set, struct load *load)
{
    switch (dose->load.word) {
    case LOAD_WORD_FIGURE: case LOAD_WORD_PIECES: settle_figure(r, dose, setting, exercise, set, load); return;
    case LOAD_WORD_BODY: case LOAD_WORD_SHARE_BODY: settle_body(r, dose, setting, exercise, set, load); return;
    case LOAD_WORD_SHARE_REF: settle_share_of_item(r, dose, setting, exercise, set, load); return;
    case LOAD_WORD_SHARE_TEST: settle_share_of_test(r, dose, setting, set, load); return;
    case LOAD_WORD_LAST: settle_last(r, dose, setting, exercise, set, load); return;
    case LOAD_WORD_THING: break;
    }
    settle_thing(r, dose, setting, load);
}

void load_settle(struct resolver *r, const struct dose *dose, const struct dose_setting *setting,
                 const struct exercise *exercise, int set, struct load *load)
{
    load->pieces = dose->load.given ? dose->load.pieces : 1;
    if (dose->load.given)
        settle_given(r, dose, setting, exercise, set, load);
    if (dose->effort.given)
        settle_effort(r, dose, setting, set, load);
}
