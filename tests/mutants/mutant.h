/* mutant.h - what a source file asks that has been through mutate.c: is it mutant NUMBER that runs? Each place where it is
 * asked leaves a mark, by which the driver knows what a test reaches. Only the build of `make mutants` includes this. */
#ifndef BELL_TESTS_MUTANT_H
#define BELL_TESTS_MUTANT_H

enum { MUTANTS_OF_A_FILE = 4096, MUTANTS_MOST = 512 * MUTANTS_OF_A_FILE };

/* The one that runs, from MUTANT in the environment; -1 where the program is to be as it was written. */
extern int mutant_number;

/* A byte for each mutant, of the file that MUTANT_SEEN names, or of memory that nobody reads. */
extern unsigned char *mutant_seen;

static inline int mutant(int number)
{
    mutant_seen[number] = 1;
    return number == mutant_number;
}

#endif
