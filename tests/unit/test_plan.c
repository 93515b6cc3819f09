/* test_plan.c - which files a plan is made of, bytes laid over them, and failures handed back. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include <glib.h>
#include <glib/gstdio.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

#include "model/programme.h"
#include "plan/kept.h"
#include "plan/plan.h"
#include "plan/plan_files.h"
#include "syntax/read.h"

static char *folder;

static char *inside(const char *name)
{
    return g_build_filename(folder, name, NULL);
}

static void put(const char *name, const char *text)
{
    char *path = inside(name);
    assert_true(g_file_set_contents(path, text, -1, NULL));
    g_free(path);
}

static int make_folder(void **state)
{
    (void)state;
    char *made = g_dir_make_tmp("bellsheet-plan-XXXXXX", NULL);
    struct arena *arena = arena_new();
    folder = g_strdup(plan_true_path(arena, made));
    arena_free(arena);
    g_free(made);
    return 0;
}

static int remove_folder(void **state)
{
    static const char *const names[] = {"a.bell", "b.bell"};
    (void)state;
    for (size_t i = 0; i < 2; i++) {
        char *path = inside(names[i]);
        g_unlink(path);
        g_free(path);
    }
    g_rmdir(folder);
    g_free(folder);
    return 0;
}

static bool load(struct project *project, const char *path, const struct overlay *overlays, size_t count)
{
    struct project_request request = {.share = "share", .paths = &path, .path_count = 1, .overlays = overlays,
                                      .overlay_count = count};
    return project_load(project, arena_new(), &request);
}

static const char *athlete(const struct project *project, size_t index)
{
    return index < project->programme->athlete_count ? project->programme->athletes[index]->name.shown : "";
}

static void test_overlay_wins(void **state)
{
    (void)state;
    struct project project;
    char *path = inside("a.bell");
    put("a.bell", "athlete Oriel\n");
    const struct overlay overlay = {path, "athlete Tamsin\n", 15, 1, false};
    assert_true(load(&project, folder, NULL, 0));
    assert_string_equal(athlete(&project, 0), "Oriel");
    arena_free(project.arena);
    assert_true(load(&project, folder, &overlay, 1));
    assert_int_equal(project.programme->athlete_count, 1);
    assert_string_equal(athlete(&project, 0), "Tamsin");
    arena_free(project.arena);
    assert_true(load(&project, path, &overlay, 1));
    assert_string_equal(athlete(&project, 0), "Tamsin");
    arena_free(project.arena);
    g_free(path);
}

/* A file that was never saved is part of its folder's plan, alone, beside others, given by itself, and used by another. */
static void test_unsaved(void **state)
{
    (void)state;
    struct project project;
    char *path = inside("b.bell");
    const struct overlay overlay = {path, "athlete Tamsin\n", 15, 1, false};
    const char *const paths[] = {folder, path};
    for (size_t i = 0; i < 2; i++) {
        assert_true(load(&project, paths[i], &overlay, 1));
        assert_int_equal(project.programme->athlete_count, 1);
        arena_free(project.arena);
    }
    put("a.bell", "athlete Oriel\n");
    assert_true(load(&project, folder, &overlay, 1));
    assert_int_equal(project.programme->athlete_count, 2);
    arena_free(project.arena);
    put("a.bell", "use b.bell\nathlete Oriel\n");
    char *user = inside("a.bell");
    assert_true(load(&project, user, &overlay, 1));
    assert_int_equal(project.programme->athlete_count, 2);
    assert_int_equal(diag_count(project.diag, SEVERITY_ERROR), 0);
    arena_free(project.arena);
    g_free(user);
    g_free(path);
}

static void test_outside_overlay_stays_out(void **state)
{
    (void)state;
    struct project project;
    put("a.bell", "athlete Oriel\n");
    const struct overlay overlay = {"/nowhere/c.bell", "athlete Tamsin\n", 15, 1, false};
    assert_true(load(&project, folder, &overlay, 1));
    assert_int_equal(project.programme->athlete_count, 1);
    arena_free(project.arena);
}

static void test_failures_come_back(void **state)
{
    (void)state;
    struct project project;
    assert_false(load(&project, folder, NULL, 0));
    assert_string_equal(project.failure.path, folder);
    assert_string_equal(project.failure.why, "no plan in this folder (plans end in .bell)");
    arena_free(project.arena);

    assert_false(load(&project, "/nowhere/at/all", NULL, 0));
    assert_string_equal(project.failure.path, "/nowhere/at/all");
    assert_string_equal(project.failure.why, "No such file or directory");
    arena_free(project.arena);

    const char *path = folder;
    struct project_request request = {.paths = &path, .path_count = 1};
    assert_false(project_load(&project, arena_new(), &request));
    assert_string_equal(project.failure.why, "the shelf of exercises is not installed here");
    arena_free(project.arena);

    char *file = inside("a.bell");
    const struct overlay large = {file, "", SOURCE_LARGEST + 1, 1, false};
    assert_false(load(&project, file, &large, 1));
    assert_string_equal(project.failure.why, SOURCE_TOO_LARGE);
    arena_free(project.arena);
    g_free(file);
}

/* --- files that stay read --- */

static const struct tree *tree_of(const struct project *project, const char *name)
{
    for (size_t i = 0; i < project->kept_count; i++)
        if (strstr(project->kept[i]->source.name, name))
            return project->kept[i]->tree;
    return NULL;
}

static bool load_kept(struct kept *kept, struct project *project, const char *text)
{
    char *path = inside("a.bell");
    const char *paths = folder;
    const struct overlay overlay = {path, text, text ? strlen(text) : 0, 1, false};
    struct project_request request = {.share = "share", .paths = &paths, .path_count = 1, .overlays = &overlay,
                                      .overlay_count = text != NULL, .kept = kept};
    bool loaded = project_load(project, arena_new(), &request);
    g_free(path);
    return loaded;
}

/* Only what has changed is read again, whether on the disk or over it; and what is gone is gone. */
static void test_files_stay_read(void **state)
{
    (void)state;
    struct memory memory = {0};
    struct kept kept;
    struct project project;
    kept_open(&kept, &memory);
    put("a.bell", "athlete Oriel\nathlete\n");
    put("b.bell", "athlete Wren\n");
    assert_true(load_kept(&kept, &project, NULL));
    const struct tree *a = tree_of(&project, "/a.bell"), *b = tree_of(&project, "/b.bell");
    const struct tree *shelf = tree_of(&project, "shelf/");
    assert_int_equal(diag_count(project.diag, SEVERITY_ERROR), 1);
    arena_free(project.arena);

    assert_true(load_kept(&kept, &project, "athlete Oriel\nathlete\n"));
    assert_ptr_equal(tree_of(&project, "/a.bell"), a); /* the same bytes are laid over it */
    assert_int_equal(diag_count(project.diag, SEVERITY_ERROR), 1);
    arena_free(project.arena);

    assert_true(load_kept(&kept, &project, "athlete Tamsin\n"));
    assert_ptr_not_equal(tree_of(&project, "/a.bell"), a);
    assert_ptr_equal(tree_of(&project, "/b.bell"), b);
    assert_ptr_equal(tree_of(&project, "shelf/"), shelf);
    assert_string_equal(athlete(&project, 0), "Tamsin");
    assert_int_equal(diag_count(project.diag, SEVERITY_ERROR), 0);
    arena_free(project.arena);

    put("b.bell", "athlete Edda\n"); /* as many bytes, a moment later */
    assert_true(load_kept(&kept, &project, NULL));
    assert_string_equal(athlete(&project, 0), "Oriel");
    assert_string_equal(athlete(&project, 1), "Edda");
    arena_free(project.arena);

    char *path = inside("b.bell");
    assert_int_equal(g_unlink(path), 0);
    assert_true(load_kept(&kept, &project, NULL));
    assert_null(kept_find(&kept, path));
    assert_int_equal(project.programme->athlete_count, 1);
    arena_free(project.arena);
    g_free(path);
    memory_free(&memory, NULL);
}

/* A file that is met as another of the files than before is read again: places in it say which file they are in. */
static void test_files_move(void **state)
{
    (void)state;
    struct memory memory = {0};
    struct kept kept;
    struct project project;
    kept_open(&kept, &memory);
    char *first = inside("a.bell");
    put("a.bell", "athlete Oriel\n");
    put("b.bell", "athlete\n");
    assert_true(load_kept(&kept, &project, NULL));
    assert_int_equal(project.diag->items[0]->span.file, project.sources.count - 1);
    arena_free(project.arena);
    assert_int_equal(g_unlink(first), 0);
    assert_true(load_kept(&kept, &project, NULL));
    assert_int_equal(project.diag->items[0]->span.file, project.sources.count - 1);
    assert_string_equal(project.sources.items[project.sources.count - 1].text, "athlete\n");
    arena_free(project.arena);
    memory_free(&memory, NULL);
    g_free(first);
}

/* What a failed `use` left in a tree that is kept is forgotten once its file is there. */
static void test_use_is_followed_again(void **state)
{
    (void)state;
    struct memory memory = {0};
    struct kept kept;
    struct project project;
    kept_open(&kept, &memory);
    put("a.bell", "use b.bell\nathlete Oriel\n");
    assert_true(load_kept(&kept, &project, NULL));
    assert_int_equal(diag_count(project.diag, SEVERITY_ERROR), 1);
    arena_free(project.arena);
    put("b.bell", "athlete Wren\n");
    assert_true(load_kept(&kept, &project, NULL));
    assert_int_equal(diag_count(project.diag, SEVERITY_ERROR), 0);
    assert_int_equal(project.programme->athlete_count, 2);
    assert_false(project.programme->incomplete);
    arena_free(project.arena);
    memory_free(&memory, NULL);
}

static void test_what_stands_at_a_byte(void **state)
{
    (void)state;
    static const char text[] = "# first\nsession S\n    straight A 2 sets\n        push-up : 5 @ 60 kg\n";
    struct arena *arena = arena_new();
    struct sources sources = {.arena = arena};
    int file = source_add(&sources, "a.bell", text, sizeof text - 1);
    struct diag *diag = diag_new(arena, &sources);
    struct tree *tree = read_file(arena, &sources, (unsigned)file, phrasebook_new(arena), diag);
    assert_ptr_equal(node_statement_at(tree->root, 3), tree->root);
    struct node *item = node_statement_at(tree->root, (uint32_t)(strstr(text, "60 kg") - text));
    assert_int_equal(item->parent->kind, node_statement_at(tree->root, (uint32_t)(strstr(text, "2 sets") - text))->kind);
    const struct node *value = node_value_at(item, (uint32_t)(strstr(text, "60 kg") - text));
    assert_int_equal(value->kind, NODE_NUMBER);
    assert_int_equal(value->number, 60000);
    assert_null(node_value_at(item, (uint32_t)(strstr(text, " push-up") - text - 4)));
    arena_free(arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(test_overlay_wins, make_folder, remove_folder),
        cmocka_unit_test_setup_teardown(test_unsaved, make_folder, remove_folder),
        cmocka_unit_test_setup_teardown(test_outside_overlay_stays_out, make_folder, remove_folder),
        cmocka_unit_test_setup_teardown(test_failures_come_back, make_folder, remove_folder),
        cmocka_unit_test_setup_teardown(test_files_stay_read, make_folder, remove_folder),
        cmocka_unit_test_setup_teardown(test_files_move, make_folder, remove_folder),
        cmocka_unit_test_setup_teardown(test_use_is_followed_again, make_folder, remove_folder),
        cmocka_unit_test(test_what_stands_at_a_byte),
    };
    return cmocka_run_group_tests_name("plan", tests, NULL, NULL);
}
