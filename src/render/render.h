/* render.h - scenes made into bytes. Whoever asked writes them, whole (base/output.h).
 *
 * Each function adds to OUT and returns NULL, or what went wrong (static text). The same scene gives the same
 * bytes. */
#ifndef BELL_RENDER_RENDER_H
#define BELL_RENDER_RENDER_H

#include <stdint.h>

#include "base/text.h"
#include "layout/scene.h"

/* One PDF of COUNT scenes, one after another. Title, author, subject and keywords are the first's. CREATED is the date
 * of making in seconds since 1970 UTC; 0 where none was given. */
const char *render_pdf(const struct scene *const *scenes, size_t count, int64_t created,
                       struct text *out);

/* Page PAGE (from 1) as one SVG with a title and a description for screen readers. */
const char *render_svg(const struct scene *scene, int page, struct text *out);

/* Page PAGE (from 1) as PNG at DPI dots an inch. */
const char *render_png(const struct scene *scene, int page, double dpi, struct text *out);

/* Every page as lines of text in the order in which they are painted, each with its place in whole points, its
 * capital height and its words: for tests. */
void render_plain(const struct scene *scene, struct text *out);

#endif
