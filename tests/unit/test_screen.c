/* Findings as the coach's own screen shows them: what must be mended first, five warnings of a week, floors as a table, and
 * the largest of what adds up. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include <glib.h>

#include "source/screen.h"

struct bench {
    struct arena *arena;
    struct sources sources;
    struct diag *diag;
    struct text shown;
};

static struct bench *bench_new(void)
{
    struct arena *arena = arena_new();
    struct bench *bench = arena_alloc(arena, sizeof *bench);
    bench->arena = bench->sources.arena = arena;
    source_add(&bench->sources, "plan.bell", "one\ntwo\nthree\nfour\n", 19);
    bench->diag = diag_new(arena, &bench->sources);
    return bench;
}

static void bench_free(struct bench *bench)
{
    text_free(&bench->shown);
    arena_free(bench->arena);
}

static const struct whose week_of_ada = {.person = "a", .first = 1, .last = 7, .week = true, .who = "Ada",
                                         .when = "week 1", .span = {0, 4, 7}};
static const struct whose week_of_bea = {.person = "b", .first = 1, .last = 7, .week = true, .who = "Bea",
                                         .when = "week 1", .span = {0, 4, 7}};
static const struct table_row row = {"2 chest sets", "at least 4", "common practice"};

static struct finding *add(struct bench *bench, enum severity severity, const struct whose *of, const char *words)
{
    struct finding *finding = diag_add(bench->diag, severity, DIAG_SETS_UNDER, (struct span){0, 0, 3}, words);
    finding->of = of;
    return finding;
}

static const char *show(struct bench *bench, bool notes)
{
    diag_sort(bench->diag);
    text_free(&bench->shown);
    bench->shown = (struct text){0};
    diag_print(bench->diag, &(struct diag_style){.notes = notes}, &bench->shown);
    return text_get(&bench->shown);
}

static size_t times(const char *text, const char *part)
{
    size_t count = 0;
    for (; (text = strstr(text, part)) != NULL; text += strlen(part))
        count++;
    return count;
}

static void errors_come_first(void **state)
{
    (void)state;
    struct bench *bench = bench_new();
    add(bench, SEVERITY_WARNING, NULL, "a warning of the first line");
    diag_error(bench->diag, DIAG_SETS_UNDER, (struct span){0, 14, 18}, "an error of the last line");
    const char *shown = show(bench, false);
    assert_non_null(strstr(shown, "an error"));
    assert_true(strstr(shown, "an error") < strstr(shown, "a warning"));
    bench_free(bench);
}

/* Of each athlete's week five, however many there are of others; errors are not counted. */
static void a_week_shows_five(void **state)
{
    (void)state;
    static const char *const words[] = {"w1", "w2", "w3", "w4", "w5", "w6", "w7"};
    struct bench *bench = bench_new();
    for (size_t i = 0; i < 5; i++)
        add(bench, SEVERITY_WARNING, &week_of_ada, words[i]);
    add(bench, SEVERITY_WARNING, &week_of_bea, "b1");
    add(bench, SEVERITY_ERROR, &week_of_ada, "an error");
    assert_null(strstr(show(bench, false), "more-warnings"));
    add(bench, SEVERITY_WARNING, &week_of_ada, words[5]);
    assert_non_null(strstr(show(bench, false), "plan.bell:2:1: warning: Ada: 1 more warning in week 1 [more-warnings]"));
    assert_null(strstr(text_get(&bench->shown), words[5]));
    add(bench, SEVERITY_WARNING, &week_of_ada, words[6]);
    assert_non_null(strstr(show(bench, false), "Ada: 2 more warnings in week 1"));
    const char *all = show(bench, true);
    assert_null(strstr(all, "more-warnings"));
    assert_non_null(strstr(all, words[5]));
    assert_non_null(strstr(all, words[6]));
    assert_int_equal(diag_count(bench->diag, SEVERITY_WARNING), 8);
    bench_free(bench);
}

/* Floors of one week are one of the five; one alone is shown as it is. */
static void floors_are_a_table(void **state)
{
    (void)state;
    struct bench *bench = bench_new();
    add(bench, SEVERITY_WARNING, &week_of_ada, "f1")->row = &row;
    assert_non_null(strstr(show(bench, false), "f1"));
    for (size_t i = 0; i < 6; i++)
        add(bench, SEVERITY_WARNING, &week_of_ada, arena_printf(bench->arena, "g%zu", i))->row = &row;
    add(bench, SEVERITY_WARNING, &week_of_bea, "b1")->row = &row;
    const char *shown = show(bench, false);
    assert_non_null(strstr(shown, "plan.bell:2:1: warning: Ada: 7 floors are not met in week 1 [floors-missed]"));
    assert_int_equal(times(shown, "      | 2 chest sets  at least 4  common practice  [sets-under]\n"), 7);
    assert_null(strstr(shown, "f1"));
    assert_non_null(strstr(shown, "b1"));
    assert_null(strstr(shown, "more-warnings"));
    const char *all = show(bench, true);
    assert_null(strstr(all, "floors-missed"));
    assert_int_equal(times(all, "warning: g"), 6);
    bench_free(bench);
}

static void the_three_largest_are_noted(void **state)
{
    (void)state;
    struct bench *bench = bench_new();
    struct finding *finding = add(bench, SEVERITY_WARNING, NULL, "too much");
    for (int i = 0; i < 5; i++)
        diag_summand(bench->diag, finding, (struct span){0, 0, 3}, "%d from somewhere", 9 - i);
    diag_remark(bench->diag, finding, "a remark");
    const char *shown = show(bench, false);
    assert_int_equal(times(shown, "from somewhere"), 3);
    assert_non_null(strstr(shown, "7 from somewhere"));
    assert_non_null(strstr(shown, "note: and 2 more lines; `check --notes` shows all\n      note: a remark"));
    assert_int_equal(times(show(bench, true), "from somewhere"), 5);
    assert_null(strstr(text_get(&bench->shown), "more lines"));
    bench_free(bench);
}

/* A line of COUNT letters of two bytes, with a tab after the first, and a finding about the six bytes from START. */
static const char *shown_of_letters(struct bench *bench, size_t count, size_t start)
{
    struct text line = {.arena = bench->arena};
    for (size_t i = 0; i < count; i++)
        text_add(&line, i == 1 ? "\t" : "\303\251");
    text_add(&line, "\n");
    unsigned file = (unsigned)source_add(&bench->sources, "long.bell", text_get(&line), line.length);
    diag_error(bench->diag, DIAG_SETS_UNDER, (struct span){file, (uint32_t)start, (uint32_t)start + 6}, "too long");
    const char *shown = show(bench, false);
    assert_true(g_utf8_validate(shown, -1, NULL));
    return shown;
}

/* Of a line longer than any screen the part around the place is shown, cut between letters, with the marks below it. */
static void a_long_line_is_shown_around_its_place(void **state)
{
    (void)state;
    struct bench *bench = bench_new();
    const char *short_line = shown_of_letters(bench, 100, 5);
    assert_null(strstr(short_line, "..."));
    assert_non_null(strstr(short_line, "\n      |  \t ^^^\n"));
    bench_free(bench);
    bench = bench_new();
    const char *begin = shown_of_letters(bench, 400, 5);
    assert_null(strstr(begin, "| ..."));
    assert_non_null(strstr(begin, "\303\251...\n      |  \t ^^^\n"));
    bench_free(bench);
    bench = bench_new();
    for (size_t start = 401; start <= 402; start++) { /* in the middle of a letter, too */
        const char *middle = shown_of_letters(bench, 400, start);
        const char *cut = strstr(middle, "    1 | ...\303\251");
        assert_non_null(cut);
        assert_non_null(strstr(cut, "\303\251...\n      |    "));
    }
    bench_free(bench);
    bench = bench_new();
    const char *end = shown_of_letters(bench, 400, 791);
    assert_non_null(strstr(end, "    1 | ...\303\251"));
    assert_null(strstr(end, "\303\251...\n"));
    bench_free(bench);
}

static void no_more_than_so_many_are_shown(void **state)
{
    (void)state;
    struct bench *bench = bench_new();
    for (int i = 0; i < 5; i++)
        add(bench, SEVERITY_ERROR, NULL, arena_printf(bench->arena, "e%d", i));
    diag_sort(bench->diag);
    static const struct {
        size_t most;
        const char *more;
    } cases[] = {{0, NULL}, {5, NULL}, {9, NULL}, {4, "and 1 more\n"}, {1, "and 4 more\n"}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        struct text out = {.arena = bench->arena};
        diag_print(bench->diag, &(struct diag_style){.most = cases[i].most}, &out);
        assert_int_equal(times(text_get(&out), "error: e"), cases[i].more ? cases[i].most : 5);
        assert_true(cases[i].more ? g_str_has_suffix(text_get(&out), cases[i].more) : !strstr(text_get(&out), " more\n"));
    }
    bench_free(bench);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(errors_come_first),
        cmocka_unit_test(a_week_shows_five),
        cmocka_unit_test(floors_are_a_table),
        cmocka_unit_test(the_three_largest_are_noted),
        cmocka_unit_test(a_long_line_is_shown_around_its_place),
        cmocka_unit_test(no_more_than_so_many_are_shown),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
