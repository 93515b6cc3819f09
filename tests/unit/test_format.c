/* The one layout, construct by construct; and the shelf and the examples, which must mean the same
 * in it. */
#include <stdarg.h>
#include <stddef.h>
#include <setjmp.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>
#include <cmocka.h>

#include <glib.h>

#include "syntax/format.h"
#include "syntax/read.h"

struct room {
    struct arena *arena;
    struct sources sources;
    struct diag *diag;
    const struct phrasebook *phrases;
};

static struct room *room_new(void)
{
    struct arena *arena = arena_new();
    struct room *room = arena_alloc(arena, sizeof *room);
    *room = (struct room){
        .arena = arena, .sources = {.arena = arena}, .phrases = phrasebook_new(arena)};
    room->diag = diag_new(arena, &room->sources);
    return room;
}

static enum format_outcome format_text(struct room *room, const char *plan, struct text *out)
{
    int file = source_add(&room->sources, "plan.bell", plan, strlen(plan));
    return format_source(room->arena, &room->sources, (unsigned)file, room->phrases, room->diag,
                         out);
}

/* PLAN comes out as WANTED, which is then left alone. */
static void check_layout(const char *plan, const char *wanted)
{
    struct room *room = room_new();
    struct text out = {0}, again = {0};
    enum format_outcome outcome = format_text(room, plan, &out);
    assert_string_equal(text_get(&out), wanted);
    assert_int_equal(outcome, strcmp(plan, wanted) == 0 ? FORMAT_SAME : FORMAT_CHANGED);
    assert_int_equal(format_text(room, wanted, &again), FORMAT_SAME);
    text_free(&out);
    text_free(&again);
    arena_free(room->arena);
}

/* One exercise of a block: its dose DOSE comes out as WANTED. */
static void check_dose(const char *dose, const char *wanted)
{
    struct text plan = {0}, layout = {0};
    text_addf(&plan, "session S\n  straight A\n   e : %s\n", dose);
    text_addf(&layout, "session S\n    straight A\n        e : %s\n", wanted);
    check_layout(text_get(&plan), text_get(&layout));
    text_free(&plan);
    text_free(&layout);
}

static void test_keywords(void **state)
{
    (void)state;
    check_layout("athlete Oriel \t Tamsin\r\n"
                 "\tBorn 2003-09-14\r\n"
                 "\tbodyweight 58.40kg on 2027-01-04\r\n"
                 "\tlifting since   2025-02\r\n"
                 "\tbests\r\n"
                 "\t\tsafety bar squat: 1 @92.5 kg on 2027-01-05\r\n"
                 "\t\trow : 5 @ 40 kg on 2027-01-05\r\n"
                 "\tavoid overhead  press,jumps\r\n"
                 "\t  review on 2027-02-15\r\n",
                 "athlete Oriel Tamsin\n"
                 "    born          2003-09-14\n"
                 "    body mass     58.4 kg on 2027-01-04\n"
                 "    lifting since 2025-02\n"
                 "    bests\n"
                 "        safety bar squat : 1 @ 92.5 kg on 2027-01-05\n"
                 "        row              : 5 @ 40 kg on 2027-01-05\n"
                 "    avoid         overhead press, jumps\n"
                 "        review on 2027-02-15\n");
}

static void test_gym(void **state)
{
    (void)state;
    check_layout("gym Slipway\n"
                 " barbell 3x20kg,15 kilos\n"
                 " plates 4 × 25, 4 x 1.25 kg\n"
                 " dumbbells pairs 4–30kg by 2\n"
                 " stations 2x  rack ,ring\n",
                 "gym Slipway\n"
                 "    barbells    3 x 20 kg, 15 kg\n"
                 "    plates      4 x 25, 4 x 1.25 kg\n"
                 "    dumbbells   pairs 4-30 kg by 2\n"
                 "    stations    2 x rack, ring\n");
}

static void test_session(void **state)
{
    (void)state;
    check_layout("session Hands, then   hips based on  Day 2\n"
                 " under 70min\n"
                 " rounds 4x2:00 rest 0:40\n"
                 "  rope : easy\n"
                 "  filler 90-90 hip switch : 6 per side\n"
                 "  round 2 : rope : all out\n"
                 " superset B 3 sets rest 90 s\n"
                 "  投げ : 5\n"
                 "  safety bar squat : 5 @82 % tempo 3-1-x-0\n"
                 "   cue   knees  follow the toes\n"
                 "   for novice : 8–12 @ RPE 6\n"
                 "   for Oriel Tamsin,goblet squat : 8 @ 24 kg\n"
                 "   week 3-4 : 4\n"
                 "   weeks 2 to 1 out : 3\n"
                 "   week 1 out: 2\n"
                 "  a very long name that stands by itself alone : 5\n",
                 "session Hands, then hips based on Day 2\n"
                 "    under     70 min\n"
                 "    rounds 4 x 2:00 rest 0:40\n"
                 "        rope                    : easy\n"
                 "        filler 90-90 hip switch : 6 each side\n"
                 "        round 2 : rope          : all-out\n"
                 "    superset B  3 sets rest 90 s\n"
                 "        投げ             : 5\n"
                 "        safety bar squat : 5 @ 82% tempo 3-1-X-0\n"
                 "            cue  knees  follow the toes\n"
                 "            for novice                     : 8-12 @ RPE 6\n"
                 "            for Oriel Tamsin, goblet squat : 8 @ 24 kg\n"
                 "            weeks 3-4                      : 4\n"
                 "            weeks 2-1 out                  : 3\n"
                 "            week 1 out                     : 2\n"
                 "        a very long name that stands by itself alone : 5\n");
}

static void test_doses(void **state)
{
    (void)state;
    check_dose("4x8", "4 x 8");
    check_dose("8 , 8, 10 @ 60, 60, 55kg", "8, 8, 10 @ 60, 60, 55 kg");
    check_dose("4 orthodox+4 southpaw @ 78 / 80/82.50/...%",
               "4 orthodox + 4 southpaw @ 78/80/82.5/...%");
    check_dose("2 + 2 + 2 @ 85 % rest 15 sec", "2+2+2 @ 85% rest 15 s");
    check_dose("5 @ bodyweight+10 kg", "5 @ body mass + 10 kg");
    check_dose("5 RPE 8", "5 @ RPE 8");
    check_dose("5 @ 75% @ rpe 7-9", "5 @ 75% RPE 7-9");
    check_dose("5 2 reps in reserve", "5 @ 2 in reserve");
    check_dose("20m @ all out", "20 m all-out");
    check_dose("work up to 3 RM", "work up to a 3RM");
    check_dose("max RM", "max RM");
    check_dose("1 hour 10 minutes", "1:10:00");
    check_dose("90:05", "1:30:05");
    check_dose("1 reps", "1 rep");
    check_dose("1000-1200 m", "1000-1200 m");
    check_dose("1000 / 60 / 50 m", "1000 / 60 / 50 m");
    check_dose("1000 - 50 m", "1000 - 50 m");
    check_dose("4 s all out,28 s easy", "4 s all-out, 28 s easy");
    check_dose("10 alternating  stance @ 20kg", "10 alternating stances @ 20 kg");
    check_dose("3 @ 20 % of body weight + 5kg", "3 @ 20% of body mass + 5 kg");
    check_dose("3 @ 2x16kg", "3 @ 2 x 16 kg");
}

static void test_camp(void **state)
{
    (void)state;
    check_layout("camp Final\n"
                 "    starts 2027-03-01\n"
                 "    bout 2027-05-22  kickboxing 3 x 2:00\n"
                 "    phases\n"
                 "        base : until strength\n"
                 "        taper : 1 weeks\n"
                 "    week 1 - 4\n"
                 "        Monday 7:30 Hips  before hands\n"
                 "        wednesday 18:00 pads: 60 min @ RPE 6\n"
                 "        friday, tue 17:30 in turn Upper 1,Lower 1\n"
                 "    3 to 1 weeks out\n"
                 "        monday 17:30 Hips from column 2\n"
                 "            change A.1: 2 @ 86%\n"
                 "            drop C,A.2\n"
                 "            waive strikes-over in week 10\n"
                 "                because  extra  rounds\n"
                 "    week 1 out\n"
                 "        thursday off\n",
                 "camp Final\n"
                 "    starts    2027-03-01\n"
                 "    bout      2027-05-22 kickboxing 3 x 2:00\n"
                 "    phases\n"
                 "        base  : until strength\n"
                 "        taper : 1 week\n"
                 "    weeks 1-4\n"
                 "        monday    07:30  Hips before hands\n"
                 "        wednesday 18:00  pads : 60 min RPE 6\n"
                 "        tuesday, friday 17:30  in turn  Upper 1, Lower 1\n"
                 "    weeks 3-1 out\n"
                 "        monday    17:30  Hips from column 2\n"
                 "            change  A.1 : 2 @ 86%\n"
                 "            drop    C, A.2\n"
                 "            waive   strikes-over  in week 10\n"
                 "                because extra  rounds\n"
                 "    1 week out\n"
                 "        thursday  off\n");
}

static void test_limits_and_log(void **state)
{
    (void)state;
    check_layout("limits House\n"
                 "    every week\n"
                 "        all-out strikes   at most 240 a side\n"
                 "        pull sets at least 1.2 to 1 push info\n"
                 "        intensity within 75 - 90 %\n"
                 "        first 2 weeks within 3-4\n"
                 "log 2027-03-08 Oriel Tamsin , Hips\n"
                 "    took 64 min @ RPE 7\n"
                 "    A.1: 4 + 4 @ 35kg;4+3 @ 37.5kg RPE 9\n"
                 "    A.10 : 3x5\n"
                 "    skipped C  late: no time\n",
                 "limits House\n"
                 "    every week\n"
                 "        all-out strikes  at most 240 a side\n"
                 "        pull sets        at least 1.2 to 1 push info\n"
                 "        intensity        75-90%\n"
                 "        first 2 weeks    within 3-4\n"
                 "\n"
                 "log 2027-03-08 Oriel Tamsin, Hips\n"
                 "    took      64 min RPE 7\n"
                 "    A.1  : 4+4 @ 35 kg; 4+3 @ 37.5 kg RPE 9\n"
                 "    A.10 : 3 x 5\n"
                 "    skipped   C late: no time\n");
}

static void test_comments_and_blank_lines(void **state)
{
    (void)state;
    check_layout("\n\n# head\n"
                 "gym A # a\n"
                 "# below\n"
                 "  bars\ttrap bar 25 kg  \t#  kept  as  it is \n"
                 "\n\n\n"
                 "  # end of A\n"
                 "   # deeper than any line\n"
                 "# of B\n"
                 "  # no more of A\n"
                 "session B\n"
                 "      straight A\n"
                 "            rope : 5\n"
                 "            # end of block\n"
                 "        # between: of the session\n"
                 "      straight B\n"
                 "# end of file",
                 "# head\n"
                 "gym A  # a\n"
                 "    # below\n"
                 "    bars        trap bar 25 kg  #  kept  as  it is\n"
                 "\n"
                 "    # end of A\n"
                 "    # deeper than any line\n"
                 "\n"
                 "# of B\n"
                 "# no more of A\n"
                 "session B\n"
                 "    straight A\n"
                 "        rope : 5\n"
                 "        # end of block\n"
                 "    # between: of the session\n"
                 "    straight B\n"
                 "# end of file\n");
    check_layout("use a.bell\nuse b.bell\n\nuse c.bell\ngym A\n",
                 "use a.bell\nuse b.bell\n\nuse c.bell\n\ngym A\n");
    check_layout("", "");
    check_layout("\n \n", "");
    check_layout("# alone", "# alone\n");
}

static void refuse(const char *plan, const char *name)
{
    struct room *room = room_new();
    struct text out = {0};
    assert_int_equal(format_text(room, plan, &out), FORMAT_FAULTY);
    assert_string_equal(diagnostic_name(room->diag->items[0]->diagnostic), name);
    text_free(&out);
    arena_free(room->arena);
}

/* Signs that a space beside them would turn into something else belong to no name. */
static void test_loose_signs(void **state)
{
    (void)state;
    check_layout("session S\n    straight A\n        board #2 : 5\n        3:1 row  # : 5\n",
                 "session S\n    straight A\n        board #2 : 5\n        3:1 row  # : 5\n");
    refuse("session S\n    straight A\n        no  #: 5\n", "loose-sign");
    refuse("session S\n    straight A\n        row : 5 @:5\n", "loose-sign");
    refuse("gym G\n    stations rack #2\n", "loose-sign");
    refuse("camp C\n    bout 2027-05-22# final\n", "loose-sign");
}

static void test_byte_order_mark(void **state)
{
    (void)state;
    check_layout("\xef\xbb\xbfgym A\n", "gym A\n");
}

static void test_faulty(void **state)
{
    (void)state;
    struct room *room = room_new();
    struct text out = {0};
    assert_int_equal(format_text(room, "gym A\n    nonsense 5\n    bars 2,5 kg\n", &out),
                     FORMAT_FAULTY);
    assert_int_equal(out.length, 0);
    assert_int_equal(diag_count(room->diag, SEVERITY_ERROR), 2);
    /* The errors of one file are not another's. */
    assert_int_equal(format_text(room, "gym A\n", &out), FORMAT_SAME);
    text_free(&out);
    arena_free(room->arena);
}

/* --- the files that come with the program --- */

static void check_file(const char *path)
{
    struct room *room = room_new();
    const char *wrong = NULL;
    int file = source_read(&room->sources, path, path, &wrong);
    assert_true(file >= 0);
    struct text out = {0}, again = {0};
    enum format_outcome outcome =
        format_source(room->arena, &room->sources, (unsigned)file, room->phrases, room->diag, &out);
    if (outcome != FORMAT_SAME && outcome != FORMAT_CHANGED)
        fail_msg("%s: outcome %d", path, (int)outcome);
    assert_int_equal(format_text(room, text_get(&out), &again), FORMAT_SAME);
    text_free(&out);
    text_free(&again);
    arena_free(room->arena);
}

static unsigned check_folder(const char *path)
{
    unsigned count = 0;
    GDir *folder = g_dir_open(path, 0, NULL);
    if (!folder)
        return 0;
    for (const char *name; (name = g_dir_read_name(folder)) != NULL;) {
        char *below = g_build_filename(path, name, NULL);
        if (g_file_test(below, G_FILE_TEST_IS_DIR)) {
            count += check_folder(below);
        } else if (g_str_has_suffix(name, ".bell")) {
            check_file(below);
            count++;
        }
        g_free(below);
    }
    g_dir_close(folder);
    return count;
}

static void test_shelf_and_examples(void **state)
{
    (void)state;
    assert_true(check_folder("share") > 20);
    check_folder("examples");
}

/* What a file means does not change with its layout, and changes with everything else. */
static void test_two_trees(void **state)
{
    static const struct {
        const char *one, *other;
        bool same;
    } rows[] = {
        {"session A  B\n", "session A\tB\n", true},
        {"session A\n  straight A\n    e : 5\n", "session A\n    straight A\n     e : 5 # five\n", true},
        {"session A\n", "session B\n", false},
        {"session Ab\n", "session A\n", false},
        {"session A\n", "session Ab\n", false},
        {"session A B\n", "session AxB\n", false},
        {"session A\n", "camp A\n", false},
        {"session A\n", "session A\nsession B\n", false},
        {"session A\nsession B\n", "session A\n", false},
        {"session A\n straight A\n  e : 5\n", "session A\n straight A\n  e : 6\n", false},
        {"session A\n straight A\n  e : 5 easy\n", "session A\n straight A\n  e : 5 all-out\n", false},
        {"session A\n straight A\n  e : 5 @ last\n", "session A\n straight A\n  e : 5 @ last + 5 kg\n", false},
        {"session A\n straight A\n  e : 5 @ last + 5 kg\n", "session A\n straight A\n  e : 5 @ last\n", false},
        {"session A\n straight A\n  e : 5 easy\n", "session A\n straight A\n  e : 5\n", false},
    };
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct room *room = room_new();
        int one = source_add(&room->sources, "one.bell", rows[i].one, strlen(rows[i].one));
        int other = source_add(&room->sources, "other.bell", rows[i].other, strlen(rows[i].other));
        const struct tree *left = read_file(room->arena, &room->sources, (unsigned)one, room->phrases, room->diag);
        const struct tree *right = read_file(room->arena, &room->sources, (unsigned)other, room->phrases, room->diag);
        if (node_same(left->root, right->root) != rows[i].same)
            fail_msg("row %zu: %sand\n%s", i, rows[i].one, rows[i].other);
        arena_free(room->arena);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_keywords),
        cmocka_unit_test(test_gym),
        cmocka_unit_test(test_session),
        cmocka_unit_test(test_doses),
        cmocka_unit_test(test_camp),
        cmocka_unit_test(test_limits_and_log),
        cmocka_unit_test(test_comments_and_blank_lines),
        cmocka_unit_test(test_loose_signs),
        cmocka_unit_test(test_byte_order_mark),
        cmocka_unit_test(test_faulty),
        cmocka_unit_test(test_two_trees),
        cmocka_unit_test(test_shelf_and_examples),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
