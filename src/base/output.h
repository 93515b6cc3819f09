/* output.h - files written whole or not at all. */
#ifndef BELL_BASE_OUTPUT_H
#define BELL_BASE_OUTPUT_H

#include <stdbool.h>
#include <stddef.h>
#include <sys/types.h>

/* Of folders where names of people will stand: for their owner alone, whatever the umask. Who wants others to read there says
 * so with chmod. */
enum { OUTPUT_OWNER_ALONE = 0700 };

/* Writes LENGTH bytes to PATH through a temporary file in the same folder that is renamed into place, so
 * that PATH holds the old bytes or the new ones, never a part. A path that is a device (/dev/full,
 * /dev/stdout) is written directly. Returns NULL, or what went wrong (errno's text, static). The
 * temporary is removed on failure, and signals that end the program wait until it is gone. */
const char *output_write(const char *path, const char *bytes, size_t length);

/* The same for a file of which there may be no other copy, such as a plan: after a loss of power, too, PATH holds the old
 * bytes or the new ones, and once this has returned the new ones. What a killed run left beside it is removed. A file
 * that nobody may write to stays as it is, although its folder would let it be replaced. */
const char *output_keep(const char *path, const char *bytes, size_t length);

/* Both for what only its owner may read: nobody else can open the file, whatever the umask, not even while it is being
 * written. */
const char *output_write_private(const char *path, const char *bytes, size_t length);
const char *output_keep_private(const char *path, const char *bytes, size_t length);

/* Waits until the name of PATH, of a folder that was made, is on the disk. */
const char *output_keep_name(const char *path);

/* Removes from the folder PATH the temporary files of runs that were killed, but none of a run that is still
 * writing. */
void output_sweep(const char *path);

/* Makes PATH and its parents if they are missing, with MODE but for what the umask takes. Returns NULL or what went wrong. *THERE, if THERE is not NULL, is set
 * to how many bytes of PATH name what existed before; 0 if that is the current folder. */
const char *output_make_folder(const char *path, mode_t mode, size_t *there);

/* Removes PATH and its parents beyond the first THERE bytes, those that are empty. */
void output_drop_folder(const char *path, size_t there);

#endif
