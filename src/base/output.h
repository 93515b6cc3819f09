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

/* The same for what only its owner may read: nobody else can open the file, whatever the umask, not even while it is
 * being written. */
const char *output_write_private(const char *path, const char *bytes, size_t length);

/* Removes from the folder PATH the temporary files of runs that were killed, but none of a run that is still
 * writing. */
void output_sweep(const char *path);

/* Makes PATH and its parents if they are missing. Returns NULL or what went wrong. *THERE, if THERE is not NULL, is set
 * to how many bytes of PATH name what existed before; 0 if that is the current folder. */
const char *output_make_folder(const char *path, size_t *there);

/* Removes PATH and its parents beyond the first THERE bytes, those that are empty. */
void output_drop_folder(const char *path, size_t there);

#endif
