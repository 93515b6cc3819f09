/* wall.c - the wall sheet: the largest letters that fit, and pages when they would be too small. */
#include "layout/wall.h"

#include <math.h>

#include "base/text.h"
#include "figures/sight.h"
#include "model/wording.h"

/* Letters grow no further than this: beyond it the sheet gains nothing and loses its white. */
static const double MINUTES_MOST = 24;
/* Below this share of the least angle a sheet goes over to further pages rather than shrink on. */
static const double SMALLEST_SHARE = 0.5;
/* White left between the body and the foot, in units. */
static const double FOOT_SPACE = 13;
enum { SIZE_STEPS = 9, SPLIT_STEPS = 6, NO_PAGES = 1000 };

/* The room between header and foot: on the first page, and on the others. */
struct room {
    double first, other;
    double header, header_again;
    double foot, foot_again, last_line;
};

static struct room measure_room(const struct wall *wall)
{
    struct room room = {
        .header = wall_header(wall, false)->height,
        .header_again = wall_header(wall, true)->height,
        .foot = wall_foot(wall, false)->height,
        .foot_again = wall_foot(wall, true)->height,
        .last_line = wall_last_line(wall, 1, 1)->height,
    };
    double rest = wall->height - 2 * wall->margin - room.last_line - FOOT_SPACE * wall->unit;
    room.first = rest - room.header - room.foot;
    room.other = rest - room.header_again - room.foot_again;
    return room;
}

/* What is to be fitted: the session, its table, or both. */
struct content {
    bool blocks, table;
};

static struct strips content_strips(const struct wall *wall, struct content content, double size,
                                    double split, bool *unfit)
{
    struct strips strips = {0};
    if (content.blocks) {
        struct strips blocks = wall_blocks(wall, wall_sizes_for(wall, size, split), unfit);
        strips_append(&wall->press, &strips, &blocks);
    }
    if (content.table) {
        struct strips table = wall_table(wall, size, unfit);
        strips_append(&wall->press, &strips, &table);
    }
    return strips;
}

struct fit {
    double size;
    int split; /* step of split_of */
    int columns, pages;
    bool unfit; /* a word is broken or too wide at every split */
};

static double split_of(int step)
{
    return 0.36 + 0.06 * step;
}

struct wall wall_in_columns(const struct wall *wall, int columns)
{
    struct wall set = *wall;
    double gap = 2 * wall->margin;
    set.columns = columns;
    set.column = (wall->inner - (columns - 1) * gap) / columns;
    return set;
}

/* SIZE at one split. *TALL is the height that all takes in one column. */
static struct fit try_split(const struct wall *wall, struct content content, double size, int split,
                            double height, double *tall)
{
    struct wall trial = *wall;
    bool unfit = false;
    trial.press.arena = arena_new();
    type_try(wall->press.type);
    struct strips strips = content_strips(&trial, content, size, split_of(split), &unfit);
    int filled = strips_pages(&strips, height);
    int pages = filled > NO_PAGES ? NO_PAGES : (filled - 1) / wall->columns + 1;
    *tall = strips_height(&strips);
    type_try_end(wall->press.type);
    arena_free(trial.press.arena);
    return (struct fit){size, split, wall->columns, pages, unfit};
}

/* SIZE at the split that takes least height without breaking a word, of all or of those beside NEAR: what suits one
 * size suits the next but for a step. */
static struct fit try_size(const struct wall *wall, struct content content, double size,
                           double height, const struct fit *near)
{
    int first = near && near->split > 0 ? near->split - 1 : 0;
    int last = near && near->split < SPLIT_STEPS - 2 ? near->split + 1 : SPLIT_STEPS - 1;
    double least;
    struct fit best = try_split(wall, content, size, first, height, &least);
    for (int split = first + 1; content.blocks && split <= last; split++) {
        double tall;
        struct fit fit = try_split(wall, content, size, split, height, &tall);
        if (fit.unfit > best.unfit || (fit.unfit == best.unfit && tall >= least))
            continue;
        best = fit;
        least = tall;
    }
    return best;
}

static bool fits(struct fit fit, int pages)
{
    return fit.pages <= pages && !fit.unfit;
}

/* The largest size between LOW and HIGH that takes no more than PAGES; LOW where none does. */
static struct fit fit_columns(const struct wall *wall, struct content content, double height,
                              int pages, double low, double high)
{
    struct fit best = try_size(wall, content, high, height, NULL);
    if (fits(best, pages))
        return best;
    best = try_size(wall, content, low, height, NULL);
    for (int i = 0; fits(best, pages) && i < SIZE_STEPS && high - low > 0.25; i++) {
        double middle = (low + high) / 2;
        struct fit fit = try_size(wall, content, middle, height, &best);
        if (fits(fit, pages)) {
            best = fit;
            low = middle;
        } else {
            high = middle;
        }
    }
    return best;
}

/* The same in one column or, on paper wider than it is high, in two: whichever lets the letters be larger. */
static struct fit fit_size(const struct wall *wall, struct content content, double height,
                           int pages, double low, double high)
{
    struct fit best = fit_columns(wall, content, height, pages, low, high);
    if (wall->width <= wall->height)
        return best;
    struct wall wide = wall_in_columns(wall, 2);
    struct fit fit = fit_columns(&wide, content, height, pages, low, high);
    if (fits(fit, pages) && (fit.size > best.size || !fits(best, pages)))
        return fit;
    return best;
}

static struct piece *open_page(struct scene *scene, const struct wall *wall)
{
    struct piece *page = scene_page(scene);
    bool again = scene->page_count > 1;
    if (!again)
        scene_bookmark(scene, scene->title, 0, false);
    piece_place(page, wall_header(wall, again), wall->margin, wall->margin);
    return page;
}

static void close_pages(struct scene *scene, const struct wall *wall, const struct room *room)
{
    double line = wall->height - wall->margin - room->last_line;
    for (size_t i = 0; i < scene->page_count; i++) {
        piece_place(scene->pages[i], wall_foot(wall, i > 0), wall->margin,
                    line - (i > 0 ? room->foot_again : room->foot));
        piece_place(scene->pages[i],
                    wall_last_line(wall, (int)i + 1, (int)scene->page_count), wall->margin, line);
    }
}

/* Space to share out between PARTS, no more than *MOST a part: 0.8 of SIZE, so that a short session stays together,
 * and in a later column no more than in the first. */
static double slack_of(double left, size_t parts, double *most)
{
    double slack = fmax(0, fmin(left, *most * (double)parts));
    *most = fmin(*most, slack / (double)parts);
    return slack;
}

static void add_pages(struct scene *scene, const struct wall *plain, struct content content,
                      struct fit fit, const struct room *room)
{
    bool unfit = false;
    struct wall wall = wall_in_columns(plain, fit.columns);
    struct strips strips = content_strips(&wall, content, fit.size, split_of(fit.split), &unfit);
    struct piece *page = NULL;
    double header = 0, height = 0;
    int column = wall.columns;
    double most = 0.8 * fit.size;
    for (size_t start = 0; start < strips.count; column++) {
        if (column == wall.columns) {
            header = scene->page_count ? room->header_again : room->header;
            height = scene->page_count ? room->other : room->first;
            page = open_page(scene, &wall);
            column = 0;
        }
        double used, x = wall.margin + column * (wall.column + 2 * wall.margin);
        size_t fitting = strips_fit(&strips, start, height, &used);
        strips_draw(scene, page, &strips, start, start + fitting, x, wall.margin + header,
                    slack_of(height - used, fitting, &most));
        start += fitting;
    }
}

/* The smallest paper of the series on which letters would grow by FACTOR, or NULL. */
static const struct paper *paper_for(const struct paper *paper, double factor)
{
    const struct paper *larger = paper;
    while (larger && larger->width < factor * paper->width)
        larger = paper_larger(larger);
    return larger == paper ? NULL : larger;
}

static void report_reach(struct scene *scene, const struct wall *wall, int pages_needed)
{
    struct arena *arena = wall->press.arena;
    const char *text = "";
    double capital = scene_smallest(scene, 0, RANK_FIRST, &text);
    double reach = sheet_reach(capital), asked = wall->request->distance;
    if (capital <= 0 || reach >= asked * 0.995)
        return;
    struct layout_problem *problem = scene_problem(
        scene, PROBLEM_TOO_SMALL, 1, text,
        arena_printf(arena, "the sheet can be read from %.1f m, not from %.1f m",
                     floor(reach / 10) / 10, asked / 100));
    problem->distance = reach;
    const struct paper *larger = paper_for(wall->request->paper, asked / reach);
    const char *paper = larger ? arena_printf(arena, "%s paper", larger->name) : "";
    const char *pages = pages_needed < NO_PAGES ? arena_printf(arena, "%d pages", pages_needed) : "";
    if (*paper || *pages)
        problem->help = arena_printf(arena, "%s%s%s would mend it", paper,
                                     *paper && *pages ? " or " : "", pages);
}

/* All in words, for who hears the sheet. */
static const char *describe(const struct wall *wall)
{
    struct arena *arena = wall->press.arena;
    struct text out = {0};
    const struct block *block = NULL;
    for (size_t i = 0; i < wall->group.lane_count; i++) {
        const struct lane *lane = &wall->group.lanes[i];
        if (lane->first || !block)
            text_addf(&out, "%c %s. ", lane->block->letter ? lane->block->letter : '-',
                      wording_block(arena, lane->block));
        block = lane->block;
        text_addf(&out, "%s: %s %s. ", lane->item->exercise->name.shown,
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

static struct wall wall_of(const struct sheet_request *request)
{
    struct wall wall = {.press = {request->arena, request->type}, .request = request};
    paper_points(request->paper, request->landscape, &wall.width, &wall.height);
    double width, height;
    paper_points(paper_find("A3"), false, &width, &height);
    wall.unit = sqrt(wall.width * wall.height / (width * height));
    wall.margin = fmax(20, 28 * wall.unit);
    wall.inner = wall.width - 2 * wall.margin;
    wall.columns = 1;
    wall.column = wall.inner;
    wall.second_least = sheet_size(request->type, request->distance / 3, SIGHT_MINUTES_LEAST);
    wall.group = group_make(request->arena, request->occasions, request->count);
    return wall;
}

/* The largest size on as few pages, PAGES at most, as can be read from the distance asked for; the largest on PAGES
 * where it cannot. */
static struct fit fit_fewest(const struct wall *wall, struct content content, double height,
                             int pages, double low, double high)
{
    double least = sheet_size(wall->press.type, wall->request->distance, SIGHT_MINUTES_LEAST);
    struct fit fit = fit_size(wall, content, height, 1, low, high);
    for (int more = 2; more <= pages && !(fits(fit, more - 1) && fit.size >= least); more++)
        fit = fit_size(wall, content, height, more, low, high);
    return fit;
}

/* The same; where even the smallest size takes more pages, on as many as that needs. */
static struct fit fit_pages(const struct wall *wall, struct content content, double height,
                            int pages, double low, double high)
{
    struct fit fit = fit_fewest(wall, content, height, pages, low, high);
    if (fit.pages > pages && fit.pages < NO_PAGES && !fit.unfit)
        fit = fit_size(wall, content, height, fit.pages, low, high);
    return fit;
}

/* What is worked out before the first page is drawn. */
struct plan {
    struct fit blocks, table;
    bool apart;       /* the table has a page of its own */
    int pages_needed; /* for the least angle */
};

/* The pages that SIZE takes, NO_PAGES where a word is too wide for it. */
static int pages_at(const struct wall *wall, struct content content, double size, double height)
{
    struct fit fit = try_size(wall, content, size, height, NULL);
    return fit.unfit || fit.pages > NO_PAGES ? NO_PAGES : fit.pages;
}

/* The table stays with the session where that saves a page and costs the letters less than a fifth. */
static const double WORTH_STAYING = 0.8;

static struct plan plan_pages(const struct wall *wall, const struct room *room)
{
    struct type *type = wall->press.type;
    double least = sheet_size(type, wall->request->distance, SIGHT_MINUTES_LEAST);
    double most = sheet_size(type, wall->request->distance, MINUTES_MOST);
    double floor_size = SMALLEST_SHARE * least;
    struct content blocks = {.blocks = true}, table = {.table = true}, both = {true, true};
    int pages = wall->request->pages;
    struct plan plan = {
        .blocks = fit_pages(wall, blocks, room->first, pages, floor_size, most),
        .pages_needed = pages_at(wall, blocks, least, room->first),
    };
    if (!group_needs_table(&wall->group))
        return plan;
    struct fit together = fit_fewest(wall, both, room->first, pages, floor_size, most);
    plan.apart = !fits(together, pages) || together.pages > plan.blocks.pages ||
                 together.size < WORTH_STAYING * plan.blocks.size;
    plan.pages_needed += pages_at(wall, table, least, room->other);
    if (plan.apart)
        plan.table = fit_pages(wall, table, room->other,
                               pages > plan.blocks.pages ? pages - plan.blocks.pages : 1, floor_size,
                               most);
    else
        plan.blocks = together;
    return plan;
}

struct scene *wall_scene(const struct sheet_request *request)
{
    struct wall wall = wall_of(request);
    struct scene *scene = scene_new(request->arena, wall.width, wall.height, wall.margin);
    struct room room = measure_room(&wall);
    struct plan plan = plan_pages(&wall, &room);
    struct content first = {.blocks = true, .table = !plan.apart && group_needs_table(&wall.group)};
    set_metadata(scene, &wall);
    wall.table_follows = plan.apart;
    add_pages(scene, &wall, first, plan.blocks, &room);
    if (plan.apart)
        add_pages(scene, &wall, (struct content){.table = true}, plan.table, &room);
    close_pages(scene, &wall, &room);
    report_reach(scene, &wall, plan.pages_needed);
    return scene;
}
