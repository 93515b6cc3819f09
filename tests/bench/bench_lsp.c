/* usage: bench_lsp FOLDER [soak EDITS | keystroke KIND NUMBER | anywhere] - the language server on the club in FOLDER, as make_club makes
 * it: milliseconds of processor time from an edit to the findings, for 31 streams of a hundred edits of a kind, and memory
 * after 10,000 edits. Run from the top of the checkout: the shelf is read from share/. With `soak` it does nothing but so
 * many edits and looks at its memory, for valgrind; with `keystroke` it types one kind as often as told, for a profiler, and with
 * `anywhere` it draws the lines that it edits from all those of the club. */
#include <glib.h>
#include <jansson.h>
#include <malloc.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "bench/timing.h"
#include "lsp/lsp.h"

enum { STREAMS = 31, EDITS = 100, NEARLY_ALL = 95, MANY = 10000 };

struct stream {
    struct lsp *lsp;
    char *share, *uri;
    int version;
    size_t messages; /* that the server has sent */
};

static void take_message(void *with, const char *bytes, size_t length)
{
    (void)bytes;
    (void)length;
    ((struct stream *)with)->messages++;
}

static void tell(struct stream *stream, const char *method, json_t *params, int id)
{
    json_t *message = json_pack("{s:s,s:s,s:o}", "jsonrpc", "2.0", "method", method, "params", params);
    if (id)
        json_object_set_new(message, "id", json_integer(id));
    char *body = json_dumps(message, JSON_COMPACT), *frame = g_strdup_printf("Content-Length: %zu\r\n\r\n%s", strlen(body), body);
    lsp_feed(stream->lsp, frame, strlen(frame));
    json_decref(message);
    free(body);
    g_free(frame);
}

static void run(struct stream *stream)
{
    while (lsp_step(stream->lsp))
        continue;
    lsp_settle(stream->lsp);
}

/* Opens FILE of FOLDER; returns its text, for g_free. */
static char *stream_open(struct stream *stream, const char *folder, const char *file)
{
    char *here = g_get_current_dir(), *root = g_strdup_printf("file://%s", folder);
    char *path = g_build_filename(folder, file, NULL), *text = NULL;
    if (!g_file_get_contents(path, &text, NULL, NULL)) {
        fprintf(stderr, "bench_lsp: %s cannot be read\n", path);
        exit(2);
    }
    *stream = (struct stream){.share = g_build_filename(here, "share", NULL), .uri = g_strdup_printf("%s/%s", root, file)};
    const struct lsp_host host = {.share = stream->share, .today = "2027-03-01", .version = "bench",
                                  .write = take_message, .with = stream};
    stream->lsp = lsp_open(&host);
    tell(stream, "initialize", json_pack("{s:n,s:{s:{s:{s:b,s:b,s:b}}},s:s}", "processId", "capabilities", "textDocument", "publishDiagnostics",
                   "relatedInformation", 1, "codeDescriptionSupport", 1, "versionSupport", 1, "rootUri", root), 1);
    tell(stream, "initialized", json_object(), 0);
    tell(stream, "textDocument/didOpen",
         json_pack("{s:{s:s,s:s,s:i,s:s}}", "textDocument", "uri", stream->uri, "languageId", "bell", "version", 1, "text",
                   text), 0);
    stream->version = 1;
    run(stream);
    g_free(here);
    g_free(root);
    g_free(path);
    return text;
}

/* Opens another document, of TEXT, and makes it the one that is edited; its URI is kept by the caller. */
static void stream_add(struct stream *stream, char *uri, const char *text)
{
    stream->uri = uri;
    tell(stream, "textDocument/didOpen",
         json_pack("{s:{s:s,s:s,s:i,s:s}}", "textDocument", "uri", uri, "languageId", "bell", "version", ++stream->version,
                   "text", text), 0);
}

static void stream_close(struct stream *stream)
{
    lsp_close(stream->lsp);
    g_free(stream->share);
    g_free(stream->uri);
}

/* Puts NEW in place of OLD, which stands in line LINE from CHARACTER on, and lets the server tell what it finds. */
static void edit(struct stream *stream, int line, int character, const char *old, const char *new)
{
    const char *last = strrchr(old, '\n');
    int lines = 0, width = (int)strlen(last ? last + 1 : old);
    for (const char *c = old; *c; c++)
        lines += *c == '\n';
    json_t *range = json_pack("{s:{s:i,s:i},s:{s:i,s:i}}", "start", "line", line, "character", character, "end", "line",
                              line + lines, "character", lines ? width : character + width);
    tell(stream, "textDocument/didChange",
         json_pack("{s:{s:s,s:i},s:[{s:o,s:s}]}", "textDocument", "uri", stream->uri, "version", ++stream->version,
                   "contentChanges", "range", range, "text", new), 0);
    run(stream);
}

static int by_size(const void *left, const void *right)
{
    double a = *(const double *)left, b = *(const double *)right;
    return a < b ? -1 : a > b;
}

static const struct place {
    const char *file, *title, *old, *new;
} places[] = {
    {"camp-007.bell", "an hour of one athlete's week", "17:30", "18:30"},
    {"athletes.bell", "an athlete's best", "1 @ ", "2 @ "},
    {"squad-2.bell", "a dose of a squad's session", "8 each side @ 12", "9 each side @ 12"},
    {"squad-2.bell", "a name that there is not, and back", "back squat", "back squab"},
    {"squad-2.bell", "a line that cannot be read, and back", "superset B", "supset B"},
    {"athletes.bell", "what the gym has", "12 x 20", "14 x 20"},
    {"squad-2.bell", "a remark", "# the quiet end", "# the very quiet end"},
    {"squad-2.bell", "a new session, and back", "session Floor 2 of squad 2", "session Nothing\n\nsession Floor 2 of squad 2"},
    {"camp-007.bell", "a line that cannot be read at the top", "camp Season", "zz\n\ncamp Season"},
    {"athletes.bell", "a name of an athlete, and back", "athlete Benno", "athlete Bennx"},
};

/* A stream of EDITS of PLACE, into TIMES: the first place of the old words gets the new ones, and the old ones again, by
 * turns. */
static void type(const char *folder, const struct place *place, int edits, double *times)
{
    struct stream stream;
    char *text = stream_open(&stream, folder, place->file), *at = strstr(text, place->old), *start = at;
    int line = 0;
    if (!at) {
        fprintf(stderr, "bench_lsp: `%s` stands nowhere in %s\n", place->old, place->file);
        exit(2);
    }
    while (start > text && start[-1] != '\n')
        start--;
    for (const char *c = text; c < start; c++)
        line += *c == '\n';
    for (int i = 0; i < edits; i++) {
        double before = timing_now();
        bool even = i % 2 == 0;
        edit(&stream, line, (int)(at - start), even ? place->old : place->new, even ? place->new : place->old);
        times[i] = timing_now() - before;
    }
    stream_close(&stream);
    g_free(text);
}

/* `  12.34 (11.98-13.02)`: the middle one and the quartiles of STREAMS times. */
static void show(double *times)
{
    qsort(times, STREAMS, sizeof *times, by_size);
    printf("  %8.2f (%.2f-%.2f)", times[STREAMS / 2], times[STREAMS / 4], times[STREAMS - 1 - STREAMS / 4]);
}

static void measure(const char *folder, const struct place *place)
{
    double times[EDITS], medians[STREAMS], nearly[STREAMS];
    for (int i = 0; i < STREAMS; i++) {
        type(folder, place, EDITS, times);
        qsort(times, EDITS, sizeof *times, by_size);
        medians[i] = times[EDITS / 2];
        nearly[i] = times[NEARLY_ALL - 1];
    }
    printf("%-38s", place->title);
    show(medians);
    show(nearly);
    puts("");
}

/* --- anywhere in the club --- */

struct page {
    char *uri, *text;
    char **lines;
    int count;
};

struct pages {
    struct page items[256];
    int count, lines;
    GRand *dice;
};

static void pages_open(struct pages *pages, struct stream *stream, const char *folder)
{
    GDir *entries = g_dir_open(folder, 0, NULL);
    for (const char *name; entries && (name = g_dir_read_name(entries)) && pages->count < 256;) {
        struct page *page = &pages->items[pages->count++];
        char *path = g_build_filename(folder, name, NULL);
        if (!g_file_get_contents(path, &page->text, NULL, NULL))
            exit(2);
        page->uri = g_filename_to_uri(path, NULL, NULL);
        page->lines = g_strsplit(page->text, "\n", -1);
        page->count = (int)g_strv_length(page->lines) - 1;
        pages->lines += page->count;
        stream_add(stream, page->uri, page->text);
        g_free(path);
    }
    g_dir_close(entries);
    run(stream);
}

static void pages_close(struct pages *pages)
{
    for (int i = 0; i < pages->count; i++) {
        g_free(pages->items[i].uri);
        g_free(pages->items[i].text);
        g_strfreev(pages->items[i].lines);
    }
    g_rand_free(pages->dice);
}

/* What is typed at a line that is drawn from all lines of the club: another digit in place of its first, or, where it has
 * none, a letter more. Taken back by the edit that follows. */
static void roam(struct pages *pages, struct stream *stream, double *times)
{
    const char *old = "", *new = "";
    char was[2] = "", is[2] = "";
    int line = 0, character = 0;
    for (int i = 0; i < EDITS; i++) {
        if (i % 2 == 0) {
            const struct page *page = pages->items;
            for (line = g_rand_int_range(pages->dice, 0, pages->lines); line >= page->count; page++)
                line -= page->count;
            const char *text = page->lines[line], *digit = strpbrk(text, "0123456789");
            character = digit ? (int)(digit - text) : (int)strlen(text);
            was[0] = digit ? *digit : '\0';
            is[0] = digit ? (char)('0' + (*digit - '0' + 1) % 10) : 'x';
            stream->uri = page->uri;
            old = was, new = is;
        } else {
            old = is, new = was;
        }
        double before = timing_now();
        edit(stream, line, character, old, new);
        times[i] = timing_now() - before;
    }
}

/* STREAMS of them over the club as it is, with all its files open. */
static void measure_anywhere(const char *folder, const char *first)
{
    double times[EDITS], medians[STREAMS], nearly[STREAMS];
    struct stream stream;
    struct pages pages = {.dice = g_rand_new_with_seed(40264)};
    char *text = stream_open(&stream, folder, first), *own = stream.uri;
    pages_open(&pages, &stream, folder);
    for (int i = 0; i < STREAMS; i++) {
        roam(&pages, &stream, times);
        qsort(times, EDITS, sizeof *times, by_size);
        medians[i] = times[EDITS / 2];
        nearly[i] = times[NEARLY_ALL - 1];
    }
    printf("%-38s", "any line of the club, all files open");
    show(medians);
    show(nearly);
    puts("");
    stream.uri = own;
    stream_close(&stream);
    pages_close(&pages);
    g_free(text);
}

/* One stream alone, for a profiler. */
static void type_once(const char *folder, int number, int edits)
{
    double *times = g_new(double, edits);
    const struct place *place = &places[number % (int)G_N_ELEMENTS(places)];
    type(folder, place, edits, times);
    int half = edits / 2;
    double *there = g_new(double, half + 1), *back = g_new(double, half + 1);
    for (int i = 0; i < half; i++) {
        there[i] = times[2 * i];
        back[i] = times[2 * i + 1];
    }
    qsort(there, (size_t)half, sizeof *there, by_size);
    qsort(back, (size_t)half, sizeof *back, by_size);
    printf("%-40s %8.2f there, %8.2f back\n", place->title, there[half / 2], back[half / 2]);
    g_free(there);
    g_free(back);
    g_free(times);
}

static double held(void)
{
    struct mallinfo2 all = mallinfo2();
    return (double)(all.uordblks + all.hblkhd) / 1e6;
}

/* Types MANY letters at the end of the first line and takes them back, and asks in between. */
static void soak(const char *folder, const char *file, int many)
{
    struct stream stream;
    char *text = stream_open(&stream, folder, file);
    int width = (int)strcspn(text, "\n");
    double before = 0;
    for (int i = 0; i < many; i++) {
        edit(&stream, 0, width, "", " x");
        edit(&stream, 0, width, " x", "");
        if (i % 100 == 0)
            tell(&stream, "textDocument/documentSymbol", json_pack("{s:{s:s}}", "textDocument", "uri", stream.uri), 2 + i);
        if (i == 0)
            before = held();
    }
    if (before > 0) /* valgrind's own allocator tells nothing */
        printf("memory after %d edits: %.1f MB, %.2f times that after the first two\n", 2 * many, held(), held() / before);
    stream_close(&stream);
    g_free(text);
}

int main(int argc, char **argv)
{
    if (argc < 2) {
        fputs("usage: bench_lsp FOLDER [soak EDITS | keystroke KIND NUMBER | anywhere]\n", stderr);
        return 2;
    }
    if (argc == 5 && strcmp(argv[2], "keystroke") == 0) {
        type_once(argv[1], atoi(argv[3]), atoi(argv[4]));
        return 0;
    }
    if (argc == 3 && strcmp(argv[2], "anywhere") == 0) {
        measure_anywhere(argv[1], "camp-007.bell");
        return 0;
    }
    if (argc == 4 && strcmp(argv[2], "soak") == 0) {
        soak(argv[1], "camp-007.bell", atoi(argv[3]) / 2);
        return 0;
    }
    puts("the language server, ms of processor from an edit to the findings: median and 95 of 100, of 31 streams (quartiles)");
    for (size_t i = 0; i < G_N_ELEMENTS(places); i++)
        measure(argv[1], &places[i]);
    measure_anywhere(argv[1], "camp-007.bell");
    soak(argv[1], "camp-007.bell", MANY / 2);
    return 0;
}
