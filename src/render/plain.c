#include "render/painter.h"
#include "render/render.h"

struct plain_painter {
    struct painter painter;
    struct text *out;
};

static struct text *text_of(struct painter *painter)
{
    return ((struct plain_painter *)painter)->out;
}

static void start_page(struct painter *painter, const struct scene *scene, int page)
{
    text_addf(text_of(painter), "page %d of %zu, %.0f x %.0f pt\n", page, scene->page_count,
              scene->width, scene->height);
}

/* The baseline's left end, the capital height, the words. */
static void paint_text(struct painter *painter, const struct element *element)
{
    text_addf(text_of(painter), "%5.0f %5.0f %4.0f  %s\n", element->x,
              element->y + element->run->baseline, element->run->capital, element->text);
}

void render_plain(const struct scene *scene, struct text *out)
{
    struct plain_painter plain = {
        .painter = {.start_page = start_page, .text = paint_text},
        .out = out,
    };
    for (size_t page = 0; page < scene->page_count; page++)
        painter_page(&plain.painter, scene, (int)page + 1);
}
