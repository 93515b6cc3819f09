#include "figures/zone.h"

#include <string.h>

#include "base/arena.h"
#include "base/text.h"
#include "figures/dates.h"
#include "figures/zone_rule.h"

enum { DAY = 86400, EPOCH = 719163 /* 1970-01-01 */, LONGEST_NAME = 64 };

struct zone {
    const char *name;
    const int64_t *changes;      /* rising */
    const unsigned char *kinds;  /* what holds from each of them, a place in CLOCKS */
    size_t change_count;
    const struct zone_clocks *clocks;
    bool ruled;                  /* RULE holds from the last of the changes */
    struct zone_rule rule;
};

/* --- reading --- */

/* RFC 9636, 3.1: what stands in front of a block of data. */
enum { HEADER = 44, COUNTS = 20, MOST_CHANGES = 20000, MOST_CLOCKS = 256, MOST_LETTERS = 4096, MOST_LEAPS = 10000,
       FARTHEST_WEST = -25 * 3600, FARTHEST_EAST = 26 * 3600 };

/* Sums with moments beyond would not fit; the beginning of time, as some files have it, is nearer. */
static const int64_t FARTHEST = INT64_C(1) << 60;

struct counts {
    uint32_t ut, standard, leaps, changes, clocks, letters;
};

static uint32_t number_at(const unsigned char *at)
{
    return (uint32_t)at[0] << 24 | (uint32_t)at[1] << 16 | (uint32_t)at[2] << 8 | at[3];
}

/* The counts of the header at AT, of which LENGTH bytes are there, and how long its block is where a moment has WIDE bytes;
 * 0: it is none. */
static size_t read_header(const unsigned char *at, size_t length, size_t wide, struct counts *counts)
{
    if (length < HEADER || memcmp(at, "TZif", 4) != 0 || at[4] < '2')
        return 0;
    at += COUNTS;
    *counts = (struct counts){number_at(at), number_at(at + 4), number_at(at + 8), number_at(at + 12), number_at(at + 16),
                              number_at(at + 20)};
    if (counts->changes > MOST_CHANGES || counts->clocks > MOST_CLOCKS || counts->letters > MOST_LETTERS ||
        counts->leaps > MOST_LEAPS || counts->ut > MOST_CLOCKS || counts->standard > MOST_CLOCKS)
        return 0;
    size_t block = counts->changes * (wide + 1) + (size_t)counts->clocks * 6 + counts->letters + counts->leaps * (wide + 4) +
                   counts->standard + counts->ut;
    return length - HEADER >= block ? HEADER + block : 0;
}

static bool read_changes(struct arena *arena, struct zone *zone, const unsigned char *at, const struct counts *counts)
{
    int64_t *changes = arena_alloc(arena, ((size_t)counts->changes + 1) * sizeof *changes);
    const unsigned char *kinds = at + (size_t)counts->changes * 8;
    for (uint32_t i = 0; i < counts->changes; i++, at += 8) {
        uint64_t bits = (uint64_t)number_at(at) << 32 | number_at(at + 4);
        memcpy(&changes[i], &bits, sizeof bits);
        if (kinds[i] >= counts->clocks || (i && changes[i] <= changes[i - 1]) || changes[i] < -FARTHEST || changes[i] > FARTHEST)
            return false;
    }
    zone->changes = changes;
    zone->kinds = (const unsigned char *)arena_copy(arena, (const char *)kinds, counts->changes);
    zone->change_count = counts->changes;
    return true;
}

static bool read_clocks(struct arena *arena, struct zone *zone, const unsigned char *at, const struct counts *counts)
{
    const char *letters = arena_copy(arena, (const char *)at + (size_t)counts->clocks * 6, counts->letters);
    struct zone_clocks *clocks = arena_alloc(arena, (size_t)counts->clocks * sizeof *clocks);
    for (uint32_t i = 0; i < counts->clocks; i++, at += 6) {
        int64_t ahead = number_at(at);
        ahead = ahead > INT32_MAX ? ahead - ((int64_t)UINT32_MAX + 1) : ahead;
        if (ahead <= FARTHEST_WEST || ahead >= FARTHEST_EAST || at[4] > 1 || at[5] >= counts->letters)
            return false;
        clocks[i] = (struct zone_clocks){(int)ahead, at[4] == 1, letters + at[5]};
        for (const char *letter = clocks[i].letters; *letter; letter++)
            if (*letter <= ' ' || *letter > '~') /* it stands in calendars */
                return false;
    }
    zone->clocks = clocks;
    return counts->clocks > 0;
}

/* The rule between two line ends; none at all is allowed. */
static bool read_end(struct arena *arena, struct zone *zone, const unsigned char *at, size_t length)
{
    const unsigned char *end = length ? memchr(at + 1, '\n', length - 1) : NULL;
    if (!end || *at != '\n')
        return false;
    size_t size = (size_t)(end - at) - 1;
    zone->ruled = size > 0;
    return !size || zone_rule_read(arena, (const char *)at + 1, size, &zone->rule);
}

const struct zone *zone_read(struct arena *arena, const char *name, const void *bytes, size_t length)
{
    const unsigned char *at = bytes;
    struct counts counts;
    struct zone *zone = arena_alloc(arena, sizeof *zone);
    *zone = (struct zone){.name = name};
    size_t old = read_header(at, length, 4, &counts); /* for readers of 32 bits, and passed over */
    size_t block = old ? read_header(at + old, length - old, 8, &counts) : 0;
    /* Files that count leap seconds have moments of their own. */
    if (!block || counts.leaps || !read_changes(arena, zone, at + old + HEADER, &counts) ||
        !read_clocks(arena, zone, at + old + HEADER + (size_t)counts.changes * 9, &counts) ||
        !read_end(arena, zone, at + old + block, length - old - block))
        return NULL;
    return zone;
}

/* --- names --- */

bool zone_is_name(const char *name)
{
    size_t length = strlen(name);
    if (length > LONGEST_NAME || *name < 'A' || *name > 'Z')
        return false;
    for (const char *at = name; *at; at++) {
        bool letter = (*at >= 'A' && *at <= 'Z') || (*at >= 'a' && *at <= 'z') || *at == '_';
        bool other = (*at >= '0' && *at <= '9') || *at == '-' || *at == '+' || (*at == '/' && at[1] && at[1] != '/');
        if (!letter && !other)
            return false;
    }
    return true;
}

const char *zone_name(const struct zone *zone)
{
    return zone->name;
}

const char *zone_place(struct arena *arena, const struct zone *zone)
{
    const char *slash = strrchr(zone->name, '/'), *from = slash ? slash + 1 : zone->name;
    char *place = arena_copy(arena, from, strlen(from));
    for (char *at = place; *at; at++)
        if (*at == '_')
            *at = ' ';
    return place;
}

/* --- clocks --- */

/* How many changes are at or before MOMENT. */
static size_t changes_until(const struct zone *zone, int64_t moment)
{
    size_t low = 0, high = zone->change_count;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (zone->changes[middle] <= moment)
            low = middle + 1;
        else
            high = middle;
    }
    return low;
}

struct zone_clocks zone_at(const struct zone *zone, int64_t moment)
{
    size_t past = changes_until(zone, moment);
    if (past == zone->change_count && zone->ruled)
        return zone_rule_at(&zone->rule, moment);
    return zone->clocks[past ? zone->kinds[past - 1] : 0];
}

int64_t zone_change_after(const struct zone *zone, int64_t moment)
{
    for (size_t next = changes_until(zone, moment); next < zone->change_count; next++) {
        struct zone_clocks before = zone_at(zone, zone->changes[next] - 1), after = zone_at(zone, zone->changes[next]);
        if (before.ahead != after.ahead || before.summer != after.summer || strcmp(before.letters, after.letters) != 0)
            return zone->changes[next];
        moment = zone->changes[next]; /* tables may have some that change nothing */
    }
    return zone->ruled ? zone_rule_change_after(&zone->rule, moment) : ZONE_NEVER;
}

int64_t zone_moment(const struct zone *zone, int date, int clock, enum zone_hour *how)
{
    /* Clocks of a day before and of a day after: no zone changes them more often. */
    int64_t shown = (int64_t)(date - EPOCH) * DAY + clock;
    int64_t before = zone_at(zone, shown - DAY).ahead, after = zone_at(zone, shown + DAY).ahead;
    bool still = zone_at(zone, shown - before).ahead == before, already = zone_at(zone, shown - after).ahead == after;
    if (how)
        *how = still && already && before != after ? ZONE_TWICE : still || already ? ZONE_ONCE : ZONE_SKIPPED;
    return shown - (still || !already ? before : after);
}

int zone_ahead(int date, int clock, int64_t moment)
{
    return (int)((int64_t)(date - EPOCH) * DAY + clock - moment);
}

void zone_shown(int64_t moment, int ahead, int *date, int *clock)
{
    int64_t shown = moment + ahead, days = shown >= 0 ? shown / DAY : -((-shown + DAY - 1) / DAY);
    *date = EPOCH + (int)days;
    *clock = (int)(shown - days * DAY);
}
