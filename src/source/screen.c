#include "source/screen.h"

#include <stdlib.h>
#include <string.h>

#include "base/bidi.h"
#include "base/text.h"

/* --- what is shown --- */

/* A finding, or several of one athlete's days instead. */
struct screen_entry {
    const struct finding *finding;
    const struct finding *const *rows; /* those of a table; NULL for a finding on its own */
    size_t row_count;
};

struct screen {
    const struct diag *diag;
    const struct diag_style *style;
    struct screen_entry *entries;
    size_t count, capacity;
};

static void add_entry(struct screen *screen, struct screen_entry entry)
{
    screen->entries = arena_grow(screen->diag->arena, screen->entries, screen->count, &screen->capacity,
                                 sizeof *screen->entries);
    screen->entries[screen->count++] = entry;
}

static bool is_seen(const struct screen *screen, const struct finding *finding)
{
    return finding->severity != SEVERITY_INFO || screen->style->infos;
}

/* What is said about all findings OF one athlete's days. */
static struct finding *make_finding(const struct screen *screen, const struct finding *first, enum diagnostic diagnostic,
                                    const char *words)
{
    struct finding *finding = arena_alloc(screen->diag->arena, sizeof *finding);
    *finding = (struct finding){.severity = first->severity, .diagnostic = diagnostic, .span = first->of->span,
                                .words = words, .order = first->order};
    return finding;
}

static int compare_days(const struct finding *a, const struct finding *b)
{
    const struct whose *one = a->of, *other = b->of;
    if (one->person != other->person)
        return (uintptr_t)one->person < (uintptr_t)other->person ? -1 : 1;
    if (one->first != other->first)
        return one->first < other->first ? -1 : 1;
    if (one->last != other->last)
        return one->last < other->last ? -1 : 1;
    return a->severity < b->severity ? -1 : a->severity > b->severity;
}

static int by_days(const void *left, const void *right)
{
    const struct finding *a = *(const struct finding *const *)left, *b = *(const struct finding *const *)right;
    int days = compare_days(a, b);
    return days ? days : a->order < b->order ? -1 : a->order > b->order;
}

static void add_table(struct screen *screen, const struct finding *const *rows, size_t count)
{
    const struct whose *of = rows[0]->of;
    const char *words = arena_printf(screen->diag->arena, "%s: %zu floors are not met in %s", of->who, count, of->when);
    add_entry(screen, (struct screen_entry){make_finding(screen, rows[0], DIAG_FLOORS_MISSED, words), rows, count});
}

static void add_more(struct screen *screen, const struct finding *first, size_t hidden)
{
    if (!hidden)
        return;
    const char *words = arena_printf(screen->diag->arena, "%s: %zu more %s in %s", first->of->who, hidden,
                                     hidden == 1 ? "warning" : "warnings", first->of->when);
    struct finding *finding = make_finding(screen, first, DIAG_MORE_WARNINGS, words);
    finding->help = "deal with the first five of the week and check again, or see all of them with `check --notes`";
    add_entry(screen, (struct screen_entry){.finding = finding});
}

/* Those of one athlete's days and one severity: COUNT of them, in the order in which they matter. Floors are one of the
 * five, wherever the first of them comes. */
static void add_days(struct screen *screen, const struct finding **same, size_t count)
{
    const struct finding **rows = arena_alloc(screen->diag->arena, (count + 1) * sizeof *rows);
    size_t row_count = 0, shown = 0, hidden = 0;
    for (size_t i = 0; i < count; i++)
        if (same[i]->row)
            rows[row_count++] = same[i];
    bool capped = same[0]->of->week && same[0]->severity == SEVERITY_WARNING;
    for (size_t i = 0; i < count; i++) {
        bool in_table = row_count > 1 && same[i]->row;
        if (in_table && same[i] != rows[0])
            continue;
        if (capped && shown == MOST_WARNINGS) {
            hidden += in_table ? row_count : 1;
            continue;
        }
        shown++;
        if (in_table)
            add_table(screen, rows, row_count);
        else
            add_entry(screen, (struct screen_entry){.finding = same[i]});
    }
    add_more(screen, same[0], hidden);
}

static int by_weight(const void *left, const void *right)
{
    const struct finding *a = ((const struct screen_entry *)left)->finding, *b = ((const struct screen_entry *)right)->finding;
    if (a->severity != b->severity)
        return a->severity > b->severity ? -1 : 1;
    return diag_compare(a, b);
}

static void gather(struct screen *screen)
{
    const struct diag *diag = screen->diag;
    const struct finding **dated = arena_alloc(diag->arena, (diag->count + 1) * sizeof *dated);
    size_t count = 0;
    for (size_t i = 0; i < diag->count; i++) {
        const struct finding *finding = diag->items[i];
        bool folds = finding->of && !screen->style->notes && finding->severity != SEVERITY_ERROR;
        if (folds && is_seen(screen, finding))
            dated[count++] = finding;
        else if (is_seen(screen, finding))
            add_entry(screen, (struct screen_entry){.finding = finding});
    }
    qsort(dated, count, sizeof *dated, by_days);
    for (size_t i = 0, end; i < count; i = end) {
        for (end = i + 1; end < count && compare_days(dated[i], dated[end]) == 0;)
            end++;
        add_days(screen, dated + i, end - i);
    }
    if (screen->count > 1)
        qsort(screen->entries, screen->count, sizeof *screen->entries, by_weight);
}

/* --- how --- */

struct paint {
    const char *bold, *error, *warning, *info, *note, *help, *end;
};

static struct paint paint_for(bool color)
{
    if (!color)
        return (struct paint){"", "", "", "", "", "", ""};
    return (struct paint){"\033[1m",  "\033[1;31m", "\033[1;33m", "\033[1;36m",
                          "\033[36m", "\033[32m",   "\033[0m"};
}

static const char *severity_name(enum severity severity)
{
    return severity == SEVERITY_ERROR ? "error" : severity == SEVERITY_WARNING ? "warning" : "info";
}

static void print_place(const struct diag *diag, struct span span, struct text *out)
{
    const struct source *source = &diag->sources->items[span.file];
    unsigned line = source_line(source, span.start);
    size_t length;
    const char *text = source_line_text(source, line, &length);
    size_t before = span.start - source->lines[line - 1];
    text_addf(out, "%s:%u:%u: ", source->name, line,
              text_width(text, before < length ? before : length) + 1);
}

/* Adds a line of a plan, with ? for what must not reach a terminal: control and bidirectional characters, and bytes
 * that are not text. */
static void add_harmless(const char *text, size_t length, struct text *out)
{
    for (size_t at = 0; at < length;) {
        const char *what;
        size_t size = 1, good = text_first_fault(text + at, length - at, &what, &size);
        text_add_bytes(out, text + at, good);
        at += good;
        if (at < length) {
            text_add_char(out, '?');
            at += size;
        }
    }
}

/* Is AT inside a character? */
static bool is_inside(const char *text, size_t at)
{
    return ((unsigned char)text[at] & 0xc0) == 0x80;
}

/* What is shown of a line of LENGTH bytes, from FROM up to TO: all of it or, if it is longer than any screen is wide,
 * the part around START. */
struct line_window {
    size_t from, to;
};

static struct line_window find_window(const char *text, size_t length, size_t start)
{
    enum { WIDEST = 240, BEFORE = 60 };
    if (length <= WIDEST)
        return (struct line_window){0, length};
    struct line_window window = {start > BEFORE ? start - BEFORE : 0, length};
    while (window.from > 0 && is_inside(text, window.from))
        window.from--;
    if (length - window.from > WIDEST)
        window.to = window.from + WIDEST;
    while (window.to < length && is_inside(text, window.to))
        window.to--;
    return window;
}

/* Blanks under the columns that LENGTH bytes of TEXT take. */
static void add_blanks(const char *text, size_t length, struct text *out)
{
    for (size_t i = 0; i < length;) {
        bool tab = text[i] == '\t';
        size_t next = i + 1;
        while (next < length && is_inside(text, next))
            next++;
        for (unsigned w = tab ? 0 : text_width(text + i, next - i); w > 0; w--)
            text_add_char(out, ' ');
        if (tab)
            text_add_char(out, '\t');
        i = next;
    }
}

static size_t least(size_t a, size_t b)
{
    return a < b ? a : b;
}

/* The line of SPAN, and below it MARK under the columns that the span takes of that line. */
static void print_line(const struct diag *diag, struct span span, char mark, const char *color,
                       const char *end_color, struct text *out)
{
    const struct source *source = &diag->sources->items[span.file];
    unsigned line = source_line(source, span.start);
    size_t length;
    const char *text = source_line_text(source, line, &length);
    size_t start = least(span.start - source->lines[line - 1], length);
    size_t end = least(span.end - source->lines[line - 1], length);
    struct line_window window = find_window(text, length, start);
    text_addf(out, "%5u | %s", line, window.from ? "..." : "");
    add_harmless(text + window.from, window.to - window.from, out);
    text_addf(out, "%s\n      | %s", window.to < length ? "..." : "", window.from ? "   " : "");
    add_blanks(text + window.from, start - window.from, out);
    text_add(out, color);
    end = least(end, window.to);
    unsigned width = text_width(text + window.from, (end > start ? end : start) - window.from) -
                     text_width(text + window.from, start - window.from);
    for (unsigned w = width ? width : 1; w > 0; w--)
        text_add_char(out, mark);
    text_addf(out, "%s\n", end_color);
}

static void print_head(const struct diag *diag, const struct finding *finding, const struct paint *paint,
                       struct text *out)
{
    const char *color = finding->severity == SEVERITY_ERROR     ? paint->error
                        : finding->severity == SEVERITY_WARNING ? paint->warning
                                                                : paint->info;
    text_add(out, paint->bold);
    print_place(diag, finding->span, out);
    text_addf(out, "%s%s%s:%s %s%s%s [%s]\n", paint->end, color, severity_name(finding->severity),
              paint->end, paint->bold, bidi_isolated(diag->arena, finding->words), paint->end, diagnostic_name(finding->diagnostic));
    print_line(diag, finding->span, '^', color, paint->end, out);
}

static void print_note(const struct diag *diag, const struct note *note, const struct paint *paint, struct text *out)
{
    if (note->placed)
        print_place(diag, note->span, out);
    text_addf(out, note->placed ? "%ssee:%s %s\n" : "      %snote:%s %s\n", paint->note, paint->end, bidi_isolated(diag->arena, note->words));
    if (note->placed)
        print_line(diag, note->span, '-', paint->note, paint->end, out);
}

/* The largest of the lines that add up, how many more there are, and all other notes. */
static void print_notes(const struct diag *diag, const struct finding *finding, bool all, const struct paint *paint,
                        struct text *out)
{
    size_t summands = 0;
    for (size_t i = 0; i < finding->note_count; i++) {
        const struct note *note = &finding->notes[i];
        bool last = i + 1 == finding->note_count || !finding->notes[i + 1].summand;
        summands = note->summand ? summands + 1 : 0;
        if (all || summands <= MOST_SUMMANDS)
            print_note(diag, note, paint, out);
        else if (last)
            text_addf(out, "      %snote:%s and %zu more %s; `check --notes` shows all\n", paint->note, paint->end,
                      summands - MOST_SUMMANDS, summands - MOST_SUMMANDS == 1 ? "line" : "lines");
    }
}

/* Adds WORDS and blanks up to WIDTH. */
static void add_cell(struct text *out, const char *words, unsigned width)
{
    text_add(out, words);
    for (unsigned w = text_width(words, strlen(words)); w < width; w++)
        text_add_char(out, ' ');
}

static unsigned wider(unsigned width, const char *words)
{
    unsigned own = text_width(words, strlen(words));
    return own > width ? own : width;
}

static void print_rows(const struct screen_entry *entry, const struct paint *paint, struct text *out)
{
    unsigned is = 0, least = 0, source = 0;
    bool again = false;
    for (size_t i = 0; i < entry->row_count; i++) {
        const struct finding *finding = entry->rows[i];
        is = wider(is, finding->row->is);
        least = wider(least, finding->row->least);
        source = wider(source, finding->row->source);
        again = again || finding->met > 1;
    }
    for (size_t i = 0; i < entry->row_count; i++) {
        const struct finding *finding = entry->rows[i];
        text_add(out, "      | ");
        add_cell(out, finding->row->is, is + 2);
        add_cell(out, finding->row->least, least + 2);
        add_cell(out, finding->row->source, source + 2);
        text_addf(out, "[%s]\n", diagnostic_name(finding->diagnostic));
    }
    text_addf(out, "      %snote:%s %s`check --notes` shows each in full\n", paint->note, paint->end,
              again ? "other weeks or athletes miss some of them too; " : "");
}

void diag_print(const struct diag *diag, const struct diag_style *style, struct text *out)
{
    struct paint paint = paint_for(style->color);
    struct screen screen = {.diag = diag, .style = style};
    gather(&screen);
    size_t most = style->most && style->most < screen.count ? style->most : screen.count;
    for (size_t i = 0; i < most; i++) {
        const struct screen_entry *entry = &screen.entries[i];
        print_head(diag, entry->finding, &paint, out);
        print_notes(diag, entry->finding, style->notes, &paint, out);
        if (entry->rows)
            print_rows(entry, &paint, out);
        if (entry->finding->help)
            text_addf(out, "      %sfix:%s %s\n", paint.help, paint.end, bidi_isolated(diag->arena, entry->finding->help));
    }
    if (most < screen.count)
        text_addf(out, "and %zu more\n", screen.count - most);
}
