/* What a timetable amounts to, in words for a coach. */
#include <stdlib.h>

#include "base/text.h"
#include "room/room.h"

enum { WAIT_WORTH_SAYING = 15 };

static int minutes(int seconds)
{
    return (seconds + 30) / 60;
}

/* "41 and 39", the minutes of each piece of KIND. */
static size_t add_minutes(struct text *text, const struct room_table *table, int kind)
{
    size_t count = 0, said = 0;
    for (size_t i = 0; i < table->busy_count; i++)
        count += table->busy[i].kind == kind;
    for (size_t i = 0; i < table->busy_count; i++) {
        if (table->busy[i].kind != kind)
            continue;
        if (said++)
            text_add(text, said == count ? " and " : ", ");
        text_addf(text, "%d", minutes(table->busy[i].seconds));
    }
    return count;
}

const char *room_bottleneck_words(struct arena *arena, const struct room *room, const struct room_table *table)
{
    struct text figures = {.arena = arena};
    if (table->bottleneck == ROOM_NONE)
        return "kit delays nobody's end";
    const struct room_kind *kind = &room->kinds[table->bottleneck];
    size_t count = add_minutes(&figures, table, table->bottleneck);
    const char *busy = text_keep(arena, &figures);
    return arena_printf(arena, "%s: %s of %d min busy", count > 1 ? kind->plural : kind->name, busy,
                        minutes(table->finish));
}

/* " before A3 (rack)", or before a bell. */
static const char *before_words(struct arena *arena, const struct room *room, const struct room_row *row)
{
    const struct room_block *block = &room->blocks[row->block];
    if (block->bell)
        return arena_printf(arena, "before the bell of %s", block->name);
    if (row->unit_count)
        return arena_printf(arena, "before %s%d (%s)", block->name, row->set + 1, room->kinds[row->units[0].kind].name);
    return arena_printf(arena, "before %s%d", block->name, row->set + 1);
}

const char *room_wait_words(struct arena *arena, const struct room *room, const struct room_table *table, int athlete)
{
    const struct room_fare *fare = &table->fares[athlete];
    if (fare->wait < WAIT_WORTH_SAYING)
        return NULL;
    bool brief = fare->wait < 60;
    const char *words = arena_printf(arena, "%s waits %d %s more than planned", room->athletes[athlete].name,
                                     brief ? fare->wait : minutes(fare->wait), brief ? "s" : "min");
    if (fare->before == ROOM_NONE)
        return words;
    return arena_printf(arena, "%s, most of it %s", words, before_words(arena, room, &table->rows[fare->before]));
}

/* --- too many --- */

/* Seconds for which ATHLETE holds pieces of KIND. */
static long held(const struct room *room, size_t athlete, int kind)
{
    long seconds = 0;
    for (size_t b = 0; b < room->block_count; b++) {
        const struct room_part *part = &room->athletes[athlete].parts[b];
        for (size_t s = 0; s < part->set_count; s++)
            for (size_t i = 0; i < part->sets[s].item_count; i++) {
                const struct room_item *item = &part->sets[s].items[i];
                for (size_t n = 0; n < item->need_count; n++)
                    seconds += item->needs[n].kind == kind ? (long)item->work * item->needs[n].count : 0;
            }
    }
    return seconds;
}

static int by_length(const void *a, const void *b)
{
    const long *x = a, *y = b;
    return (*x > *y) - (*x < *y);
}

/* Says how far KIND falls short, or NULL. Those who need it for the shortest time are counted first: more than that
 * can never fit in. */
static const char *too_many_words(struct arena *arena, const struct room *room, int kind)
{
    const struct room_kind *kit = &room->kinds[kind];
    long *each = arena_alloc(arena, (room->athlete_count + 1) * sizeof *each), all = 0, served = 0;
    long there = (long)room->doors * kit->count;
    size_t count = 0, can = 0;
    for (size_t i = 0; i < room->athlete_count; i++) {
        each[count] = held(room, i, kind);
        all += each[count];
        count += each[count] > 0;
    }
    if (all <= there)
        return NULL;
    qsort(each, count, sizeof *each, by_length);
    while (served + each[can] <= there)
        served += each[can++];
    return arena_printf(arena, "the sets of %zu athletes take %ld min of work at %d %s, %s there for %d min: at most %zu of them "
                               "fit in", count, (all + 59) / 60, kit->count, kit->count == 1 ? kit->name : kit->plural,
                        kit->count == 1 ? "which is" : "which are", room->doors / 60, can);
}

const char *room_serves_words(struct arena *arena, const struct room *room)
{
    const char *words = NULL;
    for (int kind = 0; room->doors != ROOM_NONE && kind < (int)room->kind_count && !words; kind++)
        words = too_many_words(arena, room, kind);
    return words;
}

const char *room_bound_words(struct arena *arena, const struct room_table *table)
{
    if (table->finish <= table->bound)
        return "this is the earliest possible";
    return arena_printf(arena, "no timetable ends before %d min", table->bound / 60);
}
