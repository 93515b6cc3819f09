/* tape.h - the calls of cairo that a page's elements come to, taken down once and made again: the least that drawing a
 * scene can cost. */
#ifndef BELL_BENCH_TAPE_H
#define BELL_BENCH_TAPE_H

#include <cairo.h>

#include "layout/scene.h"

struct tape;

/* The calls for page PAGE (from 1) of SCENE, which must outlive them; with TAGGED those for the tags of a PDF too. */
struct tape *tape_record(const struct scene *scene, int page, bool tagged);
void tape_play(const struct tape *tape, cairo_t *cairo);
void tape_free(struct tape *tape);

#endif
