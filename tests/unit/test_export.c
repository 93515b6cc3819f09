/* The reports for scripts: what SARIF, the code quality report and the plain JSON say of a plan's
 * findings, where they say it is, and how a finding is known again. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "export_bench.h"

/* --- places --- */

static struct region region_for(const char *text, uint32_t start, uint32_t end)
{
    struct bench *bench = bench_new();
    uint32_t file = add_file(bench, "a.bell", text);
    diag_error(bench->diag, DIAG_SYNTAX, (struct span){file, start, end}, "words");
    json_t *log = write_json(bench, export_sarif, &plain);
    struct region region = region_of(json_object_get(physical_of(log), "region"));
    json_decref(log);
    bench_free(bench);
    return region;
}

static void assert_region(struct region got, json_int_t line, json_int_t column,
                          json_int_t end_line, json_int_t end_column)
{
    assert_int_equal(got.line, line);
    assert_int_equal(got.column, column);
    assert_int_equal(got.end_line, end_line);
    assert_int_equal(got.end_column, end_column);
}

static void test_columns_count_utf16_units(void **state)
{
    (void)state;
    /* e-acute: 2 bytes, 1 unit. */
    assert_region(region_for("\xc3\xa9 abc", 3, 6), 1, 3, 1, 6);
    /* A boxing glove, beyond the first plane: 4 bytes, 2 units. */
    assert_region(region_for("\xf0\x9f\xa5\x8a abc", 5, 8), 1, 4, 1, 7);
    /* e and a combining acute: 3 bytes, 2 units; a wide character: 3 bytes, 1 unit; a tab: 1
     * unit. */
    assert_region(region_for("e\xcc\x81 abc", 4, 7), 1, 4, 1, 7);
    assert_region(region_for("\xe8\xb9\xb4 abc", 4, 7), 1, 3, 1, 6);
    assert_region(region_for("\tabc", 1, 4), 1, 2, 1, 5);
    /* A byte that is not UTF-8 is shown as one replacement character. */
    assert_region(region_for("\xff\xc3 abc", 3, 6), 1, 4, 1, 7);
    /* The byte order mark counts for nothing. */
    assert_region(region_for("\xef\xbb\xbf"
                             "abc",
                             0, 3),
                  1, 1, 1, 4);
}

static void test_lines_and_ends(void **state)
{
    (void)state;
    /* The file of section 3.30.2 of the standard: "efg" of line 2; of lines 2 and 3; the very
     * end. */
    static const char file[] = "abcd\r\nefg\r\nhijk\r\nlmn\r\n";
    assert_region(region_for(file, 6, 9), 2, 1, 2, 4);
    assert_region(region_for(file, 6, 15), 2, 1, 3, 5);
    assert_region(region_for(file, 22, 22), 4, 6, 4, 6);
    /* The newline behind a line is not shown as part of it. */
    assert_region(region_for(file, 6, 11), 2, 1, 2, 4);
    assert_region(region_for("abc", 3, 3), 1, 4, 1, 4);
    assert_region(region_for("", 0, 0), 1, 1, 1, 1);
    assert_region(region_for("abc\n", 4, 4), 1, 5, 1, 5);
    /* A span beyond the text is held inside. */
    assert_region(region_for("abc", 2, 99), 1, 3, 1, 4);
}

/* --- SARIF --- */

static void test_sarif_says_it_all(void **state)
{
    (void)state;
    struct bench *bench = bench_busy();
    json_t *log = write_json(bench, export_sarif, &all), *results = results_of(log);
    assert_sarif(log);
    assert_int_equal(json_array_size(results), 4);

    /* By file name: kit, shelf, weeks. */
    json_t *info = json_array_get(results, 0), *shelf = json_array_get(results, 1);
    json_t *sets = json_array_get(results, 2), *unknown = json_array_get(results, 3);
    assert_string_equal(string_at(info, "level"), "note");
    assert_string_equal(string_at(json_object_get(info, "message"), "text"), "an old figure.");
    assert_string_equal(string_at(shelf, "ruleId"), "unknown-exercise");
    assert_string_equal(string_at(sets, "level"), "warning");
    assert_string_equal(string_at(json_object_get(sets, "message"), "text"),
                        "25 reps at 90 %, and 10 is the most.\nNote: the limit is the house's");
    assert_string_equal(string_at(unknown, "level"), "error");

    json_t *related = json_object_get(sets, "relatedLocations"),
           *first = json_array_get(related, 0);
    assert_int_equal(json_array_size(related), 2);
    assert_int_equal(json_integer_value(json_object_get(first, "id")), 1);
    assert_string_equal(string_at(json_object_get(first, "message"), "text"), "made with these");
    json_t *place = json_object_get(first, "physicalLocation");
    json_t *artifact = json_object_get(place, "artifactLocation");
    assert_string_equal(string_at(artifact, "uri"), "kit.bell");
    assert_string_equal(string_at(artifact, "uriBaseId"), "%SRCROOT%");
    assert_region(region_of(json_object_get(place, "region")), 2, 5, 2, 17);
    artifact = json_object_get(json_object_get(json_array_get(related, 1), "physicalLocation"),
                               "artifactLocation");
    assert_string_equal(string_at(artifact, "uri"), "exercises/squat.bell");
    assert_string_equal(string_at(artifact, "uriBaseId"), "SHELF");
    json_decref(log);
    bench_free(bench);
}

static void test_sarif_rules_are_explained(void **state)
{
    (void)state;
    struct bench *bench = bench_busy();
    json_t *log = write_json(bench, export_sarif, &plain);
    json_t *driver = json_object_get(json_object_get(run_of(log), "tool"), "driver");
    json_t *rules = json_object_get(driver, "rules");
    assert_string_equal(string_at(driver, "version"), "1.2.3");
    assert_int_equal(json_array_size(rules), 2); /* only the kinds used */
    json_t *sets = json_array_get(rules, 0), *unknown = json_array_get(rules, 1);
    assert_string_equal(string_at(sets, "name"), "SetsOver");
    assert_string_equal(string_at(json_object_get(sets, "shortDescription"), "text"),
                        "More sets than the limit allows");
    assert_string_equal(string_at(json_object_get(sets, "help"), "text"),
                        "More sets than the limit allows\n\nThe page.");
    assert_string_equal(string_at(json_object_get(unknown, "shortDescription"), "text"),
                        "unknown exercise");
    json_decref(log);
    bench_free(bench);
}

static void test_sarif_without_findings(void **state)
{
    (void)state;
    struct bench *bench = bench_new();
    add_file(bench, "a.bell", "");
    json_t *log = write_json(bench, export_sarif, &plain);
    assert_sarif(log);
    assert_true(json_is_array(results_of(log))); /* present and empty: 3.14.23 */
    assert_int_equal(json_array_size(results_of(log)), 0);
    json_decref(log);
    bench_free(bench);
}

static const char *uri_for(struct bench *bench, const char *name, const char *prefix)
{
    struct export_context context = plain;
    context.prefix = prefix;
    uint32_t file = add_file(bench, name, "abc");
    bench->diag->count = 0;
    diag_error(bench->diag, DIAG_SYNTAX, (struct span){file, 0, 1}, "words");
    json_t *log = write_json(bench, export_sarif, &context);
    assert_sarif(log);
    json_t *artifact = json_object_get(physical_of(log), "artifactLocation");
    const char *uri = string_at(artifact, "uri");
    uri = arena_copy(bench->arena, uri, strlen(uri));
    json_decref(log);
    return uri;
}

static void test_uris_are_encoded(void **state)
{
    (void)state;
    struct bench *bench = bench_new();
    assert_string_equal(uri_for(bench, "weeks/one.bell", NULL), "weeks/one.bell");
    assert_string_equal(uri_for(bench, "./one.bell", NULL), "one.bell");
    assert_string_equal(uri_for(bench, "a b#c?d%e.bell", ""), "a%20b%23c%3Fd%25e.bell");
    /* A colon in the first part would make a scheme of it. */
    assert_string_equal(uri_for(bench, "mon:one.bell", NULL), "mon%3Aone.bell");
    assert_string_equal(uri_for(bench, "th\xe1\xbb\xa9 2.bell", NULL), "th%E1%BB%A9%202.bell");
    assert_string_equal(uri_for(bench, "broken \xff.bell", NULL), "broken%20%FF.bell");
    assert_string_equal(uri_for(bench, "line\nbreak", NULL), "line%0Abreak");
    assert_string_equal(uri_for(bench, "one.bell", "gyms/the slip/"), "gyms/the%20slip/one.bell");
    assert_string_equal(uri_for(bench, "/plans/one.bell", "gyms/"), "file:///plans/one.bell");
    assert_string_equal(uri_for(bench, "//plans//one.bell", NULL), "file:///plans/one.bell");
    bench_free(bench);
}

/* --- fingerprints --- */

/* The fingerprint of a finding at WORDS, of the last one where SEVERAL are reported there. */
static const char *print_for(struct bench *bench, const char *text, const char *words,
                             const char *said, int several)
{
    uint32_t file = add_file(bench, "a.bell", text);
    bench->diag->count = 0;
    for (int i = 0; i < several; i++)
        diag_error(bench->diag, DIAG_SYNTAX, find(bench, file, words), "%s", said);
    json_t *report = write_json(bench, export_json, &plain);
    const char *print = string_at(finding_at(report, (size_t)several - 1), "fingerprint");
    print = arena_copy(bench->arena, print, strlen(print));
    json_decref(report);
    return print;
}

static void test_fingerprints_stay(void **state)
{
    (void)state;
    struct bench *bench = bench_new();
    const char *first = print_for(bench, "session Monday\n    squat: 5x5\n", "5x5", "24 sets", 1);
    const char *same[][2] = {
        {"# a note\n\nathlete Oriel\n\nsession Monday\n    squat: 5x5\n", "24 sets"},
        {"session Monday\n    row: 3x8\n\n# gone\n    # moved\n    squat: 5x5\n", "24 sets"},
        {"session  Monday \n  squat:   5x5  \r\n", "24 sets"},
        {"session Monday\n    squat: 5x5\n", "26 sets"},
    };
    for (size_t i = 0; i < sizeof same / sizeof *same; i++)
        assert_string_equal(print_for(bench, same[i][0], "5x5", same[i][1], 1), first);
    bench_free(bench);
}

static void test_fingerprints_differ(void **state)
{
    (void)state;
    struct bench *bench = bench_new();
    const char *first = print_for(bench, "session Monday\n    squat: 5x5\n", "5x5", "24 sets", 1);
    const char *other[][2] = {
        {"session Friday\n    squat: 5x5\n", "24 sets"},
        {"session Monday\n    lunge: 5x5\n", "24 sets"},
        {"session Monday\n    after squat\n        squat: 5x5\n", "24 sets"},
        {"session Monday\n    squat: 5x5\n", "24 reps"},
    };
    for (size_t i = 0; i < sizeof other / sizeof *other; i++)
        assert_string_not_equal(print_for(bench, other[i][0], "5x5", other[i][1], 1), first);
    /* What has all in common is numbered. */
    const char *second = print_for(bench, "session Monday\n    squat: 5x5\n", "5x5", "24 sets", 2);
    assert_string_not_equal(second, first);
    assert_memory_equal(second, first, 33);
    assert_string_equal(first + 32, ":1");
    assert_string_equal(second + 32, ":2");
    bench_free(bench);
}

/* --- fixes --- */

/* TEXT with FIX done to it by the region and its UTF-16 columns, as an editor would. */
static char *apply_region(const char *text, struct region at, const char *put)
{
    glong units = 0;
    gunichar2 *wide = g_utf8_to_utf16(text, -1, NULL, &units, NULL);
    glong start = -1, end = -1, line = 1, column = 1;
    for (glong i = 0; i <= units; i++) {
        if (line == at.line && column == at.column)
            start = i;
        if (line == at.end_line && column == at.end_column)
            end = i;
        column++;
        if (i < units && wide[i] == '\n' && i + 1 < units) {
            line++;
            column = 1;
        }
    }
    assert_true(start >= 0 && end >= start);
    char *before = g_utf16_to_utf8(wide, start, NULL, NULL, NULL);
    char *after = g_utf16_to_utf8(wide + end, units - end, NULL, NULL, NULL);
    char *whole = g_strconcat(before, put ? put : "", after, NULL);
    g_free(before);
    g_free(after);
    g_free(wide);
    return whole;
}

static void check_fix(const char *text, uint32_t start, uint32_t end, const char *put,
                      const char *wanted)
{
    struct bench *bench = bench_new();
    uint32_t file = add_file(bench, "a.bell", text);
    struct finding *finding = diag_error(bench->diag, DIAG_SYNTAX, (struct span){file, 0, 0}, "words");
    diag_fix(bench->diag, finding, (struct span){file, start, end}, put);

    json_t *log = write_json(bench, export_sarif, &plain);
    assert_sarif(log);
    json_t *fix = json_array_get(json_object_get(json_array_get(results_of(log), 0), "fixes"), 0);
    json_t *change = json_array_get(json_object_get(fix, "artifactChanges"), 0);
    json_t *replacement = json_array_get(json_object_get(change, "replacements"), 0);
    json_t *content = json_object_get(replacement, "insertedContent");
    char *got = apply_region(text, region_of(json_object_get(replacement, "deletedRegion")),
                             string_at(content, "text"));
    assert_string_equal(got, wanted);
    assert_int_equal(content == NULL, *put == '\0');
    g_free(got);
    json_decref(log);

    json_t *report = write_json(bench, export_json, &plain);
    assert_schema(FINDINGS_SCHEMA, report);
    fix = json_object_get(finding_at(report, 0), "fix");
    json_int_t from = json_integer_value(json_object_get(json_object_get(fix, "start"), "offset"));
    json_int_t to = json_integer_value(json_object_get(json_object_get(fix, "end"), "offset"));
    got = g_strdup_printf("%.*s%s%s", (int)from, text, string_at(fix, "text"), text + to);
    assert_string_equal(got, wanted);
    g_free(got);
    json_decref(report);
    bench_free(bench);
}

static void test_fixes_can_be_applied(void **state)
{
    (void)state;
    check_fix("bench pres: 3x8\n", 6, 10, "press", "bench press: 3x8\n");
    check_fix("\xf0\x9f\xa5\x8a \xc3\xa9 2,5 kg\n", 8, 11, "2.5",
              "\xf0\x9f\xa5\x8a \xc3\xa9 2.5 kg\n");
    check_fix("a\r\nb\r\nc\r\n", 3, 6, "", "a\r\nc\r\n");            /* a whole line goes */
    check_fix("a\nb\n", 4, 4, "c\n", "a\nb\nc\n");                   /* at the very end */
    check_fix("a\nb", 0, 0, "\xe8\xb9\xb4\n", "\xe8\xb9\xb4\na\nb"); /* before all */
    check_fix("a\n", 0, 2, "", "");
}

/* --- the other reports --- */

static void test_quality(void **state)
{
    (void)state;
    struct bench *bench = bench_busy();
    struct export_context context = all;
    context.prefix = "gyms/";
    char *out = write_text(bench, export_quality, &context);
    assert_int_equal(out[0], '['); /* no byte order mark */
    json_t *issues = json_loads(out, 0, NULL), *sets = json_array_get(issues, 2);
    assert_int_equal(json_array_size(issues), 4);
    assert_string_equal(string_at(sets, "check_name"), "sets-over");
    assert_string_equal(string_at(sets, "severity"), "minor");
    assert_string_equal(string_at(json_array_get(issues, 3), "severity"), "major");
    assert_string_equal(string_at(json_array_get(issues, 0), "severity"), "info");
    json_t *location = json_object_get(sets, "location"),
           *lines = json_object_get(location, "lines");
    assert_string_equal(string_at(location, "path"), "gyms/weeks/week 1.bell");
    assert_int_equal(json_integer_value(json_object_get(lines, "begin")), 2);
    for (size_t i = 0; i < 4; i++)
        for (size_t j = 0; j < i; j++)
            assert_string_not_equal(string_at(json_array_get(issues, i), "fingerprint"),
                                    string_at(json_array_get(issues, j), "fingerprint"));
    json_decref(issues);
    bench_free(bench);
}

static void test_findings_keep_to_their_schema(void **state)
{
    (void)state;
    struct bench *bench = bench_busy();
    json_t *report = write_json(bench, export_json, &all),
           *counts = json_object_get(report, "counts");
    assert_schema(FINDINGS_SCHEMA, report);
    assert_int_equal(json_integer_value(json_object_get(counts, "errors")), 2);
    assert_int_equal(json_integer_value(json_object_get(counts, "warnings")), 1);
    assert_int_equal(json_integer_value(json_object_get(counts, "infos")), 1);
    json_t *sets = finding_at(report, 2), *notes = json_object_get(sets, "notes");
    assert_int_equal(json_array_size(notes), 3);
    assert_null(json_object_get(json_array_get(notes, 2), "file"));
    assert_true(json_is_true(json_object_get(finding_at(report, 1), "shelf")));
    assert_string_equal(string_at(finding_at(report, 3), "help"), "write `press:`");
    json_decref(report);
    bench_free(bench);
}

/* At one place, the worse comes first, and names and words settle the rest. */
static void test_order_at_one_place(void **state)
{
    (void)state;
    struct bench *bench = bench_new();
    struct span span = {add_file(bench, "a.bell", "abc\n"), 0, 1};
    diag_report(bench->diag, SEVERITY_INFO, DIAG_BEST_OLD, span, "4");
    diag_report(bench->diag, SEVERITY_WARNING, DIAG_BEST_OLD, span, "3");
    diag_report(bench->diag, SEVERITY_ERROR, DIAG_LOAD_RISE, span, "2");
    diag_report(bench->diag, SEVERITY_ERROR, DIAG_KIT_MISSING, span, "1");
    diag_report(bench->diag, SEVERITY_ERROR, DIAG_KIT_MISSING, span, "0");
    json_t *report = write_json(bench, export_json, &all);
    for (size_t i = 0; i < 5; i++)
        assert_int_equal(string_at(finding_at(report, i), "message")[0], '0' + (int)i);
    json_decref(report);
    bench_free(bench);
}

/* The schemas can say no: a report that is spoilt in one place is refused. */
static void test_schemas_refuse(void **state)
{
    (void)state;
    struct bench *bench = bench_busy();
    struct schema_check check = {.root = load(FINDINGS_SCHEMA)};
    json_t *report = write_json(bench, export_json, &all);
    json_t *good = json_deep_copy(finding_at(report, 0));
    json_t *items = json_object_get(report, "findings");
    static const char *const spoilt[] = {"name",  "severity",    "message", "file", "start",
                                         "shelf", "fingerprint", "notes",   "more"};
    for (size_t i = 0; i < sizeof spoilt / sizeof *spoilt; i++) {
        json_object_set_new(json_array_get(items, 0), spoilt[i], json_integer(7));
        assert_false(schema_holds(&check, check.root, report, ""));
        json_array_set_new(items, 0, json_deep_copy(good));
        json_object_del(json_array_get(items, 0), spoilt[i]);
        assert_int_equal(schema_holds(&check, check.root, report, ""), i == 8);
        json_array_set_new(items, 0, json_deep_copy(good));
    }
    json_decref(good);
    json_decref(report);
    json_decref(check.root);
    bench_free(bench);
}

/* --- what only the coach reads --- */

/* A finding of the plan whose note and fix lie in the private file comes without them; one in that file says only that
 * there is something, at the start of a file that others read, or nothing where there is none. */
static void test_private_places_are_left_out(void **state)
{
    (void)state;
    for (int open = 0; open < 2; open++) {
        struct bench *bench = bench_new();
        uint32_t shelf = add_file(bench, "shelf.bell", "exercise squat\n");
        uint32_t private = add_file(bench, "private.bell", "private Wren\n    avoid squat\n");
        uint32_t plan = open ? add_file(bench, "plan.bell", "session Legs\n    squat : 5\n") : shelf;
        bench->sources.items[shelf].shelf = true;
        diag_keep_private(bench->diag, (struct span){private, 0, UINT32_MAX});
        struct finding *inside = diag_error(bench->diag, DIAG_AVOID_BROKEN, find(bench, private, "avoid"), "she avoids it");
        diag_set_neutral(inside, "");
        struct finding *pointing = diag_error(bench->diag, DIAG_SYNTAX, find(bench, plan, "squat"), "not so");
        diag_note(bench->diag, pointing, find(bench, private, "squat"), "as it says here");
        diag_note(bench->diag, pointing, find(bench, shelf, "squat"), "this one");
        diag_remark(bench->diag, pointing, "a remark");
        diag_help(bench->diag, pointing, "change it there");
        diag_fix(bench->diag, pointing, find(bench, private, "squat"), "lunge");
        struct finding *fixed = diag_error(bench->diag, DIAG_SYNTAX, find(bench, plan, "squat"), "nor so");
        diag_help(bench->diag, fixed, "change it there");
        diag_fix(bench->diag, fixed, find(bench, private, "avoid"), "lunge");
        const char *told = write_text(bench, export_sarif, &plain);
        assert_null(strstr(told, "she avoids"));
        assert_null(strstr(told, "private.bell"));
        assert_null(strstr(told, "as it says"));
        assert_null(strstr(told, "lunge"));
        assert_non_null(strstr(told, "this one"));
        assert_non_null(strstr(told, "a remark"));
        assert_int_equal(strstr(told, "something that only the coach can read") != NULL, open);
        const struct export_context own = {.version = "1.2.3", .private = true};
        assert_non_null(strstr(write_text(bench, export_sarif, &own), "she avoids"));
        bench_free(bench);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_private_places_are_left_out),
        cmocka_unit_test(test_columns_count_utf16_units),
        cmocka_unit_test(test_lines_and_ends),
        cmocka_unit_test(test_sarif_says_it_all),
        cmocka_unit_test(test_sarif_rules_are_explained),
        cmocka_unit_test(test_sarif_without_findings),
        cmocka_unit_test(test_uris_are_encoded),
        cmocka_unit_test(test_fingerprints_stay),
        cmocka_unit_test(test_fingerprints_differ),
        cmocka_unit_test(test_fixes_can_be_applied),
        cmocka_unit_test(test_quality),
        cmocka_unit_test(test_findings_keep_to_their_schema),
        cmocka_unit_test(test_order_at_one_place),
        cmocka_unit_test(test_schemas_refuse),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
