/* usage: bench_watch BELLSHEET CLUB OUT - from save to sheet: `print --watch` keeps a week of CLUB printed in OUT while one
 * load of one squad's session is changed, again and again. The times are from the close of the written file to the first
 * sheet's name on the program's output, and to the last one's, after which it says "watching". */
#define _POSIX_C_SOURCE 200809L

#include <signal.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

#include "bench/timing.h"

enum { RUNS = 31, MOST_BYTES = 1 << 20 };

struct watched {
    char path[512];
    char *bytes;
    size_t length;
    char *load; /* within bytes: the first digit of what changes */
};

static double wall_now(void)
{
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)now.tv_sec * 1e3 + (double)now.tv_nsec / 1e6;
}

static void fail(const char *why)
{
    fprintf(stderr, "bench_watch: %s\n", why);
    exit(2);
}

/* The third week's share of the first back squat. */
static void read_session(struct watched *watched, const char *club)
{
    snprintf(watched->path, sizeof watched->path, "%s/squad-1.bell", club);
    FILE *file = fopen(watched->path, "rb");
    watched->bytes = calloc(1, MOST_BYTES);
    if (!file || !watched->bytes)
        fail("squad-1.bell cannot be read");
    watched->length = fread(watched->bytes, 1, MOST_BYTES - 1, file);
    fclose(file);
    char *squat = strstr(watched->bytes, "back squat"), *share = squat ? strchr(squat, '@') : NULL;
    for (int i = 0; i < 2 && share; i++)
        share = strchr(share + 1, '/');
    if (!share)
        fail("squad-1.bell has no back squat of three shares");
    watched->load = share + 1;
}

static void save(struct watched *watched, int run)
{
    watched->load[0] = run % 2 ? '8' : '7';
    FILE *file = fopen(watched->path, "wb");
    if (!file || fwrite(watched->bytes, 1, watched->length, file) != watched->length || fclose(file))
        fail("squad-1.bell cannot be written");
}

/* Lines of the program up to the one that says that it waits again; how many of them name a sheet. *FIRST is when the first
 * of them does. */
static int sheets_until_ready(FILE *said, double *first)
{
    char line[1024];
    int sheets = 0;
    while (fgets(line, sizeof line, said)) {
        bool names = strstr(line, ".pdf\n") || strstr(line, ".svg\n");
        if (names && !sheets++)
            *first = wall_now();
        if (strncmp(line, "watching: printed", 17) == 0)
            return sheets;
    }
    fail("the program ended");
    return 0;
}

int main(int argc, char **argv)
{
    int ends[2];
    struct watched watched;
    if (argc != 4 || pipe(ends))
        fail("usage: bench_watch BELLSHEET CLUB OUT");
    read_session(&watched, argv[2]);
    save(&watched, 0);
    pid_t program = fork();
    if (program == 0) {
        dup2(ends[1], 1);
        dup2(ends[1], 2);
        execl(argv[1], argv[1], "print", argv[2], "--week", "3", "--date", "2027-03-16", "--watch", "--out", argv[3], (char *)NULL);
        _exit(127);
    }
    close(ends[1]);
    FILE *said = fdopen(ends[0], "r");
    double times[RUNS], firsts[RUNS], first = 0;
    printf("a week of %d sheets; one load is changed and saved\n", sheets_until_ready(said, &first));
    int sheets = 0;
    for (int run = 0; run < RUNS; run++) {
        save(&watched, run + 1);
        double start = wall_now();
        sheets = sheets_until_ready(said, &first);
        times[run] = wall_now() - start;
        firsts[run] = first - start;
    }
    kill(program, SIGTERM);
    waitpid(program, NULL, 0);
    printf("from save to the first sheet, ms");
    timing_print(timing_sum(firsts, RUNS));
    printf("\nfrom save to %d sheets, ms", sheets);
    timing_print(timing_sum(times, RUNS));
    putchar('\n');
    free(watched.bytes);
    return sheets == 0;
}
