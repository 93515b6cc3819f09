/* resolve_zones.c - how many time zones a journey crosses. */
#include <string.h>

#include "model/activity.h"
#include "model/occasion.h"
#include "resolve/place.h"

/* Most of the way around is the shorter way round. */
enum { MOST_ZONES = 14000, QUARTER = 250 /* thousandths of an hour */ };

milli zones_read(struct resolver *r, const struct node *node, const struct activity *activity)
{
    const struct node *line = resolver_single(r, node, STATEMENT_TIME_ZONES);
    if (!line)
        return 0;
    const struct node *number = line->first, *way = number->next;
    const char *folded = resolver_fold(r, way);
    bool east = strcmp(folded, "east") == 0;
    if (activity ? !activity->rest : node->kind != STATEMENT_HELD) {
        struct finding *finding = diag_error(r->diag, DIAG_BAD_TIME_ZONES, line->span, "only a journey crosses time zones");
        diag_help(r->diag, finding, "put this line below the `travel`");
        return 0;
    }
    if (!east && strcmp(folded, "west") != 0) {
        diag_error(r->diag, DIAG_BAD_TIME_ZONES, way->span, "time zones are crossed `east` or `west`");
        return 0;
    }
    if (number->kind != NODE_NUMBER || number->code || number->number < QUARTER || number->number > MOST_ZONES ||
        number->number % QUARTER) {
        diag_error(r->diag, DIAG_BAD_TIME_ZONES, number->span, "a journey crosses up to 14 time zones, in quarters of an hour");
        return 0;
    }
    return east ? number->number : -number->number;
}
