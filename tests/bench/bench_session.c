/* usage: bench_session [keystroke FILE NUMBER] - an open session of the library, on the club of 40 athletes, 26 weeks and 4 sessions a
 * week: milliseconds from a changed byte to all findings, and memory after many edits. Run from the top of the checkout: the
 * shelf is read from share/. With `keystroke` it types as often as told, for a profiler. */
#include <bellsheet/bellsheet.h>
#include <malloc.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/output.h"
#include "bench/club.h"
#include "bench/timing.h"

enum { RUNS = 31, MANY = 10000 };

/* Bytes that the session has now. */
static size_t held;

static void *resize(void *context, void *old, size_t size)
{
    (void)context;
    held -= old ? malloc_usable_size(old) : 0;
    void *got = realloc(old, size);
    held += got ? malloc_usable_size(got) : 0;
    return got;
}

static void give_back(void *context, void *old)
{
    (void)context;
    held -= old ? malloc_usable_size(old) : 0;
    free(old);
}

static void stop(const char *why)
{
    fprintf(stderr, "bench_session: %s\n", why);
    exit(2);
}

struct club {
    char folder[64];
    struct club_files files;
    struct bell_session *session;
    long version;
};

static void path_of(const struct club *club, size_t file, char path[128])
{
    snprintf(path, 128, "%s/%s", club->folder, club->files.items[file].name);
}

static void club_open(struct club *club)
{
    *club = (struct club){.folder = "/tmp/bellsheet-bench-XXXXXX", .files = club_make((struct club_shape){40, 26, 4, 4, false, false})};
    if (!mkdtemp(club->folder))
        stop("no folder can be made");
    char path[128];
    for (size_t i = 0; i < club->files.count; i++) {
        struct text *text = &club->files.items[i].text;
        path_of(club, i, path);
        if (output_write(path, text_get(text), text->length))
            stop("a file cannot be written");
    }
    const struct bell_options options = {.share = "share", .today = "2027-03-01", .resize = resize, .free = give_back};
    if (bell_open(&options, &club->session) != BELL_OK || bell_add_path(club->session, club->folder) != BELL_OK ||
        bell_compile(club->session) != BELL_OK)
        stop("the club cannot be compiled");
}

static void club_close(struct club *club)
{
    char path[128];
    bell_close(club->session);
    for (size_t i = 0; i < club->files.count; i++) {
        path_of(club, i, path);
        unlink(path);
    }
    rmdir(club->folder);
    club_free(&club->files);
}

/* Types a digit of FILE's first WORDS to another, or back, and asks for all findings. */
static void type(struct club *club, size_t file, const char *words)
{
    struct text *text = &club->files.items[file].text;
    char path[128], *at = strstr(text->data, words);
    if (!at)
        stop("the club has no such words");
    at += strlen(words);
    *at = (char)(*at == '0' ? '5' : '0');
    path_of(club, file, path);
    if (bell_overlay(club->session, path, text_get(text), text->length, ++club->version) != BELL_OK ||
        bell_compile(club->session) != BELL_OK)
        stop("an edit cannot be compiled");
    for (size_t i = 0; i < bell_finding_count(club->session); i++)
        if (bell_finding(club->session, i)->severity == BELL_ERROR)
            stop("the club has errors");
}

static const struct {
    const char *name, *words;
    size_t file;
} places[] = {
    {"in one camp", "change B.1 : 3 @ 7", 5}, /* of `70%` */
    {"in a squad's sessions", "under     9", 1},
    {"in the file of athletes", "trap bar deadlift : 1 @ 12", 0},
};

/* The quartiles beside the middle one; TIMES come back sorted. */
static void show(const char *name, double *times)
{
    struct timing timing = timing_sum(times, RUNS);
    printf("  %-26s  %8.2f  (%.2f-%.2f)\n", name, timing.median, times[RUNS / 4], times[RUNS - 1 - RUNS / 4]);
}

static void show_keystrokes(struct club *club)
{
    double times[RUNS];
    puts("A keystroke of an open session, to all findings, ms   (quartiles)");
    for (size_t i = 0; i < sizeof places / sizeof *places; i++) {
        type(club, places[i].file, places[i].words);
        for (int run = 0; run < RUNS; run++) {
            double start = timing_now();
            type(club, places[i].file, places[i].words);
            times[run] = timing_now() - start;
        }
        show(places[i].name, times);
    }
}

static void show_memory(struct club *club)
{
    type(club, places[0].file, places[0].words);
    type(club, places[1].file, places[1].words);
    size_t first = held, most = 0;
    for (int i = 0; i < MANY; i++) {
        type(club, places[i % 2].file, places[i % 2].words);
        most = held > most ? held : most;
    }
    printf("  memory after an edit of each %.1f MB, after %d more %.1f MB: %.2f times; at most %.1f MB\n", (double)first / 1e6, MANY,
           (double)held / 1e6, (double)held / (double)first, (double)most / 1e6);
}

int main(int argc, char **argv)
{
    struct club club;
    setvbuf(stdout, NULL, _IOLBF, 0);
    club_open(&club);
    if (argc == 4 && strcmp(argv[1], "keystroke") == 0) {
        size_t place = (size_t)atoi(argv[2]) % (sizeof places / sizeof *places);
        for (int i = 0; i < atoi(argv[3]); i++)
            type(&club, places[place].file, places[place].words);
    } else {
        show_keystrokes(&club);
        show_memory(&club);
    }
    club_close(&club);
    return 0;
}
