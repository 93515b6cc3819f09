/* counted.c - part of a build that counts branches, and of no other: a process writes its counts when it ends by itself,
 * and these end otherwise. A worker and a program without memory leave by _exit, which the linker leads here; a watch is
 * ended by a signal, and its test sends SIGUSR1, which ends it in other builds too. */
#include <signal.h>
#include <stdbool.h>
#include <stdlib.h>
#include <unistd.h>

void __gcov_dump(void);
_Noreturn void __real__exit(int status);
_Noreturn void __wrap__exit(int status);

/* Where memory has run out, the counts may not be written either. */
_Noreturn void __wrap__exit(int status)
{
    static bool ending;
    if (!ending) {
        ending = true;
        __gcov_dump();
    }
    __real__exit(status);
}

static void end(int number)
{
    __wrap__exit(128 + number);
}

__attribute__((constructor)) static void start(void)
{
    signal(SIGUSR1, end);
}
