/* wall.c - the wall sheet: the largest letters that fit on the available pages, laid out on them. */
#include <math.h>

#include "base/text.h"
#include "figures/sight.h"
#include "language/language.h"
#include "layout/wall_fit.h"
#include "model/exercise.h"
#include "model/occasion.h"
#include "wording/wording.h"

static struct box *open_page(struct scene *scene, const struct wall *wall)
{
    struct box *page = scene_page(scene);
    bool again = scene->page_count > 1;
    if (!again)
        scene_bookmark(scene, scene->title, 0, false);
    box_place(page, wall_header(wall, again), wall->margin, wall->margin);
    return page;
}

/* Puts the feet of the session's PAGES. Gives where the last begins, from the top. */
static double close_pages(struct scene *scene, const struct wall *wall, size_t pages)
{
    double top = 0;
    for (size_t i = 0; i < pages; i++) {
        struct box *foot = wall_foot(wall, (int)i + 1, (int)scene->page_count);
        top = wall->height - wall->margin - foot->height;
        box_place(scene->pages[i], foot, wall->margin, top);
    }
    return top;
}

/* Space to share out between PARTS, no more than *MOST a part: 0.3 of SIZE, so that a short session stays together,
 * and in a later column no more than in the first. */
static double slack_of(double left, size_t parts, double *most)
{
    double slack = fmax(0, fmin(left, *most * (double)parts));
    *most = fmin(*most, slack / (double)parts);
    return slack;
}

/* Where the columns end: all filled evenly, or one after another if that cannot be done. */
static size_t *part_strips(const struct wall *wall, const struct strips *strips, size_t columns,
                           const double *heights)
{
    size_t *ends = arena_alloc(wall->press.arena, columns * sizeof *ends);
    if (strips_part(wall->press.arena, strips, heights, columns, ends))
        return ends;
    double used;
    for (size_t c = 0, start = 0; c < columns; c++) {
        start += start < strips->count ? strips_fit(strips, start, heights[c], &used) : 0;
        ends[c] = start;
    }
    return ends;
}

/* Says over the lane STRIP, which begins a column, that its block goes on. */
static void head_column(const struct wall *wall, double size, struct strip *strip)
{
    if (!strip->first && !strip->row)
        strip->again = wall_heading_again(wall, size, strip->number);
}

/* "C goes on" at the foot of a column that is BOTTOM points down and ends inside the block of STRIP. */
static void say_it_goes_on(struct box *page, const struct wall *wall, const struct strip *strip, double x, double bottom)
{
    const struct press *press = &wall->press;
    const struct wall_line *line = &wall->lines[strip->number];
    const struct face face = {wall->second_least, WEIGHT_BOLD, {INK_BLACK, RANK_SECOND, ROLE_PLAIN}};
    const char *words = *line->letter ? arena_printf(press->arena, said(press->arena, "%s goes on"), line->letter) : said(press->arena, "goes on");
    if (!strip->first)
        press_put_end(press, page, x + wall->column, bottom + face.size, words, face);
}

/* Gives where the last column begins. */
static double add_pages(struct scene *scene, const struct wall *plain, const struct wall_room *room,
                        const struct wall_fit *fit)
{
    bool unfit = false;
    struct wall wall = wall_in_columns(plain, fit->columns);
    struct strips strips = wall_blocks(&wall, fit->setting, &unfit);
    size_t columns = (size_t)fit->pages * (size_t)wall.columns;
    columns = columns > strips.count ? strips.count : columns;
    double *heights = arena_alloc(scene->arena, columns * sizeof *heights);
    for (size_t c = 0; c < columns; c++)
        heights[c] = c < (size_t)wall.columns ? room->first : room->other;
    size_t *ends = part_strips(&wall, &strips, columns, heights);
    struct box *page = NULL;
    double most = 0.3 * fit->setting.size, x = wall.margin;
    for (size_t c = 0, start = 0; c < columns; start = ends[c++]) {
        size_t across = c % (size_t)wall.columns;
        if (across == 0)
            page = open_page(scene, &wall);
        x = wall.margin + (double)across * (wall.column + 2 * wall.margin);
        double top = scene->page_count > 1 ? room->header_again : room->header;
        if (start < ends[c])
            head_column(&wall, fit->setting.size, &strips.items[start]);
        double left = heights[c] - strips_height_of(&strips, start, ends[c]);
        strips_draw(scene, page, &strips, start, ends[c], x, wall.margin + top,
                    slack_of(left, ends[c] - start, &most));
        if (ends[c] < strips.count)
            say_it_goes_on(page, &wall, &strips.items[ends[c]], x, wall.margin + top + heights[c]);
    }
    return x;
}

/* --- what would help --- */

/* What was made of a request. */
struct wall_made {
    struct wall wall;
    struct wall_fit fit;
    size_t pages; /* of the session, without the board's */
    double last;  /* where their last column begins */
    double bottom; /* and the last foot, from the top */
};

static struct scene *make(const struct sheet_request *request, struct wall_made *made);

/* Whether the wall and its board can be read on the paper and pages of REQUEST. */
static bool both_read(const struct sheet_request *request)
{
    struct wall_made made;
    const char *text;
    struct scene *scene = make(request, &made);
    double capital = scene_smallest(scene, RANK_FIRST, &text);
    return (int)scene->page_count <= request->pages && sheet_reach(capital) >= request->distance * 0.995;
}

static void report_fit(struct scene *scene, const struct wall_made *made)
{
    const struct wall *wall = &made->wall;
    struct arena *arena = wall->press.arena;
    const char *text = "", *pages = "", *reading = "";
    int pages_taken = (int)scene->page_count;
    double capital = scene_smallest(scene, RANK_FIRST, &text);
    double reach = sheet_reach(capital), asked = wall->request->distance;
    bool small = capital > 0 && reach < asked * 0.995, many = pages_taken > wall->request->pages;
    if (!small && !many)
        return;
    if (many)
        pages = arena_printf(arena, "takes %d pages, not %d%s", pages_taken, wall->request->pages,
                             small ? ", and " : "");
    if (small)
        reading = arena_printf(arena, "can be read from %.1f m, not from %.1f m",
                               floor(reach / 10) / 10, asked / 100);
    struct layout_problem *problem =
        scene_problem(scene, small ? PROBLEM_TOO_SMALL : PROBLEM_PAGES, 1, text,
                      arena_printf(arena, "the sheet %s%s", pages, reading));
    problem->distance = reach;
    struct remedy remedy = wall->boarded ? remedy_for(wall->request, both_read) : wall_remedy(wall, &made->fit);
    problem->help = remedy_words(arena, &remedy);
    if (small)
        wall_note(wall, scene->pages[made->pages - 1], made->last, made->bottom, remedy_note(arena, &remedy, asked));
}

/* All in words, for those who hear the sheet. */
static const char *describe(const struct wall *wall)
{
    struct arena *arena = wall->press.arena;
    struct text out = {.arena = arena};
    const struct block *block = NULL;
    for (size_t i = 0; i < wall->group.lane_count; i++) {
        const struct lane *lane = &wall->group.lanes[i];
        if (lane->first || !block)
            text_addf(&out, "%c %s. ", lane->block->letter ? lane->block->letter : '-',
                      wording_block(arena, lane->block));
        block = lane->block;
        text_addf(&out, "%s: %s %s. ", wording_exercise(arena, lane->item->exercise),
                  wording_dose(arena, lane->block, lane->item),
                  lane->loads_differ ? "" : wording_loads(arena, lane->block, lane->item, false));
    }
    return text_keep(arena, &out);
}

static void set_metadata(struct scene *scene, const struct wall *wall)
{
    const struct sheet_request *request = wall->request;
    struct arena *arena = scene->arena;
    const char *date = request->date_words;
    scene->title = arena_printf(arena, "%s%s%s", wall->group.members[0]->session->name.shown,
                                *date ? ", " : "", date);
    scene->author = request->author;
    scene->subject = request->plan;
    scene->keywords = arena_printf(arena, "training session, wall sheet, %s", request->version);
    scene->description = describe(wall);
}

/* The session's pages and the board's, all but what is reported of them. */
static struct scene *make(const struct sheet_request *request, struct wall_made *made)
{
    *made = (struct wall_made){.wall = wall_of(request)};
    const struct wall *wall = &made->wall;
    struct scene *scene = scene_new(request->arena, wall->width, wall->height, wall->margin);
    struct wall_room room = wall_room(wall);
    int pages = wall->boarded ? request->pages - 1 : request->pages;
    made->fit = wall_fit_pages(wall, &room, pages);
    set_metadata(scene, wall);
    made->last = add_pages(scene, wall, &room, &made->fit);
    made->pages = scene->page_count;
    if (wall->boarded) {
        struct sheet_request rest = *request;
        rest.pages = request->pages > (int)made->pages ? request->pages - (int)made->pages : 1;
        board_add(scene, &rest);
    }
    made->bottom = close_pages(scene, wall, made->pages);
    return scene;
}

struct scene *wall_scene(const struct sheet_request *request)
{
    struct wall_made made;
    struct scene *scene = make(request, &made);
    report_fit(scene, &made);
    return scene;
}
