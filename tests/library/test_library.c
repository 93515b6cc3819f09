/* test_library.c - what is said in the public header: sessions, overlays, findings, and every failure returned. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include <bellsheet/bellsheet.h>
#include <glib.h>
#include <glib/gstdio.h>
#include <jansson.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static char *folder; /* with a shelf of next to nothing in share/, and a plan in plan/ */

static void put(const char *name, const char *text)
{
    char *path = g_build_filename(folder, name, NULL), *parent = g_path_get_dirname(path);
    g_mkdir_with_parents(parent, 0700);
    assert_true(g_file_set_contents(path, text, -1, NULL));
    g_free(parent);
    g_free(path);
}

static const char PLAN[] = "gym Slipway\n"
                           "    plates 4 x 20, 4 x 10 kg\n"
                           "athlete Oriel\n"
                           "camp One\n"
                           "    for Oriel\n"
                           "    starts 2027-03-01\n"
                           "    week 1\n"
                           "        monday 17:30 S\n"
                           "session S\n"
                           "    straight A 2 sets rest 1:00\n"
                           "        push-up : 5\n";

static int make_folder(void **state)
{
    (void)state;
    folder = g_dir_make_tmp("bellsheet-library-XXXXXX", NULL);
    put("share/exercises/a.bell", "exercise push-up\n    kind  strength\n    pattern  push\n");
    put("share/activities/a.bell", "# none\n");
    put("share/rounds/a.bell", "# none\n");
    put("share/limits/a.bell", "# none\n");
    put("share/return/a.bell", "# none\n");
    put("share/tests/a.bell", "# none\n");
    put("plan/a.bell", PLAN);
    return 0;
}

static int remove_folder(void **state)
{
    (void)state;
    char *words[] = {"rm", "-rf", folder, NULL};
    g_spawn_sync(NULL, words, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL, NULL, NULL, NULL, NULL);
    g_free(folder);
    return 0;
}

static struct bell_options options_of(char **share)
{
    *share = g_build_filename(folder, "share", NULL);
    return (struct bell_options){.share = *share, .today = "2027-03-01"};
}

static struct bell_session *session_of(const struct bell_options *options)
{
    struct bell_session *session;
    char *plan = g_build_filename(folder, "plan", NULL);
    assert_int_equal(bell_open(options, &session), BELL_OK);
    assert_int_equal(bell_add_path(session, plan), BELL_OK);
    g_free(plan);
    return session;
}

static void lay(struct bell_session *session, const char *text, long version)
{
    char *path = g_build_filename(folder, "plan", "a.bell", NULL);
    assert_int_equal(bell_overlay(session, path, text, strlen(text), version), BELL_OK);
    g_free(path);
}

static void test_edits(void **state)
{
    (void)state;
    char *share, *path = g_build_filename(folder, "plan", "a.bell", NULL);
    struct bell_options options = options_of(&share);
    struct bell_session *session = session_of(&options);
    assert_int_equal(bell_compile(session), BELL_OK);
    size_t before = bell_finding_count(session);
    lay(session, "athlete Oriel\nathlet Tamsin\n", 7);
    assert_int_equal(bell_compile(session), BELL_OK);
    assert_int_equal(bell_finding_count(session), 1);
    assert_int_equal(bell_is_incomplete(session), 1);
    const struct bell_finding *finding = bell_finding(session, 0);
    assert_int_equal(finding->severity, BELL_ERROR);
    assert_string_equal(finding->id, "unknown-statement");
    assert_int_equal(finding->place.version, 7);
    assert_int_equal(finding->place.line, 2);
    assert_int_equal(finding->place.column, 1);
    assert_int_equal(finding->place.start, 14);
    assert_int_equal(finding->place.end, 20);
    assert_string_equal(finding->replacement, "athlete");
    assert_int_equal(finding->edit.start, 14);
    assert_null(bell_finding(session, 1));
    lay(session, PLAN, 8);
    assert_int_equal(bell_compile(session), BELL_OK);
    assert_int_equal(bell_finding_count(session), before);
    assert_int_equal(bell_uncover(session, path), BELL_OK);
    assert_int_equal(bell_uncover(session, path), BELL_NOTHING);
    assert_int_equal(bell_compile(session), BELL_OK);
    assert_int_equal(bell_finding_count(session), before);
    bell_close(session);
    g_free(path);
    g_free(share);
}

static void test_answers(void **state)
{
    (void)state;
    char *share;
    const char *json;
    size_t length;
    struct bell_options options = options_of(&share);
    struct bell_session *session = session_of(&options);
    assert_int_equal(bell_programme(session, 0, &json, &length), BELL_NOT_COMPILED);
    assert_int_equal(bell_compile(session), BELL_OK);
    assert_int_equal(bell_programme(session, 0, &json, &length), BELL_OK);
    json_t *read = json_loadb(json, length, 0, NULL);
    assert_string_equal(json_string_value(json_object_get(read, "format")), "bellsheet programme");
    json_decref(read);
    assert_int_equal(bell_tally(session, 1, &json, &length), BELL_OK);
    read = json_loadb(json, length, 0, NULL);
    assert_string_equal(json_string_value(json_object_get(read, "format")), "bellsheet tally");
    json_decref(read);
    lay(session, "athlete Oriel\n", 1);
    assert_int_equal(bell_compile(session), BELL_OK);
    assert_int_equal(bell_tally(session, 0, &json, &length), BELL_NOTHING);
    assert_null(json);
    bell_close(session);
    g_free(share);
}

static void test_health_is_marked(void **state)
{
    (void)state;
    char *share;
    struct bell_options options = options_of(&share);
    struct bell_session *session = session_of(&options);
    lay(session, "athlete Oriel\n    avoid overhead\n        nonsense of hers\nnonsense\n", 1);
    assert_int_equal(bell_compile(session), BELL_OK);
    assert_true(bell_finding_count(session) >= 2);
    assert_int_equal(bell_finding(session, 0)->for_coach, 1);
    assert_int_equal(bell_finding(session, bell_finding_count(session) - 1)->for_coach, 0);
    bell_close(session);
    g_free(share);
}

static void test_bad_arguments(void **state)
{
    (void)state;
    struct bell_session *session;
    static const char *const days[] = {"", "2027-3-8", "2027-02-30", "2027-03-081", "+027-03-08", "today"};
    for (size_t i = 0; i < sizeof days / sizeof *days; i++)
        assert_int_equal(bell_open(&(struct bell_options){.today = days[i]}, &session), BELL_BAD_ARGUMENT);
    assert_int_equal(bell_open(&(struct bell_options){.resize = (void *(*)(void *, void *, size_t))1}, &session),
                     BELL_BAD_ARGUMENT);
    assert_int_equal(bell_open(NULL, NULL), BELL_BAD_ARGUMENT);
    assert_int_equal(bell_open(NULL, &session), BELL_OK);
    assert_int_equal(bell_add_path(session, "-"), BELL_BAD_ARGUMENT);
    assert_int_equal(bell_add_path(session, ""), BELL_BAD_ARGUMENT);
    assert_int_equal(bell_compile(session), BELL_BAD_ARGUMENT);
    assert_int_equal(bell_overlay(session, "a.bell", NULL, 1, 0), BELL_BAD_ARGUMENT);
    assert_int_equal(bell_overlay(session, "a.bell", "", 0, -1), BELL_BAD_ARGUMENT);
    assert_int_equal(bell_add_path(session, "/nowhere/at/all"), BELL_OK);
    assert_int_equal(bell_compile(session), BELL_NO_FILE);
    assert_true(strlen(bell_failure(session)) > 0);
    assert_int_equal(bell_finding_count(session), 0);
    bell_close(session);
    bell_close(NULL);
}

/* Where there is no session, and before anything was compiled. */
static void test_no_session(void **state)
{
    (void)state;
    const char *json;
    size_t length;
    struct bell_session *session;
    assert_int_equal(bell_add_path(NULL, "a.bell"), BELL_BAD_ARGUMENT);
    assert_int_equal(bell_overlay(NULL, "a.bell", "", 0, 1), BELL_BAD_ARGUMENT);
    assert_int_equal(bell_uncover(NULL, "a.bell"), BELL_BAD_ARGUMENT);
    assert_int_equal(bell_compile(NULL), BELL_BAD_ARGUMENT);
    assert_int_equal(bell_programme(NULL, 0, &json, &length), BELL_BAD_ARGUMENT);
    assert_string_equal(bell_failure(NULL), "");
    assert_false(bell_is_incomplete(NULL));
    assert_int_equal(bell_finding_count(NULL), 0);
    assert_null(bell_finding(NULL, 0));
    assert_int_equal(bell_open(NULL, &session), BELL_OK);
    assert_int_equal(bell_add_path(session, NULL), BELL_BAD_ARGUMENT);
    assert_int_equal(bell_overlay(session, NULL, "", 0, 1), BELL_BAD_ARGUMENT);
    assert_int_equal(bell_overlay(session, "", "", 0, 1), BELL_BAD_ARGUMENT);
    assert_int_equal(bell_uncover(session, NULL), BELL_BAD_ARGUMENT);
    assert_int_equal(bell_uncover(session, ""), BELL_BAD_ARGUMENT);
    assert_int_equal(bell_uncover(session, "a.bell"), BELL_NOTHING);
    assert_int_equal(bell_programme(session, 0, NULL, &length), BELL_BAD_ARGUMENT);
    assert_int_equal(bell_programme(session, 0, &json, NULL), BELL_BAD_ARGUMENT);
    assert_int_equal(bell_tally(session, 0, &json, &length), BELL_NOT_COMPILED);
    assert_false(bell_is_incomplete(session));
    assert_string_equal(bell_failure(session), "");
    assert_string_equal(bell_version(), BELL_VERSION);
    bell_close(session);
}

/* --- an allocator that runs dry --- */

struct well {
    long left; /* allocations before it is dry; below 0: never */
    long open; /* pieces that were not given back */
};

static void *draw(void *context, void *old, size_t size)
{
    struct well *well = context;
    if (well->left == 0)
        return NULL;
    if (well->left > 0)
        well->left--;
    void *got = realloc(old, size);
    well->open += got && !old;
    return got;
}

static void pour(void *context, void *old)
{
    struct well *well = context;
    well->open -= old != NULL;
    free(old);
}

/* All that may be asked, in a session whose allocator fails after LEFT calls. Whether it all came to its end. */
static bool run_dry(const char *share, const char *plan, long left)
{
    struct well well = {.left = left};
    const char *json;
    size_t length;
    struct bell_options options = {.share = share, .resize = draw, .free = pour, .memory_context = &well};
    struct bell_session *session;
    enum bell_status status = bell_open(&options, &session);
    if (status == BELL_OK)
        status = bell_add_path(session, plan);
    for (long i = 0; status == BELL_OK && i < 2; i++)
        status = bell_overlay(session, "/nowhere/b.bell", "# nothing\n", 10, i);
    if (status == BELL_OK)
        status = bell_compile(session);
    if (status == BELL_OK)
        status = bell_programme(session, 1, &json, &length);
    assert_true(status == BELL_OK || status == BELL_NO_MEMORY);
    if (status == BELL_NO_MEMORY && session) {
        well.left = -1; /* a session that ran dry can be used again */
        bell_add_path(session, plan);
        assert_int_equal(bell_compile(session), BELL_OK);
    }
    bell_close(session);
    assert_int_equal(well.open, 0);
    return status == BELL_OK;
}

static void test_every_allocation_fails(void **state)
{
    (void)state;
    char *share = g_build_filename(folder, "share", NULL), *plan = g_build_filename(folder, "plan", NULL);
    long left = 0;
    while (!run_dry(share, plan, left))
        left++;
    assert_true(left > 20);
    g_free(plan);
    g_free(share);
}

/* --- a compile that is no longer wanted --- */

static int say_when(void *context)
{
    long *left = context;
    return (*left)-- <= 0;
}

static void test_cancelled(void **state)
{
    (void)state;
    char *share;
    long left;
    struct well well = {.left = -1};
    struct bell_options options = options_of(&share);
    options.is_cancelled = say_when;
    options.cancel_context = &left;
    options.resize = draw;
    options.free = pour;
    options.memory_context = &well;
    struct bell_session *session = session_of(&options);
    long asked = 0;
    for (enum bell_status status = BELL_CANCELLED; status != BELL_OK; asked++) {
        left = asked;
        status = bell_compile(session);
        assert_true(status == BELL_OK || status == BELL_CANCELLED);
    }
    assert_true(asked > 5); /* the shelf's files, the plan's, camps, athletes */
    bell_close(session);
    assert_int_equal(well.open, 0);
    g_free(share);
}

/* --- two at once: `make tsan` runs this under the thread sanitizer --- */

static gpointer compile_often(gpointer with)
{
    struct bell_session *session = with;
    const char *json;
    size_t length, findings = 0;
    for (long i = 0; i < 5; i++) {
        lay(session, PLAN, i);
        if (bell_compile(session) != BELL_OK || bell_programme(session, 0, &json, &length) != BELL_OK ||
            bell_tally(session, 1, &json, &length) != BELL_OK)
            return GSIZE_TO_POINTER(G_MAXSIZE);
        findings += bell_finding_count(session);
    }
    return GSIZE_TO_POINTER(findings);
}

static void test_two_at_once(void **state)
{
    (void)state;
    struct bell_options options = {.share = "share", .today = "2027-03-01"};
    GThread *threads[2];
    gpointer found[2];
    struct bell_session *sessions[2];
    for (int i = 0; i < 2; i++) {
        sessions[i] = session_of(&options);
        threads[i] = g_thread_new("compile", compile_often, sessions[i]);
    }
    for (int i = 0; i < 2; i++)
        found[i] = g_thread_join(threads[i]);
    assert_true(found[0] != GSIZE_TO_POINTER(G_MAXSIZE));
    assert_ptr_equal(found[0], found[1]);
    for (int i = 0; i < 2; i++)
        bell_close(sessions[i]);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_edits),        cmocka_unit_test(test_answers),
        cmocka_unit_test(test_health_is_marked), cmocka_unit_test(test_bad_arguments),
        cmocka_unit_test(test_no_session),
        cmocka_unit_test(test_every_allocation_fails), cmocka_unit_test(test_cancelled),
        cmocka_unit_test(test_two_at_once),
    };
    return cmocka_run_group_tests_name("library", tests, make_folder, remove_folder);
}
