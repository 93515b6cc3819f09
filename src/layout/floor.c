/* floor.c - what a coach keeps in hand on the floor: set-up, cues, faults and their fixes, stop rules, what is easier
 * and harder; in the coach's own copy, who does which exchange. */
#include <math.h>
#include <string.h>

#include "base/text.h"
#include "language/language.h"
#include "layout/ahead.h"
#include "layout/floor_room.h"
#include "layout/foot.h"
#include "layout/frame.h"
#include "layout/group.h"
#include "layout/marks.h"
#include "layout/strips.h"
#include "measure/person.h"
#include "model/exercise.h"
#include "model/occasion.h"
#include "wording/wording.h"

static const double NAMES = 0.36, GUTTER = 26; /* share of the width; points for letters */

struct floor_sheet {
    struct frame frame;
    struct group group;
    struct rota *rooms; /* of the squad, where it has any */
    size_t room_count;
    double names, notes; /* widths */
};

static struct face plain_face(const struct floor_sheet *floor)
{
    return frame_face(floor->frame.second * 1.08, WEIGHT_REGULAR, INK_BLACK, RANK_SECOND);
}

/* LEAD bold, then WORDS, which hang after it. */
static struct box *led_box(const struct floor_sheet *floor, const char *lead, const char *words,
                           enum ink ink, double width)
{
    const struct press *press = &floor->frame.press;
    struct box *box = box_new(press->arena);
    struct face face = plain_face(floor), bold = face;
    bold.weight = WEIGHT_BOLD;
    bold.style.ink = ink;
    struct box *head = press_word(press, lead, bold);
    double inset = head->width + 0.5 * face.size;
    struct box *rest = press_paragraph(press, words, face, width - inset, 0, 0.98, false);
    box_place(box, head, 0, fmax(0, rest->baseline - head->baseline));
    box_place(box, rest, inset, 0);
    box->height = rest->height;
    return box;
}

/* --- an exercise --- */

/* "80 kg with bar": what is put together on the floor, without the share of a best that it comes from. */
static const char *load_words(struct arena *arena, const struct block *block,
                              const struct item *item)
{
    const struct load *load = item->run_count == 1 ? &item->runs[0].load : NULL;
    const char *made = load ? wording_load_mass(arena, load, false) : "";
    if (!*made)
        return wording_loads(arena, block, item, false);
    const char *meaning = wording_meaning(arena, item->exercise, load),
               *effort = wording_effort(arena, load);
    return arena_printf(arena, "%s%s%s%s%s", made, *meaning ? " " : "", meaning,
                        *effort ? " " WORDING_DOT " " : "", effort);
}

static struct box *name_box(const struct floor_sheet *floor, const struct lane *lane)
{
    const struct frame *frame = &floor->frame;
    const struct press *press = &frame->press;
    const struct item *item = lane->item;
    struct box *column = box_new(press->arena);
    struct face bold = frame_face(frame->first, WEIGHT_BOLD, INK_BLACK, RANK_FIRST);
    struct face plain = frame_face(frame->first, WEIGHT_REGULAR, INK_BLACK, RANK_FIRST);
    bold.style.role = ROLE_SUBHEADING;
    const char *dose = wording_dose(press->arena, lane->block, item);
    const char *load = lane->loads_differ || wording_intervals(lane->block, item)
                           ? ""
                           : load_words(press->arena, lane->block, item);
    dose = arena_printf(press->arena, "%s%s%s", dose, *dose && *load ? ", " : "", load);
    const char *tempo = item->run_count ? wording_tempo(press->arena, &item->runs[0].tempo) : "";
    frame_stack(
        column,
        press_paragraph(press, wording_exercise(press->arena, item->exercise), bold, floor->names, 0, 0.95, false), 0);
    frame_stack(column, press_paragraph(press, dose, plain, floor->names, 0, 0.98, false),
                0.3 * frame->first);
    if (*tempo)
        frame_stack(column, led_box(floor, said(press->arena, "tempo"), tempo, INK_BLACK, floor->names),
                    0.3 * frame->first);
    if (item->exercise->easier)
        frame_stack(
            column,
            led_box(floor, said(press->arena, "easier"), wording_exercise(press->arena, item->exercise->easier), INK_BLACK,
                    floor->names),
            0.3 * frame->first);
    if (item->exercise->harder)
        frame_stack(
            column,
            led_box(floor, said(press->arena, "harder"), wording_exercise(press->arena, item->exercise->harder), INK_BLACK,
                    floor->names),
            0.3 * frame->first);
    return column;
}

/* Who does the lane's exercise with what, if that differs: "Yusra Penhallow: 8 kg; Ilse Varholm: 12 kg". */
static void add_loads(const struct floor_sheet *floor, const struct lane *lane, struct box *column)
{
    struct arena *arena = floor->frame.press.arena;
    const struct group *group = &floor->group;
    struct text words = {.arena = floor->frame.press.arena};
    if (!lane->loads_differ && !lane->varies)
        return;
    for (size_t i = 0; i < group->count; i++) {
        const struct item *item = lane->by_member[i];
        if (!item || item->exercise != lane->item->exercise)
            continue;
        const char *dose =
            lane_dose_differs(arena, lane, item) ? wording_dose(arena, lane->block, item) : "";
        const char *loads = load_words(arena, lane->block, item);
        if (*dose || (lane->loads_differ && *loads))
            text_addf(&words, "%s%s: %s%s%s", words.length ? "; " : "",
                      athlete_called(group->members[i]->athlete), dose, *dose && *loads ? ", " : "",
                      lane->loads_differ || *dose ? loads : "");
    }
    bool any = words.length > 0;
    const char *kept = text_keep(arena, &words);
    if (any)
        frame_stack(column, led_box(floor, said(arena, "who"), kept, INK_BLACK, floor->notes),
                    0.35 * floor->frame.second);
}

/* Who does another exercise in place of the lane's: "kettlebell deadlift: Ilse Varholm". Never why. */
static void add_exchanges(const struct floor_sheet *floor, const struct lane *lane, struct box *column)
{
    struct arena *arena = floor->frame.press.arena;
    const struct group *group = &floor->group;
    for (size_t i = 0; i < group->count; i++) {
        const struct item *item = lane->by_member[i];
        bool named = false;
        if (item && item->exercise == lane->item->exercise)
            continue;
        struct text names = {.arena = floor->frame.press.arena};
        for (size_t k = 0; k < group->count; k++) {
            const struct item *other = lane->by_member[k];
            bool alike = item ? other && other->exercise == item->exercise : !other;
            named = named || (alike && k < i);
            if (alike)
                text_addf(&names, "%s%s", names.length ? ", " : "",
                          athlete_called(group->members[k]->athlete));
        }
        const char *words =
            item ? arena_printf(arena, "%s: %s", text_get(&names), wording_exercise(arena, item->exercise))
                 : arena_printf(arena, said(arena, "%s: leaves it out"), text_get(&names));
        if (!named)
            frame_stack(column, led_box(floor, said(arena, "instead"), words, INK_SPOT, floor->notes),
                        0.35 * floor->frame.second);
        text_free(&names);
    }
}

static void add_cue(const struct floor_sheet *floor, struct box *column, const char *cue)
{
    struct arena *arena = column->arena;
    frame_stack(column, led_box(floor, said(arena, "cue"), said_as(arena, "cue", cue), INK_BLACK, floor->notes),
                0.35 * floor->frame.second);
}

static void add_fault(const struct floor_sheet *floor, struct box *column, const struct fault *fault)
{
    struct arena *arena = column->arena;
    const char *words = said_as(arena, "fault", fault->fault);
    if (fault->fix)
        words = arena_printf(arena, "%s \342\206\222 %s", words, said_as(arena, "fix", fault->fix));
    frame_stack(column, led_box(floor, said(arena, "fault"), words, INK_GREY, floor->notes), 0.35 * floor->frame.second);
}

static struct box *notes_box(const struct floor_sheet *floor, const struct lane *lane)
{
    const struct frame *frame = &floor->frame;
    const struct press *press = &frame->press;
    const struct exercise *exercise = lane->item->exercise;
    struct box *column = box_new(press->arena);
    double gap = 0.35 * frame->second;
    if (lane->item->cue)
        add_cue(floor, column, lane->item->cue);
    for (size_t i = 0; i < exercise->cue_count; i++)
        if (!lane->item->cue || strcmp(lane->item->cue, exercise->cues[i]) != 0)
            add_cue(floor, column, exercise->cues[i]);
    for (size_t i = 0; i < exercise->fault_count; i++)
        add_fault(floor, column, &exercise->faults[i]);
    struct face stop = frame_face(frame->first, WEIGHT_REGULAR, INK_BLACK, RANK_FIRST);
    const char *words = mark_stop_words(press->arena, lane->item->stop);
    frame_stack(column, mark_stop_rule(press, words, stop, floor->notes), 1.4 * gap);
    if (frame->request->coach) {
        add_loads(floor, lane, column);
        add_exchanges(floor, lane, column);
    }
    return column;
}

static struct box *lane_box(const struct floor_sheet *floor, const struct lane *lane)
{
    const struct frame *frame = &floor->frame;
    struct box *box = box_new(frame->press.arena);
    struct box *name = name_box(floor, lane), *notes = notes_box(floor, lane);
    const char *ref = lane->block->letter ? arena_printf(frame->press.arena, "%c%d",
                                                         lane->block->letter, lane->item->index + 1)
                                          : "";
    press_put(&frame->press, box, 0, frame_capital(frame, frame->first), ref,
              frame_face(frame->first, WEIGHT_BOLD, INK_SPOT, RANK_SECOND));
    box_place(box, name, GUTTER, 0);
    box_place(box, notes, GUTTER + floor->names + 14, 0);
    box->height = fmax(name->height, notes->height) + 3;
    return box;
}

static struct box *heading_box(const struct floor_sheet *floor, const struct block *block, bool again)
{
    const struct frame *frame = &floor->frame;
    const struct press *press = &frame->press;
    struct box *box = box_new(press->arena);
    double size = frame->second, baseline = 0.55 * size + frame_capital(frame, size);
    const char *words = arena_printf(press->arena, "%s%s", wording_block(press->arena, block),
                                     again ? said(press->arena, " \u00b7 continued") : "");
    box_rectangle(box, 0, 0, frame->inner, 0.8, INK_BLACK, INK_NONE, 0);
    press_put(press, box, GUTTER, baseline, words,
              frame_face(size, WEIGHT_BOLD, INK_GREY, RANK_SECOND));
    const char *poor = wording_poor_day(press->arena, block);
    if (*poor) {
        baseline += 1.35 * size;
        press_put(press, box, GUTTER, baseline, poor, frame_face(size, WEIGHT_REGULAR, INK_GREY, RANK_SECOND));
    }
    box->height = baseline + 0.75 * size;
    return box;
}

/* Lanes that are the same item round after round are shown once. */
static bool shown_before(const struct group *group, size_t index)
{
    const struct lane *lane = &group->lanes[index];
    for (size_t i = 0; i < index; i++) {
        const struct lane *other = &group->lanes[i];
        if (other->block->span.start == lane->block->span.start &&
            other->block->span.file == lane->block->span.file &&
            other->item->exercise == lane->item->exercise)
            return true;
    }
    return false;
}

static struct strips all_strips(const struct floor_sheet *floor)
{
    const struct press *press = &floor->frame.press;
    struct strips strips = {0};
    for (size_t i = 0; i < floor->group.lane_count; i++) {
        const struct lane *lane = &floor->group.lanes[i];
        if (shown_before(&floor->group, i))
            continue;
        strips_add(press, &strips,
                   (struct strip){.heading = heading_box(floor, lane->block, false),
                                  .again = heading_box(floor, lane->block, true),
                                  .body = lane_box(floor, lane),
                                  .before = lane->first ? 4 : 3.5,
                                  .first = lane->first,
                                  .title = wording_block(press->arena, lane->block)});
    }
    return strips;
}

/* --- set-up --- */

/* For the coach alone, who of the squad lifts only with a coach beside them; an empty piece if nobody does. */
static struct box *young_box(const struct floor_sheet *floor)
{
    const struct press *press = &floor->frame.press;
    struct face bold = plain_face(floor);
    struct text names = {.arena = floor->frame.press.arena};
    for (size_t i = 0; i < floor->group.count && floor->frame.request->coach; i++)
        if (*foot_minor(floor->frame.press.arena, floor->group.members[i]))
            text_addf(&names, "%s%s", names.length ? ", " : "", athlete_called(floor->group.members[i]->athlete));
    bold.weight = WEIGHT_BOLD;
    const char *words = names.length ? arena_printf(press->arena, "%s: %s", said_guard(press->arena, "With a coach beside them when they lift"),
                                                    text_get(&names)) : "";
    text_free(&names);
    return press_paragraph(press, words, bold, floor->frame.inner, 0, 1, false);
}

/* Kit as a list to tick off, and how many it is for. */
static struct box *setup_box(const struct floor_sheet *floor)
{
    const struct frame *frame = &floor->frame;
    const struct press *press = &frame->press;
    struct box *box = box_new(press->arena);
    struct face face = plain_face(floor), bold = face;
    bold.weight = WEIGHT_BOLD;
    struct flow flow = {0};
    const char **kit;
    size_t count = foot_kit_list(press->arena, floor->group.members, floor->group.count, &kit);
    const char *lead =
        floor->group.count > 1
            ? arena_printf(press->arena, said(press->arena, "Set up for %zu, each needs:"), floor->group.count)
            : said(press->arena, "Set up:");
    if (!count)
        return box;
    flow_add(press, &flow, press_word(press, lead, bold));
    for (size_t i = 0; i < count; i++) {
        struct box *atom = box_new(press->arena);
        double blank = 0.85 * face.size;
        atom->baseline = frame_capital(frame, face.size);
        atom_join(atom, mark_blank(press, blank, blank), 0);
        atom_join(atom, press_word(press, kit[i], face), 4);
        flow_add(press, &flow, atom);
    }
    struct box *set = flow_set(press, &flow, frame->inner, 13, 1.55 * face.size, frame_capital(frame, face.size));
    box_place(box, set, 0, 0);
    box->height = set->height;
    return box;
}

/* Who is on hold, for the coach alone: neither why nor since when. */
static struct box *held_box(const struct floor_sheet *floor)
{
    const struct sheet_request *request = floor->frame.request;
    struct face face = plain_face(floor);
    if (!request->coach || !request->held_count)
        return box_new(request->arena);
    struct text names = {.arena = request->arena};
    for (size_t i = 0; i < request->held_count; i++)
        text_addf(&names, "%s%s", i ? ", " : "", request->held[i]);
    const char *words = arena_printf(request->arena, "%s: %s. %s", said_guard(request->arena, "On hold"), text_get(&names),
                                     said_guard(request->arena, "They do only what their card says; without a card, nothing."));
    face.weight = WEIGHT_BOLD;
    face.style.ink = INK_SPOT;
    return press_paragraph(&floor->frame.press, words, face, floor->frame.inner, 0, 1, false);
}

/* --- after a knock --- */

/* Signs for which an ambulance is called: those of the Concussion Recognition Tool 6 (Echemendia et al. 2023, Br J Sports
 * Med 57:692-694), in our words; that nobody is left alone or drives is from there too. */
static const char SIGNS[] = SAID(
    "Call an ambulance, by the local emergency number (112, 999, 911 or your country's own), for any of these: a painful or tender neck; "
    "double vision; weakness, tingling or burning in an arm or leg; a bad headache, or one that grows; a fit; passing "
    "out; growing drowsy or confused; vomiting; growing restless or aggressive. Nobody whose neck may be hurt is moved.");
static const char NOT_ALONE[] = SAID(
    "Whoever was hit stops at once, feeling well or not, is not left alone, does not go home alone and does not drive.");

/* What every copy has at its foot, ready when it is needed. */
static struct box *floor_foot(const struct floor_sheet *floor)
{
    const struct frame *frame = &floor->frame;
    const struct press *press = &frame->press;
    struct face face = frame_face(1.2 * frame->foot, WEIGHT_REGULAR, INK_BLACK, RANK_FOOT), bold = face;
    bold.weight = WEIGHT_BOLD;
    struct box *parts[4];
    size_t count = 0;
    const char *const lines[] = {SAID("After a knock to the head"), SIGNS, NOT_ALONE};
    for (size_t i = 0; i < sizeof lines / sizeof *lines; i++)
        parts[count++] = press_paragraph(press, said_guard(press->arena, lines[i]), i == 1 ? face : bold, frame->inner, 0, 1, false);
    struct box *call = box_new(press->arena);
    call->baseline = frame_capital(frame, face.size);
    struct box *lead = press_word(press, said_guard(press->arena, "Then call, here:"), face);
    double gap = 0.6 * face.size, blank = fmin(0.6 * frame->inner, frame->inner - lead->width - gap);
    atom_join(call, lead, 0);
    atom_join(call, mark_blank(press, blank, 1.5 * face.size), gap);
    parts[count++] = call;
    return frame_foot(frame, parts, count);
}

/* --- pages --- */

/* "18:00-18:39": a squad's finish, in place of what the session takes one athlete alone. */
static const char *when_words(const struct floor_sheet *floor)
{
    struct arena *arena = floor->frame.press.arena;
    const struct occasion *first = floor->group.members[0];
    const char *out = wording_out(arena, first);
    if (floor->room_count != 1)
        return foot_when(arena, first);
    const struct rota *room = floor->rooms;
    return arena_printf(arena, "%s" WORDING_TO "%s%s%s", rota_minute(arena, room, 0),
                        rota_minute(arena, room, room->table->finish + 59), *out ? " " WORDING_DOT " " : "", out);
}

static struct frame_title title_words(const struct floor_sheet *floor)
{
    const struct occasion *first = floor->group.members[0];
    struct arena *arena = floor->frame.press.arena;
    return (struct frame_title){.title = first->session->name.shown,
                                .beside = arena_printf(arena, "%s%s%s",
                                                       floor->frame.request->coach
                                                           ? said(arena, "Floor notes, the coach's copy")
                                                           : said(arena, "Floor notes"),
                                                       first->optional ? ", " : "", wording_optional(arena, first)),
                                .when = floor->frame.request->date_words,
                                .then = when_words(floor),
                                .provisional = foot_provisional(floor->frame.press.arena, first)};
}

static void add_pages(struct scene *scene, const struct floor_sheet *floor,
                      const struct frame_title *title)
{
    const struct frame *frame = &floor->frame;
    struct strips strips = all_strips(floor);
    struct box *foot = floor_foot(floor);
    double line = frame->height - frame->margin - frame_last_line(frame, 1, 1)->height;
    double bottom = line - foot->height - 6;
    for (size_t start = 0; start < strips.count;) {
        bool again = start > 0;
        struct box *page = scene_page(scene), *header = frame_header(frame, title, scene->page_count > 1);
        double used, y = frame->margin + header->height;
        box_place(page, header, frame->margin, frame->margin);
        if (!again) {
            struct box *setup = setup_box(floor), *held = held_box(floor);
            if (scene->page_count == 1)
                scene_bookmark(scene, scene->title, 0, false);
            box_place(page, held, frame->margin, y);
            y += held->height + (held->count ? 9 : 0);
            box_place(page, setup, frame->margin, y);
            y += setup->height + (setup->count ? 11 : 0);
            struct face bold = plain_face(floor);
            bold.weight = WEIGHT_BOLD;
            struct box *const notes[] = {young_box(floor), ahead_box(frame, &floor->group, bold)};
            for (size_t i = 0; i < sizeof notes / sizeof *notes; i++) {
                box_place(page, notes[i], frame->margin, y);
                y += notes[i]->count ? notes[i]->height + 11 : 0;
            }
        }
        size_t fitting = strips_fit(&strips, start, bottom - y, &used);
        double slack = fmax(0, fmin(bottom - y - used, 9.0 * (double)fitting));
        strips_draw(scene, page, &strips, start, start + fitting, frame->margin, y, slack);
        box_place(page, foot, frame->margin, line - foot->height);
        start += fitting;
    }
}

/* The pages of each room, ahead of the notes: what runs the session. */
static void add_rooms(struct scene *scene, const struct floor_sheet *floor, const struct frame_title *title)
{
    const struct frame *frame = &floor->frame;
    struct box *foot = frame_foot(frame, NULL, 0);
    double line = frame->height - frame->margin - frame_last_line(frame, 1, 1)->height;
    for (size_t i = 0; i < floor->room_count; i++)
        floor_room_pages(scene, frame, title, &floor->group, &floor->rooms[i], line - foot->height - 6);
    for (size_t i = 0; i < scene->page_count; i++)
        box_place(scene->pages[i], foot, frame->margin, line - foot->height);
}

static void add_last_lines(struct scene *scene, const struct frame *frame)
{
    double line = frame->height - frame->margin - frame_last_line(frame, 1, 1)->height;
    for (size_t i = 0; i < scene->page_count; i++)
        box_place(scene->pages[i], frame_last_line(frame, (int)i + 1, (int)scene->page_count),
                  frame->margin, line);
}

/* How many pages the notes take. */
static int count_pages(const struct floor_sheet *floor, const struct frame_title *title)
{
    struct scene *trial = frame_scene(&floor->frame, "", "");
    add_pages(trial, floor, title);
    return (int)trial->page_count;
}

/* The largest letters that need no more pages than the smallest. */
static void fit_size(struct floor_sheet *floor, const struct frame_title *title)
{
    static const double scales[] = {1.4, 1.28, 1.16, 1.08};
    struct frame least = floor->frame;
    int pages = count_pages(floor, title);
    for (size_t i = 0; i < sizeof scales / sizeof *scales; i++) {
        floor->frame.first = scales[i] * least.first;
        floor->frame.second = scales[i] * least.second;
        if (count_pages(floor, title) <= pages)
            return;
    }
    floor->frame = least;
}

struct scene *floor_scene(const struct sheet_request *request)
{
    struct floor_sheet floor = {.frame = frame_of(request),
                                .group = group_make(request->arena, request->occasions, request->count)};
    floor.room_count = rotas_of(request, &floor.rooms);
    floor.names = NAMES * floor.frame.inner;
    floor.notes = floor.frame.inner - GUTTER - floor.names - 14;
    struct frame_title title = title_words(&floor);
    struct floor_sheet room = floor; /* as small as can be read: a night has many turns */
    fit_size(&floor, &title);
    const char *name = arena_printf(request->arena, said(request->arena, "%s%s%s: floor notes"), title.title,
                                    *title.when ? ", " : "", title.when);
    struct scene *scene = frame_scene(&floor.frame, name, "floor sheet");
    add_rooms(scene, &room, &title);
    add_pages(scene, &floor, &title);
    add_last_lines(scene, &floor.frame);
    frame_report_reach(scene, &floor.frame);
    return scene;
}
