/* club.h - a club of any size for the benchmark, written as a club would write it: one file of athletes, one of
 * sessions for each squad of ten, one camp for each athlete or squad. Nobody in it is real. */
#ifndef BELL_BENCH_CLUB_H
#define BELL_BENCH_CLUB_H

#include <stdbool.h>

#include "base/text.h"

struct club_shape {
    int athletes, weeks;
    int days;     /* training days a week, 1 to 6 */
    int sessions; /* written for each squad; those beyond DAYS are read and never placed, so that only files grow */
    bool rooms;   /* each squad has one camp and shares a room; else each athlete has one and trains alone */
    bool logged;  /* each session has a line with a rule of progress, and all but those of the last week have logs */
};

struct club_file {
    char name[32];
    struct text text;
};

struct club_files {
    struct club_file *items;
    size_t count;
};

/* The caller ends it with club_free. */
struct club_files club_make(struct club_shape shape);
void club_free(struct club_files *files);

/* The bytes of all files together. */
size_t club_size(const struct club_files *files);

#endif
