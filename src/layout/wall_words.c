/* wall_words.c - what a wall sheet's lines say, before anything is known of their size. */
#include <assert.h>
#include <string.h>

#include "base/text.h"
#include "language/language.h"
#include "layout/marks.h"
#include "layout/ramp_words.h"
#include "layout/wall.h"
#include "model/athlete.h"
#include "model/exercise.h"
#include "model/occasion.h"
#include "wording/wording.h"

/* --- the block --- */

/* "17:40-17:49", or "9 min" where the hour is not known. */
static const char *hours_of(struct arena *arena, const struct group *group, const struct block *block, const struct rota *room)
{
    int clock = group->members[0]->clock;
    if (room)
        return rota_block_hours(arena, room, block);
    if (block->seconds < 30)
        return "";
    if (group->count > 1 || clock < 0)
        return arena_printf(arena, said(arena, "%d\u00a0min"), (block->seconds + 30) / 60);
    int start = clock + block->starts, end = start + block->seconds + 59;
    return arena_printf(arena, "%s" WORDING_TO "%s", said_hour(arena, start), said_hour(arena, end));
}

/* Words of LANE's block, which all its lines share. */
static void word_block(struct arena *arena, const struct group *group, size_t lane, const struct rota *room, struct wall_line *line)
{
    const struct block *block = group->lanes[lane].block;
    const char *aside = wall_order_aside(arena, group, lane), *hours = hours_of(arena, group, block, room);
    line->heading = wall_order(arena, group, lane);
    line->continued = text_joined(arena, line->heading, said(arena, " \u00b7 continued"));
    line->aside = arena_printf(arena, "%s%s%s", aside, *aside && *hours ? " " WORDING_DOT " " : "", hours);
    line->letter = block->letter ? arena_copy(arena, &block->letter, 1) : "";
    line->title = block->letter ? arena_printf(arena, "%s  %s", line->letter, wording_block(arena, block)) : line->heading;
}

/* --- the line --- */

/* What comes before the cue: when the item is done. */
static const char *timing(struct arena *arena, const struct lane *lane)
{
    const struct item *item = lane->item;
    if (item->filler)
        return said(arena, "in the rests");
    if (item->round > 0)
        return wording_rounds(arena, item->round, lane->last_round);
    if (item->after > 0)
        return arena_printf(arena, said(arena, "%s after the one above"), wording_time(arena, item->after));
    return item->after == 0 ? said(arena, "straight after the one above") : "";
}

static const char *cue_of(const struct arena *arena, const struct item *item)
{
    if (item->cue)
        return said_as(arena, "cue", item->cue);
    return item->exercise->cue_count ? said_as(arena, "cue", item->exercise->cues[0]) : "";
}

static struct printed_dose dose_of(struct arena *arena, const struct lane *lane)
{
    struct printed_dose dose = {.arena = arena};
    const struct item *item = lane->item;
    dose_add_amounts(&dose, lane->block, item);
    if (!lane->loads_personal)
        dose_add_loads(&dose, lane->block, item, lane->athlete->pounds, true);
    else if (!lane->loads_differ || !lane->efforts_differ)
        dose_add_effort(&dose, item);
    dose_add_tempo(&dose, item, 1.1);
    if (!lane->loads_personal)
        dose_add_bars(&dose, item);
    return dose;
}

static bool takes_lines(struct type *type, const char *name, double width, int lines)
{
    struct text_run run = type_set(
        type, name,
        (struct typesetting){.size = 64, .weight = WEIGHT_BOLD, .width = width, .whole_words = true});
    return run.lines <= lines && run.width <= width + 0.05;
}

/* Measured in one size: letters grow alike. */
static void measure_name(struct type *type, const char *name, struct wall_line *line)
{
    double whole = type_width(type, name, 64, WEIGHT_BOLD);
    for (int lines = 1; lines <= NAME_LINES; lines++) {
        double low = whole / lines, high = whole;
        for (int i = 0; lines > 1 && i < 7; i++) {
            double middle = (low + high) / 2;
            if (takes_lines(type, name, middle, lines))
                high = middle;
            else
                low = middle;
        }
        line->names[lines - 1] = 1.003 * high / 64; /* lest rounding breaks what just fits */
    }
}

/* --- those who do it in a way of their own --- */

/* Whether MEMBER has nothing to add to what LANE says. */
static bool does_as_shown(struct arena *arena, const struct lane *lane, size_t member)
{
    const struct item *item = lane->by_member[member];
    return item && !lane->loads_personal && item->exercise == lane->item->exercise &&
           !lane_dose_differs(arena, lane, item) &&
           strcmp(wording_loads(arena, lane->block, lane->item, false),
                  wording_loads(arena, lane->block, item, false)) == 0;
}

static bool alike(struct arena *arena, const struct block *block, const struct item *one,
                  const struct item *other)
{
    if (!one || !other)
        return one == other;
    return one->exercise == other->exercise &&
           strcmp(wording_dose(arena, block, one), wording_dose(arena, block, other)) == 0 &&
           strcmp(wording_loads(arena, block, one, false),
                  wording_loads(arena, block, other, false)) == 0;
}

/* What those have to do in a way of their own that the line above them does not say; with MEMBER the first of them. */
static struct printed_dose own_dose(struct arena *arena, const struct group *group, const struct lane *lane, size_t member)
{
    const struct item *item = lane->by_member[member];
    bool pounds = group->members[member]->athlete->pounds;
    const struct dose_face light = {true, WEIGHT_REGULAR, {INK_GREY, RANK_SECOND, ROLE_CELL}};
    struct printed_dose dose = {.arena = arena};
    if (!item) {
        dose_add_words(&dose, said(arena, "leaves this out"), light, false);
        return dose;
    }
    bool other = item->exercise != lane->item->exercise;
    if (other || lane_dose_differs(arena, lane, item))
        dose_add_amounts(&dose, lane->block, item);
    dose_add_loads(&dose, lane->block, item, pounds, true);
    if (other)
        dose_add_tempo(&dose, item, 1.1);
    dose_add_bars(&dose, item);
    dose_add_words(&dose, ramp_words(arena, group->members[member], item),
                   (struct dose_face){true, WEIGHT_REGULAR, {INK_BLACK, RANK_SECOND, ROLE_CELL}}, true);
    return dose;
}

static void word_own(struct arena *arena, const struct group *group, const struct lane *lane,
                     struct wall_line *line)
{
    struct wall_own *all = arena_alloc(arena, group->count * sizeof *all);
    size_t *members = arena_alloc(arena, group->count * sizeof *members), *next = members;
    bool *settled = arena_alloc(arena, group->count * sizeof *settled);
    for (size_t i = 0; i < group->count; i++)
        settled[i] = does_as_shown(arena, lane, i);
    for (size_t i = 0; i < group->count; i++) {
        const struct item *item = lane->by_member[i];
        if (settled[i])
            continue;
        struct wall_own *own = &all[line->own_count++];
        *own = (struct wall_own){.members = next};
        own->what = own_dose(arena, group, lane, i);
        for (size_t j = i; j < group->count; j++) {
            if (settled[j] || !alike(arena, lane->block, item, lane->by_member[j]))
                continue;
            settled[j] = true;
            *next++ = j;
            own->count++;
        }
    }
    line->own = all;
    line->own_continued = arena_printf(arena, "%s " WORDING_DOT " %s%s", line->heading,
                                       wording_exercise(arena, lane->item->exercise), said(arena, " \u00b7 continued"));
}

/* So many athletes' own loads have room under an exercise. */
enum { MOST_ROWS = 4 };

bool wall_is_boarded(const struct group *group)
{
    for (size_t i = 0; group->count > MOST_ROWS && i < group->lane_count; i++)
        if (group->lanes[i].loads_personal)
            return true;
    return false;
}

static void word_line(const struct press *press, const struct group *group, const struct lane *lane, bool boarded,
                      struct wall_line *line)
{
    struct arena *arena = press->arena;
    bool alone = lane->first && (lane + 1 == group->lanes + group->lane_count || lane[1].block != lane->block);
    line->ref = lane->block->letter && !alone
                    ? arena_printf(arena, "%c%d", lane->block->letter, lane->item->index + 1)
                    : "";
    line->when = timing(arena, lane);
    line->ramp = group->count == 1 ? ramp_words(arena, group->members[0], lane->item) : "";
    line->cue = cue_of(arena, lane->item);
    line->stop = mark_stop_words(arena, lane->item->stop);
    line->dose = dose_of(arena, lane);
    measure_name(press->type, wording_exercise(arena, lane->item->exercise), line);
    if (lane->loads_personal && boarded)
        dose_add_words(&line->dose, said(arena, "each: see the board"),
                       (struct dose_face){true, WEIGHT_BOLD, {INK_BLACK, RANK_SECOND, ROLE_PLAIN}}, true);
    else if (lane_differs(lane))
        word_own(arena, group, lane, line);
}

const struct wall_line *wall_words(const struct press *press, const struct group *group, const struct rota *room, bool boarded)
{
    struct wall_line *lines = arena_alloc(press->arena, (group->lane_count + 1) * sizeof *lines);
    type_try(press->type, press->arena); /* names are measured only */
    for (size_t i = 0; i < group->lane_count; i++) {
        const struct lane *lane = &group->lanes[i];
        assert(lane->block); /* a lane is a line of one */
        if (i > 0 && lane->block == group->lanes[i - 1].block)
            lines[i] = (struct wall_line){.letter = lines[i - 1].letter,
                                          .heading = lines[i - 1].heading,
                                          .aside = lines[i - 1].aside,
                                          .continued = lines[i - 1].continued,
                                          .title = lines[i - 1].title};
        else
            word_block(press->arena, group, i, room, &lines[i]);
        word_line(press, group, lane, boarded, &lines[i]);
    }
    type_try_end(press->type);
    return lines;
}
