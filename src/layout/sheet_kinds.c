/* sheet_kinds.c - which sheets there are. What only names or compares them needs nothing that draws. */
#include <string.h>

#include "figures/dates.h"
#include "language/language.h"
#include "layout/sheet.h"

const struct sheet sheets[] = {
    {.name = "wall", .what = "the session for the wall, to be read from the floor", .paper = "A3", .distance = 300,
     .scope = SCOPE_SESSION, .hangs = true},
    {.name = "card", .what = "one athlete's session to hold and write on", .paper = "A6", .distance = 40,
     .scope = SCOPE_SESSION_EACH},
    {.name = "week", .what = "one athlete's week, compared with its limits", .paper = "A4", .landscape = true, .distance = 60,
     .scope = SCOPE_WEEK_EACH},
    {.name = "parents", .what = "a week of an athlete under 18: what is planned, who is on the floor, whom to call",
     .paper = "A4", .distance = 50, .scope = SCOPE_WEEK_EACH, .young = true,
     .missing = "nobody planned then is known to be under 18; `age group under 18` below the athlete says so"},
    {.name = "bout", .what = "the day of a bout: hours, rules, who is there, what to write down", .paper = "A4",
     .distance = 50, .scope = SCOPE_WEEK_EACH, .of_bout = true, .missing = "no bout is planned then"},
    {.name = "monday", .what = "the head coach's page: three lines for each athlete, with what there is to decide", .paper = "A4",
     .distance = 50, .scope = SCOPE_WEEK, .reports = true, .house = true},
    {.name = "camp", .what = "one athlete's camp, counted back from the bout week by week", .paper = "A4",
     .landscape = true, .distance = 60, .scope = SCOPE_CAMP_EACH},
    {.name = "tests", .what = "one athlete's test results, with their error", .paper = "A4", .distance = 50,
     .scope = SCOPE_CAMP_EACH, .reports = true, .own = true, .measured = true,
     .missing = "nobody has results of tests to show; those of a private file are shown with --private"},
    {.name = "review", .what = "a camp as it turned out: planned and done, lifts, tests, what was waived", .paper = "A4",
     .distance = 50, .scope = SCOPE_CAMP, .reports = true, .own = true, .house = true},
    {.name = "season", .what = "one athlete's year: camps, bouts, load, sparring, tests, absences", .paper = "A3",
     .landscape = true, .distance = 60, .scope = SCOPE_SEASON_EACH,
     .missing = "no season is declared for these days; write `season` and a name, and below it `from` and `to`"},
    {.name = "season-club", .what = "the club's year, a row for each athlete", .paper = "A3", .landscape = true,
     .distance = 60, .scope = SCOPE_SEASON,
     .missing = "no season is declared for these days; write `season` and a name, and below it `from` and `to`"},
    {.name = "floor", .what = "the coach's notes on a session: set-up, cues, faults, stop rules", .paper = "A4",
     .distance = 60, .scope = SCOPE_SESSION, .house = true},
    {.name = "card-page", .what = "the same cards, four to a page with cut marks; for one athlete, a week of them",
     .paper = "A4", .distance = 40, .scope = SCOPE_SESSION, .gathers = true},
    {.name = "board", .what = "a squad's loads as a table: athletes down, lifts across", .paper = "A3", .landscape = true,
     .distance = 300, .scope = SCOPE_SESSION, .hangs = true},
};
const size_t sheet_count = sizeof sheets / sizeof *sheets;

const struct sheet *sheet_find(const char *name)
{
    for (size_t i = 0; i < sheet_count; i++)
        if (strcmp(sheets[i].name, name) == 0)
            return &sheets[i];
    return NULL;
}

const char *sheet_day_words(struct arena *arena, int day)
{
    int year, month, of_month;
    if (!date_to_ymd(day, &year, &month, &of_month))
        return "";
    return arena_printf(arena, said_as(arena, "date", "%1$s %2$d %3$s %4$d"), said_weekday(arena, SAID_LONG, date_weekday(day)), of_month,
                        said_month(arena, SAID_LONG, month), said_year(arena, year));
}
