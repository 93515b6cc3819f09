#define _DEFAULT_SOURCE /* flock */

#include "base/output.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/arena.h"
#include "base/signals.h"

static bool write_all(int file, const char *bytes, size_t length)
{
    while (length) {
        ssize_t n = write(file, bytes, length);
        if (n < 0 && errno == EINTR)
            continue;
        if (n < 0)
            return false;
        if (n == 0) {
            errno = EIO;
            return false;
        }
        bytes += n;
        length -= (size_t)n;
    }
    return true;
}

/* A pipe that nobody reads from is not waited for. */
static const char *write_directly(const char *path, const char *bytes, size_t length)
{
    int file = open(path, O_WRONLY | O_NONBLOCK | O_CLOEXEC);
    if (file < 0)
        return strerror(errno);
    fcntl(file, F_SETFL, fcntl(file, F_GETFL) & ~O_NONBLOCK);
    bool written = write_all(file, bytes, length);
    int cause = errno;
    if (close(file) != 0 && written)
        return strerror(errno);
    return written ? NULL : strerror(cause);
}

enum { OWNER_ALONE = 0600 };

/* The permissions a new file gets: those of the file it replaces, or what the umask leaves. */
static mode_t wanted_mode(const char *path)
{
    struct stat now;
    if (stat(path, &now) == 0)
        return now.st_mode & 0777;
    mode_t mask = umask(0);
    umask(mask);
    return 0666 & ~mask;
}

/* --- temporary files --- */

/* Begins the names of all of them, so that a later run recognises what a killed one left; it reveals nothing about the
 * contents. */
static const char temporary_prefix[] = ".bellsheet-";
enum { RANDOM_LENGTH = 6, MOST_TRIES = 100 };

/* A new file beside PATH, for its owner alone and with a lock on it, whose name is put into TEMPORARY. -1 if that
 * fails. If output_sweep took it for an abandoned one before it was locked, it is made again. */
static int open_temporary(const char *path, char *temporary, size_t size)
{
    const char *slash = strrchr(path, '/');
    int folder = slash ? (int)(slash - path + 1) : 0;
    struct stat about;
    for (int tries = 0; tries < MOST_TRIES; tries++) {
        snprintf(temporary, size, "%.*s%sXXXXXX", folder, path, temporary_prefix);
        int file = mkstemp(temporary);
        if (file < 0)
            return -1;
        flock(file, LOCK_EX); /* where files cannot be locked, none is swept away either */
        if (fstat(file, &about) != 0 || about.st_nlink)
            return file;
        close(file);
    }
    errno = EBUSY;
    return -1;
}

/* Makes the disk take what it has been given of FILE. Some file systems cannot, and have nothing to wait for. */
static bool has_landed(int file)
{
    return fsync(file) == 0 || errno == EINVAL || errno == ENOTSUP || errno == EROFS;
}

/* A name that was given in the folder of PATH has landed. Who may write there without reading it cannot wait for that. */
static bool has_name_landed(const char *path)
{
    const char *slash = strrchr(path, '/');
    size_t length = slash ? (size_t)(slash - path + 1) : 1;
    char *name = memory_get(length + 1);
    memcpy(name, slash ? path : ".", length);
    name[length] = '\0';
    int folder = open(name, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    free(name);
    if (folder < 0)
        return errno == EACCES;
    bool landed = has_landed(folder);
    int cause = errno;
    close(folder);
    errno = cause;
    return landed;
}

/* How a file is written. */
struct manner {
    mode_t mode;
    bool keep; /* through a loss of power */
};

/* Fills FILE, which is still called TEMPORARY, and closes it before it gets its name, because only then does a remote disk
 * report that it is full. */
static bool fill_and_close(int file, struct manner manner, const char *bytes, size_t length)
{
    bool good = write_all(file, bytes, length) && fchmod(file, manner.mode) == 0 && (!manner.keep || has_landed(file));
    int cause = errno;
    if (close(file) != 0 && good)
        return false;
    errno = cause;
    return good;
}

/* Keeps the lock of FILE until it has its name. */
static const char *write_and_rename(int file, char *temporary, const char *path, struct manner manner,
                                    const char *bytes, size_t length)
{
    int locked = dup(file), cause = errno;
    bool good = fill_and_close(file, manner, bytes, length) && locked >= 0;
    cause = locked < 0 ? cause : errno;
    if (good && rename(temporary, path) != 0) {
        good = false;
        cause = errno;
    }
    if (!good)
        unlink(temporary);
    if (locked >= 0)
        close(locked);
    if (good && manner.keep && !has_name_landed(path))
        return strerror(errno);
    return good ? NULL : strerror(cause);
}

static const char *write_whole(const char *path, struct manner manner, const char *bytes, size_t length)
{
    size_t size = strlen(path) + sizeof temporary_prefix + RANDOM_LENGTH;
    char *temporary = memory_get(size);
    sigset_t before;
    signals_hold(&before);
    int file = open_temporary(path, temporary, size);
    const char *wrong = file < 0 ? strerror(errno)
                                 : write_and_rename(file, temporary, path, manner, bytes, length);
    signals_release(&before);
    free(temporary);
    return wrong;
}

/* Removes NAME from the open FOLDER where it is a temporary file that nobody is writing. */
static void sweep(int folder, const char *name)
{
    size_t prefix = sizeof temporary_prefix - 1;
    if (strncmp(name, temporary_prefix, prefix) != 0 || strlen(name) != prefix + RANDOM_LENGTH)
        return;
    struct stat about;
    int file = openat(folder, name, O_RDONLY | O_NONBLOCK | O_NOFOLLOW | O_CLOEXEC);
    if (file < 0)
        return;
    if (fstat(file, &about) == 0 && S_ISREG(about.st_mode) && flock(file, LOCK_EX | LOCK_NB) == 0)
        unlinkat(folder, name, 0); /* while it is locked: whoever made it just now makes another */
    close(file);
}

void output_sweep(const char *path)
{
    DIR *folder = opendir(path);
    if (!folder)
        return;
    for (struct dirent *entry; (entry = readdir(folder)) != NULL;)
        sweep(dirfd(folder), entry->d_name);
    closedir(folder);
}

static void sweep_beside(const char *path)
{
    const char *slash = strrchr(path, '/');
    char *folder = memory_get(strlen(path) + 2);
    snprintf(folder, strlen(path) + 2, "%.*s", slash ? (int)(slash - path + 1) : 1, slash ? path : ".");
    output_sweep(folder);
    free(folder);
}

static const char *write_to(const char *path, bool keep, const char *bytes, size_t length)
{
    struct stat there;
    bool is_there = stat(path, &there) == 0;
    if (!is_there || S_ISREG(there.st_mode)) {
        if (keep && is_there && !(there.st_mode & (S_IWUSR | S_IWGRP | S_IWOTH)))
            return "this file is write-protected, so nothing is written to it";
        if (keep)
            sweep_beside(path);
        return write_whole(path, (struct manner){wanted_mode(path), keep}, bytes, length);
    }
    if (S_ISDIR(there.st_mode))
        return strerror(EISDIR);
    return write_directly(path, bytes, length);
}

const char *output_write(const char *path, const char *bytes, size_t length)
{
    return write_to(path, false, bytes, length);
}

const char *output_keep(const char *path, const char *bytes, size_t length)
{
    return write_to(path, true, bytes, length);
}

const char *output_write_private(const char *path, const char *bytes, size_t length)
{
    return write_whole(path, (struct manner){OWNER_ALONE, false}, bytes, length);
}

const char *output_keep_private(const char *path, const char *bytes, size_t length)
{
    sweep_beside(path);
    return write_whole(path, (struct manner){OWNER_ALONE, true}, bytes, length);
}

const char *output_keep_name(const char *path)
{
    return has_name_landed(path) ? NULL : strerror(errno);
}

const char *output_make_folder(const char *path, mode_t mode, size_t *there)
{
    size_t length = strlen(path), known = path[0] == '/' ? 1 : 0;
    char *part = memory_get(length + 1);
    memcpy(part, path, length + 1);
    const char *wrong = length ? NULL : strerror(ENOENT); /* a file in it would be at the root */
    bool made = false;
    for (size_t i = 1; i <= length && !wrong; i++) {
        if (part[i] != '/' && part[i] != '\0')
            continue;
        char kept = part[i];
        part[i] = '\0';
        struct stat about;
        bool fresh = mkdir(part, mode) == 0;
        if (!fresh && errno != EEXIST)
            wrong = strerror(errno);
        else if (stat(part, &about) != 0)
            wrong = strerror(errno);
        else if (!S_ISDIR(about.st_mode))
            wrong = strerror(ENOTDIR);
        made = made || fresh;
        known = made ? known : i;
        part[i] = kept;
    }
    if (there)
        *there = known;
    free(part);
    return wrong;
}

void output_drop_folder(const char *path, size_t there)
{
    size_t length = strlen(path);
    char *part = memory_get(length + 1);
    memcpy(part, path, length + 1);
    while (length > there && rmdir(part) == 0) {
        while (length > there && part[length - 1] == '/')
            length--;
        while (length > there && part[length - 1] != '/')
            length--;
        while (length > there && part[length - 1] == '/')
            length--;
        part[length] = '\0';
    }
    free(part);
}
