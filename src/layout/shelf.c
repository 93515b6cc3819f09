#include "layout/shelf.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "layout/frame.h"
#include "layout/marks.h"
#include "model/programme.h"
#include "wording/entry.h"
#include "wording/wording.h"

static const double DISTANCE = 40;           /* centimetres: it is held in the hand */
static const double BETWEEN = 20, LABEL = 36; /* points between columns; for what a line is about */
static const double NAME_SIZE = 9.6, HEADING_SIZE = 15, TITLE_LINES = 11;
static const double BEFORE_ENTRY = 9, BEFORE_HEADING = 17;

enum { COLUMNS = 2 };

/* An entry, with its pattern's heading where it is the first of it, and the place found for it. */
struct card_entry {
    const struct exercise *exercise;
    struct box *heading;   /* or NULL */
    struct box *body;
    int page, column;      /* from 0 */
    double y;              /* of the heading, else of the body */
};

struct shelf {
    struct frame frame;
    double column;         /* width */
    double size;           /* of the text */
    struct card_entry *entries;
    size_t count;
    int pages;
};

/* --- one entry --- */

static void add_row(const struct shelf *shelf, struct box *entry, const char *label,
                    const char *words)
{
    const struct press *press = &shelf->frame.press;
    if (!words || !*words)
        return;
    struct box *row = box_new(press->arena);
    press_put(press, row, 0, frame_capital(&shelf->frame, shelf->size), label,
              frame_face(shelf->size, WEIGHT_REGULAR, INK_GREY, RANK_SECOND));
    struct box *text = press_paragraph(press, words,
                                       frame_face(shelf->size, WEIGHT_REGULAR, INK_BLACK, RANK_SECOND),
                                       shelf->column - LABEL, 0, 0.96, false);
    box_place(row, text, LABEL, 0);
    row->height = text->height;
    frame_stack(entry, row, 0.26 * shelf->size);
}

/* "strength · from a stance: rear hand · in reps", and what sets it apart. */
static const char *nature(const struct shelf *shelf, const struct exercise *exercise)
{
    struct arena *arena = shelf->frame.press.arena;
    const char *dot = " " WORDING_DOT " ", *also = strchr(entry_patterns(arena, exercise), ',');
    const char *age = entry_age(exercise);
    return arena_printf(arena, "%s%s%s%s%sin %s%s%s%s%s", exercise_kinds.names[exercise->kind],
                        also ? also : "", dot, entry_side(arena, exercise), dot,
                        entry_counts(exercise), *age ? dot : "", age,
                        exercise->shelf ? "" : dot, exercise->shelf ? "" : "the club's own");
}

static void add_teaching(const struct shelf *shelf, struct box *entry,
                         const struct exercise *exercise)
{
    struct arena *arena = shelf->frame.press.arena;
    for (size_t i = 0; i < exercise->cue_count; i++)
        add_row(shelf, entry, i ? "" : "cue", exercise->cues[i]);
    for (size_t i = 0; i < exercise->fault_count; i++) {
        const struct fault *fault = &exercise->faults[i];
        add_row(shelf, entry, "fault",
                fault->fix ? arena_printf(arena, "%s \342\206\222 %s", fault->fault, fault->fix)
                           : fault->fault);
    }
    struct box *row = box_new(arena);
    struct box *rule = mark_stop_rule(
        &shelf->frame.press, mark_stop_words(shelf->frame.press.arena, exercise->stop),
        frame_face(shelf->size, WEIGHT_BOLD, INK_BLACK, RANK_SECOND), shelf->column - LABEL);
    box_place(row, rule, LABEL, 0);
    row->height = rule->height;
    frame_stack(entry, row, 0.26 * shelf->size);
}

static struct box *entry_box(const struct shelf *shelf, const struct exercise *exercise)
{
    const struct press *press = &shelf->frame.press;
    struct arena *arena = press->arena;
    struct box *entry = box_new(arena);
    struct face name = frame_face(NAME_SIZE, WEIGHT_BOLD, INK_BLACK, RANK_FIRST);
    name.style.role = ROLE_HEADING;
    frame_stack(entry, press_paragraph(press, exercise->name.shown, name, shelf->column, 0, 0.95, false),
                0);
    frame_stack(entry,
                press_paragraph(press, nature(shelf, exercise),
                                frame_face(shelf->size, WEIGHT_REGULAR, INK_SPOT, RANK_SECOND),
                                shelf->column, 0, 0.96, false),
                0.3 * shelf->size);
    add_row(shelf, entry, "also", entry_aliases(arena, exercise));
    add_row(shelf, entry, "position", entry_positions(arena, exercise));
    add_row(shelf, entry, "joints", entry_joints(arena, exercise, false));
    add_row(shelf, entry, "both", entry_joints(arena, exercise, true));
    add_row(shelf, entry, "needs", entry_needs(arena, exercise));
    add_row(shelf, entry, "loads", entry_loads(arena, exercise));
    add_row(shelf, entry, "kg are", weighs.names[exercise->weigh]);
    add_row(shelf, entry, "% of", entry_base(arena, exercise));
    add_teaching(shelf, entry, exercise);
    add_row(shelf, entry, "easier", exercise->easier ? exercise->easier->name.shown : "");
    add_row(shelf, entry, "harder", exercise->harder ? exercise->harder->name.shown : "");
    for (size_t i = 0; i < exercise->without_count; i++)
        add_row(shelf, entry, "without", entry_without(arena, exercise, i));
    return entry;
}

static struct box *heading_box(const struct shelf *shelf, enum pattern pattern)
{
    const struct press *press = &shelf->frame.press;
    struct box *heading = box_new(press->arena);
    struct face face = frame_face(HEADING_SIZE, WEIGHT_BOLD, INK_BLACK, RANK_FIRST);
    face.style.role = ROLE_HEADING;
    double baseline = 7 + frame_capital(&shelf->frame, HEADING_SIZE);
    box_rectangle(heading, 0, 0, shelf->column, 1.6, INK_BLACK, INK_NONE, 0);
    press_put(press, heading, 0, baseline, patterns.names[pattern], face);
    heading->height = baseline + 8;
    return heading;
}

/* --- order --- */

static int by_pattern(const void *left, const void *right)
{
    const struct exercise *a = ((const struct card_entry *)left)->exercise;
    const struct exercise *b = ((const struct card_entry *)right)->exercise;
    if (a->pattern != b->pattern)
        return a->pattern < b->pattern ? -1 : 1;
    return strcmp(a->name.folded, b->name.folded);
}

static void make_entries(struct shelf *shelf)
{
    const struct programme *programme = shelf->frame.request->programme;
    shelf->entries = arena_alloc(shelf->frame.press.arena,
                                 programme->exercise_count * sizeof *shelf->entries);
    for (size_t i = 0; i < programme->exercise_count; i++)
        if (!programme->exercises[i]->replaced)
            shelf->entries[shelf->count++].exercise = programme->exercises[i];
    qsort(shelf->entries, shelf->count, sizeof *shelf->entries, by_pattern);
    for (size_t i = 0; i < shelf->count; i++) {
        struct card_entry *entry = &shelf->entries[i];
        enum pattern pattern = entry->exercise->pattern;
        if (i == 0 || shelf->entries[i - 1].exercise->pattern != pattern)
            entry->heading = heading_box(shelf, pattern);
        entry->body = entry_box(shelf, entry->exercise);
    }
}

/* --- pages --- */

/* Fills column after column: the first page's begin at FIRST, the others' at TOP; all end at BOTTOM. */
static void find_places(struct shelf *shelf, double first, double top, double bottom)
{
    int page = 0, column = 0;
    double y = first;
    bool begins = true;
    for (size_t i = 0; i < shelf->count; i++) {
        struct card_entry *entry = &shelf->entries[i];
        double before = begins ? 0 : entry->heading ? BEFORE_HEADING : BEFORE_ENTRY;
        double height = entry->body->height + (entry->heading ? entry->heading->height : 0);
        if (!begins && y + before + height > bottom) {
            column = (column + 1) % COLUMNS;
            page += column == 0;
            y = page == 0 ? first : top;
            before = 0;
        }
        entry->page = page;
        entry->column = column;
        entry->y = y + before;
        y += before + height;
        begins = false;
    }
    shelf->pages = page + 1;
}

/* "hinge 1": the patterns and the pages on which they begin. WIDEST: as wide as it can come. */
static struct box *contents_box(const struct shelf *shelf, bool widest)
{
    const struct frame *frame = &shelf->frame;
    const struct press *press = &frame->press;
    struct face face = frame_face(NAME_SIZE, WEIGHT_REGULAR, INK_BLACK, RANK_SECOND), bold = face;
    struct flow flow = {0};
    bold.weight = WEIGHT_BOLD;
    for (size_t i = 0; i < shelf->count; i++) {
        const struct card_entry *entry = &shelf->entries[i];
        if (!entry->heading)
            continue;
        struct box *atom = box_new(press->arena);
        atom->baseline = frame_capital(frame, NAME_SIZE);
        atom_join(atom, press_word(press, patterns.names[entry->exercise->pattern], face), 0);
        atom_join(atom,
                  press_word(press, widest ? "888" : arena_printf(press->arena, "%d", entry->page + 1),
                             bold),
                  3);
        flow_add(press, &flow, atom);
    }
    return flow_set(press, &flow, frame->inner, 14, 1.6 * NAME_SIZE, frame_capital(frame, NAME_SIZE));
}

static const char *legend(void)
{
    return "A share beside a region is how much of a set counts for it; without a share, all of it "
           "does. Cues, faults, stop rules, shares and exchanges are common practice.";
}

static struct box *opening_box(const struct shelf *shelf, bool widest)
{
    const struct frame *frame = &shelf->frame;
    struct box *opening = contents_box(shelf, widest);
    frame_stack(opening,
                press_paragraph(&frame->press, legend(),
                                frame_face(shelf->size, WEIGHT_REGULAR, INK_GREY, RANK_SECOND),
                                frame->inner, 0, 1, false),
                8);
    opening->height += 12;
    return opening;
}

/* What page PAGE is about, at its top: "hinge – lunge". */
static const char *running_words(const struct shelf *shelf, int page)
{
    const char *first = NULL, *last = NULL;
    for (size_t i = 0; i < shelf->count; i++) {
        const char *pattern = patterns.names[shelf->entries[i].exercise->pattern];
        if (shelf->entries[i].page != page)
            continue;
        first = first ? first : pattern;
        last = pattern;
    }
    if (!first || first == last)
        return first ? first : "";
    return arena_printf(shelf->frame.press.arena, "%s " WORDING_TO " %s", first, last);
}

static struct box *header_box(const struct shelf *shelf, const char *beside, int page)
{
    struct frame_title title = {.title = "Exercises by pattern",
                                .beside = beside,
                                .when = running_words(shelf, page),
                                .then = "",
                                .provisional = ""};
    return frame_header(&shelf->frame, &title, page > 0);
}

/* "389 exercises, 2 of them the club's own". */
static const char *count_words(const struct shelf *shelf)
{
    size_t own = 0;
    for (size_t i = 0; i < shelf->count; i++)
        own += !shelf->entries[i].exercise->shelf;
    struct arena *arena = shelf->frame.press.arena;
    const char *all = arena_printf(arena, "%zu exercises", shelf->count);
    return own ? arena_printf(arena, "%s, %zu of them the club's own", all, own) : all;
}

static void draw_entry(struct scene *scene, const struct shelf *shelf, struct box *page,
                       const struct card_entry *entry)
{
    double x = shelf->frame.margin + entry->column * (shelf->column + BETWEEN), y = entry->y;
    if (entry->heading) {
        scene_bookmark(scene, patterns.names[entry->exercise->pattern], y, false);
        box_place(page, entry->heading, x, y);
        y += entry->heading->height;
    }
    scene_bookmark(scene, entry->exercise->name.shown, y, true);
    box_place(page, entry->body, x, y);
}

static void add_pages(struct scene *scene, struct shelf *shelf)
{
    const struct frame *frame = &shelf->frame;
    const char *beside = count_words(shelf);
    struct box *foot = frame_foot(frame, NULL, 0);
    double last = frame->height - frame->margin - frame_last_line(frame, 1, 1)->height;
    double top = frame->margin + header_box(shelf, beside, 1)->height;
    double begin = frame->margin + header_box(shelf, beside, 0)->height;
    find_places(shelf, begin + opening_box(shelf, true)->height, top, last - foot->height - 6);
    size_t next = 0;
    for (int i = 0; i < shelf->pages; i++) {
        struct box *page = scene_page(scene);
        box_place(page, header_box(shelf, beside, i), frame->margin, frame->margin);
        if (i == 0)
            box_place(page, opening_box(shelf, false), frame->margin, begin);
        for (; next < shelf->count && shelf->entries[next].page == i; next++)
            draw_entry(scene, shelf, page, &shelf->entries[next]);
        box_place(page, foot, frame->margin, last - foot->height);
        box_place(page, frame_last_line(frame, i + 1, shelf->pages), frame->margin, last);
    }
}

struct scene *shelf_scene(const struct sheet_request *request)
{
    struct sheet_request full = *request;
    if (!full.paper) {
        full.paper = paper_find("A4");
        full.landscape = false;
    }
    if (full.distance <= 0)
        full.distance = DISTANCE;
    struct shelf shelf = {.frame = frame_of(&full)};
    shelf.size = fmax(8, shelf.frame.first);
    shelf.frame.first = fmax(TITLE_LINES, shelf.frame.first);
    shelf.column = (shelf.frame.inner - (COLUMNS - 1) * BETWEEN) / (double)COLUMNS;
    make_entries(&shelf);
    struct scene *scene = frame_scene(&shelf.frame, "Exercises by pattern", "shelf");
    scene->distance = full.distance;
    add_pages(scene, &shelf);
    frame_report_reach(scene, &shelf.frame);
    scene_inspect(scene);
    return scene;
}
