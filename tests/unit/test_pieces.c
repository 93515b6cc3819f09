/* Sets told one by one with their sides and loads: how many they are, what each is, and what sheets draw of them. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "base/text.h"
#include "layout/printed_dose.h"
#include "model/programme.h"
#include "wording/wording.h"
#include "plan_reader.h"

static const char head[] = "gym Shed\n"
                           "    barbells 20 kg\n"
                           "    plates 4 x 20, 4 x 10, 4 x 5, 4 x 2.5 kg\n"
                           "    stations landmine\n"
                           "    dumbbells pairs 4-30 kg by 2\n"
                           "athlete Wren Holloway\n"
                           "    stance southpaw\n"
                           "    trains at Shed\n"
                           "session S\n";

static const char tail[] = "camp C\n"
                           "    for Wren Holloway\n"
                           "    starts 2027-01-04\n"
                           "    week 1\n"
                           "        monday S\n";

/* What BLOCK, a block's line, makes of one line with DOSE for EXERCISE. */
static const struct item *item_of(struct plan_reader *reader, const char *block, const char *exercise, const char *dose)
{
    plan_reader_open(reader);
    plan_reader_shelf(reader);
    const char *text = arena_printf(reader->arena, "%s    %s\n        %s : %s\n%s", head, block, exercise, dose, tail);
    plan_reader_text(reader, "plan.bell", text, strlen(text));
    plan_reader_resolve(reader);
    assert_int_equal(reader->programme->occasion_count, 1);
    return &reader->programme->occasions[0].blocks[0].items[0];
}

/* TEXT with plain spaces. */
static const char *plain(struct arena *arena, const char *text)
{
    struct text out = {0};
    for (; *text; text += strncmp(text, WORDING_GAP, 2) == 0 ? 2 : 1)
        text_add_char(&out, strncmp(text, WORDING_GAP, 2) == 0 ? ' ' : *text);
    return text_keep(arena, &out);
}

static void expect_sets(const char *block, const char *exercise, const char *dose, int sets, const char *amounts,
                        const char *loads)
{
    struct plan_reader reader;
    const struct item *item = item_of(&reader, block, exercise, dose);
    if (diag_count(reader.diag, SEVERITY_ERROR))
        plan_reader_tell(&reader);
    assert_int_equal(diag_count(reader.diag, SEVERITY_ERROR), 0);
    const struct block *all = &reader.programme->occasions[0].blocks[0];
    assert_int_equal(item->sets, sets);
    assert_string_equal(plain(reader.arena, wording_dose(reader.arena, all, item)), amounts);
    assert_string_equal(plain(reader.arena, wording_loads(reader.arena, all, item, false)), loads);
    plan_reader_close(&reader);
}

static const char press[] = "landmine press from a stance";

static void a_set_for_each_piece(void **state)
{
    (void)state;
    expect_sets("straight A rest 1:30", press, "6 orthodox, 6 southpaw @ 20 kg", 2, "6 orthodox, 6 southpaw",
                "20 kg plates");
    expect_sets("straight A 4 sets", press, "6 orthodox, 6 southpaw, 4 orthodox, 4 southpaw @ 20, 20, 25, 25 kg", 4,
                "6 orthodox, 6 southpaw, 4 orthodox, 4 southpaw", "20, 20, 25, 25 kg plates");
    expect_sets("straight A", press, "3 x 6 orthodox, 6 southpaw @ 20 kg", 4,
                "6 orthodox, 6 orthodox, 6 orthodox, 6 southpaw", "20 kg plates");
    expect_sets("straight A", press, "6, 5 orthodox, 4 southpaw @ 20 kg", 3, "6 orthodox, 5 orthodox, 4 southpaw",
                "20 kg plates");
    expect_sets("straight A", "split squat", "6 left, 6 right @ 16 kg", 2, "6 left, 6 right",
                "16 kg one hand");
    expect_sets("straight A", "front plank", "hold 20 s, 30 s", 2, "hold 20 s, hold 30 s", "");
}

static void a_load_is_written_once_or_for_each(void **state)
{
    (void)state;
    expect_sets("straight A", press, "6 orthodox @ 25 kg, 6 southpaw @ 20 kg", 2, "6 orthodox, 6 southpaw",
                "25, 20 kg plates");
    expect_sets("straight A", press, "6 orthodox @ 25 kg, 6 southpaw", 2, "6 orthodox, 6 southpaw",
                "25 kg plates");
    expect_sets("straight A", press, "6 orthodox @ 20 kg RPE 7, 6 southpaw RPE 6", 2, "6 orthodox, 6 southpaw",
                "20 kg plates \302\267 RPE 7, 20 kg plates \302\267 RPE 6");
    expect_sets("straight A", press, "6 orthodox @ 25 kg, 6 southpaw RPE 8", 2, "6 orthodox, 6 southpaw",
                "25 kg plates, 25 kg plates \302\267 RPE 8");
    expect_sets("straight A", press, "6 orthodox @ 8RM, 6 southpaw easy", 2, "6 orthodox, 6 southpaw", "8RM, easy");
}

/* In a round the pieces follow one another until the bell. */
static void a_round_goes_on_with_intervals(void **state)
{
    (void)state;
    expect_sets("rounds A 2 x 1:00 rest 1:00", "jab", "4 s all-out, 26 s easy", 2,
                "2 \303\227 (4 s southpaw all-out, 26 s southpaw easy)", "");
}

static void expect_error(const char *block, const char *dose, const char *name)
{
    struct plan_reader reader;
    item_of(&reader, block, press, dose);
    assert_int_equal(diag_count(reader.diag, SEVERITY_ERROR), 1);
    assert_string_equal(diagnostic_name(reader.diag->items[0]->diagnostic), name);
    plan_reader_close(&reader);
}

static void what_does_not_come_out_even(void **state)
{
    (void)state;
    expect_error("straight A 4 sets", "6 orthodox, 6 southpaw @ 20 kg", "sets-disagree");
    expect_error("straight A", "6 orthodox, 6 southpaw @ 20, 20, 25 kg", "lists-disagree");
    expect_error("straight A", "60 x 6 orthodox, 60 x 6 southpaw @ 20 kg", "bad-count");
}

/* The feet of each set are drawn, and no word of a sheet is a comma alone. */
static void each_stance_has_its_feet(void **state)
{
    (void)state;
    static const struct {
        const char *block, *exercise, *dose;
        int feet;
    } cases[] = {{"straight A", press, "6 orthodox, 6 southpaw @ 20 kg", 2},
                 {"straight A", press, "6, 6, 4, 4 orthodox @ 20 kg", 1},
                 {"straight A", press, "6 orthodox + 4 southpaw, 6 southpaw @ 20, 15 kg", 3},
                 {"rounds A 2 x 2:00 rest 1:00", "jab cross hook on the bag", "10 orthodox, 10 southpaw", 2}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        struct plan_reader reader;
        const struct item *item = item_of(&reader, cases[i].block, cases[i].exercise, cases[i].dose);
        const struct block *block = &reader.programme->occasions[0].blocks[0];
        struct printed_dose dose = {.arena = reader.arena};
        dose_add_amounts(&dose, block, item);
        dose_add_loads(&dose, block, item, false, true);
        int feet = 0;
        for (size_t k = 0; k < dose.count; k++) {
            const struct dose_bit *bit = &dose.bits[k];
            feet += bit->kind == BIT_STANCE;
            bool comma = bit->kind == BIT_WORD && strcmp(bit->text, ",") == 0;
            assert_false(comma && (bit->begins || k == 0));
            assert_true(bit->kind != BIT_WORD || !strstr(bit->text, "orthodox"));
        }
        assert_int_equal(feet, cases[i].feet);
        plan_reader_close(&reader);
    }
}

/* In turn, of an odd number: whoever begins does one more and stands first. The athlete is a southpaw. */
static void feet_of_who_begins_come_first(void **state)
{
    (void)state;
    static const struct {
        const char *dose, *feet;
    } cases[] = {{"11 alternating stances", "so"}, {"10 alternating stances", "os"}, {"1 alternating stances", "s"}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        struct plan_reader reader;
        const struct item *item = item_of(&reader, "straight A 2 sets", press, cases[i].dose);
        struct printed_dose dose = {.arena = reader.arena};
        dose_add_amounts(&dose, &reader.programme->occasions[0].blocks[0], item);
        struct text feet = {0};
        for (size_t k = 0; k < dose.count; k++)
            if (dose.bits[k].kind == BIT_STANCE)
                text_add_char(&feet, dose.bits[k].side == DOSE_SOUTHPAW ? 's' : 'o');
        assert_string_equal(text_keep(reader.arena, &feet), cases[i].feet);
        plan_reader_close(&reader);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_set_for_each_piece),
        cmocka_unit_test(a_load_is_written_once_or_for_each),
        cmocka_unit_test(a_round_goes_on_with_intervals),
        cmocka_unit_test(what_does_not_come_out_even),
        cmocka_unit_test(each_stance_has_its_feet),
        cmocka_unit_test(feet_of_who_begins_come_first),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
