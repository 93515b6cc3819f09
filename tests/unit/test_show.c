/* What is understood of each kind of dose, load and rest that a programme on paper may hold, and
 * how it is shown: as text, and as JSON that keeps to its schema and to what is private. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "export/show_programme.h"
#include "kg.h"
#include "model/programme.h"
#include "plan_reader.h"
#include "source/screen.h"
#include "unit/json_schema.h"

#define COUNT(list) (sizeof(list) / sizeof *(list))

static void open_file(struct plan_reader *reader, const char *path)
{
    plan_reader_open(reader);
    plan_reader_shelf(reader);
    plan_reader_file(reader, path, false);
    plan_reader_resolve(reader);
    if (diag_count(reader->diag, SEVERITY_ERROR))
        plan_reader_tell(reader);
    assert_int_equal(diag_count(reader->diag, SEVERITY_ERROR), 0);
}

/* A plan of one athlete and session on the first four Mondays of 2027. */
static const char person[] = "gym Yard\n"
                             "    barbells 20 kg\n"
                             "    plates 4 x 20, 4 x 10, 4 x 5, 4 x 2.5, 4 x 1.25 kg\n"
                             "    stations rack, bench, sled, heavy bag\n"
                             "athlete Wren Holloway\n"
                             "    stance southpaw\n"
                             "    trains at Yard\n"
                             "    bests\n"
                             "        back squat : 1 @ 100 kg on 2027-01-02\n"
                             "camp C\n"
                             "    for Wren Holloway\n"
                             "    starts 2027-01-04\n"
                             "    weeks 1-4\n"
                             "        monday S\n";

static void open_text(struct plan_reader *reader, const char *session)
{
    plan_reader_open(reader);
    plan_reader_shelf(reader);
    const char *text = arena_printf(reader->arena, "%ssession S\n%s", person, session);
    plan_reader_text(reader, "plan.bell", text, strlen(text));
    plan_reader_resolve(reader);
}

/* The first run of item INDEX in the block called LETTER of the plan's first session of that block. */
static const struct set_run *run_in(const struct plan_reader *reader, char letter, size_t index)
{
    const struct programme *programme = reader->programme;
    for (size_t i = 0; i < programme->occasion_count; i++)
        for (size_t b = 0; b < programme->occasions[i].block_count; b++) {
            const struct block *block = &programme->occasions[i].blocks[b];
            if (block->letter == letter && strcmp(programme->occasions[i].session->name.shown,
                                                  "Morning run") != 0)
                return &block->items[index].runs[0];
        }
    fail();
    return NULL;
}

static const struct block *block_in(const struct plan_reader *reader, int week, char letter)
{
    const struct programme *programme = reader->programme;
    for (size_t i = 0; i < programme->occasion_count; i++)
        for (size_t b = 0; b < programme->occasions[i].block_count; b++)
            if (programme->occasions[i].week == week &&
                strcmp(programme->occasions[i].session->name.shown, "Kinds") == 0 &&
                programme->occasions[i].blocks[b].letter == letter)
                return &programme->occasions[i].blocks[b];
    fail();
    return NULL;
}

static void assert_range(struct range range, milli low, milli high)
{
    assert_int_equal(range.low, low);
    assert_int_equal(range.high, high);
}

/* --- kinds of dose --- */

static void counts_and_lists(void **state)
{
    (void)state;
    struct plan_reader reader;
    open_file(&reader, "tests/unit/plans/kinds.bell");
    assert_range(run_in(&reader, 'A', 0)->parts[0].amount, 8000, 10000);
    const struct block *block = block_in(&reader, 1, 'A');
    assert_int_equal(block->rest_low, 120);
    assert_int_equal(block->rest_high, 180);

    static const struct {
        int sets;
        milli reps;
        mass load;
    } sets[] = {{2, 8000, KG(40)}, {1, 10000, KG(35)}, {1, 12000, KG(30)}};
    const struct item *list = &block_in(&reader, 1, 'B')->items[0];
    assert_int_equal(list->run_count, COUNT(sets));
    assert_int_equal(list->sets, 4);
    for (size_t i = 0; i < COUNT(sets); i++) {
        assert_int_equal(list->runs[i].count, sets[i].sets);
        assert_range(list->runs[i].parts[0].amount, sets[i].reps, sets[i].reps);
        assert_int_equal(list->runs[i].load.made, sets[i].load);
    }
    assert_true(run_in(&reader, 'M', 0)->parts[0].max);
    plan_reader_close(&reader);
}

static void columns_by_week(void **state)
{
    static const struct {
        int sets;
        milli reps, percent;
    } weeks[] = {{3, 5000, 70000}, {4, 5000, 72500}, {3, 4000, 75000}, {2, 3000, 77500}};
    (void)state;
    struct plan_reader reader;
    open_file(&reader, "tests/unit/plans/kinds.bell");
    for (size_t w = 0; w < COUNT(weeks); w++) {
        const struct block *block = block_in(&reader, (int)w + 1, 'C');
        assert_int_equal(block->sets, weeks[w].sets);
        assert_int_equal(block->items[0].runs[0].count, weeks[w].sets);
        assert_range(block->items[0].runs[0].parts[0].amount, weeks[w].reps, weeks[w].reps);
        assert_range(block->items[0].runs[0].load.percent, weeks[w].percent, weeks[w].percent);
    }
    plan_reader_close(&reader);
}

/* Each partner of a pair has a rest of its own: one before the other, one inside its set. */
static void rests_nested_in_a_pair(void **state)
{
    (void)state;
    struct plan_reader reader;
    open_file(&reader, "tests/unit/plans/kinds.bell");
    const struct block *pair = block_in(&reader, 1, 'C');
    assert_int_equal(pair->rest_low, 90);
    assert_int_equal(pair->items[1].after, 60);
    const struct set_run *sled = &pair->items[1].runs[0];
    assert_int_equal(sled->count, 3);
    assert_int_equal(sled->repeats, 3);
    assert_int_equal(sled->rest_low, 10);
    assert_int_equal(sled->rest_high, 20);
    assert_int_equal(sled->seconds, 3 * 7 + 2 * 15); /* 10 m at 1.5 m/s, the middle of the rest */
    const struct set_run *cluster = run_in(&reader, 'N', 0);
    assert_int_equal(cluster->part_count, 3);
    assert_int_equal(cluster->rest_low, 15);
    assert_int_equal(cluster->seconds, 6 * 3 + 2 * 15);
    plan_reader_close(&reader);
}

static void seconds_metres_and_pulse(void **state)
{
    (void)state;
    struct plan_reader reader;
    open_file(&reader, "tests/unit/plans/kinds.bell");
    const struct set_run *plank = run_in(&reader, 'D', 0);
    assert_true(plank->hold);
    assert_int_equal(plank->parts[0].unit, UNIT_SECONDS);
    assert_int_equal(plank->parts[0].side, DOSE_EACH_SIDE);
    assert_range(plank->parts[0].amount, 25000, 25000);
    const struct set_run *sled = run_in(&reader, 'E', 0);
    assert_int_equal(sled->parts[0].unit, UNIT_METRES);
    assert_range(sled->parts[0].amount, 20000, 20000);
    assert_int_equal(sled->load.made, KG(60));
    const struct set_run *run = run_in(&reader, 'F', 0);
    assert_int_equal(run->within, 240);
    assert_int_equal(run->seconds, 240);

    const struct occasion *morning = &reader.programme->occasions[0];
    assert_string_equal(morning->session->name.shown, "Morning run");
    assert_int_equal(morning->clock, 7 * 3600);
    assert_int_equal(reader.programme->occasions[1].date, morning->date);
    assert_int_equal(reader.programme->occasions[1].clock, 18 * 3600);
    const struct set_run *pulse = &morning->blocks[0].items[0].runs[0];
    assert_int_equal(pulse->load.effort, EFFORT_PULSE);
    assert_range(pulse->load.effort_band, 130000, 145000);
    assert_int_equal(pulse->seconds, 1200);
    plan_reader_close(&reader);
}

static void loads_of_every_kind(void **state)
{
    (void)state;
    struct plan_reader reader;
    open_file(&reader, "tests/unit/plans/kinds.bell");
    assert_int_equal(run_in(&reader, 'G', 0)->load.asked, KG(56)); /* 80 % of 70 kg */
    assert_int_equal(run_in(&reader, 'G', 0)->load.made, KG(55));
    const struct load *share = &run_in(&reader, 'H', 0)->load;
    assert_int_equal(share->kind, LOAD_BODY);
    assert_range(share->percent, 20000, 20000);
    assert_int_equal(share->added, KG(5));
    assert_int_equal(share->asked, KG(5));
    assert_int_equal(share->made, KG(5));
    assert_int_equal(share->body, KG(11.68)); /* 20 % of 58.4 kg */
    const struct load *body = &run_in(&reader, 'I', 0)->load;
    assert_range(body->percent, 100000, 100000);
    assert_int_equal(body->added, KG(10));
    assert_int_equal(run_in(&reader, 'J', 0)->load.pieces, 2);
    assert_int_equal(run_in(&reader, 'J', 0)->load.made, KG(16));
    const struct set_run *test = run_in(&reader, 'K', 0);
    assert_true(test->work_up);
    assert_int_equal(test->load.effort, EFFORT_REP_MAX);
    assert_range(test->load.effort_band, 3000, 3000);
    assert_int_equal(test->seconds, 5 * 9 + 4 * 180);
    const struct load *band = &run_in(&reader, 'L', 0)->load;
    assert_range(band->percent, 75000, 75000);
    assert_range(band->effort_band, 7000, 9000);
    assert_int_equal(run_in(&reader, 'O', 0)->load.effort, EFFORT_RESERVE);
    plan_reader_close(&reader);
}

static void activities(void **state)
{
    static const int minutes[] = {30, 35, 40, 40};
    (void)state;
    struct plan_reader reader;
    open_file(&reader, "tests/unit/plans/kinds.bell");
    int tuesdays = 0, wednesdays = 0;
    for (size_t i = 0; i < reader.programme->occasion_count; i++) {
        const struct occasion *occasion = &reader.programme->occasions[i];
        if (!occasion->activity)
            continue;
        if (occasion->metres.high) {
            wednesdays++;
            assert_range(occasion->metres, 5000000, 5000000);
            assert_int_equal(occasion->seconds, 26 * 60);
            assert_range(occasion->rpe, 5000, 5000);
        } else {
            assert_int_equal(occasion->seconds, minutes[tuesdays++] * 60);
            assert_range(occasion->pulse, 130000, 145000);
        }
    }
    assert_int_equal(tuesdays, 4);
    assert_int_equal(wednesdays, 4);
    plan_reader_close(&reader);
}

/* --- what is not guessed --- */

static void slips_are_told(void **state)
{
    static const struct {
        const char *session, *name;
    } slips[] = {
        {"    superset A 3 sets\n        back squat : 3 x 5 @ 70%\n", "sets-twice"},
        {"    superset A 3 sets rest 1:30\n        push-up : 5 rest 0:30\n", "two-rests"},
        {"    superset A 3 sets\n        push-up : 5 rest 0:30\n        after 0:20\n"
         "        back squat : 5 @ 70%\n",
         "two-rests"},
        {"    rounds 3 x 2:00-3:00 rest 1:00\n        tempo run\n", "not-one-time"},
        {"    straight A\n        back squat : 3-4 x 5 @ 70%\n", "bad-count"},
        {"    rounds 3 x 2:00 rest 1:00\n        tempo run : 50 s all-out, 30 s all-out\n",
         "intervals-do-not-fit"},
        {"    straight A 3 sets\n        back squat : 5, 5 @ 70%\n", "sets-disagree"},
        {"    straight A\n        back squat : 5, 5, 5 @ 60, 70 kg\n", "lists-disagree"},
    };
    (void)state;
    for (size_t i = 0; i < COUNT(slips); i++) {
        struct plan_reader reader;
        open_text(&reader, slips[i].session);
        bool told = false;
        for (size_t k = 0; k < reader.diag->count; k++)
            told = told || strcmp(diagnostic_name(reader.diag->items[k]->diagnostic), slips[i].name) == 0;
        if (!told)
            fprintf(stderr, "not reported %s: %s", slips[i].name, slips[i].session);
        assert_true(told);
        plan_reader_close(&reader);
    }
}

/* The bell cuts what is easy, and only that. */
static void intervals_end_with_the_round(void **state)
{
    static const struct {
        const char *dose;
        int counts[3], last;
    } cases[] = {
        {"10 s all-out, 20 s easy", {4, 4}, 20},
        {"4 s all-out, 28 s easy", {4, 3, 1}, 20},
        {"20 s all-out, 30 s easy", {3, 2}, 30},
        {"30 s all-out, 50 s easy", {2, 1, 1}, 10},
    };
    (void)state;
    for (size_t i = 0; i < COUNT(cases); i++) {
        struct plan_reader reader;
        char session[120];
        snprintf(session, sizeof session, "    rounds A 3 x 2:00 rest 1:00\n        tempo run : %s\n",
                 cases[i].dose);
        open_text(&reader, session);
        assert_int_equal(diag_count(reader.diag, SEVERITY_ERROR), 0);
        const struct item *item = &reader.programme->occasions[0].blocks[0].items[0];
        int round = 0;
        for (size_t k = 0; k < item->run_count; k++) {
            assert_int_equal(item->runs[k].count, cases[i].counts[k]);
            round += item->runs[k].count * item->runs[k].seconds;
        }
        assert_int_equal(round, 120);
        assert_int_equal(item->runs[item->run_count - 1].seconds, cases[i].last);
        plan_reader_close(&reader);
    }
}

/* --- what is shown --- */

static struct programme_view view_of(struct plan_reader *reader)
{
    const struct programme *programme = reader->programme;
    const struct occasion **all =
        arena_alloc(reader->arena, (programme->occasion_count + 1) * sizeof *all);
    for (size_t i = 0; i < programme->occasion_count; i++)
        all[i] = &programme->occasions[i];
    return (struct programme_view){.programme = programme, .arena = reader->arena,
                                   .occasions = all, .count = programme->occasion_count,
                                   .version = "0.0.0", .ledgers = true};
}

static void assert_keeps_to(const char *schema_path, const struct text *out)
{
    json_error_t error;
    json_t *schema = json_load_file(schema_path, 0, &error);
    json_t *value = json_loadb(text_get(out), out->length, 0, &error);
    assert_non_null(schema);
    assert_non_null(value);
    struct schema_check check = {.root = schema};
    if (!schema_holds(&check, schema, value, ""))
        fprintf(stderr, "%s\n", check.fault);
    assert_string_equal(check.fault, "");
    /* A schema that lets everything pass would say nothing. */
    json_object_set_new(value, "surplus", json_true());
    assert_false(schema_holds(&check, schema, value, ""));
    json_decref(schema);
    json_decref(value);
}

static void json_keeps_to_its_schema(void **state)
{
    (void)state;
    struct plan_reader reader;
    open_file(&reader, "tests/unit/plans/kinds.bell");
    struct programme_view view = view_of(&reader);
    for (int i = 0; i < 4; i++) {
        struct text out = {0};
        view.private = i & 1;
        view.lines = i & 2;
        programme_json(&view, &out);
        assert_keeps_to("share/schema/programme-3.schema.json", &out);
        text_free(&out);
    }
    plan_reader_close(&reader);
}

/* 58.4 kg, 20 % of it and what that makes, and the year of birth. */
static void what_is_private_stays_so(void **state)
{
    static const char *const secrets[] = {"58.4", "11.68", "16.68", "1999", "born"};
    (void)state;
    struct plan_reader reader;
    open_file(&reader, "tests/unit/plans/kinds.bell");
    struct programme_view view = view_of(&reader);
    struct text json = {0}, words = {0}, open_json = {0}, findings = {0};
    programme_json(&view, &json);
    programme_text(&view, &words);
    diag_print(reader.diag, &(struct diag_style){.infos = true}, &findings);
    view.private = true;
    programme_json(&view, &open_json);
    for (size_t i = 0; i < COUNT(secrets); i++) {
        assert_null(strstr(text_get(&json), secrets[i]));
        assert_null(strstr(text_get(&words), secrets[i]));
        assert_null(strstr(text_get(&findings), secrets[i]));
    }
    assert_non_null(strstr(text_get(&open_json), "\"kg\": 58.4"));
    assert_non_null(strstr(text_get(&open_json), "\"asked_kg\": 16.68"));
    assert_non_null(strstr(text_get(&words), "20 % of body mass + 5 kg"));
    text_free(&json);
    text_free(&words);
    text_free(&open_json);
    text_free(&findings);
    plan_reader_close(&reader);
}

static void text_is_aligned_and_plain(void **state)
{
    (void)state;
    struct plan_reader reader;
    open_file(&reader, "tests/unit/plans/kinds.bell");
    struct programme_view view = view_of(&reader);
    struct text out = {0};
    programme_text(&view, &out);
    assert_null(strstr(text_get(&out), "\302\240")); /* no-break spaces cannot be searched for */
    assert_null(strstr(text_get(&out), " \n"));
    assert_non_null(strstr(text_get(&out),
                           "             C.1  trap bar deadlift  3 \303\227 5"));
    assert_non_null(strstr(text_get(&out),
                           "             C.2  sled push          3 \303\227 (3 \303\227 10 m rest "
                           "10\342\200\22320 s)"));
    assert_non_null(strstr(text_get(&out), "Wren Holloway, Kinds camp \302\267 week 1 of 4"));
    /* What was planned, then what was done. */
    assert_non_null(strstr(text_get(&out), "column 1 \302\267 RPE 4\342\200\2235 \302\267 took 24:00 \302\267 RPE 6"));
    assert_non_null(strstr(text_get(&out), "RPE 3\342\200\2235 \302\267 was RPE 5"));
    text_free(&out);
    plan_reader_close(&reader);
}

/* A log may say in one line that all was done, or nothing and why; its words are for those who ask for all. */
static void logs_say_all_or_nothing(void **state)
{
    static const char session[] = "    straight A 3 sets rest 2:00\n"
                                  "        back squat : 5 @ 60 kg\n"
                                  "log 2027-01-04 Wren Holloway, S\n"
                                  "    as planned\n"
                                  "    note left the belt off\n"
                                  "log 2027-01-11 Wren Holloway, S\n"
                                  "    missed because exam\n";
    (void)state;
    struct plan_reader reader;
    open_text(&reader, session);
    assert_int_equal(diag_count(reader.diag, SEVERITY_ERROR), 0);
    const struct occasion *first = &reader.programme->occasions[0], *second = first + 1;
    assert_true(first->outcome.logged && !first->outcome.timed && first->logged);
    assert_true(second->outcome.timed && second->outcome.seconds == 0 && !second->logged);
    struct programme_view view = view_of(&reader);
    struct text json = {0}, open_json = {0};
    programme_json(&view, &json);
    view.private = true;
    programme_json(&view, &open_json);
    assert_keeps_to("share/schema/programme-3.schema.json", &open_json);
    assert_non_null(strstr(text_get(&json), "\"as_planned\": true"));
    assert_non_null(strstr(text_get(&json), "\"missed\": true"));
    assert_null(strstr(text_get(&json), "exam"));
    assert_null(strstr(text_get(&json), "belt"));
    assert_non_null(strstr(text_get(&open_json), "\"because\": \"exam\""));
    assert_non_null(strstr(text_get(&open_json), "\"note\": \"left the belt off\""));
    text_free(&json);
    text_free(&open_json);
    plan_reader_close(&reader);
}

/* Each set of a log by its repetitions, load, effort and bar speed; what was left out, and with all that is private
 * also why. And `@ last` is the last load of all that. */
static void logs_have_their_sets(void **state)
{
    static const char session[] = "    straight A 3 sets rest 2:00\n"
                                  "        back squat : 5 @ last\n"
                                  "        pull-up : 5\n"
                                  "    straight B 2 sets rest 1:00\n"
                                  "        side plank : hold 20 s each side\n"
                                  "log 2027-01-04 Wren Holloway, S\n"
                                  "    A1 : 2 x 5 @ 70 kg RPE 8; 4, 3 @ 72.5, 75 kg 0.41, 0.3 m/s\n"
                                  "    A.2 : 6 @ body mass + 5 kg 2 in reserve; 8 @ light band\n"
                                  "    skipped B because the hall closed\n";
    static const char *const told[] = {
        "\"sets\": 2", "\"kg\": 70", "\"speed\": 0.41", "\"speed\": 0.3", "\"added_kg\": 5",
        "\"thing\": \"light band\"", "\"kind\": \"in reserve\"", "\"skipped\": true"};
    (void)state;
    struct plan_reader reader;
    open_text(&reader, session);
    assert_int_equal(diag_count(reader.diag, SEVERITY_ERROR), 0);
    struct programme_view view = view_of(&reader);
    struct text json = {0}, open_json = {0};
    programme_json(&view, &json);
    view.private = true;
    programme_json(&view, &open_json);
    assert_keeps_to("share/schema/programme-3.schema.json", &json);
    assert_keeps_to("share/schema/programme-3.schema.json", &open_json);
    for (size_t i = 0; i < COUNT(told); i++)
        assert_non_null(strstr(text_get(&json), told[i]));
    assert_null(strstr(text_get(&json), "the hall closed"));
    assert_non_null(strstr(text_get(&open_json), "\"because\": \"the hall closed\""));
    const struct occasion *second = &reader.programme->occasions[1];
    assert_int_equal(second->blocks[0].items[0].runs[0].load.asked, KG(75));
    text_free(&json);
    text_free(&open_json);
    plan_reader_close(&reader);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(counts_and_lists),
        cmocka_unit_test(columns_by_week),
        cmocka_unit_test(rests_nested_in_a_pair),
        cmocka_unit_test(seconds_metres_and_pulse),
        cmocka_unit_test(loads_of_every_kind),
        cmocka_unit_test(activities),
        cmocka_unit_test(slips_are_told),
        cmocka_unit_test(intervals_end_with_the_round),
        cmocka_unit_test(json_keeps_to_its_schema),
        cmocka_unit_test(what_is_private_stays_so),
        cmocka_unit_test(text_is_aligned_and_plain),
        cmocka_unit_test(logs_have_their_sets),
        cmocka_unit_test(logs_say_all_or_nothing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
