/* Plans that are cut off, or have lost, doubled or shifted a line: what comes is findings at places that exist, or a
 * programme; never a crash, nor a loop without end. Every example and the shelf are put through it. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include <glib.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "cases.h"
#include "model/programme.h"
#include "resolve/resolve.h"
#include "rules/rules.h"
#include "source/screen.h"
#include "syntax/read.h"

enum { MOST_TREES = 128, TODAY = 740048 /* 2027-03-08 */ };

/* Bytes from one cut to the next, and how many lines of a file are changed. A compile works out rooms, which takes most of
 * its time, so that not every change is compiled: some of each kind, all over the file. */
enum { SHELF_STRIDE = 7, READ_STRIDE = 1, COMPILE_STRIDE = 1201, LINES_CHANGED = 24 };
/* The sample has one in so many of these. */
enum { SHELF_STEP = 23, READ_STEP = 29, COMPILE_STEP = 7, LINE_STEP = 23 };

/* A plan's files and the shelf's, read once; a changed file takes the place of one. */
struct bench {
    struct arena *arena;
    struct sources sources;
    struct tree *trees[MOST_TREES];
    size_t count, shelf_count;
    const struct phrasebook *phrases;
    const char *what; /* is done to which file: for messages */
};

static int by_name(const void *a, const void *b)
{
    return strcmp(*(char *const *)a, *(char *const *)b);
}

static void bench_add_file(struct bench *bench, const char *path, bool shelf)
{
    const char *wrong = NULL;
    int file = source_read(&bench->sources, path, path, &wrong);
    if (file < 0)
        fail_msg("%s: %s", path, wrong);
    assert_true(bench->count < MOST_TREES);
    bench->sources.items[file].shelf = shelf;
    struct diag *diag = diag_new(bench->arena, &bench->sources);
    bench->trees[bench->count++] = read_file(bench->arena, &bench->sources, (unsigned)file, bench->phrases, diag);
}

/* Adds every plan below FOLDER, in the order of their names. */
static void bench_add(struct bench *bench, const char *folder, bool shelf)
{
    GDir *dir = g_dir_open(folder, 0, NULL);
    if (!dir)
        fail_msg("%s cannot be opened", folder);
    GPtrArray *names = g_ptr_array_new_with_free_func(g_free);
    for (const char *name; (name = g_dir_read_name(dir)) != NULL;)
        g_ptr_array_add(names, g_build_filename(folder, name, NULL));
    g_dir_close(dir);
    qsort(names->pdata, names->len, sizeof *names->pdata, by_name);
    for (guint i = 0; i < names->len; i++) {
        const char *path = names->pdata[i];
        if (g_file_test(path, G_FILE_TEST_IS_DIR))
            bench_add(bench, path, shelf);
        else if (g_str_has_suffix(path, ".bell"))
            bench_add_file(bench, path, shelf);
    }
    g_ptr_array_free(names, TRUE);
}

static struct bench bench_open(const char *folder)
{
    struct bench bench = {.arena = arena_new()};
    bench.sources.arena = bench.arena;
    bench.phrases = phrasebook_new(bench.arena);
    static const char *const shelf[] = {"share/exercises", "share/activities", "share/rounds", "share/limits",
                                        "share/return", "share/tests"};
    for (size_t i = 0; i < sizeof shelf / sizeof *shelf; i++)
        bench_add(&bench, shelf[i], true);
    bench.shelf_count = bench.count;
    if (folder)
        bench_add(&bench, folder, false);
    return bench;
}

/* --- what must hold of any findings --- */

static void check_span(const struct bench *bench, const struct diag *diag, struct span span, const char *words)
{
    if (span.file >= diag->sources->count)
        fail_msg("%s: \"%s\" is in no file", bench->what, words);
    const struct source *source = &diag->sources->items[span.file];
    if (span.start > span.end || span.end > source->length)
        fail_msg("%s: \"%s\" is at %u to %u of %zu bytes", bench->what, words, span.start, span.end, source->length);
}

static void check_findings(const struct bench *bench, struct diag *diag)
{
    diag_sort(diag);
    for (size_t i = 0; i < diag->count; i++) {
        const struct finding *finding = diag->items[i];
        check_span(bench, diag, finding->span, finding->words);
        if (finding->replacement)
            check_span(bench, diag, finding->fix, finding->replacement);
        for (size_t n = 0; n < finding->note_count; n++)
            if (finding->notes[n].placed)
                check_span(bench, diag, finding->notes[n].span, finding->notes[n].words);
    }
    struct text out = {0};
    diag_print(diag, &(struct diag_style){.infos = true}, &out);
    if (!g_utf8_validate(text_get(&out), (gssize)out.length, NULL))
        fail_msg("%s: the findings are no text", bench->what);
    text_free(&out);
}

/* --- doing it --- */

/* The bench's files with TEXT in place of the one that tree number INDEX is of. The copy lives in ARENA. */
static struct sources sources_with(const struct bench *bench, struct arena *arena, size_t index, const char *text,
                                   size_t length)
{
    struct sources sources = {.arena = arena, .count = bench->sources.count, .capacity = bench->sources.count};
    sources.items = arena_alloc(arena, sources.count * sizeof *sources.items);
    memcpy(sources.items, bench->sources.items, sources.count * sizeof *sources.items);
    struct sources other = {.arena = arena};
    unsigned file = bench->trees[index]->file;
    source_add(&other, sources.items[file].name, text, length);
    other.items[0].shelf = sources.items[file].shelf;
    sources.items[file] = other.items[0];
    return sources;
}

/* Reads TEXT in place of a file and, where COMPILE, works out the whole plan and runs the rules on it. */
static void run(const struct bench *bench, size_t index, const char *text, size_t length, bool compile)
{
    struct arena *arena = arena_new();
    struct sources sources = sources_with(bench, arena, index, text, length);
    struct diag *diag = diag_new(arena, &sources);
    struct tree *trees[MOST_TREES];
    memcpy(trees, bench->trees, sizeof trees);
    trees[index] = read_file(arena, &sources, bench->trees[index]->file, bench->phrases, diag);
    if (compile) {
        struct programme *programme = programme_resolve(arena, &sources, trees, bench->count, TODAY, diag);
        if (!programme->incomplete)
            rules_run(programme, diag);
    }
    check_findings(bench, diag);
    arena_free(arena);
}

static const struct source *source_of(const struct bench *bench, size_t index)
{
    return &bench->sources.items[bench->trees[index]->file];
}

/* Cuts the file off at every STRIDE-th byte, as far as the sample of each STEP-th cut has it. */
static void cut(struct bench *bench, size_t index, size_t stride, unsigned step, bool compile)
{
    const struct source *source = source_of(bench, index);
    struct spread spread = spread_from(spread_of(step), index);
    for (size_t length = spread.first * stride; length <= source->length; length += spread.step * stride) {
        char what[512];
        snprintf(what, sizeof what, "%s cut off at byte %zu", source->name, length);
        bench->what = what;
        run(bench, index, source->text, length, compile);
    }
}

enum change { DELETED, DOUBLED, INDENTED, DEDENTED, TABBED, CHANGE_COUNT };

static const char *const change_names[CHANGE_COUNT] = {"deleted", "doubled", "indented", "dedented", "tabbed"};

static void add_changed(struct text *out, const char *line, size_t length, enum change change)
{
    switch (change) {
    case DOUBLED:
        text_add_bytes(out, line, length);
        text_add_bytes(out, line, length);
        break;
    case INDENTED:
        text_add(out, "    ");
        text_add_bytes(out, line, length);
        break;
    case DEDENTED: {
        size_t spaces = strspn(line, " ");
        text_add_bytes(out, line + (spaces < 3 ? spaces : 3), length - (spaces < 3 ? spaces : 3));
        break;
    }
    case TABBED:
        text_add(out, "\t");
        text_add_bytes(out, line, length);
        break;
    default: break; /* deleted */
    }
}

/* Changes one line of the file, then one further on, in each of the ways in turn. */
static void change_lines(struct bench *bench, size_t index)
{
    const struct source *source = source_of(bench, index);
    size_t all = source->line_count * CHANGE_COUNT, stride = all / LINES_CHANGED + 1;
    stride += stride % CHANGE_COUNT == 0; /* else each change would be the same */
    struct spread spread = spread_from(spread_of(LINE_STEP), index);
    for (size_t i = spread.first * stride; i < all; i += spread.step * stride) {
        size_t line = i / CHANGE_COUNT, start = source->lines[line];
        size_t end = line + 1 < source->line_count ? source->lines[line + 1] : source->length;
        enum change change = (enum change)(i % CHANGE_COUNT);
        char what[512];
        snprintf(what, sizeof what, "%s with line %zu %s", source->name, line + 1, change_names[change]);
        bench->what = what;
        struct text text = {0};
        text_add_bytes(&text, source->text, start);
        add_changed(&text, source->text + start, end - start, change);
        text_add_bytes(&text, source->text + end, source->length - end);
        run(bench, index, text_get(&text), text.length, true);
        text_free(&text);
    }
}

/* --- each example --- */

static void each_example(void (*work)(struct bench *bench, size_t index))
{
    GDir *dir = g_dir_open("examples", 0, NULL);
    assert_non_null(dir);
    size_t plans = 0;
    for (const char *name; (name = g_dir_read_name(dir)) != NULL;) {
        char *path = g_build_filename("examples", name, NULL);
        if (g_file_test(path, G_FILE_TEST_IS_DIR)) {
            struct bench bench = bench_open(path);
            for (size_t i = bench.shelf_count; i < bench.count; i++, plans++)
                work(&bench, i);
            arena_free(bench.arena);
        }
        g_free(path);
    }
    g_dir_close(dir);
    assert_true(plans > 0);
}

static void read_cut(struct bench *bench, size_t index)
{
    cut(bench, index, READ_STRIDE, READ_STEP, false);
}

static void compile_cut(struct bench *bench, size_t index)
{
    cut(bench, index, COMPILE_STRIDE, COMPILE_STEP, true);
}

static void test_any_prefix_is_read(void **state)
{
    (void)state;
    each_example(read_cut);
}

static void test_prefixes_are_compiled(void **state)
{
    (void)state;
    each_example(compile_cut);
}

static void test_a_changed_line_is_compiled(void **state)
{
    (void)state;
    each_example(change_lines);
}

static void test_any_prefix_of_the_shelf_is_read(void **state)
{
    (void)state;
    struct bench bench = bench_open(NULL);
    assert_true(bench.shelf_count > 0);
    for (size_t i = 0; i < bench.shelf_count; i++)
        cut(&bench, i, SHELF_STRIDE, SHELF_STEP, false);
    arena_free(bench.arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_any_prefix_is_read),
        cmocka_unit_test(test_any_prefix_of_the_shelf_is_read),
        cmocka_unit_test(test_prefixes_are_compiled),
        cmocka_unit_test(test_a_changed_line_is_compiled),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
