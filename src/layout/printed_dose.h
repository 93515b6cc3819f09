/* printed_dose.h - a dose and its load: numbers large, signs light, stances by their feet.
 *
 * It is worded once and then set in as many sizes as a sheet tries. */
#ifndef BELL_LAYOUT_PRINTED_DOSE_H
#define BELL_LAYOUT_PRINTED_DOSE_H

#include "layout/press.h"
#include "model/set.h"

struct block;
struct item;

enum dose_bit_kind {
    BIT_WORD,
    BIT_NOTES, /* two words, small, one above the other */
    BIT_STANCE,
    BIT_TEMPO,
    BIT_BAR
};

/* How its words are drawn. */
struct dose_face {
    bool small; /* in the size of what explains the dose */
    enum weight weight;
    struct style style;
};

/* What is drawn in one piece. Those that follow on one another up to the next that begins are one atom. */
struct dose_bit {
    enum dose_bit_kind kind;
    bool begins;
    bool close;  /* the atom that it begins belongs to the one before */
    bool breaks; /* words that continue in a further line if they are too wide for one */
    struct dose_face face;
    const char *text, *below;
    enum dose_side side;
    const struct item_tempo *tempo;
    const struct plating *plating;
    double share; /* of the small size that a tempo's numbers take */
    double gap;   /* before it, in sizes */
};

struct printed_dose {
    struct arena *arena; /* its words live in it */
    struct dose_bit *bits;
    size_t count, capacity;
};

/* Adds WORDS; if BREAKS, they are broken where they are wider than a line. */
void dose_add_words(struct printed_dose *dose, const char *words, struct dose_face face, bool breaks);

/* Adds how much: "3 ×", "4", feet, "+", "4", feet; or a list set by set. */
void dose_add_amounts(struct printed_dose *dose, const struct block *block, const struct item *item);

/* Adds with what: "75 kg with bar", "2 × 16 kg each hand", "medium band", "RPE 8"; one for all sets, or one for each
 * that differs from the set before. If NOTED, what is said about a load, share and pounds too, follows it in small
 * print, one above the other. */
void dose_add_loads(struct printed_dose *dose, const struct block *block, const struct item *item,
                    bool pounds, bool noted);

/* Adds the effort of the first set alone: "RPE 8", "all-out". */
void dose_add_effort(struct printed_dose *dose, const struct item *item);

/* Adds what follows the load: the share of a best, pounds. Loads that are noted already have it. */
void dose_add_shares(struct printed_dose *dose, const struct item *item, bool pounds);

/* Adds the tempo of the first set, its numbers SHARE of the small size. */
void dose_add_tempo(struct printed_dose *dose, const struct item *item, double share);

/* Adds the bar with its discs for every load of the item that hangs on one. */
void dose_add_bars(struct printed_dose *dose, const struct item *item);

/* The sizes a dose is drawn in: SIZE for what is read first, SMALL for what explains it. */
struct dose_sizes {
    double size, small;
    double width; /* words that are wider are broken to it; 0: none are */
    double disc;  /* of the numbers on discs where they are read first too; 0: they are SMALL */
    bool bar_known; /* which bar it is stands elsewhere */
};

/* Sets DOSE in SIZES and adds it to FLOW. */
void dose_set(const struct press *press, struct flow *flow, const struct printed_dose *dose,
              struct dose_sizes sizes);

#endif
