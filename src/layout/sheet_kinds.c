/* sheet_kinds.c - which sheets there are. What only names or compares them needs nothing that draws. */
#include <string.h>

#include "figures/dates.h"
#include "layout/sheet.h"

const struct sheet sheets[] = {
    {"wall", "the session for the wall, to be read from the floor", "A3", false, 300, SCOPE_SESSION, true, false, false},
    {"card", "one athlete's session to hold and write on", "A6", false, 40, SCOPE_SESSION_EACH, false, false, false},
    {"week", "one athlete's week, compared with its limits", "A4", true, 60, SCOPE_WEEK_EACH, false, false, false},
    {"parents", "a week of somebody under 18: what it holds, who is on the floor, whom to call", "A4", false, 50,
     SCOPE_WEEK_EACH, false, false, true},
    {"camp", "one athlete's camp, counted back from the bout week by week", "A4", true, 60, SCOPE_CAMP_EACH, false, false, false},
    {"season", "one athlete's year: camps, bouts, load, sparring, tests, absences", "A3", true, 60, SCOPE_SEASON_EACH, false, false, false},
    {"season-club", "the club's year, a row for each athlete", "A3", true, 60, SCOPE_SEASON, false, false, false},
    {"floor", "the coach's notes on a session: set-up, cues, faults, stop rules", "A4", false, 60,
     SCOPE_SESSION, false, false, false},
    {"card-page", "the same cards, four to a page with cut marks; of one athlete, those of a week", "A4", false, 40,
     SCOPE_SESSION, false, true, false},
    {"board", "a squad's loads as a table: athletes down, lifts across", "A3", true, 300, SCOPE_SESSION, true, false, false},
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
