/* Any bytes as one more file of a small club: read with what it names of the shelf, resolved, checked, and the first
 * session laid out as one of the sheets, also where the command line would stop at the errors before. How many bytes there
 * are says which sheet: all of them would take ten times as long as everything before. */
#include "fuzz/fuzz.h"

#include <glob.h>
#include <stdlib.h>
#include <string.h>

#include "cli/project.h"
#include "done/camp_review.h"
#include "fuzz/kept_file.h"
#include "layout/sheet.h"
#include "model/programme.h"
#include "plan/shelf_index.h"
#include "plan/shelf_part.h"
#include "resolve/resolve.h"
#include "rules/rules.h"
#include "source/screen.h"
#include "syntax/read.h"

enum { MOST_TREES = 64, TODAY = 740048 /* 2027-03-08 */, RUNS_A_TYPE = 256 };

/* The shelf and the club behind it, read once. Of the shelf an input has what it names, or all where it asks for all. */
struct club {
    struct arena *arena;
    struct sources sources;
    struct tree *trees[MOST_TREES];
    size_t count, shelf_count;
    const struct phrasebook *phrases;
    struct type *type;
    bool indexed;  /* the shelf is the whole one, so that a part of it can be read */
    unsigned runs; /* since the typesetter was opened: it keeps all that it measured */
};

static void club_add(struct club *club, const char *path)
{
    const char *wrong;
    int file = source_read(&club->sources, path, path, &wrong);
    if (file < 0 || club->count == MOST_TREES)
        abort();
    struct diag *diag = diag_new(club->arena, &club->sources);
    club->trees[club->count++] = read_file(club->arena, &club->sources, (unsigned)file, club->phrases, diag);
}

/* LIST has the paths of files, parted by spaces. */
static void club_add_listed(struct club *club, const char *list)
{
    char path[512];
    for (const char *at = list; *at;) {
        size_t length = strcspn(at, " ");
        if (length && length < sizeof path) {
            memcpy(path, at, length);
            path[length] = '\0';
            club_add(club, path);
        }
        at += length + (at[length] == ' ');
    }
}

static void club_add_shelf(struct club *club)
{
    for (size_t i = 0; i < SHELF_FOLDERS; i++) {
        glob_t found;
        const char *folder = kept_file(club->arena, arena_printf(club->arena, "share/%s", shelf_folders[i]));
        if (glob(arena_printf(club->arena, "%s/*.bell", folder), 0, NULL, &found) != 0)
            abort();
        for (size_t file = 0; file < found.gl_pathc; file++)
            club_add(club, found.gl_pathv[file]);
        globfree(&found);
    }
}

/* FUZZ_SHELF and FUZZ_CLUB name a part of the shelf, and another club, for tests that have to be quick. */
static struct club *club_get(void)
{
    static struct club club;
    if (club.arena)
        return &club;
    club.arena = arena_new();
    club.sources.arena = club.arena;
    club.phrases = phrasebook_new(club.arena);
    const char *shelf = getenv("FUZZ_SHELF"), *plan = getenv("FUZZ_CLUB");
    if (shelf)
        club_add_listed(&club, shelf);
    else
        club_add_shelf(&club);
    club.shelf_count = club.count;
    club.indexed = shelf_is_indexed(&(struct shelf_part){.sources = &club.sources, .file_count = club.shelf_count});
    for (size_t i = 0; i < club.count; i++)
        club.sources.items[i].shelf = true;
    if (plan)
        club_add_listed(&club, plan);
    else
        club_add(&club, kept_file(club.arena, "examples/first/club.bell"));
    return &club;
}

static struct type *club_type(struct club *club)
{
    const char *wrong;
    if (club->runs++ % RUNS_A_TYPE == 0) {
        type_close(club->type);
        club->type = type_open(&wrong);
        if (!club->type)
            abort();
    }
    return club->type;
}

static void lay_out(struct arena *arena, struct club *club, const struct programme *programme, const struct sheet *sheet)
{
    const struct occasion *occasion = NULL;
    for (size_t i = 0; i < programme->occasion_count && !occasion; i++)
        if (programme->occasions[i].session)
            occasion = &programme->occasions[i];
    if (!occasion)
        return;
    const struct season season = {.name = occasion->camp->name, .first = occasion->camp->first, .last = occasion->camp->last};
    const struct camp_review review = review_of(arena, programme, occasion->camp, false);
    struct sheet_request request = {
        .arena = arena, .season = &season, .type = club_type(club), .programme = programme, .occasions = &occasion, .count = 1,
        .plan = "plan", .version = "0", .date_words = "Monday 1 March 2027", .author = "Slipway", .review = &review};
    sheet_make(sheet, &request);
}

/* Reads of the shelf what TREES name, as a command does. Nearly all inputs have a name that the shelf does not know, for which a
 * command reads all of it, to propose another. That takes five times as long as all the rest, so that one such input in eight
 * has it, by its bytes' number SIZE, and the others have nothing of it. */
static void read_shelf(const struct club *club, struct sources *sources, struct tree **trees, size_t size, struct diag *diag)
{
    const struct shelf_part shelf = {.sources = sources, .trees = trees, .file_count = club->shelf_count,
                                     .tree_count = club->count + 1, .phrases = club->phrases, .diag = diag};
    for (size_t i = 0; i < club->shelf_count; i++)
        trees[i] = read_nothing(sources->arena, (unsigned)i);
    if (!club->indexed || (!shelf_read_named(&shelf) && size / sheet_count % 8 == 0))
        memcpy(trees, club->trees, club->shelf_count * sizeof *trees);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct club *club = club_get();
    struct arena *arena = arena_new();
    struct sources sources = {.arena = arena};
    for (size_t i = 0; i < club->sources.count; i++) {
        sources.items = arena_grow(arena, sources.items, sources.count, &sources.capacity, sizeof *sources.items);
        sources.items[sources.count++] = club->sources.items[i];
    }
    struct diag *diag = diag_new(arena, &sources);
    struct tree *trees[MOST_TREES + 1];
    memcpy(trees, club->trees, sizeof club->trees);
    int file = source_add(&sources, "plan.bell", (const char *)data, size);
    trees[club->count] = read_file(arena, &sources, (unsigned)file, club->phrases, diag);
    read_shelf(club, &sources, trees, size, diag);
    struct programme *programme = programme_resolve(arena, &sources, trees, club->count + 1, TODAY, diag);
    rules_run(programme, diag);
    lay_out(arena, club, programme, &sheets[size % sheet_count]);
    struct text out = {0};
    diag_sort(diag);
    diag_print(diag, &(struct diag_style){.infos = true}, &out);
    text_free(&out);
    arena_free(arena);
    return 0;
}
