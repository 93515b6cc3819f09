#include "amend/changes.h"

#include <string.h>

#include "amend/cut.h"
#include "figures/dates.h"
#include "measure/kit.h"
#include "model/programme.h"

enum { WEEK = 7, ANY_DAY = 1 << 8, CUT_MOST = 5 /* sets off a block by one change; then it goes */ };

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

/* Is it ours to change? */
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
    const struct node *named = line ? node_find(line, NODE_DAYS) : NULL;
    int monday = date_monday(occasion->date);
    if (!named || named->number & ANY_DAY || (occasion->clock < 0 && is_weekly(list->project->programme, occasion)))
        return;
    for (int sign = -1; sign <= 1; sign += 2) {
        int day = occasion->date + sign * distance;
        bool inside = day >= monday && day < monday + WEEK && day >= occasion->camp->first && day <= occasion->camp->last;
        if (!inside || (list->today && day < list->today))
            continue;
        add_change(list, (struct change){occasion, day, occasion->clock, NULL, list->group,
                                            arena_printf(list->arena, "%s from %s to %s", title(occasion),
                                                         weekdays[date_weekday(occasion->date)], weekdays[date_weekday(day)])});
    }
}

/* To another hour at which something stands in that week. */
static void list_hours(struct change_list *list, const struct occasion *occasion)
{
    const struct programme *programme = list->project->programme;
    int last = occasion->clock;
    for (size_t i = 0; i < programme->occasion_count && occasion->clock >= 0; i++) {
        const struct occasion *other = &programme->occasions[i];
        if (other->camp != occasion->camp || other->week != occasion->week || other->clock < 0 || other->clock == last
            || other->clock == occasion->clock)
            continue;
        last = other->clock;
        add_change(list, (struct change){occasion, occasion->date, other->clock, NULL, list->group,
                                            arena_printf(list->arena, "%s on %s from %02d:%02d to %02d:%02d",
                                                         title(occasion), weekdays[date_weekday(occasion->date)],
                                                         occasion->clock / 3600, occasion->clock / 60 % 60,
                                                         other->clock / 3600, other->clock / 60 % 60)});
    }
}

/* --- cuts --- */

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
        add_change(list, (struct change){occasion, occasion->date, occasion->clock, lines, list->group,
                                            arena_printf(list->arena, "%s on %s: %s", title(occasion),
                                                         weekdays[date_weekday(occasion->date)],
                                                         room_cut_words(list->arena, &squad->room, cut))});
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

static void list_cuts(struct change_list *list, const struct occasion *occasion, int keep)
{
    const struct squad *squad = occasion->session && occasion_gym(occasion) ? squad_with(list, occasion) : NULL;
    for (size_t b = 0; squad && !squad->too_large && b < squad->room.block_count; b++) {
        if (squad->room.blocks[b].keep != keep || !room_may_cut(&squad->room, (int)b))
            continue;
        list_block(list, occasion, squad, (int)b);
        list->group++;
    }
}

/* Calls ADD for each line of the week that is ours, with a number. */
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
    list.group = (int)project->programme->occasion_count; /* behind those of the moves */
    each_ours(&list, list_cuts, 3, false);
    each_ours(&list, list_cuts, 2, false);
    return list.out;
}

/* --- making them --- */

/* Is there as much as before and no more: the same outside WEEK, and in it the same but for days, hours and less work? */
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
            found = !met[k] && was->week == is->week && was->column == is->column && is->seconds <= was->seconds
                    && is->rounds <= was->rounds && (is->week == week || still) && occasion_same_name(was, is);
            met[k] = met[k] || found;
        }
        if (!found)
            return false;
    }
    return true;
}

static bool write_change(struct arena *arena, const struct change *change, bool off, struct attempt *now)
{
    const struct occasion *occasion = occasion_again(now->project.programme, change->occasion);
    struct amended amended;
    const struct attempt from = *now;
    const char *wrong = !occasion      ? ""
                        : change->lines ? placed_add(arena, &from.project, occasion, change->lines, &amended)
                                        : placed_move(arena, &from.project, occasion, change->day, change->clock, off, &amended);
    return !wrong && attempt_load(arena, &from.request, &from.project, &amended, now) && !now->project.programme->incomplete;
}

/* A move is tried as it is first, and then with its old hour said to be off. */
static bool make_one(struct arena *arena, const struct project *before, const struct change *change, int week,
                     struct attempt *now)
{
    const struct attempt from = *now;
    if (write_change(arena, change, false, now) && is_as_much(arena, before->programme, now->project.programme, week))
        return true;
    *now = from;
    return !change->lines && change->occasion->clock >= 0 && write_change(arena, change, true, now)
           && is_as_much(arena, before->programme, now->project.programme, week);
}

bool changes_make(struct arena *arena, const struct project_request *request, const struct project *before,
                  const struct change *const *changes, size_t count, int week, struct attempt *attempt)
{
    *attempt = (struct attempt){.project = *before, .request = *request};
    for (int pass = 0; pass <= 1; pass++) /* a line that is moved takes along what was cut below it */
        for (size_t i = 0; i < count; i++)
            if ((changes[i]->lines == NULL) == (pass == 1) && !make_one(arena, before, changes[i], week, attempt))
                return false;
    return true;
}
