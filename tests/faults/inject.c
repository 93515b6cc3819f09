/* Preloaded into bellsheet: lets the Nth call of a kind fail, once, or sends a signal to all of its process group there.
 *
 *   FAULT_KIND  memory: any allocation, of the program or of its libraries; the program's malloc asks the C library by
 *               the names that stand here
 *               files: open, read, write, close, rename and the rest that a file needs, called by the program
 *               or the name of one call, called by the program: poll, waitpid, write, ...
 *   FAULT_ERRNO how it fails, as a number; otherwise for want of memory, or with an error of the disk
 *   FAULT_SIGNAL  the number of a signal: the call is made, and the signal sent before it
 *   FAULT_AT    N, from 1
 *   FAULT_LOG   a file that gets a byte when the Nth call is reached; without FAULT_AT, at the end how many calls there were */
#define _GNU_SOURCE

#include <dirent.h>
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <malloc.h>
#include <poll.h>
#include <signal.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/inotify.h>
#include <sys/mman.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <sys/wait.h>
#include <unistd.h>

/* KIND_OTHER: what fails only where it is named. */
enum kind { KIND_NONE, KIND_MEMORY, KIND_FILES, KIND_OTHER };

static enum kind kind;
static const char *only; /* the one call that fails */
static int cause;        /* or 0 */
static long left, met;
static int sent; /* the signal, or 0 */
static pid_t first; /* the process that was started, not those that it starts */
static int log_file = -1; /* opened at the start: the program confines itself later */

__attribute__((constructor)) static void start(void)
{
    const char *name = getenv("FAULT_KIND"), *at = getenv("FAULT_AT"), *signal = getenv("FAULT_SIGNAL");
    const char *path = getenv("FAULT_LOG");
    if (path)
        log_file = open(path, O_CREAT | O_WRONLY | O_CLOEXEC, 0666);
    first = getpid();
    left = at ? atol(at) : 0;
    sent = signal ? atoi(signal) : 0;
    cause = getenv("FAULT_ERRNO") ? atoi(getenv("FAULT_ERRNO")) : 0;
    if (name && strcmp(name, "memory") == 0)
        kind = KIND_MEMORY;
    else if (name && strcmp(name, "files") == 0)
        kind = KIND_FILES;
    else
        only = name;
}

__attribute__((destructor)) static void end(void)
{
    if ((kind != KIND_NONE || only) && !getenv("FAULT_AT") && getpid() == first)
        dprintf(log_file, "%ld\n", met);
}

/* The program, or what it loads to print. */
static int from_program(const void *caller)
{
    Dl_info about;
    const char *slash = dladdr(caller, &about) ? strrchr(about.dli_fname, '/') : NULL;
    return slash && strstr(slash, "bellsheet") != NULL;
}

/* Is this call NAME, which is OF a kind, the one that fails? */
static int fails(enum kind of, const char *name, const void *caller)
{
    int meant = only ? strcmp(only, name) == 0 : kind == of;
    if (!meant || (of != KIND_MEMORY && !from_program(caller)))
        return 0;
    met++;
    if (left <= 0 || --left)
        return 0;
    if (log_file >= 0 && syscall(SYS_write, log_file, "!", 1) != 1)
        abort();
    if (sent) {
        kill(0, sent);
        return 0;
    }
    errno = cause ? cause : of == KIND_MEMORY ? ENOMEM : EIO;
    return 1;
}

#define CALLER __builtin_return_address(0)
#define REAL(name) ((__typeof__(&name))dlsym(RTLD_NEXT, #name))

/* What is left to have memory from, where those above are taken. */
void *__libc_memalign(size_t alignment, size_t size);

void *__libc_malloc(size_t size)
{
    return fails(KIND_MEMORY, __func__, CALLER) ? NULL : __libc_memalign(16, size);
}

void *__libc_calloc(size_t count, size_t size)
{
    size_t whole;
    if (__builtin_mul_overflow(count, size, &whole) || fails(KIND_MEMORY, __func__, CALLER))
        return NULL;
    void *memory = __libc_memalign(16, whole);
    return memory ? memset(memory, 0, whole) : NULL;
}

void *__libc_realloc(void *old, size_t size)
{
    if (fails(KIND_MEMORY, __func__, CALLER))
        return NULL;
    void *memory = __libc_memalign(16, size ? size : 1);
    size_t had = old ? malloc_usable_size(old) : 0;
    if (memory && old) {
        memcpy(memory, old, had < size ? had : size);
        free(old);
    }
    return memory;
}

int open(const char *path, int flags, ...)
{
    va_list args;
    va_start(args, flags);
    mode_t mode = flags & O_CREAT ? va_arg(args, mode_t) : 0;
    va_end(args);
    return fails(KIND_FILES, __func__, CALLER) ? -1 : REAL(open)(path, flags, mode);
}

ssize_t read(int file, void *bytes, size_t length)
{
    return fails(KIND_FILES, __func__, CALLER) ? -1 : REAL(read)(file, bytes, length);
}

ssize_t write(int file, const void *bytes, size_t length)
{
    return fails(KIND_FILES, __func__, CALLER) ? -1 : REAL(write)(file, bytes, length);
}

/* The file is closed, as it is where close reports what could not be written. */
int close(int file)
{
    int failed = fails(KIND_FILES, __func__, CALLER), status = REAL(close)(file);
    if (failed)
        errno = EIO;
    return failed ? -1 : status;
}

int rename(const char *from, const char *to)
{
    return fails(KIND_FILES, __func__, CALLER) ? -1 : REAL(rename)(from, to);
}

int mkstemp(char *name)
{
    return fails(KIND_FILES, __func__, CALLER) ? -1 : REAL(mkstemp)(name);
}

int fchmod(int file, mode_t mode)
{
    return fails(KIND_FILES, __func__, CALLER) ? -1 : REAL(fchmod)(file, mode);
}

int fsync(int file)
{
    return fails(KIND_FILES, __func__, CALLER) ? -1 : REAL(fsync)(file);
}

int mkdir(const char *path, mode_t mode)
{
    return fails(KIND_FILES, __func__, CALLER) ? -1 : REAL(mkdir)(path, mode);
}

DIR *opendir(const char *path)
{
    return fails(KIND_FILES, __func__, CALLER) ? NULL : REAL(opendir)(path);
}

int pipe(int ends[2])
{
    return fails(KIND_FILES, __func__, CALLER) ? -1 : REAL(pipe)(ends);
}

pid_t fork(void)
{
    return fails(KIND_FILES, __func__, CALLER) ? -1 : REAL(fork)();
}

int poll(struct pollfd *files, nfds_t count, int milliseconds)
{
    return fails(KIND_OTHER, __func__, CALLER) ? -1 : REAL(poll)(files, count, milliseconds);
}

/* What a checked copy of the two is called. */
int __poll_chk(struct pollfd *files, nfds_t count, int milliseconds, size_t size);
ssize_t __read_chk(int file, void *bytes, size_t length, size_t size);

int __poll_chk(struct pollfd *files, nfds_t count, int milliseconds, size_t size)
{
    return fails(KIND_OTHER, "poll", CALLER) ? -1 : REAL(__poll_chk)(files, count, milliseconds, size);
}

ssize_t __read_chk(int file, void *bytes, size_t length, size_t size)
{
    return fails(KIND_FILES, "read", CALLER) ? -1 : REAL(__read_chk)(file, bytes, length, size);
}

int inotify_init1(int flags)
{
    return fails(KIND_OTHER, __func__, CALLER) ? -1 : REAL(inotify_init1)(flags);
}

pid_t waitpid(pid_t process, int *status, int options)
{
    return fails(KIND_OTHER, __func__, CALLER) ? -1 : REAL(waitpid)(process, status, options);
}

void *mmap(void *at, size_t length, int protection, int flags, int file, off_t offset)
{
    /* A build that counts what the tests reach has the file of its counts mapped. */
    return file < 0 && fails(KIND_OTHER, __func__, CALLER) ? MAP_FAILED : REAL(mmap)(at, length, protection, flags, file, offset);
}

int dup(int file)
{
    return fails(KIND_OTHER, __func__, CALLER) ? -1 : REAL(dup)(file);
}

off_t lseek(int file, off_t offset, int whence)
{
    return fails(KIND_OTHER, __func__, CALLER) ? -1 : REAL(lseek)(file, offset, whence);
}

FILE *tmpfile(void)
{
    return fails(KIND_OTHER, __func__, CALLER) ? NULL : REAL(tmpfile)();
}

int unlink(const char *path)
{
    return fails(KIND_OTHER, __func__, CALLER) ? -1 : REAL(unlink)(path);
}

int access(const char *path, int mode)
{
    return fails(KIND_OTHER, __func__, CALLER) ? -1 : REAL(access)(path, mode);
}
