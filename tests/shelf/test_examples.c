/* test_examples.c - the examples stand on the shelf: they use a good part of it, and declare no exercise that a coach
 * would look for there. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include <string.h>

#include "cli/project.h"
#include "model/programme.h"

enum { LEAST_USED = 60, MOST_NAMES = 1000 };

static const char *const examples[] = {"examples/first", "examples/one-week", "examples/slipway",
                                       "examples/slipway-year", "examples/over-limit",
                                       "examples/juniors", "examples/pounds", "share/new"};

/* Declared by an example to show how it is done. None is a common exercise; think before you add one. */
static const char *const own[] = {"capstan turn"};

enum { EXAMPLE_COUNT = sizeof examples / sizeof *examples, OWN_COUNT = sizeof own / sizeof *own };

struct used {
    char names[MOST_NAMES][64];
    size_t count;
};

static void note(struct used *used, const char *name)
{
    for (size_t i = 0; i < used->count; i++)
        if (strcmp(used->names[i], name) == 0)
            return;
    assert_true(used->count < MOST_NAMES && strlen(name) < sizeof used->names[0]);
    strcpy(used->names[used->count++], name);
}

static void note_programme(struct used *used, const struct programme *programme)
{
    for (size_t o = 0; o < programme->occasion_count; o++) {
        const struct occasion *occasion = &programme->occasions[o];
        for (size_t b = 0; b < occasion->block_count; b++)
            for (size_t i = 0; i < occasion->blocks[b].item_count; i++)
                if (occasion->blocks[b].items[i].exercise->shelf)
                    note(used, occasion->blocks[b].items[i].exercise->name.folded);
    }
}

static bool is_listed(const char *name)
{
    for (size_t i = 0; i < OWN_COUNT; i++)
        if (strcmp(own[i], name) == 0)
            return true;
    return false;
}

static void check_own(const char *example, const struct programme *programme)
{
    for (size_t i = 0; i < programme->exercise_count; i++) {
        const struct exercise *exercise = programme->exercises[i];
        if (!exercise->shelf && !is_listed(exercise->name.folded))
            fail_msg("%s declares `%s`: if it is a common exercise, its place is the shelf", example,
                     exercise->name.shown);
    }
}

static void test_examples_stand_on_the_shelf(void **state)
{
    static struct used used;
    (void)state;
    for (size_t i = 0; i < EXAMPLE_COUNT; i++) {
        struct options options = {.format = "text", .path_count = 1, .paths = (const char **)&examples[i]};
        struct project project;
        assert_true(project_open(&project, &options, PLAN_WELCOME));
        note_programme(&used, project.programme);
        check_own(examples[i], project.programme);
        project_close(&project);
    }
    print_message("%zu exercises of the shelf are used\n", used.count);
    assert_true(used.count >= LEAST_USED);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_examples_stand_on_the_shelf),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
