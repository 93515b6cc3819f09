/* programme_text.c - a resolved programme for people: how the plan was understood, line by line. */
#include "export/columns.h"
#include "export/division_view.h"
#include "export/logged_text.h"
#include "export/tests_view.h"
#include "export/morning_view.h"
#include "export/pain_view.h"
#include "export/recovery_view.h"
#include "export/room_view.h"
#include "export/show_programme.h"
#include "figures/dates.h"
#include "figures/mass.h"
#include "measure/bars.h"
#include "measure/clocks.h"
#include "measure/limbs.h"
#include "model/athlete.h"
#include "model/exercise.h"
#include "model/gym.h"
#include "model/occasion.h"
#include "model/season.h"
#include "wording/wording.h"

static const char DOT[] = " \302\267 ";

/* Adds WORDS after a dot, if there is anything before it. */
static void join(struct text *text, const char *words)
{
    if (!words || !*words)
        return;
    text_add(text, text->length ? DOT : "");
    text_add(text, words);
}

static const char *kept(const struct programme_view *view, struct text *text)
{
    return text_keep(view->arena, text);
}

static const char *mass_words(const struct programme_view *view, mass value, enum mass_unit unit)
{
    char text[MASS_TEXT_SIZE];
    return arena_printf(view->arena, "%s %s", mass_format(value, unit, text), mass_unit_name(unit));
}

/* In the unit that it is marked in. */
static const char *stamped(const struct programme_view *view, mass value)
{
    return mass_words(view, value, mass_written_in(value));
}

/* --- loads --- */

/* "15 + 2.5 kg a side on trap bar 25 kg"; a unit follows the last disc that is marked in it. */
static const char *plates_words(const struct programme_view *view, const struct plating *plating)
{
    struct text out = {.arena = view->arena};
    char number[MASS_TEXT_SIZE];
    for (int i = 0; i < plating->disc_count; i++) {
        enum mass_unit unit = mass_written_in(plating->discs[i]);
        bool last = i + 1 == plating->disc_count || mass_written_in(plating->discs[i + 1]) != unit;
        text_addf(&out, "%s%s%s%s", i ? " + " : "", mass_format_exact(plating->discs[i], unit, number), last ? " " : "",
                  last ? mass_unit_name(unit) : "");
    }
    text_add(&out, plating->disc_count ? "" : "nothing");
    if (plating->disc_count && !plating->one_sleeve)
        text_add(&out, " a side");
    if (plating->bar)
        text_addf(&out, " on %s %s", plating->bar->name.shown, stamped(view, plating->bar->mass));
    if (plating->collar)
        text_addf(&out, ", collars 2 x %s", stamped(view, plating->collar));
    return kept(view, &out);
}

/* Whether the two would be built alike. */
static bool same_build(const struct load *a, const struct load *b)
{
    return a->asked == b->asked && a->made == b->made && a->body == b->body && plating_same(&a->plating, &b->plating);
}

/* How it is built, and what was asked for if that differs. */
static void join_build(const struct programme_view *view, const struct load *load,
                       struct text *out)
{
    if (view->private && load->body)
        join(out, arena_printf(view->arena, "%s in all", mass_words(view, load->body + load->made, load->unit)));
    if (load->plating.bar || load->plating.disc_count)
        join(out, plates_words(view, &load->plating));
    if (load->made != load->asked && load->made > 0)
        join(out, arena_printf(view->arena, "asked %s%s", mass_words(view, load->asked, load->unit),
                               load->rounded_down ? ", rounded down" : ""));
}

/* --- items --- */

static const char *details(const struct programme_view *view, const struct item *item)
{
    struct text out = {.arena = view->arena};
    const struct set_run *runs = item->runs;
    if (item->after >= 0)
        join(&out, arena_printf(view->arena, "after %s", wording_clock(view->arena, item->after)));
    if (item->run_count)
        join(&out, *wording_tempo(view->arena, &runs->tempo)
                       ? arena_printf(view->arena, "tempo %s", wording_tempo(view->arena, &runs->tempo))
                       : "");
    for (size_t i = 0; i < item->run_count; i++)
        if (i == 0 || !same_build(&runs[i].load, &runs[i - 1].load))
            join_build(view, &runs[i].load, &out);
    for (size_t i = 0; i < item->run_count; i++)
        if (i == 0 || runs[i].seconds != runs[i - 1].seconds)
            join(&out, arena_printf(view->arena, "%s a set",
                                    wording_time(view->arena, runs[i].seconds)));
    for (size_t i = 0; item->run_count && i < runs->part_count; i++)
        if (runs->parts[i].assumed_each) {
            join(&out, "no side given: on each");
            break;
        }
    join(&out, wording_sides_out(view->arena, item));
    join(&out, item->why);
    return kept(view, &out);
}

static void add_item(const struct programme_view *view, struct columns *columns,
                     const struct block *block, const struct item *item)
{
    const struct exercise *exercise = item->exercise;
    const char *name = exercise->name.shown;
    if (item->filler)
        name = arena_printf(view->arena, "in the rests: %s", name);
    if (item->round)
        name = arena_printf(view->arena, "round %d: %s", item->round, name);
    const char *const cells[] = {
        "",
        item->ref,
        name,
        wording_dose(view->arena, block, item),
        wording_loads(view->arena, block, item, false),
        details(view, item),
        view->lines ? view_line(view, item->span) : "",
    };
    columns_add(columns, cells, sizeof cells / sizeof *cells);
}

static void add_block(const struct programme_view *view, struct text *out,
                      const struct block *block)
{
    struct columns columns = {.arena = view->arena};
    text_addf(out, "    %7s  ", wording_clock(view->arena, block->starts));
    if (block->letter)
        text_addf(out, "%c  ", block->letter);
    columns_words(out, wording_block(view->arena, block));
    text_addf(out, "%s%s", DOT, wording_clock(view->arena, block->seconds));
    if (block->keep)
        text_addf(out, "%skeep %d", DOT, block->keep);
    if (block->poor_sets)
        text_addf(out, "%s%s", DOT, wording_poor_day(view->arena, block));
    if (view->lines)
        text_addf(out, "  %s", view_line(view, block->span));
    text_add_char(out, '\n');
    for (size_t i = 0; i < block->item_count; i++)
        add_item(view, &columns, block, &block->items[i]);
    columns_write(&columns, 13, MOST_COLUMNS, out);
}

/* --- occasions --- */

static const char *activity_words(const struct programme_view *view,
                                  const struct occasion *occasion)
{
    struct text out = {.arena = view->arena};
    if (occasion->rounds)
        join(&out, occasion->round_seconds
                       ? arena_printf(view->arena, "%d " WORDING_TIMES " %s", occasion->rounds,
                                      wording_clock(view->arena, occasion->round_seconds))
                       : arena_printf(view->arena, "%d rounds", occasion->rounds));
    if (occasion->metres.high)
        join(&out, arena_printf(view->arena, "%s m", wording_range(view->arena, occasion->metres)));
    if (occasion->pulse.high)
        join(&out, arena_printf(view->arena, "pulse %s", wording_range(view->arena, occasion->pulse)));
    return kept(view, &out);
}

static const char *rpe_words(const struct programme_view *view, const char *before, struct range rpe)
{
    return rpe.high ? arena_printf(view->arena, "%sRPE %s", before, wording_range(view->arena, rpe)) : "";
}

/* NAMED: say which camp it belongs to. */
static void add_occasion(const struct programme_view *view, const struct occasion *occasion, bool named,
                         struct text *out)
{
    struct text head = {.arena = view->arena};
    text_addf(&head, "%s %s%s%s  %s", view_weekday(occasion->date),
              view_date(view->arena, occasion->date), occasion->clock >= 0 ? " " : "",
              occasion->clock >= 0 ? view_clock(view->arena, occasion->clock) : "",
              view_title(occasion));
    join(&head, abroad_words(view->arena, occasion));
    join(&head, named ? occasion->camp->name.shown : "");
    join(&head, occasion->seconds ? wording_clock(view->arena, occasion->seconds) : "");
    join(&head, wording_before_bout(view->arena, occasion));
    join(&head, occasion->optional ? "optional" : "");
    if (occasion->attendance && occasion->attendance->run_by)
        join(&head, arena_printf(view->arena, "run by %s", occasion->attendance->run_by));
    if (occasion->session)
        join(&head, arena_printf(view->arena, "column %d", occasion->column + 1));
    else
        join(&head, activity_words(view, occasion));
    join(&head, rpe_words(view, "", occasion->rpe));
    const struct outcome *outcome = &occasion->outcome;
    if (outcome->timed)
        join(&head, outcome->seconds ? arena_printf(view->arena, "took %s", wording_clock(view->arena, outcome->seconds))
                                     : "not done");
    join(&head, rpe_words(view, outcome->timed ? "" : "was ", outcome->rpe));
    text_add(out, "\n  ");
    columns_words(out, text_get(&head));
    if (view->lines)
        text_addf(out, "  %s", view_line(view, occasion->span));
    text_add_char(out, '\n');
    for (size_t i = 0; i < occasion->block_count; i++)
        add_block(view, out, &occasion->blocks[i]);
}

/* --- stance ledgers --- */

static const char *amount(const struct programme_view *view, struct range range)
{
    return range.high ? wording_range(view->arena, range) : "-";
}

static void add_ledger(const struct programme_view *view, const struct ledger *ledger,
                       struct text *out)
{
    static const char *const heads[] = {"", "", "orthodox", "southpaw", "no stance", "all"};
    struct columns columns = {.arena = view->arena};
    columns_add(&columns, heads, 6);
    for (int unit = 0; unit < UNIT_COUNT; unit++)
        for (int limb = 0; limb < LIMB_COUNT; limb++) {
            const struct range *amounts = ledger->limbs[unit][limb];
            struct range all = ledger_limb(ledger, (enum unit)unit, (enum limb)limb);
            const char *const cells[] = {units.names[unit],
                                         limbs.names[limb],
                                         amount(view, amounts[STANCE_ORTHODOX]),
                                         amount(view, amounts[STANCE_SOUTHPAW]),
                                         amount(view, amounts[STANCE_UNKNOWN]),
                                         amount(view, all)};
            if (all.high > 0)
                columns_add(&columns, cells, 6);
        }
    if (columns.count == 1)
        return;
    text_add(out, "\n  stance ledger of the week\n");
    columns_write(&columns, 4, 2, out);
    if (ledger->open)
        text_add(out, "    (sets of as many as possible are not in it)\n");
}

/* --- the whole --- */

/* "Spring squad, week 3 of 12, 2 weeks out, taper", of the camp of OCCASION; weeks out only if the week does not say the
 * same already. */
static void add_camp(const struct programme_view *view, const struct occasion *occasion, const struct occasion *first,
                     struct text *out)
{
    struct text head = {.arena = view->arena};
    const struct camp *camp = occasion->camp;
    text_add(&head, camp->name.shown);
    join(&head, arena_printf(view->arena, "week %d of %d", occasion->week, camp->weeks));
    if (occasion == first || occasion->weeks_out != first->weeks_out)
        join(&head, wording_weeks_out(view->arena, occasion->weeks_out));
    join(&head, occasion->phase ? occasion->phase->name.shown : "");
    join(&head, wording_left_phases(view->arena, camp));
    columns_words(out, text_get(&head));
    text_add_char(out, '\n');
}

/* A line for each camp of the week, whose COUNT occasions begin at WEEK; true: there are several. */
static bool add_heading(const struct programme_view *view, const struct occasion *const *week, size_t count,
                        struct text *out)
{
    bool several = false;
    text_addf(out, "%s%s, ", out->length ? "\n" : "", week[0]->athlete->name.shown);
    add_camp(view, week[0], week[0], out);
    for (size_t i = 1; i < count; i++) {
        bool named = false;
        for (size_t before = 0; before < i && !named; before++)
            named = week[before]->camp == week[i]->camp;
        if (named)
            continue;
        text_add(out, "  and ");
        add_camp(view, week[i], week[0], out);
        several = true;
    }
    return several;
}

void programme_text(const struct programme_view *view, struct text *out)
{
    const struct occasion **order = view_order(view, VIEW_BY_ATHLETE);
    for (size_t i = 0, end = 0; i < view->count; i = end) {
        struct ledger ledger = {0};
        while (end < view->count && view_same_week(order[i], order[end]))
            ledger_occasion(&ledger, order[end++]);
        bool several = add_heading(view, &order[i], end - i, out);
        int monday = date_monday(order[i]->date);
        division_text(view, order[i]->athlete, order[i]->camp, order[i]->date, out);
        recoveries_text(view, order[i]->athlete, order[i]->date, out);
        mornings_text(view, order[i]->athlete, monday, monday + 6, out);
        pains_text(view, order[i]->athlete, monday, monday + 6, out);
        for (size_t o = i; o < end; o++)
            add_occasion(view, order[o], several, out);
        if (view->ledgers)
            add_ledger(view, &ledger, out);
    }
    if (view->rooms)
        rooms_text(view, out);
    logged_text(view, out);
    tests_text(view, out);
}
