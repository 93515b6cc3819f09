#ifndef BELL_FIGURES_MASS_H
#define BELL_FIGURES_MASS_H

#include <stddef.h>
#include <stdint.h>

/*
 * A mass is a whole number of hundredths of a microgram. The avoirdupois pound is 0.45359237 kg exactly (international
 * yard and pound agreement, 1959), so a thousandth of a pound is 45,359,237 of them and a thousandth of a kilogram
 * 100,000,000: every figure with three decimals is held exactly in either unit, and no rounding decides a plate.
 */
#define MASS_KG INT64_C(100000000000)
#define MASS_LB INT64_C(45359237000)
#define MASS_LIMIT (1000000 * MASS_KG) /* 1000 t; nothing heavier counts as a mass */

enum mass_unit { MASS_IN_KG, MASS_IN_LB };

enum { MASS_TEXT_SIZE = 24 }; /* room for any formatted mass */

/* Thousandths of a kilogram or a pound to a mass, and a mass to the nearest thousandth of one, half away from 0; -1
 * where a figure is negative or over MASS_LIMIT. */
int64_t mass_from(int64_t milli, enum mass_unit unit);
int64_t mass_to(int64_t mass, enum mass_unit unit);

/* 
 * The unit in which a mass was written, so that a disc can be shown with what is stamped on it. No mass below 100,000
 * lb is whole in thousandths of both, and one that is in neither (a bar in kilograms with discs in pounds) counts as
 * kilograms.
 */
enum mass_unit mass_written_in(int64_t mass);

/* A mass to the nearest thousandth of a unit, half away from 0: nobody writes or loads it any finer. */
int64_t mass_round_in(int64_t mass, enum mass_unit unit);

/*
 * A percentage (in thousandths of a per cent: 82.5 % is 82500) of a mass, to the nearest thousandth of the unit that the
 * mass is written in, half up; -1 where either is negative, the mass over MASS_LIMIT or the percentage over 1000 %.
 */
int64_t mass_share(int64_t mass, int64_t percent);

/* What percentage, in thousandths, a mass is of another, to the nearest; 0 where the other is not above 0 or more than
 * ten thousand times lighter, and where either is negative or over MASS_LIMIT. */
int64_t mass_ratio(int64_t mass, int64_t whole);

/* A sum in thousandths of a kilogram, which may be far over MASS_LIMIT or below 0, in thousandths of a pound and back, to
 * the nearest. */
int64_t mass_sum_to_lb(int64_t milli_kg);
int64_t mass_sum_from_lb(int64_t milli_lb);

/* The name of a unit: "kg", "lb". */
const char *mass_unit_name(enum mass_unit unit);

/*
 * The number alone to the nearest hundredth, without a unit and without trailing zeros: "100", "97.5", "22.68". A
 * negative mass (a difference) has a minus in front. Returns text.
 */
char *mass_format(int64_t mass, enum mass_unit unit, char text[MASS_TEXT_SIZE]);

/* The same to the nearest thousandth, which is as fine as a plan has it: for what is written into one, and for what is
 * stamped on a disc. */
char *mass_format_exact(int64_t mass, enum mass_unit unit, char text[MASS_TEXT_SIZE]);

/* The same in pounds to the nearest quarter, for pounds shown beside kilograms: the finest step of common discs. */
char *mass_format_quarters(int64_t mass, char text[MASS_TEXT_SIZE]);

#endif
