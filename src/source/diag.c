#include "source/diag.h"

#include <stdarg.h>
#include <stdlib.h>
#include <string.h>

struct diag *diag_new(struct arena *arena, const struct sources *sources)
{
    struct diag *diag = arena_alloc(arena, sizeof *diag);
    diag->arena = arena;
    diag->sources = sources;
    return diag;
}

struct finding *diag_add(struct diag *diag, enum severity severity, const char *name, struct span span,
                         const char *words)
{
    diag->items = arena_grow(diag->arena, diag->items, diag->count, &diag->capacity,
                             sizeof(struct finding *));
    struct finding *finding = arena_alloc(diag->arena, sizeof *finding);
    finding->severity = severity;
    finding->name = name;
    finding->span = span;
    finding->words = words;
    finding->order = diag->count;
    diag->items[diag->count++] = finding;
    diag->counts[severity]++;
    return finding;
}

struct finding *diag_report(struct diag *diag, enum severity severity, const char *name,
                            struct span span, const char *format, ...)
{
    va_list args;
    va_start(args, format);
    const char *words = arena_vprintf(diag->arena, format, args);
    va_end(args);
    return diag_add(diag, severity, name, span, words);
}

struct finding *diag_error(struct diag *diag, const char *name, struct span span,
                           const char *format, ...)
{
    va_list args;
    va_start(args, format);
    const char *words = arena_vprintf(diag->arena, format, args);
    va_end(args);
    return diag_add(diag, SEVERITY_ERROR, name, span, words);
}

static struct note *note_add(struct diag *diag, struct finding *finding)
{
    finding->notes = arena_grow(diag->arena, finding->notes, finding->note_count,
                                &finding->note_capacity, sizeof *finding->notes);
    return &finding->notes[finding->note_count++];
}

void diag_note(struct diag *diag, struct finding *finding, struct span span, const char *format, ...)
{
    va_list args;
    va_start(args, format);
    const char *words = arena_vprintf(diag->arena, format, args);
    va_end(args);
    *note_add(diag, finding) = (struct note){.span = span, .placed = true, .words = words};
}

void diag_remark(struct diag *diag, struct finding *finding, const char *format, ...)
{
    va_list args;
    va_start(args, format);
    const char *words = arena_vprintf(diag->arena, format, args);
    va_end(args);
    *note_add(diag, finding) = (struct note){.words = words};
}

void diag_help(struct diag *diag, struct finding *finding, const char *format, ...)
{
    va_list args;
    va_start(args, format);
    finding->help = arena_vprintf(diag->arena, format, args);
    va_end(args);
}

void diag_fix(struct diag *diag, struct finding *finding, struct span span, const char *replacement)
{
    finding->fix = span;
    finding->replacement = replacement;
    if (!finding->help)
        diag_help(diag, finding, *replacement ? "write `%s`" : "leave it out%s", replacement);
}

/* Words in order, but figures in them by their size: week 5 comes before week 10. */
static int compare_words(const char *a, const char *b)
{
    static const char digits[] = "0123456789";
    for (; *a && *b; a++, b++) {
        size_t a_length = strspn(a, digits), b_length = strspn(b, digits);
        if (a_length && b_length && a_length != b_length && *a != '0' && *b != '0')
            return a_length < b_length ? -1 : 1;
        if (a_length && a_length == b_length) {
            int figures = strncmp(a, b, a_length);
            if (figures)
                return figures;
            a += a_length - 1;
            b += b_length - 1;
        } else if (*a != *b) {
            break;
        }
    }
    return (unsigned char)*a - (unsigned char)*b;
}

static int compare(const void *left, const void *right)
{
    const struct finding *a = *(struct finding *const *)left;
    const struct finding *b = *(struct finding *const *)right;
    if (a->span.file != b->span.file)
        return a->span.file < b->span.file ? -1 : 1;
    if (a->span.start != b->span.start)
        return a->span.start < b->span.start ? -1 : 1;
    if (a->severity != b->severity)
        return a->severity > b->severity ? -1 : 1;
    int names = strcmp(a->name, b->name);
    if (names)
        return names;
    int words = compare_words(a->words, b->words);
    if (words)
        return words;
    return a->order < b->order ? -1 : a->order > b->order;
}

static bool same(const struct finding *a, const struct finding *b)
{
    return a->span.file == b->span.file && a->span.start == b->span.start &&
           strcmp(a->name, b->name) == 0 && strcmp(a->words, b->words) == 0;
}

void diag_sort(struct diag *diag)
{
    if (diag->count < 2)
        return;
    qsort(diag->items, diag->count, sizeof(struct finding *), compare);
    size_t kept = 1;
    for (size_t i = 1; i < diag->count; i++) {
        if (same(diag->items[i], diag->items[kept - 1]))
            diag->counts[diag->items[i]->severity] -= !diag->items[i]->apart;
        else
            diag->items[kept++] = diag->items[i];
    }
    diag->count = kept;
}

void diag_set_apart(struct diag *diag, struct finding *finding)
{
    if (!finding->apart)
        diag->counts[finding->severity]--;
    finding->apart = true;
}

void diag_set_neutral(struct finding *finding, const char *neutral)
{
    finding->neutral = neutral;
}

void diag_keep_private(struct diag *diag, struct span part)
{
    diag->private_parts = arena_grow(diag->arena, diag->private_parts, diag->private_count,
                                     &diag->private_capacity, sizeof *diag->private_parts);
    diag->private_parts[diag->private_count++] = part;
}

bool diag_is_private(const struct diag *diag, struct span span)
{
    size_t low = 0, high = diag->private_count; /* the last part that starts no later lies before HIGH */
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        const struct span *part = &diag->private_parts[middle];
        if (part->file < span.file || (part->file == span.file && part->start <= span.start))
            low = middle + 1;
        else
            high = middle;
    }
    const struct span *part = high ? &diag->private_parts[high - 1] : NULL;
    return part && part->file == span.file && span.start < part->end;
}

size_t diag_count(const struct diag *diag, enum severity severity)
{
    return diag->counts[severity];
}

/* --- showing --- */

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

/* Adds a line of a plan, and ? for what must not reach a terminal: control and bidirectional characters, and bytes
 * that are no text. */
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

/* The line of SPAN, and below it MARK under the columns that the span takes of that line. */
static void print_line(const struct diag *diag, struct span span, char mark, const char *color,
                       const char *end_color, struct text *out)
{
    const struct source *source = &diag->sources->items[span.file];
    unsigned line = source_line(source, span.start);
    size_t length;
    const char *text = source_line_text(source, line, &length);
    size_t start = span.start - source->lines[line - 1];
    size_t end = span.end - source->lines[line - 1];
    if (start > length)
        start = length;
    if (end > length)
        end = length;
    text_addf(out, "%5u | ", line);
    add_harmless(text, length, out);
    text_add(out, "\n      | ");
    for (size_t i = 0; i < start;) {
        bool tab = text[i] == '\t';
        size_t next = i + 1;
        while (next < start && ((unsigned char)text[next] & 0xc0) == 0x80)
            next++;
        for (unsigned w = tab ? 0 : text_width(text + i, next - i); w > 0; w--)
            text_add_char(out, ' ');
        if (tab)
            text_add_char(out, '\t');
        i = next;
    }
    text_add(out, color);
    unsigned width = text_width(text, end > start ? end : start) - text_width(text, start);
    for (unsigned w = width ? width : 1; w > 0; w--)
        text_add_char(out, mark);
    text_addf(out, "%s\n", end_color);
}

static void print_finding(const struct diag *diag, const struct finding *finding,
                          const struct paint *paint, struct text *out)
{
    const char *color = finding->severity == SEVERITY_ERROR     ? paint->error
                        : finding->severity == SEVERITY_WARNING ? paint->warning
                                                                : paint->info;
    text_add(out, paint->bold);
    print_place(diag, finding->span, out);
    text_addf(out, "%s%s%s:%s %s%s%s [%s]\n", paint->end, color, severity_name(finding->severity),
              paint->end, paint->bold, finding->words, paint->end, finding->name);
    print_line(diag, finding->span, '^', color, paint->end, out);
    for (size_t i = 0; i < finding->note_count; i++) {
        const struct note *note = &finding->notes[i];
        if (note->placed)
            print_place(diag, note->span, out);
        text_addf(out, "%s%snote:%s %s\n", note->placed ? "" : "      = ", paint->note, paint->end,
                  note->words);
        if (note->placed)
            print_line(diag, note->span, '-', paint->note, paint->end, out);
    }
    if (finding->help)
        text_addf(out, "      = %sfix:%s %s\n", paint->help, paint->end, finding->help);
}

void diag_print(const struct diag *diag, const struct diag_style *style, struct text *out)
{
    struct paint paint = paint_for(style->color);
    size_t shown = 0, hidden = 0;
    for (size_t i = 0; i < diag->count; i++) {
        const struct finding *finding = diag->items[i];
        if (finding->severity == SEVERITY_INFO && !style->infos)
            continue;
        if (style->most && shown == style->most) {
            hidden++;
            continue;
        }
        print_finding(diag, finding, &paint, out);
        shown++;
    }
    if (hidden)
        text_addf(out, "and %zu more\n", hidden);
}
