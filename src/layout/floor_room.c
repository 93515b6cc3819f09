#include "layout/floor_room.h"

#include <math.h>
#include <string.h>

#include "base/text.h"
#include "language/language.h"
#include "layout/matrix.h"
#include "layout/strips.h"
#include "model/gym.h"
#include "model/occasion.h"
#include "wording/wording.h"

enum { COLUMNS = 3 };

static const double GAP = 16;

struct room_sheet {
    const struct frame *frame;
    const struct rota *of;
    const struct frame_title *title;
    struct scene *scene;
    struct box *page;
    double width, bottom; /* of a column; where pages end */
    double column;        /* of the table who against line */
    double y;             /* how far the page is filled */
};

static struct face face_of(const struct room_sheet *sheet, enum weight weight, enum ink ink)
{
    return frame_face(sheet->frame->first, weight, ink, RANK_FIRST);
}

static struct face close_face(const struct room_sheet *sheet, enum ink ink)
{
    return frame_face(sheet->frame->second, WEIGHT_REGULAR, ink, RANK_SECOND);
}

/* --- one turn --- */

static void put_cell(const struct room_sheet *sheet, struct box *box, double x, double baseline, const char *words,
                     struct face face)
{
    face.style.role = ROLE_CELL;
    box_open(box, ROLE_DATUM);
    if (*words)
        press_put(&sheet->frame->press, box, x, baseline, words, face);
    box_close(box, ROLE_DATUM);
}

/* WORDS from X to the end of the column, on as many lines as they take. Returns how much lower they reach than one of ours:
 * letters of some scripts hang low. */
static double put_words(const struct room_sheet *sheet, struct box *box, double x, double baseline, const char *words,
                        struct face face)
{
    const struct press *press = &sheet->frame->press;
    if (type_width(press->type, words, face.size, face.weight) <= sheet->width - x) {
        double below = 0.22 * face.size, height = press_height(press, words, face, sheet->width, 1);
        put_cell(sheet, box, x, baseline, words, face);
        return fmax(0, height - frame_capital(sheet->frame, face.size) - below);
    }
    face.style.role = ROLE_CELL;
    struct box *lines = press_paragraph(press, words, face, sheet->width - x, 0, 1, false);
    box_place_as(box, ROLE_DATUM, lines, x, baseline - lines->baseline);
    return lines->height - face.size;
}

/* "18:04:20 Oriel A1.2 60 kg", and below it what is changed on the bar before. */
static struct box *turn_box(const struct room_sheet *sheet, const struct room_row *row, const char *discs)
{
    const struct press *press = &sheet->frame->press;
    const struct rota *of = sheet->of;
    struct box *box = box_new(press->arena);
    struct face plain = face_of(sheet, WEIGHT_REGULAR, INK_BLACK), bold = face_of(sheet, WEIGHT_BOLD, INK_BLACK);
    double size = plain.size, baseline = frame_capital(sheet->frame, size), x = 4.6 * size;
    const char *name = of->squad->room.athletes[row->athlete].name;
    const char *what = arena_printf(press->arena, "%s  %s", rota_line(press->arena, of, row),
                                    rota_load(press->arena, of, row));
    double wide = type_width(press->type, name, size, WEIGHT_BOLD) + 0.6 * size;
    box_open(box, ROLE_ROW);
    put_cell(sheet, box, 0, baseline, rota_hour(press->arena, of, row->start), plain);
    double more = put_words(sheet, box, x, baseline, name, bold);
    baseline += more;
    box->height = 1.36 * size + more;
    if (more > 0.5 * size || x + wide + type_width(press->type, what, size, WEIGHT_REGULAR) > sheet->width) {
        double line = said_rises(press->arena) ? 1.5 * size : 1.2 * size;
        baseline += line;
        box->height += line;
        wide = 0;
    }
    box->height += put_words(sheet, box, x + wide, baseline, what, plain);
    box_open(box, ROLE_DATUM);
    if (*discs) {
        struct face grey = close_face(sheet, INK_SPOT);
        struct box *words = press_paragraph(press, discs, grey, sheet->width - x, 0, 1, false);
        box_place(box, words, x, box->height - 0.1 * size);
        box->height += words->height + 0.25 * size;
    }
    box_close(box, ROLE_DATUM);
    box_close(box, ROLE_ROW);
    return box;
}

/* --- one station --- */

enum { MOST_NAMED = 8 }; /* lines of names in a heading */

/* Pieces of one kind that are used at the same times by the same people, from FIRST on. */
struct station {
    const struct room_busy *busy;
    size_t count;
};

static bool same_turns(const struct room_sheet *sheet, const struct room_busy *one, const struct room_busy *other)
{
    const struct room_table *table = sheet->of->table;
    for (size_t i = 0; i < table->row_count; i++)
        if (!rota_unit(&table->rows[i], one->kind, one->number) !=
            !rota_unit(&table->rows[i], other->kind, other->number))
            return false;
    return one->kind == other->kind;
}

static struct station station_at(const struct room_sheet *sheet, size_t index)
{
    const struct room_table *table = sheet->of->table;
    struct station station = {&table->busy[index], 1};
    while (index + station.count < table->busy_count &&
           same_turns(sheet, station.busy, &table->busy[index + station.count]))
        station.count++;
    return station;
}

/* "12 kg dumbbell 1, 2". */
static const char *station_name(const struct room_sheet *sheet, const struct station *station)
{
    struct arena *arena = sheet->frame->press.arena;
    const char *name = rota_unit_name(arena, sheet->of, station->busy->kind, station->busy->number);
    for (size_t i = 1; i < station->count; i++)
        name = arena_printf(arena, "%s, %d", name, station->busy[i].number);
    return rota_is_coach(sheet->of, station->busy->kind) ? arena_printf(arena, said(arena, "%s beside"), name) : name;
}

/* "rack 1", and whose: "Oriel, Kofi". */
static struct box *station_box(const struct room_sheet *sheet, const struct station *station, bool again)
{
    const struct press *press = &sheet->frame->press;
    const struct rota *of = sheet->of;
    struct box *box = box_new(press->arena);
    struct face bold = face_of(sheet, WEIGHT_BOLD, INK_BLACK);
    struct text names = {.arena = press->arena};
    bold.style.role = ROLE_HEADING;
    box_rectangle(box, 0, 0, sheet->width, 1.2, INK_BLACK, INK_NONE, 0);
    const struct room_busy *busy = station->busy;
    const char *name = station_name(sheet, station);
    struct box *head = press_paragraph(press, again ? arena_printf(press->arena, said(press->arena, "%s, continued"), name) : name, bold,
                                       sheet->width, 0, 1, false);
    box_place(box, head, 0, 0.5 * bold.size);
    box->height = 0.5 * bold.size + head->height;
    size_t sharing = 0;
    for (size_t a = 0; a < of->squad->count && !again; a++)
        for (size_t i = 0; i < of->table->row_count; i++) {
            const struct room_row *row = &of->table->rows[i];
            if (row->athlete != (int)a || !of->seen[a] || !rota_unit(row, busy->kind, busy->number))
                continue;
            text_addf(&names, "%s%s", names.length ? ", " : "", of->squad->room.athletes[a].name);
            sharing++;
            break;
        }
    if (names.length) {
        struct face grey = close_face(sheet, INK_GREY);
        struct box *who = press_paragraph(press, text_keep(press->arena, &names), grey, sheet->width, 0, 1, false);
        if (who->height > (double)MOST_NAMED * grey.size) /* the turns below name them again */
            who = press_paragraph(press, arena_printf(press->arena, said(press->arena, "%zu in turn"), sharing), grey, sheet->width, 0, 1,
                                  false);
        double gap = 0.4 * sheet->frame->second; /* letters of some scripts rise above capitals */
        box_place(box, who, 0, box->height + gap);
        box->height += gap + who->height;
    }
    box->height += 0.45 * bold.size;
    return box;
}

/* Is ROW the ringing of a bell? */
static bool is_bell(const struct room_sheet *sheet, const struct room_row *row)
{
    return sheet->of->squad->room.blocks[row->block].bell;
}

/* The turns at one piece of kit between FROM and TO, of those whom the sheet names. */
static void add_station(const struct room_sheet *sheet, const struct station *station, int from, int to, struct strips *strips)
{
    const struct room_busy *busy = station->busy;
    const struct press *press = &sheet->frame->press;
    const struct rota *of = sheet->of;
    const struct room_row *before = NULL;
    bool first = true, seat = of->squad->room.kinds[busy->kind].seat;
    for (size_t i = 0; i < of->table->row_count; i++) {
        const struct room_row *row = &of->table->rows[i];
        if (!rota_unit(row, busy->kind, busy->number) || is_bell(sheet, row))
            continue;
        const char *discs = seat ? rota_discs(press->arena, of, before, row) : "";
        if (seat && !before && *discs)
            discs = arena_printf(press->arena, said(press->arena, "set up before the start: %s"), discs);
        before = row;
        if (row->start < from || row->start >= to || !of->seen[row->athlete])
            continue;
        strips_add(press, strips,
                   (struct strip){.heading = station_box(sheet, station, false), .again = station_box(sheet, station, true),
                                  .body = turn_box(sheet, row, discs), .before = first ? 9 : 0, .first = first, .row = true});
        first = false;
    }
}

/* What loads lie on comes first, then who needs a coach, then all else. */
static int rank_of(const struct room_sheet *sheet, const struct station *station)
{
    if (sheet->of->squad->room.kinds[station->busy->kind].seat)
        return 0;
    return rota_is_coach(sheet->of, station->busy->kind) ? 1 : 2;
}

/* Do two or more use it? What only one does needs no turns: the table above says when. */
static bool is_shared(const struct room_sheet *sheet, const struct room_busy *busy)
{
    const struct room_table *table = sheet->of->table;
    int who = ROOM_NONE;
    for (size_t i = 0; i < table->row_count; i++) {
        if (!rota_unit(&table->rows[i], busy->kind, busy->number))
            continue;
        if (who != ROOM_NONE && who != table->rows[i].athlete)
            return true;
        who = table->rows[i].athlete;
    }
    return false;
}

static struct strips all_stations(const struct room_sheet *sheet, int from, int to)
{
    struct strips strips = {0};
    for (int rank = 0; rank < 3; rank++) {
        struct station station;
        for (size_t i = 0; i < sheet->of->table->busy_count; i += station.count) {
            station = station_at(sheet, i);
            if (rank_of(sheet, &station) == rank && (rank < 2 || is_shared(sheet, station.busy)))
                add_station(sheet, &station, from, to, &strips);
        }
    }
    return strips;
}

/* --- pages --- */

static void new_page(struct room_sheet *sheet)
{
    const struct frame *frame = sheet->frame;
    bool again = sheet->scene->page_count > 0;
    struct box *header = frame_header(frame, sheet->title, again);
    sheet->page = scene_page(sheet->scene);
    if (!again)
        scene_bookmark(sheet->scene, sheet->scene->title, 0, false);
    box_place(sheet->page, header, frame->margin, frame->margin);
    sheet->y = frame->margin + header->height;
}

/* As much of STRIPS from START on as columns HEIGHT high hold, drawn if DRAW; returns where it ends. */
static size_t fill(const struct room_sheet *sheet, const struct strips *strips, size_t start, double height, bool draw)
{
    for (int c = 0; c < COLUMNS && start < strips->count; c++) {
        double used;
        size_t end = start + strips_fit(strips, start, height, &used);
        if (used > height && (!draw || c > 0)) /* one alone is higher: a further page may hold it */
            return start;
        if (draw)
            strips_draw(sheet->scene, sheet->page, strips, start, end, sheet->frame->margin + c * (sheet->width + GAP),
                        sheet->y, 0);
        start = end;
    }
    return start;
}

/* STRIPS in columns below what stands on the page already, no higher than they have to be. */
static void flow(struct room_sheet *sheet, const struct strips *strips)
{
    for (size_t start = 0; start < strips->count;) {
        double least = fmax(8 * sheet->frame->first, strips_height_of(strips, start, start + 1));
        if (sheet->bottom - sheet->y < least)
            new_page(sheet);
        double high = sheet->bottom - sheet->y, low = 0;
        if (fill(sheet, strips, start, high, false) == strips->count)
            while (high - low > 2) {
                double middle = (low + high) / 2;
                *(fill(sheet, strips, start, middle, false) == strips->count ? &high : &low) = middle;
            }
        start = fill(sheet, strips, start, high, true);
        sheet->y = start < strips->count ? sheet->bottom : sheet->y + high + 10;
    }
}

static void put(struct room_sheet *sheet, const struct box *box, double gap)
{
    if (!box->count)
        return;
    if (sheet->y + box->height > sheet->bottom)
        new_page(sheet);
    box_place(sheet->page, box, sheet->frame->margin, sheet->y);
    sheet->y += box->height + gap;
}

/* --- what stands across --- */

/* "18:12:00 bell: rounds, all together until 18:20:00". */
static void put_bell(struct room_sheet *sheet, const struct room_row *row)
{
    const struct press *press = &sheet->frame->press;
    const struct rota *of = sheet->of;
    const struct squad_task *task = squad_task(of->squad, row);
    double size = sheet->frame->first, high = 2.1 * size;
    struct box *box = box_new(press->arena);
    box_rectangle(box, 0, 0, sheet->frame->inner, high, INK_NONE, INK_BLACK, 1.2);
    const char *letter = task->block->letter ? arena_printf(press->arena, "%c ", task->block->letter) : "";
    const char *words = arena_printf(press->arena, said(press->arena, "%s  Bell for all: %s%s, until %s"),
                                     rota_hour(press->arena, of, row->start), letter, wording_block(press->arena, task->block),
                                     rota_hour(press->arena, of, row->end));
    struct box *line = press_paragraph(press, words, face_of(sheet, WEIGHT_BOLD, INK_BLACK), sheet->frame->inner - 12, 0, 1, false);
    box_place(box, line, 6, (2.1 * size - frame_capital(sheet->frame, size)) / 2);
    box->height = fmax(high, line->height + 0.8 * size);
    put(sheet, box, 6);
}

static const char *missed_words(struct arena *arena, const char *name, int rounds)
{
    return arena_printf(arena, said_count(arena, rounds, "%s comes late and misses %d round", "%s comes late and misses %d rounds"),
                        name, rounds);
}

/* Finish, bottleneck and who waits. */
static void put_verdict(struct room_sheet *sheet)
{
    struct arena *arena = sheet->frame->press.arena;
    const struct rota *of = sheet->of;
    const struct room *room = &of->squad->room;
    int alone = 0;
    for (size_t i = 0; i < of->squad->count; i++)
        alone = of->table->fares[i].alone > alone ? of->table->fares[i].alone : alone;
    struct text waits = {.arena = arena};
    for (size_t i = 0; i < of->squad->count; i++) {
        const char *words = of->seen[i] ? room_wait_words(arena, room, of->table, (int)i) : NULL;
        const struct room_fare *fare = &of->table->fares[i];
        if (words)
            text_addf(&waits, "%s%s", waits.length ? "; " : "", words);
        if (of->seen[i] && fare->missed)
            text_addf(&waits, "%s%s", waits.length ? "; " : "", missed_words(arena, room->athletes[i].name, fare->missed));
    }
    const char *head = arena_printf(arena, said(arena, "%s: %s\u2013%s, alone %d\u00a0min"), of->squad->gym->name.shown,
                                    rota_minute(arena, of, 0), rota_minute(arena, of, of->table->finish + 59),
                                    (alone + 30) / 60);
    struct face bold = face_of(sheet, WEIGHT_BOLD, INK_BLACK);
    bold.size *= 1.25;
    bold.style.role = ROLE_HEADING;
    const struct press *press = &sheet->frame->press;
    put(sheet, press_paragraph(press, head, bold, sheet->frame->inner, 0, 1, false), 3);
    put(sheet, press_paragraph(press, room_bottleneck_words(arena, room, of->table), close_face(sheet, INK_BLACK), sheet->frame->inner, 0, 1, false), 3);
    if (waits.length)
        put(sheet, press_paragraph(press, text_keep(arena, &waits), close_face(sheet, INK_BLACK), sheet->frame->inner, 0, 1, false), 3);
    put(sheet, press_paragraph(press, arena_printf(arena, said(arena, "Kit in use at once: %s"), rota_kit(arena, of)),
                               close_face(sheet, INK_BLACK), sheet->frame->inner, 0, 1, false), 9);
}

/* --- who against line --- */

static struct box *hour_cell(const struct room_sheet *sheet, const struct room_row *row)
{
    const struct press *press = &sheet->frame->press;
    struct box *cell = box_new(press->arena);
    struct face plain = face_of(sheet, WEIGHT_REGULAR, INK_BLACK);
    plain.style.role = ROLE_CELL;
    frame_stack(cell, press_word(press, rota_minute(press->arena, sheet->of, row->start), plain), 0);
    const char *load = rota_load(press->arena, sheet->of, row);
    if (*load)
        frame_stack(cell, press_paragraph(press, load, close_face(sheet, INK_BLACK), sheet->column - 4, 0, 1, false),
                    0.3 * plain.size);
    return cell;
}

static bool is_line(const struct lane *lane)
{
    return lane->item->round <= 1 && (lane->block->letter || lane->first);
}

/* "A1", or what the block is where it has no letter. */
static struct box *line_head(const struct room_sheet *sheet, const struct lane *lane)
{
    const struct press *press = &sheet->frame->press;
    const char *line = lane->block->letter ? arena_printf(press->arena, "%c%d", lane->block->letter, lane->item->index + 1)
                                           : said_as(press->arena, "block", block_kinds.names[lane->block->kind]);
    return press_paragraph(press, line, face_of(sheet, WEIGHT_BOLD, INK_BLACK), sheet->column - 4, 0, 1, false);
}

/* The end of the rows from START on that stand on the page; at least one. */
static size_t rows_fit(const struct room_sheet *sheet, const struct matrix *matrix, size_t start)
{
    size_t end = start + 1;
    while (end < matrix->row_count && matrix_height(matrix, start, end + 1) <= sheet->bottom - sheet->y)
        end++;
    return end;
}

/* When each begins each of COUNT lines, and with what. */
static void put_matrix(struct room_sheet *sheet, const struct lane *const *lanes, size_t count, double names_width)
{
    const struct press *press = &sheet->frame->press;
    const struct rota *of = sheet->of;
    struct matrix matrix = {.pad = 3, .line = 1, .names_width = names_width, .column_width = sheet->column,
                            .column_count = count};
    matrix.heads = arena_alloc(press->arena, count * sizeof *matrix.heads);
    matrix.names = arena_alloc(press->arena, of->squad->count * sizeof *matrix.names);
    matrix.cells = arena_alloc(press->arena, of->squad->count * count * sizeof *matrix.cells);
    for (size_t c = 0; c < count; c++)
        matrix.heads[c] = line_head(sheet, lanes[c]);
    for (size_t a = 0; a < of->squad->count; a++) {
        if (!of->seen[a])
            continue;
        size_t row = matrix.row_count++;
        matrix.names[row] = press_paragraph(press, of->squad->room.athletes[a].name,
                                            face_of(sheet, WEIGHT_BOLD, INK_BLACK), names_width - 6, 0, 1, false);
        for (size_t c = 0; c < count; c++) {
            const struct room_row *first = rota_first(of, (int)a, lanes[c]->block, lanes[c]->item->index);
            matrix.cells[row * count + c] = first ? hour_cell(sheet, first) : NULL;
        }
    }
    for (size_t start = 0, end; start < matrix.row_count; start = end) {
        if (matrix_height(&matrix, start, start + 1) > sheet->bottom - sheet->y)
            new_page(sheet);
        end = rows_fit(sheet, &matrix, start);
        put(sheet, matrix_box(press->arena, &matrix, start, end), 14);
    }
}

/* The lines of the session, as many side by side as leave room for an hour. */
static void put_lines(struct room_sheet *sheet, const struct group *group)
{
    size_t count = 0;
    const struct lane **lanes = arena_alloc(sheet->frame->press.arena, (group->lane_count + 1) * sizeof *lanes);
    for (size_t l = 0; l < group->lane_count; l++)
        if (is_line(&group->lanes[l]))
            lanes[count++] = &group->lanes[l];
    double names = 7.5 * sheet->frame->first, room = sheet->frame->inner - names;
    size_t most = (size_t)(room / (4.2 * sheet->frame->first)), step = count < most ? count : most;
    sheet->column = fmin(70, room / (double)(step ? step : 1));
    for (size_t start = 0; start < count; start += step)
        put_matrix(sheet, lanes + start, count - start < step ? count - start : step, names);
}

/* The first bell that rings at FROM or later, or NULL. */
static const struct room_row *next_bell(const struct room_sheet *sheet, int from)
{
    for (size_t i = 0; i < sheet->of->table->row_count; i++) {
        const struct room_row *row = &sheet->of->table->rows[i];
        if (row->start >= from && is_bell(sheet, row))
            return row;
    }
    return NULL;
}

void floor_room_pages(struct scene *scene, const struct frame *frame, const struct frame_title *title,
                      const struct group *group, const struct rota *room, double bottom)
{
    struct room_sheet sheet = {.frame = frame, .of = room, .title = title, .scene = scene, .bottom = bottom};
    sheet.width = (frame->inner - GAP * (COLUMNS - 1)) / (double)COLUMNS;
    new_page(&sheet);
    put_verdict(&sheet);
    put_lines(&sheet, group);
    for (int from = 0; from <= room->table->finish;) {
        const struct room_row *bell = next_bell(&sheet, from);
        int to = bell ? bell->start : room->table->finish + 1;
        struct strips strips = all_stations(&sheet, from, to);
        flow(&sheet, &strips);
        if (bell)
            put_bell(&sheet, bell);
        from = bell ? bell->end : to;
    }
}
