/* Reads which mutant runs. The file of marks is shared memory: it is there before a command confines itself, and keeps its
 * marks when a process crashes or is killed. */
#define _POSIX_C_SOURCE 200809L
#include "mutant.h"

#include <fcntl.h>
#include <stdlib.h>
#include <sys/mman.h>
#include <unistd.h>

static unsigned char nowhere[MUTANTS_MOST];

int mutant_number = -1;
unsigned char *mutant_seen = nowhere;

__attribute__((constructor)) static void mutant_read(void)
{
    const char *number = getenv("MUTANT"), *path = getenv("MUTANT_SEEN");
    if (number && *number)
        mutant_number = atoi(number);
    int file = path && *path ? open(path, O_RDWR | O_CLOEXEC) : -1;
    if (file < 0)
        return;
    void *shared = mmap(NULL, MUTANTS_MOST, PROT_READ | PROT_WRITE, MAP_SHARED, file, 0);
    close(file);
    if (shared == MAP_FAILED)
        abort();
    mutant_seen = shared;
}
