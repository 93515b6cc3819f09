/* type.h - the typesetter: fonts, and text measured once with them.
 *
 * Sheets are set in Roboto Condensed, whose files are named to a private font configuration so that the
 * machine's own fonts change nothing: not the look, and not the half second that a font cache can take. A text
 * in a script the family lacks brings in one more file for that script, the first time it is met. */
#ifndef BELL_LAYOUT_TYPE_H
#define BELL_LAYOUT_TYPE_H

#include <pango/pango.h>
#include <stdbool.h>

#include "layout/glyphs.h"
#include "layout/ink.h"

enum weight { WEIGHT_REGULAR, WEIGHT_BOLD };

/* How a text is set. Sizes are in points. */
struct typesetting {
    double size;
    enum weight weight;
    double width; /* lines are broken to it; 0: one line of its own width */
    int lines;    /* the most lines, the rest is ellipsised; 0: any number */
    bool whole_words; /* never break inside a word; the run may then be wider than asked */
    double leading;   /* of broken lines: share of the font's own line height; 0: all of it */
};

/* A text as it was measured. All figures in points; the ink box is what the glyphs cover, relative to the top left
 * corner. */
struct text_run {
    double width, height;
    double baseline;  /* of the first line, down from the top */
    double last_baseline;
    double capital;   /* height of a capital letter */
    double ink_x, ink_y, ink_width, ink_height;
    int lines;
    bool ellipsised;
    int unknown;      /* characters that no font has */
    double scale;     /* what follows is drawn so much larger; all of it lives as long as the typesetter */
    const struct glyphs *glyphs;
    size_t count;
    PangoLayout *layout; /* drawn instead, or NULL: if characters are unknown, Pango shows which */
};

struct type;

/* A typesetter, or NULL with *WRONG set to a sentence that names the missing file and the Debian package that provides
 * it (static). Ended with type_close. No two may be open at once, since fontconfig has one current configuration for
 * the whole program; it, Pango and cairo keep caches of their own until the program ends. */
struct type *type_open(const char **wrong);
void type_close(struct type *type);

/* TEXT set in STYLE. Each text is shaped once, whatever sizes it is wanted in. */
struct text_run type_set(struct type *type, const char *text, struct typesetting setting);

/* Between these two runs are measured only, not to be drawn. type_try gives an arena for what the trial makes, in the
 * language of LIKE; type_try_end frees all of it, and what Pango had to be asked for. */
struct arena *type_try(struct type *type, const struct arena *like);
void type_try_end(struct type *type);

/* Height of a capital letter as a share of the size, from the font's OS/2 table. */
double type_capital(const struct type *type);

/* Width of TEXT on one line, in points. */
double type_width(struct type *type, const char *text, double size, enum weight weight);

#endif
