/* A camp's bouts: on which days they are, and whether they were postponed or cancelled; and what they put on their days. */
#include <glib.h>
#include <string.h>

#include "base/text.h"
#include "figures/clock.h"
#include "figures/dates.h"
#include "measure/member.h"
#include "model/activity.h"
#include "resolve/calendar.h"
#include "resolve/place.h"
#include "model/season.h"
#include "resolve/resolver.h"
#include "resolve/whereabouts.h"

/* The days of LINE, which rise. */
static void read_bout_days(struct resolver *r, const struct node *line, struct bout *bout)
{
    enum { MOST_DAYS = 30 };
    int *days = NULL;
    size_t capacity = 0;
    for (const struct node *date = line->first; date && date->kind == NODE_DATE; date = date->next) {
        int day = (int)date->number;
        if (bout->day_count && day <= days[bout->day_count - 1]) {
            diag_error(r->diag, DIAG_BAD_BOUT, date->span, "the days of a tournament follow one another");
            continue;
        }
        if (bout->day_count == MOST_DAYS) {
            diag_error(r->diag, DIAG_BAD_BOUT, date->span, "a tournament has at most %d days", MOST_DAYS);
            break;
        }
        days = arena_grow(r->arena, days, bout->day_count, &capacity, sizeof *days);
        days[bout->day_count++] = day;
    }
    if (!days)
        return;
    bout->days = days;
    bout->day = days[0];
    bout->last = days[bout->day_count - 1];
}

/* Has the day of ENTRY, `on DATE`, come? Reports one that has not: an entry ahead does not count. */
static bool has_come(struct resolver *r, const struct node *entry)
{
    int day = (int)node_find(entry, NODE_ON)->number;
    if (!r->today || day <= r->today)
        return true;
    diag_error(r->diag, DIAG_FUTURE_ENTRY, entry->span, "an entry dated in the future does not count");
    return false;
}

static void postpone(struct resolver *r, const struct node *line, struct bout *bout)
{
    int to = (int)node_find(line, NODE_TO)->first->number, on = (int)node_find(line, NODE_ON)->number;
    if (!has_come(r, line))
        return;
    if (to <= on) {
        struct finding *finding = diag_error(r->diag, DIAG_BAD_BOUT, line->span,
                                             "a bout is postponed to a day that is to come");
        diag_help(r->diag, finding, "first the new day, then the day on which you heard of it: `to 2027-06-12 on 2027-05-20`");
        return;
    }
    int by = to - bout->day;
    int *days = arena_alloc(r->arena, bout->day_count * sizeof *days);
    for (size_t i = 0; i < bout->day_count; i++)
        days[i] = bout->days[i] + by;
    bout->moved_on = on;
    bout->planned = bout->day;
    bout->days = days;
    bout->day += by;
    bout->last += by;
}

/* Takes the whole number at *AT, of three digits at most; -1, and AT stays, where none is there. */
static int take_number(const char **at)
{
    int value = 0, digits = 0;
    for (; (*at)[digits] >= '0' && (*at)[digits] <= '9'; digits++)
        value = digits < 3 ? 10 * value + (*at)[digits] - '0' : value;
    if (digits < 1 || digits > 3)
        return -1;
    *at += digits;
    return value;
}

static bool take_words(const char **at, const char *words)
{
    bool found = g_ascii_strncasecmp(*at, words, strlen(words)) == 0;
    *at += found ? strlen(words) : 0;
    return found;
}

/* Takes `3:00`; -1 where no such time is at *AT. */
static int take_time(const char **at)
{
    const char *from = *at;
    int high = take_number(&from);
    if (high < 0 || *from++ != ':' || from[0] < '0' || from[0] > '5')
        return -1;
    int low = take_number(&from);
    if (low < 0 || from[-3] != ':')
        return -1;
    *at = from;
    return 60 * high + low;
}

/* Reads `3 x 2:00 rest 1:00`, where it stands at AT. */
static bool read_rounds(const char *at, struct bout *bout)
{
    int rounds = take_number(&at);
    int work = rounds > 0 && rounds <= 100 && take_words(&at, " x ") ? take_time(&at) : -1;
    if (work <= 0)
        return false;
    int rest = take_words(&at, " rest ") ? take_time(&at) : -1;
    bout->rounds = rounds;
    bout->work = work;
    bout->rest = rest;
    return true;
}

/* The hour that WORDS begin with, in seconds, and WORDS goes on behind it; -1 if there is none. `18:60` is a slip, which a
 * name of rules would hide. SPAN is that of WORDS. */
static int take_hour(struct resolver *r, const char **words, struct span span)
{
    size_t length = strcspn(*words, " ");
    const char *at = *words;
    if (!length || strspn(*words, "0123456789:") < length || !memchr(*words, ':', length))
        return -1;
    int clock = take_time(&at);
    bool right = at == *words + length && clock >= 0 && clock < 24 * 60;
    if (!right)
        diag_error(r->diag, DIAG_BAD_CLOCK, (struct span){span.file, span.start, span.start + (uint32_t)length},
                   "this is not a time of day: write 00:00 to 23:59");
    *words += length + ((*words)[length] == ' ');
    return right ? 60 * clock : -1;
}

/* Reports times in WORDS that are none, as `3 x 2:60`, which a name of rules would hide, too. SPAN is that of WORDS. */
static void report_times(struct resolver *r, const char *words, struct span span)
{
    for (const char *at = words; *at && *at != ','; at++) {
        size_t length = strspn(at, "0123456789:");
        const char *end = at;
        uint32_t start = span.start + (uint32_t)(at - words);
        if (memchr(at, ':', length) && (take_time(&end) < 0 || end != at + length))
            diag_error(r->diag, DIAG_BAD_TIME, (struct span){span.file, start, start + (uint32_t)length},
                       "this is not a time: in minutes:seconds the seconds go from 00 to 59");
        at += length ? length - 1 : 0;
    }
}

/* The hour, the rule set and the rounds in WORDS, what stands behind the days. */
static void read_bout_words(struct resolver *r, const char *words, struct span span, struct bout *bout)
{
    const char *from = words;
    bout->clock = take_hour(r, &words, span);
    span.start += (uint32_t)(words - from);
    report_times(r, words, span);
    bout->words = bout->plain = *words ? words : NULL;
    size_t length = 0;
    while (words[length] && words[length] != ',' &&
           !((!length || words[length - 1] == ' ') && read_rounds(words + length, bout)))
        length++;
    const char *rules = arena_printf(r->arena, "bout %.*s", (int)length, words);
    bout->rules = names_find(r->activities, text_fold(r->arena, rules, strlen(rules)));
}

/* Was a bout placed for ATHLETE and DAY by a line of the camp, among what was placed from FIRST on? */
static bool has_line(const struct resolver *r, size_t first, const struct athlete *athlete, int day)
{
    for (size_t i = first; i < r->placed_count; i++) {
        const struct occasion *occasion = &r->placed[i].occasion;
        if (occasion->date == day && occasion->athlete == athlete && occasion->activity &&
            strncmp(occasion->activity->name.folded, "bout", strlen("bout")) == 0)
            return true;
    }
    return false;
}

static struct occasion bout_on(const struct camp *camp, const struct bout *bout, const struct node *line,
                               const struct activity *activity, int day)
{
    enum { USUAL_REST = 60 /* seconds; common practice, no source */ };
    const struct activity *rules = bout->rules ? bout->rules : activity;
    struct occasion occasion = {
        .camp = camp, .activity = activity, .date = day, .clock = bout->clock, .week = camp_week(camp, day),
        .rounds = bout->rounds, .round_seconds = bout->work, .rpe = rules->rpe, .place = line, .span = line->span};
    int rest = bout->rest >= 0 && bout->work ? bout->rest : rules->clock_rest ? rules->clock_rest : USUAL_REST;
    if (!occasion.rounds) {
        occasion.rounds = rules->clock_rounds;
        occasion.round_seconds = rules->clock_work;
    }
    if (occasion.rounds)
        occasion.seconds = clock_rounds(occasion.rounds, occasion.round_seconds, rest);
    return occasion;
}

/* Where the athlete is that day by the camp's lines `at`, whose clocks then are those of its hour. */
static void place_for(struct resolver *r, struct placed placed, const struct athlete *athlete)
{
    placed.occasion.athlete = athlete;
    placed.occasion.gym = whereabouts_gym(NULL, placed.occasion.camp, athlete, placed.occasion.date);
    r->placed = arena_grow(r->arena, r->placed, r->placed_count, &r->placed_capacity, sizeof *r->placed);
    r->placed[r->placed_count++] = placed;
}

static void place_for_all(struct resolver *r, const struct camp *camp, struct placed placed)
{
    int day = placed.occasion.date;
    for (size_t i = 0; i < camp->athlete_count && !placed_is_full(r, placed.occasion.span); i++) {
        if (member_on(camp, i, day))
            place_for(r, placed, camp->athletes[i]);
    }
}

/* A weigh-in has no load. One that was still to come when the bout was postponed moves with it. */
static void place_weigh_ins(struct resolver *r, const struct node *of, const struct camp *camp, const struct bout *bout)
{
    const struct activity *activity = names_find(r->activities, "weigh-in");
    for (const struct node *line = node_find(of, STATEMENT_WEIGH_IN); activity && line; line = node_next_alike(line)) {
        const struct node *clock = node_find(line, NODE_CLOCK);
        int day = (int)node_find(line, NODE_DATE)->number;
        if (bout->moved_on && day > bout->moved_on)
            day += bout->day - bout->planned;
        if (day < camp->first || day > bout->last) {
            struct finding *finding = diag_error(r->diag, DIAG_BAD_BOUT, line->span,
                                                 "a weigh-in is in the camp, on the bout's last day at the latest");
            diag_note(r->diag, finding, of->span, "the bout is here");
        } else if (!bout->cancelled || day < bout->cancelled) {
            place_for_all(r, camp, (struct placed){
                .from_column = -1,
                .occasion = {.camp = camp, .activity = activity, .date = day, .clock = clock ? (int)clock->number : -1,
                             .week = camp_week(camp, day), .place = line, .span = line->span}});
        }
    }
}

/* The days after one that was lost are none; of one whose result is not known yet, all are. */
void place_bout(struct resolver *r, const struct node *line, const struct camp *camp, const struct bout *bout, size_t first)
{
    const struct activity *activity = names_find(r->activities, "bout");
    place_weigh_ins(r, line, camp, bout);
    for (size_t d = 0; activity && d < bout->day_count; d++) {
        int day = bout->days[d];
        if (!bout_is_on(bout, day))
            continue;
        const struct placed placed = {.from_column = -1, .occasion = bout_on(camp, bout, line, activity, day)};
        for (size_t i = 0; i < camp->athlete_count && !placed_is_full(r, line->span); i++) {
            if (member_on(camp, i, day) && !has_line(r, first, camp->athletes[i], day))
                place_for(r, placed, camp->athletes[i]);
        }
    }
}

/* The heaviest that a division lets in, from what FIGURE says. */
static mass read_division(struct resolver *r, const struct node *figure)
{
    struct figures *figures = figures_read(r, figure);
    mass most = figures_mass(r, figures, 0);
    if (most > 0 && figures_is_one(figures))
        return most;
    if (most >= 0)
        diag_error(r->diag, DIAG_BAD_COUNT, figure->span, "a division has one mass, the heaviest that it lets in");
    return 0;
}

struct bout *resolve_bout(struct resolver *r, const struct node *line)
{
    struct bout *bout = arena_alloc(r->arena, sizeof *bout);
    const struct node *words = node_find(line, NODE_TEXT);
    *bout = (struct bout){.span = line->span};
    read_bout_days(r, line, bout);
    read_bout_words(r, words ? words->text : "", words ? words->span : line->span, bout);
    const struct node *postponed = resolver_single(r, line, STATEMENT_POSTPONED);
    const struct node *cancelled = resolver_single(r, line, STATEMENT_CANCELLED);
    const struct node *division = resolver_single(r, line, STATEMENT_DIVISION);
    bout->division = division ? read_division(r, division->first) : 0;
    const struct node *checked = resolver_single(r, line, STATEMENT_CHECKED);
    if (postponed)
        postpone(r, postponed, bout);
    if (cancelled && has_come(r, cancelled)) {
        bout->cancelled = (int)node_find(cancelled, NODE_ON)->number;
        bout->words = bout->words ? arena_printf(r->arena, "%s, cancelled", bout->words) : "cancelled";
    }
    bout->checked = checked && entered_on(r, checked);
    resolve_result(r, line, bout);
    if (bout->cancelled && node_find(line, STATEMENT_RESULT))
        diag_error(r->diag, DIAG_BAD_BOUT, node_find(line, STATEMENT_RESULT)->span, "a bout that was cancelled has no result");
    return bout;
}
