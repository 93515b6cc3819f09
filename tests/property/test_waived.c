/* A waiver takes away what it names, and nothing else. Each golden plan of tests/golden/checks, which together break every
 * check, is read once more with a waiver below each camp for all that was found in it: what may be waived is gone, what may not
 * is still said, and nothing is new but what is said of waivers. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "figures/dates.h"
#include "model/programme.h"
#include "plan_reader.h"
#include "rules/rules.h"
#include "rules/run.h"

enum { MOST_SAID = 400 };

/* What is said of no athlete of a camp: a waiver below a camp does not reach it. */
static const enum diagnostic of_nobody[] = {DIAG_ATHLETE_WITHOUT_CAMP, DIAG_CAMP_OUTSIDE_SEASON, DIAG_LIMIT_LOOSENED,
                                            DIAG_LIMIT_NEVER_HOLDS, DIAG_SESSION_NEVER_PLACED};

/* What is found in a plan: once each, by check and words. */
struct said {
    enum diagnostic what[MOST_SAID];
    const char *words[MOST_SAID];
    size_t count;
};

static int today_of(const char *plan)
{
    int year = 2027, month = 2, day = 20;
    const char *at = strstr(plan, "# date: ");
    if (at)
        sscanf(at, "# date: %4d-%2d-%2d", &year, &month, &day);
    return date_from_ymd(year, month, day);
}

static void say(struct arena *arena, const char *plan, size_t length, struct said *said)
{
    struct plan_reader reader;
    plan_reader_open(&reader);
    plan_reader_shelf(&reader);
    plan_reader_text(&reader, "plan.bell", plan, length);
    reader.programme = programme_resolve(reader.arena, &reader.sources, reader.trees, reader.count, today_of(plan), reader.diag);
    rules_run(reader.programme, reader.diag);
    *said = (struct said){0};
    for (size_t i = 0; i < reader.diag->count && said->count < MOST_SAID; i++) {
        const struct finding *finding = reader.diag->items[i];
        said->what[said->count] = finding->diagnostic;
        said->words[said->count++] = arena_copy(arena, finding->words, strlen(finding->words));
    }
    plan_reader_close(&reader);
}

static bool is_of_waivers(enum diagnostic what)
{
    return what == DIAG_WAIVER_UNKNOWN || what == DIAG_WAIVER_UNUSED;
}

static bool says(const struct said *said, enum diagnostic what)
{
    for (size_t i = 0; i < said->count; i++)
        if (said->what[i] == what)
            return true;
    return false;
}

/* PLAN with a waiver below each camp for each check of SAID. */
static void add_waivers(const char *plan, const struct said *said, struct text *out)
{
    while (*plan) {
        size_t length = strcspn(plan, "\n");
        bool camp = strncmp(plan, "camp ", strlen("camp ")) == 0;
        length += plan[length] == '\n';
        text_addf(out, "%.*s", (int)length, plan);
        for (size_t i = 0; camp && i < said->count; i++) {
            const struct said before = {.what[0] = said->what[i], .count = 1};
            bool again = false;
            for (size_t j = 0; j < i && !again; j++)
                again = says(&before, said->what[j]);
            if (!again && rule_find(diagnostic_name(said->what[i])))
                text_addf(out, "    waive %s until 2029-12-31\n        because this is tried\n", diagnostic_name(said->what[i]));
        }
        plan += length;
    }
}

struct tried {
    unsigned gone, firm, wrong;
};

static bool is_of_nobody(enum diagnostic what)
{
    for (size_t i = 0; i < sizeof of_nobody / sizeof *of_nobody; i++)
        if (of_nobody[i] == what)
            return true;
    return false;
}

/* Is each check of BEFORE gone from AFTER that may be, and each still there that may not? */
static void compare(const char *path, const struct said *before, const struct said *after, struct tried *tried)
{
    for (size_t i = 0; i < before->count; i++) {
        const struct rule *rule = rule_find(diagnostic_name(before->what[i]));
        bool still = says(after, before->what[i]);
        if (!rule || is_of_waivers(before->what[i]))
            continue;
        bool firm = rule->marks & FIRM || is_of_nobody(before->what[i]);
        tried->gone += !still;
        tried->firm += firm;
        if (still != firm) {
            print_message("%s: %s\n    %s\n", path, still ? "still says" : "no longer says", before->words[i]);
            tried->wrong++;
        }
    }
    for (size_t i = 0; i < after->count; i++)
        if (!is_of_waivers(after->what[i]) && !says(before, after->what[i])) {
            print_message("%s: only now says\n    %s\n", path, after->words[i]);
            tried->wrong++;
        }
}

static void try_plan(const char *path, struct tried *tried)
{
    struct arena *arena = arena_new();
    struct sources sources = {.arena = arena};
    struct text waived = {.arena = NULL};
    struct said before, after;
    const char *wrong;
    int file = source_read(&sources, path, path, &wrong);
    assert_true(file >= 0);
    const char *plan = sources.items[file].text;
    say(arena, plan, strlen(plan), &before);
    add_waivers(plan, &before, &waived);
    say(arena, text_get(&waived), waived.length, &after);
    compare(path, &before, &after, tried);
    text_free(&waived);
    arena_free(arena);
}

static void a_waiver_takes_away_what_it_names(void **state)
{
    (void)state;
    glob_t found;
    struct tried tried = {0};
    assert_int_equal(glob("tests/golden/checks/*.bell", 0, NULL, &found), 0);
    for (size_t i = 0; i < found.gl_pathc; i++)
        try_plan(found.gl_pathv[i], &tried);
    globfree(&found);
    assert_true(tried.gone > 150 && tried.firm > 30);
    assert_int_equal(tried.wrong, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_waiver_takes_away_what_it_names),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
