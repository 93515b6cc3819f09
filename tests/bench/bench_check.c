/* usage: bench_check - the stages of `check` on clubs of several sizes, in milliseconds of processor time. Run from
 * the top of the checkout: the shelf is read from share/. */
#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>

#include "bench/club.h"
#include "bench/timing.h"
#include "model/programme.h"
#include "resolve/resolve.h"
#include "rules/rules.h"
#include "syntax/line.h"

enum { TODAY = 740041, MOST_FILES = 4096, RUNS = 15 };

/* What one compile leaves to the next stage. */
struct compile {
    const struct club_files *files;
    struct arena *arena;
    struct sources sources;
    struct diag *diag;
    const struct phrasebook *phrases;
    struct tree *trees[MOST_FILES];
    size_t shelf, count; /* trees of the shelf, and all */
    struct programme *programme;
    size_t tokens;
};

static void start(struct compile *compile, const struct club_files *files)
{
    *compile = (struct compile){.files = files, .arena = arena_new()};
    compile->sources.arena = compile->arena;
    compile->diag = diag_new(compile->arena, &compile->sources);
    compile->phrases = phrasebook_new(compile->arena);
}

static void read_tree(struct compile *compile, int file)
{
    if (file < 0 || compile->count == MOST_FILES) {
        fputs("bench_check: too many files, or one that cannot be read\n", stderr);
        exit(2);
    }
    compile->trees[compile->count++] =
        read_file(compile->arena, &compile->sources, (unsigned)file, compile->phrases, compile->diag);
}

static void read_folder(struct compile *compile, const char *folder)
{
    const char *wrong;
    DIR *open = opendir(folder);
    for (struct dirent *entry; open && (entry = readdir(open));) {
        char path[512];
        if (entry->d_name[0] == '.')
            continue;
        snprintf(path, sizeof path, "%s/%s", folder, entry->d_name);
        int file = source_read(&compile->sources, path, path, &wrong);
        if (file >= 0)
            compile->sources.items[file].shelf = true;
        read_tree(compile, file);
    }
    if (open)
        closedir(open);
}

static void read_shelf(struct compile *compile)
{
    static const char *const rooms[] = {"share/exercises", "share/activities", "share/limits", "share/rounds", "share/return",
                                        "share/tests"};
    for (size_t i = 0; i < sizeof rooms / sizeof *rooms; i++)
        read_folder(compile, rooms[i]);
    compile->shelf = compile->count;
}

static void resolve(struct compile *compile)
{
    compile->programme = programme_resolve(compile->arena, &compile->sources, compile->trees, compile->count, TODAY,
                                           compile->diag);
}

/* --- the stages, each alone --- */

/* The grammar as the linker finds it for src/syntax/lines.c. While it is deaf, all tokens are made and none is taken. */
int __real_plan_parse(struct reader *reader);
int __wrap_plan_parse(struct reader *reader);

static bool deaf;

int __wrap_plan_parse(struct reader *reader)
{
    PLAN_STYPE value;
    struct extent place;
    if (!deaf)
        return __real_plan_parse(reader);
    while (line_give(reader->line, &value, &place) != 0)
        continue;
    return 0;
}

static void scan_only(void *with)
{
    struct compile *compile = with;
    const struct club_files *files = compile->files;
    for (size_t i = 0; i < files->count; i++) {
        struct scan scan;
        struct arena *scratch = arena_new();
        scan_open(&scan, scratch, text_get(&files->items[i].text),
                  (struct extent){0, (uint32_t)files->items[i].text.length});
        while (scan_line(&scan))
            compile->tokens += scan.count + 1;
        compile->tokens += scan.count;
        scan_close(&scan);
        arena_free(scratch);
    }
}

static void count_lines(void *with)
{
    struct compile *compile = with;
    for (size_t i = 0; i < compile->files->count; i++) {
        const struct text *text = &compile->files->items[i].text;
        for (const char *p = text_get(text), *end = p + text->length;
             (p = memchr(p, '\n', (size_t)(end - p))) != NULL; p++)
            compile->tokens++;
    }
}

static void parse_only(void *with)
{
    const struct club_files *files = ((struct compile *)with)->files;
    struct compile compile;
    start(&compile, files);
    for (size_t i = 0; i < files->count; i++)
        read_tree(&compile, source_add(&compile.sources, files->items[i].name, text_get(&files->items[i].text),
                                       files->items[i].text.length));
    arena_free(compile.arena);
}

static void tokens_only(void *with)
{
    deaf = true;
    parse_only(with);
    deaf = false;
}

enum { STAGE_SHELF, STAGE_PARSE, STAGE_RESOLVE, STAGE_RULES, STAGE_ALL, STAGE_COUNT };

/* One whole compile; its stages' times go to TIMES, its memory to *BYTES. */
static void compile_once(const struct club_files *files, double times[STAGE_COUNT], size_t *bytes,
                         struct programme *shape)
{
    struct compile compile;
    double marks[STAGE_COUNT];
    double begun = timing_now();
    start(&compile, files);
    read_shelf(&compile);
    marks[STAGE_SHELF] = timing_now();
    for (size_t i = 0; i < files->count; i++)
        read_tree(&compile, source_add(&compile.sources, files->items[i].name, text_get(&files->items[i].text),
                                       files->items[i].text.length));
    marks[STAGE_PARSE] = timing_now();
    resolve(&compile);
    marks[STAGE_RESOLVE] = timing_now();
    rules_run(compile.programme, compile.diag);
    diag_sort(compile.diag);
    marks[STAGE_RULES] = timing_now();
    times[STAGE_ALL] = marks[STAGE_RULES] - begun;
    for (int i = STAGE_RULES; i > STAGE_SHELF; i--)
        times[i] = marks[i] - marks[i - 1];
    times[STAGE_SHELF] = marks[STAGE_SHELF] - begun;
    if (diag_count(compile.diag, SEVERITY_ERROR)) {
        fputs("bench_check: the club has errors\n", stderr);
        exit(2);
    }
    *bytes = arena_used(compile.arena);
    *shape = *compile.programme;
    arena_free(compile.arena);
}

/* What a compile takes beyond the shelf, which is the same for each club. */
static double own_part(const double times[STAGE_COUNT])
{
    return times[STAGE_ALL] - times[STAGE_SHELF];
}

/* A club's stages, and how many times those of the FIRST it takes: the two in turn, as a machine that is slower for a
 * while is slower for both. */
static void show_club(const char *name, struct club_shape shape, const struct club_files *first)
{
    struct club_files files = club_make(shape);
    double times[STAGE_COUNT][TIMING_MOST_RUNS], ratios[TIMING_MOST_RUNS], once[STAGE_COUNT];
    struct programme programme = {0};
    size_t bytes = 0;
    for (int run = 0; run < RUNS; run++) {
        compile_once(first, once, &bytes, &programme);
        double of_first = own_part(once);
        compile_once(&files, once, &bytes, &programme);
        ratios[run] = own_part(once) / of_first;
        for (int i = 0; i < STAGE_COUNT; i++)
            times[i][run] = once[i];
    }
    printf("%-16s %7zu kB %6zu days %6.1f MB", name, club_size(&files) / 1000, programme.occasion_count,
           (double)bytes / 1e6);
    for (int i = STAGE_PARSE; i < STAGE_COUNT; i++)
        timing_print(timing_sum(times[i], RUNS));
    printf("\n%-16s times the first, run by run, the shelf left out:", "");
    timing_print(timing_sum(ratios, RUNS));
    puts("");
    club_free(&files);
}

static void show_reading(const struct club_files *files)
{
    struct compile compile = {.files = files};
    size_t size = club_size(files);
    /* The pieces know neither keywords nor names nor lines that belong together: the grammar's tokens do, with their
     * values and places, of bytes that are known to be text. */
    static const char *const names[] = {"count line ends", "bytes to pieces (flex)", "bytes to tokens",
                                        "bytes to tree"};
    timing_work *const works[] = {count_lines, scan_only, tokens_only, parse_only};
    enum { PIECES = 1, TOKENS, TREE, WORKS };
    double medians[WORKS];
    printf("Reading the club's %zu bytes, ms\n", size);
    for (int i = 0; i < WORKS; i++) {
        struct timing timing = timing_of(works[i], &compile, 51);
        medians[i] = timing.median;
        printf("  %-26s", names[i]);
        timing_print(timing);
        printf("%8.0f MB/s", (double)size / timing.median / 1e3);
        if (i == TREE)
            printf("   %.2f x the tokens, %.2f x the pieces", medians[TREE] / medians[TOKENS],
                   medians[TREE] / medians[PIECES]);
        puts("");
    }
}

static void shelf_only(void *with)
{
    struct compile compile;
    (void)with;
    start(&compile, NULL);
    read_shelf(&compile);
    resolve(&compile);
    arena_free(compile.arena);
}

int main(void)
{
    struct club_files files = club_make((struct club_shape){40, 26, 4, 4, false, false});
    show_reading(&files);
    club_free(&files);
    puts("\nAt every start, ms");
    printf("  %-26s", "shelf read and resolved");
    timing_print(timing_of(shelf_only, NULL, 51));
    puts("");

    puts("\nWhole check, ms                              memory      parse"
         "                       resolve                     rules                       all, with the shelf");
    static const struct {
        const char *name;
        struct club_shape shape;
    } clubs[] = {
        {"40 athletes", {40, 26, 4, 4, false, false}}, {"weeks x 2", {40, 52, 4, 4, false, false}},      {"weeks x 4", {40, 104, 4, 4, false, false}},
        {"weeks x 8", {40, 208, 4, 4, false, false}},  {"athletes x 2", {80, 26, 4, 4, false, false}},   {"athletes x 4", {160, 26, 4, 4, false, false}},
        {"athletes x 8", {320, 26, 4, 4, false, false}}, {"file size x 2", {40, 26, 4, 44, false, false}}, {"file size x 4", {40, 26, 4, 128, false, false}},
        {"file size x 8", {40, 26, 4, 296, false, false}},
    };
    struct club_files first = club_make(clubs[0].shape);
    for (size_t i = 0; i < sizeof clubs / sizeof *clubs; i++)
        show_club(clubs[i].name, clubs[i].shape, &first);
    club_free(&first);
    struct rusage usage;
    getrusage(RUSAGE_SELF, &usage);
    printf("\nPeak memory of all this: %.0f MB\n", (double)usage.ru_maxrss / 1024);
    return 0;
}
