/* A camp's bout: on which days it is, and whether it was postponed or cancelled; and what it puts on its days. */
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

/* The days of the line at BOUT, which rise. */
static void read_bout_days(struct resolver *r, const struct node *bout, struct camp *camp)
{
    enum { MOST_DAYS = 30 };
    int *days = NULL;
    size_t capacity = 0;
    for (const struct node *date = bout->first; date && date->kind == NODE_DATE; date = date->next) {
        int day = (int)date->number;
        if (camp->bout_day_count && day <= days[camp->bout_day_count - 1]) {
            diag_error(r->diag, DIAG_BAD_BOUT, date->span, "the days of a tournament follow one another");
            continue;
        }
        if (camp->bout_day_count == MOST_DAYS) {
            diag_error(r->diag, DIAG_BAD_BOUT, date->span, "a tournament has at most %d days", MOST_DAYS);
            break;
        }
        days = arena_grow(r->arena, days, camp->bout_day_count, &capacity, sizeof *days);
        days[camp->bout_day_count++] = day;
    }
    if (!days)
        return;
    camp->bout_days = days;
    camp->bout = days[0];
    camp->bout_last = days[camp->bout_day_count - 1];
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

static void postpone(struct resolver *r, const struct node *line, struct camp *camp)
{
    int to = (int)node_find(line, NODE_TO)->first->number, on = (int)node_find(line, NODE_ON)->number;
    if (!has_come(r, line))
        return;
    if (to <= on) {
        struct finding *finding = diag_error(r->diag, DIAG_BAD_BOUT, line->span,
                                             "a bout is postponed to a day that is to come");
        diag_help(r->diag, finding, "first the new day, then the day on which that was told: `to 2027-06-12 on 2027-05-20`");
        return;
    }
    int by = to - camp->bout;
    int *days = arena_alloc(r->arena, camp->bout_day_count * sizeof *days);
    for (size_t i = 0; i < camp->bout_day_count; i++)
        days[i] = camp->bout_days[i] + by;
    camp->moved_on = on;
    camp->planned_bout = camp->bout;
    camp->bout_days = days;
    camp->bout += by;
    camp->bout_last += by;
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
    bool found = strncmp(*at, words, strlen(words)) == 0;
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
static bool read_rounds(const char *at, struct camp *camp)
{
    int rounds = take_number(&at);
    int work = rounds > 0 && rounds <= 100 && take_words(&at, " x ") ? take_time(&at) : -1;
    if (work <= 0)
        return false;
    int rest = take_words(&at, " rest ") ? take_time(&at) : -1;
    camp->bout_rounds = rounds;
    camp->bout_work = work;
    camp->bout_rest = rest;
    return true;
}

/* The hour, the rule set and the rounds in WORDS, what stands behind the days. */
static void read_bout_words(struct resolver *r, const char *words, struct camp *camp)
{
    const char *at = words;
    int clock = take_time(&at);
    camp->bout_clock = -1;
    if (clock >= 0 && clock < 24 * 60 && (!*at || *at == ' ')) {
        camp->bout_clock = 60 * clock;
        words = *at ? at + 1 : at;
    }
    camp->bout_words = *words ? words : NULL;
    size_t length = 0;
    while (words[length] && words[length] != ',' &&
           !((!length || words[length - 1] == ' ') && read_rounds(words + length, camp)))
        length++;
    const char *rules = arena_printf(r->arena, "bout %.*s", (int)length, words);
    camp->bout_rules = names_find(r->activities, text_fold(r->arena, rules, strlen(rules)));
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

static struct occasion bout_on(const struct camp *camp, const struct node *bout, const struct activity *activity, int day)
{
    enum { USUAL_REST = 60 /* seconds; common practice, no source */ };
    const struct activity *rules = camp->bout_rules ? camp->bout_rules : activity;
    struct occasion occasion = {
        .camp = camp, .activity = activity, .date = day, .clock = camp->bout_clock, .week = camp_week(camp, day),
        .rounds = camp->bout_rounds, .round_seconds = camp->bout_work, .rpe = rules->rpe, .place = bout, .span = bout->span};
    int rest = camp->bout_rest >= 0 && camp->bout_work ? camp->bout_rest : rules->clock_rest ? rules->clock_rest : USUAL_REST;
    if (!occasion.rounds) {
        occasion.rounds = rules->clock_rounds;
        occasion.round_seconds = rules->clock_work;
    }
    if (occasion.rounds)
        occasion.seconds = clock_rounds(occasion.rounds, occasion.round_seconds, rest);
    return occasion;
}

static void place_for_all(struct resolver *r, const struct camp *camp, struct placed placed)
{
    int day = placed.occasion.date;
    for (size_t i = 0; i < camp->athlete_count && !placed_is_full(r, placed.occasion.span); i++) {
        if (!member_on(camp, i, day))
            continue;
        placed.occasion.athlete = camp->athletes[i];
        r->placed = arena_grow(r->arena, r->placed, r->placed_count, &r->placed_capacity, sizeof *r->placed);
        r->placed[r->placed_count++] = placed;
    }
}

/* A weigh-in has no load. One that was still to come when the bout was postponed moves with it. */
static void place_weigh_ins(struct resolver *r, const struct node *bout, const struct camp *camp)
{
    const struct activity *activity = names_find(r->activities, "weigh-in");
    for (const struct node *line = node_find(bout, STATEMENT_WEIGH_IN); activity && line; line = node_next_alike(line)) {
        const struct node *clock = node_find(line, NODE_CLOCK);
        int day = (int)node_find(line, NODE_DATE)->number;
        if (camp->moved_on && day > camp->moved_on)
            day += camp->bout - camp->planned_bout;
        if (day < camp->first || day > camp->bout_last) {
            struct finding *finding = diag_error(r->diag, DIAG_BAD_BOUT, line->span,
                                                 "a weigh-in is in the camp, on the bout's last day at the latest");
            diag_note(r->diag, finding, bout->span, "the bout is here");
        } else if (!camp->cancelled || day < camp->cancelled) {
            place_for_all(r, camp, (struct placed){
                .from_column = -1,
                .occasion = {.camp = camp, .activity = activity, .date = day, .clock = clock ? (int)clock->number : -1,
                             .week = camp_week(camp, day), .place = line, .span = line->span}});
        }
    }
}

/* The days after one that was lost are none; of one that is not told yet all are. */
void place_bouts(struct resolver *r, const struct node *bout, const struct camp *camp, size_t first)
{
    const struct activity *activity = names_find(r->activities, "bout");
    place_weigh_ins(r, bout, camp);
    for (size_t d = 0; activity && d < camp->bout_day_count; d++) {
        int day = camp->bout_days[d];
        if (!camp_bouts_on(camp, day))
            continue;
        struct placed placed = {.from_column = -1, .occasion = bout_on(camp, bout, activity, day)};
        for (size_t i = 0; i < camp->athlete_count && !placed_is_full(r, bout->span); i++) {
            placed.occasion.athlete = camp->athletes[i];
            if (!member_on(camp, i, day) || has_line(r, first, camp->athletes[i], day))
                continue;
            r->placed = arena_grow(r->arena, r->placed, r->placed_count, &r->placed_capacity, sizeof *r->placed);
            r->placed[r->placed_count++] = placed;
        }
    }
}

void resolve_bout(struct resolver *r, const struct node *bout, struct camp *camp)
{
    const struct node *words = node_find(bout, NODE_TEXT);
    read_bout_days(r, bout, camp);
    read_bout_words(r, words ? words->text : "", camp);
    camp->bout_span = bout->span;
    const struct node *postponed = resolver_single(r, bout, STATEMENT_POSTPONED);
    const struct node *cancelled = resolver_single(r, bout, STATEMENT_CANCELLED);
    const struct node *division = resolver_single(r, bout, STATEMENT_DIVISION);
    mass most = division ? figures_mass(r, figures_read(r, division->first), 0) : 0;
    camp->division = most > 0 ? most : 0;
    const struct node *checked = resolver_single(r, bout, STATEMENT_CHECKED);
    if (postponed)
        postpone(r, postponed, camp);
    if (cancelled && has_come(r, cancelled)) {
        camp->cancelled = (int)node_find(cancelled, NODE_ON)->number;
        camp->bout_words = camp->bout_words ? arena_printf(r->arena, "%s, cancelled", camp->bout_words) : "cancelled";
    }
    camp->checked = checked && entered_on(r, checked);
    resolve_result(r, bout, camp);
    if (camp->cancelled && node_find(bout, STATEMENT_RESULT))
        diag_error(r->diag, DIAG_BAD_BOUT, node_find(bout, STATEMENT_RESULT)->span, "a bout that was cancelled has no result");
}
