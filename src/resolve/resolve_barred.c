/* What bars an athlete's training: holds and what was entered below them, days out, suspensions, knocks. */
#include <ctype.h>
#include <string.h>

#include "base/text.h"
#include "figures/dates.h"
#include "measure/hold.h"
#include "resolve/whereabouts.h"
#include "model/athlete.h"

enum { MOST_BARS = 100, MOST_ENTRIES = 200 };

/* Is there room in LIST, which has COUNT, for one more of WHAT? Each is looked at on every day. Reports the first LINE for which
 * there is none. */
static bool has_room(struct resolver *r, const void *list, const struct node *line, size_t count, size_t most, const char *what)
{
    if (count < most)
        return true;
    if (!resolver_is_poisoned(r, list))
        diag_error(r->diag, DIAG_TOO_MANY_ENTRIES, line->span, "there are more than %zu %s here", most, what);
    resolver_poison(r, list, line->span);
    return false;
}

bool entered_by_doctor(struct resolver *r, const struct node *name)
{
    const char *folded = resolver_fold(r, name);
    size_t length = strcspn(folded, " ");
    return (length == strlen("doctor") && strncmp(folded, "doctor", length) == 0) ||
           (length == strlen("physician") && strncmp(folded, "physician", length) == 0);
}

int entered_on(struct resolver *r, const struct node *entry)
{
    int day = (int)node_find(entry, NODE_WHEN)->first->number;
    if (!r->today || day <= r->today)
        return day;
    diag_error(r->diag, DIAG_FUTURE_ENTRY, entry->span, "an entry for a day in the future does not count");
    return 0;
}

static void report_no_doctor(struct resolver *r, const struct node *name, const char *what)
{
    struct finding *finding =
        diag_error(r->diag, DIAG_NOT_A_DOCTOR, name->span, "%s, and `%s` is not named as one", what,
                   name->text);
    diag_help(r->diag, finding, "the first word is `doctor` or `physician`: `doctor Ines Tarrant`");
}

static int clock_of(const struct node *line)
{
    const struct node *clock = node_find(line, NODE_CLOCK);
    return clock ? (int)clock->number : -1;
}

/* A health fact in a shared file counts, but is reported. */
void report_shared(struct resolver *r, const struct node *line, const char *athlete)
{
    struct finding *finding =
        diag_report(r->diag, SEVERITY_WARNING, DIAG_HEALTH_FACT_SHARED, line->span,
                    "this counts, but it is a health fact in a file that others read");
    diag_help(r->diag, finding, "move this line below `private %s`, in a file that is not shared", athlete);
    diag_set_neutral(finding, "");
}

/* --- holds --- */

/* The place of the step that NAME names, or -1, which is reported. */
static int step_named(struct resolver *r, const struct node *name, const struct protocol *protocol)
{
    const char *folded = resolver_fold(r, name);
    struct text all = {.arena = r->arena};
    for (size_t i = 0; protocol && i < protocol->step_count; i++) {
        if (strcmp(protocol->steps[i].name, folded) == 0)
            return (int)i;
        text_addf(&all, "%s%s", all.length ? ", " : "", protocol->steps[i].name);
    }
    struct finding *finding =
        diag_error(r->diag, DIAG_UNKNOWN_STEP, name->span, "the protocol has no step `%s`", name->text);
    if (all.length)
        diag_help(r->diag, finding, "its steps are %s", text_get(&all));
    return -1;
}

/* Reads LINE as an entry of a hold; false if it is not one, or cannot count. */
static bool read_entry(struct resolver *r, const struct node *line, const struct protocol *protocol,
                       struct hold_entry *entry)
{
    const struct node *by = node_find(line, NODE_BY), *name = by ? by->first : node_find(line, NODE_NAME);
    entry->span = line->span;
    entry->by = name ? name->text : NULL;
    entry->doctor = name && entered_by_doctor(r, name);
    switch ((int)line->kind) {
    case STATEMENT_REACHED:
        entry->kind = ENTRY_REACHED;
        entry->step = step_named(r, node_find(line, NODE_NAME), protocol);
        break;
    case STATEMENT_AGREED_BY: entry->kind = ENTRY_AGREED; break;
    case STATEMENT_ENDED_BY: entry->kind = ENTRY_ENDED; break;
    case STATEMENT_SYMPTOMS:
        entry->kind = ENTRY_SYMPTOMS;
        entry->day = (int)node_find(line, NODE_ON)->number;
        return true;
    default: return false;
    }
    entry->day = (int)node_find(line, NODE_WHEN)->first->number;
    bool doctors = entry->kind == ENTRY_AGREED || entry->kind == ENTRY_ENDED;
    if (doctors && !entry->doctor)
        report_no_doctor(r, name, entry->kind == ENTRY_ENDED ? "only a doctor ends a "
                                                               "hold" : "only a doctor agrees to such work");
    return entry->step >= 0 && (!doctors || entry->doctor);
}

/* Puts ENTRY where its day belongs; within one day symptoms come last, and otherwise entries stay as written. */
static void add_entry(struct resolver *r, struct hold *hold, struct hold_entry entry, size_t *capacity)
{
    struct hold_entry *entries = arena_grow(r->arena, (struct hold_entry *)hold->entries, hold->entry_count, capacity,
                                            sizeof *entries);
    size_t at = hold->entry_count++;
    for (; at > 0; at--) {
        const struct hold_entry *before = &entries[at - 1];
        bool later = before->day > entry.day || (before->day == entry.day && before->kind == ENTRY_SYMPTOMS &&
                                                 entry.kind != ENTRY_SYMPTOMS);
        if (!later)
            break;
        entries[at] = *before;
    }
    entries[at] = entry;
    hold->entries = entries;
}

static void read_entries(struct resolver *r, const struct node *node, struct hold *hold, const char *athlete)
{
    bool private = node->parent->kind == STATEMENT_PRIVATE;
    size_t capacity = arena_room(hold->entry_count);
    for (const struct node *line = node->first; line; line = line->next) {
        struct hold_entry entry = {.private = private};
        if (!node_is_statement(line) || !read_entry(r, line, hold->protocol, &entry))
            continue;
        if (!has_room(r, &hold->entries, line, hold->entry_count, MOST_ENTRIES, "entries"))
            return;
        if (entry.kind == ENTRY_SYMPTOMS && !private)
            report_shared(r, line, athlete);
        add_entry(r, hold, entry, &capacity);
    }
}

/* The hold of the plan that a private block adds to: the one of its day or, if it gives none, the last. */
static struct hold *hold_added_to(struct athlete *athlete, const struct node *node, const struct node *since)
{
    struct hold *holds = (struct hold *)athlete->holds, *found = NULL;
    if (node->parent->kind != STATEMENT_PRIVATE)
        return NULL;
    int day = since ? (int)node_find(since, NODE_DATE)->number : 0;
    for (size_t i = 0; i < athlete->hold_count; i++)
        if (since ? holds[i].since == day : !found || holds[i].since > found->since)
            found = &holds[i];
    return found;
}

static bool hold_has_come(const struct resolver *r, const struct node *since)
{
    return !r->today || node_find(since, NODE_DATE)->number <= r->today;
}

/* The first day of a hold. One that is still to come would bar nothing until then: it bars from today on. */
static int hold_since(struct resolver *r, const struct node *since)
{
    if (!since || hold_has_come(r, since))
        return since ? (int)node_find(since, NODE_DATE)->number : 0;
    diag_error(r->diag, DIAG_FUTURE_ENTRY, since->span, "a hold cannot begin in the future: until this is corrected, "
                                                        "it begins today");
    return r->today;
}

static void read_hold(struct resolver *r, const struct node *node, struct athlete *athlete, size_t *capacity)
{
    const struct node *since = resolver_single(r, node, STATEMENT_SINCE);
    struct hold *hold = hold_added_to(athlete, node, since);
    if (!hold && !has_room(r, &athlete->holds, node, athlete->hold_count, MOST_BARS, "holds"))
        return;
    if (!hold) {
        struct hold *holds = arena_grow(r->arena, (struct hold *)athlete->holds, athlete->hold_count, capacity,
                                        sizeof *holds);
        athlete->holds = holds;
        hold = &holds[athlete->hold_count++];
        *hold = (struct hold){.since = hold_since(r, since),
                              .clock = since && hold_has_come(r, since) ? clock_of(since) : -1,
                              .protocol = names_find(r->protocols, "head"),
                              .private = node->parent->kind == STATEMENT_PRIVATE,
                              .span = node->span};
        if (!since && !node_is_broken(node)) {
            struct finding *finding = diag_error(r->diag, DIAG_HOLD_WITHOUT_START, node->span,
                                                 "this hold does not say when it starts; until it does, it bars "
                                                 "everything");
            diag_help(r->diag, finding, "add a line `since` with the day and, if known, the hour of the knock");
        }
    }
    const struct node *step = node_find(node, STATEMENT_STEP);
    if (step)
        diag_error(r->diag, DIAG_BAD_PROTOCOL, step->span, "the protocol for the head has its own steps, which no plan changes");
    read_entries(r, node, hold, athlete->name.shown);
}

/* --- days out --- */

static void read_out(struct resolver *r, const struct node *node, struct athlete *athlete, size_t *capacity)
{
    const struct node *until = resolver_single(r, node, STATEMENT_OUT_UNTIL), *seen = node_find(node, STATEMENT_SEEN_BY);
    if (seen)
        diag_error(r->diag, DIAG_UNKNOWN_STATEMENT, seen->span, "a doctor is named below `away`, with its reason, in the "
                                                                "private file");
    if (!has_room(r, &athlete->outs, node, athlete->out_count, MOST_BARS, "lines `out since` and `away`"))
        return;
    struct out out = {.first = (int)node->first->number,
                      .last = until ? (int)until->first->number : DATE_LAST,
                      .span = node->span};
    if (out.last < out.first) {
        struct finding *finding = diag_error(r->diag, DIAG_ENDS_BEFORE_START, until->span, "this ends before it begins");
        diag_note(r->diag, finding, node->span, "it begins here");
        out.last = DATE_LAST;
    }
    struct out *outs = arena_grow(r->arena, (struct out *)athlete->outs, athlete->out_count, capacity, sizeof *outs);
    outs[athlete->out_count++] = out;
    athlete->outs = outs;
}

/* Do lines of the plan keep ATHLETE out on all days of AWAY? */
static bool is_out_by_plan(const struct athlete *athlete, const struct out *away)
{
    return !athlete_not_out(athlete, away->first, away->last);
}

/* Is C, a byte of UTF-8, of a letter or figure? Letters beyond ASCII are, with whatever else is written there. */
static bool is_of_word(char c)
{
    return isalnum((unsigned char)c) || (unsigned char)c >= 0x80;
}

/* Words after which a doctor is asked before training (common practice, no source). */
static bool asks_for_doctor(const char *folded)
{
    static const char *const words[] = {"fever", "feverish", "chest", "heart", "palpitations", "breathless"};
    for (size_t i = 0; i < sizeof words / sizeof *words; i++) {
        size_t length = strlen(words[i]);
        for (const char *at = strstr(folded, words[i]); at; at = strstr(at + 1, words[i]))
            if ((at == folded || !is_of_word(at[-1])) && !is_of_word(at[length]))
                return true;
    }
    return false;
}

/* What stands below `away`: a doctor's name, where the reason asks for one. */
static void read_illness(struct resolver *r, const struct node *node, struct athlete *athlete, const struct out *away,
                         const char *reason)
{
    const struct node *seen = resolver_single(r, node, STATEMENT_SEEN_BY);
    const struct node *until = node_find(node, STATEMENT_OUT_UNTIL);
    if (until)
        diag_error(r->diag, DIAG_UNKNOWN_STATEMENT, until->span, "`away` gives its last day on its own line, after `to`");
    bool private = node->parent->kind == STATEMENT_PRIVATE;
    if (seen && !private) {
        struct finding *finding = diag_error(r->diag, DIAG_HEALTH_REASON, seen->span,
                                             "who was seen by a doctor does not belong in a plan that others read");
        diag_help(r->diag, finding, "move it below `private %s`, with the same days", athlete->name.shown);
        diag_set_neutral(finding, "");
    }
    if (!private || !reason || !asks_for_doctor(text_fold(r->arena, reason, strlen(reason))))
        return;
    bool doctor = seen && entered_by_doctor(r, node_find(seen, NODE_NAME));
    if (seen && !doctor)
        report_no_doctor(r, node_find(seen, NODE_NAME), "after a fever or chest symptoms only a doctor counts");
    size_t capacity = arena_room(athlete->illness_count);
    struct illness *illnesses = arena_grow(r->arena, (struct illness *)athlete->illnesses, athlete->illness_count, &capacity,
                                           sizeof *illnesses);
    illnesses[athlete->illness_count++] = (struct illness){
        .first = away->first, .last = away->last, .seen = doctor ? entered_on(r, seen) : 0, .span = node->span};
    athlete->illnesses = illnesses;
}

/* `away` below `private` only gives the reason for days that the plan has too. */
static void read_away(struct resolver *r, const struct node *node, struct athlete *athlete, size_t *capacity)
{
    struct out away = {.away = true, .span = node->span};
    if (!has_room(r, &athlete->outs, node, athlete->out_count, MOST_BARS, "lines `out since` and `away`"))
        return;
    const char *reason = whereabouts_reason(r, node);
    if (!whereabouts_days(r, node, &away.first, &away.last))
        return;
    read_illness(r, node, athlete, &away, reason);
    if (node->parent->kind == STATEMENT_PRIVATE) {
        if (is_out_by_plan(athlete, &away))
            return;
        struct finding *finding = diag_error(r->diag, DIAG_MUST_BE_SHARED, node->span,
                                             "a copy without this file would plan these days, and has to leave them free as well");
        diag_help(r->diag, finding, "say the days in the plan too, without the reason: `away` below `athlete %s`",
                  athlete->name.shown);
    }
    struct out *outs = arena_grow(r->arena, (struct out *)athlete->outs, athlete->out_count, capacity, sizeof *outs);
    outs[athlete->out_count++] = away;
    athlete->outs = outs;
}

/* --- suspensions --- */

static int first_allowed(struct resolver *r, const struct node *node, enum node_kind before, enum node_kind notice,
                         struct span *span)
{
    const struct node *line = resolver_single(r, node, before), *never = resolver_single(r, node, notice);
    if (!never)
        never = node_find(node, STATEMENT_NOTHING_YET);
    if (!line && !never)
        return 0;
    *span = never ? never->span : line->span;
    return never ? DATE_LAST : (int)line->first->number;
}

static void read_suspension(struct resolver *r, const struct node *node, struct athlete *athlete, size_t *capacity)
{
    const struct node *since = resolver_single(r, node, STATEMENT_SINCE);
    if (!has_room(r, &athlete->suspensions, node, athlete->suspension_count, MOST_BARS, "suspensions"))
        return;
    struct suspension suspension = {.by = node->first->text,
                                    .since = since ? (int)node_find(since, NODE_DATE)->number : 0,
                                    .span = node->span};
    suspension.contact =
        first_allowed(r, node, STATEMENT_NO_CONTACT, STATEMENT_NO_CONTACT_YET, &suspension.contact_span);
    suspension.bout = first_allowed(r, node, STATEMENT_NO_BOUT, STATEMENT_NO_BOUT_YET, &suspension.bout_span);
    if (!suspension.contact && !suspension.bout && !node_is_broken(node)) {
        struct finding *finding =
            diag_error(r->diag, DIAG_NOTHING_BELOW, node->span, "this suspension does not say what it bars");
        diag_help(r->diag, finding, "below it, write `no contact before` and `no bout before` with the first day "
                                    "allowed, or `until further notice`");
    }
    struct suspension *list = arena_grow(r->arena, (struct suspension *)athlete->suspensions,
                                         athlete->suspension_count, capacity, sizeof *list);
    list[athlete->suspension_count++] = suspension;
    athlete->suspensions = list;
}

void resolve_barred(struct resolver *r, const struct node *node, struct athlete *athlete)
{
    size_t holds = arena_room(athlete->hold_count), outs = arena_room(athlete->out_count);
    size_t suspensions = arena_room(athlete->suspension_count);
    for (const struct node *line = node->first; line; line = line->next) {
        switch ((int)line->kind) {
        case STATEMENT_HOLD_HEAD: read_hold(r, line, athlete, &holds); break;
        case STATEMENT_OUT_SINCE: read_out(r, line, athlete, &outs); break;
        case STATEMENT_AWAY: read_away(r, line, athlete, &outs); break;
        case STATEMENT_SUSPENDED: read_suspension(r, line, athlete, &suspensions); break;
        default: break;
        }
    }
}

/* --- knocks --- */

void resolve_knocks(struct resolver *r, const struct node *node, struct athlete *athlete)
{
    size_t capacity = arena_room(athlete->knock_count);
    for (const struct node *line = node_find(node, STATEMENT_HEAD_KNOCK); line; line = node_next_alike(line)) {
        if (!has_room(r, &athlete->knocks, line, athlete->knock_count, MOST_BARS, "knocks"))
            return;
        struct knock knock = {.day = (int)node_find(line, NODE_ON)->number, .clock = clock_of(line),
                              .shared = node->kind != STATEMENT_PRIVATE, .span = line->span};
        if (r->today && knock.day > r->today) {
            diag_error(r->diag, DIAG_FUTURE_ENTRY, line->span, "an entry for a day in the future does not count");
            continue;
        }
        if (knock.shared)
            report_shared(r, line, athlete->name.shown);
        struct knock *knocks = arena_grow(r->arena, (struct knock *)athlete->knocks, athlete->knock_count, &capacity,
                                          sizeof *knocks);
        knocks[athlete->knock_count++] = knock;
        athlete->knocks = knocks;
    }
}
