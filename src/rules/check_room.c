/* How a squad's session runs in its room: whether it fits the time there is, and who waits. */
#include "base/text.h"
#include "model/activity.h"
#include "model/athlete.h"
#include "model/gym.h"
#include "room/propose.h"
#include "rules/checks.h"
#include "rules/rooms.h"

static const char *hour_words(struct run *run, int seconds)
{
    return arena_printf(run->arena, "%02d:%02d", seconds / 3600 % 24, seconds / 60 % 60);
}

/* A squad is done within the minute that its last set ends in. */
static const char *done_words(struct run *run, const struct room_meeting *meeting, int finish)
{
    return hour_words(run, meeting->members[0]->clock + finish + 59);
}

static const char *title(const struct occasion *occasion)
{
    return occasion->session ? occasion->session->name.shown : occasion->activity->name.shown;
}

/* What tells two sessions of one line apart; nothing for an activity. */
static struct span session_span(const struct occasion *occasion)
{
    return occasion->session ? occasion->session->name.span : (struct span){0};
}

static const struct attendance *doors_of(const struct occasion *occasion)
{
    return occasion->attendance && occasion->attendance->out_by >= 0 ? occasion->attendance : NULL;
}

/* --- no timetable at all --- */

/* What a gym has not got for an exercise is reported for each athlete already. */
static bool is_missing_kit(const struct room_meeting *meeting)
{
    for (size_t m = 0; m < meeting->count; m++)
        for (size_t b = 0; b < meeting->members[m]->block_count; b++)
            for (size_t i = 0; i < meeting->members[m]->blocks[b].item_count; i++)
                if (kit_is_missing(meeting->squad->gym, meeting->members[m]->blocks[b].items[i].exercise))
                    return true;
    return false;
}

static void help_by(struct run *run, struct finding *finding, const struct room_meeting *meeting,
                    const struct room_proposal *proposal)
{
    const char *way = proposal->remedy == REMEDY_WAVES       ? "waves"
                      : proposal->remedy == REMEDY_ANY_ORDER ? "any order"
                                                             : NULL;
    const char *done = done_words(run, meeting, proposal->table->finish);
    struct text letters = {.arena = run->arena};
    for (size_t i = 0; way && i < proposal->room->block_count; i++)
        if (proposal->room->blocks[i].free)
            text_addf(&letters, "%s%s", letters.length ? ", " : "", proposal->room->blocks[i].name);
    if (way)
        diag_help(run->diag, finding, "below `session %s`, write `%s %s`: then all are done by %s",
                  title(meeting->members[0]), way, text_keep(run->arena, &letters), done);
    else
        diag_help(run->diag, finding, "tried: %s; then all are done by %s", proposal->words, done);
}

static void report_refused(struct run *run, const struct rule *rule, const struct window *window,
                           const struct room_meeting *meeting)
{
    if (!meeting->table || !meeting->table->refused)
        return;
    if (meeting->table->refused_block == ROOM_NONE && is_missing_kit(meeting))
        return;
    const struct occasion *first = meeting->members[0];
    struct about about = {.window = room_window(run, window, meeting->members, meeting->count), .severity = rule_severity(rule),
                          .span = first->span, .other = session_span(first)};
    struct finding *finding = run_report(run, rule, &about, "%s on %s cannot be run as written: %s", title(first),
                                         date_words(run, first->date), meeting->table->refused);
    if (!finding)
        return;
    diag_note(run->diag, finding, meeting->squad->gym->name.span, "what %s has is listed here",
              meeting->squad->gym->name.shown);
    unsigned tried;
    const struct room_proposal *proposal =
        run_may_propose(run) ? room_propose(run->arena, &meeting->squad->room, meeting->table, &tried) : NULL;
    if (proposal)
        help_by(run, finding, meeting, proposal);
}

/* Calls REPORT for each squad that the athlete of WINDOW leads. */
static void each_meeting(struct run *run, const struct rule *rule, const struct window *window,
                         void (*report)(struct run *run, const struct rule *rule, const struct window *window,
                                        const struct room_meeting *meeting))
{
    size_t count;
    struct room_meeting *const *meetings = run_meetings(run, window, &count);
    for (size_t i = 0; i < count; i++)
        report(run, rule, window, meetings[i]);
}

void check_room_refused(struct run *run, const struct rule *rule, const struct window *window)
{
    each_meeting(run, rule, window, report_refused);
}

/* --- too late --- */

static bool is_late(const struct room_meeting *meeting)
{
    const struct room_table *table = meeting->table;
    return table && !table->refused && table->finish > meeting->latest;
}

static void say_figures(struct run *run, struct finding *finding, const struct room_meeting *meeting)
{
    const struct room *room = &meeting->squad->room;
    const char *serves = room_serves_words(run->arena, room);
    if (serves)
        diag_remark(run->diag, finding, "%s", serves);
    if (meeting->table->bottleneck != ROOM_NONE)
        diag_remark(run->diag, finding, "%s; %s", room_bottleneck_words(run->arena, room, meeting->table),
                    room_bound_words(run->arena, meeting->table));
    else
        diag_remark(run->diag, finding, "%s", room_bottleneck_words(run->arena, room, meeting->table));
}

/* Is MEETING, of those that the athlete of WINDOW leads, the latest that its line places? */
static bool is_worst(struct run *run, const struct window *window, const struct room_meeting *meeting)
{
    size_t count;
    struct room_meeting *const *meetings = run_meetings(run, window, &count);
    for (size_t i = 0; i < count; i++)
        if (meetings[i]->members[0]->place == meeting->members[0]->place && is_late(meetings[i]) &&
            meetings[i]->table->finish > meeting->table->finish)
            return false;
    return true;
}

/* What it takes to be done in time is worked out for the worst day of a line alone. */
static void say_overrun(struct run *run, const struct window *window, struct finding *finding,
                        const struct room_meeting *meeting)
{
    const struct occasion *first = meeting->members[0];
    const struct room_table *table = meeting->table;
    const char *done = done_words(run, meeting, table->finish), *day = date_words(run, first->date);
    if (doors_of(first))
        run_say(run, finding, "%s on %s: %zu athletes finish at %s, but the doors close at %s", title(first), day,
                meeting->count, done, hour_words(run, first->attendance->out_by));
    else
        run_say(run, finding, "%s on %s: %zu athletes take %d min, and it should stay under %d min", title(first), day,
                meeting->count, (table->finish + 59) / 60, first->session->under / 60);
    say_figures(run, finding, meeting);
    if (!meeting->solved && table->bound <= meeting->squad->room.doors) {
        diag_remark(run->diag, finding, "so it is where each goes when the kit is free; of so many sessions not every "
                                        "timetable is worked out here");
        diag_help(run->diag, finding, "`bellsheet show --on %s` works it out", day);
        return;
    }
    if (!is_worst(run, window, meeting) || !run_may_propose(run))
        return;
    unsigned tried;
    const struct room_proposal *proposal =
        room_propose(run->arena, squad_room_with_substitutes(run->arena, meeting->squad), table, &tried);
    if (proposal)
        help_by(run, finding, meeting, proposal);
    else if (tried)
        diag_remark(run->diag, finding, "tried, and not enough: %s", room_tried_words(run->arena, tried));
    else
        diag_remark(run->diag, finding, "nothing can be tried: no two blocks may change places, none has `keep` 2 or 3, and "
                                        "no line can be done here without the kit that is short");
}

/* Compares one athlete alone, or an activity, with the doors. */
static void report_alone(struct run *run, const struct rule *rule, const struct window *window,
                         const struct occasion *occasion)
{
    const struct attendance *doors = doors_of(occasion);
    const struct occasion **one = arena_alloc(run->arena, sizeof *one);
    int end = occasion->clock + occasion->seconds;
    *one = occasion;
    for (size_t i = 0; i < doors->late_count; i++)
        end += doors->late[i].athlete == occasion->athlete ? doors->late[i].seconds : 0;
    struct about about = {.window = room_window(run, window, one, 1), .severity = rule_severity(rule), .span = occasion->span,
                          .other = session_span(occasion), .weight = end};
    if (end > doors->out_by)
        run_report(run, rule, &about, "%s: %s on %s ends at %s, but the doors close at %s", occasion->athlete->name.shown,
                   title(occasion), date_words(run, occasion->date), hour_words(run, end + 59),
                   hour_words(run, doors->out_by));
}

static void report_overrun(struct run *run, const struct rule *rule, const struct window *window,
                           const struct room_meeting *meeting)
{
    if (!is_late(meeting))
        return;
    const struct occasion *first = meeting->members[0];
    bool proven = meeting->solved || meeting->table->bound > meeting->squad->room.doors;
    struct about about = {.window = room_window(run, window, meeting->members, meeting->count),
                          .severity = proven ? rule_severity(rule) : SEVERITY_WARNING,
                          .span = first->span, .other = session_span(first), .weight = meeting->table->finish,
                          .figure = (milli)meeting->table->finish * 1000 / 60};
    struct finding *finding = run_meet(run, rule, &about);
    if (finding)
        say_overrun(run, window, finding, meeting);
}

void check_room_overrun(struct run *run, const struct rule *rule, const struct window *window)
{
    each_meeting(run, rule, window, report_overrun);
    for (size_t i = 0; i < window->count; i++) {
        const struct occasion *occasion = window->occasions[i];
        if (doors_of(occasion) && occasion->clock >= 0 && !run_is_in_squad(run, occasion))
            report_alone(run, rule, window, occasion);
    }
}

/* --- who waits --- */

static int longest_waiter(const struct room_meeting *meeting)
{
    int longest = 0;
    for (int i = 1; i < (int)meeting->count; i++)
        if (meeting->table->fares[i].wait > meeting->table->fares[longest].wait)
            longest = i;
    return longest;
}

static void report_wait(struct run *run, const struct rule *rule, const struct window *window,
                        const struct room_meeting *meeting)
{
    if (!meeting->solved || meeting->table->refused || is_late(meeting))
        return;
    const struct room *room = &meeting->squad->room;
    int longest = longest_waiter(meeting), wait = meeting->table->fares[longest].wait;
    if (wait < LONG_WAIT)
        return;
    const struct occasion *first = meeting->members[0];
    struct about about = {.window = room_window(run, window, meeting->members, meeting->count), .severity = rule_severity(rule),
                          .span = first->span, .other = session_span(first),
                          .weight = wait, .figure = (milli)wait * 1000 / 60};
    struct finding *finding = run_report(run, rule, &about, "%s on %s: %s", title(first), date_words(run, first->date),
                                         room_wait_words(run->arena, room, meeting->table, longest));
    if (!finding)
        return;
    for (int i = 0; i < (int)meeting->count; i++)
        if (i != longest && meeting->table->fares[i].wait >= LONG_WAIT)
            diag_remark(run->diag, finding, "%s", room_wait_words(run->arena, room, meeting->table, i));
    say_figures(run, finding, meeting);
}

void check_room_wait(struct run *run, const struct rule *rule, const struct window *window)
{
    each_meeting(run, rule, window, report_wait);
}
