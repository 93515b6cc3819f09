/* Preloaded into bellsheet: writes into the file POWER_LOG what it asks of files below the folder POWER_FOLDER, one step a
 * line: "create NUMBER PATH", "write NUMBER LENGTH" and the bytes, "sync NUMBER", "folder PATH", "rename PATH PATH",
 * "unlink PATH", "mkdir PATH". Paths have no spaces. A file that is opened for writing is created, too. */
#define _GNU_SOURCE

#include <dlfcn.h>
#include <fcntl.h>
#include <limits.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <unistd.h>

enum { MOST_FILES = 1024 };

static int log_file = -1, made;
static int number_of[MOST_FILES]; /* by descriptor; 0 is none of ours */

#define REAL(name) ((__typeof__(&name))dlsym(RTLD_NEXT, #name))

__attribute__((constructor)) static void start(void)
{
    log_file = (int)syscall(SYS_openat, AT_FDCWD, getenv("POWER_LOG"), O_CREAT | O_WRONLY | O_TRUNC | O_CLOEXEC, 0600);
}

static void put(const void *bytes, size_t length)
{
    if (syscall(SYS_write, log_file, bytes, length) != (long)length)
        abort();
}

static void note(const char *format, ...)
{
    char line[2 * PATH_MAX + 32];
    va_list args;
    va_start(args, format);
    int length = vsnprintf(line, sizeof line, format, args);
    va_end(args);
    put(line, (size_t)length);
}

/* Both spellings of a path must be one name. */
static int is_ours(const char *path)
{
    const char *folder = getenv("POWER_FOLDER");
    return strncmp(path, folder, strlen(folder)) == 0;
}

static void created(int file, const char *path)
{
    if (file < 0 || file >= MOST_FILES || !is_ours(path))
        return;
    number_of[file] = ++made;
    note("create %d %s\n", made, path);
}

int open(const char *path, int flags, ...)
{
    va_list args;
    va_start(args, flags);
    mode_t mode = flags & O_CREAT ? va_arg(args, mode_t) : 0;
    va_end(args);
    int file = REAL(open)(path, flags, mode);
    if (!(flags & O_PATH) && (flags & O_ACCMODE) != O_RDONLY)
        created(file, path);
    return file;
}

int mkstemp(char *path)
{
    int file = REAL(mkstemp)(path);
    created(file, path);
    return file;
}

ssize_t write(int file, const void *bytes, size_t length)
{
    ssize_t n = REAL(write)(file, bytes, length);
    if (file >= 0 && file < MOST_FILES && number_of[file] && n > 0) {
        note("write %d %zd\n", number_of[file], n);
        put(bytes, (size_t)n);
    }
    return n;
}

int fsync(int file)
{
    char link[64], path[PATH_MAX];
    int status = REAL(fsync)(file);
    if (file >= 0 && file < MOST_FILES && number_of[file]) {
        note("sync %d\n", number_of[file]);
        return status;
    }
    snprintf(link, sizeof link, "/proc/self/fd/%d", file);
    ssize_t length = readlink(link, path, sizeof path - 1);
    if (length > 0) {
        path[length] = '\0';
        note("folder %s\n", path);
    }
    return status;
}

int close(int file)
{
    if (file >= 0 && file < MOST_FILES)
        number_of[file] = 0;
    return REAL(close)(file);
}

int rename(const char *from, const char *to)
{
    int status = REAL(rename)(from, to);
    if (status == 0 && is_ours(to))
        note("rename %s %s\n", from, to);
    return status;
}

int unlink(const char *path)
{
    int status = REAL(unlink)(path);
    if (status == 0 && is_ours(path))
        note("unlink %s\n", path);
    return status;
}

int mkdir(const char *path, mode_t mode)
{
    int status = REAL(mkdir)(path, mode);
    if (status == 0 && is_ours(path))
        note("mkdir %s\n", path);
    return status;
}
