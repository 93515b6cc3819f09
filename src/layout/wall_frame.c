/* wall_frame.c - what stands around a wall sheet's blocks: title, time ribbon, kit, key, cautions. */
#include <math.h>
#include <string.h>

#include "base/text.h"
#include "language/language.h"
#include "layout/foot.h"
#include "layout/marks.h"
#include "layout/ribbon.h"
#include "layout/wall.h"
#include "measure/clocks.h"
#include "measure/person.h"
#include "model/occasion.h"
#include "wording/wording.h"

static struct face face_of(double size, enum weight weight, enum ink ink, enum rank rank)
{
    return (struct face){size, weight, {ink, rank, ROLE_PLAIN}};
}

static double capital(const struct wall *wall, double size)
{
    return size * type_capital(wall->press.type);
}

/* "17:30 · 11 weeks out · may be left out", as far as each part applies. */
static const char *when(const struct wall *wall)
{
    const struct occasion *occasion = wall->group.members[0];
    struct arena *arena = wall->press.arena;
    const char *clock =
        occasion->clock >= 0 ? said_hour(arena, occasion->clock) : "";
    if (wall->room_count == 1)
        clock = arena_printf(arena, "%s" WORDING_TO "%s", clock,
                             rota_minute(arena, wall->rooms, wall->rooms->table->finish + 59));
    const char *const parts[] = {clock, abroad_words(arena, occasion), wording_out(arena, occasion),
                                 wording_optional(arena, occasion)};
    struct text out = {.arena = wall->press.arena};
    for (size_t i = 0; i < sizeof parts / sizeof *parts; i++)
        if (*parts[i])
            text_addf(&out, "%s%s", out.length ? " " WORDING_DOT " " : "", parts[i]);
    return text_keep(arena, &out);
}

/* Up to four by name. */
static const char *who(const struct wall *wall)
{
    struct text out = {.arena = wall->press.arena};
    struct arena *arena = wall->press.arena;
    if (wall->group.count > 4)
        return arena_printf(arena, said_count(arena, (long)wall->group.count, "%zu athlete", "%zu athletes"), wall->group.count);
    for (size_t i = 0; i < wall->group.count; i++)
        text_addf(&out, "%s%s", i ? ", " : "", athlete_called(wall->group.members[i]->athlete));
    return text_keep(arena, &out);
}

/* Who, and after it or, if there is no room for both, below it what for. */
static struct box *below_title(const struct wall *wall, double small)
{
    const struct press *press = &wall->press;
    const char *purpose = wall->group.members[0]->session->purpose;
    struct flow flow = {0};
    flow_add(press, &flow,
             press_paragraph(press, who(wall), face_of(small, WEIGHT_BOLD, INK_BLACK, RANK_SECOND),
                             wall->inner, 0, 0.95, false));
    flow_add(press, &flow,
             press_paragraph(press, purpose ? purpose : "",
                             face_of(small, WEIGHT_REGULAR, INK_GREY, RANK_SECOND), wall->inner, 0,
                             0.95, false));
    flow_add(press, &flow,
             press_paragraph(press, foot_provisional(press->arena, wall->group.members[0]),
                             face_of(small, WEIGHT_BOLD, INK_SPOT, RANK_SECOND), wall->inner, 0,
                             0.95, false));
    return flow_set(press, &flow, wall->inner, 0.9 * small, 1.3 * small, capital(wall, small));
}

/* The title of at most SIZE in what RIGHT leaves of the width. */
static struct box *title_box(const struct wall *wall, double size, double right)
{
    const struct press *press = &wall->press;
    const char *name = wall->group.members[0]->session->name.shown;
    double room = wall->inner - right - 24 * wall->unit;
    double wide = type_width(press->type, name, size, WEIGHT_BOLD);
    struct face face =
        face_of(size * fmax(0.55, fmin(1, room / wide)), WEIGHT_BOLD, INK_BLACK, RANK_SECOND);
    face.style.role = ROLE_TITLE;
    struct box *title = press_paragraph(press, name, face, room, 0, 0.88, false);
    title->height -= 0.2 * face.size;
    return title;
}

static double header_small(const struct wall *wall)
{
    return fmax(17 * wall->unit, fmin(wall->second_least, 20 * wall->unit));
}

/* Session and date: at the head of every page but the first. */
static struct box *header_again(const struct wall *wall)
{
    const struct press *press = &wall->press;
    struct box *header = box_new(press->arena);
    double small = header_small(wall), bar = 4 * wall->unit, y = bar + 9 * wall->unit;
    const char *date = wall->request->date_words;
    struct box *title =
        title_box(wall, 24 * wall->unit, type_width(press->type, date, small, WEIGHT_BOLD));
    box_rectangle(header, 0, 0, wall->inner, bar, INK_BLACK, INK_NONE, 0);
    box_place(header, title, 0, y);
    press_put_end(press, header, wall->inner, y + fmax(title->baseline, capital(wall, small)), date,
                  face_of(small, WEIGHT_BOLD, INK_BLACK, RANK_SECOND));
    header->height = y + fmax(title->height, 1.2 * small) + 11 * wall->unit;
    return header;
}

struct box *wall_header(const struct wall *wall, bool again)
{
    if (again)
        return header_again(wall);
    const struct press *press = &wall->press;
    struct box *header = box_new(press->arena);
    double small = header_small(wall), bar = 4 * wall->unit, y = bar + 11 * wall->unit;
    struct face info = face_of(small, WEIGHT_BOLD, INK_BLACK, RANK_SECOND);
    const char *date = wall->request->date_words, *time = when(wall);
    double right = fmax(type_width(press->type, date, small, WEIGHT_BOLD),
                        type_width(press->type, time, small, WEIGHT_BOLD));
    struct box *title = title_box(wall, 44 * wall->unit, right);
    double line = y + capital(wall, small);
    box_rectangle(header, 0, 0, wall->inner, bar, INK_BLACK, INK_NONE, 0);
    box_place(header, title, 0, y);
    press_put_end(press, header, wall->inner, line, date, info);
    info.style.ink = INK_SPOT;
    press_put_end(press, header, wall->inner, line + 1.25 * small, time, info);
    double low = fmax(y + title->height, line + 1.25 * small) + 0.62 * small;
    struct box *below = below_title(wall, small);
    box_place(header, below, 0, low);
    low += below->height + 0.5 * small;
    const struct occasion *spread = rota_spread(press->arena, wall->rooms, wall->room_count, wall->group.members[0]);
    struct box *ribbon = ribbon_box(press, spread, wall->inner, 0.78 * small, RANK_SECOND);
    box_place(header, ribbon, 0, low);
    header->height = low + ribbon->height + 11 * wall->unit;
    return header;
}

static double foot_size(const struct wall *wall)
{
    return fmax(7.6, 10.5 * wall->unit);
}

/* What is needed, and beside it or below it how the marks are read. */
static struct box *key_box(const struct wall *wall, double size)
{
    const struct press *press = &wall->press;
    struct face face = face_of(size, WEIGHT_REGULAR, INK_BLACK, RANK_FOOT);
    struct foot_marks used = foot_marks_used(wall->group.members, wall->group.count);
    const char *words = foot_kit(press->arena, wall->group.members, wall->group.count);
    struct box *key = foot_key(press, used, face, wall->inner);
    face.weight = WEIGHT_BOLD;
    struct box *kit =
        press_paragraph(press, *words ? arena_printf(press->arena, said(press->arena, "Kit: %s"), words) : "", face,
                        wall->inner, 0, 0.95, false);
    struct flow flow = {0};
    flow_add(press, &flow, kit);
    flow_add(press, &flow, key);
    return flow_set(press, &flow, wall->inner, 1.8 * size, 1.6 * size, capital(wall, size));
}

/* The cautions and, right of them, plan, version and page. */
static struct box *bottom_box(const struct wall *wall, double size, int page, int pages)
{
    const struct press *press = &wall->press;
    const struct sheet_request *request = wall->request;
    struct box *box = box_new(press->arena);
    struct face face = face_of(size, WEIGHT_REGULAR, INK_GREY, RANK_FOOT);
    const char *unread = said_unread(press->arena);
    const char *words = arena_printf(
        press->arena, "%s%s%s%s%s", request->plan,
        *request->version ? said(press->arena, " \u00b7 version\u00a0") : "", request->version,
        *unread ? " " WORDING_DOT " " : "", unread);
    const char *number = pages ? arena_printf(press->arena, said(press->arena, "page %d of %d"), page, pages) : "";
    struct box *plan = press_paragraph(press, words, face, 0.36 * wall->inner, 0, 0.95, false);
    double right =
        fmax(plan->width, type_width(press->type, arena_printf(press->arena, said(press->arena, "page %d of %d"), 10, 10), size, WEIGHT_REGULAR));
    face.style.ink = INK_BLACK;
    struct box *cautions = press_paragraph(press, foot_cautions(press->arena), face,
                                           wall->inner - right - 2 * size, 0, 0.95, false);
    box_place(box, cautions, 0, 0);
    box_place(box, plan, wall->inner - plan->width, 0);
    face.style.ink = INK_GREY;
    press_put_end(press, box, wall->inner, plan->height + 0.22 * size + capital(wall, size),
                  number, face);
    box->height = fmax(cautions->height, plan->height + 1.2 * size);
    return box;
}

struct box *wall_foot(const struct wall *wall, int page, int pages)
{
    struct box *foot = box_new(wall->press.arena);
    double size = foot_size(wall), y = 0.7 * size;
    struct box *key = page == 1 ? key_box(wall, size) : box_new(wall->press.arena);
    struct box *bottom = bottom_box(wall, size, page, pages);
    box_rectangle(foot, 0, 0, wall->inner, 0.8, INK_BLACK, INK_NONE, 0);
    if (key->count) {
        box_place(foot, key, 0, y);
        y += key->height + 0.7 * size;
    }
    box_place(foot, bottom, 0, y);
    foot->height = y + bottom->height;
    return foot;
}

double wall_foot_space(const struct wall *wall)
{
    return fmax(12 * wall->unit, 1.3 * wall->second_least);
}

void wall_note(const struct wall *wall, struct box *page, double x, double down, const char *words)
{
    const struct press *press = &wall->press;
    struct face face = face_of(foot_size(wall), WEIGHT_BOLD, INK_BLACK, RANK_FOOT);
    double below = 0.35 * face.size, room = wall_foot_space(wall) - below;
    const struct box *tried = press_word(press, words, face);
    const struct element *text = &tried->elements[0];
    double rise = tried->baseline - text->y - text->run->ink_y;
    face.size *= fmin(1, room / rise); /* Thai marks rise above capitals, and the last line ends close above */
    press_put(press, page, x, down - below, words, face);
}
