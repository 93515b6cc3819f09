/* club.h - the documents that are open, and the plans that they belong to.
 *
 * * The club of a file is the topmost folder inside the workspace that itself contains plans. Without a workspace it
 * is the topmost folder above the file that can be reached through folders with plans, never above a home folder or
 * the root of a version control. A file outside the workspace is a plan of its own, and so is a document that is not
 * a file. */
#ifndef BELL_LSP_CLUB_H
#define BELL_LSP_CLUB_H

#include <glib.h>
#include <stdbool.h>

#include "library/session.h"

/* How a file of the last compile is shown to the client; made when it is first asked for. */
struct shown_file {
    const struct page *page;
    const char *uri; /* of its path */
};

struct club {
    char *root;      /* the folder, or the only file */
    bool lone;       /* it is a file */
    struct bell_session *session;
    char *edited;    /* the path of the document that was edited last, or NULL */
    bool stale;      /* something changed since it was compiled */
    bool loaded;     /* the last compile came to an end */
    bool unpublished;  /* the last compile has not been published yet */
    bool asks_again; /* what the client asked for has changed since then */
    bool dropped;    /* its documents belong to others now */
    GHashTable *published; /* URIs that findings were published for, each with a hash of them */
    unsigned revision; /* counts compiles */
    struct arena *arena; /* what was worked out from the last compile */
    struct index *index; /* its names, or NULL (index.h) */
    struct margins *margins; /* or NULL */
    struct shown_file *files; /* by number, see focus.c */
};

struct document {
    char *uri;
    char *path;      /* as the URI has it; for what is not a file, a name that no file can have */
    char *real;      /* its true path */
    char *text;
    size_t length, capacity;
    long long version;
    bool versioned;
    uint64_t asked_for; /* hash of the findings that the client last asked for */
    bool changed;    /* since it was laid over the file */
    struct club *club;
};

struct workspace {
    const char *share, *today;
    GPtrArray *folders; /* paths */
    GPtrArray *documents, *clubs;
};

void workspace_open(struct workspace *workspace, const char *share, const char *today);
void workspace_close(struct workspace *workspace);

/* From now on the day is TODAY, which must outlive WORKSPACE. */
void workspace_set_today(struct workspace *workspace, const char *today);

void workspace_add_folder(struct workspace *workspace, const char *path);
void workspace_remove_folder(struct workspace *workspace, const char *path);
/* Works out again to which club each document belongs, because folders or files came or went. */
void workspace_sort(struct workspace *workspace);

struct document *workspace_find(const struct workspace *workspace, const char *uri);
/* Opens a document of LENGTH bytes. If one with that URI is open already, it is closed first. */
struct document *workspace_add(struct workspace *workspace, const char *uri, const char *text, size_t length);
void workspace_remove(struct workspace *workspace, struct document *document);

/* Puts LENGTH bytes in place of those from START to END. */
void document_splice(struct document *document, size_t start, size_t end, const char *text, size_t length);

/* Brings CLUB up to date; false if it cannot be read, and bell_failure then says why. */
bool club_refresh(struct workspace *workspace, struct club *club);

/* What CLUB's plan means, with everybody's sessions. The project's own programme may be without those of athletes
 * whom the last change did not reach. */
const struct programme *club_programme(const struct club *club);

/* Is a document of CLUB open? */
bool club_is_open(const struct workspace *workspace, const struct club *club);

/* The open document of a file of CLUB, or NULL. */
struct document *club_document(const struct workspace *workspace, const struct club *club, const struct source *source);

/* The index of DOCUMENT's source in its club's plan, or -1. */
int document_file(const struct workspace *workspace, const struct document *document);

#endif
