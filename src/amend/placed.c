#include "amend/placed.h"

#include <string.h>

#include "figures/dates.h"
#include "model/programme.h"
#include "syntax/format.h"
#include "syntax/read.h"

static const char *const days[] = {NULL, "monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"};

enum { SUNDAY = 7 };

struct placement {
    struct arena *arena;
    const struct source *source;
    const struct node *line, *span; /* the line, and the weeks that it is under */
    const struct occasion *occasion;
    int day, clock;  /* where it goes */
    bool off;        /* a line says that its old hour is off */
    bool rough;      /* more is changed: its layout can wait */
    size_t mark, marked; /* a byte of the source, and where it is in the result */
    struct text out;
};

const struct node *placed_statement(const struct project *project, struct span span)
{
    for (size_t i = 0; i < project->tree_count; i++)
        if (project->trees[i]->file == span.file)
            return node_statement_at(project->trees[i]->root, span.start);
    return NULL;
}

/* The byte after NODE and everything in it. */
static size_t node_end(const struct node *node)
{
    size_t end = node->span.end;
    for (const struct node *child = node->first; child; child = child->next) {
        size_t last = node_end(child);
        end = last > end ? last : end;
    }
    return end;
}

/* The first byte of the line that AT is in, and that of the next one. */
static size_t line_start(const struct source *source, size_t at)
{
    while (at > 0 && source->text[at - 1] != '\n')
        at--;
    return at;
}

static size_t line_after(const struct source *source, size_t at)
{
    while (at < source->length && source->text[at] != '\n')
        at++;
    return at < source->length ? at + 1 : at;
}

static void add_source(struct placement *placed, size_t start, size_t end)
{
    if (placed->mark >= start && placed->mark < end)
        placed->marked = placed->out.length + placed->mark - start;
    text_add_bytes(&placed->out, placed->source->text + start, end - start);
    if (end == placed->source->length && end > start && placed->source->text[end - 1] != '\n')
        text_add_char(&placed->out, '\n');
}

static const char *indent_of(const struct placement *placed, const struct node *statement)
{
    size_t start = line_start(placed->source, statement->span.start);
    size_t length = strspn(placed->source->text + start, " \t");
    return arena_copy(placed->arena, placed->source->text + start, length);
}

static const char *indent_below(const struct placement *placed)
{
    for (const struct node *child = placed->line->first; child; child = child->next)
        if (node_is_statement(child))
            return indent_of(placed, child);
    return arena_printf(placed->arena, "%s    ", indent_of(placed, placed->line));
}

static void add_lines(struct placement *placed, const char *lines)
{
    const char *indent = indent_below(placed);
    for (const char *line = lines; *line;) {
        size_t length = strcspn(line, "\n");
        text_addf(&placed->out, "%s%.*s\n", indent, (int)length, line);
        line += length + (line[length] == '\n');
    }
}

/* Is there a line below the placed one that is about other days only? */
static bool is_of_other_days(const struct placement *placed, const struct node *child)
{
    const struct node *on = node_find(child, NODE_ON), *when = node_find(child, NODE_WHEN);
    int week = placed->occasion->week;
    if (on)
        return (int)on->number != placed->occasion->date;
    if (!when || when->code != WHEN_WEEKS || !when->first)
        return false;
    const struct node *low = when->first, *high = when->first;
    if (low->kind == NODE_FIGURE && low->first)
        low = high = low->first;
    if (low->kind == NODE_RANGE) {
        high = low->last;
        low = low->first;
    }
    return week * 1000 < low->number || week * 1000 > high->number;
}

/* The bytes from AT to END, which hold the line's hour, with the hour that it moves to. */
static void add_with_hour(struct placement *placed, size_t at, size_t end)
{
    const struct node *clock = node_find(placed->line, NODE_CLOCK);
    if (clock && clock->span.start >= at && placed->clock != placed->occasion->clock) {
        add_source(placed, at, clock->span.start);
        text_addf(&placed->out, "%02d:%02d", placed->clock / 3600, placed->clock / 60 % 60);
        at = clock->span.end;
    }
    add_source(placed, at, end);
}

static void add_off(struct placement *placed)
{
    const struct occasion *old = placed->occasion;
    if (placed->off)
        text_addf(&placed->out, "%s%s %02d:%02d off\n", indent_of(placed, placed->line), days[date_weekday(old->date)],
                  old->clock / 3600, old->clock / 60 % 60);
}

/* The line again, with what is below it, for the day of the occasion or the day that it moves to. */
static void add_own_line(struct placement *placed, const char *lines)
{
    const struct source *source = placed->source;
    const struct node *named = node_find(placed->line, NODE_DAYS);
    add_off(placed);
    text_addf(&placed->out, "%s%s", indent_of(placed, placed->line), days[date_weekday(placed->day)]);
    add_with_hour(placed, named->span.end, line_after(source, named->span.end));
    for (const struct node *child = placed->line->first; child; child = child->next)
        if (node_is_statement(child) && !is_of_other_days(placed, child))
            add_source(placed, line_start(source, child->span.start), line_after(source, node_end(child) - 1));
    add_lines(placed, lines);
}

/* The other days of the line. */
static void add_other_days(struct placement *placed, int64_t named)
{
    bool begun = false;
    for (int day = 1; day <= SUNDAY; day++) {
        if (!(named >> day & 1) || day == date_weekday(placed->occasion->date))
            continue;
        text_addf(&placed->out, "%s%s", begun ? ", " : "", days[day]);
        begun = true;
    }
}

static void place_here(struct placement *placed, const char *lines)
{
    const struct node *named = node_find(placed->line, NODE_DAYS);
    size_t end = line_after(placed->source, node_end(placed->line) - 1), at = 0;
    if (placed->day != placed->occasion->date) {
        add_source(placed, 0, named->span.start);
        text_add(&placed->out, days[date_weekday(placed->day)]);
        at = named->span.end;
    }
    add_with_hour(placed, at, end);
    add_lines(placed, lines);
    add_off(placed);
    add_source(placed, end, placed->source->length);
}

static void place_beside(struct placement *placed, const char *lines)
{
    const struct node *named = node_find(placed->line, NODE_DAYS);
    size_t end = line_after(placed->source, node_end(placed->line) - 1);
    add_source(placed, 0, named->span.start);
    add_other_days(placed, named->number);
    add_source(placed, named->span.end, end);
    add_own_line(placed, lines);
    add_source(placed, end, placed->source->length);
}

/* Is SPAN the week of the occasion and no other? */
static bool is_its_week(const struct placement *placed, const struct node *span)
{
    const struct node *when = node_find(span, NODE_WHEN), *figure = when ? when->first : NULL;
    if (figure && figure->kind == NODE_FIGURE)
        figure = figure->first;
    return when && when->code == WHEN_WEEKS && figure && figure->kind == NODE_NUMBER
           && figure->number == placed->occasion->week * 1000;
}

/* Where a line for the day goes among those of WEEK. */
static size_t place_in_order(const struct placement *placed, const struct node *week)
{
    int64_t before = (INT64_C(2) << date_weekday(placed->day)) - 1;
    for (const struct node *child = week->first; child; child = child->next) {
        const struct node *named = child->kind == STATEMENT_PLACE ? node_find(child, NODE_DAYS) : NULL;
        if (named && !(named->number & before))
            return line_start(placed->source, child->span.start);
    }
    return line_after(placed->source, node_end(week) - 1);
}

static void place_in_week(struct placement *placed, const char *lines)
{
    const struct node *week = placed->span->parent->first;
    while (week && (week->kind != STATEMENT_SPAN || !is_its_week(placed, week)))
        week = week->next;
    size_t at = week ? place_in_order(placed, week) : line_after(placed->source, node_end(placed->span) - 1);
    add_source(placed, 0, at);
    if (!week)
        text_addf(&placed->out, "%sweek %d\n", indent_of(placed, placed->span), placed->occasion->week);
    add_own_line(placed, lines);
    add_source(placed, at, placed->source->length);
}

/* A text in canonical layout stays in it. */
static void lay_out(struct placement *placed)
{
    struct arena *arena = placed->arena;
    const struct phrasebook *phrases = phrasebook_new(arena);
    struct sources sources = {.arena = arena};
    struct diag *diag = diag_new(arena, &sources);
    struct text before = {.arena = arena}, after = {.arena = arena};
    int old = source_add(&sources, placed->source->name, placed->source->text, placed->source->length);
    int new = source_add(&sources, placed->source->name, text_get(&placed->out), placed->out.length);
    if (format_source(arena, &sources, (unsigned)old, phrases, diag, &before) == FORMAT_SAME
        && format_source(arena, &sources, (unsigned)new, phrases, diag, &after) == FORMAT_CHANGED)
        placed->out = after;
}

static const char *place(struct placement *placed, const struct project *project, const char *lines,
                         struct amended *amended)
{
    const struct programme *programme = project->programme;
    const struct occasion *occasion = placed->occasion;
    bool other_weeks = false, other_days = false;
    placed->source = &project->sources.items[occasion->span.file];
    placed->line = placed_statement(project, occasion->span);
    if (placed->line->kind != STATEMENT_PLACE)
        return "it stands in the record of closed days, and no edit changes a closed day";
    placed->span = placed->line->parent;
    for (size_t i = 0; i < programme->occasion_count; i++) {
        const struct occasion *other = &programme->occasions[i];
        other_weeks |= other->place == occasion->place && date_monday(other->date) != date_monday(occasion->date);
        other_days |= other->place == occasion->place && other->date != occasion->date;
    }
    if (other_weeks)
        place_in_week(placed, lines);
    else if (other_days)
        place_beside(placed, lines);
    else
        place_here(placed, lines);
    if (!placed->rough)
        lay_out(placed);
    *amended = (struct amended){occasion->span.file, placed->out};
    return NULL;
}

const char *placed_add(struct arena *arena, const struct project *project, const struct occasion *occasion,
                       const char *lines, struct amended *amended)
{
    struct placement placed = {.arena = arena, .occasion = occasion, .out = {.arena = arena}, .day = occasion->date,
                               .clock = occasion->clock};
    return place(&placed, project, lines, amended);
}

const char *placed_move(struct arena *arena, const struct project *project, const struct occasion *occasion, int day,
                        int clock, bool off, struct amended *amended)
{
    struct placement placed = {.arena = arena, .occasion = occasion, .out = {.arena = arena}, .day = day, .clock = clock,
                               .off = off};
    return place(&placed, project, "", amended);
}

/* --- two that change places --- */

/* PROJECT with what AMENDED holds read again; its meaning stays as it was. */
static struct project read_again(struct arena *arena, const struct project *project, const struct amended *amended)
{
    struct project again = *project;
    const struct phrasebook *phrases = phrasebook_new(arena);
    again.sources = (struct sources){.arena = arena};
    for (unsigned i = 0; i < project->sources.count; i++) {
        const struct source *source = &project->sources.items[i];
        if (i == amended->file)
            source_add(&again.sources, source->name, text_get(&amended->bytes), amended->bytes.length);
        else
            source_share(&again.sources, source);
    }
    again.trees = arena_alloc(arena, (project->tree_count + 1) * sizeof *again.trees);
    for (size_t i = 0; i < project->tree_count; i++)
        again.trees[i] = project->trees[i]->file != amended->file
                             ? project->trees[i]
                             : read_file(arena, &again.sources, amended->file, phrases, diag_new(arena, &again.sources));
    return again;
}

const char *placed_exchange(struct arena *arena, const struct project *project, const struct occasion *a,
                            const struct occasion *b, struct amended *amended)
{
    struct placement first = {.arena = arena, .occasion = a, .out = {.arena = arena}, .day = a->date, .clock = b->clock,
                              .rough = true, .mark = b->span.start};
    struct amended half;
    const char *wrong = place(&first, project, "", &half);
    if (wrong)
        return wrong;
    struct occasion other = *b;
    other.span = (struct span){half.file, (uint32_t)first.marked, (uint32_t)first.marked + (b->span.end - b->span.start)};
    const struct project again = read_again(arena, project, &half);
    return placed_move(arena, &again, &other, b->date, a->clock, false, amended);
}
