/* painter.h - one small table of functions between a scene and whatever paints it. */
#ifndef BELL_RENDER_PAINTER_H
#define BELL_RENDER_PAINTER_H

#include "layout/scene.h"

struct painter {
    void (*start_page)(struct painter *painter, const struct scene *scene, int page);
    void (*start_window)(struct painter *painter, const struct scene *scene);
    void (*end_window)(struct painter *painter);
    void (*text)(struct painter *painter, const struct element *element);
    void (*line)(struct painter *painter, const struct element *element);
    void (*rectangle)(struct painter *painter, const struct element *element);
    void (*shape)(struct painter *painter, const struct element *element);
    void (*open)(struct painter *painter, const struct element *element);
    void (*close)(struct painter *painter, const struct element *element);
};

/* Paints page PAGE (from 1) of SCENE; a function of the painter may be NULL for what it leaves out. */
void painter_page(struct painter *painter, const struct scene *scene, int page);

#endif
