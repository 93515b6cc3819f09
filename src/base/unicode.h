/* unicode.h - which characters a plan and a name may hold, and which names look the same.
 *
 * unicode.def has what the Unicode Character Database says of them; make-unicode writes it. */
#ifndef BELL_BASE_UNICODE_H
#define BELL_BASE_UNICODE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "base/arena.h"

/* What is wrong with CHARACTER anywhere in a plan, or NULL: controls, what reverses the direction of writing, what is
 * never visible, and code points that are not characters, which would make an SVG unreadable. */
const char *unicode_fault(uint32_t character);

/* The same for a name, which is LENGTH bytes of UTF-8: nothing in it may be invisible or look different from machine to
 * machine, or two names could look the same. Joiners and variants are let through where a script needs them: after RFC
 * 5892, appendix A, for joiners (and before a virama, as Bengali has it); Mongolian and Han for variants. Returns where
 * the fault is, *SIZE bytes long and named by *WHAT; LENGTH if there is none. */
size_t unicode_name_fault(const char *name, size_t length, const char **what, size_t *size);

/* What NAME looks like: names of which this is the same look the same (Unicode Technical Standard 39, section 4). NAME
 * itself if its letters look like no others. */
const char *unicode_look(struct arena *arena, const char *name) __attribute__((returns_nonnull));

/* Are all letters of NAME Latin ones? */
bool unicode_is_latin(const char *name);

#endif
