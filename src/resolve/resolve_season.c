#include "figures/dates.h"
#include "model/programme.h"
#include "resolve/resolver.h"

/* The day that the season at NODE gives below it as KIND, or 0; where it gives none, that is reported. */
static int season_day(struct resolver *r, const struct node *node, enum node_kind kind, const struct season *season)
{
    const struct node *line = resolver_single(r, node, kind);
    if (line)
        return (int)line->first->number;
    if (resolver_is_poisoned(r, season))
        return 0;
    bool from = kind == STATEMENT_SEASON_FROM;
    struct finding *finding = diag_error(r->diag, DIAG_LINE_TOO_SHORT, node->first->span, "%s does `%s` %s?",
                                         from ? "when" : "until when", season->name.shown, from ? "begin" : "last");
    diag_help(r->diag, finding, from ? "add a line `from` with its first day, such as 2026-09-07"
                                     : "add a line `to` with its last day, such as 2027-08-29");
    return 0;
}

void resolve_season(struct resolver *r, const struct node *node, struct season *season)
{
    enum { LONGEST = 2 * 366 };
    if (node_is_broken(node))
        resolver_poison(r, season, node->span);
    int first = season_day(r, node, STATEMENT_SEASON_FROM, season);
    int last = season_day(r, node, STATEMENT_SEASON_TO, season);
    if (!first || !last)
        return;
    const struct node *to = node_find(node, STATEMENT_SEASON_TO);
    if (last < first) {
        diag_error(r->diag, DIAG_ENDS_BEFORE_START, to->span, "this ends before it begins");
        return;
    }
    if (last - first >= LONGEST) {
        struct finding *finding = diag_error(r->diag, DIAG_SEASON_TOO_LONG, to->span, "a season is at most two years long");
        diag_help(r->diag, finding, "declare one season for each year");
        return;
    }
    season->first = first;
    season->last = last;
}

/* The season before SEASON in the plan that shares a day with it, or NULL. */
static const struct season *overlapped(const struct programme *programme, size_t index)
{
    const struct season *season = programme->seasons[index];
    for (size_t i = 0; i < index && season->first; i++) {
        const struct season *other = programme->seasons[i];
        if (other->first && other->first <= season->last && season->first <= other->last)
            return other;
    }
    return NULL;
}

/* A day is of one season, so that each has its page. */
void report_seasons_overlap(struct resolver *r)
{
    enum { MOST_SEASONS = 100 };
    const struct programme *programme = r->programme;
    for (size_t i = 0; i < programme->season_count; i++) {
        const struct season *season = programme->seasons[i];
        if (i == MOST_SEASONS) {
            diag_error(r->diag, DIAG_TOO_MANY_ENTRIES, season->name.span, "a plan can have at most %d seasons", MOST_SEASONS);
            return;
        }
        const struct season *other = overlapped(programme, i);
        if (!other)
            continue;
        char day[DATE_TEXT_SIZE];
        date_format(season->first > other->first ? season->first : other->first, day);
        struct finding *finding = diag_error(r->diag, DIAG_SEASONS_OVERLAP, season->name.span,
                                             "%s is a day of `%s` and of `%s`", day, other->name.shown,
                                             season->name.shown);
        diag_note(r->diag, finding, other->name.span, "the other season is here");
        diag_help(r->diag, finding, "let the earlier season end on the day before the later one begins");
    }
}
