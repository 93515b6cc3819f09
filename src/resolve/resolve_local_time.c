/* resolve_local_time.c - by which clocks written hours are. The zones are the machine's own, below TZDIR or where systems keep
 * them; each is read once a compile. */
#include "resolve/local_time.h"

#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/text.h"
#include "figures/dates.h"
#include "figures/zone.h"
#include "model/athlete.h"
#include "model/gym.h"
#include "model/season.h"
#include "resolve/whereabouts.h"
#include "source/source.h"

enum { MOST_ZONE_DAYS = 200, MOST_LISTED = 2000 };

/* A zone that was asked for. */
struct known_zone {
    const char *name;
    const struct zone *zone; /* NULL: there is none that could be read, because: */
    const char *wrong;       /* NULL: there is none of the name */
    const struct known_zone *next;
};

/* A zone of the machine's list. */
struct listed_zone {
    const char *name, *compared; /* as it is written; as it is compared with what was meant */
};

struct clocks {
    const char *folder;
    bool no_folder;
    const struct known_zone *zones;
    struct listed_zone *names;
    size_t name_count, compared; /* how often they were */
    bool listed;                 /* they are read */
    struct {           /* the hour worked out last; many athletes share one */
        const struct zone *zone;
        int date, clock, ahead;
        enum zone_hour how;
    } last;
    const void *reported; /* the line whose hour was reported last as skipped */
};

static struct clocks *clocks_of(struct resolver *r)
{
    if (r->clocks)
        return r->clocks;
    const char *folder = getenv("TZDIR");
    r->clocks = arena_alloc(r->arena, sizeof *r->clocks);
    *r->clocks = (struct clocks){.folder = folder && *folder ? folder : "/usr/share/zoneinfo"};
    r->clocks->no_folder = access(r->clocks->folder, R_OK | X_OK) != 0;
    return r->clocks;
}

/* --- names --- */

/* NAME of LENGTH as it is compared: in small letters, with spaces for what stands for them. */
static const char *compared(struct resolver *r, const char *name, size_t length)
{
    char *text = arena_copy(r->arena, name, length);
    for (char *at = text; *at; at++) {
        if (*at >= 'A' && *at <= 'Z')
            *at = (char)(*at - 'A' + 'a');
        else if (*at == '_')
            *at = ' ';
    }
    return text;
}

/* Reads the machine's list, once. Its lines are a country, a place on the globe, the zone and words, parted by tabs. */
static void read_list(struct resolver *r, struct clocks *clocks)
{
    size_t length, capacity = 0;
    const char *wrong, *path = arena_printf(r->arena, "%s/zone.tab", clocks->folder);
    const char *line = clocks->listed ? NULL : source_bytes(r->arena, path, &length, &wrong);
    clocks->listed = true;
    for (; line && *line; line += strcspn(line, "\n"), line += *line == '\n') {
        const char *tab = *line == '#' ? NULL : strchr(line, '\t');
        const char *name = tab ? strchr(tab + 1, '\t') : NULL;
        if (!name || memchr(line, '\n', (size_t)(name - line)) || clocks->name_count == MOST_LISTED)
            continue;
        length = strcspn(++name, "\t\n");
        struct listed_zone listed = {arena_copy(r->arena, name, length), compared(r, name, length)};
        clocks->names = arena_grow(r->arena, clocks->names, clocks->name_count, &capacity, sizeof *clocks->names);
        if (zone_is_name(listed.name))
            clocks->names[clocks->name_count++] = listed;
    }
}

/* How far the zone LISTED is from what was WRITTEN, both as compared: its place alone will do. */
static unsigned distance(const char *written, const char *listed)
{
    enum { NEAR = 2 };
    const char *slash = strrchr(listed, '/'), *place = slash ? slash + 1 : listed;
    unsigned whole = text_distance(written, listed, NEAR), part = text_distance(written, place, NEAR);
    return whole < part ? whole : part;
}

/* The zone of the machine's list that WRITTEN most likely means, or NULL. */
static const char *nearest_zone(struct resolver *r, const char *written)
{
    enum { MOST_COMPARED = 500000 }; /* beyond, as in names_nearest */
    struct clocks *clocks = clocks_of(r);
    const char *words = compared(r, written, strlen(written)), *nearest = NULL;
    unsigned least = 3;
    read_list(r, clocks);
    for (size_t i = 0; i < clocks->name_count && least && clocks->compared < MOST_COMPARED; i++) {
        unsigned far = distance(words, clocks->names[i].compared);
        clocks->compared++;
        if (far >= least)
            continue;
        least = far;
        nearest = clocks->names[i].name;
    }
    return nearest;
}

/* --- reading --- */

static const struct known_zone *look_up(struct resolver *r, const char *name)
{
    struct clocks *clocks = clocks_of(r);
    struct known_zone *known;
    for (const struct known_zone *old = clocks->zones; old; old = old->next)
        if (strcmp(old->name, name) == 0)
            return old;
    const char *path = arena_printf(r->arena, "%s/%s", clocks->folder, name);
    known = arena_alloc(r->arena, sizeof *known);
    *known = (struct known_zone){.name = name, .next = clocks->zones};
    if (!zone_is_name(name) || access(path, F_OK) != 0)
        return known;
    clocks->zones = known; /* there are no more of these than files */
    size_t length = 0;
    const char *bytes = source_bytes(r->arena, path, &length, &known->wrong);
    known->zone = bytes ? zone_read(r->arena, name, bytes, length) : NULL;
    if (bytes && !known->zone)
        known->wrong = "this is not a file of a time zone, or it is damaged";
    return known;
}

static void report_unknown(struct resolver *r, const struct node *name, const struct known_zone *known)
{
    static const char files[] = "install the package `tzdata`, or name the folder of the files in TZDIR";
    struct finding *finding;
    if (clocks_of(r)->no_folder) {
        finding = diag_error(r->diag, DIAG_UNKNOWN_TIME_ZONE, name->span,
                             "this machine has no time-zone files, so `%s` cannot be looked up", name->text);
        diag_help(r->diag, finding, files);
        return;
    }
    if (known->wrong) {
        finding = diag_error(r->diag, DIAG_UNKNOWN_TIME_ZONE, name->span, "the time zone `%s` cannot be read: %s", name->text,
                             known->wrong);
        diag_help(r->diag, finding, files);
        return;
    }
    const char *nearest = nearest_zone(r, name->text);
    finding = diag_error(r->diag, DIAG_UNKNOWN_TIME_ZONE, name->span, "there is no time zone called `%s`", name->text);
    if (nearest) {
        diag_help(r->diag, finding, "did you mean `%s`?", nearest);
        diag_fix(r->diag, finding, name->span, nearest);
    } else {
        diag_help(r->diag, finding, "name a large city in it, after its part of the world: `time zone Europe/London`");
    }
}

/* The zone that NAME names; NULL where there is none, which is reported. */
static const struct zone *find_zone(struct resolver *r, const struct node *name)
{
    const struct known_zone *known = look_up(r, name->text);
    if (!known->zone)
        report_unknown(r, name, known);
    return known->zone;
}

const struct zone *gym_zone_read(struct resolver *r, const struct node *node)
{
    const struct node *line = resolver_single(r, node, STATEMENT_TIME_ZONE);
    return line ? find_zone(r, line->first) : NULL;
}

const struct zone *held_zone_read(struct resolver *r, const struct node *node)
{
    const struct node *line = resolver_single(r, node, STATEMENT_HELD_ZONE);
    return line ? find_zone(r, line->first) : NULL;
}

void zone_days_read(struct resolver *r, const struct node *node, const struct zone_days **days, size_t *count)
{
    struct zone_days *list = NULL;
    size_t capacity = 0;
    const char *whose = node->kind == STATEMENT_CAMP ? "a camp" : "an athlete";
    for (const struct node *line = node_find(node, STATEMENT_ZONE_DAYS); line; line = node_next_alike(line)) {
        struct zone_days one = {.span = line->span};
        if (resolver_is_full(r, days, *count, MOST_ZONE_DAYS, line->span, whose, "lines `time zone`"))
            return;
        if (!whereabouts_days(r, line, &one.first, &one.last) || !(one.zone = find_zone(r, line->first)))
            continue;
        list = arena_grow(r->arena, list, *count, &capacity, sizeof *list);
        list[(*count)++] = one;
        *days = list;
    }
}

bool zone_days_check(struct resolver *r, const struct zone_days *days, size_t count, const struct athlete *athlete)
{
    const struct gym *gym = athlete->gym;
    if (!count || (gym && (gym->zone || resolver_is_poisoned(r, gym))))
        return false;
    struct finding *finding = diag_report(r->diag, SEVERITY_WARNING, DIAG_HOME_ZONE_MISSING, days->span,
                                          "nothing says which time zone %s is in on other days", athlete->name.shown);
    if (gym)
        diag_help(r->diag, finding, "write it below the gym `%s`, in a line such as `time zone Europe/London`", gym->name.shown);
    else
        diag_help(r->diag, finding, "let %s train at a gym whose time zone is written down", athlete->name.shown);
    return true;
}

/* --- what is placed --- */

/* The last of the COUNT DAYS that DAY is one of: its zone, or NULL. */
static const struct zone *zone_on(const struct zone_days *days, size_t count, int day)
{
    while (count-- > 0)
        if (day >= days[count].first && day <= days[count].last)
            return days[count].zone;
    return NULL;
}

/* A gym that a line `at` names is where it is. Elsewhere the days of the athlete come first, and then those of the camp. */
static const struct zone *zone_of(const struct occasion *occasion)
{
    const struct athlete *athlete = occasion->athlete;
    const struct camp *camp = occasion->camp;
    if (occasion->gym && occasion->gym->zone)
        return occasion->gym->zone;
    const struct zone *zone = zone_on(athlete->zone_days, athlete->zone_day_count, occasion->date);
    if (!zone && camp)
        zone = zone_on(camp->zone_days, camp->zone_day_count, occasion->date);
    return zone || !athlete->gym ? zone : athlete->gym->zone;
}

static void report_skipped(struct resolver *r, const struct occasion *occasion)
{
    char date[DATE_TEXT_SIZE];
    struct clocks *clocks = clocks_of(r);
    if (clocks->reported == occasion->place)
        return;
    clocks->reported = occasion->place;
    date_format(occasion->date, date);
    struct finding *finding = diag_report(
        r->diag, SEVERITY_WARNING, DIAG_HOUR_SKIPPED, occasion->span, "the clocks of `%s` are put forward on %s, and never show %02d:%02d",
        zone_name(occasion->zone), date, occasion->clock / 3600, occasion->clock / 60 % 60);
    diag_help(r->diag, finding, "write the hour that the clocks show when it begins");
}

void settle_clocks(struct resolver *r, struct occasion *occasion)
{
    if (!occasion->held)
        occasion->zone = zone_of(occasion);
    if (!occasion->zone || occasion->clock < 0)
        return;
    struct clocks *clocks = clocks_of(r);
    int clock = occasion->clock;
    if (clocks->last.zone != occasion->zone || clocks->last.date != occasion->date || clocks->last.clock != clock) {
        clocks->last.zone = occasion->zone;
        clocks->last.date = occasion->date;
        clocks->last.clock = clock;
        int64_t moment = zone_moment(occasion->zone, occasion->date, clock, &clocks->last.how);
        clocks->last.ahead = zone_ahead(occasion->date, clock, moment);
    }
    occasion->ahead = clocks->last.ahead;
    if (!occasion->held && clocks->last.how == ZONE_SKIPPED)
        report_skipped(r, occasion);
}
