/* wall_frame.c - what stands around a wall sheet's blocks: title, time ribbon, kit, key, cautions. */
#include <math.h>
#include <string.h>

#include "base/text.h"
#include "layout/foot.h"
#include "layout/marks.h"
#include "layout/ribbon.h"
#include "layout/wall.h"
#include "model/wording.h"

static struct face face_of(double size, enum weight weight, enum ink ink, enum rank rank)
{
    return (struct face){size, weight, {ink, rank, ROLE_PLAIN}};
}

static double capital(const struct wall *wall, double size)
{
    return size * type_capital(wall->press.type);
}

/* "17:30 · 11 weeks out · may be left out", whatever of it is to be said. */
static const char *when(const struct wall *wall)
{
    const struct occasion *occasion = wall->group.members[0];
    struct arena *arena = wall->press.arena;
    const char *clock = occasion->clock >= 0 ? arena_printf(arena, "%d:%02d", occasion->clock / 3600,
                                                            occasion->clock / 60 % 60)
                                             : "";
    const char *const parts[] = {clock, wording_weeks_out(arena, occasion->weeks_out),
                                 wording_optional(occasion)};
    struct text out = {0};
    for (size_t i = 0; i < sizeof parts / sizeof *parts; i++)
        if (*parts[i])
            text_addf(&out, "%s%s", out.length ? " " WORDING_DOT " " : "", parts[i]);
    return text_keep(arena, &out);
}

/* Up to four by name. */
static const char *who(const struct wall *wall)
{
    struct text out = {0};
    struct arena *arena = wall->press.arena;
    if (wall->group.count > 4)
        return arena_printf(arena, "%zu athletes", wall->group.count);
    for (size_t i = 0; i < wall->group.count; i++)
        text_addf(&out, "%s%s", i ? ", " : "", wall->group.members[i]->athlete->name.shown);
    return text_keep(arena, &out);
}

/* Who, and behind it or, where there is no room for both, below it what for. */
static struct piece *below_title(const struct wall *wall, const char *names, double small)
{
    const struct press *press = &wall->press;
    struct piece *piece = piece_new(press->arena);
    const char *purpose = wall->group.members[0]->session->purpose;
    struct face bold = face_of(small, WEIGHT_BOLD, INK_BLACK, RANK_SECOND);
    struct face grey = face_of(small, WEIGHT_REGULAR, INK_GREY, RANK_SECOND);
    struct piece *who = press_paragraph(press, names, bold, wall->inner, 0, 1, false);
    piece_place(piece, who, 0, 0);
    piece->height = who->height - 0.22 * small;
    if (!purpose)
        return piece;
    double needs = type_width(press->type, purpose, small, WEIGHT_REGULAR);
    if (who->width + 1.2 * small + needs <= wall->inner && who->height < 2 * small) {
        press_put_end(press, piece, wall->inner, who->baseline, purpose, grey);
        return piece;
    }
    struct piece *words = press_paragraph(press, purpose, grey, wall->inner, 0, 1, false);
    double y = piece->height + 0.55 * small;
    piece_place(piece, words, needs < wall->inner ? wall->inner - words->width : 0, y);
    piece->height = y + words->height - 0.22 * small;
    return piece;
}

struct piece *wall_header(const struct wall *wall, bool again)
{
    const struct press *press = &wall->press;
    const struct session *session = wall->group.members[0]->session;
    struct piece *header = piece_new(press->arena);
    double small = fmax(18 * wall->unit, fmin(wall->second_least, 20 * wall->unit));
    double bar = 5 * wall->unit, y = bar + 13 * wall->unit;
    struct face info = face_of(small, WEIGHT_BOLD, INK_BLACK, RANK_SECOND);
    const char *date = wall->request->date_words, *time = when(wall), *names = who(wall);
    double right = fmax(type_width(press->type, date, small, WEIGHT_BOLD),
                        type_width(press->type, time, small, WEIGHT_BOLD));
    piece_box(header, 0, 0, wall->inner, bar, INK_BLACK, INK_NONE, 0);
    double size = (again ? 26 : 50) * wall->unit, room = wall->inner - right - 24 * wall->unit;
    double wide = type_width(press->type, session->name.shown, size, WEIGHT_BOLD);
    size *= fmax(0.55, fmin(1, room / wide));
    struct face title = face_of(size, WEIGHT_BOLD, INK_BLACK, RANK_SECOND);
    title.look.role = ROLE_TITLE;
    struct piece *name = press_paragraph(press, session->name.shown, title, room, 0, 0.88, false);
    piece_place(header, name, 0, y);
    double low = y + name->height - 0.22 * size;
    double line = y + capital(wall, small);
    press_put_end(press, header, wall->inner, line, date, info);
    info.look.ink = INK_SPOT;
    press_put_end(press, header, wall->inner, line + 1.32 * small, time, info);
    low = fmax(low, line + 1.32 * small);
    if (again) {
        header->height = low + 14 * wall->unit;
        return header;
    }
    info.look.ink = INK_BLACK;
    struct piece *below = below_title(wall, names, small);
    piece_place(header, below, 0, low + 0.85 * small);
    line = low + 0.85 * small + below->height;
    const char *provisional = foot_provisional(wall->group.members[0]);
    if (*provisional) {
        line += 1.35 * small;
        press_put(press, header, 0, line, provisional,
                  face_of(small, WEIGHT_BOLD, INK_SPOT, RANK_SECOND));
    }
    struct piece *ribbon = ribbon_piece(press, wall->group.members[0], wall->inner,
                                        0.8 * small, RANK_SECOND);
    piece_place(header, ribbon, 0, line + 0.8 * small);
    header->height = line + 0.8 * small + ribbon->height + 16 * wall->unit;
    return header;
}

static double foot_size(const struct wall *wall)
{
    return fmax(7.6, 10.5 * wall->unit);
}

struct piece *wall_foot(const struct wall *wall, bool again)
{
    const struct press *press = &wall->press;
    struct piece *foot = piece_new(press->arena);
    double size = foot_size(wall), y = 0.9 * size;
    struct face face = face_of(size, WEIGHT_REGULAR, INK_BLACK, RANK_FOOT);
    struct foot_marks used = {0};
    if (!again)
        used = foot_marks_used(wall->group.members, wall->group.count);
    const char *kit = again ? "" : foot_kit(press->arena, wall->group.members, wall->group.count);
    piece_box(foot, 0, 0, wall->inner, 0.8, INK_BLACK, INK_NONE, 0);
    const struct piece *parts[] = {
        *kit ? press_paragraph(press, arena_printf(press->arena, "Kit: %s", kit),
                               face_of(size, WEIGHT_BOLD, INK_BLACK, RANK_FOOT), wall->inner, 0, 1,
                               false)
             : piece_new(press->arena),
        foot_key(press, used, face, wall->inner),
        press_paragraph(press, foot_cautions(), face, wall->inner, 0, 1, false),
    };
    for (size_t i = 0; i < sizeof parts / sizeof *parts; i++) {
        if (parts[i]->count == 0)
            continue;
        piece_place(foot, parts[i], 0, y);
        y += parts[i]->height + 0.75 * size;
    }
    foot->height = y;
    return foot;
}

struct piece *wall_last_line(const struct wall *wall, int page, int pages)
{
    const struct sheet_request *request = wall->request;
    return foot_last_line(&wall->press, request->plan, request->version, page, pages, wall->inner,
                          face_of(foot_size(wall), WEIGHT_REGULAR, INK_GREY, RANK_FOOT));
}

const char *wall_table_hint(const struct wall *wall, const struct lane *lane)
{
    return arena_printf(wall->press.arena, "%s: %s",
                        lane->loads_differ ? "own load" : "some do otherwise",
                        wall->table_follows ? "next page" : "table below");
}
