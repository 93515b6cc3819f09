/* usage: bench_bare TEXTS PDF - the texts of a sheet and nothing else, by Pango and cairo alone: the least that a process which
 * draws with them takes. The faces are the sheets', of the configuration that FONTCONFIG_FILE names; there are as many pages,
 * and each text is tagged as a paragraph. TEXTS has, as tests/bench/texts reads them from a PDF, a line for each page,
 *
 *     page WIDTH HEIGHT
 *
 * and for each text on it one with its top, left and size in points, whether it is bold, and its words. */
#include <cairo-pdf.h>
#include <pango/pangocairo.h>
#include <stdbool.h>
#include <stdio.h>
#include <string.h>

enum { LINE = 4096, SHAPED = 64 /* points: one font a face serves every size, as on the sheets */ };

struct bare {
    cairo_surface_t *surface;
    cairo_t *cairo;
    PangoLayout *layout;
    PangoFontDescription *faces[2];
    int pages;
};

static void begin_page(struct bare *bare, const char *path, double width, double height)
{
    if (bare->pages++) {
        cairo_show_page(bare->cairo);
        cairo_pdf_surface_set_size(bare->surface, width, height);
        return;
    }
    bare->surface = cairo_pdf_surface_create(path, width, height);
    bare->cairo = cairo_create(bare->surface);
    bare->layout = pango_cairo_create_layout(bare->cairo);
    cairo_tag_begin(bare->cairo, "Document", NULL);
    for (int bold = 0; bold < 2; bold++) {
        bare->faces[bold] = pango_font_description_new();
        pango_font_description_set_family(bare->faces[bold], "Roboto Condensed");
        pango_font_description_set_weight(bare->faces[bold], bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
        pango_font_description_set_absolute_size(bare->faces[bold], SHAPED * PANGO_SCALE);
    }
}

static void set_text(struct bare *bare, double top, double left, double size, bool bold, const char *words)
{
    cairo_t *cairo = bare->cairo;
    pango_layout_set_font_description(bare->layout, bare->faces[bold]);
    pango_layout_set_text(bare->layout, words, -1);
    cairo_tag_begin(cairo, "P", NULL);
    cairo_save(cairo);
    cairo_translate(cairo, left, top);
    cairo_scale(cairo, size / (double)SHAPED, size / (double)SHAPED);
    cairo_move_to(cairo, 0, 0);
    pango_cairo_show_layout(cairo, bare->layout);
    cairo_restore(cairo);
    cairo_tag_end(cairo, "P");
}

/* False where a line of FILE is none of the two. */
static bool set_all(struct bare *bare, FILE *file, const char *path)
{
    char line[LINE];
    while (fgets(line, sizeof line, file)) {
        double width, height, top, left, size;
        int bold, words = 0;
        line[strcspn(line, "\n")] = '\0';
        if (sscanf(line, "page %lf %lf", &width, &height) == 2)
            begin_page(bare, path, width, height);
        else if (sscanf(line, "%lf %lf %lf %d %n", &top, &left, &size, &bold, &words) == 4 && words && bare->pages)
            set_text(bare, top, left, size, bold != 0, line + words);
        else
            return false;
    }
    return bare->pages > 0;
}

static bool finish(struct bare *bare)
{
    cairo_tag_end(bare->cairo, "Document");
    g_object_unref(bare->layout);
    pango_font_description_free(bare->faces[0]);
    pango_font_description_free(bare->faces[1]);
    cairo_destroy(bare->cairo);
    cairo_surface_finish(bare->surface);
    bool good = cairo_surface_status(bare->surface) == CAIRO_STATUS_SUCCESS;
    cairo_surface_destroy(bare->surface);
    return good;
}

int main(int argc, char **argv)
{
    FILE *file = argc == 3 ? fopen(argv[1], "r") : NULL;
    struct bare bare = {0};
    if (!file) {
        fputs("usage: bench_bare TEXTS PDF\n", stderr);
        return 2;
    }
    bool read = set_all(&bare, file, argv[2]);
    fclose(file);
    if (!read)
        fprintf(stderr, "bench_bare: %s: a line is neither a page nor a text\n", argv[1]);
    bool good = bare.pages && finish(&bare);
    return read && good ? 0 : 2;
}
