/* Published programmes, written in the notation (plans/), resolved, and held figure by figure
 * against the tables they were printed in. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "kg.h"
#include "measure/tally.h"
#include "measure/time.h"
#include "model/programme.h"
#include "plan_reader.h"

#define COUNT(list) (sizeof(list) / sizeof *(list))

static void open_plan(struct plan_reader *reader, const char *path)
{
    plan_reader_open(reader);
    plan_reader_shelf(reader);
    plan_reader_file(reader, path, false);
    plan_reader_resolve(reader);
    bool sound = diag_count(reader->diag, SEVERITY_ERROR) == 0 &&
                 diag_count(reader->diag, SEVERITY_WARNING) == 0;
    if (!sound)
        plan_reader_tell(reader);
    assert_true(sound);
}

/* The sessions of WEEK in order of date; how many. */
static size_t sessions_of(const struct plan_reader *reader, int week, const struct occasion *out[8])
{
    const struct programme *programme = reader->programme;
    size_t count = 0;
    for (size_t i = 0; i < programme->occasion_count && count < 8; i++)
        if (programme->occasions[i].week == week)
            out[count++] = &programme->occasions[i];
    return count;
}

static void assert_range(struct range range, double low, double high)
{
    assert_int_equal(range.low, (milli)(low * 1000));
    assert_int_equal(range.high, (milli)(high * 1000));
}

/* --- squat and bench press in eight weeks --- */

struct cell {
    int sets, reps;
    double percent;
};

/* Source: Helms et al. 2023, Sports Medicine - Open 9:102 (s40798-023-00651-y), table 4: sets x
 * reps x share of the maximum on the three days of a week, and the band of RPE. */
static const struct {
    struct cell days[3];
    int rpe_low, rpe_high;
} progression[] = {
    {{{2, 10, 60}, {2, 8, 65}, {2, 6, 70}}, 5, 7},
    {{{3, 10, 65}, {3, 8, 70}, {3, 6, 75}}, 6, 8},
    {{{3, 10, 67.5}, {3, 8, 72.5}, {3, 6, 77.5}}, 6, 8},
    {{{3, 9, 70}, {3, 7, 75}, {3, 5, 80}}, 7, 9},
    {{{3, 9, 72.5}, {3, 7, 77.5}, {3, 5, 82.5}}, 7, 9},
    {{{3, 8, 75}, {3, 6, 80}, {3, 4, 85}}, 8, 10},
    {{{3, 8, 77.5}, {3, 6, 82.5}, {3, 4, 87.5}}, 8, 10},
    {{{2, 6, 80}, {2, 4, 85}, {0, 0, 0}}, 7, 9},
};

static void assert_cell(const struct item *item, const char *exercise, const struct cell *cell,
                        int rpe_low, int rpe_high)
{
    assert_string_equal(item->exercise->name.shown, exercise);
    assert_int_equal(item->run_count, 1);
    const struct set_run *run = &item->runs[0];
    assert_int_equal(run->count, cell->sets);
    assert_int_equal(run->part_count, 1);
    assert_range(run->parts[0].amount, cell->reps, cell->reps);
    assert_int_equal(run->load.kind, LOAD_PERCENT);
    assert_range(run->load.percent, cell->percent, cell->percent);
    assert_int_equal(run->load.made, KG(cell->percent)); /* of 100 kg */
    assert_int_equal(run->load.effort, EFFORT_RPE);
    assert_range(run->load.effort_band, rpe_low, rpe_high);
}

static void squat_and_bench_press(void **state)
{
    (void)state;
    struct plan_reader reader;
    open_plan(&reader, "tests/published/plans/squat-bench.bell");
    for (size_t w = 0; w < COUNT(progression); w++) {
        const struct occasion *days[8];
        assert_int_equal(sessions_of(&reader, (int)w + 1, days), 3);
        for (size_t d = 0; d < 3 && progression[w].days[d].sets; d++) {
            assert_int_equal(days[d]->block_count, 1);
            assert_int_equal(days[d]->blocks[0].item_count, 2);
            const struct item *items = days[d]->blocks[0].items;
            for (size_t i = 0; i < 2; i++)
                assert_cell(&items[i], i ? "bench press" : "back squat", &progression[w].days[d],
                            progression[w].rpe_low, progression[w].rpe_high);
        }
    }
    const struct occasion *days[8];
    sessions_of(&reader, 8, days);
    assert_string_equal(days[2]->session->name.shown, "Test day");
    for (size_t b = 0; b < 2; b++) {
        const struct set_run *run = &days[2]->blocks[b].items[0].runs[0];
        assert_true(run->work_up);
        assert_range(run->load.effort_band, 1, 1);
    }
    plan_reader_close(&reader);
}

/* --- the neck in 26 weeks --- */

/* Source: Naish et al. 2013, J Sports Sci Med 12:542-550 (PMC3772600), table 2, those who do not
 * play in the front row: sessions a week, sets x reps, share of the maximum (0: the heaviest load
 * for the reps), seconds held. */
static const struct neck_row {
    int first, last, sessions_low, sessions_high, sets, reps_low, reps_high, percent, held;
} neck_rows[] = {
    {1, 1, 2, 2, 2, 12, 12, 70, 0}, {2, 2, 2, 2, 3, 10, 10, 70, 0},
    {3, 3, 2, 2, 3, 8, 8, 70, 0},   {4, 4, 2, 2, 2, 12, 12, 70, 0},
    {5, 5, 2, 3, 3, 4, 6, 0, 0},    {6, 13, 2, 2, 3, 6, 8, 70, 0},
    {14, 26, 1, 2, 3, 4, 4, -1, 3},
};

static void assert_neck_run(const struct set_run *run, const struct neck_row *row)
{
    assert_int_equal(run->count, row->sets);
    assert_int_equal(run->part_count, 1);
    if (row->held) { /* so many holds, each of so many seconds */
        assert_int_equal(run->repeats, row->reps_low);
        assert_true(run->hold);
        assert_int_equal(run->parts[0].unit, UNIT_SECONDS);
        assert_range(run->parts[0].amount, row->held, row->held);
        assert_int_equal(run->load.kind, LOAD_NONE);
        return;
    }
    assert_int_equal(run->parts[0].unit, UNIT_REPS);
    assert_range(run->parts[0].amount, row->reps_low, row->reps_high);
    if (row->percent) {
        assert_range(run->load.percent, row->percent, row->percent);
        assert_true(run->load.made > 0 && run->load.made == run->load.asked);
    } else {
        assert_int_equal(run->load.effort, EFFORT_REP_MAX);
        assert_range(run->load.effort_band, row->reps_low, row->reps_high);
    }
}

static void neck_week(const struct plan_reader *reader, int week, const struct neck_row *row)
{
    const struct occasion *days[8];
    size_t count = sessions_of(reader, week, days);
    struct tally tally = {0};
    for (size_t d = 0; d < count; d++) {
        tally_occasion(&tally, days[d]);
        assert_int_equal(days[d]->block_count, 3); /* flexion, extension, to the side */
        for (size_t b = 0; b < 3; b++)
            assert_neck_run(&days[d]->blocks[b].items[0].runs[0], row);
        assert_int_equal(days[d]->blocks[2].items[0].runs[0].parts[0].side, DOSE_EACH_SIDE);
    }
    assert_range(tally.sum[COUNTED_SESSIONS], row->sessions_low, row->sessions_high);
    assert_range(tally.sum[counted_find("neck sessions")], row->sessions_low, row->sessions_high);
    assert_range(tally.sum[counted_find("neck sets")], 3 * row->sets * row->sessions_low,
                 3 * row->sets * row->sessions_high);
}

static void neck_isometrics(void **state)
{
    (void)state;
    struct plan_reader reader;
    open_plan(&reader, "tests/published/plans/neck.bell");
    assert_int_equal(reader.programme->camps[0]->weeks, 26);
    int weeks = 0;
    for (size_t i = 0; i < COUNT(neck_rows); i++)
        for (int week = neck_rows[i].first; week <= neck_rows[i].last; week++, weeks++)
            neck_week(&reader, week, &neck_rows[i]);
    assert_int_equal(weeks, 26);
    plan_reader_close(&reader);
}

/* --- intervals of 21 minutes --- */

/* Source: Frontiers in Physiology 2021, 766153, as our notes have it: 2 blocks of 3 rounds of 2:00
 * (4 s all-out, 28 s easy), 1:00 between rounds and 5:00 between blocks, 21 minutes in all. The
 * turns do not divide the round: the bell cuts the fourth spell of ease to 20 s. */
static void intervals(void **state)
{
    (void)state;
    struct plan_reader reader;
    open_plan(&reader, "tests/published/plans/intervals.bell");
    const struct occasion *days[8];
    assert_int_equal(sessions_of(&reader, 1, days), 3);
    const struct block *block = &days[0]->blocks[0];
    assert_int_equal(block->times, 2);
    assert_int_equal(block->sets, 3);
    assert_int_equal(block->work, 120);
    assert_int_equal(block->rest_low, 60);
    assert_int_equal(block->rest_high, 60);
    assert_int_equal(block->times_rest, 300);
    assert_int_equal(block->seconds, 21 * 60);
    assert_int_equal(days[0]->seconds, 21 * 60);

    static const struct {
        enum effort_kind effort;
        int seconds, in_a_round;
    } turns[] = {{EFFORT_ALL_OUT, 4, 4}, {EFFORT_EASY, 28, 3}, {EFFORT_EASY, 20, 1}};
    const struct item *item = &block->items[0];
    assert_int_equal(item->run_count, COUNT(turns));
    int round = 0;
    for (size_t i = 0; i < COUNT(turns); i++) {
        const struct set_run *run = &item->runs[i];
        assert_int_equal(run->load.effort, turns[i].effort);
        assert_int_equal(run->seconds, turns[i].seconds);
        assert_range(run->parts[0].amount, turns[i].seconds, turns[i].seconds);
        assert_int_equal(run->count, turns[i].in_a_round);
        assert_int_equal(time_run_count(block, item, run), 6 * turns[i].in_a_round);
        round += run->count * run->seconds;
    }
    assert_int_equal(round, 120);
    struct tally tally = {0};
    tally_occasion(&tally, days[0]);
    assert_range(tally.sum[COUNTED_CLOCK_ROUNDS], 6, 6);
    assert_range(tally.sum[COUNTED_BAG_ROUNDS], 6, 6);
    plan_reader_close(&reader);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(squat_and_bench_press),
        cmocka_unit_test(neck_isometrics),
        cmocka_unit_test(intervals),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
