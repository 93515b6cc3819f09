/* test_joints.c - what the shelf says of joints, and that no restriction lets through what it bars: ten restrictions of
 * everyday practice against every exercise there is. What each exercise asks of which joint is common practice, no
 * source. The sources of the restrictions are named from memory. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "base/text.h"
#include "measure/avoid.h"
#include "measure/limbs.h"
#include "model/programme.h"
#include "plan_reader.h"

enum { HALF = 500, LINES_A_SESSION = 20, SEVERAL = 20 };

static unsigned faults;

static void refuse(const struct exercise *exercise, const char *what)
{
    print_error("%s %s\n", exercise->name.shown, what);
    faults++;
}

/* --- the entries --- */

static bool asks(const struct exercise *exercise, enum joint joint, int demand)
{
    for (size_t i = 0; i < exercise->strains.count; i++)
        if (exercise->strains.items[i].joint == joint &&
            (demand == DEMAND_NONE || exercise->strains.items[i].demand == demand))
            return true;
    return false;
}

static bool is_done(const struct exercise *exercise, const char *position)
{
    for (size_t i = 0; i < exercise->position_count; i++)
        if (strcmp(exercise->positions[i], position) == 0)
            return true;
    return false;
}

/* What the other lines of an entry say goes together with its joints. */
static void check_entry(const struct exercise *exercise)
{
    const char *name = exercise->name.shown;
    if (!exercise->strains.said)
        refuse(exercise, "does not say its joints");
    if (is_done(exercise, "overhead") && !asks(exercise, JOINT_SHOULDER, DEMAND_OVERHEAD))
        refuse(exercise, "is done overhead, and no shoulder is");
    if (is_done(exercise, "kneeling") && !asks(exercise, JOINT_KNEE, DEMAND_NONE) && !asks(exercise, JOINT_WRIST, DEMAND_LOADED))
        refuse(exercise, "is done kneeling, without a knee");
    if (is_done(exercise, "hanging") && !asks(exercise, JOINT_HAND, DEMAND_LOADED))
        refuse(exercise, "hangs by no hand");
    if (is_done(exercise, "on the hands") && !asks(exercise, JOINT_WRIST, DEMAND_NONE) &&
        !asks(exercise, JOINT_SHOULDER, DEMAND_LOADED))
        refuse(exercise, "stands on the hands without wrist or shoulder");
    if (exercise->counts == UNIT_CONTACTS &&
        !(asks(exercise, JOINT_ANKLE, DEMAND_IMPACT) && asks(exercise, JOINT_KNEE, DEMAND_IMPACT)))
        refuse(exercise, "lands without ankle and knee");
    if (exercise->pattern == PATTERN_STRIKE && (strstr(name, "on the bag") || strstr(name, "on pads")) &&
        !asks(exercise, JOINT_HAND, DEMAND_IMPACT) && !asks(exercise, JOINT_FOOT, DEMAND_IMPACT) &&
        !asks(exercise, JOINT_KNEE, DEMAND_IMPACT) && !asks(exercise, JOINT_ELBOW, DEMAND_IMPACT))
        refuse(exercise, "hits something with nothing");
    if (exercise->loads[REGION_NECK] >= HALF && !asks(exercise, JOINT_NECK, DEMAND_NONE))
        refuse(exercise, "loads the neck, which is no joint of it");
    if (exercise->loads[REGION_FRONT_THIGH] >= HALF && !asks(exercise, JOINT_KNEE, DEMAND_NONE) &&
        !asks(exercise, JOINT_HIP, DEMAND_NONE))
        refuse(exercise, "loads the front of the thigh without knee or hip");
    if (exercise->loads[REGION_SHOULDER] >= HALF && !asks(exercise, JOINT_SHOULDER, DEMAND_NONE))
        refuse(exercise, "loads the shoulder, which is no joint of it");
    if (exercise->loads[REGION_LOW_BACK] >= HALF && !asks(exercise, JOINT_SPINE, DEMAND_NONE))
        refuse(exercise, "loads the low back without the spine");
}

static void test_each_entry_says_its_joints(void **state)
{
    (void)state;
    struct plan_reader reader;
    plan_reader_open(&reader);
    plan_reader_shelf(&reader);
    plan_reader_resolve(&reader);
    faults = 0;
    for (size_t i = 0; i < reader.programme->exercise_count; i++)
        check_entry(reader.programme->exercises[i]);
    assert_true(reader.programme->exercise_count > 400);
    assert_int_equal(faults, 0);
    plan_reader_close(&reader);
}

/* --- every exercise under a restriction --- */

static const char *dose_for(const struct exercise *exercise)
{
    static const char *const sides[] = {"", " each side", " each way", " orthodox"};
    static char words[80];
    const char *unit = exercise->counts == UNIT_SECONDS || exercise->kind == EXERCISE_HOLD ? " s"
                       : exercise->counts == UNIT_METRES                                  ? " m"
                                                                                          : "";
    const char *hold = exercise->kind == EXERCISE_HOLD ? "hold " : "";
    int length = snprintf(words, sizeof words, "%s4%s%s", hold, unit, sides[exercise->side]);
    if (exercise->side == SIDE_PER_STANCE)
        snprintf(words + length, sizeof words - (size_t)length, " + %s2%s southpaw", "", unit);
    return words;
}

/* A plan with every exercise of SHELF for somebody in STANCE who has to avoid WHAT. No gym: nothing is replaced. */
static const char *plan_with(struct arena *arena, const struct programme *shelf, const char *what, const char *stance)
{
    struct text plan = {.arena = arena};
    text_addf(&plan, "athlete Ada Finch\n    stance %s\n    avoid %s\n        since 2027-01-01\n", stance, what);
    size_t sessions = 0;
    for (size_t i = 0; i < shelf->exercise_count; i++) {
        const struct exercise *exercise = shelf->exercises[i];
        if (i % LINES_A_SESSION == 0)
            text_addf(&plan, "session S%zu\n", ++sessions);
        text_addf(&plan, "    straight %c 2 sets rest 1:00\n        %s : %s\n", (char)('A' + i % LINES_A_SESSION),
                  exercise->name.shown, dose_for(exercise));
    }
    text_add(&plan, "camp C\n    for Ada Finch\n    starts 2027-03-01\n    week 1\n");
    for (size_t i = 0; i < sessions; i++)
        text_addf(&plan, "        monday %02zu:%02zu S%zu\n", i / 2, i % 2 * 30, i + 1);
    return text_keep(arena, &plan);
}

/* What a restriction is, said a second time, in the terms of the test. */
struct restriction {
    const char *words;
    enum joint joint;
    int demand;
    char limb; /* 'h' a hand's, 'l' a leg's, 0 neither */
    char side; /* 'l', 'r'; 0 both */
    const char *source;
};

static const struct restriction restrictions[] = {
    {"left knee deep", JOINT_KNEE, DEMAND_DEEP, 'l', 'l', "Logerstedt et al. 2010, J Orthop Sports Phys Ther 40:A1-A35"},
    {"right knee deep", JOINT_KNEE, DEMAND_DEEP, 'l', 'r', "Steinkamp et al. 1993, Am J Sports Med 21:438-444"},
    {"knee impact", JOINT_KNEE, DEMAND_IMPACT, 'l', 0, "common practice, no source"},
    {"right hand impact", JOINT_HAND, DEMAND_IMPACT, 'h', 'r', "Loosemore et al. 2017, Hand 12:181-187"},
    {"spine loaded", JOINT_SPINE, DEMAND_LOADED, 0, 0, "Callaghan and McGill 2001, Clin Biomech 16:28-37"},
    {"left shoulder overhead", JOINT_SHOULDER, DEMAND_OVERHEAD, 'h', 'l', "Neer 1983, Clin Orthop 173:70-77"},
    {"right hip stretched", JOINT_HIP, DEMAND_STRETCHED, 'l', 'r', "Askling et al. 2007, Am J Sports Med 35:197-206"},
    {"left hip fast", JOINT_HIP, DEMAND_FAST, 'l', 'l', "Hoelmich et al. 1999, Lancet 353:439-443"},
    {"left ankle impact", JOINT_ANKLE, DEMAND_IMPACT, 'l', 'l', "Doherty et al. 2014, Sports Med 44:123-140"},
    {"right wrist loaded", JOINT_WRIST, DEMAND_LOADED, 'h', 'r', "DiFiori et al. 2006, Am J Sports Med 34:840-849"},
};

/* What the limb of the restriction does in ITEM, by the stance ledger. */
static bool limb_works(const struct restriction *one, const struct item *item, enum stance own)
{
    struct ledger ledger = {.own = own};
    for (size_t r = 0; r < item->run_count; r++)
        ledger_add(&ledger, item, &item->runs[r], 1);
    milli sum = 0;
    for (int unit = 0; unit < UNIT_COUNT; unit++) {
        bool left = one->side == 'l';
        if (one->limb == 'h') {
            sum += ledger_limb(&ledger, (enum unit)unit, left ? LIMB_LEFT_HAND : LIMB_RIGHT_HAND).high;
        } else {
            sum += ledger_limb(&ledger, (enum unit)unit, left ? LIMB_LEFT_LEG : LIMB_RIGHT_LEG).high;
            sum += ledger_limb(&ledger, (enum unit)unit, left ? LIMB_LEFT_HIP : LIMB_RIGHT_HIP).high;
        }
    }
    return sum > 0;
}

static bool takes_turns(const struct restriction *one, const struct exercise *exercise)
{
    const unsigned hands = WORKER_LEAD_HAND | WORKER_REAR_HAND | WORKER_HAND;
    return one->side && (exercise->side == SIDE_EACH_SIDE || exercise->side == SIDE_PER_STANCE) &&
           (one->limb == 'h' ? exercise->workers & hands : exercise->workers & ~hands);
}

static bool on_both(const struct restriction *one, const struct exercise *exercise)
{
    for (size_t i = 0; i < exercise->strains.count; i++) {
        const struct strain *strain = &exercise->strains.items[i];
        if (strain->joint == one->joint && strain->demand == one->demand && strain->both)
            return true;
    }
    return false;
}

struct tally_of_lines {
    size_t barred, cut, whole;
};

static void check_item(const struct restriction *one, const struct athlete *athlete, const struct item *item,
                       struct tally_of_lines *lines)
{
    const struct exercise *exercise = item->exercise;
    bool barred = avoid_bars_item(&athlete->avoids[0], item, athlete->stance); /* the plan's error */
    bool asked = asks(exercise, one->joint, one->demand);
    lines->barred += barred;
    lines->cut += !barred && item->sides_out;
    lines->whole += !barred && !item->sides_out;
    if (!asked && (barred || item->sides_out))
        refuse(exercise, "is barred and asks for nothing of it");
    if (asked && (!takes_turns(one, exercise) || on_both(one, exercise)) && !barred)
        refuse(exercise, "gets through, and works on both sides");
    if (asked && !barred && limb_works(one, item, athlete->stance))
        refuse(exercise, "gets through on the side that is barred");
}

static struct tally_of_lines check_restriction(const struct restriction *one, const char *stance)
{
    struct plan_reader reader, shelf;
    struct tally_of_lines lines = {0};
    plan_reader_open(&shelf);
    plan_reader_shelf(&shelf);
    plan_reader_resolve(&shelf);
    plan_reader_open(&reader);
    plan_reader_shelf(&reader);
    const char *plan = plan_with(reader.arena, shelf.programme, one->words, stance);
    plan_reader_text(&reader, "plan.bell", plan, strlen(plan));
    plan_reader_resolve(&reader);
    const struct programme *programme = reader.programme;
    size_t met = 0;
    for (size_t o = 0; o < programme->occasion_count; o++)
        for (size_t b = 0; b < programme->occasions[o].block_count; b++, met++)
            check_item(one, programme->occasions[o].athlete, &programme->occasions[o].blocks[b].items[0], &lines);
    assert_int_equal(met, shelf.programme->exercise_count);
    plan_reader_close(&reader);
    plan_reader_close(&shelf);
    return lines;
}

static void test_nothing_barred_gets_through(void **state)
{
    (void)state;
    faults = 0;
    for (size_t i = 0; i < sizeof restrictions / sizeof *restrictions; i++)
        for (int southpaw = 0; southpaw < 2; southpaw++) {
            const struct restriction *one = &restrictions[i];
            struct tally_of_lines lines = check_restriction(one, southpaw ? "southpaw" : "orthodox");
            assert_true(lines.barred + lines.cut >= SEVERAL);
            assert_true(lines.whole >= SEVERAL);
            if (!one->side)
                assert_int_equal(lines.cut, 0);
        }
    assert_int_equal(faults, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_each_entry_says_its_joints),
        cmocka_unit_test(test_nothing_barred_gets_through),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
