/* tile.h - a poster in parts on smaller paper, to be cut and glued together again. */
#ifndef BELL_LAYOUT_TILE_H
#define BELL_LAYOUT_TILE_H

#include "layout/paper.h"
#include "layout/press.h"

/* How a poster is divided. In points; all whole numbers, so that parts drawn as pixels meet exactly. */
struct tiling {
    double width, height; /* of a part's paper, turned as it is used */
    double margin;        /* left white on it for the printer, the marks and the words */
    double step_x, step_y;
    int columns, rows;
    bool landscape;
};

/* The fewest parts of PAPER that cover WIDTH x HEIGHT; upright if it makes no difference. */
struct tiling tiling_of(double width, double height, const struct paper *paper);

/* SCENE's pages in parts, row by row, each with its place, cut marks and an overlap to glue on. The parts keep the
 * texts of SCENE and must not outlive it. */
struct scene *tile_scene(const struct scene *scene, struct type *type, const struct paper *paper);

#endif
