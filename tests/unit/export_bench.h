/* export_bench.h - what the tests of the exports share: plans with findings, and reports read
 * back. cmocka must have been included before. */
#ifndef BELL_TESTS_EXPORT_BENCH_H
#define BELL_TESTS_EXPORT_BENCH_H

#include <glib.h>
#include <stdlib.h>

#include "export/export.h"
#include "json_schema.h"

struct bench {
    struct arena *arena;
    struct sources sources;
    struct diag *diag;
};

static inline const char *describe(struct arena *arena, const char *name)
{
    (void)arena;
    return strcmp(name, "sets-over") == 0 ? "More sets than the limit allows\n\nThe page."
                                              : NULL;
}

static const struct export_context plain = {.version = "1.2.3", .describe = describe};
static const struct export_context all = {.version = "1.2.3", .describe = describe, .infos = true};

static inline struct bench *bench_new(void)
{
    struct bench *bench = calloc(1, sizeof *bench);
    assert_non_null(bench);
    bench->arena = arena_new();
    bench->sources.arena = bench->arena;
    bench->diag = diag_new(bench->arena, &bench->sources);
    return bench;
}

static void bench_free(struct bench *bench)
{
    arena_free(bench->arena);
    free(bench);
}

static uint32_t add_file(struct bench *bench, const char *name, const char *text)
{
    return (uint32_t)source_add(&bench->sources, name, text, strlen(text));
}

/* Where WORDS stands in FILE for the first time. */
static struct span find(const struct bench *bench, uint32_t file, const char *words)
{
    const char *text = bench->sources.items[file].text, *at = strstr(text, words);
    assert_non_null(at);
    uint32_t start = (uint32_t)(at - text);
    return (struct span){file, start, start + (uint32_t)strlen(words)};
}

static inline char *write_text(const struct bench *bench, export_write *write,
                               const struct export_context *context)
{
    struct text out = {0};
    write(bench->diag, context, &out);
    char *copy = arena_copy(bench->arena, text_get(&out), out.length);
    assert_int_equal(strlen(copy), out.length);
    text_free(&out);
    return copy;
}

static inline json_t *write_json(const struct bench *bench, export_write *write,
                                 const struct export_context *context)
{
    json_error_t error;
    json_t *json = json_loads(write_text(bench, write, context), JSON_REJECT_DUPLICATES, &error);
    if (!json)
        fail_msg("%s", error.text);
    return json;
}

static inline json_t *load(const char *path)
{
    json_error_t error;
    json_t *json = json_load_file(path, JSON_REJECT_DUPLICATES, &error);
    if (!json)
        fail_msg("%s: %s", path, error.text);
    return json;
}

static void assert_schema(const char *path, json_t *value)
{
    struct schema_check check = {.root = load(path)};
    if (!schema_holds(&check, check.root, value, ""))
        fail_msg("%s", check.fault);
    json_decref(check.root);
}

static const char FINDINGS_SCHEMA[] = "share/schema/findings-1.schema.json";
static const char SARIF_SCHEMA[] = "tests/unit/sarif-parts.schema.json";

static inline json_t *run_of(json_t *log)
{
    return json_array_get(json_object_get(log, "runs"), 0);
}

static inline json_t *results_of(json_t *log)
{
    return json_object_get(run_of(log), "results");
}

static inline json_t *finding_at(json_t *report, size_t index)
{
    return json_array_get(json_object_get(report, "findings"), index);
}

static inline const char *string_at(json_t *object, const char *key)
{
    return json_string_value(json_object_get(object, key));
}

/* The first location of the first result. */
static inline json_t *physical_of(json_t *log)
{
    json_t *result = json_array_get(results_of(log), 0);
    json_t *location = json_array_get(json_object_get(result, "locations"), 0);
    return json_object_get(location, "physicalLocation");
}

struct region {
    json_int_t line, column, end_line, end_column;
};

static inline struct region region_of(json_t *region)
{
    return (struct region){json_integer_value(json_object_get(region, "startLine")),
                           json_integer_value(json_object_get(region, "startColumn")),
                           json_integer_value(json_object_get(region, "endLine")),
                           json_integer_value(json_object_get(region, "endColumn"))};
}

static inline struct bench *bench_busy(void)
{
    struct bench *bench = bench_new();
    uint32_t week = add_file(bench, "weeks/week 1.bell",
                             "session Monday\n    squat: 5x5 @ 90%\n    bench pres: 3x8\n");
    uint32_t kit = add_file(bench, "./kit.bell", "gym Slipway\n    plates 20 kg\n");
    uint32_t shelf = add_file(bench, "exercises/squat.bell", "exercise squat\n");
    bench->sources.items[shelf].shelf = true;
    struct finding *finding =
        diag_report(bench->diag, SEVERITY_WARNING, DIAG_SETS_OVER, find(bench, week, "5x5 @ 90%"),
                    "25 reps at 90 %%, and 10 is the most");
    diag_note(bench->diag, finding, find(bench, kit, "plates 20 kg"), "made with these");
    diag_note(bench->diag, finding, find(bench, shelf, "squat"), "it is declared here");
    diag_remark(bench->diag, finding, "the limit is the house's");
    finding = diag_error(bench->diag, DIAG_UNKNOWN_EXERCISE, find(bench, week, "bench pres"),
                         "no exercise is called `bench pres`");
    diag_fix(bench->diag, finding, find(bench, week, "pres:"), "press:");
    diag_report(bench->diag, SEVERITY_INFO, DIAG_BEST_OLD, find(bench, kit, "20 kg"),
                "an old figure.");
    diag_error(bench->diag, DIAG_UNKNOWN_EXERCISE, find(bench, shelf, "squat"), "on the shelf");
    diag_sort(bench->diag);
    return bench;
}

/* No string of VALUE is empty, and no name of a member. */
static void assert_no_empty_string(json_t *value)
{
    const char *key;
    json_t *member;
    size_t i;
    if (json_is_string(value))
        assert_true(json_string_length(value) > 0);
    json_object_foreach(value, key, member)
    {
        assert_true(*key != '\0');
        assert_no_empty_string(member);
    }
    json_array_foreach(value, i, member) assert_no_empty_string(member);
}

/* What a schema cannot say: indexes point at what they should, identifiers differ, ends follow
 * starts. */
static void assert_sarif(json_t *log)
{
    assert_schema(SARIF_SCHEMA, log);
    assert_no_empty_string(log);
    json_t *driver = json_object_get(json_object_get(run_of(log), "tool"), "driver");
    json_t *rules = json_object_get(driver, "rules"), *result;
    GHashTable *prints = g_hash_table_new(g_str_hash, g_str_equal);
    size_t i;
    for (i = 1; i < json_array_size(rules); i++)
        assert_true(strcmp(string_at(json_array_get(rules, i - 1), "id"),
                           string_at(json_array_get(rules, i), "id")) < 0);
    json_array_foreach(results_of(log), i, result)
    {
        json_int_t rule = json_integer_value(json_object_get(result, "ruleIndex"));
        assert_string_equal(string_at(json_array_get(rules, (size_t)rule), "id"),
                            string_at(result, "ruleId"));
        const char *print =
            string_at(json_object_get(result, "partialFingerprints"), "bellsheetFinding/v1");
        assert_true(g_hash_table_add(prints, (gpointer)print));
        json_t *place = json_object_get(json_array_get(json_object_get(result, "locations"), 0),
                                        "physicalLocation");
        struct region at = region_of(json_object_get(place, "region"));
        assert_true(at.end_line > at.line ||
                    (at.end_line == at.line && at.end_column >= at.column));
        json_t *artifact = json_object_get(place, "artifactLocation");
        bool absolute = strncmp(string_at(artifact, "uri"), "file:", 5) == 0;
        assert_int_equal(absolute, json_object_get(artifact, "uriBaseId") == NULL);
    }
    g_hash_table_destroy(prints);
}

#endif
