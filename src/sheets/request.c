#include "sheets/request.h"

#include "base/text.h"
#include "done/camp_review.h"
#include "figures/dates.h"
#include "language/language.h"
#include "measure/hold.h"
#include "measure/kit.h"
#include "measure/person.h"
#include "model/programme.h"
#include "sheets/brief.h"

/* Pages that the wall may take before its letters are called too small: two fit side by side on any wall. */
static const int PAGES = 2;

/* "8 to 14 March 2027", "29 March to 4 April 2027". */
static const char *span_words(struct arena *arena, int first, int last)
{
    int year, month, day, last_year, last_month, last_day;
    if (!date_to_ymd(first, &year, &month, &day) ||
        !date_to_ymd(last, &last_year, &last_month, &last_day))
        return "";
    const char *end = arena_printf(arena, said_as(arena, "date", "%1$d %2$s %3$d"), last_day, said_month(arena, SAID_LONG, last_month),
                                   said_year(arena, last_year));
    const char *start = arena_printf(arena, "%d", day);
    if (year != last_year)
        start = arena_printf(arena, said_as(arena, "date", "%1$d %2$s %3$d"), day, said_month(arena, SAID_LONG, month),
                             said_year(arena, year));
    else if (month != last_month)
        start = arena_printf(arena, said_as(arena, "date", "%1$d %2$s"), day, said_month(arena, SAID_LONG, month));
    return arena_printf(arena, said_as(arena, "days", "%1$s to %2$s"), start, end);
}

static const char *date_words(struct arena *arena, const struct sheet *sheet, const struct occasion *occasion,
                              bool of_athlete)
{
    int monday = date_monday(occasion->date);
    if (sheet->scope == SCOPE_WEEK_EACH || sheet->scope == SCOPE_WEEK || of_athlete)
        return span_words(arena, monday, monday + 6);
    if (sheet->scope == SCOPE_CAMP_EACH || sheet->scope == SCOPE_CAMP)
        return span_words(arena, occasion->camp->first, occasion->camp->last);
    return sheet_day_words(arena, occasion->date);
}

bool sheet_is_of_season(const struct sheet *sheet)
{
    return sheet->scope == SCOPE_SEASON_EACH || sheet->scope == SCOPE_SEASON;
}

bool sheet_is_for_each(const struct sheet *sheet)
{
    return sheet->scope != SCOPE_SESSION && sheet->scope != SCOPE_SESSION_EACH;
}

/* The paper that was asked for is for what hangs on a wall. The other sheets are made for A4, or for Letter if the
 * wall's paper is of that kind; a card on a phone is A6 everywhere. NULL: the sheet's own. */
static const struct paper *paper_of(const struct sheet *sheet, const struct sheet_origin *origin)
{
    const struct paper *paper = origin->paper;
    if (sheet->hangs)
        return !paper && origin->landscape ? paper_find(sheet->paper) : paper;
    bool american = paper && paper->name[0] != 'A';
    if (american && sheet_is_of_season(sheet))
        return paper_find("Tabloid");
    return american && sheet->scope != SCOPE_SESSION_EACH ? paper_find("Letter") : NULL;
}

static bool is_of_group(const struct occasion *occasion, const struct occasion *first)
{
    return occasion->session == first->session && occasion->date == first->date && occasion->clock == first->clock &&
           occasion->camp == first->camp;
}

/* A sheet is in its athlete's language, and one that several share in theirs if it is the same; otherwise, and where it is the
 * coach's own, in that of the house. */
static const struct language *language_of(const struct sheet *sheet, const struct occasion_group *group)
{
    const struct gym *gym = occasion_gym(group->occasions[0]);
    const struct language *house = gym ? gym->language : NULL, *language = occasion_language(group->occasions[0]);
    if (sheet->house)
        return house;
    for (size_t i = 1; i < group->count; i++)
        if (occasion_language(group->occasions[i]) != language)
            return house;
    return language;
}

/* Puts the names of those into REQUEST for whom the group's session is placed and who are on hold. */
static void name_held(const struct sheet_origin *origin, const struct occasion *first, struct sheet_request *request)
{
    const struct programme *programme = origin->programme;
    const struct camp *camp = first->camp;
    const char **names = arena_alloc(origin->arena, (camp->athlete_count + 1) * sizeof *names);
    for (size_t a = 0; a < camp->athlete_count; a++) {
        const struct athlete *athlete = camp->athletes[a];
        bool placed = false;
        for (size_t i = 0; i < request->count; i++)
            placed |= request->occasions[i]->athlete == athlete;
        for (size_t i = 0; i < programme->left_out_count && !placed; i++) {
            const struct occasion *occasion = &programme->left_out[i].occasion;
            placed = occasion->athlete == athlete && is_of_group(occasion, first);
        }
        if (placed && athlete_held(athlete, first->date, programme->today))
            names[request->held_count++] = athlete_called(athlete);
    }
    request->held = names;
}

static const struct camp_review *sheet_review(const struct sheet_origin *origin, const struct camp *camp, bool private)
{
    struct camp_review *review = arena_alloc(origin->arena, sizeof *review);
    *review = review_of(origin->arena, origin->programme, camp, private);
    return review;
}

bool sheet_begins_camp(const struct occasion_group *group, size_t index)
{
    for (size_t i = 0; i < index; i++)
        if (group->occasions[i]->camp == group->occasions[index]->camp)
            return false;
    return true;
}

/* The camp; for a week or a page of several, the first of them: "Cup, Derby", "Cup, Derby, Spring, Fair and 3 more". */
static const char *plan_words(struct arena *arena, const struct occasion_group *group)
{
    enum { NAMED = 4 };
    struct text words = {.arena = arena};
    size_t camps = 0;
    if (group->season)
        return group->season->name.shown;
    for (size_t i = 0; i < group->count; i++)
        if (sheet_begins_camp(group, i) && camps++ < NAMED) {
            text_add(&words, i ? ", " : "");
            text_add(&words, group->occasions[i]->camp->name.shown);
        }
    if (camps > NAMED)
        text_addf(&words, said(arena, " and %zu more"), camps - NAMED);
    return text_keep(arena, &words);
}

static struct sheet_request request_of(const struct sheet_origin *origin, const struct sheet *sheet,
                                       const struct occasion_group *group)
{
    const struct occasion *first = group->occasions[0];
    const struct gym *gym = occasion_gym(first);
    struct sheet_request request = {
        .programme = origin->programme,
        .language = arena_language(origin->arena),
        .occasions = group->occasions,
        .count = group->count,
        .season = group->season,
        .paper = paper_of(sheet, origin),
        .landscape = sheet->landscape || (sheet->hangs && origin->landscape),
        .distance = sheet->hangs ? origin->read_from : 0,
        .pages = origin->pages ? origin->pages : PAGES,
        .plan = plan_words(origin->arena, group),
        .version = origin->version,
        .date_words = group->season ? span_words(origin->arena, group->season->first, group->season->last)
                                    : date_words(origin->arena, sheet, first, group->of_athlete),
        .author = gym ? gym->name.shown : "",
        .coach = origin->coach,
        .private = origin->private && sheet->own,
        .memo = origin->memo};
    if (origin->coach && sheet->scope == SCOPE_SESSION)
        name_held(origin, first, &request);
    if (sheet->scope == SCOPE_WEEK_EACH)
        request.bounds = sheet_week_bounds(origin->programme, origin->arena, group, &request.bound_count);
    else if (sheet->scope == SCOPE_CAMP_EACH && !sheet->reports)
        request.bounds = sheet_bounds(origin->programme, origin->arena, first->camp,
                                      first->athlete, &request.bound_count);
    if (sheet->scope == SCOPE_CAMP)
        request.review = sheet_review(origin, first->camp, request.private);
    if (sheet->scope == SCOPE_WEEK)
        request.briefs = sheet_briefs(origin, date_monday(first->date), &request.brief_count);
    return request;
}

struct sheet_request sheet_request_for(const struct sheet_origin *origin, const struct sheet *sheet,
                                       const struct occasion_group *group)
{
    const struct language *before = arena_language(origin->arena);
    arena_speak(origin->arena, language_of(sheet, group));
    struct sheet_request request = request_of(origin, sheet, group);
    arena_speak(origin->arena, before);
    return request;
}

struct occasion_group sheet_held_last(const struct sheet_origin *origin, const struct sheet *sheet,
                                      const struct occasion_group *group)
{
    const struct programme *programme = origin->programme;
    struct occasion_group ordered = {.of_athlete = group->of_athlete,
                                     .occasions = arena_alloc(origin->arena,
                                                              (group->count + 1) * sizeof(struct occasion *))};
    int passes = sheet->hangs ? 1 : 2;
    for (int held = 0; held < passes; held++)
        for (size_t i = 0; i < group->count; i++)
            if (athlete_held(group->occasions[i]->athlete, group->occasions[i]->date, programme->today) == (held == 1))
                ordered.occasions[ordered.count++] = group->occasions[i];
    return ordered;
}
