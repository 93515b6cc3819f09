#include "done/felt.h"

#include <string.h>

#include "model/activity.h"
#include "model/occasion.h"

static milli middle(struct range range)
{
    return (range.low + range.high) / 2;
}

static const char *title(const struct occasion *occasion)
{
    return occasion->session ? occasion->session->first->name.shown : occasion->activity->name.shown;
}

size_t felt_of(struct arena *arena, const struct occasion *const *occasions, size_t count, int first, int last,
               struct felt **felt)
{
    size_t found = 0, capacity = 0;
    *felt = NULL;
    for (size_t i = 0; i < count; i++) {
        const struct occasion *occasion = occasions[i];
        if (occasion->date < first || occasion->date > last || occasion->rpe.high <= 0 || occasion->outcome.rpe.high <= 0)
            continue;
        size_t at = 0;
        while (at < found && strcmp((*felt)[at].what, title(occasion)) != 0)
            at++;
        if (at == found) {
            *felt = arena_grow(arena, *felt, found, &capacity, sizeof **felt);
            (*felt)[found++] = (struct felt){.what = title(occasion)};
        }
        (*felt)[at].count++;
        (*felt)[at].intended += middle(occasion->rpe);
        (*felt)[at].felt += middle(occasion->outcome.rpe);
    }
    for (size_t i = 0; i < found; i++) {
        milli n = (milli)(*felt)[i].count;
        (*felt)[i].intended = ((*felt)[i].intended + n / 2) / n;
        (*felt)[i].felt = ((*felt)[i].felt + n / 2) / n;
    }
    return found;
}
