#include "layout/wall_fit.h"

#include <math.h>

#include "figures/sight.h"
#include "measure/person.h"
#include "model/occasion.h"

/* Letters grow no further than this: beyond it the sheet gains nothing and loses its white. */
static const double MINUTES_MOST = 24;
/* Below this share of the least angle a sheet takes further pages rather than shrinking further. */
static const double SMALLEST_SHARE = 0.5;
/* No sheet is set smaller than this share of that, whatever it prints over. */
static const double LEAST_SHARE = 0.15;
/* Sizes are distinguished down to this share. */
static const double FINE = 0.008;
/* Where the column of doses may begin, as shares of the width. */
static const double splits[] = {0.5, 0.44, 0.56, 0.38, 0.33};
enum { NO_PAGES = 1000, PAGES_ADVISED = 20, SPLITS = sizeof splits / sizeof *splits };

/* --- the wall --- */

/* What each member is called beside their own loads. */
static const char **make_labels(const struct wall *wall)
{
    const struct group *group = &wall->group;
    struct arena *arena = wall->press.arena;
    const char **labels = arena_alloc(arena, (group->count + 1) * sizeof *labels);
    for (size_t i = 0; i < group->count; i++)
        labels[i] = athlete_called(group->members[i]->athlete);
    return labels;
}

/* WALL on the paper of REQUEST. */
static struct wall on_paper(const struct wall *wall, const struct sheet_request *request)
{
    struct wall set = *wall;
    double width, height;
    set.request = request;
    paper_points(request->paper, request->landscape, &set.width, &set.height);
    paper_points(paper_find("A3"), false, &width, &height);
    set.unit = sqrt(set.width * set.height / (width * height));
    set.margin = fmax(20, 26 * set.unit);
    set.inner = set.width - 2 * set.margin;
    set.columns = 1;
    set.column = set.inner;
    return set;
}

struct wall wall_of(const struct sheet_request *request)
{
    struct wall wall = {.press = {request->arena, request->type}};
    wall.first_least = sheet_size(request->type, request->distance, SIGHT_MINUTES_LEAST);
    wall.second_least = sheet_size(request->type, request->distance / 3, SIGHT_MINUTES_LEAST);
    wall.group = group_make(request->arena, request->occasions, request->count);
    struct rota *rooms;
    wall.room_count = rotas_of(request, &rooms);
    wall.rooms = rooms;
    wall.boarded = request->pages > 1 && wall_is_boarded(&wall.group);
    wall.lines = wall_words(&wall.press, &wall.group, wall.room_count == 1 ? wall.rooms : NULL, wall.boarded);
    wall.labels = make_labels(&wall);
    return on_paper(&wall, request);
}

struct wall wall_in_columns(const struct wall *wall, int columns)
{
    struct wall set = *wall;
    double gap = 2 * wall->margin;
    set.columns = columns;
    set.column = (wall->inner - (columns - 1) * gap) / columns;
    return set;
}

struct wall_room wall_room(const struct wall *wall)
{
    struct wall_room room = {.header = wall_header(wall, false)->height,
                             .header_again = wall_header(wall, true)->height};
    double rest = wall->height - 2 * wall->margin - wall_foot_space(wall);
    room.first = rest - room.header - wall_foot(wall, 1, 0)->height;
    room.other = rest - room.header_again - wall_foot(wall, 2, 0)->height;
    return room;
}

/* --- one size --- */

static struct wall_fit try_setting(const struct wall *wall, const struct wall_room *room,
                                   struct wall_setting setting)
{
    struct wall set = *wall;
    bool unfit = false;
    set.press.arena = type_try(wall->press.type, wall->press.arena);
    struct strips strips = wall_blocks(&set, setting, &unfit);
    int pages = strips_pages(&strips, room->first, room->other, wall->columns);
    double tall = strips_height(&strips);
    type_try_end(wall->press.type);
    return (struct wall_fit){.setting = setting,
                             .columns = wall->columns,
                             .pages = pages > NO_PAGES ? NO_PAGES : pages,
                             .tall = tall,
                             .unfit = unfit};
}

static bool fits(const struct wall_fit *fit, int pages)
{
    return fit->pages <= pages && !fit->unfit;
}

/* --- the largest size --- */

static double size_at(const struct wall *wall, double minutes)
{
    return sheet_size(wall->press.type, wall->request->distance, minutes);
}

/* SETTING in SIZE, with the column of doses where all is lowest. */
static struct wall_fit try_splits(const struct wall *wall, const struct wall_room *room, struct wall_setting setting, double size)
{
    struct wall_fit best = {0};
    setting.size = size;
    for (size_t i = 0; i < SPLITS; i++) {
        setting.split = splits[i];
        struct wall_fit trial = try_setting(wall, room, setting);
        bool better = trial.unfit != best.unfit ? best.unfit
                      : trial.pages != best.pages ? trial.pages < best.pages
                                                  : trial.tall < best.tall - 0.5;
        if (i == 0 || better)
            best = trial;
    }
    return best;
}

static struct wall_fit try_size(const struct wall *wall, const struct wall_room *room, struct wall_setting setting, double size)
{
    setting.size = size;
    return try_setting(wall, room, setting);
}

/* The largest size between that of FIT, which fits PAGES, and HIGH. */
static struct wall_fit grow(const struct wall *wall, const struct wall_room *room,
                            struct wall_fit fit, int pages, double high)
{
    double low = fit.setting.size;
    while (high - low > FINE * high) {
        double middle = (low + high) / 2;
        struct wall_fit more = try_size(wall, room, fit.setting, middle);
        if (fits(&more, pages)) {
            fit = more;
            low = middle;
        } else {
            high = middle;
        }
    }
    return fit;
}

/* FIT with the column of doses where letters can be largest: what is lowest in one size need not be in another. */
static struct wall_fit settle(const struct wall *wall, const struct wall_room *room, struct wall_fit fit, int pages, double most)
{
    fit = grow(wall, room, fit, pages, most);
    struct wall_fit other = try_splits(wall, room, fit.setting, fit.setting.size);
    return fits(&other, pages) ? grow(wall, room, other, pages, most) : fit;
}

/* FORM in SIZE; or where a line that can be broken no further has no room on a page, in the size in which it has. */
static struct wall_fit try_low(const struct wall *wall, const struct wall_room *room, struct wall_setting form, double size)
{
    struct wall_fit fit = try_splits(wall, room, form, size);
    for (double least = LEAST_SHARE * size; form.broken && fit.pages >= NO_PAGES && size > least;)
        fit = try_splits(wall, room, form, size *= 0.85);
    return fit;
}

/* The best for WALL as it is formed. */
static struct wall_fit fit_form(const struct wall *wall, const struct wall_room *room, struct wall_setting form, int pages)
{
    double least = size_at(wall, SIGHT_MINUTES_LEAST), most = size_at(wall, MINUTES_MOST);
    struct wall_fit fit = try_splits(wall, room, form, least);
    int readable = fit.unfit || fit.pages >= NO_PAGES ? 0 : fit.pages;
    if (fits(&fit, pages)) {
        fit = settle(wall, room, fit, readable, most);
    } else {
        fit = try_low(wall, room, form, SMALLEST_SHARE * least);
        pages = fit.pages > pages ? fit.pages : pages;
        if (fits(&fit, pages) && pages < NO_PAGES)
            fit = settle(wall, room, fit, pages, least);
    }
    fit.readable = readable;
    return fit;
}

/* Whether to take OTHER instead of ONE. */
static bool is_better(const struct wall *wall, const struct wall_fit *one,
                      const struct wall_fit *other, int pages)
{
    double least = size_at(wall, SIGHT_MINUTES_LEAST) * 0.999;
    bool one_fits = fits(one, pages), other_fits = fits(other, pages);
    if (one->unfit != other->unfit)
        return one->unfit;
    if (one_fits != other_fits)
        return other_fits;
    bool one_reads = one->setting.size >= least, other_reads = other->setting.size >= least;
    if (one_reads != other_reads)
        return other_reads;
    if (one->pages != other->pages && (one_reads || !one_fits))
        return other->pages < one->pages;
    return other->setting.size > one->setting.size;
}

/* On paper wider than it is high, the body may have two columns. */
static int columns_most(const struct wall *wall)
{
    return wall->width > wall->height ? 2 : 1;
}

/* What is tried in turn until letters reach the least angle: cues give way first, then blocks go on overleaf. */
static const struct wall_setting forms[] = {{.bare = false}, {.bare = true}, {.bare = true, .broken = true}};
enum { FORMS = sizeof forms / sizeof *forms };

struct wall_fit wall_fit_pages(const struct wall *wall, const struct wall_room *room, int pages)
{
    struct wall_fit best = {0};
    int readable = 0;
    double least = size_at(wall, SIGHT_MINUTES_LEAST) * 0.999;
    for (size_t f = 0; f < FORMS; f++) {
        for (int columns = 1; columns <= columns_most(wall); columns++) {
            struct wall set = wall_in_columns(wall, columns);
            struct wall_fit fit = fit_form(&set, room, forms[f], pages);
            if (fit.readable && (!readable || fit.readable < readable))
                readable = fit.readable;
            if ((f == 0 && columns == 1) || is_better(wall, &best, &fit, pages))
                best = fit;
        }
        if (fits(&best, pages) && best.setting.size >= least)
            break;
    }
    best.readable = readable;
    return best;
}

/* --- what would help --- */

/* Whether letters of WALL on REQUEST's paper reach the least angle on its pages. */
static bool is_readable(const struct wall *wall, const struct sheet_request *request)
{
    struct wall other = on_paper(wall, request);
    struct wall_room room = wall_room(&other);
    double least = size_at(&other, SIGHT_MINUTES_LEAST);
    for (int columns = 1; columns <= columns_most(&other); columns++) {
        struct wall set = wall_in_columns(&other, columns);
        for (size_t f = 0; f < FORMS; f++) {
            struct wall_fit fit = try_splits(&set, &room, forms[f], least);
            if (fits(&fit, request->pages))
                return true;
        }
    }
    return false;
}

struct remedy wall_remedy(const struct wall *wall, const struct wall_fit *fit)
{
    struct remedy remedy = {0};
    struct sheet_request request = *wall->request;
    for (const struct paper *paper = request.paper; !remedy.paper && (paper = paper_larger(paper)) != NULL;) {
        request.paper = paper;
        remedy.paper = is_readable(wall, &request) ? paper : NULL;
    }
    request.paper = wall->request->paper;
    bool pages_help = fit->readable > request.pages && fit->readable <= PAGES_ADVISED;
    if (pages_help && !wall_is_boarded(&wall->group)) /* with further pages it is another sheet */
        remedy.pages = fit->readable;
    request.landscape = !request.landscape;
    if (!remedy.paper && !remedy.pages && is_readable(wall, &request))
        remedy.turn = request.landscape ? REMEDY_LANDSCAPE : REMEDY_UPRIGHT;
    return remedy;
}
