/* A session cut to the time available: what counts as its warm-up, and who is cut among whom. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "amend/trimmed.h"
#include "model/programme.h"
#include "plan/plan.h"
#include "rules/rules.h"

static const char PATH[] = "/nowhere/trimmed.bell";

struct trimming_bench {
    struct arena *arena;
    struct overlay overlay;
    const char *paths[1];
    struct project_request request;
    struct project project;
};

/* A session of BLOCKS, for WHO, and more of its week. */
static void open_bench(struct trimming_bench *bench, const char *blocks, const char *who, const char *week)
{
    bench->arena = arena_new();
    bench->paths[0] = PATH;
    const char *text = arena_printf(bench->arena,
                                    "gym Yard\n    stations 1 x heavy bag\n"
                                    "athlete Wren Holloway\n    stance southpaw\n    trains at Yard\n"
                                    "athlete Nils Ferrow\n    stance orthodox\n    trains at Yard\n"
                                    "session Floor\n%s"
                                    "camp Spring\n    for %s\n    starts 2027-03-01\n    week 1\n        monday 17:30 Floor\n%s",
                                    blocks, who, week);
    bench->overlay = (struct overlay){.path = PATH, .text = text, .length = strlen(text)};
    bench->request = (struct project_request){.share = "share", .paths = bench->paths, .path_count = 1,
                                              .overlays = &bench->overlay, .overlay_count = 1, .shelf = SHELF_NAMED};
    assert_true(project_load(&bench->project, bench->arena, &bench->request));
    if (bench->project.programme->incomplete)
        fail_msg("the plan does not compile:\n%s", text);
    rules_run(bench->project.programme, bench->project.diag);
}

/* The first COUNT occasions cut to SECONDS. */
static struct trimmed cut(struct trimming_bench *bench, size_t count, int seconds)
{
    const struct occasion *members[2];
    for (size_t i = 0; i < count; i++)
        members[i] = &bench->project.programme->occasions[i];
    return trim_squad(bench->arena, &bench->request, &bench->project, members, count, seconds);
}

/* --- the warm-up --- */

static void expect_warm_up(const char *blocks, bool is)
{
    struct trimming_bench bench;
    open_bench(&bench, blocks, "Wren Holloway", "");
    struct trimmed trimmed = cut(&bench, 1, 60);
    assert_int_equal(trimmed.room.blocks[0].least, is ? 300 : 0);
    assert_int_equal(trimmed.room.blocks[1].least, 0);
    assert_int_equal(trimmed.squad->room.blocks[0].least, 0);
    arena_free(bench.arena);
}

static void five_minutes_of_the_warm_up_stay(void **state)
{
    (void)state;
    const char *rest = "    straight 3 sets rest 1:00\n        keep 2\n        90-90 hip switch : 5\n";
    static const struct {
        const char *first;
        bool is;
    } cases[] = {
        {"    rounds 6 x 1:00 rest 0:30\n        keep 3\n        shadow boxing : easy\n", true},
        {"    rounds A 6 x 1:00 rest 0:30\n        keep 3\n        shadow boxing : easy\n", false},
        {"    straight A 3 sets rest 1:00\n        keep 3\n        90-90 hip switch : 5\n", true},
        {"    straight A 3 sets rest 1:00\n        keep 3\n        skip in place : 20\n        90-90 hip switch : 5\n", true},
        {"    straight A 3 sets rest 1:00\n        keep 3\n        90-90 hip switch : 5\n        push-up : 5\n", false},
        {"    straight A 3 sets rest 1:00\n        keep 3\n        push-up : 5\n", false},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char blocks[400];
        snprintf(blocks, sizeof blocks, "%s%s", cases[i].first, rest);
        expect_warm_up(blocks, cases[i].is);
    }
}

/* --- one alone --- */

static const char sets[] = "    straight A 3 sets rest 1:00\n        keep 1\n        push-up : 5\n"
                           "    straight B 4 sets rest 1:00\n        keep 3\n        dead bug : 5\n";

static void what_is_in_time_stays_whole(void **state)
{
    (void)state;
    struct trimming_bench bench;
    open_bench(&bench, sets, "Wren Holloway", "");
    int planned = cut(&bench, 1, 36000).planned;
    assert_true(planned > 300);
    static const struct {
        int less;
        const char *lines;
    } cases[] = {{0, ""}, {1, "change B.1 : 3 sets"}};
    for (size_t i = 0; i < 2; i++) {
        struct trimmed trimmed = cut(&bench, 1, planned - cases[i].less);
        assert_string_equal(trimmed.lines, cases[i].lines);
        assert_int_equal(trimmed.planned, planned);
        assert_true(trimmed.trim->fits);
        assert_true(trimmed.finish <= planned - cases[i].less);
        assert_int_equal(trimmed.attempt != NULL, cases[i].less);
        assert_null(trimmed.wrong);
    }
    assert_false(cut(&bench, 1, 30).trim->fits);
    arena_free(bench.arena);
}

/* --- one of a squad --- */

/* Both hit the one bag, and Wren is done last. */
static void one_is_cut_among_the_others(void **state)
{
    (void)state;
    static const char bag[] = "    straight A 4 sets rest 1:00\n        keep 2\n        jab on the bag : 60 s\n";
    struct trimming_bench bench;
    open_bench(&bench, bag, "Wren Holloway, Nils Ferrow", "");
    const struct occasion *wren = &bench.project.programme->occasions[1];
    const struct trimmed whole = trim_one(bench.arena, &bench.request, &bench.project, wren, 36000);
    assert_non_null(whole.beside);
    assert_string_equal(whole.lines, "");
    assert_int_equal(whole.finish, whole.planned);
    assert_true(whole.trim->fits);
    const struct trimmed same = trim_one(bench.arena, &bench.request, &bench.project, wren, whole.planned);
    assert_string_equal(same.lines, "");
    const struct trimmed less = trim_one(bench.arena, &bench.request, &bench.project, wren, whole.planned - 1);
    char lines[100];
    snprintf(lines, sizeof lines, "for %s\n    change A.1 : 3 sets", wren->athlete->name.shown);
    assert_string_equal(less.lines, lines);
    assert_true(less.trim->fits);
    assert_true(less.finish < whole.planned);
    assert_int_equal(less.planned, whole.planned);
    snprintf(lines, sizeof lines, "for %s\n    drop A", wren->athlete->name.shown);
    assert_string_equal(trim_one(bench.arena, &bench.request, &bench.project, wren, 30).lines, lines);
    arena_free(bench.arena);
    /* Whoever trains alone is cut alone, in a line that names nobody. */
    open_bench(&bench, bag, "Wren Holloway", "");
    const struct occasion *alone = &bench.project.programme->occasions[0];
    int planned = trim_one(bench.arena, &bench.request, &bench.project, alone, 36000).planned;
    const struct trimmed own = trim_one(bench.arena, &bench.request, &bench.project, alone, planned - 1);
    assert_null(own.beside);
    assert_string_equal(own.lines, "change A.1 : 3 sets");
    arena_free(bench.arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(five_minutes_of_the_warm_up_stay),
        cmocka_unit_test(what_is_in_time_stays_whole),
        cmocka_unit_test(one_is_cut_among_the_others),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
