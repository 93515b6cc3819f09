/* What becomes of a load where another exercise is done than the line says: it never goes over to another implement. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "measure/loads.h"
#include "kg.h"
#include "model/programme.h"
#include "plan_reader.h"
#include "rules/rules.h"

/* The gym, then what stands below the athlete, then the line and what stands below it. */
static const char plan[] = "gym Shed\n"
                           "%s"
                           "athlete Wren Holloway\n"
                           "    stance orthodox\n"
                           "    trains at Shed\n"
                           "    bests\n"
                           "        back squat : 1 @ 100 kg on 2027-01-01\n"
                           "%s"
                           "session S\n"
                           "    straight A 3 sets rest 1:00\n"
                           "        %s\n"
                           "limits nothing\n"
                           "    every session\n"
                           "        time at most 3 h\n"
                           "camp C\n"
                           "    for Wren Holloway\n"
                           "    starts 2027-01-04\n"
                           "    limits nothing\n"
                           "    weeks 1-2\n"
                           "        monday S\n";

static void open_plan(struct plan_reader *reader, const char *gym, const char *athlete, const char *line)
{
    plan_reader_open(reader);
    plan_reader_shelf(reader);
    const char *text = arena_printf(reader->arena, plan, gym, athlete, line);
    plan_reader_text(reader, "plan.bell", text, strlen(text));
    plan_reader_resolve(reader);
}

static const struct item *first_item(const struct plan_reader *reader)
{
    assert_true(reader->programme->occasion_count > 0);
    assert_true(reader->programme->occasions[0].block_count > 0);
    assert_true(reader->programme->occasions[0].blocks[0].item_count > 0);
    return &reader->programme->occasions[0].blocks[0].items[0];
}

static size_t found(const struct plan_reader *reader, const char *name)
{
    size_t count = 0;
    diag_sort(reader->diag);
    for (size_t i = 0; i < reader->diag->count; i++)
        count += strcmp(diagnostic_name(reader->diag->items[i]->diagnostic), name) == 0;
    return count;
}

struct expected {
    const char *gym, *athlete, *line;
    const char *exercise; /* folded: what is done */
    enum load_kind load;
    mass made;
    size_t asked; /* times that the coach is asked */
};

static const char bare[] = "    dumbbells pairs 4-30 kg by 2\n    bands light, heavy\n";
static const char bells[] = "    kettlebells 2 x 16 kg\n    barbells 20 kg\n    plates 4 x 20, 4 x 10, 4 x 5 kg\n";
static const char nothing[] = "    also has rope\n";

static const struct expected expected[] = {
    /* the two that a published card got wrong */
    {bare, "", "landmine press from a stance : 4 each stance @ 20 kg", "band press from a stance", LOAD_NONE, 0, 1},
    {bare, "", "goblet squat : 8 @ 16 kg", "dumbbell goblet squat", LOAD_NONE, 0, 1},
    {nothing, "", "goblet squat : 8 @ 16 kg", "bodyweight squat", LOAD_NONE, 0, 1},
    /* an effort says enough */
    {bare, "", "goblet squat : 8 @ 16 kg RPE 7", "dumbbell goblet squat", LOAD_NONE, 0, 0},
    {bare, "", "landmine press from a stance : 4 each stance @ 20 kg 2 in reserve", "band press from a stance",
     LOAD_NONE, 0, 0},
    /* no load, nothing to ask */
    {bare, "", "goblet squat : 8", "dumbbell goblet squat", LOAD_NONE, 0, 0},
    /* a share of a best that is there goes over, one of none does not */
    {bells, "", "box squat : 5 @ 50%", "goblet squat", LOAD_NONE, 0, 1},
    {bells, "        deadlift : 1 @ 150 kg on 2027-01-01\n", "trap bar deadlift : 5 @ 60%", "raised barbell deadlift",
     LOAD_NONE, 0, 1},
    /* two of a pair are not one; a trap bar is no barbell */
    {bells, "", "trap bar deadlift : 5 @ 60 kg", "raised barbell deadlift", LOAD_NONE, 0, 1},
    {bare, "", "farmer carry : 20 m @ 2 x 16 kg", "dumbbell farmer carry", LOAD_NONE, 0, 1},
    /* the same bar and discs, or the same belt: it goes over */
    {"    barbells 20 kg\n    plates 4 x 20 kg\n", "", "good morning : 5 @ 60 kg", "romanian deadlift", LOAD_MASS, KG(60),
     0},
    {"    stations rings\n    plates 4 x 5 kg\n", "", "chin-up : 5 @ body mass + 5 kg", "inverted row", LOAD_BODY, KG(5), 0},
    {nothing, "", "chin-up : 5 @ body mass", "prone lat pull", LOAD_BODY, 0, 0},
    {bare, "", "push-up : 8 @ body mass\n            for Wren Holloway, dumbbell floor press", "dumbbell floor press",
     LOAD_NONE, 0, 1},
    /* a band for a band */
    {"    bands light\n", "    avoid band face pull\n        instead band pull-apart\n",
     "band face pull : 15 @ light band", "band pull-apart", LOAD_BAND, 0, 0},
    {"    bands light\n", "    avoid band face pull\n        instead prone t raise\n",
     "band face pull : 15 @ light band", "prone t raise", LOAD_NONE, 0, 1},
    /* a restriction and a line of the coach's own are no better */
    {bells, "    avoid back squat\n        instead goblet squat\n", "back squat : 5 @ 80%\n            cue sit", "goblet squat",
     LOAD_NONE, 0, 1},
    {bells, "", "zercher squat : 5 @ 50 kg\n            for Wren Holloway, goblet squat", "goblet squat", LOAD_NONE, 0, 1},
    {bells, "", "zercher squat : 5 @ 50 kg\n            for Wren Holloway, goblet squat : 8", "goblet squat", LOAD_NONE, 0,
     0},
    {bells, "", "zercher squat : 5 @ 50 kg\n            for Wren Holloway, goblet squat : 8 @ 16 kg", "goblet squat",
     LOAD_MASS, KG(16), 0},
    {bells, "", "zercher squat : 5 @ 50 kg\n            for Wren Holloway, goblet squat : @ 16 kg", "goblet squat", LOAD_MASS,
     KG(16), 0},
};

static void test_no_load_goes_over_to_another_implement(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof expected / sizeof *expected; i++) {
        const struct expected *wanted = &expected[i];
        struct plan_reader reader;
        open_plan(&reader, wanted->gym, wanted->athlete, wanted->line);
        const struct item *item = first_item(&reader);
        const struct load *load = &item->runs[0].load;
        if (strcmp(item->exercise->name.folded, wanted->exercise) != 0 || load->kind != wanted->load ||
            load->made != wanted->made || found(&reader, "load-gone") != wanted->asked ||
            diag_count(reader.diag, SEVERITY_ERROR) != wanted->asked) {
            plan_reader_tell(&reader);
            fail_msg("`%s`: %s with load %d of %ld, asked %zu times", wanted->line, item->exercise->name.shown,
                     (int)load->kind, (long)load->made, found(&reader, "load-gone"));
        }
        plan_reader_close(&reader);
    }
}

/* Half of A is half of what A says, and of nothing where this athlete does A with another implement. */
static void test_a_share_of_another_implement_is_asked_for(void **state)
{
    static const struct {
        const char *line;
        size_t asked;
    } cases[] = {
        {"front squat : 5 @ 60 kg\n        front squat : 8 @ 50% of A.1", 0},
        {"front squat : 5 @ 60 kg\n            for Wren Holloway, goblet squat : 5 @ 16 kg\n"
         "        zercher squat : 8 @ 50% of A.1", 1},
        {"front squat : 5 @ 60 kg\n            for Wren Holloway, goblet squat : 5 @ 16 kg\n"
         "        zercher squat : 8 @ 50% of A.1 RPE 6", 0},
    };
    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        struct plan_reader reader;
        open_plan(&reader,
                  "    kettlebells 16 kg\n    barbells 10 kg\n    plates 4 x 20, 4 x 5 kg\n    stations rack\n", "",
                  cases[i].line);
        if (diag_count(reader.diag, SEVERITY_ERROR) != cases[i].asked)
            plan_reader_tell(&reader);
        assert_int_equal(found(&reader, "load-gone"), cases[i].asked);
        assert_int_equal(diag_count(reader.diag, SEVERITY_ERROR), cases[i].asked);
        plan_reader_close(&reader);
    }
}

/* Two weeks and two lines of one exercise are reported once. What the coach wrote is not reported. */
static void test_each_substitution_is_told_once(void **state)
{
    static const struct {
        const char *athlete, *line;
        size_t told;
        enum severity severity;
    } cases[] = {
        {"", "goblet squat : 8 RPE 7\n        goblet squat : 5 RPE 7", 1, SEVERITY_WARNING},
        {"", "goblet squat : 8 RPE 7\n        kettlebell swing : 5 RPE 7", 2, SEVERITY_WARNING},
        {"", "goblet squat : 8 RPE 7\n            without kettlebell, bodyweight squat", 0, SEVERITY_WARNING},
        {"", "bodyweight squat : 8", 0, SEVERITY_WARNING},
        {"    avoid bodyweight squat\n        instead glute bridge\n", "bodyweight squat : 8", 1, SEVERITY_INFO},
    };
    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        struct plan_reader reader;
        open_plan(&reader, bare, cases[i].athlete, cases[i].line);
        assert_int_equal(diag_count(reader.diag, SEVERITY_ERROR), 0);
        rules_run(reader.programme, reader.diag);
        if (found(&reader, "substituted") != cases[i].told)
            plan_reader_tell(&reader);
        assert_int_equal(found(&reader, "substituted"), cases[i].told);
        for (size_t k = 0; k < reader.diag->count; k++)
            if (strcmp(diagnostic_name(reader.diag->items[k]->diagnostic), "substituted") == 0) {
                assert_int_equal(reader.diag->items[k]->severity, cases[i].severity);
                assert_null(strstr(reader.diag->items[k]->words, "avoid")); /* never why */
            }
        plan_reader_close(&reader);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_no_load_goes_over_to_another_implement),
        cmocka_unit_test(test_a_share_of_another_implement_is_asked_for),
        cmocka_unit_test(test_each_substitution_is_told_once),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
