#include "library/session.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "export/show_programme.h"
#include "export/tally_formats.h"
#include "figures/dates.h"
#include "model/programme.h"
#include "plan/plan_files.h"
#include "resolve/resolve.h"

/* --- entering --- */

/* Separate from its caller, so that no variable lives across the jump. */
static int enter(struct bell_session *session, session_work *work, void *with, enum bell_status *status)
{
    jmp_buf here;
    session->memory.unwind = session->lasting.unwind = &here;
    switch (setjmp(here)) {
    case 0: *status = work(session, with); return 0;
    case UNWIND_CANCELLED: return UNWIND_CANCELLED;
    default: return UNWIND_NO_MEMORY;
    }
}

enum bell_status session_guard(struct bell_session *session, session_work *work, void *with)
{
    enum bell_status status = BELL_OK;
    const struct arena *kept = session->memory.arenas;
    int unwound = enter(session, work, with, &status);
    session->memory.unwind = session->lasting.unwind = NULL;
    if (!unwound)
        return status;
    memory_free(&session->memory, kept);
    return unwound == UNWIND_CANCELLED ? BELL_CANCELLED : BELL_NO_MEMORY;
}

/* --- opening and closing --- */

static void *plain_resize(void *context, void *old, size_t size)
{
    (void)context;
    return realloc(old, size);
}

static void plain_free(void *context, void *old)
{
    (void)context;
    free(old);
}

static bool call_cancel(void *context)
{
    const struct bell_options *options = context;
    return options->is_cancelled(options->cancel_context) != 0;
}

int session_read_day(const char *words)
{
    static const char form[] = "dddd-dd-dd";
    int year, month, day;
    if (strlen(words) != sizeof form - 1)
        return 0;
    for (size_t i = 0; form[i]; i++)
        if (form[i] == '-' ? words[i] != '-' : words[i] < '0' || words[i] > '9')
            return 0;
    return sscanf(words, "%d-%d-%d", &year, &month, &day) == 3 ? date_from_ymd(year, month, day) : 0;
}

struct opened {
    struct bell_session session;
    struct bell_options options;
};

static enum bell_status open_work(struct bell_session *session, void *with)
{
    const struct bell_options *options = with;
    session->arena = arena_open(&session->memory);
    const char *share = options->share ? options->share : BELL_SHARE_DIR;
    session->share = arena_copy(session->arena, share, strlen(share));
    kept_open(&session->kept, &session->lasting);
    session->reach.memory = &session->lasting;
    return BELL_OK;
}

enum bell_status bell_open(const struct bell_options *options, struct bell_session **session)
{
    struct bell_options chosen = options ? *options : (struct bell_options){0};
    if (!session || !chosen.resize != !chosen.free)
        return BELL_BAD_ARGUMENT;
    *session = NULL;
    int today = chosen.today ? session_read_day(chosen.today) : 0;
    if (chosen.today && !today)
        return BELL_BAD_ARGUMENT;
    if (!chosen.resize) {
        chosen.resize = plain_resize;
        chosen.free = plain_free;
    }
    struct opened *opened = chosen.resize(chosen.memory_context, NULL, sizeof *opened);
    if (!opened)
        return BELL_NO_MEMORY;
    *opened = (struct opened){.options = chosen, .session = {.today = today}};
    struct memory *memory = &opened->session.memory;
    memory->by = (struct allocator){chosen.resize, chosen.free, chosen.memory_context};
    memory->is_cancelled = chosen.is_cancelled ? call_cancel : NULL;
    memory->cancel_context = &opened->options;
    opened->session.lasting = *memory;
    enum bell_status status = session_guard(&opened->session, open_work, &opened->options);
    if (status == BELL_OK)
        *session = &opened->session;
    else
        bell_close(&opened->session);
    return status;
}

void bell_close(struct bell_session *session)
{
    if (!session)
        return;
    struct opened *opened = (struct opened *)session;
    const struct allocator by = session->memory.by;
    for (size_t i = 0; i < session->laid_count; i++)
        by.free(by.context, (char *)session->laid[i].text);
    memory_free(&session->memory, NULL);
    memory_free(&session->lasting, NULL);
    by.free(by.context, opened);
}

/* --- what is compiled --- */

static enum bell_status add_path(struct bell_session *session, void *with)
{
    const char *path = with;
    const char *copy = arena_copy(session->arena, path, strlen(path));
    session->paths = arena_grow(session->arena, session->paths, session->path_count, &session->path_capacity,
                                sizeof *session->paths);
    session->paths[session->path_count++] = copy;
    return BELL_OK;
}

enum bell_status bell_add_path(struct bell_session *session, const char *path)
{
    if (!session || !path || !*path || strcmp(path, "-") == 0)
        return BELL_BAD_ARGUMENT;
    return session_guard(session, add_path, (void *)path);
}

/* What is laid over the file at the true path REAL, or NULL. */
static struct overlay *find_laid(const struct bell_session *session, const char *real)
{
    for (size_t i = 0; i < session->laid_count; i++)
        if (strcmp(session->laid[i].path, real) == 0)
            return &session->laid[i];
    return NULL;
}

struct covering {
    const char *path, *bytes;
    size_t length;
    long version;
};

/* Each keystroke brings a text. It is allocated by itself and not in an arena, so that it can be freed when the next
 * one comes. */
static enum bell_status cover(struct bell_session *session, void *with)
{
    const struct covering *covering = with;
    const struct allocator *by = &session->memory.by;
    struct arena *scratch = arena_open(&session->memory);
    const char *real = plan_true_path(scratch, covering->path);
    struct overlay *laid = find_laid(session, real);
    if (!laid) {
        session->laid = arena_grow(session->arena, session->laid, session->laid_count, &session->laid_capacity,
                                   sizeof *session->laid);
        const char *kept = arena_copy(session->arena, real, strlen(real));
        laid = &session->laid[session->laid_count];
        *laid = (struct overlay){.path = kept};
    }
    char *text = by->resize(by->context, NULL, covering->length + 1);
    arena_free(scratch);
    if (!text)
        return BELL_NO_MEMORY;
    if (covering->length)
        memcpy(text, covering->bytes, covering->length);
    text[covering->length] = '\0';
    if (laid->text)
        by->free(by->context, (char *)laid->text);
    else
        session->laid_count++;
    laid->text = text;
    laid->length = covering->length;
    laid->version = covering->version;
    return BELL_OK;
}

enum bell_status bell_overlay(struct bell_session *session, const char *path, const char *bytes, size_t length,
                              long version)
{
    if (!session || !path || !*path || (!bytes && length) || version < 0)
        return BELL_BAD_ARGUMENT;
    return session_guard(session, cover, &(struct covering){path, bytes, length, version});
}

static enum bell_status uncover(struct bell_session *session, void *with)
{
    const struct allocator *by = &session->memory.by;
    struct arena *scratch = arena_open(&session->memory);
    struct overlay *laid = find_laid(session, plan_true_path(scratch, with));
    arena_free(scratch);
    if (!laid)
        return BELL_NOTHING;
    by->free(by->context, (char *)laid->text);
    *laid = session->laid[--session->laid_count];
    return BELL_OK;
}

enum bell_status bell_uncover(struct bell_session *session, const char *path)
{
    if (!session || !path || !*path)
        return BELL_BAD_ARGUMENT;
    return session_guard(session, uncover, (void *)path);
}

/* --- compiling --- */

struct project_request session_request(const struct bell_session *session)
{
    return (struct project_request){.share = session->share,
                                    .paths = session->paths,
                                    .path_count = session->path_count,
                                    .overlays = session->laid,
                                    .overlay_count = session->laid_count,
                                    .today = session->today,
                                    .wish = PLAN_NEEDED};
}

static enum bell_status compile(struct bell_session *session, void *with)
{
    (void)with;
    struct arena *arena = session->compile = arena_open(&session->memory);
    struct project *project = &session->project;
    struct project_request request = session_request(session);
    request.kept = &session->kept;
    if (!project_read(project, arena, &request)) {
        snprintf(session->failure, sizeof session->failure, "%s: %s", project->failure.path, project->failure.why);
        return BELL_NO_FILE;
    }
    reach_compile(&session->reach, project, session->today, &session->whole);
    return BELL_OK;
}

static enum bell_status list_findings(struct bell_session *session, void *with)
{
    (void)with;
    session_list_findings(session);
    return BELL_OK;
}

static void forget(struct bell_session *session)
{
    arena_free(session->compile);
    session->compile = NULL;
    session->compiled = false;
    session->findings = NULL;
    session->finding_count = 0;
}

enum bell_status session_compile(struct bell_session *session)
{
    if (!session || !session->path_count)
        return BELL_BAD_ARGUMENT;
    forget(session);
    *session->failure = '\0';
    enum bell_status status = session_guard(session, compile, NULL);
    if (status == BELL_NO_MEMORY || status == BELL_CANCELLED)
        session->compile = NULL; /* freed by the unwinding */
    else if (status != BELL_OK)
        forget(session);
    session->compiled = status == BELL_OK;
    return status;
}

enum bell_status bell_compile(struct bell_session *session)
{
    enum bell_status status = session_compile(session);
    if (status != BELL_OK)
        return status;
    status = session_guard(session, list_findings, NULL);
    if (status != BELL_OK)
        forget(session);
    return status;
}

const char *bell_failure(const struct bell_session *session)
{
    return session ? session->failure : "";
}

int bell_is_incomplete(const struct bell_session *session)
{
    return session && session->compiled && session->project.programme->incomplete;
}

size_t bell_finding_count(const struct bell_session *session)
{
    return session ? session->finding_count : 0;
}

const struct bell_finding *bell_finding(const struct bell_session *session, size_t index)
{
    return index < bell_finding_count(session) ? &session->findings[index] : NULL;
}

/* --- the programme --- */

/* What was left out of it is worked out on request, even after findings were given out. */
const struct programme *session_programme(struct bell_session *session)
{
    struct project *project = &session->project;
    if (!session->compiled || session->whole)
        return session->compiled ? project->programme : NULL;
    struct diag *again = diag_new(session->compile, &project->sources);
    struct programme *programme = programme_resolve(session->compile, &project->sources, project->trees,
                                                    project->tree_count, session->today, again);
    programme->incomplete = project->programme->incomplete;
    programme->unclear = project->programme->unclear;
    project->programme = programme;
    session->whole = true;
    return programme;
}

struct answer {
    bool more; /* what is private, or margins */
    struct text text;
};

static enum bell_status make_programme(struct bell_session *session, void *with)
{
    struct answer *answer = with;
    const struct programme *programme = session_programme(session);
    const struct occasion **all = arena_alloc(session->compile, (programme->occasion_count + 1) * sizeof *all);
    for (size_t i = 0; i < programme->occasion_count; i++)
        all[i] = &programme->occasions[i];
    const struct programme_view view = {.programme = programme,
                                        .arena = session->compile,
                                        .occasions = all,
                                        .count = programme->occasion_count,
                                        .version = BELL_VERSION,
                                        .lines = true,
                                        .ledgers = true,
                                        .private = answer->more};
    programme_json(&view, &answer->text);
    return BELL_OK;
}

static enum bell_status make_tally(struct bell_session *session, void *with)
{
    struct answer *answer = with;
    const struct tally_view view = {.programme = session_programme(session),
                                    .arena = session->compile,
                                    .counted = COUNTED_NONE,
                                    .margin = answer->more,
                                    .version = BELL_VERSION};
    return tally_json(&view, &answer->text) ? BELL_OK : BELL_NOTHING;
}

static enum bell_status ask(struct bell_session *session, session_work *work, int more, const char **json,
                            size_t *length)
{
    if (!session || !json || !length)
        return BELL_BAD_ARGUMENT;
    if (!session->compiled)
        return BELL_NOT_COMPILED;
    struct answer answer = {.more = more != 0, .text = {.arena = session->compile}};
    enum bell_status status = session_guard(session, work, &answer);
    *json = status == BELL_OK ? text_get(&answer.text) : NULL;
    *length = status == BELL_OK ? answer.text.length : 0;
    return status;
}

enum bell_status bell_programme(struct bell_session *session, int private_too, const char **json, size_t *length)
{
    return ask(session, make_programme, private_too, json, length);
}

enum bell_status bell_tally(struct bell_session *session, int margins, const char **json, size_t *length)
{
    return ask(session, make_tally, margins, json, length);
}

const char *bell_version(void)
{
    return BELL_VERSION;
}
