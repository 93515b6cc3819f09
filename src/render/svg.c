#include <cairo-svg.h>
#include <glib.h>
#include <string.h>

#include "render/cairo_painter.h"
#include "render/render.h"

static void add_escaped(struct text *out, const char *tag, const char *words)
{
    char *escaped = g_markup_escape_text(words, -1);
    text_addf(out, "<%s>%s</%s>\n", tag, escaped, tag);
    g_free(escaped);
}

/* cairo draws letters as outlines, which no screen reader can read; so the words go into the file as its title and
 * description, and the root is made one image. */
static const char *add_words(const struct scene *scene, const struct text *drawn, struct text *out)
{
    const char *root = strstr(text_get(drawn), "<svg ");
    const char *end = root ? strchr(root, '>') : NULL;
    if (!end)
        return "the SVG has no root";
    text_add_bytes(out, drawn->data, (size_t)(end - drawn->data));
    text_add(out, " role=\"img\">\n");
    add_escaped(out, "title", scene->title);
    add_escaped(out, "desc", scene->description);
    text_add(out, end + 1);
    return NULL;
}

const char *render_svg(const struct scene *scene, int page, struct text *out)
{
    struct text drawn = {.arena = out->arena};
    cairo_surface_t *surface = cairo_svg_surface_create_for_stream(cairo_painter_write, &drawn,
                                                                   scene->width, scene->height);
    cairo_t *cairo = cairo_create(surface);
    struct cairo_painter painter = cairo_painter_on(cairo);
    painter_page(&painter.painter, scene, page);
    const char *wrong = cairo_painter_end(cairo, surface);
    if (!wrong)
        wrong = add_words(scene, &drawn, out);
    text_free(&drawn);
    return wrong;
}
