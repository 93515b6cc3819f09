#include "base/output.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/arena.h"

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

static const char *write_directly(const char *path, const char *bytes, size_t length)
{
    int file = open(path, O_WRONLY | O_CLOEXEC);
    if (file < 0)
        return strerror(errno);
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

static const char *write_and_rename(int file, char *temporary, const char *path, mode_t mode,
                                    const char *bytes, size_t length)
{
    bool good = write_all(file, bytes, length) && fchmod(file, mode) == 0;
    int cause = errno;
    if (close(file) != 0 && good) {
        good = false;
        cause = errno;
    }
    if (good && rename(temporary, path) != 0) {
        good = false;
        cause = errno;
    }
    if (good)
        return NULL;
    unlink(temporary);
    return strerror(cause);
}

/* By way of a temporary file, which mkstemp makes for its owner alone. */
static const char *write_whole(const char *path, mode_t mode, const char *bytes, size_t length)
{
    size_t size = strlen(path) + sizeof ".XXXXXX";
    char *temporary = memory_get(size);
    snprintf(temporary, size, "%s.XXXXXX", path);
    int file = mkstemp(temporary);
    const char *wrong = file < 0 ? strerror(errno)
                                 : write_and_rename(file, temporary, path, mode, bytes, length);
    free(temporary);
    return wrong;
}

const char *output_write(const char *path, const char *bytes, size_t length)
{
    struct stat there;
    if (stat(path, &there) != 0 || S_ISREG(there.st_mode))
        return write_whole(path, wanted_mode(path), bytes, length);
    if (S_ISDIR(there.st_mode))
        return strerror(EISDIR);
    return write_directly(path, bytes, length);
}

const char *output_write_private(const char *path, const char *bytes, size_t length)
{
    return write_whole(path, OWNER_ALONE, bytes, length);
}

const char *output_make_folder(const char *path, size_t *there)
{
    size_t length = strlen(path), known = path[0] == '/' ? 1 : 0;
    char *part = memory_get(length + 1);
    memcpy(part, path, length + 1);
    const char *wrong = NULL;
    bool made = false;
    for (size_t i = 1; i <= length && !wrong; i++) {
        if (part[i] != '/' && part[i] != '\0')
            continue;
        char kept = part[i];
        part[i] = '\0';
        struct stat about;
        bool fresh = mkdir(part, 0777) == 0;
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
