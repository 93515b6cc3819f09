/* digest.h - hashes of parts of a plan, by which two states of it are compared. Only the meaning of a part goes in,
 * not its place in a file, comments or the order of declarations. They are the same on every machine, and do not
 * protect against forgery. */
#ifndef BELL_COMPARE_DIGEST_H
#define BELL_COMPARE_DIGEST_H

#include <stdint.h>

struct arena;
struct athlete;
struct exercise;
struct gym;
struct zone;
struct item;
struct block;
struct done;
struct occasion;

/* Hashes of exercises that were looked at before, for a plan whose sheets name the same few over and over. */
struct digest_memo;
struct digest_memo *digest_memo_new(struct arena *arena);

/* Starts as {0}, or with a memo, which changes no hash. */
struct digest {
    uint64_t hash;
    struct digest_memo *memo;
};

void digest_number(struct digest *digest, int64_t number);
/* WORDS may be NULL, which differs from "". */
void digest_words(struct digest *digest, const char *words);

/* What else goes in. */
enum digest_sight {
    DIGEST_SHARES = 1,  /* percentages and what was asked for, beside the load that was made */
    DIGEST_NOTES = 2,   /* all that an exercise says of itself, not its first cue alone */
    DIGEST_OUTCOME = 4  /* what logs say */
};

void digest_item(struct digest *digest, const struct item *item, unsigned sight);
/* Its heading, without its items. */
void digest_block(struct digest *digest, const struct block *block);
/* What is done in it, without its name, its athlete and its time. */
void digest_work(struct digest *digest, const struct occasion *occasion, unsigned sight);
/* The same with its name, its time, and its distance from the bout. */
void digest_occasion(struct digest *digest, const struct occasion *occasion, unsigned sight);
/* As one reads it who does not train: when, for how long, and the names of the exercises without a dose. */
void digest_outline(struct digest *digest, const struct occasion *occasion);

/* What LOG, which may be NULL, says about the lines of its session, and whether any of it was done. */
void digest_log(struct digest *digest, const struct done *log);

void digest_zone(struct digest *digest, const struct zone *zone);
void digest_exercise(struct digest *digest, const struct exercise *exercise, unsigned sight);

#endif
