/* pdf_words.h - what a PDF file says to those who hear it and cairo 1.16 has no call for. */
#ifndef BELL_RENDER_PDF_WORDS_H
#define BELL_RENDER_PDF_WORDS_H

#include "base/text.h"
#include "layout/scene.h"

/* Adds to BYTES, a PDF from START on that cairo made of COUNT scenes: the language of the first, that windows bear its title,
 * what each figure says (its alternate description: ISO 32000-1, 14.9.3), and that rules and axes are artifacts. A file made in another way stays as it is. */
void pdf_add_words(struct text *bytes, size_t start, const struct scene *const *scenes, size_t count);

#endif
