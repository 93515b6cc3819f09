/* usage: bench_lsp FOLDER [EDITS] - the language server on the club in FOLDER, as make_club makes it: milliseconds of processor time from
 * an edit to the findings, for a hundred edits of a kind, and memory after EDITS more (10,000). Run from the top of the
 * checkout: the shelf is read from share/. */
#include <glib.h>
#include <jansson.h>
#include <malloc.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "bench/timing.h"
#include "lsp/lsp.h"

enum { RUNS = 100, NEARLY_ALL = 95, MANY = 10000 };

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
    tell(stream, "initialize", json_pack("{s:n,s:{},s:s}", "processId", "capabilities", "rootUri", root), 1);
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

static void stream_close(struct stream *stream)
{
    lsp_close(stream->lsp);
    g_free(stream->share);
    g_free(stream->uri);
}

/* Puts NEW in place of LENGTH characters of line LINE from CHARACTER on, and lets the server tell what it finds. */
static void edit(struct stream *stream, int line, int character, int length, const char *new)
{
    json_t *range = json_pack("{s:{s:i,s:i},s:{s:i,s:i}}", "start", "line", line, "character", character, "end", "line",
                              line, "character", character + length);
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

/* A hundred edits of FILE: the first place of OLD becomes NEW, and OLD again, by turns. */
static void measure(const char *folder, const char *file, const char *title, const char *old, const char *new)
{
    struct stream stream;
    char *text = stream_open(&stream, folder, file), *at = strstr(text, old), *start = at;
    double times[RUNS];
    int line = 0;
    if (!at) {
        fprintf(stderr, "bench_lsp: `%s` stands nowhere in %s\n", old, file);
        exit(2);
    }
    while (start > text && start[-1] != '\n')
        start--;
    for (const char *c = text; c < start; c++)
        line += *c == '\n';
    for (int i = 0; i < RUNS; i++) {
        double before = timing_now();
        bool even = i % 2 == 0;
        edit(&stream, line, (int)(at - start), (int)strlen(even ? old : new), even ? new : old);
        times[i] = timing_now() - before;
    }
    qsort(times, RUNS, sizeof *times, by_size);
    printf("%-44s  %8.2f  %8.2f  %8.2f\n", title, times[RUNS / 2], times[NEARLY_ALL - 1], times[RUNS - 1]);
    stream_close(&stream);
    g_free(text);
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
        edit(&stream, 0, width, 0, " x");
        edit(&stream, 0, width, 2, "");
        if (i % 100 == 0)
            tell(&stream, "textDocument/documentSymbol", json_pack("{s:{s:s}}", "textDocument", "uri", stream.uri), 2 + i);
        if (i == many / 10)
            before = held();
    }
    printf("memory after %d edits: %.1f MB, %.2f times that after a tenth of them\n", 2 * many, held(), held() / before);
    stream_close(&stream);
    g_free(text);
}

int main(int argc, char **argv)
{
    if (argc < 2) {
        fputs("usage: bench_lsp FOLDER [EDITS]\n", stderr);
        return 2;
    }
    printf("%-44s  %8s  %8s  %8s\n", "the language server, ms of processor", "median", "95 of 100", "most");
    measure(argv[1], "camp-007.bell", "an hour of one athlete's week", "17:30", "18:30");
    measure(argv[1], "athletes.bell", "an athlete's best", "1 @ ", "2 @ ");
    measure(argv[1], "squad-2.bell", "a dose of a squad's session", "8 each side @ 12", "9 each side @ 12");
    measure(argv[1], "squad-2.bell", "a name that there is not, and back", "back squat", "back squab");
    measure(argv[1], "squad-2.bell", "a line that cannot be read, and back", "superset B", "supset B");
    soak(argv[1], "camp-007.bell", argc > 2 ? atoi(argv[2]) : MANY / 2);
    return 0;
}
