/* resolve_pieces.c - a dose of several pieces, separated by commas: `4 s all-out, 28 s easy` goes round and round
 * inside a round, `6 orthodox, 6 southpaw @ 70%` goes set by set. */
#include "resolve/dose.h"
#include "measure/time.h"

/* --- intervals --- */

static bool is_easy(const struct set_run *run)
{
    return run->load.effort == EFFORT_EASY || run->load.effort == EFFORT_NONE;
}

static void report_uneven(struct resolver *r, const struct dose *dose, int cycle, int work)
{
    struct finding *finding = diag_error(r->diag, DIAG_INTERVALS_DO_NOT_FIT, dose->span,
                                         "these intervals take %d s and do not fill a round of %d s evenly", cycle, work);
    diag_help(r->diag, finding, "change a length, so that the round is a whole number of them, or so that the bell "
                                "falls in an easy one");
}

/* Fills a round of WORK seconds with the COUNT pieces of RUNS, over and over until the bell. If that falls into an easy
 * piece, what is left of it becomes one more run. Returns how many runs there are then. */
static size_t fill_with_intervals(struct resolver *r, const struct dose *dose, int work, int cycle,
                                  struct set_run *runs, size_t count)
{
    int left = work % cycle;
    for (size_t i = 0; i < count; i++)
        runs[i].count = work / cycle ? work / cycle : 1;
    for (size_t i = 0; i < count && left > 0 && work > cycle; i++) {
        if (left < runs[i].seconds && is_easy(&runs[i]) && runs[i].part_count == 1 && runs[i].repeats == 1) {
            struct part *rest = arena_alloc(r->arena, sizeof *rest);
            *rest = runs[i].parts[0];
            rest->amount = (struct range){left * 1000, left * 1000};
            runs[count] = runs[i];
            runs[count].parts = rest;
            runs[count].count = 1;
            runs[count].seconds = left;
            runs[count].cut = true;
            return count + 1;
        }
        if (left < runs[i].seconds)
            break;
        left -= runs[i].seconds;
        runs[i].count++;
    }
    if (left > 0)
        report_uneven(r, dose, cycle, work);
    return count;
}

/* `4 s all-out, 28 s easy`: each piece as often as the whole fits into the round, and once in a rest. */
static void settle_intervals(struct resolver *r, const struct dose *dose, const struct dose_setting *setting,
                             struct item *item)
{
    size_t count = 0, i = 0;
    int cycle = 0;
    for (const struct dose *piece = dose; piece; piece = piece->next)
        count++;
    struct set_run *runs = arena_alloc(r->arena, (count + 1) * sizeof *runs);
    for (const struct dose *piece = dose; piece; piece = piece->next, i++) {
        run_settle(r, piece, setting, item, (struct at){0, 0}, &runs[i]);
        cycle += runs[i].seconds;
    }
    if (setting->work && cycle && !item->filler)
        count = fill_with_intervals(r, dose, setting->work, cycle, runs, count);
    item->runs = runs;
    item->run_count = count;
    item->sets = runs[0].count;
}

/* --- set by set --- */

enum { MOST_SETS = 100 };

static bool has_load(const struct dose *dose)
{
    return dose->load.given;
}

static bool has_either(const struct dose *dose)
{
    return dose->load.given || dose->effort.given;
}

/* Whose load PIECE takes over: the next one after it for which HAS is true, because a load is written once, after the
 * last; otherwise the one before it from FIRST on; otherwise its own. */
static const struct dose *taken_from(const struct dose *first, const struct dose *piece,
                                     bool (*has)(const struct dose *dose))
{
    const struct dose *before = piece;
    for (const struct dose *other = piece; other; other = other->next)
        if (has(other))
            return other;
    for (const struct dose *other = first; other != piece; other = other->next)
        before = has(other) ? other : before;
    return before;
}

static bool takes_time(const struct dose *dose)
{
    for (int i = 0; i < dose->part_count; i++) {
        enum measure measure = dose->parts[i].figures->measure;
        if (measure == MEASURE_SECOND || measure == MEASURE_MINUTE || measure == MEASURE_CLOCK)
            return true;
    }
    return false;
}

/* PIECE with what is written once for all of them. */
static struct dose completed(const struct dose *first, const struct dose *piece, const struct dose *last)
{
    struct dose whole = *piece;
    whole.next = NULL;
    whole.load = taken_from(first, piece, has_load)->load;
    whole.effort = taken_from(first, piece, has_either)->effort;
    if (!whole.tempo.given)
        whole.tempo = last->tempo;
    if (!whole.rest)
        whole.rest = last->rest;
    if (first->hold && takes_time(piece))
        whole.hold = true;
    return whole;
}

/* How many sets PIECE is, its load aside. */
static int sets_of(struct resolver *r, const struct dose *piece, const struct dose_setting *setting)
{
    struct dose amounts = *piece;
    struct dose_setting open = *setting;
    amounts.load.given = amounts.effort.given = false;
    amounts.times = setting->sets ? NULL : piece->times; /* otherwise they are repeats inside the set */
    open.sets = 0;
    return dose_set_count(r, &amounts, &open, dose_listed(r, &amounts));
}

/* The longer of the lists of PIECE's load and effort; NULL if it has none. */
static const struct figures *load_list(const struct dose *piece)
{
    const struct figures *load = piece->load.given && piece->load.figures && piece->load.figures->list
                                     ? piece->load.figures : NULL;
    const struct figures *effort = piece->effort.given && piece->effort.figures && piece->effort.figures->list
                                       ? piece->effort.figures : NULL;
    return load && effort ? (load->count > effort->count ? load : effort) : load ? load : effort;
}

/* Adds the COUNT sets of PIECE to the item's runs; equal ones become one. A list of loads is PIECE's own, or covers ALL
 * sets, of which BEFORE have already been added. */
static void add_sets(struct resolver *r, const struct dose *piece, const struct dose_setting *setting, struct item *item,
                     struct set_run *runs, int count, int before, int all)
{
    const struct figures *list = load_list(piece);
    bool over_all = list && list->count == all;
    for (int set = 0; set < count; set++) {
        struct set_run *run = &runs[item->run_count];
        run_settle(r, piece, setting, item, (struct at){set, over_all ? before + set : set}, run);
        if (item->run_count && runs_alike(run - 1, run))
            run[-1].count++;
        else
            item->run_count++;
    }
}

static void settle_listed(struct resolver *r, const struct dose *dose, const struct dose_setting *setting,
                          struct item *item)
{
    const struct dose *last = dose;
    int all = 0, before = 0;
    for (const struct dose *piece = dose; piece && all <= MOST_SETS; piece = piece->next) {
        all += sets_of(r, piece, setting);
        last = piece;
    }
    if (all > MOST_SETS)
        diag_error(r->diag, DIAG_BAD_COUNT, dose->span, "a line has at most %d sets", MOST_SETS);
    else if (setting->sets && all != setting->sets)
        diag_error(r->diag, DIAG_SETS_DISAGREE, dose->span, "this lists %d sets and the block has %d", all, setting->sets);
    all = all > MOST_SETS ? 0 : all;
    struct set_run *runs = arena_alloc(r->arena, (size_t)(all + 1) * sizeof *runs);
    item->runs = runs;
    item->sets = all;
    for (const struct dose *piece = dose; piece && all; piece = piece->next) {
        struct dose whole = completed(dose, piece, last);
        int count = sets_of(r, piece, setting);
        const struct figures *list = load_list(piece);
        if (list && list->count != all && list->count != count)
            diag_error(r->diag, DIAG_LISTS_DISAGREE, list->span, "this list has %d figures, and there are %d sets",
                       list->count, all);
        add_sets(r, &whole, setting, item, runs, count, before, all);
        before += count;
    }
}

void dose_settle_pieces(struct resolver *r, const struct dose *dose, const struct dose_setting *setting,
                        struct item *item)
{
    if (setting->block == BLOCK_ROUNDS || setting->block == BLOCK_AS_MANY)
        settle_intervals(r, dose, setting, item);
    else
        settle_listed(r, dose, setting, item);
}
