/* board.c - the load board, as a weight room draws it on its whiteboard: athletes down, lifts across, load and discs in the
 * cell. Only lines that somebody does with a load stand on it. */
#include <limits.h>
#include <math.h>

#include "language/language.h"
#include "layout/foot.h"
#include "layout/frame.h"
#include "layout/group.h"
#include "layout/matrix.h"
#include "layout/remedy.h"
#include "layout/printed_dose.h"
#include "layout/rota.h"
#include "measure/person.h"
#include "model/athlete.h"
#include "model/exercise.h"
#include "model/occasion.h"
#include "wording/wording.h"

static const double LARGEST = 1.5, SMALLEST = 0.25, LEAST_OF_ALL = 0.1, STEP = 0.95, /* letters, as shares of what the distance asks for */
    READABLE = 0.99; /* smaller ones cannot be read from there */
enum { PAGES_MOST = 20 };

struct board {
    struct frame frame;
    struct group group;
    struct rota *rooms;
    size_t room_count;
    const struct lane **lanes; /* with a load */
    size_t lane_count;
    struct box *header, *foot;
    double size, small; /* of loads and names; of all else */
    double top, bottom; /* of the table */
    double gap;         /* between a column and the next, in points */
    size_t columns;     /* a page */
};

/* --- which lines --- */

static bool is_loaded(struct arena *arena, const struct item *item)
{
    for (size_t i = 0; item && i < item->run_count; i++)
        if (*wording_load_mass(arena, &item->runs[i].load, false))
            return true;
    return false;
}

/* Lines whose loads are personal, or where none are all that somebody does with a load. */
static void choose_lanes(struct board *board)
{
    struct arena *arena = board->frame.press.arena;
    board->lanes = arena_alloc(arena, (board->group.lane_count + 1) * sizeof *board->lanes);
    for (size_t l = 0; l < board->group.lane_count; l++)
        if (board->group.lanes[l].loads_personal)
            board->lanes[board->lane_count++] = &board->group.lanes[l];
    for (size_t l = 0, personal = board->lane_count; !personal && l < board->group.lane_count; l++) {
        bool loaded = false;
        for (size_t i = 0; i < board->group.count && !loaded; i++)
            loaded = is_loaded(arena, board->group.lanes[l].by_member[i]);
        if (loaded)
            board->lanes[board->lane_count++] = &board->group.lanes[l];
    }
}

/* --- pieces --- */

static struct face small_face(const struct board *board, enum weight weight, enum ink ink)
{
    struct face face = frame_face(board->small, weight, ink, RANK_SECOND);
    face.style.role = ROLE_CELL;
    return face;
}

/* The bar that all loads of LANE are made on, or NULL where they are not made on one and the same. */
static const struct plating *common_bar(const struct board *board, const struct lane *lane)
{
    const struct plating *common = NULL;
    for (size_t m = 0; m < board->group.count; m++) {
        const struct item *item = lane->by_member[m];
        for (size_t r = 0; item && r < item->run_count; r++) {
            const struct plating *plating = &item->runs[r].load.plating;
            if (!plating->bar)
                continue;
            if (common && (common->bar != plating->bar || common->one_sleeve != plating->one_sleeve))
                return NULL;
            common = plating;
        }
    }
    return common;
}

/* "A1 trap bar deadlift", below it the dose that most do, and the bar if it is everybody's. */
static struct box *head_box(const struct board *board, const struct lane *lane, double width)
{
    const struct press *press = &board->frame.press;
    struct box *head = box_new(press->arena);
    const char *letter = lane->block->letter ? arena_printf(press->arena, "%c%d  ", lane->block->letter, lane->item->index + 1) : "";
    const char *name = arena_printf(press->arena, "%s%s", letter, wording_exercise(press->arena, lane->item->exercise));
    const char *dose = wording_dose(press->arena, lane->block, lane->item);
    if (lane->item->round > 0)
        dose = arena_printf(press->arena, "%s " WORDING_DOT " %s", wording_rounds(press->arena, lane->item->round, lane->last_round), dose);
    frame_stack(head, press_paragraph(press, name, small_face(board, WEIGHT_BOLD, INK_BLACK), width, 0, 0.95, false), 0);
    frame_stack(head, press_paragraph(press, dose, small_face(board, WEIGHT_REGULAR, INK_BLACK), width, 0, 0.95, false),
                0.3 * board->small);
    const struct plating *plating = common_bar(board, lane);
    if (plating)
        frame_stack(head, press_paragraph(press, arena_printf(press->arena, "%s, %s", wording_bar(press->arena, plating->bar),
                                                              plating->one_sleeve ? said(press->arena, "discs of one end") : said(press->arena, "discs a side")),
                                          small_face(board, WEIGHT_REGULAR, INK_GREY), width, 0, 0.95, false), 0.3 * board->small);
    return head;
}

/* "19:09", when MEMBER begins the lane; "" where no room tells. */
static const char *hour_of(const struct board *board, const struct lane *lane, size_t member)
{
    struct arena *arena = board->frame.press.arena;
    for (size_t r = 0; r < board->room_count; r++) {
        int athlete = rota_member(&board->rooms[r], board->group.members[member]);
        const struct room_row *row =
            athlete < 0 ? NULL : rota_first(&board->rooms[r], athlete, lane->block, lane->item->index);
        if (row)
            return rota_minute(arena, &board->rooms[r], row->start);
    }
    return "";
}

/* Load and discs; above them what MEMBER does in place of the lane's exercise, below them when. NULL: nothing. */
static struct box *cell_box(const struct board *board, const struct lane *lane, size_t member, double width)
{
    const struct press *press = &board->frame.press;
    const struct item *item = lane->by_member[member];
    struct flow flow = {0};
    struct printed_dose dose = {.arena = press->arena};
    struct box *cell = box_new(press->arena);
    if (!item)
        return NULL;
    bool other = item->exercise != lane->item->exercise;
    if (other)
        frame_stack(cell, press_paragraph(press, wording_exercise(press->arena, item->exercise), small_face(board, WEIGHT_REGULAR, INK_BLACK),
                                          width, 0, 0.95, false), 0);
    if (other || lane_dose_differs(press->arena, lane, item))
        dose_add_amounts(&dose, lane->block, item);
    dose_add_loads(&dose, lane->block, item, board->group.members[member]->athlete->pounds, false);
    dose_add_bars(&dose, item);
    dose_add_words(&dose, hour_of(board, lane, member), (struct dose_face){true, WEIGHT_REGULAR, {INK_GREY, RANK_SECOND, ROLE_CELL}}, false);
    dose_set(press, &flow, &dose, (struct dose_sizes){board->size, board->small, width, board->size, common_bar(board, lane) != NULL});
    frame_stack(cell, flow_set(press, &flow, width, 0.4 * board->size, 1.1 * board->size, board->size * type_capital(press->type)),
                other ? 0.5 * board->small : 0);
    cell->height += 0.12 * board->size; /* what hangs below its last line */
    for (size_t i = 0; i < flow.count; i++)
        cell->width = fmax(cell->width, flow.atoms[i].box->width);
    return cell;
}

/* --- the table --- */

static double name_width(const struct board *board)
{
    double wide = 0;
    for (size_t i = 0; i < board->group.count; i++)
        wide = fmax(wide, type_width(board->frame.press.type, athlete_called(board->group.members[i]->athlete), board->size,
                                     WEIGHT_BOLD));
    return 1.01 * fmin(wide, 0.28 * board->frame.inner) + board->gap;
}

/* Lanes from FIRST on, as many as a page takes. False where a piece is wider than its column: a TRIAL ends with it. */
static bool make_matrix(const struct board *board, size_t first, bool trial, struct matrix *matrix)
{
    const struct press *press = &board->frame.press;
    size_t rows = board->group.count, columns = board->columns;
    double names = name_width(board);
    bool fits = true;
    *matrix = (struct matrix){.row_count = rows, .pad = 0.5 * board->small, .line = 0.07 * board->small, .names_width = names,
                          .column_width = (board->frame.inner - names) / (double)columns,
                          .column_count = columns < board->lane_count - first ? columns : board->lane_count - first};
    double width = matrix->column_width - board->gap;
    matrix->names = arena_alloc(press->arena, rows * sizeof *matrix->names);
    matrix->heads = arena_alloc(press->arena, matrix->column_count * sizeof *matrix->heads);
    matrix->cells = arena_alloc(press->arena, rows * matrix->column_count * sizeof *matrix->cells);
    struct face bold = frame_face(board->size, WEIGHT_BOLD, INK_BLACK, RANK_FIRST);
    for (size_t i = 0; i < rows * matrix->column_count && (fits || !trial); i++) { /* before heads, which take far longer to set */
        size_t lane = first + i % matrix->column_count;
        matrix->cells[i] = cell_box(board, board->lanes[lane], i / matrix->column_count, width);
        fits = fits && (!matrix->cells[i] || matrix->cells[i]->width <= width);
    }
    for (size_t c = 0; c < matrix->column_count && (fits || !trial); c++) {
        matrix->heads[c] = head_box(board, board->lanes[first + c], width);
        fits = fits && matrix->heads[c]->width <= width;
    }
    for (size_t i = 0; i < rows && (fits || !trial); i++)
        matrix->names[i] = press_paragraph(press, athlete_called(board->group.members[i]->athlete), bold, names - board->gap, 0, 0.95, false);
    return fits;
}

/* How many rows of GRID from START on stand on one page; at least one. */
static size_t rows_fit(const struct board *board, const struct matrix *matrix, size_t start)
{
    size_t end = start + 1;
    while (end < matrix->row_count && matrix_height(matrix, start, end + 1) <= board->bottom - board->top)
        end++;
    return end;
}

/* How many pages it takes as it is set now; 0: it cannot be set so. */
static int count_in(const struct board *board)
{
    int pages = 0;
    for (size_t first = 0; first < board->lane_count; first += board->columns) {
        struct matrix matrix;
        if (!make_matrix(board, first, true, &matrix))
            return 0;
        for (size_t start = 0; start < matrix.row_count; start = rows_fit(board, &matrix, start), pages++)
            if (matrix_height(&matrix, start, start + 1) > board->bottom - board->top)
                return 0;
    }
    return pages;
}

/* The same, and nothing is kept of it: a long session of one athlete is set in more than a thousand ways. */
static int count_pages(const struct board *board)
{
    struct board trial = *board;
    trial.frame.press.arena = arena_beside(board->frame.press.arena);
    int pages = count_in(&trial);
    arena_free(trial.frame.press.arena);
    return pages;
}

/* Letters from MOST down to LEAST, as shares of what the distance asks for, and how many pages each takes with so many columns. */
struct sizes {
    double most, least;
    int *pages; /* a row for each size; -1: not counted so far */
};

static struct sizes sizes_between(const struct board *board, double most, double least)
{
    size_t rows = (size_t)(log(least / most) / log(STEP)) + 2, count = rows * board->lane_count;
    struct sizes sizes = {most, least, arena_alloc(board->frame.press.arena, (count + 1) * sizeof *sizes.pages)};
    for (size_t i = 0; i < count; i++)
        sizes.pages[i] = -1;
    return sizes;
}

/* The largest letters of SIZES that need no more than PAGES; 0 where there are none. */
static double fit_on(struct board *board, int pages, const struct sizes *sizes)
{
    int *row = sizes->pages;
    for (double share = sizes->most; share >= sizes->least; share *= STEP, row += board->lane_count) {
        board->size = share * board->frame.first;
        board->small = fmax(fmin(board->frame.second, board->size), 0.5 * board->size);
        board->gap = 0.5 * board->small;
        for (size_t columns = board->lane_count; columns > 0 && (board->lane_count - 1) / columns < (size_t)pages; columns--) {
            board->columns = columns;
            if (row[columns - 1] < 0)
                row[columns - 1] = count_pages(board);
            if (row[columns - 1] > 0 && row[columns - 1] <= pages)
                return share;
        }
    }
    return 0;
}

/* A further page is taken only where fewer cannot be read from the distance asked for; more than the sheet may take only
 * where its letters would be less than half of that. A word or a cell that no page of those holds makes letters as small as
 * it takes, on as many pages as it takes: nothing is printed over the foot. */
static void fit(struct board *board)
{
    struct sizes sizes = sizes_between(board, LARGEST, SMALLEST);
    double share = 0;
    for (int pages = 1; pages <= PAGES_MOST; pages++) {
        share = fit_on(board, pages, &sizes);
        if (share >= 1 || (pages >= board->frame.request->pages && share >= 0.5))
            return;
    }
    if (share <= 0 && fit_on(board, INT_MAX, &sizes) <= 0) {
        sizes = sizes_between(board, SMALLEST, LEAST_OF_ALL);
        fit_on(board, INT_MAX, &sizes);
    }
}

/* --- pages --- */

static struct box *header_box(const struct board *board)
{
    const struct occasion *first = board->group.members[0];
    struct frame frame = board->frame;
    const struct rota *room = board->room_count == 1 ? board->rooms : NULL;
    struct arena *arena = frame.press.arena;
    frame.first = fmax(14, frame.second);
    const char *then = foot_when(arena, first);
    if (room)
        then = arena_printf(arena, "%s" WORDING_TO "%s", rota_minute(arena, room, 0),
                            rota_minute(arena, room, room->table->finish + 59));
    const struct frame_title title = {.title = first->session->name.shown, .beside = said(arena, "Load board"),
                                      .when = frame.request->date_words, .then = then,
                                      .provisional = foot_provisional(arena, first)};
    return frame_header(&frame, &title, false);
}

static struct box *add_page(struct scene *scene, const struct board *board)
{
    struct box *page = scene_page(scene);
    if (scene->page_count == 1)
        scene_bookmark(scene, scene->title, 0, false);
    box_place(page, board->header, board->frame.margin, board->frame.margin);
    box_place(page, board->foot, board->frame.margin, board->bottom + 6);
    return page;
}

static void add_pages(struct scene *scene, const struct board *board)
{
    const struct frame *frame = &board->frame;
    size_t before = scene->page_count;
    for (size_t first = 0; first < board->lane_count; first += board->columns) {
        struct matrix matrix;
        make_matrix(board, first, false, &matrix);
        for (size_t start = 0, end; start < matrix.row_count; start = end) {
            end = rows_fit(board, &matrix, start);
            box_place(add_page(scene, board), matrix_box(frame->press.arena, &matrix, start, end), frame->margin, board->top);
        }
    }
    if (board->lane_count == 0) {
        struct face face = frame_face(frame->second, WEIGHT_REGULAR, INK_BLACK, RANK_SECOND);
        box_place(add_page(scene, board), press_paragraph(&frame->press, said(frame->press.arena, "No line of this session has a load."), face,
                                                          frame->inner, 0, 1, false), frame->margin, board->top);
    }
    double line = frame->height - frame->margin - frame_last_line(frame, 1, 1)->height;
    for (size_t i = before; i < scene->page_count; i++)
        box_place(scene->pages[i], frame_last_line(frame, (int)i + 1, (int)scene->page_count), frame->margin, line);
}

/* With NOTE in its foot; its letters have no size yet. */
static struct board board_begin(const struct sheet_request *request, double margin, const char *note)
{
    struct board board = {.frame = frame_of(request),
                          .group = group_make(request->arena, request->occasions, request->count)};
    board.frame.margin = margin;
    board.frame.inner = board.frame.width - 2 * margin;
    board.room_count = rotas_of(request, &board.rooms);
    choose_lanes(&board);
    board.header = header_box(&board);
    struct face bold = frame_face(board.frame.foot, WEIGHT_BOLD, INK_BLACK, RANK_FOOT);
    struct box *noted = press_paragraph(&board.frame.press, note, bold, board.frame.inner, 0, 1, false);
    board.foot = frame_foot(&board.frame, &noted, 1);
    double line = board.frame.height - board.frame.margin - frame_last_line(&board.frame, 1, 1)->height;
    board.top = board.frame.margin + board.header->height;
    board.bottom = line - board.foot->height - 6;
    return board;
}

void board_add(struct scene *scene, const struct sheet_request *request)
{
    struct board board = board_begin(request, scene->margin, "");
    fit(&board);
    add_pages(scene, &board);
}

static struct scene *make(const struct sheet_request *request, const char *note)
{
    struct board board = board_begin(request, frame_of(request).margin, note);
    fit(&board);
    const char *title = board.group.members[0]->session->name.shown;
    const char *name = arena_printf(request->arena, said(request->arena, "%s%s%s: load board"), title, *request->date_words ? ", " : "", request->date_words);
    struct scene *scene = frame_scene(&board.frame, name, "load board");
    add_pages(scene, &board);
    frame_report_reach(scene, &board.frame);
    return scene;
}

/* --- what would help --- */

/* Whether the board can be read on the paper and pages of REQUEST. That it cannot is soon seen. */
static bool reads(const struct sheet_request *request)
{
    struct board board = board_begin(request, frame_of(request).margin, "");
    struct sizes sizes = sizes_between(&board, LARGEST, READABLE);
    if (fit_on(&board, request->pages, &sizes) <= 0)
        return false;
    const struct scene *scene = make(request, "");
    return scene->problem_count == 0 && (int)scene->page_count <= request->pages;
}

struct scene *board_scene(const struct sheet_request *request)
{
    struct arena *arena = request->arena;
    struct scene *scene = make(request, "");
    if (scene->problem_count == 0)
        return scene;
    struct remedy remedy = remedy_for(request, reads);
    scene = make(request, remedy_note(arena, &remedy, request->distance));
    for (size_t i = 0; i < scene->problem_count; i++)
        scene->problems[i].help = remedy_words(arena, &remedy);
    return scene;
}
