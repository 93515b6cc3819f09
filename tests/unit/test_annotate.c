/* The workflow commands, read back as the runner reads them; and what holds for every format:
 * hostile texts stay in their fields, and the same plan gives the same report. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "export_bench.h"

/* Names that a careless writer would let out of their field. */
static const char *const hostile[] = {
    "quote \" and \\ back",
    "100% of %0A and %25",
    "::error file=x::gone",
    "a: b, c; d=e",
    "]]> <b> & ${{ x }}",
    "escape \033[31m bell \007 del \177",
    "[click](javascript:x)",
    "braces { {0} }",
    "Th\xe1\xbb\xa7y \xe8\xb9\xb4\xe3\x82\x8a",
    "cafe\xcc\x81 \xf0\x9f\xa5\x8a",
    "back \342\200\256drow",
    "broken \xff\xc3 utf",
    "##[error]x",
    "line\nbreak\r\nhere",
};
enum { HOSTILE = sizeof hostile / sizeof *hostile };

/* What is left of a hostile text once controls and broken bytes are question marks. */
static const char *const tamed[] = {
    "quote \" and \\ back",
    "100% of %0A and %25",
    "::error file=x::gone",
    "a: b, c; d=e",
    "]]> <b> & ${{ x }}",
    "escape ?[31m bell ? del ?",
    "[click](javascript:x)",
    "braces { {0} }",
    "Th\xe1\xbb\xa7y \xe8\xb9\xb4\xe3\x82\x8a",
    "cafe\xcc\x81 \xf0\x9f\xa5\x8a",
    "back ?drow",
    "broken ?? utf",
    "##[error]x",
    "line\nbreak\r\nhere",
};

/* --- annotations, read as the runner reads them --- */

struct command {
    char *name, *file, *title, *line, *end_line, *column, *end_column, *message;
};

/* Turns back what ActionCommand.cs turns back, in its order: the sign % comes last. */
static char *unescape(const char *text, bool property)
{
    static const char *const pairs[][2] = {
        {"%0D", "\r"}, {"%0A", "\n"}, {"%3A", ":"}, {"%2C", ","}, {"%25", "%"}};
    char *now = g_strdup(text);
    for (size_t i = 0; i < sizeof pairs / sizeof *pairs; i++) {
        if (!property && (i == 2 || i == 3))
            continue;
        char **parts = g_strsplit(now, pairs[i][0], -1);
        g_free(now);
        now = g_strjoinv(pairs[i][1], parts);
        g_strfreev(parts);
    }
    return now;
}

static char **command_field(struct command *command, const char *key)
{
    return strcmp(key, "file") == 0        ? &command->file
           : strcmp(key, "title") == 0     ? &command->title
           : strcmp(key, "line") == 0      ? &command->line
           : strcmp(key, "endLine") == 0   ? &command->end_line
           : strcmp(key, "col") == 0       ? &command->column
           : strcmp(key, "endColumn") == 0 ? &command->end_column
                                           : NULL;
}

static struct command command_read(const char *line)
{
    struct command command = {0};
    assert_memory_equal(line, "::", 2);
    const char *end = strstr(line + 2, "::"), *space = strchr(line, ' ');
    assert_true(end && space && space < end);
    command.name = g_strndup(line + 2, (gsize)(space - line - 2));
    command.message = unescape(end + 2, false);
    char *all_properties = g_strndup(space + 1, (gsize)(end - space - 1));
    char **properties = g_strsplit(all_properties, ",", -1);
    for (char **one = properties; *one; one++) {
        char **pair = g_strsplit(*one, "=", 2);
        assert_int_equal(g_strv_length(pair), 2);
        char **field = command_field(&command, pair[0]);
        assert_true(field && !*field);
        *field = unescape(pair[1], true);
        g_strfreev(pair);
    }
    g_strfreev(properties);
    g_free(all_properties);
    return command;
}

static void command_free(struct command *command)
{
    char *fields[] = {command->name,     command->file,   command->title,      command->line,
                      command->end_line, command->column, command->end_column, command->message};
    for (size_t i = 0; i < sizeof fields / sizeof *fields; i++)
        g_free(fields[i]);
}

static void test_annotations(void **state)
{
    (void)state;
    struct bench *bench = bench_busy();
    struct export_context context = all;
    context.prefix = "gyms/";
    char *out = write_text(bench, export_annotations, &context);
    assert_string_equal(
        out,
        "::error title=unknown-exercise::exercises/squat.bell: on the shelf\n"
        "::error file=gyms/weeks/week 1.bell,line=3,col=5,endColumn=14,title=unknown-exercise::"
        "no exercise is called `bench pres`%0Afix: write `press:`\n"
        "::warning file=gyms/weeks/week 1.bell,line=2,col=12,endColumn=20,title=sets-over::"
        "25 reps at 90 %25, and 10 is the most%0Agyms/kit.bell:2: note: made with these%0A"
        "exercises/squat.bell:1: note: it is declared here%0Anote: the limit is the house's\n"
        "::notice file=gyms/kit.bell,line=2,col=12,endColumn=16,title=best-old::an old figure.\n");
    bench_free(bench);
}

static void test_annotations_of_odd_spans(void **state)
{
    (void)state;
    struct bench *bench = bench_new();
    uint32_t file = add_file(bench, "a.bell", "ab\ncd\n");
    diag_error(bench->diag, DIAG_SYNTAX, (struct span){file, 0, 5}, "two lines");
    diag_error(bench->diag, DIAG_SAID_TWICE, (struct span){file, 4, 4}, "no width");
    assert_string_equal(write_text(bench, export_annotations, &plain),
                        "::error file=a.bell,line=1,endLine=2,title=syntax::two lines\n"
                        "::error file=a.bell,line=2,col=2,endColumn=2,title=said-twice::no width\n");
    bench_free(bench);
}

static void test_notes_are_capped(void **state)
{
    (void)state;
    struct bench *bench = bench_new();
    struct span span = {add_file(bench, "a.bell", "abc\n"), 0, 1};
    struct finding *finding = diag_error(bench->diag, DIAG_SYNTAX, span, "words");
    for (int i = 0; i < 7; i++)
        diag_remark(bench->diag, finding, "%d", i);
    assert_string_equal(write_text(bench, export_annotations, &plain),
                        "::error file=a.bell,line=1,col=1,endColumn=1,title=syntax::words%0Anote: 0"
                        "%0Anote: 1%0Anote: 2%0Anote: 3%0Anote: 4%0Aand 2 more notes\n");
    bench_free(bench);
}

static void report_many(struct bench *bench, uint32_t file, enum severity severity, int count)
{
    for (int i = 0; i < count; i++)
        diag_report(bench->diag, severity, DIAG_SYNTAX, (struct span){file, 0, 1}, "fault %d", i);
}

static size_t count_of(const char *text, const char *part)
{
    size_t count = 0;
    for (const char *p = text; (p = strstr(p, part)); p += strlen(part))
        count++;
    return count;
}

static void test_annotations_are_capped(void **state)
{
    (void)state;
    struct bench *bench = bench_new();
    uint32_t file = add_file(bench, "a.bell", "abc\n");
    report_many(bench, file, SEVERITY_INFO, 12);
    report_many(bench, file, SEVERITY_WARNING, 14);
    report_many(bench, file, SEVERITY_ERROR, 10);
    char *out = write_text(bench, export_annotations, &all);
    assert_int_equal(count_of(out, "::error "), 10);
    assert_int_equal(count_of(out, "::warning "), 10);
    assert_int_equal(count_of(out, "::notice "), 10); /* with the one that tells of the rest */
    assert_true(strstr(out, "::warning ") > strstr(out,
                                                   "::error file=a.bell,line=1,col=1,endColumn=1,"
                                                   "title=syntax::fault 9"));
    assert_non_null(strstr(out, "0 more errors, 4 more warnings and 3 more infos are not shown"));

    bench->diag->count = 0;
    report_many(bench, file, SEVERITY_ERROR, 10);
    assert_int_equal(count_of(write_text(bench, export_annotations, &plain), "\n"), 10);
    bench->diag->count = 0;
    assert_string_equal(write_text(bench, export_annotations, &plain), "");
    bench_free(bench);
}

/* --- hostile texts in every field of every format --- */

static struct bench *bench_hostile(size_t which)
{
    struct bench *bench = bench_new();
    uint32_t file = add_file(bench, hostile[which], "abc\n");
    struct finding *finding =
        diag_error(bench->diag, DIAG_SYNTAX, (struct span){file, 0, 3}, "%s", hostile[which]);
    diag_note(bench->diag, finding, (struct span){file, 1, 2}, "%s", hostile[which]);
    diag_help(bench->diag, finding, "%s", hostile[which]);
    diag_fix(bench->diag, finding, (struct span){file, 0, 1}, hostile[which]);
    return bench;
}

static void test_hostile_texts_in_json(void **state)
{
    (void)state;
    for (size_t i = 0; i < HOSTILE; i++) {
        struct bench *bench = bench_hostile(i);
        json_t *report = write_json(bench, export_json, &plain);
        assert_schema(FINDINGS_SCHEMA, report);
        json_t *finding = finding_at(report, 0);
        json_t *note = json_array_get(json_object_get(finding, "notes"), 0);
        assert_string_equal(string_at(finding, "message"), tamed[i]);
        assert_string_equal(string_at(finding, "help"), tamed[i]);
        assert_string_equal(string_at(json_object_get(finding, "fix"), "text"), tamed[i]);
        assert_string_equal(string_at(note, "message"), tamed[i]);
        json_decref(report);

        json_t *quality = write_json(bench, export_quality, &plain);
        assert_string_equal(string_at(json_array_get(quality, 0), "description"), tamed[i]);
        json_decref(quality);
        bench_free(bench);
    }
}

/* What a reader of SARIF makes of a plain text message. */
static char *sarif_reading(const char *text)
{
    char **parts = g_strsplit(text, "{{", -1), *now = g_strjoinv("{", parts);
    g_strfreev(parts);
    parts = g_strsplit(now, "}}", -1);
    g_free(now);
    now = g_strjoinv("}", parts);
    g_strfreev(parts);
    return now;
}

static void test_hostile_texts_in_sarif(void **state)
{
    (void)state;
    for (size_t i = 0; i < HOSTILE; i++) {
        struct bench *bench = bench_hostile(i);
        json_t *log = write_json(bench, export_sarif, &plain);
        assert_sarif(log);
        json_t *result = json_array_get(results_of(log), 0);
        char *text = sarif_reading(string_at(json_object_get(result, "message"), "text"));
        assert_null(strstr(text, "]("));
        char *wanted = g_strdup_printf("%s.\nFix: %s", tamed[i], tamed[i]);
        if (!strstr(wanted, "]("))
            assert_string_equal(text, wanted);
        json_t *artifact = json_object_get(physical_of(log), "artifactLocation");
        char *name = g_uri_unescape_string(string_at(artifact, "uri"), NULL);
        if (name) /* NULL: not UTF-8, which GLib will not give back */
            assert_string_equal(name, hostile[i]);
        g_free(name);
        g_free(wanted);
        g_free(text);
        json_decref(log);
        bench_free(bench);
    }
}

static void test_hostile_texts_in_annotations(void **state)
{
    (void)state;
    for (size_t i = 0; i < HOSTILE; i++) {
        struct bench *bench = bench_hostile(i);
        char *out = write_text(bench, export_annotations, &plain);
        assert_int_equal(count_of(out, "\n"), 1);
        assert_null(strchr(out, '\r'));
        assert_null(strchr(out, '\033'));
        out[strlen(out) - 1] = '\0';
        struct command command = command_read(out);
        assert_string_equal(command.name, "error");
        assert_string_equal(command.title, "syntax");
        assert_string_equal(command.line, "1");
        assert_string_equal(command.column, "1");
        assert_string_equal(command.end_column, "3");
        assert_null(command.end_line);
        char *start = g_strdup_printf("%s\n", tamed[i]);
        assert_memory_equal(command.message, start, strlen(start));
        if (g_utf8_validate(hostile[i], -1, NULL))
            assert_string_equal(command.file, text_shown(bench->arena, hostile[i]));
        g_free(start);
        command_free(&command);
        bench_free(bench);
    }
}

static void test_infos_only_when_asked(void **state)
{
    (void)state;
    struct bench *bench = bench_busy();
    for (size_t i = 0; i < export_format_count(); i++) {
        export_write *write = export_format_at(i)->write;
        assert_null(strstr(write_text(bench, write, &plain), "best-old"));
        assert_non_null(strstr(write_text(bench, write, &all), "best-old"));
    }
    bench_free(bench);
}

/* The same findings, met in another order and in files that were opened in another order. */
static void test_same_plan_same_report(void **state)
{
    (void)state;
    static const char *const names[] = {"a.bell", "b.bell", "c.bell"};
    for (size_t f = 0; f < export_format_count(); f++) {
        char *first = NULL;
        for (size_t turn = 0; turn < 3; turn++) {
            struct bench *bench = bench_new();
            for (size_t i = 0; i < 3; i++)
                add_file(bench, names[(i + turn) % 3], "one two\n");
            for (size_t i = 0; i < 6; i++) {
                uint32_t file = (uint32_t)((i + turn * 2) % 3);
                report_many(bench, file, i < 3 ? SEVERITY_ERROR : SEVERITY_WARNING, 2);
            }
            diag_sort(bench->diag);
            char *out = g_strdup(write_text(bench, export_format_at(f)->write, &all));
            if (first)
                assert_string_equal(out, first);
            g_free(turn ? out : NULL);
            first = turn ? first : out;
            bench_free(bench);
        }
        g_free(first);
    }
}

/* --- the table, and the files that name its rows --- */

static size_t formats_named_in(const char *path)
{
    char *text = NULL;
    size_t named = 0;
    if (!g_file_get_contents(path, &text, NULL, NULL))
        fail_msg("%s cannot be read", path);
    for (const char *p = text; (p = strstr(p, "--format ")); named++) {
        p += strlen("--format ");
        char *name = g_strndup(p, strcspn(p, " `\n"));
        if (strcmp(name, "NAME") != 0 && !export_format_find(name))
            fail_msg("%s names the format \"%s\"", path, name);
        g_free(name);
    }
    g_free(text);
    return named;
}

static void test_formats(void **state)
{
    (void)state;
    for (size_t i = 0; i < export_format_count(); i++)
        assert_ptr_equal(export_format_find(export_format_at(i)->name), export_format_at(i));
    assert_null(export_format_find("text"));
    assert_null(export_format_find(""));
    assert_true(formats_named_in("share/ci/github.yml") > 0);
    assert_true(formats_named_in("share/ci/gitlab.yml") > 0);
    assert_true(formats_named_in("share/ci/check.mk") > 0);
    assert_true(formats_named_in("share/doc/ci.md") > 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_annotations),
        cmocka_unit_test(test_annotations_of_odd_spans),
        cmocka_unit_test(test_notes_are_capped),
        cmocka_unit_test(test_annotations_are_capped),
        cmocka_unit_test(test_hostile_texts_in_json),
        cmocka_unit_test(test_hostile_texts_in_sarif),
        cmocka_unit_test(test_hostile_texts_in_annotations),
        cmocka_unit_test(test_infos_only_when_asked),
        cmocka_unit_test(test_same_plan_same_report),
        cmocka_unit_test(test_formats),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
