/* Every kind of sheet, and the wall on every paper, as it was looked at and found good: its texts with their places in
 * sheets/NAME.txt, its picture in sheets/NAME.png. UPDATE=1 writes both anew, for a look at what changed. A picture may
 * differ by as much as another version of the font rasteriser makes it. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <cairo.h>
#include <glib.h>
#include <stdlib.h>

#include "base/output.h"
#include "cli/print.h"
#include "kg.h"
#include "language/language.h"
#include "layout/marks.h"
#include "layout/tile.h"
#include "measure/kit.h"
#include "model/programme.h"
#include "plan_reader.h"
#include "render/render.h"

#define FOLDER "tests/golden/sheets/"

/* A pixel differs where a colour does by more than this; of a picture so many in ten thousand may. */
enum { LEVELS = 64, MOST_DIFFERENT = 10 };

struct golden {
    const char *name, *sheet, *paper;
    bool landscape, coach;
    const char *session; /* for sheets of a session */
    const char *athlete; /* for sheets of one; NULL: the first */
    double dpi;
    const char *tile; /* paper of the parts, or NULL */
    bool done;        /* of the plan with its logs */
    int week;         /* of the camp; 0: the first, and of all together the second */
    const char *language; /* NULL: English */
    bool hard;        /* of the club with twelve athletes, five scripts, and pounds */
    const char *odd;  /* the camp of the odd club that it is of; NULL: of another club */
};

static const struct golden goldens[] = {
    {.name = "wall-a3", .sheet = "wall", .paper = "A3", .session = "Hips before hands", .dpi = 30},
    {.name = "wall-a4", .sheet = "wall", .paper = "A4", .session = "Hips before hands", .dpi = 36},
    {.name = "wall-a2", .sheet = "wall", .paper = "A2", .session = "Hips before hands", .dpi = 22},
    {.name = "wall-a1", .sheet = "wall", .paper = "A1", .session = "Hips before hands", .dpi = 16},
    {.name = "wall-letter", .sheet = "wall", .paper = "Letter", .session = "Bag rounds", .dpi = 36},
    {.name = "wall-tabloid",
     .sheet = "wall",
     .paper = "Tabloid",
     .session = "Hips before hands",
     .dpi = 30},
    {.name = "wall-a3-landscape",
     .sheet = "wall",
     .paper = "A3",
     .landscape = true,
     .session = "Hips before hands",
     .dpi = 30},
    {.name = "wall-a4-landscape",
     .sheet = "wall",
     .paper = "A4",
     .landscape = true,
     .session = "Bag rounds",
     .dpi = 36},
    {.name = "wall-a1-landscape",
     .sheet = "wall",
     .paper = "A1",
     .landscape = true,
     .session = "Hips before hands",
     .dpi = 16},
    {.name = "wall-letter-landscape",
     .sheet = "wall",
     .paper = "Letter",
     .landscape = true,
     .session = "Bag rounds",
     .dpi = 36},
    {.name = "wall-a2-landscape",
     .sheet = "wall",
     .paper = "A2",
     .landscape = true,
     .session = "Hips before hands",
     .dpi = 22},
    {.name = "wall-tabloid-landscape",
     .sheet = "wall",
     .paper = "Tabloid",
     .landscape = true,
     .session = "Bag rounds",
     .dpi = 30},
    {.name = "wall-squad", .sheet = "wall", .paper = "A3", .session = "Evening of six", .dpi = 36},
    {.name = "wall-parts",
     .sheet = "wall",
     .paper = "A2",
     .session = "Bag rounds",
     .dpi = 24,
     .tile = "A4"},
    {.name = "card", .sheet = "card", .session = "Hips before hands", .dpi = 72},
    {.name = "card-vietnamese",
     .sheet = "card",
     .session = "Evening of six",
     .athlete = "Đặng Sương Lụa",
     .dpi = 72},
    {.name = "card-thai",
     .sheet = "card",
     .session = "Evening of six",
     .athlete = "นภา ศรีท่าเรือ",
     .dpi = 72},
    {.name = "card-cyrillic",
     .sheet = "card",
     .session = "Evening of six",
     .athlete = "Вера Причалова",
     .dpi = 72},
    {.name = "card-arabic",
     .sheet = "card",
     .session = "Evening of six",
     .athlete = "ليلى المرسى",
     .dpi = 72},
    {.name = "card-japanese",
     .sheet = "card",
     .session = "Evening of six",
     .athlete = "船着 はるか",
     .dpi = 72},
    {.name = "cards", .sheet = "card-page", .session = "Evening of six", .dpi = 40},
    {.name = "floor", .sheet = "floor", .session = "Hips before hands", .dpi = 50},
    {.name = "floor-coach",
     .sheet = "floor",
     .session = "Evening of six",
     .coach = true,
     .dpi = 50},
    {.name = "board", .sheet = "board", .landscape = true, .session = "Evening of six", .dpi = 30},
    {.name = "board-letter",
     .sheet = "board",
     .paper = "Letter",
     .landscape = true,
     .session = "Hips before hands",
     .dpi = 50},
    {.name = "week", .sheet = "week", .session = "Hips before hands", .dpi = 60},
    {.name = "camp", .sheet = "camp", .session = "Hips before hands", .dpi = 60},
    {.name = "season", .sheet = "season", .session = "Hips before hands", .dpi = 40},
    {.name = "season-coach", .sheet = "season", .session = "Hips before hands", .coach = true, .dpi = 40},
    {.name = "monday", .sheet = "monday", .session = "Hips before hands", .dpi = 50, .done = true},
    {.name = "tests", .sheet = "tests", .session = "Hips before hands", .dpi = 60, .done = true},
    {.name = "review", .sheet = "review", .session = "Hips before hands", .dpi = 60, .done = true},
    {.name = "season-club", .sheet = "season-club", .session = "Hips before hands", .dpi = 40},
    {.name = "season-club-tabloid",
     .sheet = "season-club",
     .paper = "Tabloid",
     .landscape = true,
     .session = "Hips before hands",
     .dpi = 40},
    {.name = "cards-letter",
     .sheet = "card-page",
     .paper = "Letter",
     .session = "Evening of six",
     .dpi = 40},
    {.name = "floor-letter",
     .sheet = "floor",
     .paper = "Letter",
     .session = "Hips before hands",
     .dpi = 50},
    {.name = "week-letter",
     .sheet = "week",
     .paper = "Letter",
     .landscape = true,
     .session = "Hips before hands",
     .dpi = 60},
    {.name = "camp-letter",
     .sheet = "camp",
     .paper = "Letter",
     .landscape = true,
     .session = "Hips before hands",
     .dpi = 60},
    {.name = "hard-wall", .hard = true, .sheet = "wall", .session = "Twelve on the pier", .dpi = 30},
    {.name = "hard-wall-clocks", .hard = true, .sheet = "wall", .session = "Clocks on the pier", .dpi = 30},
    {.name = "hard-board", .hard = true, .sheet = "board", .landscape = true, .session = "Twelve on the pier", .dpi = 24},
    {.name = "hard-card", .hard = true, .sheet = "card", .session = "Twelve on the pier", .athlete = "Wren Holloway", .dpi = 72},
    {.name = "hard-card-clocks", .hard = true, .sheet = "card", .session = "Clocks on the pier", .athlete = "ليلى المرسى", .dpi = 72},
    {.name = "hard-card-restricted",
     .hard = true,
     .sheet = "card",
     .session = "Twelve on the pier",
     .athlete = "סמדר רציף הנמל",
     .dpi = 72},
    {.name = "hard-cards", .hard = true, .sheet = "card-page", .session = "Clocks on the pier", .dpi = 30},
    {.name = "hard-floor", .hard = true, .sheet = "floor", .session = "Twelve on the pier", .dpi = 40},
    {.name = "hard-floor-coach", .hard = true, .coach = true, .sheet = "floor", .session = "Clocks on the pier", .dpi = 40},
    {.name = "hard-week", .hard = true, .sheet = "week", .session = "Twelve on the pier", .athlete = "Wren Holloway", .dpi = 50},
    {.name = "hard-camp", .hard = true, .sheet = "camp", .session = "Twelve on the pier", .athlete = "Marlo Quist", .dpi = 50},
    {.name = "hard-camp-done", .hard = true, .sheet = "camp", .session = "Twelve on the pier", .athlete = "Wren Holloway", .dpi = 50},
    {.name = "hard-week-waived", .hard = true, .week = 2, .sheet = "week", .session = "Twelve on the pier", .athlete = "Вера Причалова", .dpi = 50},
    {.name = "hard-week-bout", .hard = true, .week = 4, .sheet = "week", .session = "Twelve on the pier", .athlete = "יעל מזח", .dpi = 50},
    {.name = "hard-bout", .hard = true, .week = 4, .sheet = "bout", .session = "Twelve on the pier", .athlete = "حمزة الميناوي", .dpi = 40},
    {.name = "hard-parents", .hard = true, .sheet = "parents", .session = "Twelve on the pier", .athlete = "Ilse Varholm", .dpi = 50},
    {.name = "hard-tests", .hard = true, .sheet = "tests", .session = "Twelve on the pier", .athlete = "Wren Holloway", .dpi = 50},
    {.name = "hard-review", .hard = true, .sheet = "review", .session = "Twelve on the pier", .dpi = 50},
    {.name = "hard-monday", .hard = true, .sheet = "monday", .session = "Twelve on the pier", .dpi = 50},
    {.name = "hard-season", .hard = true, .sheet = "season", .session = "Twelve on the pier", .athlete = "นภา ศรีท่าเรือ", .dpi = 40},
    {.name = "card-in-spanish", .language = "spanish", .sheet = "card", .session = "Hips before hands", .dpi = 72},
    {.name = "card-in-thai", .language = "thai", .sheet = "card", .session = "Hips before hands", .dpi = 72},
    {.name = "hard-wall-in-spanish", .language = "spanish", .hard = true, .sheet = "wall", .session = "Twelve on the pier", .dpi = 30},
    {.name = "hard-wall-in-thai", .language = "thai", .hard = true, .sheet = "wall", .session = "Twelve on the pier", .dpi = 30},
    {.name = "hard-parents-in-spanish",
     .language = "spanish",
     .hard = true,
     .sheet = "parents",
     .session = "Twelve on the pier",
     .athlete = "Ilse Varholm",
     .dpi = 50},
    {.name = "hard-week-in-thai",
     .language = "thai",
     .hard = true,
     .week = 4,
     .sheet = "week",
     .session = "Twelve on the pier",
     .athlete = "นภา ศรีท่าเรือ",
     .dpi = 50},
    {.name = "hard-floor-coach-in-spanish",
     .language = "spanish",
     .hard = true,
     .coach = true,
     .sheet = "floor",
     .session = "Clocks on the pier",
     .dpi = 40},
    {.name = "floor-in-thai", .language = "thai", .sheet = "floor", .session = "Hips before hands", .dpi = 50},
    {.name = "monday-in-spanish", .language = "spanish", .sheet = "monday", .session = "Hips before hands", .dpi = 50, .done = true},
    {.name = "hard-monday-in-thai", .language = "thai", .hard = true, .sheet = "monday", .session = "Twelve on the pier", .dpi = 50},
    {.name = "hard-season-club", .hard = true, .sheet = "season-club", .session = "Twelve on the pier", .dpi = 40},
    {.name = "odd-wall", .odd = "Tournament", .sheet = "wall", .session = "Discs of two kinds", .dpi = 24},
    {.name = "odd-board", .odd = "Tournament", .sheet = "board", .landscape = true, .session = "Bells by the clock", .dpi = 30},
    {.name = "odd-card", .odd = "Tournament", .week = 3, .sheet = "card", .session = "Discs of two kinds", .dpi = 60},
    {.name = "odd-floor", .odd = "Tournament", .coach = true, .sheet = "floor", .session = "Bells by the clock", .dpi = 40},
    {.name = "odd-wall-doses", .odd = "Tournament", .week = 4, .sheet = "wall", .session = "Odd doses", .dpi = 30},
    {.name = "odd-board-doses", .odd = "Tournament", .week = 4, .sheet = "board", .landscape = true, .session = "Odd doses", .dpi = 30},
    {.name = "odd-card-doses", .odd = "Tournament", .week = 4, .sheet = "card", .session = "Odd doses", .athlete = "Marlo Quist", .dpi = 60},
    {.name = "odd-floor-doses", .odd = "Tournament", .week = 4, .coach = true, .sheet = "floor", .session = "Odd doses", .dpi = 40},
    {.name = "odd-bout-on-the-way", .odd = "Tournament", .week = 7, .sheet = "bout", .athlete = "Wren Holloway", .dpi = 40},
    {.name = "odd-bout", .odd = "Tournament", .week = 4, .sheet = "bout", .athlete = "Wren Holloway", .dpi = 40},
    {.name = "odd-week", .odd = "Tournament", .week = 7, .sheet = "week", .athlete = "Wren Holloway", .dpi = 50},
    {.name = "odd-week-full", .odd = "Winter without an end", .week = 1, .sheet = "week", .dpi = 50},
    {.name = "odd-parents", .odd = "First steps", .week = 1, .sheet = "parents", .dpi = 40},
    {.name = "odd-camp", .odd = "Tournament", .sheet = "camp", .athlete = "Wren Holloway", .dpi = 50},
    {.name = "odd-camp-long", .odd = "Winter without an end", .sheet = "camp", .athlete = "Wren Holloway", .dpi = 50},
    {.name = "odd-tests", .odd = "Tournament", .sheet = "tests", .athlete = "Wren Holloway", .dpi = 50},
    {.name = "odd-camp-past", .odd = "Long ago", .sheet = "camp", .dpi = 50},
    {.name = "odd-camp-short", .odd = "Marlo alone", .sheet = "camp", .dpi = 50},
    {.name = "odd-review-bouts", .odd = "Tournament", .sheet = "review", .dpi = 50},
    {.name = "odd-review", .odd = "Winter without an end", .sheet = "review", .dpi = 50},
    {.name = "odd-season", .odd = "Tournament", .coach = true, .sheet = "season", .athlete = "Wren Holloway", .dpi = 40},
    {.name = "odd-season-club", .odd = "Tournament", .sheet = "season-club", .dpi = 40},
};

struct stage {
    struct type *type;
    struct plan_reader reader, done, hard, odd; /* the plan, the same with logs, the hard club and the odd one */
};

/* Reads FILE and, unless NULL, ALSO, which must be without an error; SHELF: what comes with the program as well. */
static bool read_plan(struct plan_reader *reader, const char *file, const char *also, bool shelf)
{
    plan_reader_open(reader);
    if (shelf)
        plan_reader_shelf(reader);
    plan_reader_file(reader, file, false);
    if (also)
        plan_reader_file(reader, also, false);
    plan_reader_resolve(reader);
    if (diag_count(reader->diag, SEVERITY_ERROR))
        plan_reader_tell(reader);
    return !diag_count(reader->diag, SEVERITY_ERROR);
}

static int open_stage(void **state)
{
    static struct stage stage;
    const char *wrong = NULL;
    stage.type = type_open(&wrong);
    *state = &stage;
    bool plan = read_plan(&stage.reader, FOLDER "club.bell", NULL, false);
    bool done = read_plan(&stage.done, FOLDER "club.bell", FOLDER "done.bell", false);
    bool hard = read_plan(&stage.hard, FOLDER "hard.bell", NULL, false);
    bool odd = read_plan(&stage.odd, FOLDER "odd.bell", NULL, true);
    return stage.type && plan && done && hard && odd ? 0 : -1;
}

static int close_stage(void **state)
{
    struct stage *stage = *state;
    plan_reader_close(&stage->reader);
    plan_reader_close(&stage->hard);
    plan_reader_close(&stage->odd);
    plan_reader_close(&stage->done);
    type_close(stage->type);
    return 0;
}

/* --- scenes --- */

static bool takes(const struct golden *golden, enum sheet_scope scope,
                  const struct occasion *occasion)
{
    bool session = scope == SCOPE_SESSION || scope == SCOPE_SESSION_EACH;
    if (scope == SCOPE_SEASON)
        return true;
    if (golden->odd && strcmp(occasion->camp->name.shown, golden->odd) != 0)
        return false;
    if (!golden->hard && !golden->odd && strcmp(occasion->camp->name.shown,
               strcmp(golden->session, "Evening of six") == 0 ? "Evenings" : "Harbour final") != 0)
        return false;
    if (golden->athlete && strcmp(occasion->athlete->name.shown, golden->athlete) != 0)
        return false;
    if (session &&
        (!occasion->session || strcmp(occasion->session->name.shown, golden->session) != 0))
        return false;
    if (golden->week && (session || scope == SCOPE_WEEK || scope == SCOPE_WEEK_EACH))
        return occasion->week == golden->week;
    if (scope == SCOPE_WEEK)
        return occasion->week == 2;
    return scope == SCOPE_CAMP_EACH || scope == SCOPE_CAMP || scope == SCOPE_SEASON_EACH || occasion->week == 1;
}

static struct scene *make(struct stage *stage, const struct golden *golden, struct arena *arena)
{
    const struct programme *programme = golden->odd    ? stage->odd.programme
                                        : golden->hard ? stage->hard.programme
                                        : golden->done ? stage->done.programme
                                                       : stage->reader.programme;
    const struct sheet *sheet = sheet_find(golden->sheet);
    const struct occasion **members =
        arena_alloc(arena, programme->occasion_count * sizeof *members);
    struct sheet_request request = {.arena = arena,
                                    .type = stage->type,
                                    .programme = programme,
                                    .occasions = members,
                                    .paper = golden->paper ? paper_find(golden->paper) : NULL,
                                    .landscape = golden->landscape,
                                    .season = programme->season_count ? programme->seasons[0] : NULL,
                                    .pages = 2,
                                    .version = "3f9c2a1",
                                    .date_words = "Monday 1 March 2027",
                                    .author = "Slipway",
                                    .coach = golden->coach};
    for (size_t i = 0; i < programme->occasion_count; i++)
        if (takes(golden, sheet->scope, &programme->occasions[i]))
            members[request.count++] = &programme->occasions[i];
    assert_true(request.count > 0);
    request.plan = members[0]->camp->name.shown;
    if (golden->language) {
        request.language = language_find(golden->language);
        arena_speak(arena, request.language);
        request.date_words = sheet_day_words(arena, members[0]->date);
    }
    request.bounds =
        sheet_bounds(programme, arena, members[0]->camp, members[0]->athlete, &request.bound_count);
    const struct sheet_origin origin = {.programme = programme, .arena = arena};
    if (sheet->reports) {
        const struct occasion_group group = {.occasions = members, .count = request.count};
        struct gym *gym = (struct gym *)occasion_gym(members[0]);
        gym->language = request.language; /* what is reported is in that of the house */
        const struct sheet_request report = sheet_request_for(&origin, sheet, &group);
        gym->language = NULL;
        request.review = report.review;
        request.briefs = report.briefs;
        request.brief_count = report.brief_count;
    }
    struct scene *scene = sheet_make(sheet, &request);
    for (size_t i = 0; i < scene->problem_count; i++) {
        if (scene->problems[i].kind != PROBLEM_TOO_SMALL)
            fprintf(stderr, "%s, page %d: %s\n", golden->name, scene->problems[i].page, scene->problems[i].words);
        assert_int_equal(scene->problems[i].kind, PROBLEM_TOO_SMALL);
        if (strcmp(golden->sheet, "wall") == 0) /* it names a paper or pages that would do, with a board and without */
            assert_non_null(scene->problems[i].help);
    }
    return golden->tile ? tile_scene(scene, stage->type, paper_find(golden->tile)) : scene;
}

/* --- pictures --- */

struct bytes {
    const struct text *text;
    size_t at;
};

static cairo_status_t take(void *closure, unsigned char *out, unsigned length)
{
    struct bytes *bytes = closure;
    if (bytes->at + length > bytes->text->length)
        return CAIRO_STATUS_READ_ERROR;
    memcpy(out, bytes->text->data + bytes->at, length);
    bytes->at += length;
    return CAIRO_STATUS_SUCCESS;
}

/* All pages of SCENE side by side. */
static cairo_surface_t *picture_of(const struct scene *scene, double dpi)
{
    int width = (int)(scene->width * dpi / 72) + 2, height = (int)(scene->height * dpi / 72) + 2;
    cairo_surface_t *all =
        cairo_image_surface_create(CAIRO_FORMAT_RGB24, width * (int)scene->page_count, height);
    cairo_t *cairo = cairo_create(all);
    for (int page = 1; page <= (int)scene->page_count; page++) {
        struct text png = {0};
        assert_null(render_png(scene, page, dpi, &png));
        struct bytes bytes = {&png, 0};
        cairo_surface_t *one = cairo_image_surface_create_from_png_stream(take, &bytes);
        cairo_set_source_surface(cairo, one, (page - 1) * width, 0);
        cairo_paint(cairo);
        cairo_surface_destroy(one);
        text_free(&png);
    }
    cairo_destroy(cairo);
    cairo_surface_flush(all);
    return all;
}

/* Pixels in ten thousand that differ; 10000 where the sizes do. */
static int difference(cairo_surface_t *one, cairo_surface_t *other)
{
    int width = cairo_image_surface_get_width(one), height = cairo_image_surface_get_height(one);
    if (width != cairo_image_surface_get_width(other) ||
        height != cairo_image_surface_get_height(other))
        return 10000;
    long differing = 0;
    for (int y = 0; y < height; y++) {
        const unsigned char *a =
            cairo_image_surface_get_data(one) + y * cairo_image_surface_get_stride(one);
        const unsigned char *b =
            cairo_image_surface_get_data(other) + y * cairo_image_surface_get_stride(other);
        for (int x = 0; x < width; x++)
            for (int c = 0; c < 3; c++)
                if (abs(a[4 * x + c] - b[4 * x + c]) > LEVELS) {
                    differing++;
                    break;
                }
    }
    return (int)(differing * 10000 / ((long)width * height));
}

/* --- against what is kept --- */

static bool updating(void)
{
    const char *update = getenv("UPDATE");
    return update && strcmp(update, "1") == 0;
}

static bool same_text(const char *path, const struct text *now)
{
    if (updating()) {
        assert_null(output_write(path, text_get(now), now->length));
        return true;
    }
    char *kept = NULL;
    bool same = g_file_get_contents(path, &kept, NULL, NULL) && strcmp(kept, text_get(now)) == 0;
    g_free(kept);
    if (!same)
        fprintf(stderr, "%s is not what is printed now:\n%s", path, text_get(now));
    return same;
}

static bool same_picture(const char *path, cairo_surface_t *now)
{
    if (updating())
        return cairo_surface_write_to_png(now, path) == CAIRO_STATUS_SUCCESS;
    cairo_surface_t *kept = cairo_image_surface_create_from_png(path);
    int differs =
        cairo_surface_status(kept) == CAIRO_STATUS_SUCCESS ? difference(kept, now) : 10000;
    cairo_surface_destroy(kept);
    if (differs > MOST_DIFFERENT)
        fprintf(stderr, "%s differs in %d of 10000 pixels\n", path, differs);
    return differs <= MOST_DIFFERENT;
}

static void test_sheets_are_as_they_were(void **state)
{
    unsigned faults = 0;
    for (size_t i = 0; i < sizeof goldens / sizeof *goldens; i++) {
        struct arena *arena = arena_new();
        struct text plain = {0};
        struct scene *scene = make(*state, &goldens[i], arena);
        cairo_surface_t *picture = picture_of(scene, goldens[i].dpi);
        render_plain(scene, &plain);
        faults += !same_text(arena_printf(arena, FOLDER "%s.txt", goldens[i].name), &plain);
        faults += !same_picture(arena_printf(arena, FOLDER "%s.png", goldens[i].name), picture);
        cairo_surface_destroy(picture);
        text_free(&plain);
        arena_free(arena);
    }
    assert_int_equal(faults, 0);
}

/* The comparison sees another load on the card, and another athlete. */
static void test_a_change_is_seen(void **state)
{
    struct arena *arena = arena_new();
    size_t card = 0;
    while (strcmp(goldens[card].name, "card") != 0)
        card++;
    struct golden one = goldens[card], other = goldens[card];
    struct scene *scene = make(*state, &one, arena);
    cairo_surface_t *before = picture_of(scene, one.dpi);
    assert_int_equal(difference(before, before), 0);
    struct box *page = scene->pages[0];
    page->count -= page->count / 10;
    cairo_surface_t *after = picture_of(scene, one.dpi);
    assert_true(difference(before, after) > MOST_DIFFERENT);
    cairo_surface_destroy(after);
    other.session = "Bag rounds";
    after = picture_of(make(*state, &other, arena), one.dpi);
    assert_true(difference(before, after) > MOST_DIFFERENT);
    cairo_surface_destroy(before);
    cairo_surface_destroy(after);
    arena_free(arena);
}

/* --- in grey --- */

static void make_grey(cairo_surface_t *picture)
{
    unsigned char *data = cairo_image_surface_get_data(picture);
    int stride = cairo_image_surface_get_stride(picture);
    for (int y = 0; y < cairo_image_surface_get_height(picture); y++)
        for (int x = 0; x < cairo_image_surface_get_width(picture); x++) {
            unsigned char *p = data + y * stride + 4 * x;
            unsigned char grey = (unsigned char)((p[2] * 299 + p[1] * 587 + p[0] * 114) / 1000);
            p[0] = p[1] = p[2] = grey;
        }
    cairo_surface_mark_dirty(picture);
}

/* The picture of a mark alone, without colour. */
static cairo_surface_t *grey_mark(struct arena *arena, const struct box *mark)
{
    struct scene *scene = scene_new(arena, 80, 40, 0);
    box_place(scene_page(scene), mark, 2, 2);
    cairo_surface_t *picture = picture_of(scene, 72);
    make_grey(picture);
    return picture;
}

static void assert_apart(struct arena *arena, const struct box *one, const struct box *other)
{
    cairo_surface_t *a = grey_mark(arena, one), *b = grey_mark(arena, other);
    assert_true(difference(a, b) > 20);
    cairo_surface_destroy(a);
    cairo_surface_destroy(b);
}

/* Marks that colour sets apart differ without it: the stances, and every disc from every other. */
static void test_marks_differ_in_grey(void **state)
{
    struct stage *stage = *state;
    struct arena *arena = arena_new();
    struct press press = {arena, stage->type};
    static const mass discs[] = {KG(25), KG(20), KG(15), KG(10), KG(5), KG(2.5), KG(1.25)};
    enum { DISCS = sizeof discs / sizeof *discs };
    assert_apart(arena, mark_stance(&press, DOSE_ORTHODOX, 24),
                 mark_stance(&press, DOSE_SOUTHPAW, 24));
    for (size_t i = 0; i < DISCS; i++)
        for (size_t k = i + 1; k < DISCS; k++) {
            struct plating one = {.disc_count = 1, .discs = {discs[i]}};
            struct plating other = {.disc_count = 1, .discs = {discs[k]}};
            assert_apart(arena, mark_bar(&press, &one, 12, RANK_SECOND),
                         mark_bar(&press, &other, 12, RANK_SECOND));
        }
    arena_free(arena);
}

/* --- on weak toner --- */

/* A printer whose toner runs out lays down so much of the ink that is meant, and drops and adds dots here and there. */
static const double TONER = 0.65;
enum { SPECKLED = 50, PRINTED_BELOW = 160, DARK = 128, LIGHT = 210 }; /* one dot in so many; levels of grey */

static bool is_speckled(int x, int y)
{
    unsigned mixed = (unsigned)x * 2654435761u ^ (unsigned)y * 2246822519u;
    mixed ^= mixed >> 15;
    return (mixed * 3266489917u >> 16) % SPECKLED == 0;
}

/* Whether the dot that is GREY in the picture comes out black. */
static bool prints(int grey, double toner, int x, int y)
{
    bool black = 255 - toner * (255 - grey) < (double)PRINTED_BELOW;
    return black != is_speckled(x, y);
}

/* The share of the dots of a text at X, Y of PICTURE that are printed as they are meant: dark ones black, light ones white. */
static double legible(cairo_surface_t *picture, double x, double y, double width, double height, double toner)
{
    long meant = 0, kept = 0;
    for (int row = (int)y; row <= (int)(y + height); row++)
        for (int column = (int)x; column <= (int)(x + width); column++) {
            const unsigned char *dot = cairo_image_surface_get_data(picture) + row * cairo_image_surface_get_stride(picture) + 4 * column;
            if (dot[0] >= DARK && dot[0] <= LIGHT)
                continue; /* an edge, or a shade that is no letter */
            meant++;
            kept += prints(dot[0], toner, column, row) == (dot[0] < DARK);
        }
    return meant ? (double)kept / (double)meant : 1;
}

/* The least legible text of RANK and INK on the pages of SCENE, at one dot a point. */
static double least_legible(const struct scene *scene, enum rank rank, enum ink ink, double toner)
{
    cairo_surface_t *picture = picture_of(scene, 72);
    double least = 1;
    int across = (int)scene->width + 2;
    make_grey(picture);
    for (size_t p = 0; p < scene->page_count; p++)
        for (size_t i = 0; i < scene->pages[p]->count; i++) {
            const struct element *text = &scene->pages[p]->elements[i];
            if (text->kind != ELEMENT_TEXT || text->rank != rank || text->fill != ink)
                continue;
            double x = (double)((int)p * across) + text->x + text->run->ink_x, y = text->y + text->run->ink_y;
            least = fmin(least, legible(picture, x, y, text->run->ink_width, text->run->ink_height, toner));
        }
    cairo_surface_destroy(picture);
    return least;
}

/* What is read from afar survives grey, one bit a dot, weak toner and speckle: names, doses and people in black even half
 * of the ink, letters of blocks in rust two thirds of it. */
static void test_weak_toner_leaves_what_is_read_first(void **state)
{
    struct stage *stage = *state;
    for (size_t i = 0; i < sizeof goldens / sizeof *goldens; i++) {
        const struct golden *golden = &goldens[i];
        if (strcmp(golden->name, "wall-a3") != 0 && strcmp(golden->name, "hard-wall-clocks") != 0)
            continue;
        struct arena *arena = arena_new();
        struct scene *scene = make(stage, golden, arena);
        assert_true(least_legible(scene, RANK_FIRST, INK_BLACK, TONER) > 0.9);
        assert_true(least_legible(scene, RANK_FIRST, INK_BLACK, 0.5) > 0.9);
        assert_true(least_legible(scene, RANK_FIRST, INK_SPOT, TONER) > 0.9);
        assert_true(least_legible(scene, RANK_FIRST, INK_BLACK, 0.3) < 0.5); /* the test can say no */
        arena_free(arena);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_sheets_are_as_they_were),
        cmocka_unit_test(test_a_change_is_seen),
        cmocka_unit_test(test_marks_differ_in_grey),
        cmocka_unit_test(test_weak_toner_leaves_what_is_read_first),
    };
    return cmocka_run_group_tests(tests, open_stage, close_stage);
}
