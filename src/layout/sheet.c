#include "layout/sheet.h"

#include <string.h>

#include "figures/dates.h"
#include "figures/sight.h"

const struct sheet sheets[] = {
    {"wall", "the session for the wall, to be read from the floor", "A3", false, 300, SCOPE_SESSION,
     wall_scene, true, false},
    {"card", "one athlete's session to hold and write on", "A6", false, 40, SCOPE_SESSION_EACH,
     card_scene, false, false},
    {"week", "one athlete's week, compared with its limits", "A4", true, 60, SCOPE_WEEK_EACH,
     week_scene, false, false},
    {"camp", "one athlete's camp, counted back from the bout week by week", "A4", true, 60, SCOPE_CAMP_EACH,
     camp_scene, false, false},
    {"season", "one athlete's year: camps, bouts, load, sparring, tests, absences", "A3", true, 60, SCOPE_SEASON_EACH,
     season_scene, false, false},
    {"season-club", "the club's year, a row for each athlete", "A3", true, 60, SCOPE_SEASON,
     season_club_scene, false, false},
    {"floor", "the coach's notes on a session: set-up, cues, faults, stop rules", "A4", false, 60,
     SCOPE_SESSION, floor_scene, false, false},
    {"card-page", "the same cards, four to a page with cut marks; of one athlete, those of a week", "A4", false, 40,
     SCOPE_SESSION, cards_scene, false, true},
    {"board", "a squad's loads as a table: athletes down, lifts across", "A3", true, 300, SCOPE_SESSION, board_scene,
     true, false},
};
const size_t sheet_count = sizeof sheets / sizeof *sheets;

const struct sheet *sheet_find(const char *name)
{
    for (size_t i = 0; i < sheet_count; i++)
        if (strcmp(sheets[i].name, name) == 0)
            return &sheets[i];
    return NULL;
}

const char *sheet_month(int month)
{
    static const char *const months[] = {"January", "February", "March",     "April",   "May",      "June",
                                         "July",    "August",   "September", "October", "November", "December"};
    return months[month - 1];
}

const char *sheet_day_words(struct arena *arena, int day)
{
    static const char *const days[] = {"Monday", "Tuesday",  "Wednesday", "Thursday",
                                       "Friday", "Saturday", "Sunday"};
    int year, month, of_month;
    if (!date_to_ymd(day, &year, &month, &of_month))
        return "";
    return arena_printf(arena, "%s %d %s %d", days[date_weekday(day) - 1], of_month, sheet_month(month), year);
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
    struct scene *scene = sheet->make(&full);
    scene->distance = full.distance;
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
