/* What may be changed in a week to bring it within its limits: which moves, hours, orders, exchanges and cuts there are, in
 * which order, and what each writes below its line. The lists were worked out by hand from the plan. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "amend/changes.h"
#include "base/text.h"
#include "figures/dates.h"
#include "model/programme.h"
#include "plan/plan.h"

static const char PATH[] = "/nowhere/changes.bell";

static const char head[] = "gym Slipway\n"
                           "    dumbbells  pairs 4-30 kg by 2\n"
                           "    stations   pull-up bar\n"
                           "athlete Oriel Tamsin\n"
                           "    stance         orthodox\n"
                           "    lifting since  2020-01\n"
                           "    trains at      Slipway\n"
                           "athlete Nils Ferrow\n"
                           "    stance         southpaw\n"
                           "    lifting since  2020-01\n"
                           "    trains at      Slipway\n";

struct listed {
    struct arena *arena;
    struct project project;
    struct overlay overlay;
    const char *paths[1];
    struct changes changes;
};

static void list(struct listed *listed, const char *more, int week, int today)
{
    listed->arena = arena_new();
    listed->paths[0] = PATH;
    const char *text = arena_printf(listed->arena, "%s%s", head, more);
    listed->overlay = (struct overlay){.path = PATH, .text = text, .length = strlen(text)};
    const struct project_request request = {.share = "share", .paths = listed->paths, .path_count = 1,
                                            .overlays = &listed->overlay, .overlay_count = 1, .shelf = SHELF_NAMED};
    assert_true(project_load(&listed->project, listed->arena, &request));
    if (listed->project.programme->incomplete)
        fail_msg("the plan does not compile:\n%s", text);
    listed->changes = changes_of(listed->arena, &listed->project, week, today);
}

/* Each change on a line of its own; of those that write lines, these in brackets. */
static void expect_changes(const char *more, int week, int today, const char *expected)
{
    struct listed listed;
    list(&listed, more, week, today);
    struct text out = {.arena = listed.arena};
    for (size_t i = 0; i < listed.changes.count; i++) {
        const struct change *change = &listed.changes.items[i];
        text_add(&out, change->words);
        for (const char *at = change->lines; at && *at; at++)
            text_addf(&out, "%s%c%s", at == change->lines ? " [" : "", *at == '\n' ? '|' : *at, at[1] ? "" : "]");
        text_add(&out, "\n");
    }
    assert_string_equal(text_get(&out), expected);
    arena_free(listed.arena);
}

/* The plan of a camp of CAMP's lines for those in WHO. */
static const char *camp_of(struct arena *arena, const char *sessions, const char *who, const char *camp)
{
    return arena_printf(arena, "%scamp Spring\n    for %s\n    starts 2027-03-02\n%s", sessions, who, camp);
}

static void expect_of(const char *sessions, const char *camp, const char *expected)
{
    struct arena *arena = arena_new();
    expect_changes(camp_of(arena, sessions, "Oriel Tamsin", camp), 1, 0, expected);
    arena_free(arena);
}

/* --- moves --- */

static const char floor_of[] = "session Floor\n    straight A 3 sets rest 2:00\n        keep 1\n        push-up : 8\n";

/* The camp begins on a Tuesday: nothing moves to the day before. Nearer days come first, and the earlier of two. */
static void days_of_its_week(void **state)
{
    (void)state;
    expect_of("", "    week 1\n        thursday pads : 30 min RPE 5\n",
              "pads from thursday to wednesday\npads from thursday to friday\npads from thursday to tuesday\n"
              "pads from thursday to saturday\npads from thursday to sunday\n");
    expect_of("", "    week 1\n        sunday pads : 30 min RPE 5\n",
              "pads from sunday to saturday\npads from sunday to friday\npads from sunday to thursday\n"
              "pads from sunday to wednesday\npads from sunday to tuesday\n");
    expect_of(floor_of, "    week 1\n        saturday 17:30 Floor\n        sunday 17:30 Floor\n",
              "Floor from saturday to friday\nFloor from saturday to sunday\nFloor from sunday to saturday\n"
              "Floor from saturday to thursday\nFloor from sunday to friday\n"
              "Floor from saturday to wednesday\nFloor from sunday to thursday\n"
              "Floor from saturday to tuesday\nFloor from sunday to wednesday\nFloor from sunday to tuesday\n");
}

/* In a week that is one of several, a line without an hour has nothing that could be off on its old day. */
static void lines_that_stay_on_their_day(void **state)
{
    (void)state;
    const char *moved = "pads from sunday to saturday\npads from sunday to friday\npads from sunday to thursday\n"
                        "pads from sunday to wednesday\npads from sunday to tuesday\n";
    expect_of("", "    weeks 1-2\n        sunday 10:00 pads : 30 min RPE 5\n", moved);
    expect_of("", "    weeks 1-2\n        sunday pads : 30 min RPE 5\n", "");
    expect_of("", "    week 1\n        sunday 10:00 pads : 30 min RPE 5\n            out by 12:00\n", moved);
    expect_of("", "    week 1\n        sunday exam : 60 min\n", "");
    expect_of("", "    week 1\n        sunday pads : 30 min RPE 5\n            run by the boxing coach\n", "");
    expect_of("", "    week 2\n        sunday pads : 30 min RPE 5\n", "");
    expect_of("", "    bout 2027-03-14\n    8 days out\n        that day pads : 30 min RPE 5\n", "");
    expect_of("", "    week 1\n        sunday pads : 30 min RPE 5\nlog 2027-03-07 Oriel Tamsin, pads\n    as planned\n", "");
}

static void days_that_are_over(void **state)
{
    (void)state;
    struct arena *arena = arena_new();
    const char *plan = camp_of(arena, "", "Oriel Tamsin", "    week 1\n        friday pads : 30 min RPE 5\n");
    int friday = date_from_ymd(2027, 3, 5);
    expect_changes(plan, 1, friday + 1, "");
    expect_changes(plan, 1, friday, "pads from friday to saturday\npads from friday to sunday\n");
    expect_changes(plan, 1, friday - 1, "pads from friday to thursday\npads from friday to saturday\npads from friday to sunday\n");
    arena_free(arena);
}

/* One line moves once for all who do it. */
static void one_line_of_two_athletes(void **state)
{
    (void)state;
    struct arena *arena = arena_new();
    expect_changes(camp_of(arena, "", "Oriel Tamsin, Nils Ferrow", "    week 1\n        sunday pads : 30 min RPE 5\n"), 1, 0,
                   "pads from sunday to saturday\npads from sunday to friday\npads from sunday to thursday\n"
                   "pads from sunday to wednesday\npads from sunday to tuesday\n");
    arena_free(arena);
}

/* Of a group one change is taken: where a line goes is one, whichever way, and how much of a block is cut is another. */
static void changes_of_one_thing_are_a_group(void **state)
{
    (void)state;
    struct listed listed;
    struct arena *arena = arena_new();
    list(&listed, camp_of(arena, "session Floor\n    straight A 2 sets rest 1:00\n        keep 2\n        chin-up : 8\n"
                                 "    straight B 2 sets rest 1:00\n        keep 2\n        push-up : 8\n",
                          "Oriel Tamsin", "    week 1\n        saturday 8:00 Floor\n        sunday 10:00 pads : 30 min RPE 5\n"), 1, 0);
    int groups[2] = {-1, -1}, blocks[2] = {-1, -1};
    for (size_t i = 0; i < listed.changes.count; i++) {
        const struct change *change = &listed.changes.items[i];
        bool pads = change->occasion->activity != NULL, of_b = change->lines && (strstr(change->lines, "B") != NULL);
        if (change->lines && strstr(change->lines, "add"))
            continue; /* what is done instead */
        int *group = change->lines ? &blocks[of_b] : &groups[pads];
        if (*group < 0)
            *group = change->group;
        assert_int_equal(change->group, *group);
    }
    assert_true(groups[0] >= 0 && groups[1] >= 0 && blocks[0] >= 0);
    assert_int_not_equal(groups[0], groups[1]);
    assert_int_not_equal(groups[0], blocks[0]);
    assert_int_not_equal(groups[1], blocks[0]);
    assert_int_not_equal(blocks[0], blocks[1]);
    arena_free(listed.arena);
    arena_free(arena);
}

/* --- hours --- */

/* The words of those changes that are no moves between days. */
static void expect_hours(const char *camp, const char *expected)
{
    struct listed listed;
    struct arena *arena = arena_new();
    list(&listed, camp_of(arena, floor_of, "Oriel Tamsin", camp), 1, 0);
    struct text out = {.arena = arena};
    for (size_t i = 0; i < listed.changes.count; i++)
        if (listed.changes.items[i].day == listed.changes.items[i].occasion->date)
            text_addf(&out, "%s\n", listed.changes.items[i].words);
    assert_string_equal(text_get(&out), expected);
    arena_free(listed.arena);
    arena_free(arena);
}

static void hours_of_its_camp_and_week(void **state)
{
    (void)state;
    expect_hours("    week 1\n        tuesday 17:30 Floor\n        thursday 19:05 Floor\n        friday 19:05 Floor\n        saturday Floor\n",
                 "Floor on tuesday from 17:30 to 19:05\nFloor on thursday from 19:05 to 17:30\nFloor on friday from 19:05 to 17:30\n");
    expect_hours("    week 1\n        tuesday 17:30 Floor\n    week 2\n        tuesday 19:00 Floor\n", "");
    expect_hours("    week 1\n        tuesday 17:30 Floor\ncamp Beside\n    for Nils Ferrow\n    starts 2027-03-02\n    week 1\n"
                 "        tuesday 19:00 Floor\n", "");
    expect_hours("    week 1\n        tuesday 0:00 Floor\n        thursday 9:00 Floor\n",
                 "Floor on tuesday from 00:00 to 09:00\nFloor on thursday from 09:00 to 00:00\n");
}

static void two_in_the_other_order(void **state)
{
    (void)state;
    expect_hours("    week 1\n        tuesday 17:30 Floor\n        tuesday 19:00 pads : 30 min RPE 5\n",
                 "Floor on tuesday from 17:30 to 19:00\npads on tuesday from 19:00 to 17:30\n"
                 "Floor and pads on tuesday in the other order\n");
    expect_hours("    week 1\n        tuesday 8:00 Floor\n        tuesday 19:00 Floor\n",
                 "Floor on tuesday from 08:00 to 19:00\nFloor on tuesday from 19:00 to 08:00\n");
    expect_hours("    week 1\n        tuesday 17:30 Floor\n        tuesday 19:00 pads : 30 min RPE 5\n            run by the boxing coach\n",
                 "Floor on tuesday from 17:30 to 19:00\n");
    expect_hours("    week 1\n        tuesday Floor\n        tuesday 19:00 pads : 30 min RPE 5\n", "");
    expect_hours("    week 1\n        tuesday 17:30 Floor\n        wednesday 19:00 pads : 30 min RPE 5\n            run by the boxing coach\n",
                 "Floor on tuesday from 17:30 to 19:00\n");
}

/* --- work --- */

/* What may be cut of a session of BLOCKS, with more lines of its week. */
static void expect_cuts(const char *blocks, const char *week, const char *expected)
{
    struct listed listed;
    struct arena *arena = arena_new();
    const char *session = arena_printf(arena, "session Floor\n%s", blocks);
    list(&listed, camp_of(arena, session, "Oriel Tamsin",
                          arena_printf(arena, "    week 1\n        tuesday Floor\n%s", week)), 1, 0);
    struct text out = {.arena = arena};
    for (size_t i = 0; i < listed.changes.count; i++) {
        const struct change *change = &listed.changes.items[i];
        const char *words = strchr(change->words, ':');
        for (const char *at = change->lines; at && *at; at++)
            text_add_char(&out, *at == '\n' ? '|' : *at);
        if (change->lines)
            text_addf(&out, " =%s\n", words ? words + 1 : "");
    }
    assert_string_equal(text_get(&out), expected);
    arena_free(listed.arena);
    arena_free(arena);
}

/* What matters least is cut first; what matters most, or of which nothing is said, is not. */
static void sets_and_blocks_by_what_matters(void **state)
{
    (void)state;
    expect_cuts("    straight A 3 sets rest 1:00\n        keep 1\n        push-up : 8\n"
                "    straight B 3 sets rest 1:00\n        keep 2\n        push-up : 8\n"
                "    straight C 8 sets rest 1:00\n        keep 3\n        push-up : 8\n"
                "    straight D 3 sets rest 1:00\n        push-up : 8\n", "",
                "change C.1 : 7 sets = one set fewer of C\nchange C.1 : 6 sets = two sets fewer of C\n"
                "change C.1 : 5 sets = three sets fewer of C\nchange C.1 : 4 sets = four sets fewer of C\n"
                "change C.1 : 3 sets = five sets fewer of C\ndrop C = without C\n"
                "change B.1 : 2 sets = one set fewer of B\nchange B.1 : 1 set = two sets fewer of B\ndrop B = without B\n");
}

static void blocks_whose_lines_are_done_in_turn(void **state)
{
    (void)state;
    expect_cuts("    superset A 3 sets rest 1:00\n        keep 2\n        push-up : 8\n        dead bug : 8\n", "",
                "change A : 2 sets = one set fewer of A\nchange A : 1 set = two sets fewer of A\ndrop A = without A\n");
    expect_cuts("    superset A rest 1:00\n        keep 2\n        push-up : 3 x 8\n        dead bug : 3 x 6\n", "",
                "change A.1 : 2 sets|change A.2 : 2 sets = one set fewer of A\n"
                "change A.1 : 1 set|change A.2 : 1 set = two sets fewer of A\ndrop A = without A\n");
    expect_cuts("    superset A 3 sets rest 1:00\n        keep 2\n        push-up : 9, 8, 7\n        dead bug : 8\n", "",
                "change A : 2 sets|change A.1 : 9, 8 = one set fewer of A\n"
                "change A : 1 set|change A.1 : 9 = two sets fewer of A\ndrop A = without A\n");
    expect_cuts("    circuit A 2 rounds rest 1:00\n        keep 2\n        push-up : 8\n        dead bug : 8\n", "",
                "change A : 1 set = one set fewer of A\ndrop A = without A\n");
    expect_cuts("    straight A rest 1:00\n        keep 2\n        push-up : 9, 8, 7\n", "",
                "change A.1 : 9, 8 = one set fewer of A\nchange A.1 : 9 = two sets fewer of A\ndrop A = without A\n");
    expect_cuts("    straight A rest 1:00\n        keep 2\n        chin-up : 9, 8, 7 @ RPE 6, 7, 8\n", "",
                "drop A.1|add A inverted row : 9, 8, 7 @ RPE 6, 7, 8 = inverted row instead of chin-up\n"
                "change A.1 : 9, 8 @ RPE 6, 7 = one set fewer of A\nchange A.1 : 9 @ RPE 6 = two sets fewer of A\ndrop A = without A\n");
    expect_cuts("    straight A rest 1:00\n        keep 2\n        push-up : 3 x 8\n        dead bug : 2 x 8\n", "",
                "change A.1 : 2 sets|change A.2 : 1 set = two sets fewer of A\n"
                "change A.1 : 1 set = two sets fewer of A\ndrop A = without A\n");
}

static void blocks_that_a_clock_ends(void **state)
{
    (void)state;
    expect_cuts("    rounds A 3 x 1:05 rest 0:30\n        keep 2\n        shadow boxing : easy\n", "",
                "change A : 2 x 1:05 rest 0:30 = one round fewer of A\nchange A : 1 x 1:05 rest 0:30 = two rounds fewer of A\n"
                "drop A = without A\n");
    expect_cuts("    rounds A 3 x 1:00 rest 0:30-1:15\n        keep 2\n        shadow boxing : easy\n", "",
                "change A : 2 x 1:00 rest 0:30-1:15 = one round fewer of A\n"
                "change A : 1 x 1:00 rest 0:30-1:15 = two rounds fewer of A\ndrop A = without A\n");
    expect_cuts("    rounds A 2 x 1:00 rest 1:59\n        keep 2\n        shadow boxing : easy\n", "",
                "change A : 1 x 1:00 rest 1:59 = one round fewer of A\ndrop A = without A\n");
    expect_cuts("    rounds A 2 x 1:00\n        keep 2\n        shadow boxing : easy\n", "",
                "change A : 1 x 1:00 = one round fewer of A\ndrop A = without A\n");
    expect_cuts("    rounds A 2 x 2 x 1:00 rest 0:30 block rest 1:00\n        keep 2\n        shadow boxing : easy\n", "", "drop A = without A\n");
    expect_cuts("    every 1:10 for 3:30\n        keep 2\n        push-up : 5\n", "",
                "change A : 1:10 for 2:20 = one round fewer of A\nchange A : 1:10 for 1:10 = two rounds fewer of A\ndrop A = without A\n");
    expect_cuts("    as many rounds as possible A in 6:00\n        keep 2\n        push-up : 5\n", "", "drop A = without A\n");
}

/* A lighter week takes its share of the figure, so that the figure must be larger. */
static void sets_of_a_lighter_week(void **state)
{
    (void)state;
    expect_cuts("    straight A 4 sets rest 1:00\n        keep 2\n        push-up : 8\n", "        deload 75% of the sets\n",
                "change A.1 : 3 sets = one set fewer of A\nchange A.1 : 1 set = two sets fewer of A\ndrop A = without A\n");
}

/* --- other exercises --- */

static void expect_instead(const char *blocks, const char *who, const char *expected)
{
    struct listed listed;
    struct arena *arena = arena_new();
    const char *session = arena_printf(arena, "session Floor\n%s", blocks);
    list(&listed, camp_of(arena, session, who, "    week 1\n        tuesday Floor\n"), 1, 0);
    struct text out = {.arena = arena};
    for (size_t i = 0; i < listed.changes.count; i++)
        if (strstr(listed.changes.items[i].words, " instead of "))
            text_addf(&out, "%s: %s\n", strchr(listed.changes.items[i].words, ':') + 2, listed.changes.items[i].lines);
    assert_string_equal(text_get(&out), expected);
    arena_free(listed.arena);
    arena_free(arena);
}

/* A block of keep 2 or 3 with a chin-up, whose exercise names the inverted row for a gym without a bar. */
#define CHIN "    straight A 3 sets rest 1:00\n        keep 2\n        chin-up : 8 @ RPE 7\n"
#define ROW "inverted row instead of chin-up: drop A.1\nadd A inverted row : 8 @ RPE 7\n"

static void what_stands_in_for_a_line(void **state)
{
    (void)state;
    const char *oriel = "Oriel Tamsin", *both = "Oriel Tamsin, Nils Ferrow";
    expect_instead(CHIN, oriel, ROW);
    expect_instead(CHIN "            cue pull the elbows down\n            stop the shoulder hurts\n", oriel, ROW);
    /* What the line itself names comes first, with its own dose; named twice it is there once. */
    expect_instead(CHIN "            without pull-up bar, one arm dumbbell row : 6 @ 10 kg\n", oriel,
                   "one arm dumbbell row instead of chin-up: drop A.1\nadd A one arm dumbbell row : 6 @ 10 kg\n" ROW);
    expect_instead(CHIN "            without pull-up bar, inverted row : 6 @ RPE 6\n", oriel,
                   "inverted row instead of chin-up: drop A.1\nadd A inverted row : 6 @ RPE 6\n");
    /* It would come last, and so does the line only if nothing follows. */
    expect_instead(CHIN "        push-up : 8\n", oriel, "");
    expect_instead("    straight A 3 sets rest 1:00\n        keep 2\n        push-up : 8\n        chin-up : 8\n", oriel,
                   "inverted row instead of chin-up: drop A.2\nadd A inverted row : 8\n");
    /* A line of somebody's own would be lost, and one that another athlete does otherwise, too. */
    expect_instead(CHIN "            for Oriel Tamsin : 6\n", oriel, "");
    expect_instead(CHIN "            as a test\n", oriel, "");
    expect_instead(CHIN, both, ROW);
    expect_instead(CHIN "            for Nils Ferrow, push-up : 6\n", both, "");
    /* Blocks beside it do not matter, and one that stays is not looked at. */
    expect_instead(CHIN "    straight B 2 sets rest 1:00\n        keep 1\n        push-up : 8\n        chin-up : 5\n", oriel, ROW);
    expect_instead("    straight A 3 sets rest 1:00\n        keep 1\n        chin-up : 8\n", oriel, "");
    /* A dose that the other cannot have. */
    expect_instead("    straight A 3 sets rest 1:00\n        keep 2\n        dumbbell goblet squat : 8 @ 16 kg\n", oriel, "");
    expect_instead("    straight A 3 sets rest 1:00\n        keep 2\n        dumbbell goblet squat : 8\n", oriel,
                   "bodyweight squat instead of dumbbell goblet squat: drop A.1\nadd A bodyweight squat : 8\n");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(days_of_its_week),
        cmocka_unit_test(lines_that_stay_on_their_day),
        cmocka_unit_test(days_that_are_over),
        cmocka_unit_test(one_line_of_two_athletes),
        cmocka_unit_test(changes_of_one_thing_are_a_group),
        cmocka_unit_test(hours_of_its_camp_and_week),
        cmocka_unit_test(two_in_the_other_order),
        cmocka_unit_test(sets_and_blocks_by_what_matters),
        cmocka_unit_test(blocks_whose_lines_are_done_in_turn),
        cmocka_unit_test(blocks_that_a_clock_ends),
        cmocka_unit_test(sets_of_a_lighter_week),
        cmocka_unit_test(what_stands_in_for_a_line),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
