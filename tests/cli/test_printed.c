/* The example's week as PDF, read again by pdftotext, which knows nothing of the layout: every exercise, dose and load
 * is there, and the letters are as large as the sheet says. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <glib.h>
#include <math.h>
#include <stdlib.h>
#include <unistd.h>

#include "base/output.h"
#include "layout/sheet.h"
#include "measure/person.h"
#include "model/programme.h"
#include "wording/wording.h"
#include "plan_reader.h"
#include "render/render.h"

struct stage {
    struct type *type;
    struct plan_reader reader;
};

static int open_stage(void **state)
{
    static struct stage stage;
    const char *wrong = NULL;
    glob_t found;
    stage.type = type_open(&wrong);
    plan_reader_open(&stage.reader);
    plan_reader_shelf(&stage.reader);
    assert_int_equal(glob("examples/slipway/*.bell", 0, NULL, &found), 0);
    assert_int_equal(glob("examples/slipway/*/*.bell", GLOB_APPEND, NULL, &found), 0);
    for (size_t i = 0; i < found.gl_pathc; i++)
        plan_reader_file(&stage.reader, found.gl_pathv[i], false);
    globfree(&found);
    plan_reader_resolve(&stage.reader);
    *state = &stage;
    return stage.type && !diag_count(stage.reader.diag, SEVERITY_ERROR) ? 0 : -1;
}

static int close_stage(void **state)
{
    struct stage *stage = *state;
    plan_reader_close(&stage->reader);
    type_close(stage->type);
    return 0;
}

/* --- from scene to what pdftotext says --- */

/* What pdftotext with OPTIONS says of SCENE. */
static char *read_again(const struct scene *scene, const char *options)
{
    char path[] = "/tmp/bellsheet-test-XXXXXX", command[128];
    struct text pdf = {0}, told = {0};
    const struct scene *const scenes[] = {scene};
    int file = mkstemp(path);
    assert_true(file >= 0);
    close(file);
    assert_null(render_pdf(scenes, 1, 0, &pdf));
    assert_null(output_write(path, pdf.data, pdf.length));
    snprintf(command, sizeof command, "pdftotext -q %s %s -", options, path);
    FILE *pipe = popen(command, "r");
    assert_non_null(pipe);
    for (int c; (c = getc(pipe)) != EOF;)
        text_add_char(&told, (char)c);
    assert_int_equal(pclose(pipe), 0);
    unlink(path);
    text_free(&pdf);
    char *words = g_strdup(text_get(&told));
    text_free(&told);
    return words;
}

/* TEXT without any white space: how a reader of PDF guesses spaces is not the matter here. */
static char *squeezed(const char *text)
{
    GString *out = g_string_new(NULL);
    for (const char *p = text; *p; p = g_utf8_next_char(p)) {
        gunichar c = g_utf8_get_char(p);
        if (!g_unichar_isspace(c) && c != 0xad)
            g_string_append_unichar(out, c);
    }
    return g_string_free(out, FALSE);
}

static void assert_says(const char *told, const char *words, const char *of)
{
    char *wanted = squeezed(words);
    if (!strstr(told, wanted))
        fail_msg("the sheet does not say \"%s\" of %s:\n%s", words, of, told);
    g_free(wanted);
}

static struct scene *make(struct stage *stage, struct arena *arena, const char *sheet,
                          const struct occasion *const *members, size_t count)
{
    struct sheet_request request = {.arena = arena,
                                    .type = stage->type,
                                    .programme = stage->reader.programme,
                                    .occasions = members,
                                    .count = count,
                                    .pages = 2,
                                    .plan = "plan",
                                    .version = "1",
                                    .date_words = "Monday 8 March 2027",
                                    .author = ""};
    return sheet_make(sheet_find(sheet), &request);
}

/* --- content --- */

/* Amounts and loads of one item as the athlete is to do it. */
static void check_item(struct arena *arena, const char *told, const struct block *block,
                       const struct item *item)
{
    /* What lasts as long as its round has no amount of its own. */
    bool counted = *wording_dose(arena, block, item) != '\0';
    const char *name = item->exercise->name.shown;
    assert_says(told, name, "the session");
    for (size_t r = 0; r < item->run_count; r++) {
        const struct set_run *run = &item->runs[r];
        for (size_t p = 0; p < run->part_count && counted; p++)
            assert_says(
                told, run->parts[p].max ? "max" : wording_range(arena, run->parts[p].amount), name);
        assert_says(told, wording_load_mass(arena, &run->load, false), name);
        assert_says(told, wording_load_words(arena, &run->load, false), name);
        assert_says(told, wording_effort(arena, &run->load), name);
    }
    if (item->stop)
        assert_says(told, item->stop, name);
}

static void check_sheet(struct stage *stage, const char *sheet, const struct occasion *occasion)
{
    struct arena *arena = arena_new();
    char *told = read_again(make(stage, arena, sheet, &occasion, 1), "-raw");
    char *tight = squeezed(told);
    assert_says(tight, occasion->session->name.shown, sheet);
    /* A card is one person's own. */
    assert_says(tight, strcmp(sheet, "card") == 0 ? occasion->athlete->name.shown : athlete_called(occasion->athlete),
                sheet);
    for (size_t b = 0; b < occasion->block_count; b++)
        for (size_t i = 0; i < occasion->blocks[b].item_count; i++)
            check_item(arena, tight, &occasion->blocks[b], &occasion->blocks[b].items[i]);
    g_free(tight);
    g_free(told);
    arena_free(arena);
}

static void test_week_is_printed_whole(void **state)
{
    struct stage *stage = *state;
    const struct programme *programme = stage->reader.programme;
    size_t sessions = 0;
    for (size_t i = 0; i < programme->occasion_count; i++) {
        const struct occasion *occasion = &programme->occasions[i];
        if (occasion->week != 2 || !occasion->session)
            continue;
        check_sheet(stage, "wall", occasion);
        check_sheet(stage, "card-page", occasion);
        sessions++;
    }
    assert_true(sessions > 12);
}

/* --- legibility --- */

/* Of Roboto Condensed: height of a capital as a share of what pdftotext takes for a line, ascent and descent. */
static const double CAPITAL = 1456.0 / (1900 + 500);

/* The height in points of a capital in WORD, in BOXES as pdftotext -bbox writes them; 0 where it is not found. A word
 * that stands in a cue or among the kit too is meant where it is largest. */
static double capital_of(const char *boxes, const char *word)
{
    double most = 0;
    for (const char *at = boxes; (at = strstr(at, "<word ")) != NULL; at++) {
        double x0, y0, x1, y1;
        char found[200];
        if (sscanf(at, "<word xMin=\"%lf\" yMin=\"%lf\" xMax=\"%lf\" yMax=\"%lf\">%199[^<]", &x0,
                   &y0, &x1, &y1, found) == 5 &&
            strcmp(found, word) == 0)
            most = fmax(most, (y1 - y0) * CAPITAL);
    }
    return most;
}

/* The same where a line may end at the hyphen. */
static double word_capital(const char *boxes, const char *word)
{
    double whole = capital_of(boxes, word);
    const char *hyphen = strchr(word, '-');
    if (whole > 0 || !hyphen)
        return whole;
    gchar *before = g_strndup(word, (gsize)(hyphen + 1 - word));
    double least = fmin(capital_of(boxes, before), capital_of(boxes, hyphen + 1));
    g_free(before);
    return least;
}

/* The least capital in the words of NAME; spaces that keep words together part them for pdftotext, too. */
static double name_capital(const char *boxes, const char *name)
{
    double least = INFINITY;
    gchar **parts = g_strsplit(name, "\u00a0", -1);
    gchar *spaced = g_strjoinv(" ", parts);
    gchar **words = g_strsplit(spaced, " ", -1);
    for (size_t i = 0; words[i]; i++)
        least = fmin(least, word_capital(boxes, words[i]));
    g_strfreev(words);
    g_free(spaced);
    g_strfreev(parts);
    return least;
}

static double minutes_of(double points, double centimetres)
{
    return 2 * atan(points * 25.4 / 72 / (centimetres * 10) / 2) * 180 / G_PI * 60;
}

/* The exercises' names on one athlete's wall, measured by pdftotext, are what the sheet says of itself: at least 16
 * minutes of arc, or a problem tells from how far they are. */
static void check_reach(struct stage *stage, const struct occasion *occasion, size_t *small)
{
    struct arena *arena = arena_new();
    struct scene *scene = make(stage, arena, "wall", &occasion, 1);
    char *boxes = read_again(scene, "-bbox");
    double least = INFINITY;
    for (size_t b = 0; b < occasion->block_count; b++)
        for (size_t i = 0; i < occasion->blocks[b].item_count; i++) {
            const char *name = occasion->blocks[b].items[i].exercise->name.shown;
            double capital = name_capital(boxes, name);
            if (capital <= 0)
                fail_msg("\"%s\" is not on the sheet", name);
            least = fmin(least, capital);
        }
    /* Doses, names and a block's order are of the same rank; one of them may be what is smallest. */
    const char *smallest;
    double claimed = scene_smallest(scene, RANK_FIRST, &smallest);
    least = fmin(least, name_capital(boxes, smallest));
    if (fabs(least - claimed) > 0.03 * least)
        fail_msg("capitals of %.2f points are claimed for \"%s\", and %.2f are found", claimed, smallest, least);
    double told = 300;
    for (size_t i = 0; i < scene->problem_count; i++)
        told = fmin(told, scene->problems[i].distance);
    double minutes = minutes_of(least, told);
    if (minutes < 15.5)
        fail_msg("%s: %.1f minutes of arc at %.0f cm", occasion->session->name.shown, minutes,
                 told);
    *small += scene->problem_count > 0;
    g_free(boxes);
    arena_free(arena);
}

static void test_letters_are_as_large_as_told(void **state)
{
    struct stage *stage = *state;
    const struct programme *programme = stage->reader.programme;
    size_t small = 0, all = 0;
    for (size_t i = 0; i < programme->occasion_count; i++) {
        const struct occasion *occasion = &programme->occasions[i];
        if (occasion->week != 2 || !occasion->session)
            continue;
        check_reach(stage, occasion, &small);
        all++;
    }
    assert_in_range(small, 1, all - 1); /* both kinds were met */
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_week_is_printed_whole),
        cmocka_unit_test(test_letters_are_as_large_as_told),
    };
    return cmocka_run_group_tests(tests, open_stage, close_stage);
}
