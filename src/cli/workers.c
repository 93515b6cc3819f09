#define _DEFAULT_SOURCE /* MAP_ANONYMOUS */

#include "cli/workers.h"

#include <errno.h>
#include <glib.h>
#include <poll.h>
#include <signal.h>
#include <stdatomic.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <sys/wait.h>
#include <unistd.h>

#include "base/signals.h"

/* FEWEST: below it a process costs more than it saves. */
enum { MOST_WORKERS = 16, FEWEST_JOBS_EACH = 4 };

/* What a worker says: a job's record; nothing more, as no job is left; or why it could not begin. */
enum worker_word { WORKER_DID, WORKER_ENDS, WORKER_FAILED };

/* What goes over the pipe before its bytes. */
struct head {
    uint32_t job, length, word;
};

struct workers {
    const struct work *work;
    sigset_t before; /* the signals that were held before */
    unsigned count;
    pid_t processes[MOST_WORKERS];
    struct pollfd pipes[MOST_WORKERS]; /* to read from; below 0 where no more will come */
    atomic_size_t *next;               /* the job that nobody has taken yet, in memory that all share */
    struct text *records;              /* of the jobs that are done and not taken yet */
    bool *done;
};

unsigned workers_wanted(void)
{
    return g_get_num_processors();
}

static const char *run_here(const struct work *work, const sigset_t *before)
{
    const char *wrong = work->begin(work->with);
    if (wrong)
        return wrong;
    bool going = true;
    for (size_t job = 0; job < work->count && going; job++) {
        struct text record = {0};
        signals_let_in(before);
        work->make(work->with, job, &record);
        going = work->take(work->with, job, &record);
        text_free(&record);
    }
    work->end(work->with);
    return NULL;
}

/* --- in a worker --- */

static bool send_bytes(int pipe, const void *bytes, size_t length)
{
    const char *at = bytes;
    while (length) {
        ssize_t n = write(pipe, at, length);
        if (n < 0 && errno == EINTR)
            continue;
        if (n <= 0)
            return false;
        at += n;
        length -= (size_t)n;
    }
    return true;
}

static bool send_record(int pipe, size_t job, const struct text *bytes, enum worker_word word)
{
    struct head head = {(uint32_t)job, (uint32_t)bytes->length, word};
    return send_bytes(pipe, &head, sizeof head) && send_bytes(pipe, text_get(bytes), bytes->length);
}

/* Does the next job that nobody does, again and again: one takes ten times as long as another. */
static void work_to(const struct workers *workers, int pipe)
{
    const struct work *work = workers->work;
    struct text record = {0};
    signal(SIGPIPE, SIG_IGN); /* the caller stopped: the next write fails, and no file is left half made */
    const char *wrong = work->begin(work->with);
    if (wrong) {
        text_add(&record, wrong);
        send_record(pipe, 0, &record, WORKER_FAILED);
        return;
    }
    bool going = true;
    for (size_t job; going && (job = atomic_fetch_add(workers->next, 1)) < work->count;) {
        text_clear(&record);
        signals_let_in(&workers->before);
        work->make(work->with, job, &record);
        going = send_record(pipe, job, &record, WORKER_DID);
    }
    work->end(work->with);
    text_clear(&record);
    send_record(pipe, 0, &record, WORKER_ENDS);
}

/* --- in the caller --- */

static const char *start_worker(struct workers *workers, unsigned number)
{
    int ends[2];
    if (pipe(ends) != 0)
        return strerror(errno);
    pid_t process = fork();
    if (process < 0) {
        int cause = errno;
        close(ends[0]);
        close(ends[1]);
        return strerror(cause);
    }
    if (process == 0) {
        close(ends[0]);
        for (unsigned i = 0; i < number; i++)
            close(workers->pipes[i].fd);
        work_to(workers, ends[1]);
        _exit(0);
    }
    close(ends[1]);
    workers->processes[number] = process;
    workers->pipes[number] = (struct pollfd){.fd = ends[0], .events = POLLIN};
    return NULL;
}

static bool receive_bytes(int pipe, void *bytes, size_t length)
{
    char *at = bytes;
    while (length) {
        ssize_t n = read(pipe, at, length);
        if (n < 0 && errno == EINTR)
            continue;
        if (n <= 0)
            return false;
        at += n;
        length -= (size_t)n;
    }
    return true;
}

/* What a worker says next; its record is kept. What went wrong, or NULL. */
static const char *receive(struct workers *workers, struct pollfd *from)
{
    static char fault[256];
    struct text bytes = {0};
    struct head head = {0};
    bool whole = receive_bytes(from->fd, &head, sizeof head) && head.job < workers->work->count;
    for (size_t left = whole ? head.length : 0; left && whole;) {
        char part[4096];
        size_t size = left < sizeof part ? left : sizeof part;
        whole = receive_bytes(from->fd, part, size);
        text_add_bytes(&bytes, part, whole ? size : 0);
        left -= size;
    }
    if (whole && head.word == WORKER_DID) {
        text_free(&workers->records[head.job]);
        workers->records[head.job] = bytes;
        workers->done[head.job] = true;
        return NULL;
    }
    if (whole && head.word == WORKER_FAILED)
        snprintf(fault, sizeof fault, "%s", text_get(&bytes));
    text_free(&bytes);
    if (whole && head.word == WORKER_ENDS) {
        close(from->fd);
        from->fd = -1;
        return NULL;
    }
    return whole ? fault : "a process that makes sheets ended early";
}

/* Waits until somebody says something, and hears all who do. */
static const char *hear(struct workers *workers)
{
    const char *wrong = NULL;
    bool any = false;
    for (unsigned i = 0; i < workers->count; i++)
        any = any || workers->pipes[i].fd >= 0;
    if (!any)
        return "a process that makes sheets left one out";
    if (poll(workers->pipes, workers->count, -1) < 0)
        return errno == EINTR ? NULL : strerror(errno);
    for (unsigned i = 0; i < workers->count && !wrong; i++)
        if (workers->pipes[i].fd >= 0 && workers->pipes[i].revents)
            wrong = receive(workers, &workers->pipes[i]);
    return wrong;
}

static const char *take_all(struct workers *workers)
{
    const struct work *work = workers->work;
    const char *wrong = NULL;
    bool going = true;
    for (size_t job = 0; job < work->count && going && !wrong;) {
        if (!workers->done[job]) {
            wrong = hear(workers);
            signals_let_in(&workers->before); /* what ended the worker may wait for this process too */
            continue;
        }
        going = work->take(work->with, job, &workers->records[job]);
        job++;
    }
    return wrong;
}

static void end_workers(struct workers *workers, unsigned started)
{
    for (unsigned i = 0; i < started; i++)
        if (workers->pipes[i].fd >= 0)
            close(workers->pipes[i].fd);
    for (unsigned i = 0; i < started; i++)
        while (waitpid(workers->processes[i], NULL, 0) < 0 && errno == EINTR)
            continue;
    for (size_t job = 0; job < workers->work->count; job++)
        text_free(&workers->records[job]);
}

static const char *run_workers(const struct work *work, unsigned processes, const sigset_t *before)
{
    /* cppcheck-suppress invalidFunctionArg ; memory of no file has none to name */
    atomic_size_t *next = mmap(NULL, sizeof *next, PROT_READ | PROT_WRITE, MAP_SHARED | MAP_ANONYMOUS, -1, 0);
    if (next == MAP_FAILED)
        return strerror(errno);
    atomic_init(next, 0);
    struct arena *arena = arena_new();
    struct workers workers = {.work = work, .before = *before, .count = processes, .next = next,
                              .records = arena_alloc(arena, work->count * sizeof *workers.records),
                              .done = arena_alloc(arena, work->count)};
    const char *wrong = NULL;
    unsigned started = 0;
    fflush(NULL);
    while (started < processes && !(wrong = start_worker(&workers, started)))
        started++;
    if (!wrong)
        wrong = take_all(&workers);
    end_workers(&workers, started);
    arena_free(arena);
    munmap(next, sizeof *next);
    return wrong;
}

/* Between two jobs the program may be ended, and at no other time: the threads that the work starts hold the signals too. */
const char *workers_run(const struct work *work, unsigned processes)
{
    if (processes > work->count / FEWEST_JOBS_EACH)
        processes = (unsigned)(work->count / FEWEST_JOBS_EACH);
    if (processes > MOST_WORKERS)
        processes = MOST_WORKERS;
    sigset_t before;
    signals_hold(&before);
    const char *wrong = processes < 2 ? run_here(work, &before) : run_workers(work, processes, &before);
    signals_release(&before);
    return wrong;
}
