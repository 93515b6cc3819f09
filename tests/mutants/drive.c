/* drive - runs mutants, each with the tests that reach it.
 *
 *     drive TESTS MUTANTS RESULTS
 *
 * TESTS has a test a line, with tabs between:
 *     program PATH                   passes when PATH ends with 0; so does a script
 *     same    PLAN DATE WANTED       `check -i` says of PLAN what is in the file WANTED, and nothing else
 *     mistake PLAN DATE WANTED       `check` does
 *     quiet   PLAN DATE ALLOWED      `check -i --notes` finds nothing in PLAN whose first line is not in the file ALLOWED
 * MUTANTS has a number and a name a line. RESULTS gets a line for each, at once, so that a run can be stopped: killed,
 * survived or unreached, the name, and which test noticed, or how many did not.
 *
 * First every test runs once without a mutant, and marks what it reaches. Then each mutant runs its tests, those first that
 * noticed another, then the cheap ones of few things, until one fails or TRIES have not. One that does not come to an end in
 * ten times the time of the processor counts as noticed. Tests that take longer than MOST seconds are left out, and told.
 * JOBS mutants run at a time. */
#define _GNU_SOURCE /* memfd_create */
#include <errno.h>
#include <fcntl.h>
#include <glib.h>
#include <signal.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

#include "mutant.h"

enum { MEMORY = 2048 /* MB of a mutant */, SAID = 1 << 20 /* bytes of what a command says */, PATIENCE = 60 /* s */ };

struct test {
    char **words;
    double seconds;         /* of the processor */
    double rank;            /* the lowest runs first */
    char *wanted;           /* what the file WANTED or ALLOWED holds */
    unsigned char *reaches; /* a byte for each mutant of the list */
};

struct mutant_row {
    int number;
    const char *name;
};

struct drive {
    GArray *tests, *mutants;
    const char *program;
    double most;
    int jobs;
    guint tries;
    unsigned char *seen; /* the marks of a worker */
    double *seconds;     /* what workers say of each test */
    int results; /* file descriptor */
};

static struct test *test_at(const struct drive *drive, guint i)
{
    return &g_array_index(drive->tests, struct test, i);
}

static struct mutant_row *mutant_at(const struct drive *drive, guint i)
{
    return &g_array_index(drive->mutants, struct mutant_row, i);
}

_Noreturn static void give_up(const char *what)
{
    fprintf(stderr, "drive: %s: %s\n", what, strerror(errno));
    exit(2);
}

/* --- one run of one test --- */

static bool is_program(const struct test *test)
{
    return strcmp(test->words[0], "program") == 0;
}

static struct rlimit at_most(rlim_t most)
{
    return (struct rlimit){most, most};
}

/* Becomes the test. What it says goes to OUT. */
_Noreturn static void become(const struct drive *drive, const struct test *test, int out)
{
    setpgid(0, 0);
    struct rlimit processor = at_most((rlim_t)(2 + 10 * test->seconds)), memory = at_most((rlim_t)MEMORY << 20);
    struct rlimit file = at_most(256 << 20), core = at_most(0);
    setrlimit(RLIMIT_CPU, &processor);
    setrlimit(RLIMIT_AS, &memory);
    setrlimit(RLIMIT_CORE, &core);
    setrlimit(RLIMIT_FSIZE, &file);
    int nothing = open("/dev/null", O_RDWR);
    dup2(nothing, 0);
    dup2(is_program(test) ? nothing : out, 1);
    dup2(is_program(test) ? nothing : out, 2);
    if (is_program(test)) {
        execl(test->words[1], test->words[1], (char *)NULL);
        _exit(127);
    }
    char *folder = g_path_get_dirname(test->words[1]), *name = g_path_get_basename(test->words[1]);
    if (chdir(folder) != 0)
        _exit(127);
    const char *words[9] = {"bellsheet", "check", "--color=never", "--date", test->words[2], name};
    if (strcmp(test->words[0], "mistake") != 0)
        words[6] = "-i";
    if (strcmp(test->words[0], "quiet") == 0)
        words[7] = "--notes";
    execv(drive->program, (char **)words);
    _exit(127);
}

/* Waits for PID, not longer than PATIENCE and what the test takes; returns its status, and the time of the processor. */
static int wait_for(pid_t pid, const struct test *test, double *seconds)
{
    int status = 0;
    struct rusage used;
    time_t end = time(NULL) + PATIENCE + (time_t)(30 * test->seconds);
    for (long pause = 200000; wait4(pid, &status, WNOHANG, &used) == 0; pause = pause < 20000000 ? pause * 3 / 2 : pause) {
        if (time(NULL) > end)
            kill(-pid, SIGKILL);
        nanosleep(&(struct timespec){0, pause}, NULL);
    }
    kill(-pid, SIGKILL); /* what it may have left behind */
    *seconds = (double)used.ru_utime.tv_sec + (double)used.ru_stime.tv_sec +
        (double)(used.ru_utime.tv_usec + used.ru_stime.tv_usec) / 1e6;
    return status;
}

/* The first line of a finding, without where it stands: "error: ... [name]"; NULL for any other line. */
static const char *head_of(const char *line)
{
    const char *space = strchr(line, ' ');
    bool found = space && space > line && space[-1] == ':' && g_str_has_suffix(line, "]") &&
        (g_str_has_prefix(space, " error: ") || g_str_has_prefix(space, " warning: ") || g_str_has_prefix(space, " info: "));
    return found ? space + 1 : NULL;
}

static bool all_allowed(const char *said, const char *allowed)
{
    char **lines = g_strsplit(said, "\n", -1), **heads = g_strsplit(allowed, "\n", -1);
    bool all = true;
    for (size_t i = 0; lines[i]; i++) {
        const char *head = head_of(lines[i]);
        all = all && (!head || g_strv_contains((const char *const *)heads, head));
    }
    g_strfreev(lines);
    g_strfreev(heads);
    return all;
}

/* Does a plan's check say what it has to? OUT is what it said. */
static bool said_right(const struct test *test, int status, int out)
{
    static char said[SAID];
    ssize_t length = pread(out, said, sizeof said - 1, 0);
    said[length < 0 ? 0 : length] = '\0';
    if (!WIFEXITED(status) || WEXITSTATUS(status) > 1)
        return false;
    return strcmp(test->words[0], "quiet") == 0 ? all_allowed(said, test->wanted) : strcmp(said, test->wanted) == 0;
}

/* Runs TEST as the environment says. */
static bool passes(const struct drive *drive, const struct test *test, double *seconds)
{
    int out = memfd_create("said", MFD_CLOEXEC);
    pid_t pid = out < 0 ? -1 : fork();
    if (pid < 0)
        give_up("fork");
    if (pid == 0)
        become(drive, test, out);
    setpgid(pid, pid);
    int status = wait_for(pid, test, seconds);
    bool right = is_program(test) ? WIFEXITED(status) && WEXITSTATUS(status) == 0 : said_right(test, status, out);
    close(out);
    return right;
}

/* --- workers --- */

static void *shared(size_t size)
{
    void *memory = mmap(NULL, size ? size : 1, PROT_READ | PROT_WRITE, MAP_SHARED | MAP_ANONYMOUS, -1, 0);
    if (memory == MAP_FAILED)
        give_up("mmap");
    return memory;
}

/* Does WORK for each number below COUNT, in as many processes as there are jobs: each takes the next that nobody has. */
static void in_workers(struct drive *drive, guint count, void (*work)(struct drive *drive, guint i))
{
    guint *next = shared(sizeof *next);
    for (int job = 0; job < drive->jobs; job++) {
        pid_t pid = fork();
        if (pid < 0)
            give_up("fork");
        if (pid > 0)
            continue;
        for (guint i; (i = __atomic_fetch_add(next, 1, __ATOMIC_RELAXED)) < count;)
            work(drive, i);
        _exit(0);
    }
    int status;
    while (wait(&status) > 0)
        if (!WIFEXITED(status) || WEXITSTATUS(status) != 0)
            exit(2);
    munmap(next, sizeof *next);
}

/* --- all tests once, without a mutant --- */

/* A file for the marks of one process, which nobody else finds. */
static unsigned char *open_marks(void)
{
    char path[64];
    int file = memfd_create("seen", 0);
    if (file < 0 || ftruncate(file, MUTANTS_MOST) != 0)
        give_up("the file of marks");
    unsigned char *seen = mmap(NULL, MUTANTS_MOST, PROT_READ | PROT_WRITE, MAP_SHARED, file, 0);
    if (seen == MAP_FAILED)
        give_up("mmap");
    snprintf(path, sizeof path, "/proc/%ld/fd/%d", (long)getpid(), file);
    g_setenv("MUTANT_SEEN", path, TRUE);
    return seen;
}

/* Leaves in shared memory what test I reaches and how long it takes: less than nothing when it fails. */
static void look_at_test(struct drive *drive, guint i)
{
    struct test *test = test_at(drive, i);
    if (!drive->seen)
        drive->seen = open_marks();
    memset(drive->seen, 0, MUTANTS_MOST);
    test->seconds = drive->most / 10; /* as much as it may take the first time */
    if (!passes(drive, test, &drive->seconds[i]))
        drive->seconds[i] = -1;
    for (guint m = 0; m < drive->mutants->len; m++)
        test->reaches[m] = drive->seen[mutant_at(drive, m)->number];
}

/* A test that comes to few places is more likely to look at them than one that comes to many. */
static double rank_of(const struct test *test, size_t mutants)
{
    double reached = 0;
    for (size_t m = 0; m < mutants; m++)
        reached += test->reaches[m];
    return test->seconds * reached * reached;
}

static int by_rank(const void *a, const void *b)
{
    const struct test *left = a, *right = b;
    return (left->rank > right->rank) - (left->rank < right->rank);
}

static void look_at_tests(struct drive *drive)
{
    GArray *kept = g_array_new(FALSE, FALSE, sizeof(struct test));
    size_t all = drive->mutants->len;
    double seconds = 0;
    unsigned char *reaches = shared(all * drive->tests->len);
    drive->seconds = shared(drive->tests->len * sizeof *drive->seconds);
    for (guint i = 0; i < drive->tests->len; i++)
        test_at(drive, i)->reaches = reaches + i * all;
    in_workers(drive, drive->tests->len, look_at_test);
    for (guint i = 0; i < drive->tests->len; i++) {
        struct test *test = test_at(drive, i);
        test->seconds = drive->seconds[i];
        if (test->seconds < 0 || test->seconds > drive->most) {
            printf("left out, because it fails without a mutant or takes more than %g s: %s\n", drive->most, test->words[1]);
            continue;
        }
        test->rank = rank_of(test, all);
        g_array_append_val(kept, *test);
        seconds += test->seconds;
    }
    drive->tests = kept;
    if (kept->len)
        qsort(kept->data, kept->len, sizeof(struct test), by_rank);
    printf("%u tests, %.1f s of the processor; %u mutants\n", kept->len, seconds, drive->mutants->len);
    fflush(stdout);
}

/* --- the mutants --- */

static void tell(const struct drive *drive, const char *what, const struct mutant_row *mutant, const char *by)
{
    char *row = g_strdup_printf("%s\t%s\t%s\n", what, mutant->name, by);
    if (write(drive->results, row, strlen(row)) != (ssize_t)strlen(row))
        give_up("the results");
    g_free(row);
}

/* What noticed a mutant is likely to notice the next, too: it comes before all others. */
static void move_to_front(struct drive *drive, guint at)
{
    struct test test = *test_at(drive, at);
    g_array_remove_index(drive->tests, at);
    g_array_prepend_val(drive->tests, test);
}

static void run_mutant(struct drive *drive, guint m)
{
    const struct mutant_row *mutant = mutant_at(drive, m);
    char text[32];
    guint tried = 0;
    snprintf(text, sizeof text, "%d", mutant->number);
    g_setenv("MUTANT", text, TRUE);
    for (guint i = 0; i < drive->tests->len && tried < drive->tries; i++) {
        double seconds;
        if (!test_at(drive, i)->reaches[m])
            continue;
        tried++;
        if (!passes(drive, test_at(drive, i), &seconds)) {
            tell(drive, "killed", mutant, test_at(drive, i)->words[1]);
            move_to_front(drive, i);
            return;
        }
    }
    snprintf(text, sizeof text, "%u tests", tried);
    tell(drive, tried ? "survived" : "unreached", mutant, text);
}

/* --- what is given --- */

static char **lines_of(const char *path)
{
    char *text;
    if (!g_file_get_contents(path, &text, NULL, NULL))
        give_up(path);
    return g_strsplit(g_strchomp(text), "\n", -1);
}

static void read_tests(struct drive *drive, const char *path)
{
    char **lines = lines_of(path);
    for (size_t i = 0; lines[i] && *lines[i]; i++) {
        struct test test = {.words = g_strsplit(lines[i], "\t", -1)};
        guint count = g_strv_length(test.words);
        if (count < 2 || (!is_program(&test) && (count < 4 || !g_file_get_contents(test.words[3], &test.wanted, NULL, NULL))))
            give_up(lines[i]);
        g_array_append_val(drive->tests, test);
    }
}

static void read_mutants(struct drive *drive, const char *path)
{
    char **lines = lines_of(path);
    for (size_t i = 0; lines[i] && *lines[i]; i++) {
        char *name;
        long number = strtol(lines[i], &name, 10);
        if (*name != '\t' || number < 0 || number >= MUTANTS_MOST)
            give_up(lines[i]);
        struct mutant_row mutant = {(int)number, name + 1};
        g_array_append_val(drive->mutants, mutant);
    }
}

int main(int argc, char **argv)
{
    const char *program = getenv("BELLSHEET"), *most = getenv("MOST"), *jobs = getenv("JOBS"), *tries = getenv("TRIES");
    struct drive drive = {.tests = g_array_new(FALSE, FALSE, sizeof(struct test)),
                          .mutants = g_array_new(FALSE, FALSE, sizeof(struct mutant_row)),
                          .program = program ? realpath(program, NULL) : "",
                          .most = most ? atof(most) : 3,
                          .jobs = jobs ? atoi(jobs) : 2,
                          .tries = tries && *tries ? (guint)atoi(tries) : G_MAXUINT};
    if (argc != 4) {
        fprintf(stderr, "usage: BELLSHEET=... drive TESTS MUTANTS RESULTS\n");
        return 2;
    }
    read_tests(&drive, argv[1]);
    read_mutants(&drive, argv[2]);
    drive.results = open(argv[3], O_WRONLY | O_CREAT | O_APPEND | O_CLOEXEC, 0666);
    if (drive.results < 0)
        give_up(argv[3]);
    look_at_tests(&drive);
    in_workers(&drive, drive.mutants->len, run_mutant);
    return 0;
}
