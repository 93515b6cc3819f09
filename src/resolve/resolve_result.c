/* How a bout ended: won or lost, how, and whether the head can have been hit. */
#include <string.h>

#include "base/text.h"
#include "figures/dates.h"
#include "model/season.h"
#include "resolve/resolver.h"

/* How a bout can end. STOPPED: by blows, or by somebody who saw enough of them; the head of who did not win may have
 * been hit, of both where nobody won (a clash of heads). A cut, the corner and the ringside doctor are among these: common practice, and Neidecker et al. 2019, Br J Sports Med
 * 53:328-333, who count a stoppage by blows to the head with the knockouts. */
static const struct {
    const char *words;
    bool stopped;
} methods[] = {
    {"decision", false},           {"unanimous decision", false}, {"split decision", false},
    {"majority decision", false},  {"technical decision", false}, {"points", false},
    {"submission", false},         {"technical submission", false}, {"disqualification", false},
    {"forfeit", false},            {"walkover", false},           {"withdrawal", false},
    {"foul", false},               {"accidental foul", false},    {"stoppage", true},
    {"referee stoppage", true},    {"referee", true},             {"technical knockout", true},
    {"tko", true},                 {"knockout", true},            {"ko", true},
    {"knockdowns", true},          {"cut", true},                 {"cuts", true},
    {"corner", true},              {"corner stoppage", true},     {"retirement", true},
    {"doctor", true},              {"ringside doctor", true},     {"ringside physician", true},
    {"doctor stoppage", true},     {"injury", true},              {"strikes", true},
};

enum outcome_word { WON, LOST, DREW, NO_CONTEST };

static const char *const outcomes[] = {[WON] = "won", [LOST] = "lost", [DREW] = "drew", [NO_CONTEST] = "no contest"};

enum { METHODS = sizeof methods / sizeof *methods, OUTCOMES = sizeof outcomes / sizeof *outcomes };

static bool begins(const char *text, const char *word)
{
    size_t length = strlen(word);
    return strncmp(text, word, length) == 0 && (text[length] == ' ' || text[length] == '\0');
}

/* TEXT without WORDS at its end, or NULL if it does not end so. */
static const char *without_end(struct resolver *r, const char *text, const char *words)
{
    size_t length = strlen(text), tail = strlen(words);
    return length > tail && strcmp(text + length - tail, words) == 0 ? arena_copy(r->arena, text, length - tail) : NULL;
}

/* The nearest word to WORD that a result knows, or NULL. */
static const char *nearest_word(const char *word)
{
    const char *near = NULL;
    unsigned least = 3;
    for (size_t i = 0; i < OUTCOMES + METHODS; i++) {
        const char *known = i < OUTCOMES ? outcomes[i] : methods[i - OUTCOMES].words;
        unsigned distance = text_distance(word, known, least);
        if (distance < least) {
            least = distance;
            near = known;
        }
    }
    return near;
}

static void unknown_words(struct resolver *r, const struct node *name, const char *words)
{
    const char *near = nearest_word(words);
    struct finding *finding =
        diag_error(r->diag, DIAG_UNKNOWN_RESULT, name->span, "`%s` is not a result of a bout", words);
    if (near)
        diag_help(r->diag, finding, "did you mean `%s`?", near);
    else
        diag_help(r->diag, finding, "won, lost, drew or no contest; by decision, stoppage, knockout, submission, cut, "
                                    "corner, ringside doctor, disqualification; then `to the body` or `to the legs`");
}

/* Where the next of the ways, separated by `by`, `on` or a comma, begins in TEXT; its length is *LENGTH. */
static const char *next_way(const char *text, size_t *length)
{
    static const char *const parts[] = {", by ", ", ", " by ", " on "};
    text += strspn(text, " ");
    for (size_t i = 0; i < 2; i++)
        text += begins(text, i ? "on" : "by") ? 3 : 0;
    *length = strlen(text);
    for (size_t i = 0; i < sizeof parts / sizeof *parts; i++) {
        const char *end = strstr(text, parts[i]);
        if (end && (size_t)(end - text) < *length)
            *length = (size_t)(end - text);
    }
    return text;
}

/* Was the bout STOPPED in one of the ways that TEXT names? Reports an unknown way. */
static bool read_ways(struct resolver *r, const struct node *name, const char *text, bool *stopped)
{
    size_t length;
    for (text = next_way(text, &length); *text; text = next_way(text, &length)) {
        const char *way = arena_copy(r->arena, text, length);
        size_t i = 0;
        while (i < METHODS && strcmp(methods[i].words, way) != 0)
            i++;
        if (i == METHODS) {
            unknown_words(r, name, way);
            return false;
        }
        *stopped |= methods[i].stopped;
        text += length;
        text += strspn(text, ", ");
    }
    return true;
}

/* Reads "lost by stoppage to the body"; *OUTCOME becomes one of outcomes. False where a word of it is not known. */
static bool read_words(struct resolver *r, const struct node *name, enum outcome_word *outcome, bool *stopped,
                       bool *elsewhere)
{
    const char *text = resolver_fold(r, name), *head = without_end(r, text, " to the head");
    const char *body = without_end(r, text, " to the body"), *legs = without_end(r, text, " to the legs");
    *elsewhere = body || legs;
    text = body ? body : legs ? legs : head ? head : text;
    for (size_t i = 0; i < OUTCOMES; i++) {
        if (!begins(text, outcomes[i]))
            continue;
        *outcome = (enum outcome_word)i;
        return read_ways(r, name, text + strlen(outcomes[i]), stopped);
    }
    unknown_words(r, name, text);
    return false;
}

/* Does a doctor who saw the athlete after the bout stand at ENTRY, a NODE_SEEN or a line `seen by`? */
static bool seen_by_doctor(struct resolver *r, const struct node *entry, int bout)
{
    const struct node *name = node_find(entry, NODE_NAME);
    if (!entered_by_doctor(r, name)) {
        struct finding *finding = diag_error(r->diag, DIAG_NOT_A_DOCTOR, name->span,
                                             "whether the head was hit is for a doctor to say, and `%s` is not named "
                                             "as one",
                                             name->text);
        diag_help(r->diag, finding, "the first word is `doctor` or `physician`: `seen by doctor Ines Tarrant`");
        diag_set_neutral(finding, "");
        return false;
    }
    int day = entered_on(r, entry);
    if (day && day < bout)
        diag_error(r->diag, DIAG_SEEN_BEFORE_BOUT, entry->span, "nobody can have seen this before the bout");
    return day >= bout;
}

/* The day of the bout that RESULT is of; 0, which is reported, where a tournament has no such day. */
static int day_of_result(struct resolver *r, const struct node *result, const struct bout *bout)
{
    const struct node *on = node_find(result, NODE_WHEN);
    if (bout->day_count < 2)
        return bout->day;
    int day = on ? (int)on->first->number : 0;
    for (size_t i = 0; i < bout->day_count; i++)
        if (bout->days[i] == day)
            return day;
    struct finding *finding = diag_error(r->diag, DIAG_BAD_BOUT, result->span,
                                         "which day of the tournament is this the result of?");
    diag_help(r->diag, finding, "end the line with `on` and one of the days of the line `bout`");
    return 0;
}

/* What is known of a bout so far. */
struct outcome_of_bout {
    const struct node *lost; /* its line, or NULL */
    bool out;                /* of the tournament: lost, or its last day has a result */
};

static void read_result(struct resolver *r, const struct node *result, struct bout *bout, struct outcome_of_bout *so_far)
{
    enum outcome_word outcome = WON;
    bool stopped = false, elsewhere = false, seen = false;
    bool known = read_words(r, node_find(result, NODE_NAME), &outcome, &stopped, &elsewhere);
    const struct node *said[] = {node_find(result, NODE_SEEN), resolver_single(r, result, STATEMENT_SEEN_BY)};
    int day = day_of_result(r, result, bout);
    for (size_t i = 0; i < 2; i++)
        seen |= said[i] && seen_by_doctor(r, said[i], day);
    bool come = !node_find(result, NODE_WHEN) || entered_on(r, result);
    if (!known || !come || !day)
        return;
    bool lost = outcome == LOST;
    so_far->out |= lost || day == bout->last;
    so_far->lost = lost ? result : so_far->lost;
    bout->result_span = result->span;
    if (outcome != WON && stopped && !elsewhere && !seen) {
        bout->stopped = true;
        bout->lost = lost;
        bout->stopped_on = day;
    }
    if (lost && day < bout->last) {
        bout->out = day;
        diag_report(r->diag, SEVERITY_INFO, DIAG_DAY_NOT_REACHED, result->span,
                    "lost on this day: the days of the tournament behind it were not reached");
    }
}

void resolve_result(struct resolver *r, const struct node *of, struct bout *bout)
{
    struct outcome_of_bout so_far = {0};
    if (bout->day_count < 2)
        resolver_single(r, of, STATEMENT_RESULT);
    for (const struct node *line = node_find(of, STATEMENT_RESULT); line; line = node_next_alike(line)) {
        read_result(r, line, bout, &so_far);
        if (bout->day_count < 2)
            break;
    }
    bout->result_known = so_far.out;
}
