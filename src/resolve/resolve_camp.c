#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "figures/dates.h"
#include "measure/member.h"
#include "model/athlete.h"
#include "model/limit.h"
#include "model/season.h"
#include "resolve/calendar.h"
#include "resolve/local_time.h"
#include "resolve/whereabouts.h"
#include "resolve/place.h"
#include "resolve/template.h"
#include "source/span_order.h"

/* Where NAMES stop being one, if a word or a sign that is no comma parts two; and how long that is. */
static const char *other_comma(const char *names, size_t *length)
{
    static const char *const between[] = {" and", " &", ";", " /", " +"};
    for (size_t i = 0; i < sizeof between / sizeof *between; i++) {
        const char *found = strstr(names, between[i]);
        *length = strlen(between[i]);
        if (found && found[*length] == ' ')
            return found;
    }
    return NULL;
}

/* `Oriel Tamsin and Kofi Brandreth` is read as one name, which nobody has. */
static bool report_and(struct resolver *r, const struct node *name)
{
    size_t length = 0;
    const char *and = other_comma(name->text, &length);
    if (!and || names_find(r->athletes, resolver_fold(r, name)) ||
        !names_find(r->athletes, text_fold(r->arena, name->text, (size_t)(and - name->text))))
        return false;
    uint32_t start = name->span.start + (uint32_t)(and - name->text);
    struct span at = {name->span.file, start, start + (uint32_t)length};
    struct finding *finding = diag_error(r->diag, DIAG_MISSING_COMMA, at, "a comma separates one athlete from the "
                                                                          "next");
    diag_fix(r->diag, finding, at, ",");
    diag_help(r->diag, finding, "write `%.*s, %s`", (int)(and - name->text), name->text, and + length + 1);
    resolver_poison(r, r->programme, at);
    return true;
}

const struct athlete *resolver_athlete(struct resolver *r, const struct node *name)
{
    return report_and(r, name) ? NULL : resolver_find(r, name, "athlete", r->athletes);
}

/* Reads from when to when the athlete at NAME is in CAMP into MEMBER; false where that is no time at all. */
static bool read_membership(struct resolver *r, const struct node *name, struct membership *member)
{
    const struct node *from = NULL, *until = NULL;
    for (const struct node *part = name->next; part && part->kind != NODE_NAME; part = part->next) {
        const struct node **said = part->kind == NODE_FROM ? &from : &until;
        if (*said)
            diag_error(r->diag, DIAG_SAID_TWICE, part->span, "this says twice %s", part->kind == NODE_FROM ? "from when" : "until when");
        *said = part;
    }
    *member = (struct membership){from ? (int)from->first->number : 0, until ? (int)until->first->number : DATE_LAST};
    if (member->last >= member->first)
        return true;
    diag_error(r->diag, DIAG_ENDS_BEFORE_START, until->span, "this ends before it begins");
    return false;
}

static bool is_dated(const struct node *statement)
{
    return node_find(statement, NODE_FROM) || node_find(statement, NODE_UNTIL);
}

struct member_named {
    const struct athlete *athlete;
    struct membership when;
    const struct node *name;
    size_t place; /* among the camp's */
};

static int by_athlete_and_day(const void *left, const void *right)
{
    const struct member_named *a = left, *b = right;
    if (a->athlete != b->athlete)
        return a->athlete->number < b->athlete->number ? -1 : 1;
    if (a->when.first != b->when.first)
        return a->when.first < b->when.first ? -1 : 1;
    return span_order(a->name->span, b->name->span);
}

/* Who is named twice for one day would do everything twice: the later of the two is taken out of MEMBERS, and true is
 * returned. Whoever left may come back later. */
static bool drop_named_twice(struct resolver *r, struct member_named *named, size_t count, struct membership *members)
{
    bool any = false;
    if (count > 1)
        qsort(named, count, sizeof *named, by_athlete_and_day);
    for (size_t i = 1, before = 0; i < count; i++) {
        if (named[i].athlete != named[before].athlete || named[i].when.first > named[before].when.last) {
            before = i;
            continue;
        }
        bool later = span_order(named[i].name->span, named[before].name->span) > 0;
        const struct member_named *dropped = &named[later ? i : before], *kept = &named[later ? before : i];
        const char *who = kept->athlete->name.shown;
        struct finding *finding = diag_error(r->diag, DIAG_SAID_TWICE, dropped->name->span, "%s is in this camp already", who);
        diag_note(r->diag, finding, kept->name->span, "here");
        diag_help(r->diag, finding, "leave one of the two out, or let one end before the other begins: `%s until` a date, "
                                    "then `%s from` a later one", who, who);
        members[dropped->place] = (struct membership){DATE_LAST, 0};
        before = later ? before : i;
        any = true;
    }
    return any;
}

static void read_members(struct resolver *r, const struct node *node, struct camp *camp)
{
    const struct node *statement = resolver_single(r, node, STATEMENT_MEMBERS);
    struct membership *members = NULL;
    struct member_named *named = NULL;
    size_t capacity = 0, room = 0, named_room = 0;
    if (!statement && resolver_is_poisoned(r, camp))
        return;
    if (!statement) {
        resolver_poison(r, camp, node->first->span);
        struct finding *finding = diag_error(r->diag, DIAG_CAMP_FOR_NOBODY, node->first->span,
                                             "`%s` does not say who it is for", camp->name.shown);
        diag_help(r->diag, finding, "add a line `for` with the athletes' names");
        return;
    }
    for (const struct node *name = statement->first; name; name = name->next) {
        struct membership member;
        if (name->kind != NODE_NAME)
            continue;
        const struct athlete *athlete = resolver_athlete(r, name);
        if (!athlete || !read_membership(r, name, &member))
            continue;
        members = arena_grow(r->arena, members, camp->athlete_count, &room, sizeof *members);
        members[camp->athlete_count] = member;
        named = arena_grow(r->arena, named, camp->athlete_count, &named_room, sizeof *named);
        named[camp->athlete_count] = (struct member_named){athlete, member, name, camp->athlete_count};
        camp->athletes = arena_grow(r->arena, camp->athletes, camp->athlete_count, &capacity,
                                    sizeof *camp->athletes);
        camp->athletes[camp->athlete_count++] = athlete;
    }
    bool twice = drop_named_twice(r, named, camp->athlete_count, members);
    camp->members = twice || is_dated(statement) ? members : NULL;
}

/* Is BOUT within reach of the start of CAMP, at STARTS? Reports where it is not. */
static bool is_in_reach(struct resolver *r, const struct camp *camp, const struct node *starts, const struct bout *bout)
{
    if (starts && bout->day < camp->first) {
        struct finding *finding = diag_error(r->diag, DIAG_BOUT_BEFORE_START, bout->span,
                                             "the bout comes before the camp starts");
        diag_note(r->diag, finding, starts->span, "the start is here");
    } else if (starts && bout->day - camp->first > MOST_WEEKS * 7) {
        diag_error(r->diag, DIAG_CAMP_TOO_LONG, bout->span, "a camp is at most %d weeks long, and this bout is %d days "
                   "after its start", MOST_WEEKS, bout->day - camp->first);
    } else {
        return true;
    }
    resolver_poison(r, camp, bout->span);
    return false;
}

/* Puts BOUT among those of CAMP, which are in the order of their days; false, which is reported, if it shares days with
 * another. */
static bool put_bout(struct resolver *r, struct camp *camp, struct bout *bout)
{
    size_t at = camp->bout_count;
    while (at > 0 && camp->bouts[at - 1]->day > bout->day)
        at--;
    const struct bout *before = at > 0 ? camp->bouts[at - 1] : NULL, *after = at < camp->bout_count ? camp->bouts[at] : NULL;
    const struct bout *other = before && before->last >= bout->day ? before : after && after->day <= bout->last ? after : NULL;
    if (other) {
        struct finding *finding = diag_error(r->diag, DIAG_BAD_BOUT, bout->span, "two bouts of a camp are on the same days");
        diag_note(r->diag, finding, other->span, "the other bout is here");
        diag_help(r->diag, finding, "a tournament has all its days in one line: `bout 2027-02-12, 2027-02-13 boxing`");
        return false;
    }
    memmove(camp->bouts + at + 1, camp->bouts + at, (camp->bout_count - at) * sizeof *camp->bouts);
    camp->bouts[at] = bout;
    camp->bout_count++;
    return true;
}

/* Whether lines are out of order depends on the days as they were planned: a bout may be postponed behind the next. */
static void read_bouts(struct resolver *r, const struct node *node, const struct node *starts, struct camp *camp)
{
    enum { MOST_BOUTS = 20 };
    const struct bout *before = NULL;
    size_t capacity = 0;
    for (const struct node *line = node_find(node, STATEMENT_BOUT); line; line = node_next_alike(line)) {
        if (camp->bout_count == MOST_BOUTS) {
            diag_error(r->diag, DIAG_BAD_BOUT, line->span, "a camp has at most %d bouts", MOST_BOUTS);
            return;
        }
        struct bout *bout = resolve_bout(r, line);
        if (!is_in_reach(r, camp, starts, bout))
            continue;
        if (before && bout_as_planned(bout, 0) < bout_as_planned(before, 0))
            diag_error(r->diag, DIAG_BAD_BOUT, line->span, "the bouts of a camp follow one another");
        before = bout;
        camp->bouts = arena_grow(r->arena, camp->bouts, camp->bout_count, &capacity, sizeof *camp->bouts);
        if (!put_bout(r, camp, bout))
            resolver_poison(r, camp, line->span);
    }
}

static void read_days(struct resolver *r, const struct node *node, struct camp *camp)
{
    const struct node *starts = resolver_single(r, node, STATEMENT_STARTS);
    if (starts) {
        camp->first = (int)starts->first->number;
    } else if (!resolver_is_poisoned(r, camp)) {
        resolver_poison(r, camp, node->span);
        struct finding *finding = diag_error(r->diag, DIAG_NO_START, node->first->span, "`%s` has no start",
                                             camp->name.shown);
        diag_help(r->diag, finding, "add a line `starts` with a day such as 2027-03-01");
    }
    read_bouts(r, node, starts, camp);
}

/* How many lines LIMITS have, with those that they are based on; each is one at least. */
static size_t count_lines(const struct limits *limits)
{
    size_t lines = 0;
    for (; limits; limits = limits->base)
        lines += limits->count ? limits->count : 1;
    return lines;
}

void camp_take_house_limits(struct resolver *r, struct camp *camp)
{
    const struct limits *house = names_find(r->limits, "house defaults");
    if (!house)
        return;
    camp->limits = arena_alloc(r->arena, sizeof *camp->limits);
    camp->limits[camp->limits_count++] = house;
}

static void read_limits_in_force(struct resolver *r, const struct node *node, struct camp *camp)
{
    enum { MOST_LIMITS = 1000 };
    size_t capacity = 0, lines = 0;
    for (const struct node *child = node->first; child; child = child->next) {
        if (child->kind != STATEMENT_IN_FORCE)
            continue;
        const struct limits *limits = resolver_find(r, child->first, "limits", r->limits);
        if (!limits)
            continue;
        lines += count_lines(limits);
        if (lines > MOST_LIMITS) {
            diag_error(r->diag, DIAG_TOO_MANY_LIMITS, child->span, "more than %d limits are in force in one camp", MOST_LIMITS);
            break;
        }
        camp->limits = arena_grow(r->arena, camp->limits, camp->limits_count, &capacity, sizeof *camp->limits);
        camp->limits[camp->limits_count++] = limits;
    }
    if (!camp->limits_count)
        camp_take_house_limits(r, camp);
}

/* The last day that anything of the camp can fall on. */
static void find_last(struct resolver *r, const struct node *node, struct camp *camp)
{
    camp->last = camp->bout_count ? date_monday(camp->bouts[camp->bout_count - 1]->last) + 6 : 0;
    for (size_t i = 0; i < camp->phase_count; i++)
        if (!camp->phases[i].open && camp->phases[i].last > camp->last)
            camp->last = camp->phases[i].last;
    for (const struct node *child = node->first; child; child = child->next) {
        if (child->kind != STATEMENT_SPAN || child->first->code != WHEN_WEEKS)
            continue;
        const struct node *figure = child->first->first;
        int64_t last = figure->kind == NODE_RANGE ? figure->last->number : figure->number;
        int day = date_monday(camp->first) + (int)(last / 1000) * 7 - 1;
        if (last <= MOST_WEEKS * 1000 && day > camp->last)
            camp->last = day;
    }
    if (!camp->last)
        camp->last = date_monday(camp->first) + 6;
    camp->weeks = camp_week(camp, camp->last);
    (void)r;
}

void resolve_camp(struct resolver *r, const struct node *node, struct camp *camp)
{
    if (node_is_broken(node))
        resolver_poison(r, camp, node->span);
    read_members(r, node, camp);
    camp->language = resolver_language(r, node);
    read_days(r, node, camp);
    read_limits_in_force(r, node, camp);
    if (!camp->first)
        return;
    resolve_stays(r, node, camp);
    zone_days_read(r, node, &camp->zone_days, &camp->zone_day_count);
    for (size_t i = 0; i < camp->athlete_count; i++)
        if (zone_days_check(r, camp->zone_days, camp->zone_day_count, camp->athletes[i]))
            break;
    resolve_phases(r, node, camp);
    find_last(r, node, camp);
    size_t placed = r->placed_count;
    resolve_places(r, node, camp);
    for (const struct node *line = node_find(node, STATEMENT_BOUT); line; line = node_next_alike(line))
        for (size_t i = 0; i < camp->bout_count; i++)
            if (camp->bouts[i]->span.start == line->span.start)
                place_bout(r, line, camp, camp->bouts[i], placed);
}
