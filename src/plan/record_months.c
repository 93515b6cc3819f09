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
