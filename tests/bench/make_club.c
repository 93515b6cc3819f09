/* usage: make_club FOLDER ATHLETES WEEKS DAYS SESSIONS [logged|rooms] - writes the club's files into FOLDER, which must exist. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/output.h"
#include "bench/club.h"

int main(int argc, char **argv)
{
    if (argc != 6 && argc != 7) {
        fputs("usage: make_club FOLDER ATHLETES WEEKS DAYS SESSIONS [logged|rooms]\n", stderr);
        return 2;
    }
    struct club_files files =
        club_make((struct club_shape){atoi(argv[2]), atoi(argv[3]), atoi(argv[4]), atoi(argv[5]),
                                      .rooms = argc == 7 && strcmp(argv[6], "rooms") == 0,
                                      .logged = argc == 7 && strcmp(argv[6], "logged") == 0});
    for (size_t i = 0; i < files.count; i++) {
        char path[1024];
        snprintf(path, sizeof path, "%s/%s", argv[1], files.items[i].name);
        const char *wrong = output_write(path, text_get(&files.items[i].text), files.items[i].text.length);
        if (wrong) {
            fprintf(stderr, "make_club: %s: %s\n", path, wrong);
            return 2;
        }
    }
    club_free(&files);
    return 0;
}
