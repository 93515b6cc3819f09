#include "cli/workers.h"

#include <errno.h>
#include <glib.h>
#include <signal.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

#include "base/signals.h"

/* FEWEST: below it a process costs more than it saves. */
enum { MOST_WORKERS = 16, FEWEST_JOBS_EACH = 4 };

/* What goes over the pipe before a record's bytes. FAULT: the bytes say why the worker could not begin. */
struct head {
    uint32_t length;
    uint32_t fault;
};

struct workers {
    const struct work *work;
    sigset_t before; /* the signals that were held before */
    unsigned count;
    pid_t processes[MOST_WORKERS];
    int pipes[MOST_WORKERS]; /* to read from */
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

static bool send_record(int pipe, const char *bytes, size_t length, bool fault)
{
    struct head head = {(uint32_t)length, fault};
    return send_bytes(pipe, &head, sizeof head) && send_bytes(pipe, bytes, length);
}

/* Does every job whose number leaves NUMBER when divided by the count of workers. */
static void work_as(const struct workers *workers, unsigned number, int pipe)
{
    const struct work *work = workers->work;
    signal(SIGPIPE, SIG_IGN); /* the caller stopped: the next write fails, and no file is left half made */
    const char *wrong = work->begin(work->with);
    if (wrong) {
        send_record(pipe, wrong, strlen(wrong), true);
        return;
    }
    bool going = true;
    for (size_t job = number; job < work->count && going; job += workers->count) {
        struct text record = {0};
        signals_let_in(&workers->before);
        work->make(work->with, job, &record);
        going = send_record(pipe, text_get(&record), record.length, false);
        text_free(&record);
    }
    work->end(work->with);
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
            close(workers->pipes[i]);
        work_as(workers, number, ends[1]);
        _exit(0);
    }
    close(ends[1]);
    workers->processes[number] = process;
    workers->pipes[number] = ends[0];
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

/* The next record of a worker. What went wrong, or NULL. */
static const char *receive_record(int pipe, struct text *record)
{
    static char fault[256];
    struct head head;
    bool whole = receive_bytes(pipe, &head, sizeof head);
    for (size_t left = whole ? head.length : 0; left && whole;) {
        char part[4096];
        size_t size = left < sizeof part ? left : sizeof part;
        whole = receive_bytes(pipe, part, size);
        text_add_bytes(record, part, whole ? size : 0);
        left -= size;
    }
    if (!whole)
        return "a process that makes sheets ended early";
    if (!head.fault)
        return NULL;
    snprintf(fault, sizeof fault, "%s", text_get(record));
    return fault;
}

static const char *take_all(const struct workers *workers)
{
    const struct work *work = workers->work;
    const char *wrong = NULL;
    bool going = true;
    for (size_t job = 0; job < work->count && going && !wrong; job++) {
        struct text record = {0};
        wrong = receive_record(workers->pipes[job % workers->count], &record);
        signals_let_in(&workers->before); /* what ended the worker may wait for this process too */
        if (!wrong)
            going = work->take(work->with, job, &record);
        text_free(&record);
    }
    return wrong;
}

static void end_workers(const struct workers *workers, unsigned started)
{
    for (unsigned i = 0; i < started; i++)
        close(workers->pipes[i]);
    for (unsigned i = 0; i < started; i++)
        while (waitpid(workers->processes[i], NULL, 0) < 0 && errno == EINTR)
            continue;
}

static const char *run_workers(const struct work *work, unsigned processes, const sigset_t *before)
{
    struct workers workers = {.work = work, .before = *before, .count = processes};
    const char *wrong = NULL;
    unsigned started = 0;
    fflush(NULL);
    while (started < processes && !(wrong = start_worker(&workers, started)))
        started++;
    if (!wrong)
        wrong = take_all(&workers);
    end_workers(&workers, started);
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
