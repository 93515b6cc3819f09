/* lens.c - above the weeks of a camp: how long they are, how they rise, and what is found in them. */
#include <string.h>

#include "base/text.h"
#include "export/json_text.h"
#include "lsp/methods.h"
#include "lsp/outline.h"
#include "lsp/publish.h"
#include "model/programme.h"
#include "wording/wording.h"

enum { MOST_WEEKS = 520 };

/* The lines of a span of weeks. */
struct placing {
    const struct node *statement;
    size_t end; /* the byte after all of them */
};

/* What one athlete does in one week of a camp. */
struct week_sum {
    int64_t seconds;
    int64_t load; /* milli RPE x seconds */
    bool here;    /* some of it is placed by the lines in question */
};

/* The weeks that such lines place, over all athletes. */
struct weeks_sum {
    int first, last;
    int64_t least, most; /* seconds of a week */
    int rise;            /* per cent, of load on the week before; 0: none */
    int first_day, last_day;
};

static bool is_inside(const struct placing *placing, struct span span)
{
    return span.file == placing->statement->span.file && span.start >= placing->statement->span.start &&
           span.start <= placing->end;
}

static void take_week(struct weeks_sum *sum, const struct week_sum *weeks, int week)
{
    const struct week_sum *this = &weeks[week], *before = &weeks[week - 1];
    if (!this->here)
        return;
    sum->least = !sum->first || this->seconds < sum->least ? this->seconds : sum->least;
    sum->most = this->seconds > sum->most ? this->seconds : sum->most;
    sum->first = !sum->first || week < sum->first ? week : sum->first;
    sum->last = week > sum->last ? week : sum->last;
    int rise = before->load > 0 ? (int)(100 * (this->load - before->load) / before->load) : 0;
    sum->rise = rise > sum->rise ? rise : sum->rise;
}

/* Adds OCCASION to the weeks of its athlete. */
static void take_occasion(struct weeks_sum *sum, struct week_sum *weeks, const struct placing *placing,
                          const struct occasion *occasion)
{
    struct week_sum *week = &weeks[occasion->week];
    week->seconds += occasion->seconds;
    week->load += (occasion->rpe.low + occasion->rpe.high) / 2 * occasion->seconds;
    if (!is_inside(placing, occasion->span))
        return;
    week->here = true;
    sum->first_day = !sum->first_day || occasion->date < sum->first_day ? occasion->date : sum->first_day;
    sum->last_day = occasion->date > sum->last_day ? occasion->date : sum->last_day;
}

/* The camp whose lines these are, found by one of its occasions; NULL if they place nothing. */
static const struct camp *camp_of(const struct programme *programme, const struct placing *placing)
{
    for (size_t i = 0; i < programme->occasion_count; i++)
        if (is_inside(placing, programme->occasions[i].span))
            return programme->occasions[i].camp;
    return NULL;
}

static struct weeks_sum sum_weeks(struct arena *arena, const struct programme *programme, const struct camp *camp,
                                  const struct placing *placing)
{
    struct weeks_sum sum = {0};
    struct week_sum *weeks = arena_alloc(arena, (MOST_WEEKS + 1) * sizeof *weeks);
    for (size_t a = 0; a < camp->athlete_count; a++) {
        memset(weeks, 0, (MOST_WEEKS + 1) * sizeof *weeks);
        for (size_t i = 0; i < programme->occasion_count; i++) {
            const struct occasion *occasion = &programme->occasions[i];
            bool counts = occasion->camp == camp && occasion->athlete == camp->athletes[a];
            if (counts && occasion->week >= 1 && occasion->week <= MOST_WEEKS)
                take_occasion(&sum, weeks, placing, occasion);
        }
        for (int week = 1; week <= MOST_WEEKS; week++)
            take_week(&sum, weeks, week);
    }
    return sum;
}

static bool is_member(const struct camp *camp, const char *who)
{
    for (size_t i = 0; i < camp->athlete_count; i++)
        if (text_same(camp->athletes[i]->name.shown, who))
            return true;
    return false;
}

/* How many errors and warnings are about these weeks of CAMP, or in the lines that place them. */
static size_t count_findings(const struct focus *focus, const struct file_findings *files, const struct camp *camp,
                             const struct weeks_sum *sum, const struct placing *placing)
{
    size_t count = 0;
    for (size_t f = 0; f < focus->project->sources.count; f++) {
        for (size_t i = 0; i < files[f].count; i++) {
            const struct finding *finding = files[f].items[i];
            const struct whose *of = finding->of;
            bool within = of && of->week && of->first <= sum->last_day && of->last >= sum->first_day &&
                          is_member(camp, of->who);
            count += finding->severity != SEVERITY_INFO && (within || is_inside(placing, finding->span));
        }
    }
    return count;
}

static const char *whole_minutes(struct arena *arena, int64_t seconds)
{
    return wording_time(arena, (int)((seconds + 30) / 60 * 60));
}

static const char *lens_words(struct call *call, const struct weeks_sum *sum, size_t findings)
{
    struct arena *arena = call->arena;
    struct text text = {.arena = arena};
    text_addf(&text, sum->last > sum->first ? "weeks %d" WORDING_TO "%d: " : "week %d: ", sum->first, sum->last);
    const char *least = whole_minutes(arena, sum->least), *most = whole_minutes(arena, sum->most);
    text_add(&text, least);
    if (strcmp(least, most) != 0)
        text_addf(&text, " to %s", most);
    if (sum->rise)
        text_addf(&text, " " WORDING_DOT " load rises by up to %d %%", sum->rise);
    if (findings)
        text_addf(&text, " " WORDING_DOT " %zu finding%s", findings, findings == 1 ? "" : "s");
    return text_keep(arena, &text);
}

static void add_lens(struct call *call, const struct focus *focus, const struct file_findings *files,
                     const struct node *statement, json_t *all)
{
    const struct programme *programme = club_programme(focus->club);
    const struct placing placing = {statement, statement_end(statement)};
    const struct camp *camp = camp_of(programme, &placing);
    if (!camp)
        return;
    struct weeks_sum sum = sum_weeks(call->arena, programme, camp, &placing);
    size_t findings = count_findings(focus, files, camp, &sum, &placing);
    json_t *lens = json_object(), *command = json_object();
    json_put_words(command, "title", lens_words(call, &sum, findings));
    json_put_words(command, "command", "");
    json_put(lens, "range", page_range(&focus->page, statement->span.start, statement->span.end));
    json_put(lens, "command", command);
    json_add(all, lens);
}

json_t *lsp_code_lens(struct call *call)
{
    struct focus focus;
    if (!call_focus(call, &focus))
        return NULL;
    const struct file_findings *files = publish_gather(call->arena, focus.club);
    json_t *all = json_array();
    for (const struct node *camp = focus.tree->root->first; camp; camp = camp->next)
        for (const struct node *at = camp->kind == STATEMENT_CAMP ? camp->first : NULL; at; at = at->next)
            if (at->kind == STATEMENT_SPAN)
                add_lens(call, &focus, files, at, all);
    return all;
}
