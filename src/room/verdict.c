/* What a timetable amounts to, in words for a coach. */
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "language/language.h"
#include "room/room.h"

enum { WAIT_WORTH_SAYING = 15 };

static int minutes(int seconds)
{
    return (seconds + 30) / 60;
}

const char *room_kit_called(struct arena *arena, const char *name)
{
    size_t figures = strspn(name, "0123456789.");
    bool pounds = strncmp(name + figures, " lb ", 4) == 0;
    if (!figures || (!pounds && strncmp(name + figures, " kg ", 4) != 0))
        return said_as(arena, "kit", name);
    const char *weight = arena_printf(arena, "%s %s", said_figures(arena, arena_copy(arena, name, figures)),
                                      pounds ? said_as(arena, "unit", "lb") : said_as(arena, "unit", "kg"));
    return arena_printf(arena, said_as(arena, "bar", "%1$s %2$s"), weight, said_as(arena, "kit", name + figures + 4));
}

/* COUNT pieces of KIND. Catalogues have words for one of them, which serve for several. */
static const char *kind_called(struct arena *arena, const struct room_kind *kind, size_t count)
{
    const char *name = room_kit_called(arena, kind->name);
    return count > 1 && strcmp(name, kind->name) == 0 ? kind->plural : name;
}

/* "41 and 39", the minutes of each piece of KIND. */
static size_t add_minutes(struct text *text, const struct room_table *table, int kind)
{
    size_t count = 0, added = 0;
    for (size_t i = 0; i < table->busy_count; i++)
        count += table->busy[i].kind == kind;
    for (size_t i = 0; i < table->busy_count; i++) {
        if (table->busy[i].kind != kind)
            continue;
        if (added++)
            text_add(text, added == count ? said_as(text->arena, "last", " and ") : ", ");
        text_addf(text, "%d", minutes(table->busy[i].seconds));
    }
    return count;
}

const char *room_bottleneck_words(struct arena *arena, const struct room *room, const struct room_table *table)
{
    struct text figures = {.arena = arena};
    if (table->bottleneck == ROOM_NONE)
        return said(arena, "kit delays nobody's end");
    const struct room_kind *kind = &room->kinds[table->bottleneck];
    size_t count = add_minutes(&figures, table, table->bottleneck);
    const char *busy = text_keep(arena, &figures);
    return arena_printf(arena, said(arena, "%s: %s of %d min busy"), kind_called(arena, kind, count), busy,
                        minutes(table->finish));
}

/* WAITS, "most of it before A3 (rack)", or before a bell. */
static const char *with_before(struct arena *arena, const char *waits, const struct room *room, const struct room_row *row)
{
    const struct room_block *block = &room->blocks[row->block];
    const char *name = said_as(arena, "block", block->name);
    if (block->bell)
        return arena_printf(arena, said(arena, "%s, most of it before the bell of %s"), waits, name);
    if (row->unit_count)
        return arena_printf(arena, said(arena, "%s, most of it before %s%d (%s)"), waits, name, row->set + 1,
                            room_kit_called(arena, room->kinds[row->units[0].kind].name));
    return arena_printf(arena, said(arena, "%s, most of it before %s%d"), waits, name, row->set + 1);
}

const char *room_wait_words(struct arena *arena, const struct room *room, const struct room_table *table, int athlete)
{
    const struct room_fare *fare = &table->fares[athlete];
    if (fare->wait < WAIT_WORTH_SAYING)
        return NULL;
    bool brief = fare->wait < 60;
    const char *form = brief ? said(arena, "%s waits %d s more than planned") : said(arena, "%s waits %d min more than planned");
    const char *words = arena_printf(arena, form, room->athletes[athlete].name, brief ? fare->wait : minutes(fare->wait));
    return fare->before == ROOM_NONE ? words : with_before(arena, words, room, &table->rows[fare->before]);
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
