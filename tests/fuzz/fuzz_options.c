/* Any bytes as a command line: words that a zero byte or a space ends, the first of which chooses a command. It is read, or
 * refused in words. */
#include "fuzz/fuzz.h"

#include <getopt.h>
#include <stdlib.h>
#include <string.h>

#include "cli/commands.h"
#include "cli/options.h"

enum { MOST_WORDS = 40, LONGEST_LINE = 2000 };

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static char bytes[LONGEST_LINE + 2];
    static char *words[MOST_WORDS + 3];
    struct options options;
    int count = 2;
    if (size < 2 || size > LONGEST_LINE)
        return 0;
    memcpy(bytes, data, size);
    bytes[size] = '\0';
    words[0] = (char[]){"bellsheet"};
    words[1] = (char *)commands[data[0] % command_count].name;
    for (char *at = bytes + 1; at < bytes + size && count < MOST_WORDS;) {
        size_t length = strcspn(at, " ");
        bool last = at + length >= bytes + size;
        at[length] = '\0';
        /* -C changes the folder that later inputs are in. */
        if (length && strncmp(at, "-C", 2) != 0)
            words[count++] = at;
        if (last)
            break;
        at += length + 1;
    }
    words[count] = NULL;
    optind = 0;
    int status = options_read(count, words, &options);
    if (status < -1 || status > 2 || (status == -1 && (!options.command || options.path_count < 0 || options.path_count > count)))
        abort();
    return 0;
}
