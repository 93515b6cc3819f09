/* fonts.h - where the font files are, and which file knows a script. */
#ifndef BELL_LAYOUT_FONTS_H
#define BELL_LAYOUT_FONTS_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* A font file and the Debian package that installs it. */
struct font_file {
    const char *package;
    const char *folder; /* below /usr/share/fonts */
    const char *file;
};

/* The files every sheet is set in. */
extern const struct font_file fonts_pinned[];
extern const size_t fonts_pinned_count;

/* The path of FILE in PATH (SIZE bytes): where Debian puts it, else wherever it lies below /usr/share/fonts.
 * False where it is not installed. */
bool font_path(const struct font_file *file, char *path, size_t size);

/* Files that may hold CHARACTER, which the pinned family lacks, likeliest first. Returns how many, at most
 * FONT_CANDIDATES. */
enum { FONT_CANDIDATES = 3 };
size_t font_candidates(uint32_t character, struct font_file out[FONT_CANDIDATES]);

#endif
