#include "amend/changes.h"

#include <string.h>

#include "amend/cut.h"
#include "amend/variants.h"
#include "figures/dates.h"
#include "measure/kit.h"
#include "measure/tally.h"
#include "model/programme.h"

enum { WEEK = 7, ANY_DAY = 1 << 8, CUT_MOST = 5 /* sets that one change takes off a block; beyond that the block goes */ };

static const char *const weekdays[] = {"", "monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"};

struct change_list {
    struct arena *arena;
    const struct project *project;
    struct changes out;
    int week, today, group;
};

static const char *title(const struct occasion *occasion)
{
    return occasion->session ? occasion->session->name.shown : occasion->activity->name.shown;
}

static void add_change(struct change_list *list, struct change change)
{
    list->out.items = arena_grow(list->arena, list->out.items, list->out.count, &list->out.capacity,
                                    sizeof *list->out.items);
    list->out.items[list->out.count++] = change;
}

/* May we change it? */
static bool is_ours(const struct change_list *list, const struct occasion *occasion)
{
    bool theirs = occasion->attendance && occasion->attendance->run_by;
    return occasion->week == list->week && !theirs && !occasion->held && !occasion->logged
           && !(occasion->activity && occasion->activity->rest) && !(list->today && occasion->date < list->today);
}

/* The first of those that its line places that day. */
static bool is_first(const struct programme *programme, const struct occasion *occasion)
{
    for (const struct occasion *other = programme->occasions; other < occasion; other++)
        if (other->place == occasion->place && other->date == occasion->date)
            return false;
    return true;
}

/* --- moves --- */

static bool is_weekly(const struct programme *programme, const struct occasion *occasion)
{
    for (size_t i = 0; i < programme->occasion_count; i++)
        if (programme->occasions[i].place == occasion->place
            && date_monday(programme->occasions[i].date) != date_monday(occasion->date))
            return true;
    return false;
}

static void list_moves(struct change_list *list, const struct occasion *occasion, int distance)
{
    const struct node *line = placed_statement(list->project, occasion->span);
    const struct node *named = node_find(line, NODE_DAYS);
    int monday = date_monday(occasion->date);
    if (!named || named->number & ANY_DAY || (occasion->clock < 0 && is_weekly(list->project->programme, occasion)))
        return;
    for (int sign = -1; sign <= 1; sign += 2) {
        int day = occasion->date + sign * distance;
        bool inside = day >= monday && day < monday + WEEK && day >= occasion->camp->first && day <= occasion->camp->last;
        if (!inside || (list->today && day < list->today))
            continue;
        add_change(list, (struct change){occasion, NULL, day, occasion->clock, NULL, list->group,
                                            arena_printf(list->arena, "%s from %s to %s", title(occasion),
                                                         weekdays[date_weekday(occasion->date)], weekdays[date_weekday(day)])});
    }
}

/* Is OTHER the first of its camp and week that stands at its hour? */
static bool is_new_hour(const struct programme *programme, const struct occasion *other)
{
    for (const struct occasion *earlier = programme->occasions; earlier < other; earlier++)
        if (earlier->camp == other->camp && earlier->week == other->week && earlier->clock == other->clock)
            return false;
    return true;
}

/* Adds moves to other hours at which something is placed in that week. */
static void list_hours(struct change_list *list, const struct occasion *occasion)
{
    const struct programme *programme = list->project->programme;
    for (size_t i = 0; i < programme->occasion_count && occasion->clock >= 0; i++) {
        const struct occasion *other = &programme->occasions[i];
        if (other->camp != occasion->camp || other->week != occasion->week || other->clock < 0
            || other->clock == occasion->clock || !is_new_hour(programme, other))
            continue;
        add_change(list, (struct change){occasion, NULL, occasion->date, other->clock, NULL, list->group,
                                            arena_printf(list->arena, "%s on %s from %02d:%02d to %02d:%02d",
                                                         title(occasion), weekdays[date_weekday(occasion->date)],
                                                         occasion->clock / 3600, occasion->clock / 60 % 60,
                                                         other->clock / 3600, other->clock / 60 % 60)});
    }
}

/* Adds exchanges: two of a day take each other's hours. */
static void list_orders(struct change_list *list, const struct occasion *occasion, int unused)
{
    const struct programme *programme = list->project->programme;
    (void)unused;
    for (const struct occasion *other = occasion + 1; other < programme->occasions + programme->occasion_count; other++) {
        if (other->date != occasion->date)
            break;
        if (other->camp != occasion->camp || occasion->clock < 0 || other->clock == occasion->clock
            || strcmp(title(other), title(occasion)) == 0 || other->span.file != occasion->span.file
            || !is_ours(list, other) || !is_first(programme, other))
            continue;
        add_change(list, (struct change){occasion, other, occasion->date, other->clock, NULL, list->group,
                                         arena_printf(list->arena, "%s and %s on %s in the other order", title(occasion),
                                                      title(other), weekdays[date_weekday(occasion->date)])});
    }
}

/* --- the work --- */

/* The occasions that OCCASION's line places that day in its gym. */
static const struct squad *squad_with(struct change_list *list, const struct occasion *occasion)
{
    const struct programme *programme = list->project->programme;
    const struct occasion **members = arena_alloc(list->arena, programme->occasion_count * sizeof *members);
    size_t count = 0;
    for (size_t i = 0; i < programme->occasion_count; i++) {
        const struct occasion *other = &programme->occasions[i];
        if (other->place == occasion->place && other->date == occasion->date
            && occasion_gym(other) == occasion_gym(occasion))
            members[count++] = other;
    }
    return squad_of(list->arena, members, count);
}

static void add_cut(struct change_list *list, const struct occasion *occasion, const struct squad *squad,
                    const struct room_cut *cut)
{
    int block;
    const char *lines = cut_lines(list->arena, list->project, squad, cut, &block);
    if (lines)
        add_change(list, (struct change){occasion, NULL, occasion->date, occasion->clock, lines, list->group,
                                            arena_printf(list->arena, "%s on %s: %s", title(occasion),
                                                         weekdays[date_weekday(occasion->date)],
                                                         room_cut_words(list->arena, &squad->room, cut))});
}

static void list_variants(struct change_list *list, const struct occasion *occasion, const struct squad *squad, size_t b)
{
    const struct block *block = cut_block(squad, b);
    for (size_t i = 0; i < block->item_count; i++) {
        struct variant_line *variants;
        size_t count = variants_of(list->arena, list->project, squad, block, &block->items[i], &variants);
        for (size_t k = 0; k < count; k++)
            add_change(list, (struct change){occasion, NULL, occasion->date, occasion->clock, variants[k].lines, list->group,
                                             arena_printf(list->arena, "%s on %s: %s", title(occasion),
                                                          weekdays[date_weekday(occasion->date)], variants[k].words)});
    }
}

static void list_block(struct change_list *list, const struct occasion *occasion, const struct squad *squad, int block)
{
    struct arena *arena = list->arena;
    for (int off = 1; off <= CUT_MOST; off++) {
        struct room_cut cut = room_cut_none(arena, &squad->room);
        bool any = false;
        for (size_t i = 0; i < cut.line_count; i++) {
            if (cut.lines[i].block != block || cut.lines[i].sets <= off)
                continue;
            cut.lines[i].off = off;
            any = true;
        }
        if (any)
            add_cut(list, occasion, squad, &cut);
    }
    struct room_cut cut = room_cut_none(arena, &squad->room);
    cut.dropped[block] = true;
    add_cut(list, occasion, squad, &cut);
}

/* Adds the cuts of blocks of KEEP; with 0, what can be done instead of the lines of any block that may be cut. */
static void list_work(struct change_list *list, const struct occasion *occasion, int keep)
{
    const struct squad *squad = occasion->session && occasion_gym(occasion) ? squad_with(list, occasion) : NULL;
    for (size_t b = 0; squad && !squad->too_large && b < squad->room.block_count; b++) {
        if ((keep && squad->room.blocks[b].keep != keep) || !room_may_cut(&squad->room, (int)b))
            continue;
        if (keep)
            list_block(list, occasion, squad, (int)b);
        else
            list_variants(list, occasion, squad, b);
        list->group++;
    }
}

/* Calls ADD with a number for each line of the week that we may change. */
static void each_ours(struct change_list *list,
                      void (*add)(struct change_list *list, const struct occasion *occasion, int number),
                      int number, bool groups)
{
    const struct programme *programme = list->project->programme;
    int group = list->group;
    for (size_t i = 0; i < programme->occasion_count; i++) {
        const struct occasion *occasion = &programme->occasions[i];
        if (!is_ours(list, occasion) || !is_first(programme, occasion))
            continue;
        if (groups)
            list->group = group++;
        add(list, occasion, number);
    }
}

static void list_hours_of(struct change_list *list, const struct occasion *occasion, int unused)
{
    (void)unused;
    list_hours(list, occasion);
}

struct changes changes_of(struct arena *arena, const struct project *project, int week, int today)
{
    struct change_list list = {.arena = arena, .project = project, .week = week, .today = today};
    for (int distance = 1; distance < WEEK; distance++) {
        list.group = 0;
        each_ours(&list, list_moves, distance, true);
    }
    list.group = 0;
    each_ours(&list, list_hours_of, 0, true);
    list.group = 0;
    each_ours(&list, list_orders, 0, true);
    list.group = (int)project->programme->occasion_count; /* after those of the moves */
    each_ours(&list, list_work, 0, false);
    each_ours(&list, list_work, 3, false);
    each_ours(&list, list_work, 2, false);
    return list.out;
}

/* --- making them --- */

/* Does IS ask for no more than WAS in strikes, contacts, time, lifts, weight and sets, and in all regions together?
 * Which region does the work may differ. */
static bool asks_no_more(const struct occasion *was, const struct occasion *is)
{
    struct tally before = {0}, after = {0};
    int64_t gained = 0;
    tally_occasion(&before, was);
    tally_occasion(&after, is);
    for (int i = 0; i < COUNTED_PATTERN_SETS; i++)
        if (after.sum[i].high > before.sum[i].high)
            return false;
    for (int i = COUNTED_REGION_SETS; i < COUNTED_KIND_SETS; i++)
        gained += after.sum[i].high - before.sum[i].high;
    return gained <= 0 && after.open <= before.open;
}

/* Do both have the same figures of their series? An activity that leaves its line on one day takes no figure of the
 * line's series with it, and the others move up: the effort shows whether that matters. */
static bool same_column(const struct occasion *was, const struct occasion *is)
{
    return was->session ? was->column == is->column : was->rpe.low == is->rpe.low && was->rpe.high == is->rpe.high;
}

/* Is the plan the same as before outside WEEK, and within WEEK the same but for days, hours and less work? */
static bool is_as_much(struct arena *arena, const struct programme *before, const struct programme *after, int week)
{
    bool *met = arena_alloc(arena, before->occasion_count + 1);
    if (before->occasion_count != after->occasion_count || before->left_out_count != after->left_out_count)
        return false;
    for (size_t i = 0; i < after->occasion_count; i++) {
        const struct occasion *is = &after->occasions[i];
        bool found = false;
        for (size_t k = 0; k < before->occasion_count && !found; k++) {
            const struct occasion *was = &before->occasions[k];
            bool still = was->date == is->date && was->clock == is->clock && was->seconds == is->seconds;
            found = !met[k] && was->week == is->week && same_column(was, is) && is->seconds <= was->seconds
                    && is->rounds <= was->rounds && (is->week == week ? asks_no_more(was, is) : still) && occasion_same_name(was, is);
            met[k] = met[k] || found;
        }
        if (!found)
            return false;
    }
    return true;
}

/* The occasion of PROGRAMME that is OCCASION of the plan as it was, after the first COUNT of CHANGES; NULL if there
 * is none. */
static const struct occasion *find_now(const struct programme *programme, const struct change *const *changes, size_t count,
                                       const struct occasion *occasion)
{
    struct occasion now = *occasion;
    for (size_t i = 0; i < count; i++) {
        if (changes[i]->occasion == occasion && !changes[i]->lines) {
            now.date = changes[i]->day;
            now.clock = changes[i]->clock;
        } else if (changes[i]->with == occasion) {
            now.clock = changes[i]->occasion->clock;
        }
    }
    return occasion_again(programme, &now);
}

static bool write_change(struct arena *arena, const struct change *const *changes, size_t count, bool off,
                         struct attempt *now)
{
    const struct change *change = changes[count];
    const struct attempt from = *now;
    const struct occasion *occasion = find_now(from.project.programme, changes, count, change->occasion);
    const struct occasion *with = change->with ? find_now(from.project.programme, changes, count, change->with) : NULL;
    struct amended amended;
    const char *wrong = !occasion || (change->with && !with) ? ""
                        : with          ? placed_exchange(arena, &from.project, occasion, with, &amended)
                        : change->lines ? placed_add(arena, &from.project, occasion, change->lines, &amended)
                                        : placed_move(arena, &from.project, occasion, change->day, change->clock, off, &amended);
    return !wrong && attempt_load(arena, &from.request, &from.project, &amended, now) && !now->project.programme->incomplete;
}

/* A move is tried as it is first, and then with a line that says its old hour is off. */
bool changes_make(struct arena *arena, const struct project *before, const struct change *const *changes, size_t count,
                  int week, struct attempt *attempt)
{
    const struct attempt from = *attempt;
    const struct change *change = changes[count];
    int ways = !change->lines && !change->with && change->occasion->clock >= 0 ? 2 : 1;
    for (int off = 0; off < ways; off++) {
        *attempt = from;
        if (write_change(arena, changes, count, off, attempt) &&
            is_as_much(arena, before->programme, attempt->project.programme, week))
            return true;
    }
    return false;
}
