#include "source/diag.h"

#include <stdarg.h>
#include <stdlib.h>
#include <string.h>

#include "source/span_order.h"

struct diag *diag_new(struct arena *arena, const struct sources *sources)
{
    struct diag *diag = arena_alloc(arena, sizeof *diag);
    diag->arena = arena;
    diag->sources = sources;
    return diag;
}

/* Is there room for one more, or is it only counted? */
static bool is_full(const struct diag *diag)
{
    return diag->count > MOST_FINDINGS;
}

struct finding *diag_add(struct diag *diag, enum severity severity, enum diagnostic diagnostic, struct span span,
                         const char *words)
{
    struct finding *finding = &diag->spare;
    diag->counts[severity]++;
    *finding = (struct finding){.severity = severity, .diagnostic = diagnostic, .span = span, .words = words,
                                .order = diag->count};
    if (is_full(diag))
        return finding;
    if (diag->count == MOST_FINDINGS) {
        finding->diagnostic = DIAG_TOO_MANY_FINDINGS;
        finding->words = arena_printf(diag->arena, "there are more than %d findings: the rest are counted but not "
                                                   "listed",
                                      MOST_FINDINGS);
    }
    diag->items = arena_grow(diag->arena, diag->items, diag->count, &diag->capacity,
                             sizeof(struct finding *));
    finding = arena_alloc(diag->arena, sizeof *finding);
    *finding = diag->spare;
    diag->items[diag->count++] = finding;
    return is_full(diag) ? &diag->spare : finding; /* a note added to it is not about the last one */
}

struct finding *diag_add_copy(struct diag *diag, const struct finding *old)
{
    struct finding *finding = diag_add(diag, old->severity, old->diagnostic, old->span, old->words);
    if (finding == &diag->spare)
        return finding;
    size_t order = finding->order;
    *finding = *old;
    finding->order = order;
    finding->note_capacity = finding->note_count; /* another note must not end up among the old ones */
    return finding;
}

void diag_add_kept(struct diag *diag, const struct diag *kept)
{
    for (size_t i = 0; i < kept->count; i++)
        diag_add_copy(diag, kept->items[i]);
}

static const char *text_copy(struct arena *arena, const char *text)
{
    return text ? arena_copy(arena, text, strlen(text)) : NULL;
}

struct finding *finding_keep(struct arena *arena, const struct finding *finding)
{
    struct finding *kept = arena_alloc(arena, sizeof *kept);
    *kept = *finding;
    kept->words = text_copy(arena, finding->words);
    kept->help = text_copy(arena, finding->help);
    kept->replacement = text_copy(arena, finding->replacement);
    kept->neutral = text_copy(arena, finding->neutral);
    kept->of = NULL;
    kept->notes = arena_alloc(arena, (finding->note_count + 1) * sizeof *kept->notes);
    kept->note_capacity = finding->note_count;
    for (size_t i = 0; i < finding->note_count; i++) {
        kept->notes[i] = finding->notes[i];
        kept->notes[i].words = text_copy(arena, finding->notes[i].words);
    }
    if (finding->row) {
        struct table_row *row = arena_alloc(arena, sizeof *row);
        *row = (struct table_row){text_copy(arena, finding->row->is), text_copy(arena, finding->row->least),
                                  text_copy(arena, finding->row->source)};
        kept->row = row;
    }
    return kept;
}

struct finding *diag_report(struct diag *diag, enum severity severity, enum diagnostic diagnostic,
                            struct span span, const char *format, ...)
{
    va_list args;
    va_start(args, format);
    const char *words = is_full(diag) ? "" : arena_vprintf(diag->arena, format, args);
    va_end(args);
    return diag_add(diag, severity, diagnostic, span, words);
}

struct finding *diag_error(struct diag *diag, enum diagnostic diagnostic, struct span span,
                           const char *format, ...)
{
    va_list args;
    va_start(args, format);
    const char *words = is_full(diag) ? "" : arena_vprintf(diag->arena, format, args);
    va_end(args);
    return diag_add(diag, SEVERITY_ERROR, diagnostic, span, words);
}

void diag_reword(struct diag *diag, struct finding *finding, const char *format, ...)
{
    if (finding == &diag->spare)
        return;
    va_list args;
    va_start(args, format);
    finding->words = arena_vprintf(diag->arena, format, args);
    va_end(args);
}

/* Adds a note of FINDING, whose words are formed where the finding is kept. */
static void note_add(struct diag *diag, struct finding *finding, struct note note, const char *format, va_list args)
{
    if (finding == &diag->spare)
        return;
    finding->notes = arena_grow(diag->arena, finding->notes, finding->note_count,
                                &finding->note_capacity, sizeof *finding->notes);
    note.words = arena_vprintf(diag->arena, format, args);
    finding->notes[finding->note_count++] = note;
}

void diag_note(struct diag *diag, struct finding *finding, struct span span, const char *format, ...)
{
    va_list args;
    va_start(args, format);
    note_add(diag, finding, (struct note){.span = span, .placed = true}, format, args);
    va_end(args);
}

void diag_summand(struct diag *diag, struct finding *finding, struct span span, const char *format, ...)
{
    va_list args;
    va_start(args, format);
    note_add(diag, finding, (struct note){.span = span, .placed = true, .summand = true}, format, args);
    va_end(args);
}

void diag_remark(struct diag *diag, struct finding *finding, const char *format, ...)
{
    va_list args;
    va_start(args, format);
    note_add(diag, finding, (struct note){0}, format, args);
    va_end(args);
}

void diag_help(struct diag *diag, struct finding *finding, const char *format, ...)
{
    va_list args;
    if (finding == &diag->spare)
        return;
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
        bool figures = *a >= '0' && *a <= '9' && *b >= '0' && *b <= '9';
        if (!figures && *a != *b)
            break;
        if (!figures)
            continue;
        size_t a_length = strspn(a, digits), b_length = strspn(b, digits);
        if (a_length != b_length && *a != '0' && *b != '0')
            return a_length < b_length ? -1 : 1;
        if (a_length != b_length && *a != *b)
            break;
        if (a_length != b_length)
            continue;
        int order = strncmp(a, b, a_length);
        if (order)
            return order;
        a += a_length - 1;
        b += b_length - 1;
    }
    return (unsigned char)*a - (unsigned char)*b;
}

int diag_compare(const struct finding *a, const struct finding *b)
{
    int places = span_order(a->span, b->span);
    if (places)
        return places;
    if (a->severity != b->severity)
        return a->severity > b->severity ? -1 : 1;
    int names = strcmp(diagnostic_name(a->diagnostic), diagnostic_name(b->diagnostic));
    if (names)
        return names;
    int words = compare_words(a->words, b->words);
    if (words)
        return words;
    return a->order < b->order ? -1 : a->order > b->order;
}

static int by_place(const void *left, const void *right)
{
    return diag_compare(*(struct finding *const *)left, *(struct finding *const *)right);
}

static bool same(const struct finding *a, const struct finding *b)
{
    return a->span.file == b->span.file && a->span.start == b->span.start &&
           a->diagnostic == b->diagnostic && strcmp(a->words, b->words) == 0;
}

void diag_sort(struct diag *diag)
{
    if (diag->count < 2)
        return;
    qsort(diag->items, diag->count, sizeof(struct finding *), by_place);
    size_t kept = 1;
    for (size_t i = 1; i < diag->count; i++) {
        if (same(diag->items[i], diag->items[kept - 1]))
            diag->counts[diag->items[i]->severity] -= !diag->items[i]->private;
        else
            diag->items[kept++] = diag->items[i];
    }
    diag->count = kept;
}

void diag_set_private(struct diag *diag, struct finding *finding)
{
    if (!finding->private)
        diag->counts[finding->severity]--;
    finding->private = true;
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
