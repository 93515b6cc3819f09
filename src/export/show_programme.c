#include "export/show_programme.h"

#include <stdlib.h>
#include <string.h>

#include "figures/dates.h"
#include "model/programme.h"

const char *view_clock(struct arena *arena, int seconds)
{
    return arena_printf(arena, "%02d:%02d", seconds / 3600, seconds / 60 % 60);
}

const char *view_date(struct arena *arena, int day)
{
    char text[DATE_TEXT_SIZE];
    date_format(day, text);
    return arena_copy(arena, text, strlen(text));
}

const char *view_weekday(int day)
{
    static const char *const names[] = {"",         "monday", "tuesday",  "wednesday",
                                        "thursday", "friday", "saturday", "sunday"};
    return names[date_weekday(day)];
}

const char *view_title(const struct occasion *occasion)
{
    return occasion->session ? occasion->session->name.shown : occasion->activity->name.shown;
}

const char *view_line(const struct programme_view *view, struct span span)
{
    const struct source *source = &view->programme->sources->items[span.file];
    return arena_printf(view->arena, "%s:%u", source->name, source_line(source, span.start));
}

static const char *folded_title(const struct occasion *occasion)
{
    return occasion->session ? occasion->session->name.folded : occasion->activity->name.folded;
}

static int compare_camps(const struct occasion *a, const struct occasion *b)
{
    return strcmp(a->camp->name.folded, b->camp->name.folded);
}

static int compare_athletes(const struct occasion *a, const struct occasion *b)
{
    return strcmp(a->athlete->name.folded, b->athlete->name.folded);
}

static int compare_when(const struct occasion *a, const struct occasion *b)
{
    if (a->date != b->date)
        return a->date - b->date;
    if (a->clock != b->clock)
        return a->clock - b->clock;
    return strcmp(folded_title(a), folded_title(b));
}

static int by_date(const void *left, const void *right)
{
    const struct occasion *a = *(const struct occasion *const *)left;
    const struct occasion *b = *(const struct occasion *const *)right;
    int when = compare_when(a, b), camps = compare_camps(a, b);
    return when ? when : camps ? camps : compare_athletes(a, b);
}

static int by_athlete(const void *left, const void *right)
{
    const struct occasion *a = *(const struct occasion *const *)left;
    const struct occasion *b = *(const struct occasion *const *)right;
    int athletes = compare_athletes(a, b), when = compare_when(a, b);
    return athletes ? athletes : when ? when : compare_camps(a, b);
}

const struct occasion **view_order(const struct programme_view *view, enum view_by by)
{
    static int (*const orders[])(const void *, const void *) = {by_date, by_athlete};
    const struct occasion **order = arena_alloc(view->arena, (view->count + 1) * sizeof *order);
    for (size_t i = 0; i < view->count; i++)
        order[i] = view->occasions[i];
    if (view->count > 1)
        qsort(order, view->count, sizeof *order, orders[by]);
    return order;
}

bool view_same_week(const struct occasion *a, const struct occasion *b)
{
    return a->athlete == b->athlete && date_monday(a->date) == date_monday(b->date);
}
