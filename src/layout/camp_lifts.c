/* camp_lifts.c - what each lift does from week to week: a row a lift, a column a week, as many weeks side by side as keep
 * their letters apart. */
#include <math.h>
#include <string.h>

#include "language/language.h"
#include "layout/camp.h"
#include "layout/printed_dose.h"
#include "model/exercise.h"
#include "model/occasion.h"
#include "model/season.h"
#include "wording/wording.h"

static const double GAP = 9;          /* between two weeks, in points */
static const double NAMES_MOST = 118; /* the column of names is no wider */

/* What is done of a lift in a week, once for each way in which it is done. */
struct ways {
    const struct item **items;
    const struct block **blocks;
    const char **words;
    size_t count, items_capacity, blocks_capacity, words_capacity;
};

struct lift {
    const struct exercise *exercise;
    struct ways *weeks;
};

struct lifts {
    const struct camp_sheet *sheet;
    struct lift *items;
    size_t count, capacity;
    double names, column; /* widths */
    size_t first, end;    /* the weeks of the table that is being made */
};

static struct arena *arena_of(const struct lifts *lifts)
{
    return lifts->sheet->frame.press.arena;
}

/* --- what is done --- */

static struct lift *lift_of(struct lifts *lifts, const struct exercise *exercise)
{
    for (size_t i = 0; i < lifts->count; i++)
        if (lifts->items[i].exercise == exercise)
            return &lifts->items[i];
    struct arena *arena = arena_of(lifts);
    lifts->items =
        arena_grow(arena, lifts->items, lifts->count, &lifts->capacity, sizeof *lifts->items);
    struct lift *lift = &lifts->items[lifts->count++];
    *lift = (struct lift){exercise, arena_alloc(arena, lifts->sheet->weeks * sizeof(struct ways))};
    return lift;
}

static void add_way(struct lifts *lifts, struct ways *ways, const struct block *block,
                    const struct item *item)
{
    struct arena *arena = arena_of(lifts);
    const char *words =
        arena_printf(arena, "%d %s @ %s", block->sets, wording_dose(arena, block, item),
                     wording_loads(arena, block, item, false));
    for (size_t i = 0; i < ways->count; i++)
        if (strcmp(ways->words[i], words) == 0)
            return;
    ways->items =
        arena_grow(arena, ways->items, ways->count, &ways->items_capacity, sizeof *ways->items);
    ways->blocks =
        arena_grow(arena, ways->blocks, ways->count, &ways->blocks_capacity, sizeof *ways->blocks);
    ways->words =
        arena_grow(arena, ways->words, ways->count, &ways->words_capacity, sizeof *ways->words);
    ways->items[ways->count] = item;
    ways->blocks[ways->count] = block;
    ways->words[ways->count++] = words;
}

/* Strength and power: what a plan takes from little to much. */
static bool is_lift(const struct item *item)
{
    enum exercise_kind kind = item->exercise->kind;
    return !item->filler && item->run_count &&
           (kind == EXERCISE_STRENGTH || kind == EXERCISE_POWER);
}

static void add_occasion(struct lifts *lifts, const struct occasion *occasion)
{
    size_t week = (size_t)(occasion->week - 1);
    if (week >= lifts->sheet->weeks)
        return;
    for (size_t b = 0; b < occasion->block_count; b++)
        for (size_t i = 0; i < occasion->blocks[b].item_count; i++) {
            const struct item *item = &occasion->blocks[b].items[i];
            if (is_lift(item))
                add_way(lifts, &lift_of(lifts, item->exercise)->weeks[week], &occasion->blocks[b],
                        item);
        }
}

/* --- cells --- */

static struct face cell_face(const struct lifts *lifts, enum weight weight, enum ink ink)
{
    struct face face = frame_face(lifts->sheet->frame.second, weight, ink, RANK_SECOND);
    face.style.role = ROLE_CELL;
    return face;
}

/* Sets that only the block's own line gives, which is not shown here. */
static void add_rounds(const struct lifts *lifts, struct flow *flow, const struct block *block)
{
    const struct press *press = &lifts->sheet->frame.press;
    if (!wording_counts_sets(block) && block->sets > 1)
        flow_add(press, flow,
                 press_word(press,
                            arena_printf(press->arena, "%d" WORDING_GAP WORDING_TIMES, block->sets),
                            cell_face(lifts, WEIGHT_REGULAR, INK_BLACK)));
}

/* All ways of a week, one below the other, broken to WIDTH where an amount ends. */
static struct box *ways_box(const struct lifts *lifts, const struct ways *ways, double width)
{
    const struct press *press = &lifts->sheet->frame.press;
    double size = lifts->sheet->frame.second, capital = frame_capital(&lifts->sheet->frame, size);
    struct box *cell = box_new(press->arena);
    for (size_t i = 0; i < ways->count; i++) {
        struct printed_dose dose = {.arena = press->arena};
        struct flow flow = {0};
        add_rounds(lifts, &flow, ways->blocks[i]);
        dose_add_amounts(&dose, ways->blocks[i], ways->items[i]);
        dose_add_loads(&dose, ways->blocks[i], ways->items[i], false, false);
        dose_set(press, &flow, &dose, (struct dose_sizes){.size = size, .small = size});
        frame_stack(cell,
                    frame_close_by(flow_set(press, &flow, width, 0.4 * size, 1.2 * size, capital)),
                    0.55 * size);
    }
    return cell;
}

static struct box *lift_row(const struct lifts *lifts, const struct lift *lift)
{
    const struct frame *frame = &lifts->sheet->frame;
    struct box *row = box_new(frame->press.arena);
    double top = 0.5 * frame->second;
    struct box *name =
        press_paragraph(&frame->press, wording_exercise(frame->press.arena, lift->exercise),
                        cell_face(lifts, WEIGHT_BOLD, INK_BLACK), lifts->names, 0, 0.95, false);
    box_line(row, 0, 0, frame->inner, 0, 0.4, INK_HAIR);
    row->height = name->height - 0.22 * frame->second;
    box_open(row, ROLE_ROW);
    box_place_as(row, ROLE_HEAD, name, 0, top);
    for (size_t w = lifts->first; w < lifts->end; w++) {
        double x = lifts->names + GAP + (double)(w - lifts->first) * (lifts->column + GAP);
        struct box *cell = ways_box(lifts, &lift->weeks[w], lifts->column);
        box_place_as(row, ROLE_DATUM, cell, x, top);
        row->height = fmax(row->height, cell->height);
    }
    box_close(row, ROLE_ROW);
    row->height += top;
    return row;
}

/* Number, Monday and weeks out of each week, as in the band over the charts, and the phase of most of it. */
static struct box *head_rows(const struct lifts *lifts)
{
    static const char *const leads[] = {SAID("week"), SAID("from Monday"), SAID("weeks out"), SAID("phase")};
    const struct frame *frame = &lifts->sheet->frame;
    struct box *head = box_new(frame->press.arena);
    const struct face faces[] = {
        cell_face(lifts, WEIGHT_BOLD, INK_BLACK), cell_face(lifts, WEIGHT_REGULAR, INK_GREY),
        cell_face(lifts, WEIGHT_BOLD, INK_SPOT), cell_face(lifts, WEIGHT_REGULAR, INK_BLACK)};
    double size = frame->second, baseline = 1.6 + 0.6 * size + frame_capital(frame, size);
    box_rectangle(head, 0, 0, frame->inner, 1.6, INK_BLACK, INK_NONE, 0);
    for (size_t line = 0; line < sizeof faces / sizeof *faces; line++) {
        if ((line == 2 && !lifts->sheet->camp->bout_count) ||
            (line == 3 && !lifts->sheet->camp->phase_count))
            continue;
        box_open(head, ROLE_ROW);
        box_open(head, ROLE_HEAD);
        press_put(&frame->press, head, 0, baseline, said(frame->press.arena, leads[line]), faces[line]);
        box_close(head, ROLE_HEAD);
        for (size_t w = lifts->first; w < lifts->end; w++) {
            double x = lifts->names + GAP + (double)(w - lifts->first) * (lifts->column + GAP);
            box_open(head, ROLE_HEAD);
            const char *words = camp_week_words(lifts->sheet, line, w);
            if (type_width(frame->press.type, words, size, faces[line].weight) <=
                lifts->column + GAP - 2)
                press_put(&frame->press, head, x, baseline, words, faces[line]);
            box_close(head, ROLE_HEAD);
        }
        box_close(head, ROLE_ROW);
        head->height = baseline + 0.55 * size;
        baseline += 1.32 * size;
    }
    return head;
}

/* --- columns --- */

/* The widest part that cannot be broken. */
static double least_column(const struct lifts *lifts)
{
    double least = 30;
    for (size_t i = 0; i < lifts->count; i++)
        for (size_t w = 0; w < lifts->sheet->weeks; w++)
            least = fmax(least, ways_box(lifts, &lifts->items[i].weeks[w], 1)->width);
    for (size_t w = 0; w < lifts->sheet->weeks; w++)
        least = fmax(least,
                     type_width(lifts->sheet->frame.press.type, camp_week_words(lifts->sheet, 1, w),
                                lifts->sheet->frame.second, WEIGHT_REGULAR));
    return least;
}

static double names_width(const struct lifts *lifts)
{
    const struct frame *frame = &lifts->sheet->frame;
    double widest = 60;
    for (size_t i = 0; i < lifts->count; i++)
        widest = fmax(widest, type_width(frame->press.type, wording_exercise(frame->press.arena, lifts->items[i].exercise),
                                         frame->second, WEIGHT_BOLD) +
                                  1);
    return fmin(NAMES_MOST, widest);
}

/* How many weeks stand side by side: all, or as few tables of like width as hold them. */
static size_t weeks_abreast(struct lifts *lifts)
{
    size_t weeks = lifts->sheet->weeks;
    lifts->names = names_width(lifts);
    double room = lifts->sheet->frame.inner - lifts->names,
           least = fmin(room - GAP, least_column(lifts));
    size_t most = (size_t)fmax(1, room / (least + GAP)), tables = (weeks + most - 1) / most;
    size_t abreast = (weeks + tables - 1) / tables;
    lifts->column = room / (double)abreast - GAP;
    return abreast;
}

static bool any_in_table(const struct lifts *lifts, const struct lift *lift)
{
    for (size_t w = lifts->first; w < lifts->end; w++)
        if (lift->weeks[w].count)
            return true;
    return false;
}

static void add_table(const struct lifts *lifts, struct strips *strips)
{
    struct box *head = head_rows(lifts);
    bool first = true;
    for (size_t i = 0; i < lifts->count; i++) {
        if (!any_in_table(lifts, &lifts->items[i]))
            continue;
        strips_add(&lifts->sheet->frame.press, strips,
                   (struct strip){.heading = head,
                                  .again = head,
                                  .body = lift_row(lifts, &lifts->items[i]),
                                  .before = first ? 16 : 0.45 * lifts->sheet->frame.second,
                                  .first = first,
                                  .row = true,
                                  .heads = true});
        first = false;
    }
}

struct strips camp_lifts(const struct camp_sheet *sheet)
{
    struct lifts lifts = {.sheet = sheet};
    struct strips strips = {0};
    for (size_t i = 0; i < sheet->frame.request->count; i++)
        add_occasion(&lifts, sheet->frame.request->occasions[i]);
    if (lifts.count == 0)
        return strips;
    size_t abreast = weeks_abreast(&lifts);
    for (lifts.first = 0; lifts.first < sheet->weeks; lifts.first = lifts.end) {
        lifts.end = lifts.first + abreast < sheet->weeks ? lifts.first + abreast : sheet->weeks;
        add_table(&lifts, &strips);
    }
    return strips;
}
