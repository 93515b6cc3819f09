/* The weekly figures as tables: sums, limbs, load against published formulas, what is left up to a
 * limit, and CSV that no spreadsheet takes for a formula. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "export/tally_formats.h"
#include "plan_reader.h"
#include "unit/json_schema.h"

/* Session loads of the days of week 1: Foster's RPE x minutes. The daily loads are those of
 * PMC10230214, table 2 (600, 750, 200, 750, 800, 0, 0); monotony and strain are worked by us. */
static const char plan[] = "gym Yard\n"
                           "    stations rack\n"
                           "athlete ATHLETE\n"
                           "    stance southpaw\n"
                           "    trains at Yard\n"
                           "exercise rear kick\n"
                           "    kind skill\n"
                           "    pattern strike\n"
                           "    side per stance, rear leg\n"
                           "    counts strikes\n"
                           "    loads hips 1\n"
                           "session Kicks\n"
                           "    straight A 3 sets rest 1:00\n"
                           "        rear kick : 4-6 orthodox + 2 southpaw all-out\n"
                           "limits House rules\n"
                           "    every week\n"
                           "        strikes at most 30\n"
                           "        all-out strikes at most 16 a side warn\n"
                           "        sessions at least 2\n"
                           "camp First\n"
                           "    for ATHLETE\n"
                           "    starts 2027-01-04\n"
                           "    limits House rules\n"
                           "    weeks 1-2\n"
                           "        monday 10:00 technique : 100 min RPE 6\n"
                           "        tuesday 10:00 technique : 100 min RPE 7.5\n"
                           "        wednesday 10:00 technique : 50 min RPE 4\n"
                           "        thursday 10:00 technique : 100 min RPE 7.5\n"
                           "        friday 10:00 technique : 100 min RPE 8\n"
                           "        friday 18:00 Kicks\n"
                           "    week 2\n"
                           "        sunday 18:00 Kicks\n"
                           "            optional\n"
                           "log 2027-01-12 ATHLETE, technique\n"
                           "    took 80 min RPE 9\n";

struct bench {
    struct plan_reader reader;
    struct tally_view view;
};

/* One line of each kind of load, on two days of a week. Body mass is 60 kg. */
static const char loads[] = "athlete ATHLETE\n"
                            "    stance southpaw\n"
                            "    bests\n"
                            "        back squat  : 1 @ 100 kg on 2027-01-01\n"
                            "        bench press : 1 @ 80 kg on 2027-01-01\n"
                            "    body mass 60 kg on 2027-01-01\n"
                            "session Lifts\n"
                            "    straight A 2 sets rest 3:00\n"
                            "        back squat : 5 @ 80%\n"
                            "    straight B 3 sets rest 3:00\n"
                            "        bench press : 4 @ 75%\n"
                            "    straight C 2 sets rest 2:00\n"
                            "        chin-up : 5 @ body mass + 10 kg\n"
                            "    straight D 1 set\n"
                            "        back squat : 10 @ 50% of body mass\n"
                            "    straight E 4 sets rest 1:00\n"
                            "        rear hand ball throw : 3 each stance @ 3 kg\n"
                            "session Rest\n"
                            "    straight A 2 sets rest 1:00\n"
                            "        farmer carry : 30 m @ 2 x 20 kg\n"
                            "    straight B 2 sets rest 1:00\n"
                            "        band face pull : 12 @ medium band\n"
                            "    straight C 2 sets rest 1:00\n"
                            "        bench press : 8 @ RPE 8\n"
                            "    straight D 2 sets rest 1:00\n"
                            "        bench press : 6 @ 8RM\n"
                            "    straight E 2 sets rest 1:00\n"
                            "        push-up : 9\n"
                            "    straight F 2 sets rest 1:00\n"
                            "        wall sit : hold 20 s @ 10 kg\n"
                            "camp First\n"
                            "    for ATHLETE\n"
                            "    starts 2027-01-04\n"
                            "    weeks 1\n"
                            "        monday 10:00 Lifts\n"
                            "        thursday 10:00 Rest\n";

/* PLAN with its ATHLETE called NAME. */
static void open_plan(struct bench *bench, const char *plan_text, const char *name)
{
    plan_reader_open(&bench->reader);
    plan_reader_shelf(&bench->reader);
    struct text text = {0};
    static const char mark[] = "ATHLETE";
    const char *at = plan_text;
    for (const char *next; (next = strstr(at, mark)) != NULL; at = next + sizeof mark - 1) {
        text_add_bytes(&text, at, (size_t)(next - at));
        text_add(&text, name);
    }
    text_add(&text, at);
    plan_reader_text(&bench->reader, "plan.bell", text_get(&text), text.length);
    text_free(&text);
    plan_reader_resolve(&bench->reader);
    if (diag_count(bench->reader.diag, SEVERITY_ERROR))
        plan_reader_tell(&bench->reader);
    assert_int_equal(diag_count(bench->reader.diag, SEVERITY_ERROR), 0);
    bench->view = (struct tally_view){.programme = bench->reader.programme,
                                      .arena = bench->reader.arena,
                                      .counted = COUNTED_NONE,
                                      .version = "0.0.0"};
}

static void open_bench(struct bench *bench, const char *name)
{
    open_plan(bench, plan, name);
}

static const struct tally_row *row_of(const struct tally_table *table, const char *group,
                                      const char *name, const char *side)
{
    for (size_t i = 0; i < table->count; i++)
        if (strcmp(table->rows[i].group, group) == 0 && strcmp(table->rows[i].name, name) == 0 &&
            strcmp(table->rows[i].side, side) == 0)
            return &table->rows[i];
    fprintf(stderr, "no row %s, %s, %s\n", group, name, side);
    fail();
    return NULL;
}

static void assert_cell(const struct tally_row *row, int week, milli low, milli high)
{
    assert_true(row->known[week]);
    assert_int_equal(row->cells[week].low, low);
    assert_int_equal(row->cells[week].high, high);
}

static void accounts_and_limbs(void **state)
{
    (void)state;
    struct bench bench;
    struct tally_table *tables;
    open_bench(&bench, "Wren Holloway");
    assert_int_equal(tally_tables(&bench.view, &tables), 1);
    assert_int_equal(tables[0].weeks, 2);
    /* 3 x (4-6 + 2); in the second week as many again, which may be left out. */
    const struct tally_row *strikes = row_of(&tables[0], "count", "strikes", "");
    assert_cell(strikes, 0, 18000, 24000);
    assert_cell(strikes, 1, 18000, 48000);
    /* The rear leg is the right one of an orthodox stance. */
    assert_cell(row_of(&tables[0], "limb", "right leg", "orthodox"), 0, 12000, 18000);
    assert_cell(row_of(&tables[0], "limb", "left leg", "southpaw"), 0, 6000, 6000);
    assert_cell(row_of(&tables[0], "limb", "right hip", "orthodox"), 1, 12000, 36000);
    /* 450 min and the kicks: 3 sets of 7 s (5 + 2 strikes) and 2 rests of a minute. */
    assert_string_equal(row_of(&tables[0], "count", "time", "")->unit, "min");
    assert_cell(row_of(&tables[0], "count", "time", ""), 0, 452350, 452350);
    assert_cell(row_of(&tables[0], "not counted", "session load", ""), 0, 2350, 2350);
    plan_reader_close(&bench.reader);
}

/* Sources: formulas Foster 1998, Med Sci Sports Exerc 30:1164-1168; daily loads PMC10230214. */
static void load_of_the_published_week(void **state)
{
    (void)state;
    struct bench bench;
    struct tally_table *tables;
    open_bench(&bench, "Wren Holloway");
    tally_tables(&bench.view, &tables);
    assert_cell(row_of(&tables[0], "count", "session load", ""), 0, 3100000, 3100000);
    assert_cell(row_of(&tables[0], "load", "monotony", ""), 0, 1219, 1219);
    assert_cell(row_of(&tables[0], "load", "strain", ""), 0, 3778324, 3778324);
    assert_false(row_of(&tables[0], "load", "7 days to 28", "")->known[1]); /* 14 days are too few */
    /* In the second week Tuesday's 750 became 720, which stands beside what was planned. */
    assert_cell(row_of(&tables[0], "count", "session load", ""), 1, 3100000, 3100000);
    assert_cell(row_of(&tables[0], "load", "session load, as done", ""), 1, 3070000, 3070000);
    assert_false(row_of(&tables[0], "load", "session load, as done", "")->known[0]);
    assert_cell(row_of(&tables[0], "share", "session load, of the peak week", ""), 1, 100000,
                100000);
    plan_reader_close(&bench.reader);
}

static void margins(void **state)
{
    (void)state;
    struct bench bench;
    struct tally_table *tables;
    open_bench(&bench, "Wren Holloway");
    bench.view.margin = true;
    tally_tables(&bench.view, &tables);
    const struct tally_row *strikes = row_of(&tables[0], "margin", "strikes", "");
    assert_string_equal(strikes->bound, "at most 30 a week, must");
    assert_cell(strikes, 0, 6000, 6000);
    assert_cell(strikes, 1, -18000, -18000);
    assert_cell(row_of(&tables[0], "margin", "all-out strikes", "right"), 0, -2000, -2000);
    assert_cell(row_of(&tables[0], "margin", "all-out strikes", "left"), 0, 10000, 10000);
    /* What may be left out does not count for "at least". */
    assert_cell(row_of(&tables[0], "margin", "sessions", ""), 1, -1000, -1000);
    plan_reader_close(&bench.reader);
}

static void one_week_and_its_lines(void **state)
{
    (void)state;
    struct bench bench;
    struct tally_table *tables;
    struct tally_line *lines;
    open_bench(&bench, "Wren Holloway");
    bench.view.week = 2;
    assert_int_equal(tally_tables(&bench.view, &tables), 1);
    assert_int_equal(tables[0].weeks, 1);
    assert_cell(row_of(&tables[0], "count", "strikes", ""), 0, 18000, 48000);
    bench.view.counted = counted_find("strikes");
    assert_int_equal(tally_lines(&bench.view, &lines), 1);
    assert_int_equal(lines[0].times, 2);
    assert_int_equal(lines[0].amount.low, 18000);
    assert_int_equal(lines[0].amount.high, 48000);
    assert_string_equal(lines[0].line, "plan.bell:14");
    assert_string_equal(lines[0].what, "Kicks, A.1 rear kick");
    plan_reader_close(&bench.reader);
}

/* Fields of a record, as RFC 4180 has them. Returns what stands behind the record. */
static const char *read_record(const char *at, char fields[16][80], size_t *count)
{
    *count = 0;
    for (bool more = true; more;) {
        char *out = fields[(*count)++];
        bool quoted = *at == '"';
        at += quoted;
        while (*at && (quoted ? *at != '"' || at[1] == '"' : !strchr(",\r", *at))) {
            at += quoted && *at == '"';
            *out++ = *at++;
        }
        *out = '\0';
        at += quoted;
        more = *at == ',';
        at += more;
    }
    assert_true(at[0] == '\r' && at[1] == '\n');
    return at + 2;
}

static void csv_is_read_back(void **state)
{
    (void)state;
    struct bench bench;
    open_bench(&bench, "=Wren \"the\" Holloway");
    for (int margin = 0; margin < 2; margin++) {
        struct text out = {0};
        char fields[16][80];
        size_t count, records = 0;
        bench.view.margin = margin;
        assert_true(tally_csv(&bench.view, &out));
        for (const char *at = text_get(&out); *at; records++) {
            at = read_record(at, fields, &count);
            assert_int_equal(count, 11);
            if (records > 0) /* an apostrophe keeps it from being a formula */
                assert_string_equal(fields[1], "'=Wren \"the\" Holloway");
        }
        assert_true(records > 5);
        text_free(&out);
    }
    plan_reader_close(&bench.reader);
}

static void assert_left_out(const milli *left_out, enum tonnage_gap gap, milli amount)
{
    if (left_out[gap] != amount)
        fprintf(stderr, "%s: %lld\n", tonnage_gap_name(gap), (long long)left_out[gap]);
    assert_int_equal(left_out[gap], amount);
}

/* Worked by hand: 10 x 80 + 12 x 60 + 10 x 10 kg lifted, 24 x 3 kg thrown, 10 x 60 + 10 x 30 kg of body mass. */
static void volume_of_each_part(void **state)
{
    (void)state;
    struct bench bench;
    struct tally_part *parts;
    struct tally_figure figures[PART_FIGURES];
    open_plan(&bench, loads, "Wren Holloway");
    bench.view.by = BY_WEEK;
    assert_int_equal(tally_parts(&bench.view, &parts), 1);
    static const milli sums[] = {1620000, 1692000, 2520000, 2592000};
    for (int i = 0; i < 4; i++)
        assert_int_equal(parts[0].tonnage[i].high, sums[i]);
    static const milli left_out[GAP_COUNT] = {[GAP_THROWN] = 24000,  [GAP_BODY] = 20000,    [GAP_CARRIED] = 60000,
                                              [GAP_HELD] = 40000,    [GAP_BAND] = 24000,    [GAP_REP_MAX] = 12000,
                                              [GAP_EFFORT] = 16000,  [GAP_UNSAID] = 18000};
    for (int gap = 0; gap < GAP_COUNT; gap++)
        assert_left_out(parts[0].left_out, (enum tonnage_gap)gap, left_out[gap]);
    assert_int_equal(parts[0].zones[EFFORT_80_TO_90].high, 10000);
    assert_int_equal(parts[0].zones[EFFORT_70_TO_80].high, 12000);
    assert_int_equal(parts[0].intensity, 77273); /* (10 x 80 + 12 x 75) / 22 = 77.2727 */

    bench.view.by = BY_DAY;
    assert_int_equal(tally_parts(&bench.view, &parts), 2);
    assert_int_equal(parts[0].tonnage[0].high, 1620000);
    assert_int_equal(parts[1].tonnage[0].high, 0);
    bench.view.by = BY_SESSION;
    assert_int_equal(tally_parts(&bench.view, &parts), 2);
    assert_string_equal(parts[1].what, "Rest");
    bench.view.by = BY_LIFT;
    size_t lifts = tally_parts(&bench.view, &parts);
    assert_int_equal(lifts, 8);
    assert_string_equal(parts[0].what, "back squat");
    assert_int_equal(parts[0].tonnage[0].high, 800000);
    assert_int_equal(parts[0].left_out[GAP_BODY], 10000);
    assert_int_equal(parts[0].intensity, 80000);
    assert_string_equal(tally_iso_week(bench.view.arena, parts[0].monday), "2027-W01");

    /* What reveals body mass is only shown if it is asked for by name. */
    size_t told = tally_part_figures(&bench.view, &parts[0], figures);
    for (size_t i = 0; i < told; i++)
        assert_null(strstr(figures[i].name, "with body mass"));
    bench.view.private = true;
    assert_int_equal(tally_part_figures(&bench.view, &parts[0], figures), told + 2);
    plan_reader_close(&bench.reader);
}

static void json_keeps_to_its_schema(void **state)
{
    (void)state;
    struct bench bench;
    open_plan(&bench, loads, "Wren Holloway");
    for (int i = 0; i < 5; i++) {
        struct text out = {0};
        json_error_t error;
        bench.view.margin = i == 1;
        bench.view.counted = i == 2 ? counted_find("throws") : COUNTED_NONE;
        bench.view.by = i == 3 ? BY_LIFT : i == 4 ? BY_SESSION : BY_TABLE;
        assert_true(tally_json(&bench.view, &out));
        json_t *schema = json_load_file("share/schema/tally-3.schema.json", 0, &error);
        json_t *value = json_loadb(text_get(&out), out.length, 0, &error);
        struct schema_check check = {.root = schema};
        schema_holds(&check, schema, value, "");
        assert_string_equal(check.fault, "");
        json_object_del(value, "version");
        assert_false(schema_holds(&check, schema, value, ""));
        json_decref(schema);
        json_decref(value);
        text_free(&out);
    }
    plan_reader_close(&bench.reader);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(accounts_and_limbs),
        cmocka_unit_test(load_of_the_published_week),
        cmocka_unit_test(margins),
        cmocka_unit_test(one_week_and_its_lines),
        cmocka_unit_test(csv_is_read_back),
        cmocka_unit_test(volume_of_each_part),
        cmocka_unit_test(json_keeps_to_its_schema),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
