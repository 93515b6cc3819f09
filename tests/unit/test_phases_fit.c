/* How a camp's days are shared among its phases: examples worked by hand, and a plain calculation beside it. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "base/arena.h"
#include "base/text.h"
#include "figures/phases.h"

enum { MOST = 6 };

static void expect_days(int days, const char *wanted)
{
    struct phase_length phases[] = {{.open = true},
                                    {.shortest = 14, .longest = 35, .keep = 3},
                                    {.shortest = 7, .longest = 21, .keep = 2},
                                    {.shortest = 7, .longest = 10, .keep = 1}};
    struct text got = {0};
    int rest = phases_fit(phases, 4, days);
    for (int i = 0; i < 4; i++)
        text_addf(&got, "%d%s ", phases[i].days, phases[i].out ? "-" : "");
    text_addf(&got, "rest %d", rest);
    assert_string_equal(text_get(&got), wanted);
    text_free(&got);
}

static void the_highest_keep_gives_way_first(void **state)
{
    (void)state;
    expect_days(80, "14 35 21 10 rest 0");
    expect_days(67, "1 35 21 10 rest 0");
    expect_days(66, "0- 35 21 10 rest 0");
    expect_days(65, "0- 34 21 10 rest 0");
    expect_days(45, "0- 14 21 10 rest 0");
    expect_days(44, "13 0- 21 10 rest 0"); /* what strength does not need joins what is before it */
    expect_days(31, "0- 0- 21 10 rest 0");
    expect_days(17, "0- 0- 7 10 rest 0");
    expect_days(16, "6 0- 0- 10 rest 0");
    expect_days(10, "0- 0- 0- 10 rest 0");
    expect_days(9, "0- 0- 0- 9 rest 0"); /* nine days' notice */
    expect_days(7, "0- 0- 0- 7 rest 0");
    expect_days(6, "0- 0- 0- 0- rest 6"); /* nothing is squeezed */
    expect_days(0, "0- 0- 0- 0- rest 0");
}

static void phases_without_keep_are_never_left_out(void **state)
{
    (void)state;
    struct phase_length phases[] = {{.shortest = 14, .longest = 28}, {.shortest = 7, .longest = 7, .keep = 2}, {.shortest = 10, .longest = 10}};
    assert_int_equal(phases_fit(phases, 3, 45), 0);
    assert_int_equal(phases_fit(phases, 3, 44), 0); /* 7 go, 1 was too many: 6 join what is before */
    assert_int_equal(phases[0].days, 34);
    assert_int_equal(phases_fit(phases, 3, 37), 0);
    assert_int_equal(phases[0].days, 27);
    assert_int_equal(phases_fit(phases, 3, 24), 0);
    assert_int_equal(phases[0].days, 14);
    assert_int_equal(phases_fit(phases, 3, 23), -1);
    assert_int_equal(phases_least(phases, 3), 24);
    assert_int_equal(phases_fit(phases, 3, 50), 5);
}

/* The same, one day at a time: who has a day too many that it can do without gives one, the highest keep first; who would
 * have to go below its shortest goes altogether. */
static int slowly(struct phase_length *phases, int count, int days)
{
    int total = 0, open = -1, lengths = 0, gone = -1;
    bool bends = false;
    for (int i = 0; i < count; i++) {
        phases[i].out = false;
        phases[i].days = phases[i].open ? 0 : phases[i].longest;
        open = phases[i].open ? i : open;
        bends |= !phases[i].open && (phases[i].keep || phases[i].shortest < phases[i].longest);
        total += phases[i].days;
    }
    if (open >= 0 && !bends)
        phases[open].days = 1, total++;
    for (int keep = 3; keep >= 0; keep--)
        for (int i = 0; i < count; i++) {
            struct phase_length *phase = &phases[i];
            if (phase->open || phase->keep != keep)
                continue;
            while (total > days && phase->days > phase->shortest)
                phase->days--, total--;
            if (total > days && keep && phase->shortest) {
                total -= phase->days;
                phase->days = 0;
                phase->out = true;
                gone = i;
            }
        }
    if (total > days)
        return -1;
    for (int i = 0; i < count; i++)
        lengths += !phases[i].open && !phases[i].out;
    int rest = days - total, takes = gone < 0 ? open : -1;
    for (int i = gone; gone >= 0 && lengths && i >= 0 && takes < 0; i--) /* who is left before it, or else after it */
        takes = phases[i].out ? -1 : i;
    for (int i = gone; gone >= 0 && lengths && i < count && takes < 0; i++)
        takes = phases[i].out ? -1 : i;
    if (takes >= 0)
        phases[takes].days += rest;
    if (open >= 0 && !phases[open].days)
        phases[open].out = true;
    return takes >= 0 ? 0 : rest;
}

static unsigned draw(unsigned *state, unsigned below)
{
    *state = *state * 1664525u + 1013904223u;
    return (*state >> 8) % below;
}

static void it_is_what_giving_day_by_day_comes_to(void **state)
{
    (void)state;
    unsigned seed = 7, left_out = 0;
    for (int round = 0; round < 20000; round++) {
        struct phase_length phases[MOST], others[MOST];
        int count = 1 + (int)draw(&seed, MOST), open = (int)draw(&seed, MOST + 2);
        for (int i = 0; i < count; i++) {
            int shortest = (int)draw(&seed, 20);
            phases[i] = (struct phase_length){.shortest = shortest, .longest = shortest + (int)draw(&seed, 3) * (int)draw(&seed, 12),
                                              .keep = (int)draw(&seed, 4)};
            if (i == open)
                phases[i] = (struct phase_length){.open = true};
        }
        memcpy(others, phases, sizeof phases);
        int days = (int)draw(&seed, 100), rest = phases_fit(phases, count, days);
        assert_int_equal(rest, slowly(others, count, days));
        int sum = 0;
        for (int i = 0; i < count && rest >= 0; i++) {
            assert_int_equal(phases[i].days, others[i].days);
            assert_int_equal(phases[i].out, others[i].out);
            assert_true(phases[i].open || phases[i].out || phases[i].days >= phases[i].shortest); /* nothing is squeezed */
            sum += phases[i].days;
            left_out += phases[i].out;
        }
        if (rest >= 0)
            assert_int_equal(sum + rest, days);
        else
            assert_true(days < phases_least(phases, count));
    }
    assert_true(left_out > 1000);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_highest_keep_gives_way_first),
        cmocka_unit_test(phases_without_keep_are_never_left_out),
        cmocka_unit_test(it_is_what_giving_day_by_day_comes_to),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
