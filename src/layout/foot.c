#include "layout/foot.h"

#include <string.h>

#include "base/text.h"
#include "figures/dates.h"
#include "model/wording.h"

struct kit_list {
    struct arena *arena;
    const char **shown;
    const char **folded;
    int *counts;
    size_t count, capacity, folded_capacity, counts_capacity;
};

/* Adds a thing, or raises the count of one that is there. */
static void add_kit(struct kit_list *list, const char *shown, const char *folded, int count)
{
    for (size_t i = 0; i < list->count; i++)
        if (strcmp(list->folded[i], folded) == 0) {
            if (count > list->counts[i])
                list->counts[i] = count;
            return;
        }
    size_t n = list->count;
    list->shown = arena_grow(list->arena, list->shown, n, &list->capacity, sizeof *list->shown);
    list->folded = arena_grow(list->arena, list->folded, n, &list->folded_capacity,
                              sizeof *list->folded);
    list->counts = arena_grow(list->arena, list->counts, n, &list->counts_capacity,
                              sizeof *list->counts);
    list->shown[n] = shown;
    list->folded[n] = folded;
    list->counts[n] = count;
    list->count++;
}

static void add_item(struct kit_list *list, const struct item *item)
{
    for (size_t i = 0; i < item->exercise->need_count; i++) {
        const struct need *need = &item->exercise->needs[i];
        add_kit(list, need->name.shown, need->name.folded, need->count);
    }
    for (size_t i = 0; i < item->run_count; i++)
        if (item->runs[i].load.kind == LOAD_BAND)
            add_kit(list, item->runs[i].load.thing, item->runs[i].load.thing, 1);
}

const char *foot_kit(struct arena *arena, const struct occasion *const *occasions, size_t count)
{
    struct kit_list list = {.arena = arena};
    for (size_t o = 0; o < count; o++)
        for (size_t b = 0; b < occasions[o]->block_count; b++)
            for (size_t i = 0; i < occasions[o]->blocks[b].item_count; i++)
                add_item(&list, &occasions[o]->blocks[b].items[i]);
    struct text out = {0};
    for (size_t i = 0; i < list.count; i++) {
        text_add(&out, i ? ", " : "");
        if (list.counts[i] > 1)
            text_addf(&out, "%d" WORDING_GAP WORDING_TIMES WORDING_GAP, list.counts[i]);
        text_add(&out, list.shown[i]);
    }
    return text_keep(arena, &out);
}

static void note_run(struct foot_marks *marks, const struct set_run *run)
{
    for (size_t i = 0; i < run->part_count; i++)
        if (run->parts[i].side == DOSE_ORTHODOX || run->parts[i].side == DOSE_SOUTHPAW)
            marks->stances = true;
    marks->tempo = marks->tempo || run->tempo.given;
    marks->discs = marks->discs || run->load.plating.bar || run->load.plating.disc_count;
    if (run->load.kind == LOAD_PERCENT && run->load.estimated)
        marks->estimated = run->load.best;
}

struct foot_marks foot_marks_used(const struct occasion *const *occasions, size_t count)
{
    struct foot_marks marks = {0};
    for (size_t o = 0; o < count; o++)
        for (size_t b = 0; b < occasions[o]->block_count; b++)
            for (size_t i = 0; i < occasions[o]->blocks[b].item_count; i++) {
                const struct item *item = &occasions[o]->blocks[b].items[i];
                for (size_t r = 0; r < item->run_count; r++)
                    note_run(&marks, &item->runs[r]);
            }
    return marks;
}

const char *foot_provisional(const struct occasion *occasion)
{
    const struct camp *camp = occasion->camp;
    bool after = occasion->phase && occasion->phase->after_bout;
    return after && !(camp->result_known && camp->checked)
               ? "Provisional until the bout's result and the medical check are entered."
               : "";
}

const char *foot_cautions(void)
{
    return "Stop for pain, dizziness or numbness, and tell the coach. After a knockout or a suspected "
           "concussion: no training until a doctor gives leave. Your commission's rules and licensed "
           "medical advice come before this sheet.";
}

struct piece *foot_last_line(const struct press *press, const char *plan, const char *version,
                             int page, int pages, double width, struct face face)
{
    struct piece *line = piece_new(press->arena);
    const char *words = arena_printf(press->arena, "%s%s%s", plan,
                                     *version ? " " WORDING_DOT " version" WORDING_GAP : "", version);
    const char *number = arena_printf(press->arena, "page %d of %d", page, pages);
    double room = width - type_width(press->type, "page 000 of 000", face.size, face.weight) -
                  face.size;
    struct piece *left = press_paragraph(press, words, face, room, 0, 0.95, false);
    piece_place(line, left, 0, 0);
    press_put_end(press, line, width, left->baseline, number, face);
    line->height = left->height;
    return line;
}

const char *foot_minor(const struct occasion *occasion)
{
    const struct athlete *athlete = occasion->athlete;
    int born = athlete->born ? athlete->born : athlete->born_apart, year, month, day;
    if (!date_to_ymd(born, &year, &month, &day))
        return "";
    int grown = date_from_ymd(year + 18, month, day);
    if (grown == DATE_NONE) /* born on 29 February */
        grown = date_from_ymd(year + 18, 3, 1);
    return occasion->date < grown ? "Lift only with a coach beside you." : "";
}
