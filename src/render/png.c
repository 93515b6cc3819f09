#include <math.h>

#include "render/cairo_painter.h"
#include "render/render.h"

const char *render_png(const struct scene *scene, int page, double dpi, struct text *out)
{
    double scale = dpi / 72;
    cairo_surface_t *surface =
        cairo_image_surface_create(CAIRO_FORMAT_RGB24, (int)ceil(scene->width * scale),
                                   (int)ceil(scene->height * scale));
    cairo_t *cairo = cairo_create(surface);
    cairo_set_source_rgb(cairo, 1, 1, 1);
    cairo_paint(cairo);
    cairo_scale(cairo, scale, scale);
    struct cairo_painter painter = cairo_painter_on(cairo);
    painter_page(&painter.painter, scene, page);
    cairo_status_t written = cairo_surface_write_to_png_stream(surface, cairo_painter_write, out);
    const char *wrong = cairo_painter_end(cairo, surface);
    if (!wrong && written != CAIRO_STATUS_SUCCESS)
        wrong = cairo_status_to_string(written);
    return wrong;
}
