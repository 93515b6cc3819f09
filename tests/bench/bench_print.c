/* usage: bench_print [ours|cairo CARDS] - what a sheet costs inside the process, stage by stage, against replaying the same scene straight
 * onto cairo. Milliseconds of processor time. With "ours" or "cairo" a card is written so often as an SVG, by our writer or
 * by cairo's own surface, and nothing is measured: for an instrument that counts instructions. Run from the top of the
 * checkout. */
#include <cairo-pdf.h>
#include <cairo-svg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "bench/tape.h"
#include "bench/timing.h"
#include "cli/project.h"
#include "layout/sheet.h"
#include "model/programme.h"
#include "render/cairo_painter.h"
#include "render/render.h"

enum { RUNS = 31, MOST_PAGES = 8 };

struct sheet_bench {
    const struct sheet *sheet;
    struct project project;
    struct sheet_request request;
    const struct occasion *occasion;
    struct scene *scene;
    struct tape *tapes[2][MOST_PAGES]; /* without tags, and with */
    size_t pages;
    size_t svg_bytes, cairo_bytes; /* of all pages */
    bool tagged;
};

static void lay_out(void *with)
{
    struct sheet_bench *bench = with;
    struct sheet_request request = bench->request;
    request.arena = arena_new();
    sheet_make(bench->sheet, &request);
    arena_free(request.arena);
}

/* With a typesetter that has met none of the texts. */
static void lay_out_cold(void *with)
{
    struct sheet_bench *bench = with;
    const char *wrong;
    type_close(bench->request.type);
    bench->request.type = type_open(&wrong);
    lay_out(bench);
}

static void paint(void *with)
{
    struct sheet_bench *bench = with;
    const struct scene *const scenes[] = {bench->scene};
    struct text bytes = {0};
    const char *wrong = render_pdf(scenes, 1, 1800000000, &bytes);
    if (wrong) {
        fprintf(stderr, "bench_print: %s\n", wrong);
        exit(2);
    }
    text_free(&bytes);
}

/* Each page as an SVG by our writer, and by cairo's own surface. */
static void paint_svg(void *with)
{
    struct sheet_bench *bench = with;
    struct text bytes = {0};
    for (size_t i = 0; i < bench->pages; i++)
        if (render_svg(bench->scene, (int)i + 1, &bytes))
            exit(2);
    bench->svg_bytes = bytes.length;
    text_free(&bytes);
}

static void paint_svg_by_cairo(void *with)
{
    struct sheet_bench *bench = with;
    struct text bytes = {0};
    for (size_t i = 0; i < bench->pages; i++) {
        cairo_surface_t *surface = cairo_svg_surface_create_for_stream(cairo_painter_write, &bytes, bench->scene->width,
                                                                       bench->scene->height);
        struct cairo_painter painter = cairo_painter_on(cairo_create(surface));
        painter_page(&painter.painter, bench->scene, (int)i + 1);
        if (cairo_painter_end(painter.cairo, surface))
            exit(2);
    }
    bench->cairo_bytes = bytes.length;
    text_free(&bytes);
}

/* Draws again what cairo was told to draw. */
static void replay(void *with)
{
    struct sheet_bench *bench = with;
    struct text bytes = {0};
    cairo_surface_t *surface = cairo_pdf_surface_create_for_stream(cairo_painter_write, &bytes, bench->scene->width,
                                                                   bench->scene->height);
    cairo_t *cairo = cairo_create(surface);
    if (bench->tagged)
        cairo_tag_begin(cairo, "Document", NULL);
    for (size_t i = 0; i < bench->pages; i++) {
        tape_play(bench->tapes[bench->tagged][i], cairo);
        cairo_show_page(cairo);
    }
    if (bench->tagged)
        cairo_tag_end(cairo, "Document");
    cairo_painter_end(cairo, surface);
    text_free(&bytes);
}

static void record(struct sheet_bench *bench)
{
    bench->pages = bench->scene->page_count < MOST_PAGES ? bench->scene->page_count : MOST_PAGES;
    for (size_t i = 0; i < bench->pages; i++)
        for (int tagged = 0; tagged < 2; tagged++)
            bench->tapes[tagged][i] = tape_record(bench->scene, (int)i + 1, tagged);
}

static struct timing time_replay(struct sheet_bench *bench, bool tagged)
{
    bench->tagged = tagged;
    return timing_of(replay, bench, RUNS);
}

static void show(const char *name, struct timing timing, double floor)
{
    printf("  %-34s", name);
    timing_print(timing);
    if (floor > 0)
        printf("  %.2f x the replay", timing.median / floor);
    puts("");
}

static void bench_sheet(struct sheet_bench *bench, const char *name)
{
    const char *wrong;
    bench->sheet = sheet_find(name);
    bench->request.type = type_open(&wrong);
    if (!bench->sheet || !bench->request.type) {
        fputs("bench_print: no sheet or no font\n", stderr);
        exit(2);
    }
    struct timing cold = timing_of(lay_out_cold, bench, RUNS), warm = timing_of(lay_out, bench, RUNS);
    struct sheet_request request = bench->request;
    request.arena = arena_new();
    bench->scene = sheet_make(bench->sheet, &request);
    record(bench);
    struct timing bare = time_replay(bench, false), floor = time_replay(bench, true);
    struct timing painted = timing_of(paint, bench, RUNS);
    printf("%s of %zu pages, ms\n", name, bench->pages);
    show("replay of the scene onto cairo", floor, 0);
    show("the same without a PDF's tags", bare, floor.median);
    show("paint to PDF", painted, floor.median);
    show("layout, texts met before", warm, floor.median);
    show("layout, fonts opened and texts new", cold, floor.median);
    printf("  %-34s  %8.3f  %-18s  %.2f x the replay\n", "layout and paint, texts met before",
           warm.median + painted.median, "", (warm.median + painted.median) / floor.median);
    struct timing ours = timing_of(paint_svg, bench, RUNS), theirs = timing_of(paint_svg_by_cairo, bench, RUNS);
    show("SVG by our writer", ours, floor.median);
    show("SVG by cairo's surface", theirs, floor.median);
    printf("  SVG: %.2f of cairo's time; %.1f kB a page, by cairo %.1f kB\n", ours.median / theirs.median,
           (double)bench->svg_bytes / 1000 / (double)bench->pages, (double)bench->cairo_bytes / 1000 / (double)bench->pages);
    for (size_t i = 0; i < bench->pages; i++)
        for (int tagged = 0; tagged < 2; tagged++)
            tape_free(bench->tapes[tagged][i]);
    arena_free(request.arena);
    type_close(bench->request.type);
}

/* Writes COUNT cards as SVGs by WRITER. */
static void write_cards(struct sheet_bench *bench, const char *writer, int count)
{
    const char *wrong;
    struct sheet_request request = bench->request;
    bench->sheet = sheet_find("card");
    request.type = type_open(&wrong);
    request.arena = arena_new();
    if (!request.type)
        exit(2);
    bench->scene = sheet_make(bench->sheet, &request);
    bench->pages = 1;
    for (int i = 0; i < count; i++)
        (strcmp(writer, "ours") == 0 ? paint_svg : paint_svg_by_cairo)(bench);
    arena_free(request.arena);
    type_close(request.type);
}

int main(int argument_count, char **arguments)
{
    static const char *const paths[] = {"examples/slipway"};
    struct options options = {.paths = (const char **)(void *)paths, .path_count = 1, .format = "text",
                              .today = 740041};
    struct sheet_bench bench = {0};
    if (!project_open(&bench.project, &options, PLAN_NEEDED))
        return 2;
    const struct programme *programme = bench.project.programme;
    for (size_t i = 0; i < programme->occasion_count && !bench.occasion; i++)
        if (programme->occasions[i].session)
            bench.occasion = &programme->occasions[i];
    if (!bench.occasion)
        return 2;
    bench.request = (struct sheet_request){.programme = programme, .occasions = &bench.occasion, .count = 1,
                                           .plan = "plan", .version = "0", .pages = 2,
                                           .date_words = "Monday 1 March 2027", .author = "Slipway"};
    if (argument_count == 3) {
        write_cards(&bench, arguments[1], atoi(arguments[2]));
        project_close(&bench.project);
        return 0;
    }
    bench_sheet(&bench, "wall");
    bench_sheet(&bench, "card");
    project_close(&bench.project);
    return 0;
}
