/* A plan that reads of the shelf what it names means the same as one that reads all of it: for every entry named alone, for
 * the examples, for names that are mistyped or look like others, and for a shelf that somebody has edited. So does one that
 * takes what another has read of it. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include <glib.h>
#include <glib/gstdio.h>
#include <string.h>

#include "cases.h"
#include "export/export.h"
#include "export/show_programme.h"
#include "model/programme.h"
#include "plan/kept.h"
#include "plan/plan.h"
#include "plan/plan_files.h"
#include "plan/shelf_index.h"
#include "rules/rules.h"

#define COUNT(list) (sizeof(list) / sizeof *(list))

/* What is asked of a plan, and what came of it. */
struct answer {
    struct project project;
    char *words; /* the programme and the findings, as JSON; or what failed */
};

static void add_programme(const struct project *project, struct arena *arena, struct text *out)
{
    const struct programme *programme = project->programme;
    const struct occasion **occasions = arena_alloc(arena, (programme->occasion_count + 1) * sizeof *occasions);
    for (size_t i = 0; i < programme->occasion_count; i++)
        occasions[i] = &programme->occasions[i];
    const struct programme_view view = {.programme = programme, .arena = arena, .occasions = occasions,
                                        .count = programme->occasion_count, .version = "0", .lines = true,
                                        .ledgers = true, .private = true};
    programme_json(&view, out);
    if (!programme->incomplete)
        rules_run(programme, project->diag);
    diag_sort(project->diag);
    const struct export_context context = {.version = "0", .infos = true, .private = true};
    export_format_find("json")->write(project->diag, &context, out);
}

static struct answer ask_with(const char *share, const char *path, const char *text, enum shelf_wish wish, struct kept *kept,
                              const struct shelf_read *again)
{
    struct answer answer = {0};
    struct arena *arena = arena_new();
    const struct overlay overlay = {.path = plan_true_path(arena, path), .text = text, .length = text ? strlen(text) : 0};
    const struct project_request request = {.share = share, .paths = &path, .path_count = 1, .overlays = &overlay,
                                            .overlay_count = text ? 1 : 0, .shelf = wish, .again = *again, .kept = kept};
    struct text out = {0};
    if (project_load(&answer.project, arena, &request))
        add_programme(&answer.project, arena, &out);
    else
        text_addf(&out, "%s: %s", answer.project.failure.path, answer.project.failure.why);
    answer.words = g_strdup(text_get(&out));
    text_free(&out);
    return answer;
}

static struct answer ask(const char *share, const char *path, const char *text, enum shelf_wish wish, struct kept *kept)
{
    return ask_with(share, path, text, wish, kept, &(struct shelf_read){0});
}

static void forget(struct answer *answer)
{
    arena_free(answer->project.arena);
    g_free(answer->words);
}

/* The same words as WANTED, with what OTHER has read of the shelf. */
static void ask_again(const char *share, const char *path, const char *text, enum shelf_wish wish, const struct answer *wanted,
                      const struct answer *other)
{
    struct answer again = ask_with(share, path, text, wish, NULL, &other->project.shelf);
    assert_string_equal(again.words, wanted->words);
    forget(&again);
}

/* Asks both ways, each also with what was read before, and compares. Returns how many exercises were read, 0 where there was
 * an error. */
static size_t compare(const char *share, const char *path, const char *text, struct kept *kept)
{
    struct answer whole = ask(share, path, text, SHELF_WHOLE, kept), named = ask(share, path, text, SHELF_NAMED, NULL);
    assert_string_equal(named.words, whole.words);
    bool failed = !whole.project.programme || diag_count(whole.project.diag, SEVERITY_ERROR);
    size_t count = failed ? 0 : named.project.programme->exercise_count;
    if (whole.project.programme)
        assert_true(whole.project.programme->exercise_count >= count);
    ask_again(share, path, text, SHELF_NAMED, &named, &named);
    if (!kept) {
        ask_again(share, path, text, SHELF_NAMED, &named, &whole);
        ask_again(share, path, text, SHELF_WHOLE, &whole, &whole);
        ask_again(share, path, text, SHELF_WHOLE, &whole, &named);
    }
    forget(&whole);
    forget(&named);
    return count;
}

static char *plan_of(const char *placed, const char *item)
{
    return g_strdup_printf("athlete Wren\ncamp One\n    for Wren\n    starts 2027-03-01\n    week 1\n"
                           "        monday 17:30 %s\nsession S\n    straight A 2 sets rest 1:00\n        %s\n",
                           placed, item);
}

/* --- every entry --- */

/* NAME in a plan of its own, with the first dose that it takes. */
static size_t compare_exercise(const char *name, struct kept *kept)
{
    static const char *const doses[] = {"5", "5 each side", "20 s", "20 s each side", "20 m", "2:00", "20 m each side",
                                        "5 each way", "5 each stance"};
    size_t count = 0;
    for (size_t i = 0; i < COUNT(doses) && !count; i++) {
        char *item = g_strdup_printf("%s : %s", name, doses[i]), *plan = plan_of("S", item);
        count = compare("share", "named.bell", plan, kept);
        g_free(plan);
        g_free(item);
    }
    return count;
}

static void every_exercise_alone(void **state)
{
    (void)state;
    enum { FEW = 60 /* of 500 */, EXERCISE_STEP = 12 };
    struct memory memory = {0};
    struct kept kept;
    kept_open(&kept, &memory);
    char *plan = plan_of("roadwork 30 min", "push-up : 5");
    struct answer all = ask("share", "named.bell", plan, SHELF_WHOLE, NULL);
    g_free(plan);
    const struct programme *programme = all.project.programme;
    size_t read = 0, tried = 0;
    assert_true(programme->exercise_count > 400);
    struct spread spread = spread_of(EXERCISE_STEP);
    for (size_t i = spread.first; i < programme->exercise_count; i += spread.step, tried++) {
        const struct exercise *exercise = programme->exercises[i];
        size_t alias = exercise->alias_count ? i % (exercise->alias_count + 1) : 0;
        const char *name = alias ? exercise->aliases[alias - 1].shown : exercise->name.shown;
        size_t count = compare_exercise(name, &kept);
        assert_true(count < FEW);
        read += count > 0;
    }
    /* Some take a dose with a load, which is an error here: then all is read. */
    assert_true(tried && read * 10 >= tried * 9);
    forget(&all);
    memory_free(&memory, NULL);
}

static void every_activity_alone(void **state)
{
    (void)state;
    struct answer all = ask("share", "examples/first", NULL, SHELF_WHOLE, NULL);
    const struct programme *programme = all.project.programme;
    size_t read = 0;
    for (size_t i = 0; i < programme->activity_count; i++) {
        static const char *const lengths[] = {" : 30 min", "", " : 3 rounds"};
        bool taken = false;
        for (size_t k = 0; k < COUNT(lengths) && !taken; k++) {
            char *placed = g_strdup_printf("%s%s", programme->activities[i]->name.shown, lengths[k]);
            char *plan = plan_of(placed, "push-up : 5");
            taken = compare("share", "named.bell", plan, NULL) > 0;
            g_free(plan);
            g_free(placed);
        }
        read += taken;
    }
    assert_true(read * 10 >= programme->activity_count * 9);
    forget(&all);
}

static void examples(void **state)
{
    (void)state;
    static const char *const plans[] = {"examples/first", "examples/juniors", "examples/one-week",
                                        "examples/over-limit", "examples/pounds", "examples/slipway"};
    for (size_t i = 0; i < COUNT(plans); i++)
        compare("share", plans[i], NULL, NULL);
}

/* Only where the plan names the same is the shelf taken as it was read, to the very trees. */
static void what_was_read_before(void **state)
{
    (void)state;
    char *plans[] = {plan_of("S", "push-up : 5"), plan_of("S", "chin-up : 5"), plan_of("S", "psuh-up : 5")};
    for (size_t i = 0; i < COUNT(plans); i++)
        for (size_t k = 0; k < COUNT(plans); k++) {
            struct answer one = ask("share", "named.bell", plans[i], SHELF_NAMED, NULL),
                          wanted = ask("share", "named.bell", plans[k], SHELF_NAMED, NULL),
                          other = ask_with("share", "named.bell", plans[k], SHELF_NAMED, NULL, &one.project.shelf);
            assert_true(one.project.shelf.file_count > 0);
            assert_string_equal(other.words, wanted.words);
            assert_int_equal(other.project.trees[0] == one.project.trees[0], i == k);
            forget(&other);
            forget(&wanted);
            forget(&one);
        }
    for (size_t i = 0; i < COUNT(plans); i++)
        g_free(plans[i]);
}

/* --- what needs more than the names --- */

static void names_of_the_clubs_own(void **state)
{
    (void)state;
    static const char own[] = "exercise %s\n    kind strength\n    pattern push\n    side both\n    loads chest 1\n"
                              "gym Yard\n    stations heavy bags, rack, squat racks, boat\n    bands light\n";
    static const char *const names[] = {
        "yard press",              /* as the shelf has none */
        "push-up",                 /* its very name */
        "press-up",                /* or another of its names */
        "p\xd1\x83sh-up",          /* looks nearly like it */
        "9O-9O hip switch",        /* a letter for a figure */
        "push-up\n    replaces push-up"};
    for (size_t i = 0; i < COUNT(names); i++) {
        char *declared = g_strdup_printf(own, names[i]), *plan = plan_of("S", "push-up : 5");
        char *both = g_strconcat(plan, declared, NULL);
        compare("share", "named.bell", both, NULL);
        g_free(both);
        g_free(plan);
        g_free(declared);
    }
}

static void names_that_are_wrong(void **state)
{
    (void)state;
    static const char *const items[] = {"psuh-up : 5", "push-up 5", "push-up : 5 @ 20 of nothing", "squat : 5",
                                        "push-up : 5\n    no such line"};
    for (size_t i = 0; i < COUNT(items); i++) {
        char *plan = plan_of(i % 2 ? "S" : "raodwork : 30 min", items[i]);
        assert_int_equal(compare("share", "named.bell", plan, NULL), 0);
        g_free(plan);
    }
    char *plan = plan_of("S", "psuh-up : 5");
    struct answer named = ask("share", "named.bell", plan, SHELF_NAMED, NULL);
    assert_non_null(strstr(named.words, "did you mean `push-up`?"));
    forget(&named);
    g_free(plan);
}

static void what_somebody_must_not_do(void **state)
{
    (void)state;
    static const char *const lines[] = {"    avoid shoulder\n        since 2027-02-20\n", "    avoid overhead\n",
                                        "    head knock 2027-02-27\n", "private Wren\n    avoid knee\n"};
    for (size_t i = 0; i < COUNT(lines); i++) {
        char *plan = plan_of("S", "push-up : 5"), *rest = strchr(plan, '\n') + 1;
        char *barred = g_strconcat("athlete Wren\n", lines[i], rest, NULL);
        compare("share", "named.bell", barred, NULL);
        g_free(barred);
        g_free(plan);
    }
}

/* --- an edited shelf --- */

static void copy_shelf(const char *to)
{
    for (size_t i = 0; i < SHELF_FOLDERS; i++) {
        char *from = g_build_filename("share", shelf_folders[i], NULL), *made = g_build_filename(to, shelf_folders[i], NULL);
        assert_int_equal(g_mkdir(made, 0700), 0);
        GDir *folder = g_dir_open(from, 0, NULL);
        assert_non_null(folder);
        for (const char *name; (name = g_dir_read_name(folder));) {
            char *one = g_build_filename(from, name, NULL), *other = g_build_filename(made, name, NULL), *text;
            gsize length;
            assert_true(g_file_get_contents(one, &text, &length, NULL));
            assert_true(g_file_set_contents(other, text, (gssize)length, NULL));
            g_free(text);
            g_free(other);
            g_free(one);
        }
        g_dir_close(folder);
        g_free(made);
        g_free(from);
    }
}

static void remove_all(const char *path)
{
    GDir *folder = g_dir_open(path, 0, NULL);
    for (const char *name; folder && (name = g_dir_read_name(folder));) {
        char *inner = g_build_filename(path, name, NULL);
        remove_all(inner);
        g_free(inner);
    }
    if (folder)
        g_dir_close(folder);
    g_remove(path);
}

/* The shelf in SHARE with TEXT in place of the first FROM bytes on of its push-ups; all exercises are read then. */
static void compare_edited(const char *share, const char *whole, size_t from, const char *text)
{
    char *path = g_build_filename(share, "exercises", "push.bell", NULL), *plan = plan_of("S", "push-up : 5");
    char *start = g_strndup(whole, from), *edited = g_strconcat(start, text, NULL);
    assert_true(g_file_set_contents(path, edited, -1, NULL));
    compare(share, "named.bell", plan, NULL);
    struct answer named = ask(share, "named.bell", plan, SHELF_NAMED, NULL);
    assert_true(named.project.programme->exercise_count > 400);
    forget(&named);
    g_free(edited);
    g_free(start);
    g_free(plan);
    g_free(path);
}

static void an_edited_shelf_is_read_whole(void **state)
{
    (void)state;
    char *share = g_dir_make_tmp("bellsheet-shelf-XXXXXX", NULL), *whole;
    gsize length;
    copy_shelf(share);
    char *plan = plan_of("S", "push-up : 5");
    assert_in_range(compare(share, "named.bell", plan, NULL), 1, 60);
    assert_true(g_file_get_contents("share/exercises/push.bell", &whole, &length, NULL));
    for (size_t cut = 1; cut < 8; cut++)
        compare_edited(share, whole, length * cut / 8, "");
    compare_edited(share, whole, length, "\nexercise yard press\n    kind nothing\n");
    compare_edited(share, whole, length, "\xff");
    compare_edited(share, whole, length, "\n");
    char *last = g_build_filename(share, "exercises", "push.bell", NULL);
    assert_int_equal(g_remove(last), 0);
    assert_int_equal(compare(share, "named.bell", plan, NULL), 0);
    remove_all(share);
    g_free(last);
    g_free(plan);
    g_free(whole);
    g_free(share);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_exercise_alone),     cmocka_unit_test(every_activity_alone),
        cmocka_unit_test(examples),                 cmocka_unit_test(names_of_the_clubs_own),
        cmocka_unit_test(names_that_are_wrong),     cmocka_unit_test(what_somebody_must_not_do),
        cmocka_unit_test(what_was_read_before),     cmocka_unit_test(an_edited_shelf_is_read_whole),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
