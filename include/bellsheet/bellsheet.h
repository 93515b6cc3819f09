/* bellsheet.h - a plan compiled by another program: open a session, give it files and an editor's buffers, compile, ask,
 * close.
 *
 * A session belongs to one thread at a time; two sessions may be used by two threads at once. Nothing is printed,
 * nothing ends the process, and no signal or locale is touched. Texts and byte arrays that a session hands out are
 * UTF-8, end in a NUL, belong to the session, and live until its next bell_compile or bell_close. Whatever is passed in
 * is copied.
 *
 * A plan that names time zones has their files read as the C library has them: below the folder TZDIR of the environment, or
 * else /usr/share/zoneinfo.
 *
 * All memory of a compile comes from the allocator. GLib and jansson, which the library uses for Unicode, hash tables
 * and JSON, and cairo and Pango, which draw sheets, get theirs from the C library, and end the process when that has no
 * more. */
#ifndef BELLSHEET_BELLSHEET_H
#define BELLSHEET_BELLSHEET_H

#include <stddef.h>

#ifdef __cplusplus
extern "C" {
#endif

#if defined __GNUC__
#define BELL_API __attribute__((visibility("default")))
#else
#define BELL_API
#endif

enum bell_status {
    BELL_OK,
    BELL_NO_MEMORY,    /* the allocator returned NULL */
    BELL_CANCELLED,    /* the cancel callback asked for it */
    BELL_NO_FILE,      /* a file or folder could not be read; bell_failure says which and why */
    BELL_NOT_COMPILED, /* asked before a bell_compile that returned BELL_OK */
    BELL_NOTHING,      /* the plan has nothing to answer with: no such number, nobody of that name, no week */
    BELL_BARRED,       /* of sheets: an error stands in what was asked for */
    BELL_BAD_ARGUMENT  /* NULL where it is not allowed, an invalid date, "-" for a path */
};

struct bell_session;

/* Each may be 0 or NULL. */
struct bell_options {
    const char *share; /* folder with the shelf of exercises, as installed: PREFIX/share/bellsheet; NULL: that one */
    const char *today; /* "2027-03-08": what is dated later does not count yet. NULL: everything counts */

    /* RESIZE works like realloc, with OLD NULL to get memory; it returns NULL when there is none. FREE works like free.
     * Give both or neither; without them the C library's are used. They are called by the thread that calls the
     * library. */
    void *(*resize)(void *memory_context, void *old, size_t size);
    void (*free)(void *memory_context, void *old);
    void *memory_context;

    /* Called about every millisecond of a compile; a result other than 0 ends it. It must not call the library. */
    int (*is_cancelled)(void *cancel_context);
    void *cancel_context;
};

/* Opens a session in *SESSION, which bell_close ends. OPTIONS may be NULL. BELL_NO_MEMORY, BELL_BAD_ARGUMENT. */
BELL_API enum bell_status bell_open(const struct bell_options *options, struct bell_session **session);

/* Frees all that belongs to SESSION, which may be NULL. */
BELL_API void bell_close(struct bell_session *session);

/* Adds a file, or a folder with all plans in and below it, to what is compiled. bell_compile reads it, and later reads
 * again whatever has changed; the shelf is read once a session. BELL_NO_MEMORY, BELL_BAD_ARGUMENT. */
BELL_API enum bell_status bell_add_path(struct bell_session *session, const char *path);

/* Lays LENGTH bytes over the file PATH, which need not exist: they count instead of it until they are replaced or taken
 * away. A file that does not exist is part of the plan if its folder is. VERSION, 0 or more, is handed back with each
 * place in the file. BELL_NO_MEMORY, BELL_BAD_ARGUMENT. */
BELL_API enum bell_status bell_overlay(struct bell_session *session, const char *path, const char *bytes,
                                       size_t length, long version);

/* Takes away what was laid over PATH. BELL_NOTHING: there was nothing. */
BELL_API enum bell_status bell_uncover(struct bell_session *session, const char *path);

/* Reads and checks the plan. Errors in the plan are findings, and BELL_OK is returned. Afterwards all earlier answers
 * of the session are gone, whatever it returns. BELL_NO_MEMORY, BELL_CANCELLED, BELL_NO_FILE. */
BELL_API enum bell_status bell_compile(struct bell_session *session);

/* The path and the cause of the last BELL_NO_FILE, as "PATH: cause"; "" if there was none. */
BELL_API const char *bell_failure(const struct bell_session *session);

/* 1 if errors kept parts of the plan from being understood: then it was not checked against limits. */
BELL_API int bell_is_incomplete(const struct bell_session *session);

/* --- findings --- */

enum bell_severity { BELL_INFO, BELL_WARNING, BELL_ERROR };

/* A stretch of a file. Lines count from 1, columns from 1 in UTF-16 code units, offsets from 0 in bytes after a byte
 * order mark. The end is the first that no longer belongs to it. */
struct bell_place {
    const char *file; /* as it is shown: the path that was added and the rest from there; "shelf/..." */
    const char *path; /* as it was opened */
    long version;     /* of what was laid over it; -1: the file's own bytes */
    unsigned line, column, end_line, end_column;
    size_t start, end;
};

struct bell_note {
    const char *message;
    int placed; /* 1: PLACE is meant */
    struct bell_place place;
};

struct bell_finding {
    const char *id; /* "set-count": share/explain/ID.md explains it */
    enum bell_severity severity;
    struct bell_place place;
    const char *message;
    /* 1: the message is for the coach alone, because it reveals something such as who is hurt and where. It must not go
     * where others read: not to a log, a service or a public report. */
    int for_coach;
    const struct bell_note *notes;
    size_t note_count;
    const char *help;        /* what would correct it, in words; or NULL */
    const char *replacement; /* text that corrects it in place of the bytes of EDIT; NULL: none is known */
    struct bell_place edit;
};

/* All findings, whatever their severity, in the order of files and places. 0 before a compile. */
BELL_API size_t bell_finding_count(const struct bell_session *session);

/* Finding INDEX, from 0; NULL beyond the last. */
BELL_API const struct bell_finding *bell_finding(const struct bell_session *session, size_t index);

/* --- the programme --- */

/* What was understood, as JSON that share/schema/programme-3.schema.json describes. Unless PRIVATE_TOO is 0, it
 * includes body masses, dates of birth, restrictions and what would reveal them. BELL_NO_MEMORY, BELL_CANCELLED,
 * BELL_NOT_COMPILED. */
BELL_API enum bell_status bell_programme(struct bell_session *session, int private_too, const char **json,
                                         size_t *length);

/* What each athlete's weeks add up to, as JSON that share/schema/tally-1.schema.json describes; and unless MARGINS is
 * 0, how far each is from each limit. BELL_NOTHING: no camp has a week. BELL_NO_MEMORY, BELL_CANCELLED,
 * BELL_NOT_COMPILED. */
BELL_API enum bell_status bell_tally(struct bell_session *session, int margins, const char **json, size_t *length);

/* The library's version: "0.1.0". */
BELL_API const char *bell_version(void);

#ifdef __cplusplus
}
#endif

#endif
