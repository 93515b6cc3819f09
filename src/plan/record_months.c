#include "plan/record_months.h"

#include <stdio.h>
#include <string.h>

#include "figures/dates.h"

int record_month_end(const char *real, const char *root)
{
    static const char folder[] = "/record/";
    const char *name = strrchr(real, '/');
    size_t above = strlen(folder) - 1;
    int year, month, length = 0;
    if (!name || (size_t)(name - real) < above || strncmp(name - above, folder, strlen(folder)) != 0)
        return 0;
    bool asked_for = root && strlen(root) == (size_t)(name - real) && strncmp(root, real, strlen(root)) == 0;
    if (asked_for || sscanf(name + 1, "%4d-%2d.bell%n", &year, &month, &length) != 2 || length != 12 || name[13])
        return 0;
    int next = month == 12 ? date_from_ymd(year + 1, 1, 1) : date_from_ymd(year, month + 1, 1);
    return next ? next - 1 : 0;
}

/* The day of the line `held 2027-01-04 ...` at LINE, of which ROOM bytes are left, as it is written; or NULL. */
static const char *day_held(const char *line, size_t room)
{
    static const char held[] = "held ", form[] = "0000-00-00 ";
    size_t lead = strlen(held), length = strlen(form);
    if (room < lead + length || strncmp(line, held, lead) != 0)
        return NULL;
    for (size_t i = 0; i < length; i++)
        if (form[i] == '0' ? line[lead + i] < '0' || line[lead + i] > '9' : line[lead + i] != form[i])
            return NULL;
    return line + lead;
}

struct extent record_days_before(const char *text, size_t length, int from)
{
    char first[DATE_TEXT_SIZE];
    date_format(from, first);
    struct extent days = {0, 0};
    bool begun = false;
    for (size_t at = 0, next; at < length; at = next) {
        const char *end = memchr(text + at, '\n', length - at), *day = day_held(text + at, length - at);
        next = end ? (size_t)(end - text) + 1 : length;
        days.end = (uint32_t)at;
        if (!begun && day)
            days.start = (uint32_t)at;
        begun |= day != NULL;
        if (day && strncmp(day, first, strlen(first)) >= 0)
            return days;
        if (begun && !day && !strchr(" \n#", text[at]))
            return (struct extent){0, 0};
        days.end = (uint32_t)next;
    }
    return begun ? days : (struct extent){0, 0};
}

int first_camp_day(struct tree *const *trees, size_t count)
{
    int first = 0;
    for (size_t i = 0; i < count; i++) {
        const struct node *camp = node_find(trees[i]->root, STATEMENT_CAMP);
        for (; camp; camp = node_next_alike(camp)) {
            const struct node *starts = node_find(camp, STATEMENT_STARTS);
            int day = starts ? (int)starts->first->number : 0;
            first = day && (!first || day < first) ? day : first;
        }
    }
    return first;
}
