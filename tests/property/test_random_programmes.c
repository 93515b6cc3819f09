/* Clubs at random, understood: the programme does not depend on the order of declarations nor on
 * how they are laid out, and moves with the bout. Programmes are compared by their JSON, which
 * holds all that was resolved. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "cases.h"
#include "export/show_programme.h"
#include "model/programme.h"
#include "plan_reader.h"
#include "property/club_maker.c"
#include "syntax/format.h"

enum { CLUBS = 2000, SAMPLE = 200 };

static void resolve(struct plan_reader *reader, const struct text *plan)
{
    plan_reader_open(reader);
    plan_reader_text(reader, "club.bell", text_get(plan), plan->length);
    plan_reader_resolve(reader);
    if (!diag_count(reader->diag, SEVERITY_ERROR))
        return;
    fputs(text_get(plan), stderr);
    plan_reader_tell(reader);
    fail();
}

static void make(uint64_t shape, uint64_t order, int later, struct plan_reader *reader,
                 struct text *plan)
{
    const struct club_seed seed = {shape, order, later};
    club_make(&seed, plan);
    resolve(reader, plan);
}

static void to_json(struct plan_reader *reader, struct text *out)
{
    const struct programme *programme = reader->programme;
    const struct occasion **all =
        arena_alloc(reader->arena, (programme->occasion_count + 1) * sizeof *all);
    for (size_t i = 0; i < programme->occasion_count; i++)
        all[i] = &programme->occasions[i];
    const struct programme_view view = {.programme = programme,
                                        .arena = reader->arena,
                                        .occasions = all,
                                        .count = programme->occasion_count,
                                        .version = "0",
                                        .ledgers = true,
                                        .private = true};
    programme_json(&view, out);
}

/* Fails where the two differ, with the plans and the place. */
static void assert_alike(const struct text *a, const struct text *b, const struct text *plan_a,
                         const struct text *plan_b)
{
    const char *left = text_get(a), *right = text_get(b);
    if (strcmp(left, right) == 0)
        return;
    size_t at = 0;
    while (left[at] == right[at])
        at++;
    at = at > 300 ? at - 300 : 0;
    fprintf(stderr, "%s\n=====\n%s\n=====\n%.700s\n=====\n%.700s\n", text_get(plan_a),
            text_get(plan_b), left + at, right + at);
    fail();
}

/* The club of SEED three times: as it was made, in another order, and that laid out anew. */
static size_t write_thrice(unsigned seed)
{
    struct plan_reader readers[3];
    struct text plans[3] = {{0}}, jsons[3] = {{0}};
    make(seed, 0, 0, &readers[0], &plans[0]);
    make(seed, seed * 77 + 5, 0, &readers[1], &plans[1]);
    assert_string_not_equal(text_get(&plans[0]), text_get(&plans[1])); /* else nothing is tried */
    enum format_outcome outcome = format_source(readers[1].arena, &readers[1].sources, 0,
                                                readers[1].book, readers[1].diag, &plans[2]);
    assert_int_equal(outcome, FORMAT_CHANGED);
    resolve(&readers[2], &plans[2]);
    size_t occasions = readers[0].programme->occasion_count;
    for (unsigned i = 0; i < 3; i++)
        to_json(&readers[i], &jsons[i]);
    for (unsigned i = 1; i < 3; i++)
        assert_alike(&jsons[i - 1], &jsons[i], &plans[i - 1], &plans[i]);
    for (unsigned i = 0; i < 3; i++) {
        plan_reader_close(&readers[i]);
        text_free(&plans[i]);
        text_free(&jsons[i]);
    }
    return occasions;
}

static void order_and_layout_change_nothing(void **state)
{
    (void)state;
    const struct cases clubs = cases_of(CLUBS, SAMPLE);
    size_t occasions = 0;
    for (unsigned seed = clubs.from; seed < clubs.to; seed++)
        occasions += write_thrice(seed + 1);
    assert_true(occasions > 8 * cases_count(clubs)); /* the clubs are not empty */
}

/* --- the bout moves --- */

/* Is OCCASION placed by weeks counted back from the bout, or by the taper? */
static bool counted_back(const struct occasion *occasion)
{
    return occasion->clock / 3600 == 12 || occasion->clock / 3600 == 15;
}

static void phases_moved(const struct camp *before, const struct camp *after, int later)
{
    assert_int_equal(after->bouts[0]->day, before->bouts[0]->day + later);
    assert_int_equal(after->phase_count, before->phase_count);
    for (size_t i = 0; i < before->phase_count; i++) {
        const struct phase *a = &before->phases[i], *b = &after->phases[i];
        bool until = i == 0; /* base fills what is left, from the start */
        assert_int_equal(b->first, a->first + (until ? 0 : later));
        assert_int_equal(b->last, a->last + later);
    }
}

/* The occasions of CAMP that are counted back; their days are added up in *SUM. */
static size_t count_back(const struct plan_reader *reader, const char *camp, int64_t *sum)
{
    size_t count = 0;
    *sum = 0;
    for (size_t i = 0; i < reader->programme->occasion_count; i++) {
        const struct occasion *occasion = &reader->programme->occasions[i];
        if (!counted_back(occasion) || strcmp(occasion->camp->name.folded, camp) != 0)
            continue;
        count++;
        *sum += occasion->date;
    }
    return count;
}

static void bout_moves_what_counts_back(void **state)
{
    (void)state;
    const struct cases clubs = cases_of(CLUBS, SAMPLE);
    unsigned bouts = 0, moved = 0;
    for (unsigned seed = clubs.from + 1; seed <= clubs.to; seed++) {
        /* By whole weeks in every second club, so that weekdays stay. */
        int later = seed % 2 ? (int)(seed % CLUB_BOUT_LATEST) + 1 : 7 * ((int)(seed % 8) + 1);
        struct plan_reader before, after;
        struct text plans[2] = {{0}};
        make(seed, 0, 0, &before, &plans[0]);
        make(seed, 0, later, &after, &plans[1]);
        for (size_t c = 0; c < before.programme->camp_count; c++) {
            const struct camp *camp = before.programme->camps[c];
            if (!camp->bout_count)
                continue;
            phases_moved(camp, after.programme->camps[c], later);
            bouts++;
            if (later % 7)
                continue;
            int64_t sums[2];
            size_t count = count_back(&before, camp->name.folded, &sums[0]);
            assert_int_equal(count_back(&after, camp->name.folded, &sums[1]), count);
            assert_int_equal(sums[1], sums[0] + (int64_t)count * later);
            moved += count > 0;
        }
        plan_reader_close(&before);
        plan_reader_close(&after);
        text_free(&plans[0]);
        text_free(&plans[1]);
    }
    assert_true(bouts > cases_count(clubs) / 2);
    assert_true(moved > cases_count(clubs) / 8);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(order_and_layout_change_nothing),
        cmocka_unit_test(bout_moves_what_counts_back),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
