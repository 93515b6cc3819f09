#ifndef BELL_FIGURES_MASS_H
#define BELL_FIGURES_MASS_H

#include <stddef.h>
#include <stdint.h>

/*
 * A mass is a whole number of tens of grams, so that no binary fraction decides a plate. Pounds
 * are thousandths of a pound. The avoirdupois pound is 0.45359237 kg exactly (international yard
 * and pound agreement, 1959): never a whole number of tens of grams, so a mass written in pounds
 * is kept to the nearest 10 g and finds its own figure again when it is shown in quarter pounds.
 */
enum {
    MASS_LIMIT = 100000000, /* 1000 t; nothing heavier is taken for a mass */
    MASS_TEXT_SIZE = 24     /* room for any formatted mass */
};

/* Thousandths of a pound to tens of grams, to the nearest; -1 where negative or over MASS_LIMIT. */
int64_t mass_from_lb(int64_t milli_lb);

/* Tens of grams to thousandths of a pound, to the nearest; -1 where negative or over MASS_LIMIT. */
int64_t mass_to_lb(int64_t mass);

/* The same to the nearest quarter of a pound, still in thousandths: 250, 45000. */
int64_t mass_to_quarter_lb(int64_t mass);

/*
 * A percentage (in thousandths of a per cent: 82.5 % is 82500) of a mass, to the nearest 10 g and
 * half up; -1 where either is negative, the mass over MASS_LIMIT or the percentage over 1000 %.
 */
int64_t mass_share(int64_t mass, int64_t percent);

/*
 * The number alone, without a unit and without trailing zeros: "100", "97.5", "22.68". A negative
 * mass (a difference) has a minus in front. Returns text.
 */
char *mass_format_kg(int64_t mass, char text[MASS_TEXT_SIZE]);

/*
 * The same in pounds, to the nearest quarter: "45", "1.25". A quarter is the finest step of common
 * pound discs, and coarse enough to swallow the rounding of a dozen discs kept to 10 g each. An
 * empty text over MASS_LIMIT.
 */
char *mass_format_lb(int64_t mass, char text[MASS_TEXT_SIZE]);

#endif
