#include "figures/mass.h"

#include <inttypes.h>
#include <stdio.h>

static const int64_t SHARE_WHOLE = 100000; /* 100 % */
enum { MOST_TIMES = 10000 };

/* Thousandths of each unit, in the order of enum mass_unit. */
static const int64_t thousandths[] = {MASS_KG / 1000, MASS_LB / 1000};

/* To the nearest, half away from 0; BELOW is above 0. */
static int64_t divide_nearest(int64_t above, int64_t below)
{
    int64_t whole = above / below, rest = above % below;

    if (rest >= below - rest)
        return whole + 1;
    return -rest >= below + rest ? whole - 1 : whole;
}

/* FIGURE x ABOVE / BELOW to the nearest, in two steps so that no product leaves 64 bits. */
static int64_t scale(int64_t figure, int64_t above, int64_t below)
{
    return figure / below * above + divide_nearest(figure % below * above, below);
}

int64_t mass_from(int64_t milli, enum mass_unit unit)
{
    if (milli < 0 || milli > MASS_LIMIT / thousandths[unit])
        return -1;
    return milli * thousandths[unit];
}

int64_t mass_to(int64_t mass, enum mass_unit unit)
{
    return mass < 0 || mass > MASS_LIMIT ? -1 : divide_nearest(mass, thousandths[unit]);
}

enum mass_unit mass_written_in(int64_t mass)
{
    return mass % thousandths[MASS_IN_KG] != 0 && mass % thousandths[MASS_IN_LB] == 0 ? MASS_IN_LB : MASS_IN_KG;
}

int64_t mass_round_in(int64_t mass, enum mass_unit unit)
{
    return divide_nearest(mass, thousandths[unit]) * thousandths[unit];
}

int64_t mass_share(int64_t mass, int64_t percent)
{
    if (mass < 0 || mass > MASS_LIMIT || percent < 0 || percent > 10 * SHARE_WHOLE)
        return -1;
    return mass_round_in(scale(mass, percent, SHARE_WHOLE), mass_written_in(mass));
}

int64_t mass_ratio(int64_t mass, int64_t whole)
{
    if (mass < 0 || mass > MASS_LIMIT || whole <= 0 || whole > MASS_LIMIT)
        return 0;
    /* What is left of a division, times ten, five times: no product leaves 64 bits. */
    int64_t ratio = mass / whole, rest = mass % whole;
    if (ratio > MOST_TIMES)
        return 0;
    for (int64_t one = SHARE_WHOLE; one > 1; one /= 10) {
        ratio = ratio * 10 + rest * 10 / whole;
        rest = rest * 10 % whole;
    }
    return ratio + (rest >= whole - rest);
}

int64_t mass_sum_to_lb(int64_t milli_kg)
{
    return scale(milli_kg, thousandths[MASS_IN_KG], thousandths[MASS_IN_LB]);
}

int64_t mass_sum_from_lb(int64_t milli_lb)
{
    return scale(milli_lb, thousandths[MASS_IN_LB], thousandths[MASS_IN_KG]);
}

const char *mass_unit_name(enum mass_unit unit)
{
    return unit == MASS_IN_LB ? "lb" : "kg";
}

/* Writes thousandths without trailing zeros. */
static char *thousandths_format(int64_t value, char text[MASS_TEXT_SIZE])
{
    const char *sign = value < 0 ? "-" : "";
    uint64_t digits = value < 0 ? 0 - (uint64_t)value : (uint64_t)value;
    uint64_t whole = digits / 1000, rest = digits % 1000;

    if (rest == 0)
        snprintf(text, MASS_TEXT_SIZE, "%s%" PRIu64, sign, whole);
    else if (rest % 100 == 0)
        snprintf(text, MASS_TEXT_SIZE, "%s%" PRIu64 ".%" PRIu64, sign, whole, rest / 100);
    else if (rest % 10 == 0)
        snprintf(text, MASS_TEXT_SIZE, "%s%" PRIu64 ".%02" PRIu64, sign, whole, rest / 10);
    else
        snprintf(text, MASS_TEXT_SIZE, "%s%" PRIu64 ".%03" PRIu64, sign, whole, rest);
    return text;
}

char *mass_format(int64_t mass, enum mass_unit unit, char text[MASS_TEXT_SIZE])
{
    return thousandths_format(divide_nearest(mass, thousandths[unit] * 10) * 10, text);
}

char *mass_format_exact(int64_t mass, enum mass_unit unit, char text[MASS_TEXT_SIZE])
{
    return thousandths_format(divide_nearest(mass, thousandths[unit]), text);
}

char *mass_format_quarters(int64_t mass, char text[MASS_TEXT_SIZE])
{
    return thousandths_format(divide_nearest(mass, MASS_LB / 4) * 250, text);
}
