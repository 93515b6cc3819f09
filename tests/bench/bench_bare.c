/* usage: bench_bare TEXT PDF - the lines of the file TEXT on a page, by Pango and cairo alone: the least that a process which
 * draws with them takes. The font is the sheets', of the configuration that FONTCONFIG_FILE names. */
#include <cairo-pdf.h>
#include <pango/pangocairo.h>
#include <stdbool.h>
#include <stdio.h>
#include <string.h>

enum { LINE = 1024, PITCH = 11, SIZE = 9, MARGIN = 30 }; /* points */

int main(int argc, char **argv)
{
    FILE *file = argc == 3 ? fopen(argv[1], "r") : NULL;
    if (!file) {
        fputs("usage: bench_bare TEXT PDF\n", stderr);
        return 2;
    }
    cairo_surface_t *surface = cairo_pdf_surface_create(argv[2], 842, 1191); /* A3 */
    cairo_t *cairo = cairo_create(surface);
    PangoLayout *layout = pango_cairo_create_layout(cairo);
    PangoFontDescription *font = pango_font_description_from_string("Roboto Condensed");
    pango_font_description_set_absolute_size(font, SIZE * PANGO_SCALE);
    pango_layout_set_font_description(layout, font);
    char line[LINE];
    for (int y = MARGIN; fgets(line, sizeof line, file); y += PITCH) {
        pango_layout_set_text(layout, line, (int)strcspn(line, "\f\n"));
        cairo_move_to(cairo, MARGIN, y);
        pango_cairo_show_layout(cairo, layout);
    }
    fclose(file);
    pango_font_description_free(font);
    g_object_unref(layout);
    cairo_destroy(cairo);
    cairo_surface_finish(surface);
    bool failed = cairo_surface_status(surface) != CAIRO_STATUS_SUCCESS;
    cairo_surface_destroy(surface);
    return failed ? 2 : 0;
}
