#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "figures/dates.h"
#include "measure/member.h"
#include "model/programme.h"
#include "resolve/calendar.h"
#include "resolve/whereabouts.h"
#include "resolve/place.h"
#include "resolve/template.h"

enum { MOST_LINES_A_DAY = 100, ANY_DAY = 1 << 8 };

/* A version of a session as a line places it, for all or for one athlete. */
struct version {
    const struct session *session;
    const struct athlete *athlete; /* NULL: all */
    struct template *template;
};

/* One line below a span: what stands on which days. */
struct placed_line {
    const struct node *node;
    const struct days_covered *covered;
    int64_t days;             /* bits 1 << weekday */
    int clock;                /* seconds; -1 */
    bool off, in_turn, optional;
    struct session **sessions; /* more than one: in turn */
    size_t session_count, turn;
    struct version *versions; /* of the sessions, with the changes of this line */
    size_t version_count, version_capacity;
    const struct activity *activity;
    const struct dose *dose;   /* of the activity; NULL where none is written */
    milli zones;               /* that it crosses */
    struct figures *rpe;       /* of a line `rpe` below it; or NULL */
    int column, monday;        /* how many weeks the activity was placed in before the last, and that week */
    int from_column;
    bool by_camp;              /* series go by the weeks of the camp */
    struct whereabouts where;
    const struct attendance *attendance;
    bool met;
    bool left;                 /* it was placed for somebody */
    int nobody;                /* the first day on which nobody of the camp is left for it; or 0 */
    bool deserted;             /* that all are absent on some day was said */
};

struct placed_lines {
    struct placed_line *items;
    size_t count, capacity;
    struct deload *deloads;
    size_t deload_count, deload_capacity;
};

/* --- reading --- */

static void read_activity(struct resolver *r, const struct node *name, struct placed_line *line)
{
    const struct node *dose = name->next;
    if (dose && (dose->kind == NODE_DOSE || dose->kind == NODE_INTERVALS)) {
        line->dose = dose_read(r, dose);
        if (line->dose->alternates)
            diag_error(r->diag, DIAG_NOT_IN_TURN, line->dose->alternating,
                       "stances alternate in the repetitions of an exercise, but %s is counted by the clock",
                       line->activity->name.shown);
    } else if (!line->activity->clock_rounds) {
        struct finding *finding = diag_error(r->diag, DIAG_NO_AMOUNT, name->span, "how long is %s?",
                                             line->activity->name.shown);
        diag_help(r->diag, finding, "write `%s : 60 min RPE 6`", line->activity->name.shown);
    }
}

/* ` at Annexe` of `Hips at Annexe`, where Hips is something that can be placed; else NULL. */
static const char *gym_behind(struct resolver *r, const char *name)
{
    const char *at = strstr(name, " at ");
    const char *before = at ? text_fold(r->arena, name, (size_t)(at - name)) : NULL;
    return before && (names_find(r->sessions, before) || names_find(r->activities, before)) ? at : NULL;
}

static void unknown_placed(struct resolver *r, const struct node *name)
{
    if (resolver_is_poisoned(r, r->sessions) || resolver_is_poisoned(r, r->activities)) {
        resolver_mark_unclear(r, name->span);
        return;
    }
    resolver_poison(r, r->programme, name->span);
    if (resolver_missing_colon(r, name, r->activities, "the activity and its length"))
        return;
    const char *folded = resolver_fold(r, name);
    struct names *const tables[] = {r->sessions, r->activities};
    struct finding *finding = diag_error(r->diag, DIAG_UNKNOWN_SESSION, name->span,
                                         "there is no session or activity called `%s`", name->text);
    const char *gym = gym_behind(r, name->text);
    if (gym)
        diag_remark(r->diag, finding, "another gym goes on a line of its own below: `%s`", gym + 1);
    if (resolver_propose_near(r, finding, name, tables, 2))
        return;
    bool hour = strcspn(name->text, "0123456789") < strlen(name->text) || strncmp(folded, "and ", 4) == 0 ||
                strncmp(folded, "pm", 2) == 0 || strncmp(folded, "am", 2) == 0;
    if (hour)
        diag_help(r->diag, finding, "write days and hour like `monday, friday 17:30 %s`",
                  r->programme->session_count ? r->programme->sessions[0]->name.shown : "roadwork : 30 min RPE 4");
    else if (!resolver_propose_alike(r, finding, name, tables, 2))
        diag_help(r->diag, finding, "check the spelling, or declare it with a line `session %s`", name->text);
}

/* Where series start, as written after the names at NODE, or NULL. */
static const struct node *column_of(const struct node *node)
{
    const struct node *column = node_find(node, NODE_FROM_COLUMN);
    return column ? column : node_find(node, NODE_BY_WEEKS);
}

/* The session whose name is NAME and everything after it: a word inside a declared name does not cut it. */
static struct session *whole_session(struct resolver *r, const struct node *node, const struct node *name)
{
    const struct node *column = column_of(node);
    if (!column || node_next_alike(name))
        return NULL;
    struct span span = {name->span.file, name->span.start, column->span.end};
    const char *text = resolver_written(r, span);
    return names_find(r->sessions, text_fold(r->arena, text, strlen(text)));
}

static void read_column(struct resolver *r, const struct node *column, struct placed_line *line)
{
    if (column->kind == NODE_BY_WEEKS) {
        line->by_camp = column->code == 1;
        return;
    }
    milli value = column->first->number;
    if (value % 1000 || value < 1000 || value > MOST_WEEKS * 1000)
        diag_error(r->diag, DIAG_BAD_COUNT, column->span, "columns are counted from 1, and there are at most %d", MOST_WEEKS);
    else
        line->from_column = (int)(value / 1000) - 1;
}

static void keep_version(struct resolver *r, struct placed_line *line, struct version version)
{
    line->versions = arena_grow(r->arena, line->versions, line->version_count, &line->version_capacity,
                                sizeof *line->versions);
    line->versions[line->version_count++] = version;
}

/* SESSION, a version, with the changes of LINE. */
static struct template *version_of(struct resolver *r, struct placed_line *line, struct session *session)
{
    for (size_t i = 0; i < line->version_count; i++)
        if (line->versions[i].session == session && !line->versions[i].athlete)
            return line->versions[i].template;
    struct template *template = template_changed(r, template_of(r, session), line->node);
    keep_version(r, line, (struct version){session, NULL, template});
    session->placed++;
    return template;
}

/* Does ONE, a line `for` below a placed session, name ATHLETE? */
static bool names_athlete(struct resolver *r, const struct node *one, const struct athlete *athlete)
{
    for (const struct node *name = node_find(one, NODE_NAME); name; name = node_next_alike(name))
        if (names_find(r->athletes, resolver_fold(r, name)) == athlete)
            return true;
    return false;
}

/* The same with what LINE says of ATHLETE alone. */
static struct template *version_for(struct resolver *r, struct placed_line *line, struct session *session,
                                    const struct athlete *athlete)
{
    struct template *template = version_of(r, line, session);
    const struct node *one = node_find(line->node, STATEMENT_FOR_ONE);
    if (!one)
        return template;
    for (size_t i = 0; i < line->version_count; i++)
        if (line->versions[i].session == session && line->versions[i].athlete == athlete)
            return line->versions[i].template;
    for (; one; one = node_next_alike(one))
        if (names_athlete(r, one, athlete))
            template = template_changed(r, template, one);
    keep_version(r, line, (struct version){session, athlete, template});
    return template;
}

/* Reports what is wrong with lines `for`: whom they name, and that they say more than changes. */
static void check_own_lines(struct resolver *r, const struct node *node, const struct camp *camp)
{
    for (const struct node *one = node_find(node, STATEMENT_FOR_ONE); one; one = node_next_alike(one)) {
        resolver_filled(r, one);
        for (const struct node *name = node_find(one, NODE_NAME); name; name = node_next_alike(name))
            whereabouts_member(r, name, camp);
        for (const struct node *child = one->first; child; child = child->next)
            if (node_is_statement(child) && child->kind != STATEMENT_CHANGE && child->kind != STATEMENT_DROP &&
                child->kind != STATEMENT_ADD)
                diag_error(r->diag, DIAG_UNKNOWN_STATEMENT, child->span,
                           "for one athlete a placed session takes `change`, `drop` and `add`");
    }
}

static void not_in_turn(struct resolver *r, const struct node *name, const struct activity *activity)
{
    resolver_poison(r, r->programme, name->span);
    struct finding *finding = diag_error(r->diag, DIAG_UNKNOWN_SESSION, name->span,
                                         "sessions go in turn, and `%s` is an activity", activity->name.shown);
    diag_help(r->diag, finding, "give it a line of its own: `%s : 60 min`", activity->name.shown);
}

/* What the names of the line stand for. Returns false when nothing is left to place. */
static bool read_names(struct resolver *r, const struct node *node, struct placed_line *line)
{
    size_t capacity = 0;
    const struct node *column = column_of(node);
    for (const struct node *name = node_find(node, NODE_NAME); name; name = node_next_alike(name)) {
        const char *folded = resolver_fold(r, name);
        struct session *session = whole_session(r, node, name);
        column = session ? NULL : column;
        session = session ? session : names_find(r->sessions, folded);
        session = session && session->node ? session : NULL; /* one that only the record names is not to be placed */
        line->activity = session ? NULL : names_find(r->activities, folded);
        if (line->activity && !line->in_turn) {
            read_activity(r, name, line);
            return true;
        }
        if (!session) {
            if (line->activity)
                not_in_turn(r, name, line->activity);
            else
                unknown_placed(r, name);
            continue;
        }
        const struct node *dose = name->next;
        if (dose && (dose->kind == NODE_DOSE || dose->kind == NODE_INTERVALS))
            diag_error(r->diag, DIAG_SESSION_WITH_DOSE, dose->span, "a session brings its own doses; `change` alters them");
        line->sessions = arena_grow(r->arena, line->sessions, line->session_count, &capacity, sizeof *line->sessions);
        line->sessions[line->session_count++] = session;
        session->placed++;
    }
    if (column)
        read_column(r, column, line);
    line->activity = NULL;
    for (size_t i = 0; i < line->session_count; i++)
        if (!line->sessions[i]->later)
            version_of(r, line, line->sessions[i]);
    return line->session_count > 0;
}

/* What is no training counts for nothing, so an effort would be lost. */
static void report_effort_of_rest(struct resolver *r, const struct placed_line *line)
{
    const struct node *rpe = node_find(line->node, STATEMENT_WHOLE_RPE);
    bool given = line->dose && line->dose->effort.given;
    if (!line->activity || !line->activity->rest || (!given && !rpe))
        return;
    struct finding *finding = diag_error(r->diag, DIAG_WRONG_EFFORT, given ? line->dose->effort.span : rpe->span,
                                         "%s is not training, so it has no effort", line->activity->name.shown);
    diag_help(r->diag, finding, "leave the effort out: it takes up its time and counts for nothing");
}

/* Blocks are a session's: what is to change in an activity would be lost. */
static void report_changes_of_activity(struct resolver *r, const struct placed_line *line)
{
    for (const struct node *child = line->node->first; line->activity && child; child = child->next) {
        if (child->kind != STATEMENT_CHANGE && child->kind != STATEMENT_DROP && child->kind != STATEMENT_ADD)
            continue;
        struct finding *finding = diag_error(r->diag, DIAG_UNKNOWN_ITEM, child->span, "%s is an activity and has no blocks",
                                             line->activity->name.shown);
        diag_help(r->diag, finding, "`change`, `drop` and `add` belong below a session");
    }
}

static void read_line(struct resolver *r, const struct node *node, const struct camp *camp,
                      const struct days_covered *covered, struct placed_lines *lines)
{
    const struct node *days = node_find(node, NODE_DAYS), *clock = node_find(node, NODE_CLOCK);
    struct placed_line line = {.node = node, .covered = covered, .days = days->number,
                               .clock = clock ? (int)clock->number : -1, .off = node_find(node, NODE_OFF) != NULL,
                               .in_turn = node_find(node, NODE_IN_TURN) != NULL,
                               .optional = node_find(node, STATEMENT_OPTIONAL) != NULL, .from_column = -1,
                               .rpe = figures_rpe(r, resolver_single(r, node, STATEMENT_WHOLE_RPE))};
    line.attendance = attendance_read(r, node, camp, line.clock);
    if (!line.off && !read_names(r, node, &line))
        return;
    report_effort_of_rest(r, &line);
    report_changes_of_activity(r, &line);
    line.zones = zones_read(r, node, line.activity);
    check_own_lines(r, node, camp);
    whereabouts_read(r, node, camp, &line.where);
    lines->items = arena_grow(r->arena, lines->items, lines->count, &lines->capacity, sizeof *lines->items);
    lines->items[lines->count++] = line;
}

static void read_deload(struct resolver *r, const struct node *node, const struct days_covered *covered,
                        struct placed_lines *lines)
{
    const struct node *line = resolver_single(r, node, STATEMENT_DELOAD);
    struct deload deload;
    if (!line || !deload_read(r, line, covered, &deload))
        return;
    lines->deloads = arena_grow(r->arena, lines->deloads, lines->deload_count, &lines->deload_capacity,
                                sizeof *lines->deloads);
    lines->deloads[lines->deload_count++] = deload;
}

static void read_span(struct resolver *r, const struct node *node, struct camp *camp, struct placed_lines *lines)
{
    struct days_covered *covered = arena_alloc(r->arena, sizeof *covered);
    resolver_filled(r, node);
    if (!camp_covers(r, camp, node->first, covered)) {
        resolver_poison(r, r->programme, node->span);
        return;
    }
    if (covered->last > camp->last) {
        camp->last = covered->last;
        camp->weeks = camp_week(camp, camp->last);
    }
    read_deload(r, node, covered, lines);
    for (const struct node *child = node->first; child; child = child->next) {
        if (child->kind == STATEMENT_WAIVE)
            waiver_read(r, child, camp, covered, NULL);
        if (child->kind != STATEMENT_PLACE)
            continue;
        read_line(r, child, camp, covered, lines);
        for (const struct node *line = node_find(child, STATEMENT_WAIVE); line; line = node_next_alike(line))
            waiver_read(r, line, camp, covered, child);
    }
}

/* --- placing --- */

static bool same_slot(const struct placed_line *a, const struct placed_line *b)
{
    return a->clock == b->clock;
}

/* Does a narrower line on the same day take LINE's place? */
static bool overruled(struct resolver *r, const struct placed_line *line, struct placed_line *const *today, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        const struct placed_line *other = today[i];
        if (other == line)
            continue;
        bool off = other->off && (other->clock < 0 || other->clock == line->clock);
        if (!off && !(same_slot(line, other) && !line->off))
            continue;
        if (other->covered->count < line->covered->count)
            return true;
        if (other->covered->count == line->covered->count && !line->off &&
            line->node->span.start > other->node->span.start) {
            struct finding *finding = diag_error(r->diag, DIAG_TWO_PLACEMENTS, line->node->span,
                                                 "two lines name the same day and hour");
            diag_note(r->diag, finding, other->node->span, "the other is here");
            diag_help(r->diag, finding, "give each an hour, or put one under a narrower span of weeks");
            return true;
        }
    }
    return false;
}

/* A series of an activity's line takes the next column in each week in which the line holds. */
static int next_column(struct placed_line *line, int day)
{
    int monday = date_monday(day);
    if (line->monday && line->monday != monday)
        line->column++;
    line->monday = monday;
    return line->column + (line->from_column > 0 ? line->from_column : 0);
}

static void fill_activity(struct resolver *r, struct placed_line *line, int column, struct occasion *occasion)
{
    occasion->activity = line->activity;
    occasion->column = column;
    occasion->rpe = line->activity->rpe;
    if (line->dose)
        activity_settle(r, line->dose, occasion);
    else
        activity_use_clock(occasion);
}

bool placed_is_full(struct resolver *r, struct span line)
{
    enum { MOST_PLACED = 200000 };
    if (r->placed_count < MOST_PLACED)
        return false;
    if (r->placed_count == MOST_PLACED && !r->full)
        diag_error(r->diag, DIAG_TOO_MANY_SESSIONS, line,
                   "a plan can have at most %d sessions and activities, counted for each athlete", MOST_PLACED);
    r->full = true;
    return true;
}

/* Of several who are in the camp all are absent. Somebody who trains alone and does not come needs no line of anybody's. */
static void report_deserted(struct resolver *r, struct placed_line *line, int day, size_t members)
{
    char text[DATE_TEXT_SIZE];
    if (line->deserted || members < 2)
        return;
    line->deserted = true;
    date_format(day, text);
    struct finding *finding = diag_report(r->diag, SEVERITY_WARNING, DIAG_NOBODY_PRESENT, line->node->span,
                                          "nobody is present on %s: all %zu athletes are absent", text, members);
    diag_help(r->diag, finding, "if it is not held, write `off` for the day; else take somebody off the line `absent`");
}

static void add_occasions(struct resolver *r, struct placed_line *line, const struct camp *camp, int day,
                          const struct deload *deload)
{
    size_t turn = line->session_count > 1 ? line->turn++ % line->session_count : 0;
    int column = line->activity ? next_column(line, day) : 0;
    struct session *session = line->session_count ? session_on(line->sessions[turn], day) : NULL;
    size_t members = 0, absent = 0;
    for (size_t i = 0; i < camp->athlete_count && !placed_is_full(r, line->node->span); i++) {
        const struct athlete *athlete = camp->athletes[i];
        if (!member_on(camp, i, day))
            continue;
        line->left = true;
        struct placed placed = {.from_column = line->from_column, .by_camp = line->by_camp, .rpe = line->rpe,
                                .deload = line->session_count ? deload : NULL,
                                .absent = whereabouts_absent(&line->where, athlete, day)};
        members++;
        absent += placed.absent;
        placed.occasion = (struct occasion){
            .camp = camp, .athlete = athlete, .gym = whereabouts_gym(&line->where, camp, athlete, day),
            .date = day, .clock = line->clock,
            .week = camp_week(camp, day), .optional = line->optional, .zones = line->zones, .attendance = line->attendance,
            .place = line->node, .span = line->node->span};
        if (line->session_count) {
            placed.occasion.session = session;
            placed.template = version_for(r, line, session, athlete);
        } else {
            fill_activity(r, line, column, &placed.occasion);
        }
        r->placed = arena_grow(r->arena, r->placed, r->placed_count, &r->placed_capacity, sizeof *r->placed);
        r->placed[r->placed_count++] = placed;
    }
    if (absent == members)
        report_deserted(r, line, day, members);
}

static void report_full_day(struct resolver *r, const struct placed_line *line)
{
    if (!resolver_is_poisoned(r, line->node))
        diag_error(r->diag, DIAG_TOO_MANY_SESSIONS, line->node->span, "more than %d lines of this camp are for one day",
                   MOST_LINES_A_DAY);
    resolver_poison(r, line->node, line->node->span);
}

/* The lines of a camp that name one day of the week, in their order. */
struct lines_of_day {
    struct placed_line **items;
    size_t count;
};

enum { WEEKDAYS = 8 }; /* as date_weekday numbers them */

static void part_by_day(struct resolver *r, const struct placed_lines *lines, struct lines_of_day days[WEEKDAYS])
{
    for (int day = 0; day < WEEKDAYS; day++) {
        days[day] = (struct lines_of_day){.items = arena_alloc(r->arena, lines->count * sizeof *days[day].items)};
        for (size_t i = 0; i < lines->count; i++)
            if (lines->items[i].days & (INT64_C(1) << day | ANY_DAY))
                days[day].items[days[day].count++] = &lines->items[i];
    }
}

static void place_day(struct resolver *r, const struct placed_lines *lines, const struct lines_of_day *named,
                      struct camp *camp, int day, struct placed_line **today)
{
    size_t count = 0;
    const struct deload *deload = deload_on(lines->deloads, lines->deload_count, camp, day);
    for (size_t i = 0; i < named->count && !r->full; i++) {
        struct placed_line *line = named->items[i];
        if (!covers_day(line->covered, camp, day))
            continue;
        line->met = true;
        if (count < MOST_LINES_A_DAY)
            today[count++] = line;
        else
            report_full_day(r, line);
    }
    for (size_t i = 0; i < count; i++) {
        if (overruled(r, today[i], today, count))
            continue;
        if (today[i]->off) {
            whereabouts_keep_off(r, today[i]->node, camp, day);
            continue;
        }
        today[i]->left = false;
        add_occasions(r, today[i], camp, day, deload);
        if (!today[i]->left && !today[i]->nobody)
            today[i]->nobody = day;
    }
}

/* Once a camp: its first line that nobody is left for. */
static void report_nobody(struct resolver *r, const struct placed_lines *lines, const struct camp *camp)
{
    const struct placed_line *first = NULL;
    for (size_t i = 0; camp->members && i < lines->count; i++)
        if (lines->items[i].nobody && (!first || lines->items[i].nobody < first->nobody))
            first = &lines->items[i];
    if (!first)
        return;
    char text[DATE_TEXT_SIZE];
    date_format(first->nobody, text);
    struct finding *finding = diag_report(r->diag, SEVERITY_WARNING, DIAG_NOBODY_LEFT, first->node->span,
                                          "nobody whom this could be for is in `%s` on %s", camp->name.shown, text);
    diag_help(r->diag, finding, "let somebody's `from` or `until` in the camp's `for` include that day, or end the "
                                "camp's weeks");
}

void resolve_places(struct resolver *r, const struct node *node, struct camp *camp)
{
    struct placed_lines lines = {0};
    for (const struct node *child = node->first; child; child = child->next) {
        if (child->kind == STATEMENT_SPAN)
            read_span(r, child, camp, &lines);
        else if (child->kind == STATEMENT_WAIVE)
            waiver_read(r, child, camp, NULL, NULL);
    }
    struct placed_line **today = arena_alloc(r->arena, lines.count * sizeof *today);
    struct lines_of_day days[WEEKDAYS];
    part_by_day(r, &lines, days);
    for (int day = camp->first; day <= camp->last && lines.count; day++)
        place_day(r, &lines, &days[date_weekday(day)], camp, day, today);
    report_nobody(r, &lines, camp);
    for (size_t i = 0; i < lines.count; i++) {
        dose_report_unused(r, lines.items[i].dose);
        whereabouts_report_unmet(r, &lines.items[i].where);
        if (lines.items[i].met || lines.items[i].covered->left_out)
            continue;
        struct finding *finding = diag_report(r->diag, SEVERITY_WARNING, DIAG_NEVER_COMES, lines.items[i].node->span,
                                              "this line fits no day of the camp");
        diag_note(r->diag, finding, camp->name.span, "`%s` runs from its start to its last week", camp->name.shown);
    }
}
