/* cairo_painter.h - paints on a cairo context; what PDF, SVG and PNG share. */
#ifndef BELL_RENDER_CAIRO_PAINTER_H
#define BELL_RENDER_CAIRO_PAINTER_H

#include <cairo.h>

#include "base/text.h"
#include "render/painter.h"

struct cairo_painter {
    struct painter painter;
    cairo_t *cairo;
    bool tagged; /* marks what each text is, for PDF */
    bool in_figure;
};

struct cairo_painter cairo_painter_on(cairo_t *cairo);

/* Adds to the struct text that CLOSURE points to. */
cairo_status_t cairo_painter_write(void *closure, const unsigned char *bytes, unsigned length);

/* Ends CAIRO and SURFACE; NULL, or what went wrong with either. */
const char *cairo_painter_end(cairo_t *cairo, cairo_surface_t *surface);

#endif
