/* timeline.c - all that each athlete does, by date: its weeks, its sums, and which exercises are new in it. */
#include "figures/dates.h"
#include "measure/kit.h"
#include "measure/member.h"
#include "model/programme.h"
#include "rules/run.h"

static const struct tally nothing; /* of a week in which nothing is done */

static void gather_camps(struct run *run, struct timeline *timeline)
{
    const struct programme *programme = run->programme;
    timeline->camps = arena_alloc(run->arena, programme->camp_count * sizeof(struct camp *));
    for (size_t i = 0; i < programme->camp_count; i++)
        if (camp_lists(programme->camps[i], timeline->athlete))
            timeline->camps[timeline->camp_count++] = programme->camps[i];
}

static void gather_exercises(struct run *run, struct timeline *timeline)
{
    size_t count = run->programme->exercise_count;
    const struct gym *gym = timeline->athlete->gym;
    timeline->first_seen = arena_alloc(run->arena, (count ? count : 1) * sizeof(int));
    timeline->missing_kit = arena_alloc(run->arena, (count ? count : 1) * sizeof(bool));
    for (size_t o = 0; o < timeline->count; o++) {
        const struct occasion *occasion = timeline->occasions[o];
        for (size_t b = 0; b < occasion->block_count; b++)
            for (size_t i = 0; i < occasion->blocks[b].item_count; i++) {
                const struct exercise *exercise = occasion->blocks[b].items[i].exercise;
                size_t number = exercise->number;
                if (timeline->first_seen[number])
                    continue;
                timeline->first_seen[number] = occasion->date;
                timeline->missing_kit[number] = gym && kit_is_missing(gym, exercise);
            }
    }
}

const struct tally *timeline_tally(const struct timeline *timeline, size_t at)
{
    struct tally *tally = &timeline->tallies[at];
    if (!timeline->summed[at]) {
        *tally = nothing;
        tally_occasion(tally, timeline->occasions[at]);
        timeline->summed[at] = true;
    }
    return tally;
}

/* The sum over occasions AT to AT + COUNT of a timeline. */
static const struct tally *sum_of(const struct timeline *timeline, size_t at, size_t count)
{
    if (count == 0)
        return &nothing;
    if (count == 1)
        return timeline_tally(timeline, at);
    struct tally *sum = arena_alloc(timeline->arena, sizeof *sum);
    for (size_t i = at; i < at + count; i++)
        tally_add(sum, timeline_tally(timeline, i));
    return sum;
}

/* The same over a longer time, of whose weeks the sums are there or will be asked for too. */
static const struct tally *sum_of_weeks(const struct timeline *timeline, size_t at, size_t count)
{
    if (count < 2)
        return sum_of(timeline, at, count);
    struct tally *sum = arena_alloc(timeline->arena, sizeof *sum);
    size_t end = at + count;
    for (size_t w = 0; w < timeline->week_count && at < end; w++) {
        const struct window *week = &timeline->weeks[w];
        size_t behind = week->at + week->count;
        if (at == week->at && week->count && behind <= end) {
            tally_add(sum, window_tally(week));
            at = behind;
        }
        for (; at < behind && at < end; at++)
            tally_add(sum, timeline_tally(timeline, at));
    }
    return sum;
}

const struct tally *window_tally(const struct window *window)
{
    if (!*window->sum)
        *window->sum = window->scope == SCOPE_WEEK ? sum_of(window->timeline, window->at, window->count)
                                                   : sum_of_weeks(window->timeline, window->at, window->count);
    return *window->sum;
}

const struct tally **timeline_sum_place(const struct timeline *timeline)
{
    return arena_alloc(timeline->arena, sizeof(struct tally *));
}

struct window timeline_window(const struct timeline *timeline, enum scope scope, int first, int last)
{
    size_t at = 0;
    while (at < timeline->count && timeline->occasions[at]->date < first)
        at++;
    size_t end = at;
    while (end < timeline->count && timeline->occasions[end]->date <= last)
        end++;
    return (struct window){.scope = scope,
                           .timeline = timeline,
                           .athlete = timeline->athlete,
                           .first = first,
                           .last = last,
                           .occasions = timeline->occasions + at,
                           .count = end - at,
                           .at = at,
                           .sum = timeline_sum_place(timeline)};
}

/* The weeks in which the athlete has a camp or does something. */
static void gather_weeks(struct run *run, struct timeline *timeline)
{
    int first = timeline->count ? timeline->occasions[0]->date : DATE_LAST;
    int last = timeline->count ? timeline->occasions[timeline->count - 1]->date : 0;
    for (size_t i = 0; i < timeline->camp_count; i++) {
        first = timeline->camps[i]->first < first ? timeline->camps[i]->first : first;
        last = timeline->camps[i]->last > last ? timeline->camps[i]->last : last;
    }
    if (!date_is_valid(first) || first > last)
        return;
    size_t capacity = 0, at = 0;
    for (int monday = date_monday(first); monday <= last; monday += 7) {
        size_t end = at;
        while (end < timeline->count && timeline->occasions[end]->date <= monday + 6)
            end++;
        timeline->weeks = arena_grow(run->arena, timeline->weeks, timeline->week_count, &capacity,
                                     sizeof *timeline->weeks);
        timeline->weeks[timeline->week_count++] =
            (struct window){.scope = SCOPE_WEEK,
                            .timeline = timeline,
                            .athlete = timeline->athlete,
                            .first = monday,
                            .last = monday + 6,
                            .occasions = timeline->occasions + at,
                            .count = end - at,
                            .at = at,
                            .sum = timeline_sum_place(timeline)};
        at = end;
    }
}

struct timeline *timelines_of(struct run *run)
{
    const struct programme *programme = run->programme;
    size_t athletes = programme->athlete_count;
    struct timeline *timelines =
        arena_alloc(run->arena, (athletes ? athletes : 1) * sizeof *timelines);
    for (size_t i = 0; i < programme->occasion_count; i++)
        timelines[programme->occasions[i].athlete->number].count++;
    for (size_t a = 0; a < athletes; a++) {
        struct timeline *timeline = &timelines[a];
        timeline->athlete = programme->athletes[a];
        timeline->occasions =
            arena_alloc(run->arena, (timeline->count + 1) * sizeof(struct occasion *));
        timeline->count = 0;
    }
    for (size_t i = 0; i < programme->occasion_count; i++) {
        const struct occasion *occasion = &programme->occasions[i];
        struct timeline *timeline = &timelines[occasion->athlete->number];
        timeline->occasions[timeline->count++] = occasion;
    }
    return timelines;
}

void timeline_gather(struct run *run, struct timeline *timeline, struct tally *tallies)
{
    timeline->arena = run->arena;
    timeline->tallies = tallies;
    timeline->summed = arena_alloc(run->arena, timeline->count + 1);
    gather_camps(run, timeline);
    gather_exercises(run, timeline);
    gather_weeks(run, timeline);
}
