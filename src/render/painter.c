#include "render/painter.h"

static void paint(struct painter *painter, const struct element *element)
{
    void (*const paints[])(struct painter *, const struct element *) = {
        [ELEMENT_TEXT] = painter->text,
        [ELEMENT_LINE] = painter->line,
        [ELEMENT_RECTANGLE] = painter->rectangle,
        [ELEMENT_SHAPE] = painter->shape,
        [ELEMENT_OPEN] = painter->open,
        [ELEMENT_CLOSE] = painter->close,
    };
    if (paints[element->kind])
        paints[element->kind](painter, element);
}

void painter_page(struct painter *painter, const struct scene *scene, int page)
{
    const struct box *box = scene->pages[page - 1];
    if (painter->start_page)
        painter->start_page(painter, scene, page);
    if (box->windowed && painter->start_window)
        painter->start_window(painter, scene);
    for (size_t i = 0; i < box->count; i++) {
        paint(painter, &box->elements[i]);
        if (i + 1 == box->windowed && painter->end_window)
            painter->end_window(painter);
    }
}
