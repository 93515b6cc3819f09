/* fonts.h - the font files that sheets are set in, and those that are fetched for scripts the sheets' family lacks, in a
 * configuration of their own: the machine's other fonts change nothing. */
#ifndef BELL_LAYOUT_FONTS_H
#define BELL_LAYOUT_FONTS_H

#include <fontconfig/fontconfig.h>
#include <stdbool.h>

struct fonts {
    FcConfig *config;
    FcCharSet *covered; /* characters its files have */
    FcCharSet *met;     /* characters they lacked that were already looked for */
};

/* Opens FONTS with the family's files, as the program's current configuration. Returns NULL, or a sentence that names
 * the missing file and the Debian package that provides it (static); then there is nothing to close. */
const char *fonts_open(struct fonts *fonts);
void fonts_close(struct fonts *fonts);

/* Makes sure that FONTS has every character of TEXT that any file here has. True if files were added, which an earlier
 * font map does not know. */
bool fonts_cover(struct fonts *fonts, const char *text);

#endif
