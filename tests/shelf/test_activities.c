/* test_activities.c - the activities, bouts and limits of the shelf: what a coach looks for is there under its name and
 * counts as it should; whatever is a figure says where it comes from. The clocks are those of the rules that the entries
 * name. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include <string.h>

#include "cli/project.h"
#include "model/programme.h"

static struct project project;

static int open_shelf(void **state)
{
    static const char *const paths[] = {"share"};
    (void)state;
    struct options options = {.format = "text", .path_count = 1, .paths = (const char **)paths};
    return project_open(&project, &options, PLAN_WELCOME) ? 0 : -1;
}

static int close_shelf(void **state)
{
    (void)state;
    project_close(&project);
    return 0;
}

static const struct activity *find(const char *name)
{
    for (size_t i = 0; i < project.programme->activity_count; i++)
        if (strcmp(project.programme->activities[i]->name.folded, name) == 0)
            return project.programme->activities[i];
    fail_msg("the shelf has no activity `%s`", name);
    return NULL;
}

struct expected {
    const char *name; /* folded */
    bool head, contact, sparring, bag, rounds;
};

static const struct expected expected[] = {
    {"pads", false, false, false, false, false},
    {"bag rounds", false, false, false, true, true},
    {"technique", false, false, false, false, false},
    {"light sparring", true, true, true, false, true},
    {"sparring", true, true, true, false, true},
    {"body sparring", false, true, true, false, true},
    {"clinch", false, true, false, false, false},
    {"roadwork", false, false, false, false, false},
    {"swimming", false, false, false, false, false},
    {"weigh-in", false, false, false, false, false},
    {"travel", false, false, false, false, false},
    {"exam", false, false, false, false, false},
    {"work", false, false, false, false, false},
};

static void test_activities_count_as_they_should(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof expected / sizeof *expected; i++) {
        const struct expected *wanted = &expected[i];
        const struct activity *activity = find(wanted->name);
        if (activity->head != wanted->head || activity->contact != wanted->contact ||
            activity->sparring != wanted->sparring || activity->bag != wanted->bag ||
            activity->counts_rounds != wanted->rounds)
            fail_msg("`%s` counts otherwise", wanted->name);
    }
}

struct clock {
    const char *name; /* folded */
    int rounds, work, rest;
    const char *source; /* a part of it */
};

static const struct clock clocks[] = {
    {"bout professional boxing", 12, 180, 60, "1370.540 b"},
    {"bout professional boxing women", 10, 120, 60, "1370.540 c"},
    {"bout amateur boxing", 3, 180, 60, "Ontario, Boxing"},
    {"bout amateur boxing novice", 3, 120, 60, "Ontario, Boxing"},
    {"bout kickboxing", 3, 180, 60, "World Kickboxing Organisation"},
    {"bout kickboxing title", 5, 180, 60, "World Kickboxing Organisation"},
    {"bout amateur kickboxing", 3, 120, 60, "from memory"},
    {"bout mma", 3, 300, 60, "36-14-200"},
    {"bout mma title", 5, 300, 60, "36-14-200"},
    {"bout amateur mma", 3, 180, 60, "36-14-200"},
    {"bout muay thai", 5, 180, 120, "World Muay Thai Council"},
    {"bout amateur muay thai", 3, 180, 60, "Ontario, Muay Thai"},
    {"bout amateur muay thai novice", 3, 120, 60, "Ontario, Muay Thai"},
    /* the young */
    {"bout amateur boxing 15-16", 3, 120, 60, "Prisaa"},
    {"bout amateur boxing 13-14", 3, 90, 60, "from memory"},
    {"bout kickboxing juniors", 3, 120, 60, "Yokoso"},
    {"bout kickboxing cadets", 2, 90, 60, "Yokoso"},
    {"bout muay thai 16-17", 3, 120, 60, "from memory"},
    {"bout muay thai under 15", 3, 120, 120, "28.1"},
};

static void test_bouts_have_their_clock_and_its_source(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof clocks / sizeof *clocks; i++) {
        const struct clock *wanted = &clocks[i];
        const struct activity *bout = find(wanted->name);
        assert_int_equal(bout->clock_rounds, wanted->rounds);
        assert_int_equal(bout->clock_work, wanted->work);
        assert_int_equal(bout->clock_rest, wanted->rest);
        assert_non_null(bout->source);
        assert_non_null(strstr(bout->source, wanted->source));
        assert_true(bout->head);
    }
    size_t count = 0;
    for (size_t i = 0; i < project.programme->activity_count; i++)
        count += project.programme->activities[i]->clock_rounds > 0;
    assert_int_equal(count, sizeof clocks / sizeof *clocks);
}

static bool is_sourced(const struct node *node)
{
    const struct node *source = node_find(node, STATEMENT_SOURCE);
    return (source && source->first && *source->first->text) || node_find(node, STATEMENT_COMMON_PRACTICE);
}

static void check_limits(const struct node *limits)
{
    for (const struct node *scope = limits->first; scope; scope = scope->next)
        for (const struct node *limit = scope->first; limit; limit = limit->next)
            if (limit->kind == STATEMENT_LIMIT && !is_sourced(limit))
                fail_msg("limits %s: `%s` says no source", limits->first->text, limit->first->text);
}

static void test_every_figure_says_where_it_is_from(void **state)
{
    (void)state;
    size_t activities = 0, limits = 0;
    for (size_t t = 0; t < project.tree_count; t++) {
        for (const struct node *node = project.trees[t]->root->first; node; node = node->next) {
            if (node->kind == STATEMENT_ACTIVITY) {
                activities++;
                if (!is_sourced(node))
                    fail_msg("activity %s says no source", node->first->text);
            } else if (node->kind == STATEMENT_LIMITS) {
                limits++;
                check_limits(node);
            }
        }
    }
    assert_true(activities >= sizeof expected / sizeof *expected + sizeof clocks / sizeof *clocks);
    assert_true(limits >= 3);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_activities_count_as_they_should),
        cmocka_unit_test(test_bouts_have_their_clock_and_its_source),
        cmocka_unit_test(test_every_figure_says_where_it_is_from),
    };
    return cmocka_run_group_tests(tests, open_shelf, close_shelf);
}
