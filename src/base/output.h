/* output.h - files written whole or not at all. */
#ifndef BELL_BASE_OUTPUT_H
#define BELL_BASE_OUTPUT_H

#include <stdbool.h>
#include <stddef.h>

/* Writes LENGTH bytes to PATH through a temporary file in the same folder that is renamed into place, so
 * that PATH holds the old bytes or the new ones, never a part. A path that is a device (/dev/full,
 * /dev/stdout) is written directly. Returns NULL, or what went wrong (errno's text, static). The
 * temporary is removed on failure, and signals that end the program wait until it is gone. */
const char *output_write(const char *path, const char *bytes, size_t length);

/* The same for what its owner alone is to read: no other may open the file, whatever the umask, and not even while it
 * is written. */
const char *output_write_private(const char *path, const char *bytes, size_t length);

/* Removes from the folder PATH the temporary files of runs that were killed, and none of a run that still writes. */
void output_sweep(const char *path);

/* Makes PATH and its parents where they are missing. Returns NULL or what went wrong. *THERE, where THERE is not NULL, is
 * set to how many bytes of PATH name what was there before; 0 where that is the folder at hand. */
const char *output_make_folder(const char *path, size_t *there);

/* Removes PATH and its parents beyond the first THERE bytes, those that are empty. */
void output_drop_folder(const char *path, size_t there);

#endif
