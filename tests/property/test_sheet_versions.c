/* A sheet's version tells its states apart: of two plans of which one has a figure, a word or a line changed, whatever sheets
 * have one version show the same; and what a plan says in comments, or in another order, changes no version. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "cases.h"
#include "figures/dates.h"
#include "model/programme.h"
#include "plan_reader.h"
#include "property/club_maker.c"
#include "property/plan_changes.h"
#include "render/render.h"
#include "sheets/version.h"
#include "squad/squad.h"

enum { PAIRS = 240, SAMPLE = 24, SHEETS_EACH = 3 };

static struct type *type;

static int open_type(void **state)
{
    const char *wrong = NULL;
    (void)state;
    type = type_open(&wrong);
    return type ? 0 : -1;
}

static int close_type(void **state)
{
    (void)state;
    type_close(type);
    return 0;
}

/* --- sheets --- */

static struct occasion_group group_of(struct arena *arena, const struct programme *programme, const struct occasion *first,
                                      const struct sheet *sheet)
{
    struct occasion_group group = {0};
    for (size_t i = 0; i < programme->occasion_count; i++) {
        const struct occasion *one = &programme->occasions[i];
        bool each = sheet->scope != SCOPE_SESSION, same = one->camp == first->camp && (!each || one->athlete == first->athlete);
        if (sheet->scope == SCOPE_SESSION || sheet->scope == SCOPE_SESSION_EACH)
            same = same && one->session == first->session && one->date == first->date && one->clock == first->clock;
        if (sheet->scope == SCOPE_WEEK_EACH)
            same = same && date_monday(one->date) == date_monday(first->date);
        if (!same)
            continue;
        group.occasions = arena_grow(arena, group.occasions, group.count, &group.capacity, sizeof *group.occasions);
        group.occasions[group.count++] = one;
    }
    return group;
}

/* All that SHEET of GROUP shows, in words and places, without its version. */
static const char *shown(struct arena *arena, const struct sheet_origin *origin, const struct sheet *sheet,
                         const struct occasion_group *group)
{
    struct text words = {.arena = arena};
    struct sheet_request request = sheet_request_for(origin, sheet, group);
    request.arena = arena;
    request.type = type;
    render_plain(sheet_make(sheet, &request), &words);
    return text_keep(arena, &words);
}

/* The occasion of OTHER that stands for ONE: the same athlete's, at the same time, of the same name. */
static const struct occasion *like(const struct programme *other, const struct occasion *one)
{
    for (size_t i = 0; i < other->occasion_count; i++) {
        const struct occasion *found = &other->occasions[i];
        if (found->session && found->date == one->date && found->clock == one->clock &&
            text_same(found->athlete->name.folded, one->athlete->name.folded) &&
            text_same(found->session->name.folded, one->session->name.folded) &&
            text_same(found->camp->name.folded, one->camp->name.folded))
            return found;
    }
    return NULL;
}

struct counts {
    unsigned same, changed, needless;
};

static void compare(const struct programme *a, const struct programme *b, const struct occasion *first, const char *change,
                    struct counts *counts)
{
    const struct occasion *other = like(b, first);
    for (size_t s = 0; other && s < sheet_count; s++) {
        const struct sheet *sheet = &sheets[s];
        if (sheet_is_of_season(sheet))
            continue;
        struct arena *arena = arena_new();
        struct sheet_origin of_a = {.programme = a, .arena = arena, .version = ""};
        struct sheet_origin of_b = {.programme = b, .arena = arena, .version = ""};
        struct occasion_group one = group_of(arena, a, first, sheet), two = group_of(arena, b, other, sheet);
        const char *version_a = sheet_version(sheet_versions_new(&of_a), sheet, &one);
        const char *version_b = sheet_version(sheet_versions_new(&of_b), sheet, &two);
        bool same_version = strcmp(version_a, version_b) == 0;
        bool same = strcmp(shown(arena, &of_a, sheet, &one), shown(arena, &of_b, sheet, &two)) == 0;
        if (same_version && !same) {
            fprintf(stderr, "%s\n--- %s\n+++ %s\n", change, shown(arena, &of_a, sheet, &one), shown(arena, &of_b, sheet, &two));
            fail_msg("a %s that shows something else has the same version", sheet->name);
        }
        counts->same += same_version;
        counts->changed += !same;
        counts->needless += !same_version && same;
        arena_free(arena);
    }
}

static bool read_plan(struct plan_reader *reader, const struct text *plan)
{
    plan_reader_open(reader);
    plan_reader_text(reader, "club.bell", text_get(plan), plan->length);
    plan_reader_resolve(reader);
    return diag_count(reader->diag, SEVERITY_ERROR) == 0;
}

static void what_has_one_version_shows_the_same(void **state)
{
    struct counts counts = {0};
    (void)state;
    const struct cases pairs = cases_of(PAIRS, SAMPLE);
    for (uint64_t seed = pairs.from + 1; seed <= pairs.to; seed++) {
        struct plan_reader a, b;
        struct text plan = {0}, changed = {0}, change = {0};
        club_make(&(struct club_seed){seed, 0, 0}, &plan);
        plan_change(&plan, seed, &changed, &change);
        bool good = read_plan(&a, &plan);
        good = read_plan(&b, &changed) && good;
        unsigned looked_at = 0;
        for (size_t i = (size_t)seed % 3; good && i < a.programme->occasion_count && looked_at < SHEETS_EACH; i += 3)
            if (a.programme->occasions[i].session && ++looked_at)
                compare(a.programme, b.programme, &a.programme->occasions[i], text_get(&change), &counts);
        plan_reader_close(&a);
        plan_reader_close(&b);
        text_free(&plan);
        text_free(&changed);
        text_free(&change);
    }
    assert_true(counts.same > cases_count(pairs) && counts.changed > cases_count(pairs) / 4);
    /* A version that changes in vain costs a print and takes down a good sheet: that is to be rare. */
    printf("%u kept their versions, %u show something else, %u have another version in vain\n", counts.same, counts.changed,
           counts.needless);
    assert_true(counts.needless * 10 < counts.same);
}

static void order_and_comments_change_no_version(void **state)
{
    (void)state;
    const struct cases pairs = cases_of(PAIRS, SAMPLE);
    for (uint64_t seed = pairs.from + 1; seed <= pairs.to; seed++) {
        struct plan_reader a, b;
        struct text plan = {0}, other = {0};
        club_make(&(struct club_seed){seed, 0, 0}, &plan);
        text_add(&other, "# a comment\n");
        club_make(&(struct club_seed){seed, 0, 0}, &other);
        assert_true(read_plan(&a, &plan) && read_plan(&b, &other));
        const struct sheet_origin of_a = {.programme = a.programme, .arena = a.arena, .version = ""};
        const struct sheet_origin of_b = {.programme = b.programme, .arena = b.arena, .version = ""};
        struct sheet_versions *versions_a = sheet_versions_new(&of_a), *versions_b = sheet_versions_new(&of_b);
        for (size_t i = 0; i < a.programme->occasion_count; i++) {
            const struct occasion *first = &a.programme->occasions[i], *same = &b.programme->occasions[i];
            for (size_t s = 0; s < 2 && first->session; s++) {
                struct occasion_group one = group_of(a.arena, a.programme, first, &sheets[s]);
                struct occasion_group two = group_of(b.arena, b.programme, same, &sheets[s]);
                assert_string_equal(sheet_version(versions_a, &sheets[s], &one), sheet_version(versions_b, &sheets[s], &two));
            }
        }
        plan_reader_close(&a);
        plan_reader_close(&b);
        text_free(&plan);
        text_free(&other);
    }
}

/* A page for parents or for the corner has neither doses nor sums; what it does say, its version tells apart. */
static const char *handout_plan(const char *gym, const char *contact, const char *zones, const char *sets)
{
    static char plan[1024];
    snprintf(plan, sizeof plan,
             "gym %s\n    barbells 2 x 20 kg\nathlete Oriel Tamsin\n    born 2012-03-01\n    trains at %s\n"
             "activity drill\n    contact %s\n    rpe 5\n"
             "session Legs\n    straight A %s sets\n        push-up : 5\n"
             "camp Spring\n    for Oriel Tamsin\n    starts 2027-03-01\n    weeks 1-2\n        monday Legs\n"
             "        tuesday drill : 30 min\n        friday travel : 5 h\n            time zones %s\n",
             gym, gym, contact, sets, zones);
    return plan;
}

static const char *handout_version(struct arena *arena, const char *sheet, const char *plan)
{
    struct plan_reader reader;
    plan_reader_open(&reader);
    plan_reader_shelf(&reader);
    plan_reader_text(&reader, "club.bell", plan, strlen(plan));
    plan_reader_resolve(&reader);
    assert_int_equal(diag_count(reader.diag, SEVERITY_ERROR), 0);
    const struct sheet_origin origin = {.programme = reader.programme, .arena = reader.arena, .version = ""};
    const struct sheet *found = sheet_find(sheet);
    assert_true(reader.programme->occasion_count > 0);
    struct occasion_group group = group_of(reader.arena, reader.programme, &reader.programme->occasions[0], found);
    const char *version = arena_printf(arena, "%s", sheet_version(sheet_versions_new(&origin), found, &group));
    plan_reader_close(&reader);
    return version;
}

static void handouts_have_the_version_of_what_they_say(void **state)
{
    (void)state;
    struct arena *arena = arena_new();
    const char *first = handout_version(arena, "parents", handout_plan("Slipway", "none", "7 east", "3"));
    const char *week = handout_version(arena, "week", handout_plan("Slipway", "none", "7 east", "3"));
    assert_string_not_equal(first, handout_version(arena, "parents", handout_plan("Boathouse", "none", "7 east", "3")));
    assert_string_not_equal(first, handout_version(arena, "parents", handout_plan("Slipway", "head", "7 east", "3")));
    assert_string_not_equal(week, handout_version(arena, "week", handout_plan("Slipway", "none", "5 east", "3")));
    arena_free(arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_has_one_version_shows_the_same),
        cmocka_unit_test(order_and_comments_change_no_version),
        cmocka_unit_test(handouts_have_the_version_of_what_they_say),
    };
    return cmocka_run_group_tests(tests, open_type, close_type);
}
