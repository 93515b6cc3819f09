#include <string.h>

#include "base/text.h"
#include "figures/dates.h"
#include "model/athlete.h"
#include "model/gym.h"
#include "model/season.h"
#include "resolve/whereabouts.h"

enum { MOST_STAYS = 200 };

/* One athlete who does not come to what a line places. */
struct absent_line {
    const struct athlete *athlete;
    int day;  /* 0: all of the line's */
    bool met; /* the line placed something then */
    struct span span;
};

/* --- days and reasons --- */

bool whereabouts_days(struct resolver *r, const struct node *line, int *first, int *last)
{
    const struct node *from = node_find(line, NODE_FROM), *to = node_find(line, NODE_TO);
    const struct node *date = from ? from->first : node_find(line, NODE_DATE);
    *first = (int)date->number;
    *last = to ? (int)to->first->number : *first;
    if (*last >= *first)
        return true;
    diag_error(r->diag, DIAG_ENDS_BEFORE_START, to->span, "this ends before it begins");
    return false;
}

/* Words that reveal how somebody is. Common practice, no source: what a coach would not say aloud about somebody
 * else. */
static bool tells_how_somebody_is(const char *folded, size_t length)
{
    static const char *const words[] = {
        "ache", "aches", "aching", "anxiety", "asthma", "bleeding", "breathless", "bruise", "bruised", "bruises",
        "concussed", "concussion", "cough", "coughing", "covid", "cramp", "cramps", "depressed", "depression",
        "diarrhoea", "dizziness", "dizzy", "doctor", "fainted", "fever", "feverish", "flu", "fracture", "fractured",
        "fractures", "headache", "headaches", "hospital", "hurt", "hurting", "hurts", "ill", "illness", "illnesses",
        "infected", "infection", "infections", "influenza", "injured", "injuries", "injury", "knock", "knocked",
        "limping", "medical", "migraine", "migraines", "nausea", "nauseous", "nosebleed", "numb", "numbness",
        "operation", "pain", "painful", "pains", "palpitations", "period", "physician", "physio", "pregnancy",
        "pregnant", "rehab", "sick", "sickness", "sore", "soreness", "sprain", "sprained", "sprains", "stitches",
        "strain", "strained", "strains", "surgery", "swelling", "swollen", "tingling", "toothache", "torn", "unwell",
        "virus", "vomited", "vomiting", "wound", "wounded", "wounds"};
    for (size_t i = 0; i < sizeof words / sizeof *words; i++)
        if (strlen(words[i]) == length && strncmp(words[i], folded, length) == 0)
            return true;
    return false;
}

static bool is_of_health(const char *folded)
{
    static const char private[] = " ,.;:-/()'";
    for (const char *at = folded + strspn(folded, private); *at; at += strspn(at, private)) {
        size_t length = strcspn(at, private);
        if (tells_how_somebody_is(at, length))
            return true;
        at += length;
    }
    return false;
}

static bool is_below_private(const struct node *line)
{
    while (line && line->kind != STATEMENT_PRIVATE)
        line = line->parent;
    return line != NULL;
}

const char *whereabouts_reason(struct resolver *r, const struct node *line)
{
    const struct node *because = node_find(line, NODE_BECAUSE);
    if (!because)
        return NULL;
    if (!is_below_private(line) && line->kind != STATEMENT_CLOSED &&
        is_of_health(resolver_fold(r, because->first))) {
        struct finding *finding =
            diag_error(r->diag, DIAG_HEALTH_REASON, because->span,
                       "a health reason does not belong in a plan that others read");
        diag_help(r->diag, finding, "leave the reason out here; the days alone are enough");
        diag_set_neutral(finding, "");
    }
    return because->first->text;
}

void whereabouts_keep_off(struct resolver *r, const struct node *node, struct camp *camp, int day)
{
    const struct node *because = node_find(node, STATEMENT_BECAUSE);
    if (!because || is_of_health(resolver_fold(r, because->first)))
        return;
    if (!camp->days_off)
        camp->days_off = arena_alloc(r->arena, (size_t)(camp->last - camp->first + 1) * sizeof *camp->days_off);
    size_t last = camp->day_off_count;
    if (!last || camp->days_off[last - 1].day != day)
        camp->days_off[camp->day_off_count++] = (struct day_off){day, resolver_text(because)};
}

void whereabouts_words(struct resolver *r, const struct node *words)
{
    if (!is_of_health(resolver_fold(r, words)) || diag_is_private(r->diag, words->span))
        return;
    struct finding *finding = diag_error(r->diag, DIAG_HEALTH_REASON, words->span,
                                         "a log that others read does not say how somebody is");
    diag_help(r->diag, finding, "leave these words out, or write the fact below `private`");
    diag_set_neutral(finding, "");
}

/* --- where --- */

static bool is_in_camp(const struct camp *camp, const struct athlete *athlete)
{
    for (size_t i = 0; i < camp->athlete_count; i++)
        if (camp->athletes[i] == athlete)
            return true;
    return false;
}

const struct athlete *whereabouts_member(struct resolver *r, const struct node *name, const struct camp *camp)
{
    const struct athlete *athlete = resolver_athlete(r, name);
    if (!athlete || is_in_camp(camp, athlete))
        return athlete;
    if (resolver_is_poisoned(r, camp))
        return NULL;
    struct finding *finding = diag_error(r->diag, DIAG_NOT_IN_CAMP, name->span,
                                         "%s is not in this camp", athlete->name.shown);
    diag_note(r->diag, finding, camp->name.span, "the line `for` of `%s` says who is",
              camp->name.shown);
    return NULL;
}

/* The gym whose name is all of LINE up to the end of FOR_NAMES: a word inside a declared name does not cut it. */
static const struct gym *whole_gym(struct resolver *r, const struct node *line,
                                   const struct node *for_names)
{
    struct span span = {line->span.file, line->first->span.start, for_names->span.end};
    const char *text = resolver_written(r, span);
    return names_find(r->gyms, text_fold(r->arena, text, strlen(text)));
}

/* Reads an `at` of CAMP into STAY; false if it cannot apply. */
static bool read_stay(struct resolver *r, const struct node *line, const struct camp *camp,
                      struct stay *stay)
{
    const struct node *named = node_find(line, NODE_FOR_NAMES);
    const struct gym *whole = named ? whole_gym(r, line, named) : NULL;
    size_t capacity = 0;
    stay->span = line->span;
    stay->gym = whole ? whole : resolver_find(r, line->first, "gym", r->gyms);
    for (const struct node *name = named && !whole ? named->first : NULL; name; name = name->next) {
        const struct athlete *athlete = whereabouts_member(r, name, camp);
        if (!athlete)
            return false;
        stay->athletes = arena_grow(r->arena, stay->athletes, stay->athlete_count, &capacity,
                                    sizeof *stay->athletes);
        stay->athletes[stay->athlete_count++] = athlete;
    }
    return stay->gym != NULL;
}

static bool is_for(const struct stay *stay, const struct athlete *athlete)
{
    for (size_t i = 0; i < stay->athlete_count; i++)
        if (stay->athletes[i] == athlete)
            return true;
    return false;
}

/* The gym named by the last of the STAYS that apply to ATHLETE on DAY; one that names the athlete comes first. */
static const struct gym *stay_gym(const struct stay *stays, size_t count,
                                  const struct athlete *athlete, int day)
{
    const struct gym *all = NULL;
    for (size_t i = count; i-- > 0;) {
        if (day < stays[i].first || day > stays[i].last)
            continue;
        if (is_for(&stays[i], athlete))
            return stays[i].gym;
        if (!all && !stays[i].athlete_count)
            all = stays[i].gym;
    }
    return all;
}

const struct gym *whereabouts_gym(const struct whereabouts *where, const struct camp *camp,
                                  const struct athlete *athlete, int day)
{
    const struct gym *here = where ? stay_gym(where->stays, where->stay_count, athlete, day) : NULL;
    return here ? here : stay_gym(camp->stays, camp->stay_count, athlete, day);
}

void resolve_stays(struct resolver *r, const struct node *node, struct camp *camp)
{
    struct stay *stays = NULL;
    size_t capacity = 0;
    for (const struct node *line = node_find(node, STATEMENT_AT_DAYS); line;
         line = node_next_alike(line)) {
        struct stay stay = {0};
        if (resolver_is_full(r, &camp->stays, camp->stay_count, MOST_STAYS, line->span, "a camp",
                             "lines `at`"))
            break;
        if (!whereabouts_days(r, line, &stay.first, &stay.last) || !read_stay(r, line, camp, &stay))
            continue;
        stays = arena_grow(r->arena, stays, camp->stay_count, &capacity, sizeof *stays);
        stays[camp->stay_count++] = stay;
        camp->stays = stays;
    }
}

void resolve_closures(struct resolver *r, const struct node *node, struct gym *gym)
{
    struct closure *closures = NULL;
    size_t capacity = 0;
    for (const struct node *line = node_find(node, STATEMENT_CLOSED); line;
         line = node_next_alike(line)) {
        struct closure closure = {.because = whereabouts_reason(r, line), .span = line->span};
        if (resolver_is_full(r, &gym->closures, gym->closure_count, MOST_STAYS, line->span, "a gym",
                             "lines `closed`"))
            break;
        if (!whereabouts_days(r, line, &closure.first, &closure.last))
            continue;
        closures = arena_grow(r->arena, closures, gym->closure_count, &capacity, sizeof *closures);
        closures[gym->closure_count++] = closure;
        gym->closures = closures;
    }
}

/* --- below a placed session --- */

static void read_absent(struct resolver *r, const struct node *line, const struct camp *camp,
                        struct whereabouts *where)
{
    const struct node *on = node_find(line, NODE_ON);
    whereabouts_reason(r, line);
    for (const struct node *name = line->first; name && name->kind == NODE_NAME;
         name = name->next) {
        const struct athlete *athlete = whereabouts_member(r, name, camp);
        if (!athlete)
            continue;
        if (resolver_is_full(r, where, where->absence_count, MOST_STAYS, line->span, "a line",
                             "absences"))
            return;
        where->absences = arena_grow(r->arena, where->absences, where->absence_count,
                                     &where->absence_capacity, sizeof *where->absences);
        where->absences[where->absence_count++] = (struct absent_line){
            .athlete = athlete, .day = on ? (int)on->number : 0, .span = line->span};
    }
}

static void read_at(struct resolver *r, const struct node *line, const struct camp *camp,
                    struct whereabouts *where)
{
    struct stay stay = {.first = 0, .last = DATE_LAST};
    if (resolver_is_full(r, &where->stays, where->stay_count, MOST_STAYS, line->span, "a line",
                         "lines `at`") ||
        !read_stay(r, line, camp, &stay))
        return;
    for (size_t i = 0; i < where->stay_count; i++) {
        if (stay.athlete_count || where->stays[i].athlete_count)
            continue;
        struct finding *finding =
            diag_error(r->diag, DIAG_SAID_TWICE, line->span, "this says twice where it is for all");
        diag_note(r->diag, finding, where->stays[i].span, "here first");
        return;
    }
    where->stays = arena_grow(r->arena, where->stays, where->stay_count, &where->stay_capacity,
                              sizeof *where->stays);
    where->stays[where->stay_count++] = stay;
}

void whereabouts_read(struct resolver *r, const struct node *node, const struct camp *camp,
                      struct whereabouts *where)
{
    for (const struct node *line = node->first; line; line = line->next) {
        if (line->kind == STATEMENT_ABSENT)
            read_absent(r, line, camp, where);
        else if (line->kind == STATEMENT_AT)
            read_at(r, line, camp, where);
    }
}

bool whereabouts_absent(struct whereabouts *where, const struct athlete *athlete, int day)
{
    bool absent = false;
    for (size_t i = 0; i < where->absence_count; i++) {
        struct absent_line *absence = &where->absences[i];
        if (absence->athlete != athlete || (absence->day && absence->day != day))
            continue;
        absence->met = absent = true;
    }
    return absent;
}

void whereabouts_report_unmet(struct resolver *r, const struct whereabouts *where)
{
    for (size_t i = 0; i < where->absence_count; i++)
        if (!where->absences[i].met)
            diag_report(r->diag, SEVERITY_WARNING, DIAG_NEVER_COMES, where->absences[i].span,
                        "the line above is not placed for %s on that day",
                        where->absences[i].athlete->name.shown);
}
