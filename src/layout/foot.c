#include "layout/foot.h"

#include <string.h>

#include "base/text.h"
#include "figures/dates.h"
#include "figures/onerm.h"
#include "language/language.h"
#include "layout/marks.h"
#include "measure/avoid.h"
#include "measure/clocks.h"
#include "measure/hold.h"
#include "measure/person.h"
#include "model/athlete.h"
#include "model/exercise.h"
#include "model/occasion.h"
#include "model/season.h"
#include "wording/wording.h"

struct kit_list {
    struct arena *arena;
    const char **shown;
    const char **folded;
    int *counts;
    size_t count, capacity, folded_capacity, counts_capacity;
};

/* Adds an item, or raises the count of one that is there. */
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
    list->folded =
        arena_grow(list->arena, list->folded, n, &list->folded_capacity, sizeof *list->folded);
    list->counts =
        arena_grow(list->arena, list->counts, n, &list->counts_capacity, sizeof *list->counts);
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
        if (item->runs[i].load.thing)
            add_kit(list, item->runs[i].load.thing, item->runs[i].load.thing, 1);
}

size_t foot_kit_list(struct arena *arena, const struct occasion *const *occasions, size_t count, const char ***kit)
{
    struct kit_list list = {.arena = arena};
    for (size_t o = 0; o < count; o++)
        for (size_t b = 0; b < occasions[o]->block_count; b++)
            for (size_t i = 0; i < occasions[o]->blocks[b].item_count; i++)
                add_item(&list, &occasions[o]->blocks[b].items[i]);
    for (size_t i = 0; i < list.count; i++) {
        const char *name = said_as(arena, "kit", list.shown[i]);
        list.shown[i] = list.counts[i] > 1
                            ? arena_printf(arena, "%d" WORDING_GAP WORDING_TIMES WORDING_GAP "%s", list.counts[i], name)
                            : name;
    }
    *kit = list.shown;
    return list.count;
}

const char *foot_kit(struct arena *arena, const struct occasion *const *occasions, size_t count)
{
    const char **kit;
    struct text out = {.arena = arena};
    size_t listed = foot_kit_list(arena, occasions, count, &kit);
    for (size_t i = 0; i < listed; i++)
        text_addf(&out, "%s%s", i ? ", " : "", kit[i]);
    return text_keep(arena, &out);
}

static void note_run(struct foot_marks *marks, const struct set_run *run)
{
    for (size_t i = 0; i < run->part_count; i++)
        if (run->parts[i].side == DOSE_ORTHODOX || run->parts[i].side == DOSE_SOUTHPAW)
            marks->stances = true;
    marks->tempo = marks->tempo || run->tempo.given;
    for (int i = 0; i < run->load.plating.disc_count; i++)
        marks->discs[mass_written_in(run->load.plating.discs[i])] = true;
    if (run->load.estimated)
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

/* Author and year of the equation, without the work. */
static const char *equation_of(struct arena *arena, const struct best *best)
{
    const char *source = onerm_source((enum onerm_equation)best->equation);
    return arena_copy(arena, source, strcspn(source, ","));
}

/* MARK, which may be NULL, and what it says; broken if it is wider than WIDTH. */
static struct box *key_entry(const struct press *press, const struct box *mark,
                             const char *words, struct face face, double width)
{
    struct box *entry = box_new(press->arena);
    double inset = mark ? mark->width + 0.5 * face.size : 0;
    struct box *text = press_paragraph(press, words, face, width - inset, 0, 1, false);
    entry->baseline = text->baseline;
    if (mark)
        atom_join(entry, mark, 0);
    atom_join(entry, text, mark ? 0.5 * face.size : 0);
    return entry;
}

static const char *disc_words(const struct arena *arena, const bool *marked)
{
    if (marked[MASS_IN_KG] && marked[MASS_IN_LB])
        return said(arena, "discs: as stamped, in kilograms or pounds, innermost first");
    return marked[MASS_IN_LB] ? said(arena, "discs: in pounds, innermost first")
                             : said(arena, "discs: in kilograms, innermost first");
}

struct box *foot_key(const struct press *press, struct foot_marks used, struct face face,
                     double width)
{
    static const struct item_tempo tempo = {3, 1, 0, 0, false, false, true, false, true};
    double size = face.size;
    struct flow flow = {0};
    const struct {
        bool used;
        struct box *mark;
        const char *words;
    } entries[] = {
        {used.stances, mark_stance(press, DOSE_ORTHODOX, 1.5 * size),
         said(press->arena, "orthodox: left foot in front")},
        {used.stances, mark_stance(press, DOSE_SOUTHPAW, 1.5 * size),
         said(press->arena, "southpaw: right foot in front")},
        {used.tempo, mark_tempo(press, &tempo, 0.8 * size, face.style.rank),
         said(press->arena, "seconds down, held, up, held; X as fast as possible")},
        {used.discs[MASS_IN_KG] || used.discs[MASS_IN_LB], NULL, disc_words(press->arena, used.discs)},
        {used.estimated != NULL, NULL,
         used.estimated
             ? arena_printf(press->arena,
                            said(press->arena, "est.: share of a best that is estimated from several repetitions (%s)"),
                            equation_of(press->arena, used.estimated))
             : ""},
    };
    for (size_t i = 0; i < sizeof entries / sizeof *entries; i++)
        if (entries[i].used)
            flow_add(press, &flow,
                     key_entry(press, entries[i].mark, entries[i].words, face, width));
    return flow_set(press, &flow, width, 1.8 * size, 1.6 * size, size * type_capital(press->type));
}

const char *foot_when(struct arena *arena, const struct occasion *occasion)
{
    const char *const parts[] = {
        occasion->clock >= 0 ? said_hour(arena, occasion->clock) : "", abroad_words(arena, occasion),
        occasion->seconds > 0
            ? arena_printf(arena, said(arena, "%d\u00a0min"), (occasion->seconds + 30) / 60)
            : "",
        wording_out(arena, occasion)};
    struct text out = {.arena = arena};
    for (size_t i = 0; i < sizeof parts / sizeof *parts; i++)
        if (*parts[i])
            text_addf(&out, "%s%s", out.length ? " " WORDING_DOT " " : "", parts[i]);
    return text_keep(arena, &out);
}

const char *foot_provisional(const struct arena *arena, const struct occasion *occasion)
{
    const struct phase *phase = occasion->phase;
    const struct bout *bout = phase && phase->after_bout ? phase->bout : NULL;
    return bout && !(bout->result_known && bout->checked)
               ? said(arena, "Provisional until the bout's result and the medical check are entered.")
               : "";
}

const char *foot_cautions(struct arena *arena)
{
    return said_guard(arena, "Stop for pain, dizziness or numbness, and tell the coach. After a knock to the head: stop, stay "
           "with others, and see a doctor before you train. Your commission's rules and licensed medical advice "
           "come before this sheet.");
}

struct box *foot_last_line(const struct press *press, const char *plan, const char *version,
                           int page, int pages, double width, struct face face)
{
    struct box *line = box_new(press->arena);
    const char *unread = said_unread(press->arena);
    const char *words =
        arena_printf(press->arena, "%s%s%s%s%s", plan,
                     *version ? said(press->arena, " \u00b7 version\u00a0") : "", version, *unread ? " " WORDING_DOT " " : "",
                     unread);
    const char *number = arena_printf(press->arena, said(press->arena, "page %d of %d"), page, pages);
    double room =
        width - type_width(press->type, arena_printf(press->arena, said(press->arena, "page %d of %d"), 100, 100), face.size, face.weight) - face.size;
    struct box *left = press_paragraph(press, words, face, room, 0, 0.95, false);
    box_place(line, left, 0, 0);
    press_put_end(press, line, width, left->baseline, number, face);
    line->height = left->height;
    return line;
}

const char *foot_minor(struct arena *arena, const struct occasion *occasion)
{
    return athlete_is_young(occasion->athlete, occasion->date) ? said_guard(arena, "Lift only with a coach beside you.") : "";
}

const char *foot_restricted(struct arena *arena, const struct occasion *occasion, int today)
{
    const struct athlete *athlete = occasion->athlete;
    bool held = athlete_restricted(athlete, occasion->date) || athlete_held(athlete, occasion->date, today);
    /* Never why: a card lies about in the gym. */
    return held ? said_guard(arena, "Do what is written here and nothing else. What is left out for now comes "
                  "back when your coach and whoever treats you agree, not before.")
                : "";
}
