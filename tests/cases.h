/* cases.h - how many of its cases a test tries that has more of them than anybody waits for: `make check` tries a sample,
 * always the same, and `make proof` all of them, in parts. PROOF in the environment says which, "3/10" for the third of ten.
 * What a test asserts about how many cases turned out how holds in a sample and in each part alike. */
#ifndef BELL_TESTS_CASES_H
#define BELL_TESTS_CASES_H

#include <stdbool.h>
#include <stddef.h>
#include <stdio.h>
#include <stdlib.h>

/* The part that PROOF asks for, from 1 on, of PARTS; 0 where only a sample is wanted. */
static inline unsigned proof_part(unsigned *parts)
{
    const char *asked = getenv("PROOF");
    unsigned part = 0;
    *parts = 1;
    if (!asked || !*asked)
        return 0;
    if (sscanf(asked, "%u/%u", &part, parts) != 2 || part < 1 || part > *parts) {
        fprintf(stderr, "PROOF is a part of a whole, as in 3/10, and not %s\n", asked);
        exit(2);
    }
    return part;
}

/* What only a few cases turn out to be the sample has, and not each part. */
static inline bool is_sample(void)
{
    unsigned parts;
    return proof_part(&parts) == 0;
}

/* Cases that follow each other: FROM to TO - 1. */
struct cases {
    unsigned from, to;
};

/* Of ALL cases the first SAMPLE, or the part that is to be proved. */
static inline struct cases cases_of(unsigned all, unsigned sample)
{
    unsigned parts, part = proof_part(&parts);
    if (!part)
        return (struct cases){0, sample < all ? sample : all};
    return (struct cases){all * (part - 1) / parts, all * part / parts};
}

static inline unsigned cases_count(struct cases cases)
{
    return cases.to - cases.from;
}

/* Cases spread over all that there are: FIRST and each STEP-th from there on. */
struct spread {
    unsigned first, step;
};

/* One in STEP, or where PROOF asks for a part, those of that part: the parts together have all. */
static inline struct spread spread_of(unsigned step)
{
    unsigned parts, part = proof_part(&parts);
    return part ? (struct spread){part - 1, parts} : (struct spread){0, step};
}

/* SPREAD begun further on, so that of several rows each is tried at other places. */
static inline struct spread spread_from(struct spread spread, size_t row)
{
    spread.first = (unsigned)((spread.first + row) % spread.step);
    return spread;
}

#endif
