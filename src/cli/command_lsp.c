/* command_lsp.c - the language server between an editor's two pipes. */
#define _XOPEN_SOURCE 700

#include <errno.h>
#include <poll.h>
#include <stdio.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

#include "cli/commands.h"
#include "cli/project.h"
#include "cli/tell.h"
#include "figures/dates.h"
#include "lsp/lsp.h"

enum { CHUNK = 64 * 1024 /* bytes */ };

static void write_all(void *with, const char *bytes, size_t length)
{
    (void)with;
    fwrite(bytes, 1, length, stdout);
    fflush(stdout);
}

/* Is there input, or its end? Waits for it if PATIENT. */
static bool has_input(bool patient)
{
    struct pollfd input = {.fd = STDIN_FILENO, .events = POLLIN};
    return poll(&input, 1, patient ? -1 : 0) != 0;
}

/* Reads what has come. False: that was all, or *FAILED: it cannot be read, which is reported. */
static bool take_input(struct lsp *lsp, bool *failed)
{
    char bytes[CHUNK];
    ssize_t length = read(STDIN_FILENO, bytes, sizeof bytes);
    if (length < 0 && (errno == EINTR || errno == EAGAIN))
        return true;
    *failed = length < 0;
    if (*failed)
        tell_error("<standard input>: %s", strerror(errno));
    if (length > 0)
        lsp_feed(lsp, bytes, (size_t)length);
    return length > 0;
}

/* The machine's day may have changed; a day that was given does not. */
static void look_at_clock(struct lsp *lsp, const struct options *options)
{
    time_t now = time(NULL);
    struct tm local;
    char today[DATE_TEXT_SIZE];
    if (!options->dated && localtime_r(&now, &local))
        lsp_set_today(lsp, date_format(date_from_ymd(local.tm_year + 1900, local.tm_mon + 1, local.tm_mday), today));
}

/* Everything that has come is read before any of it is answered, so that outdated requests are known. */
static int serve(struct lsp *lsp, const struct options *options)
{
    int status;
    bool more = true, failed = false;
    while (!lsp_has_ended(lsp, &status)) {
        bool busy = lsp_step(lsp);
        if (!busy && more && !has_input(false))
            lsp_settle(lsp);
        if (!busy && !more)
            return failed ? EXIT_COULD_NOT : lsp_end_status(lsp);
        while (more && has_input(!busy)) {
            more = take_input(lsp, &failed);
            busy = true;
        }
        look_at_clock(lsp, options);
    }
    return status;
}

int command_lsp(const struct options *options)
{
    static const char *const all[] = {"/"};
    struct arena *arena = arena_new();
    const char *share = share_folder(arena);
    if (options->path_count || !share) {
        tell_error(share ? "lsp takes no files: an editor says which" : BELL_SHARE_DIR ": the shelf is not installed here");
        arena_free(arena);
        return EXIT_COULD_NOT;
    }
    /* The server changes no file; editors do. */
    confine(options, &(struct sandbox){.reads = all, .read_count = 1});
    char today[DATE_TEXT_SIZE];
    const struct lsp_host host = {.share = share,
                                  .today = date_format(options->today, today),
                                  .version = BELL_VERSION,
                                  .write = write_all};
    struct lsp *lsp = lsp_open(&host);
    int status = serve(lsp, options);
    lsp_close(lsp);
    arena_free(arena);
    return status;
}
