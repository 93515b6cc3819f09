#include "export/listing.h"

#include <glib.h>
#include <stdlib.h>
#include <string.h>

#include "export/service.h"

const char *severity_word(enum severity severity)
{
    return severity == SEVERITY_ERROR ? "error" : severity == SEVERITY_WARNING ? "warning" : "info";
}

/* --- order --- */

struct sortable {
    const char *file;
    const struct finding *finding;
};

static int compare(const void *left, const void *right)
{
    const struct sortable *x = left, *y = right;
    const struct finding *a = x->finding, *b = y->finding;
    int order = strcmp(x->file, y->file);
    if (order)
        return order;
    if (a->span.start != b->span.start)
        return a->span.start < b->span.start ? -1 : 1;
    if (a->severity != b->severity)
        return a->severity > b->severity ? -1 : 1;
    if ((order = strcmp(diagnostic_name(a->diagnostic), diagnostic_name(b->diagnostic))) || (order = strcmp(a->words, b->words)))
        return order;
    return a->order < b->order ? -1 : a->order > b->order;
}

/* --- fingerprints --- */

static bool is_blank(char c)
{
    return c == ' ' || c == '\t';
}

static size_t indent_of(const char *line, size_t length)
{
    size_t n = 0;
    while (n < length && is_blank(line[n]))
        n++;
    return n;
}

/* Adds a line with its blanks folded, so that another layout changes nothing. */
static void hash_line(GChecksum *sum, const char *line, size_t length)
{
    static const guchar space = ' ', newline = '\n';
    while (length && is_blank(line[length - 1]))
        length--;
    for (size_t i = indent_of(line, length); i < length; i++)
        if (!is_blank(line[i]))
            g_checksum_update(sum, (const guchar *)&line[i], 1);
        else if (!is_blank(line[i - 1]))
            g_checksum_update(sum, &space, 1);
    g_checksum_update(sum, &newline, 1);
}

/* For each line (from 1) its heading: the nearest line above it that is indented less and is neither blank nor a
 * comment; 0: none. It is worked out once, because a block may be as long as a file. */
static const unsigned *find_headings(struct arena *arena, const struct source *source)
{
    size_t lines = source->line_count, depth = 0, length;
    unsigned *above = arena_alloc(arena, (lines + 1) * sizeof *above);
    struct heading {
        unsigned line;
        size_t indent;
    } *open = arena_alloc(arena, (lines + 1) * sizeof *open);
    for (unsigned line = 1; line <= lines; line++) {
        const char *text = source_line_text(source, line, &length);
        size_t indent = indent_of(text, length), under = depth;
        while (under > 0 && open[under - 1].indent >= indent)
            under--;
        above[line] = under ? open[under - 1].line : 0;
        if (indent == length || text[indent] == '#')
            continue;
        depth = under;
        open[depth++] = (struct heading){line, indent};
    }
    return above;
}

/* Adds line LINE and each heading above it. */
static void hash_headings(GChecksum *sum, const struct source *source, const unsigned *above, unsigned line)
{
    for (; line; line = above[line]) {
        size_t length;
        const char *text = source_line_text(source, line, &length);
        hash_line(sum, text, length);
    }
}

/* Adds WORDS without their figures: the fault stays the same while its figure moves. */
static void hash_words(GChecksum *sum, const char *words)
{
    static const char figures[] = "0123456789";
    while (*words) {
        words += strspn(words, figures);
        size_t rest = strcspn(words, figures);
        g_checksum_update(sum, (const guchar *)words, (gssize)rest);
        words += rest;
    }
}

/* HEADINGS has those of each source, by number, once they are needed. */
static const char *fingerprint(const struct diag *diag, const struct finding *finding, const unsigned **headings)
{
    const unsigned **above = &headings[finding->span.file];
    const struct source *source = &diag->sources->items[finding->span.file];
    GChecksum *sum = g_checksum_new(G_CHECKSUM_SHA256);
    const char *name = diagnostic_name(finding->diagnostic);
    g_checksum_update(sum, (const guchar *)name, (gssize)strlen(name) + 1);
    g_checksum_update(sum, (const guchar *)source->name, (gssize)strlen(source->name) + 1);
    hash_words(sum, finding->words);
    if (!*above)
        *above = find_headings(diag->arena, source);
    hash_headings(sum, source, *above, source_line(source, finding->span.start));
    char *hex = arena_printf(diag->arena, "%.32s", g_checksum_get_string(sum));
    g_checksum_free(sum);
    return hex;
}

/* Whether both have the same neutral message, as they do if two restrictions bar one line. */
static bool same(const struct finding *a, const struct finding *b)
{
    return service_is_neutral(a) && service_is_neutral(b) && a->span.file == b->span.file &&
           a->span.start == b->span.start && a->severity == b->severity &&
           strcmp(a->words, b->words) == 0;
}

/* All findings that may be shown, sorted; those that became equal are shown once. */
static struct sortable *gather(const struct diag *diag, const struct export_context *context,
                               size_t *count)
{
    struct sortable *all = arena_alloc(diag->arena, (diag->count + 1) * sizeof *all);
    size_t shown = 0;
    for (size_t i = 0; i < diag->count; i++) {
        const struct finding *finding = service_finding(diag, context, diag->items[i]);
        if (finding)
            all[shown++] =
                (struct sortable){diag->sources->items[finding->span.file].name, finding};
    }
    qsort(all, shown, sizeof *all, compare);
    *count = 0;
    for (size_t i = 0; i < shown; i++)
        if (i == 0 || !same(all[i].finding, all[i - 1].finding))
            all[(*count)++] = all[i];
    return all;
}

struct listing listing_make(const struct diag *diag, const struct export_context *context)
{
    struct listing listing = {0};
    size_t shown;
    struct sortable *all = gather(diag, context, &shown);
    for (size_t i = 0; i < shown; i++) {
        enum severity severity = all[i].finding->severity;
        listing.counts[severity]++;
        if (severity != SEVERITY_INFO || context->infos)
            all[listing.count++] = all[i];
    }
    listing.items = arena_alloc(diag->arena, (listing.count + 1) * sizeof *listing.items);
    const unsigned **headings = arena_alloc(diag->arena, diag->sources->count * sizeof *headings);
    GHashTable *seen = g_hash_table_new(g_str_hash, g_str_equal);
    for (size_t i = 0; i < listing.count; i++) {
        const char *hex = fingerprint(diag, all[i].finding, headings);
        size_t *times = g_hash_table_lookup(seen, hex);
        if (!times) {
            times = arena_alloc(diag->arena, sizeof *times);
            g_hash_table_insert(seen, (gpointer)hex, times);
        }
        listing.items[i] =
            (struct listed){all[i].finding, arena_printf(diag->arena, "%s:%zu", hex, ++*times)};
    }
    g_hash_table_destroy(seen);
    return listing;
}
