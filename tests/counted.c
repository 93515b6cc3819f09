/* counted.c - linked into a build that counts what is reached: its counts are written when a process ends by `_exit` or by a
 * signal that ends it, too, as the helpers of `print` and a command that watches do. */
#include <signal.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdnoreturn.h>

void __gcov_dump(void);
noreturn void __real__exit(int status);
noreturn void __wrap__exit(int status);

static struct sigaction before; /* of the same in another part of the program, or the default */

/* Once: writing them takes memory, and the program ends by `_exit` where there is none. */
static void write_counts(void)
{
    static bool begun;
    if (!begun) {
        begun = true;
        __gcov_dump();
    }
}

static void leave(int number)
{
    write_counts();
    sigaction(number, &before, NULL);
    raise(number);
}

noreturn void __wrap__exit(int status)
{
    write_counts();
    __real__exit(status);
}

__attribute__((constructor)) static void write_counts_when_ended(void)
{
    struct sigaction action = {.sa_handler = leave};
    sigaction(SIGTERM, &action, &before);
}
