/* `alternating stances`: one repetition a stance in turn. Which limb did how many is worked out here by doing them one by
 * one. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "measure/limbs.h"
#include "measure/time.h"
#include "model/programme.h"
#include "plan_reader.h"
#include "wording/wording.h"

static const char plan[] = "athlete Wren Holloway\n"
                           "%s"
                           "session S\n"
                           "    %s\n"
                           "        %s\n"
                           "camp C\n"
                           "    for Wren Holloway\n"
                           "    starts 2027-01-04\n"
                           "    weeks 1-1\n"
                           "        monday S\n";

static void open_plan(struct plan_reader *reader, const char *athlete, const char *block, const char *line)
{
    plan_reader_open(reader);
    plan_reader_shelf(reader);
    const char *text = arena_printf(reader->arena, plan, athlete, block, line);
    plan_reader_text(reader, "plan.bell", text, strlen(text));
    plan_reader_resolve(reader);
    if (reader->diag->count)
        plan_reader_tell(reader);
    assert_int_equal(diag_count(reader->diag, SEVERITY_ERROR), 0);
    assert_int_equal(diag_count(reader->diag, SEVERITY_WARNING), 0);
    assert_int_equal(reader->programme->occasion_count, 1);
}

static const struct item *first_item(const struct plan_reader *reader)
{
    return &reader->programme->occasions[0].blocks[0].items[0];
}

static milli limb_in(const struct ledger *ledger, enum limb limb, enum stance stance)
{
    assert_int_equal(ledger->limbs[UNIT_STRIKES][limb][stance].low, ledger->limbs[UNIT_STRIKES][limb][stance].high);
    return ledger->limbs[UNIT_STRIKES][limb][stance].high / 1000;
}

/* --- the ledger --- */

/* SETS sets of COUNT jabs, each stance after the other from OWN on: the hand in front jabs. */
static void expect_jabs(enum stance own, int sets, int count, bool in_header)
{
    char block[80], line[80];
    snprintf(block, sizeof block, "straight A %d sets rest 1:00%s", sets, in_header ? " alternating stances" : "");
    snprintf(line, sizeof line, "jab : %d%s", count, in_header ? "" : " alternating stances");
    struct plan_reader reader;
    open_plan(&reader, own == STANCE_ORTHODOX ? "    stance orthodox\n" : "    stance southpaw\n", block, line);
    int left = 0, right = 0; /* jabs of the left hand are orthodox, of the right southpaw */
    for (int set = 0; set < sets; set++) {
        enum stance stance = own;
        for (int i = 0; i < count; i++) {
            left += stance == STANCE_ORTHODOX;
            right += stance == STANCE_SOUTHPAW;
            stance = stance == STANCE_ORTHODOX ? STANCE_SOUTHPAW : STANCE_ORTHODOX;
        }
    }
    struct ledger ledger = {0};
    ledger_occasion(&ledger, &reader.programme->occasions[0]);
    assert_int_equal(limb_in(&ledger, LIMB_LEFT_HAND, STANCE_ORTHODOX), left);
    assert_int_equal(limb_in(&ledger, LIMB_RIGHT_HAND, STANCE_SOUTHPAW), right);
    assert_int_equal(limb_in(&ledger, LIMB_LEFT_HAND, STANCE_SOUTHPAW), 0);
    assert_int_equal(limb_in(&ledger, LIMB_RIGHT_HAND, STANCE_ORTHODOX), 0);
    assert_int_equal(ledger.done[UNIT_STRIKES][STANCE_ORTHODOX].high, 1000 * left);
    assert_int_equal(ledger.done[UNIT_STRIKES][STANCE_SOUTHPAW].high, 1000 * right);
    assert_false(ledger.open);
    plan_reader_close(&reader);
}

static void test_each_rep_is_counted_in_its_stance(void **state)
{
    (void)state;
    for (int count = 1; count <= 9; count++) {
        expect_jabs(STANCE_ORTHODOX, 1 + count % 3, count, false);
        expect_jabs(STANCE_SOUTHPAW, 1 + count % 3, count, count % 2);
    }
}

struct expected {
    const char *athlete, *block, *line;
    milli orthodox_low, orthodox_high, southpaw_low, southpaw_high; /* of the first set */
    const char *words; /* of it */
};

static const char orthodox[] = "    stance orthodox\n", southpaw[] = "    stance southpaw\n";
static const char straight[] = "straight A 3 sets rest 1:00", turns[] = "straight A 3 sets rest 1:00 alternating stances";

static const struct expected expected[] = {
    {orthodox, straight, "cross : 10 alternating stances", 5000, 5000, 5000, 5000, "10 strikes alternating stances"},
    {orthodox, straight, "cross : 7 alternating stances", 4000, 4000, 3000, 3000, "7 strikes alternating stances"},
    {southpaw, straight, "cross : 7 alternating stances", 3000, 3000, 4000, 4000, "7 strikes alternating stances"},
    {southpaw, straight, "cross : 6-9 alternating stances", 3000, 4000, 3000, 5000, "6–9 strikes alternating stances"},
    {"", straight, "cross : 8 alternating stances", 4000, 4000, 4000, 4000, "8 strikes alternating stances"},
    {orthodox, straight, "cross : 4 each stance alternating stances", 4000, 4000, 4000, 4000,
     "8 strikes alternating stances"},
    {orthodox, straight, "jab cross : 6 alternating stances", 3000, 3000, 3000, 3000, "6 times alternating stances"},
    {orthodox, turns, "cross : 7", 4000, 4000, 3000, 3000, "7 strikes alternating stances"},
    {orthodox, turns, "cross : 3 orthodox + 2 southpaw", 3000, 3000, 2000, 2000, "3 strikes orthodox + 2 strikes southpaw"},
    {orthodox, straight, "cross : 7 alternating stances\n            for Wren Holloway : 5", 3000, 3000, 2000, 2000,
     "5 strikes alternating stances"},
    {orthodox, straight, "cross : 7 alternating stances\n            for Wren Holloway : 5 each stance", 5000, 5000, 5000, 5000,
     "5 strikes orthodox + 5 strikes southpaw"},
    {orthodox, straight, "cross : 7\n            for Wren Holloway : alternating stances", 4000, 4000, 3000, 3000,
     "7 strikes alternating stances"},
    {orthodox, "rounds 2 x 1:00 rest 0:30", "cross : alternating stances", 30000, 30000, 30000, 30000,
     "1 min alternating stances"},
};

/* Spaces of all kinds as plain ones. */
static const char *plain_words(struct arena *arena, const char *words)
{
    const char *out = "";
    for (; *words; words++) {
        bool gap = strncmp(words, "\xc2\xa0", 2) == 0;
        out = arena_printf(arena, "%s%c", out, gap ? ' ' : *words);
        words += gap;
    }
    return out;
}

static struct range amount_in(const struct set_run *run, enum dose_side side)
{
    for (size_t i = 0; i < run->part_count; i++)
        if (run->parts[i].side == side)
            return run->parts[i].amount;
    return (struct range){0, 0};
}

static void test_what_each_stance_does(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof expected / sizeof *expected; i++) {
        const struct expected *wanted = &expected[i];
        struct plan_reader reader;
        open_plan(&reader, wanted->athlete, wanted->block, wanted->line);
        const struct set_run *run = &first_item(&reader)->runs[0];
        struct range first = amount_in(run, DOSE_ORTHODOX), second = amount_in(run, DOSE_SOUTHPAW);
        assert_int_equal(first.low, wanted->orthodox_low);
        assert_int_equal(first.high, wanted->orthodox_high);
        assert_int_equal(second.low, wanted->southpaw_low);
        assert_int_equal(second.high, wanted->southpaw_high);
        assert_string_equal(plain_words(reader.arena, wording_set(reader.arena, run)), wanted->words);
        plan_reader_close(&reader);
    }
}

/* --- the time --- */

static int seconds_of_set(const char *line)
{
    struct plan_reader reader;
    open_plan(&reader, orthodox, straight, line);
    int seconds = first_item(&reader)->runs[0].seconds;
    plan_reader_close(&reader);
    return seconds;
}

/* Ten strikes of a second each; where the stances alternate, nine changes between them. */
static void test_changes_of_stance_take_their_time(void **state)
{
    (void)state;
    int change = time_usual.stance_change;
    assert_true(change > 0);
    assert_int_equal(seconds_of_set("cross : 5 each stance"), 10 * time_usual.strike);
    assert_int_equal(seconds_of_set("cross : 10 alternating stances"), 10 * time_usual.strike + 9 * change);
    assert_int_equal(seconds_of_set("cross : 1 alternating stances"), time_usual.strike);
    assert_int_equal(seconds_of_set("cross : 20 s"), 20);
    assert_int_equal(seconds_of_set("cross : 20 s alternating stances"), 20);
    assert_int_equal(seconds_of_set("cross : max alternating stances"),
                     time_usual.max_reps * time_usual.strike + (time_usual.max_reps - 1) * change);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_each_rep_is_counted_in_its_stance),
        cmocka_unit_test(test_what_each_stance_does),
        cmocka_unit_test(test_changes_of_stance_take_their_time),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
