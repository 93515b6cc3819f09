/* page_edge.h - memory behind which there is none: what reads too far ends the test, whatever it was built with. Who includes it
 * first defines _GNU_SOURCE, for MAP_ANONYMOUS. */
#ifndef BELL_TESTS_PAGE_EDGE_H
#define BELL_TESTS_PAGE_EDGE_H

#include <stddef.h>
#include <sys/mman.h>
#include <unistd.h>

/* The end of a page of memory; NULL where there is none to be had. It stays until the test ends. */
static inline char *page_edge(void)
{
    size_t page = (size_t)sysconf(_SC_PAGESIZE);
    char *pages = mmap(NULL, 2 * page, PROT_READ | PROT_WRITE, MAP_PRIVATE | MAP_ANONYMOUS, -1, 0);
    return pages != MAP_FAILED && mprotect(pages + page, page, PROT_NONE) == 0 ? pages + page : NULL;
}

#endif
