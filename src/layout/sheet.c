#include "layout/sheet.h"

#include <string.h>

#include "base/bidi.h"
#include "figures/sight.h"
#include "language/language.h"
#include "squad/squad.h"

/* What makes a sheet of each name. */
static const struct sheet_maker {
    const char *name;
    struct scene *(*make)(const struct sheet_request *request);
} makers[] = {
    {"wall", wall_scene},
    {"card", card_scene},
    {"week", week_scene},
    {"parents", parents_scene},
    {"bout", bout_day_scene},
    {"camp", camp_scene},
    {"season", season_scene},
    {"season-club", season_club_scene},
    {"floor", floor_scene},
    {"card-page", cards_scene},
    {"board", board_scene},
    {"tests", test_results_scene},
    {"review", review_scene},
    {"monday", monday_scene},
};

static struct scene *make(const struct sheet *sheet, const struct sheet_request *request)
{
    size_t i = 0;
    while (strcmp(makers[i].name, sheet->name) != 0)
        i++;
    return makers[i].make(request);
}

struct scene *sheet_make(const struct sheet *sheet, const struct sheet_request *request)
{
    struct sheet_request full = *request;
    if (!full.paper) {
        full.paper = paper_find(sheet->paper);
        full.landscape = sheet->landscape;
    }
    if (full.distance <= 0)
        full.distance = sheet->distance;
    if (full.pages < 1)
        full.pages = 1;
    if (!full.memo)
        full.memo = squad_memo_new(full.arena);
    arena_speak(full.arena, full.language);
    struct scene *scene = make(sheet, &full);
    scene->distance = full.distance;
    scene->language = full.language ? full.language->code : NULL;
    scene->title = bidi_isolated(scene->arena, scene->title);
    scene->description = bidi_isolated(scene->arena, scene->description);
    scene_inspect(scene);
    /* cppcheck-suppress returnDanglingLifetime ; a scene keeps nothing of its request */
    return scene;
}

double sheet_size(const struct type *type, double centimetres, double minutes)
{
    return sight_points_from_mm(sight_height(centimetres * 10, minutes)) / type_capital(type);
}

double sheet_reach(double capital)
{
    return sight_distance(sight_mm_from_points(capital), SIGHT_MINUTES_LEAST) / 10;
}
