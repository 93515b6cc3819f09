/* club.h - the documents that are open, and the plans that they belong to.
 *
 * The club of a file is the topmost folder inside the workspace that itself holds plans; without a workspace, the topmost
 * one above the file that can be reached through folders that hold some, never past a home or the root of a version
 * control. A file that lies outside the workspace, and what is no file, is a plan of its own. */
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
    bool stale;      /* something changed since it was compiled */
    bool loaded;     /* the last compile came to an end */
    bool unpublished;  /* what was compiled last is not told yet */
    bool asks_again; /* what the client asked for has changed since */
    bool dropped;    /* its documents belong to others now */
    GHashTable *published; /* URIs that findings were published for, each with a hash of them */
    unsigned revision; /* counts compiles */
    struct arena *arena; /* what was worked out of the last compile */
    struct index *index; /* its names, or NULL (index.h) */
    struct margins *margins; /* or NULL */
    struct shown_file *files; /* by number, see focus.c */
};

struct document {
    char *uri;
    char *path;      /* as the URI has it; of what is no file, a name that no file can have */
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

/* From now on TODAY, which must outlive WORKSPACE, is the day. */
void workspace_set_today(struct workspace *workspace, const char *today);

void workspace_add_folder(struct workspace *workspace, const char *path);
void workspace_remove_folder(struct workspace *workspace, const char *path);
/* Asks anew to which club each document belongs: folders or files came or went. */
void workspace_sort(struct workspace *workspace);

struct document *workspace_find(const struct workspace *workspace, const char *uri);
/* Opens a document of LENGTH bytes. One of that URI that is open already is closed first. */
struct document *workspace_add(struct workspace *workspace, const char *uri, const char *text, size_t length);
void workspace_remove(struct workspace *workspace, struct document *document);

/* Puts LENGTH bytes in place of those from START to END. */
void document_splice(struct document *document, size_t start, size_t end, const char *text, size_t length);

/* Brings CLUB up to date; false where it cannot be read, and bell_failure then says why. */
bool club_refresh(struct workspace *workspace, struct club *club);

/* What CLUB's plan means, with everybody's sessions. The project's own programme may lack those of athletes whom the last
 * change did not reach. */
const struct programme *club_programme(const struct club *club);

/* Is a document of CLUB open? */
bool club_is_open(const struct workspace *workspace, const struct club *club);

/* The open document that a file of CLUB is, or NULL. */
struct document *club_document(const struct workspace *workspace, const struct club *club, const struct source *source);

/* The index of DOCUMENT's source in its club's plan, or -1. */
int document_file(const struct workspace *workspace, const struct document *document);

#endif
