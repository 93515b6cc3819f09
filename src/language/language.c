#include "language/language.h"

#include <string.h>

#include "base/text.h"

const struct language *language_find(const char *folded)
{
    for (size_t i = 0; i < language_count; i++) {
        const char *name = languages[i]->name;
        size_t length = strlen(name);
        if (strlen(folded) == length && folded[0] == name[0] + ('a' - 'A') && memcmp(folded + 1, name + 1, length - 1) == 0)
            return languages[i];
    }
    return NULL;
}

/* The first form of ID, or NULL where the language has none. */
static const char *find(const struct language *language, const char *context, const char *id)
{
    size_t low = 0, high = language ? language->count : 0;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        const struct translation *translation = &language->translations[middle];
        int order = strcmp(context, language->texts + translation->context);
        if (order == 0)
            order = strcmp(id, language->texts + translation->id);
        if (order == 0)
            return language->texts + translation->forms;
        if (order < 0)
            high = middle;
        else
            low = middle + 1;
    }
    return NULL;
}

const char *said(const struct arena *arena, const char *id)
{
    return said_as(arena, "", id);
}

const char *said_as(const struct arena *arena, const char *context, const char *id)
{
    const char *form = find(arena_language(arena), context, id);
    return form ? form : id;
}

const char *said_count(const struct arena *arena, long count, const char *one, const char *many)
{
    const struct language *language = arena_language(arena);
    const char *form = find(language, "", one);
    unsigned long size = count < 0 ? 0UL - (unsigned long)count : (unsigned long)count;
    if (!form)
        return size == 1 ? one : many;
    for (size_t left = language->form(size); left > 0; left--)
        form += strlen(form) + 1;
    return form;
}

const char *said_guard(struct arena *arena, const char *id)
{
    return said_guard_as(arena, "", id);
}

const char *said_guard_as(struct arena *arena, const char *context, const char *id)
{
    const struct language *language = arena_language(arena);
    const char *form = find(language, context, id);
    if (!form)
        return id;
    return language->guards_read ? form : arena_printf(arena, "%s / %s", form, id);
}

const char *said_weekday(const struct arena *arena, enum said_length length, int day)
{
    static const char *const whole[] = {SAID("Monday"), SAID("Tuesday"),  SAID("Wednesday"), SAID("Thursday"),
                                        SAID("Friday"), SAID("Saturday"), SAID("Sunday")};
    static const char *const brief[] = {SAID("Mon"), SAID("Tue"), SAID("Wed"), SAID("Thu"), SAID("Fri"), SAID("Sat"), SAID("Sun")};
    return said(arena, length == SAID_LONG ? whole[day - 1] : brief[day - 1]);
}

const char *said_initial(const struct arena *arena, int day)
{
    switch (day) {
    case 1: return said_as(arena, "Monday", "M");
    case 2: return said_as(arena, "Tuesday", "T");
    case 3: return said_as(arena, "Wednesday", "W");
    case 4: return said_as(arena, "Thursday", "T");
    case 5: return said_as(arena, "Friday", "F");
    case 6: return said_as(arena, "Saturday", "S");
    default: return said_as(arena, "Sunday", "S");
    }
}

const char *said_month(const struct arena *arena, enum said_length length, int month)
{
    static const char *const whole[] = {SAID_AS("month", "January"),   SAID_AS("month", "February"), SAID_AS("month", "March"),
                                        SAID_AS("month", "April"),     SAID_AS("month", "May"),      SAID_AS("month", "June"),
                                        SAID_AS("month", "July"),      SAID_AS("month", "August"),   SAID_AS("month", "September"),
                                        SAID_AS("month", "October"),   SAID_AS("month", "November"), SAID_AS("month", "December")};
    static const char *const brief[] = {SAID_AS("short month", "Jan"), SAID_AS("short month", "Feb"), SAID_AS("short month", "Mar"),
                                        SAID_AS("short month", "Apr"), SAID_AS("short month", "May"), SAID_AS("short month", "Jun"),
                                        SAID_AS("short month", "Jul"), SAID_AS("short month", "Aug"), SAID_AS("short month", "Sep"),
                                        SAID_AS("short month", "Oct"), SAID_AS("short month", "Nov"), SAID_AS("short month", "Dec")};
    return length == SAID_LONG ? said_as(arena, "month", whole[month - 1]) : said_as(arena, "short month", brief[month - 1]);
}

int said_year(const struct arena *arena, int year)
{
    const struct language *language = arena_language(arena);
    return language ? year + language->years_ahead : year;
}

const char *said_unread(const struct arena *arena)
{
    const struct language *language = arena_language(arena);
    return language && !language->read ? said(arena, "words not yet read by a native speaker") : "";
}

bool said_rises(const struct arena *arena)
{
    const struct language *language = arena_language(arena);
    return language && language->rises;
}

const char *said_figures(struct arena *arena, const char *figures)
{
    const struct language *language = arena_language(arena);
    if (!language || language->decimal == '.' || !strchr(figures, '.'))
        return figures;
    char *own = arena_copy(arena, figures, strlen(figures));
    for (char *at = own; (at = strchr(at, '.')) != NULL;)
        *at = language->decimal;
    return own;
}

const char *said_hour(struct arena *arena, int seconds)
{
    const struct language *language = arena_language(arena);
    int hour = seconds / 3600 % 24, minute = seconds / 60 % 60;
    if (!language || !language->half_days)
        return arena_printf(arena, said_as(arena, "hour", "%d:%02d"), hour, minute);
    const char *form = hour < 12 ? said_as(arena, "hour", "%d:%02d a.m.") : said_as(arena, "hour", "%d:%02d p.m.");
    return arena_printf(arena, form, hour % 12 ? hour % 12 : 12, minute);
}
