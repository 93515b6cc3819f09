#include "figures/mass.h"

#include <inttypes.h>
#include <stdio.h>

/* One thousandth of a pound is LB_NUMERATOR / LB_DENOMINATOR tens of grams. */
static const int64_t LB_NUMERATOR = 45359237;
static const int64_t LB_DENOMINATOR = 1000000000;

static const int64_t SHARE_WHOLE = 100000; /* 100 % */
static const int64_t QUARTER = 250;

/* To the nearest, half up; both at least 0 and small enough not to overflow. */
static int64_t divide_nearest(int64_t above, int64_t below)
{
    return (above + below / 2) / below;
}

int64_t mass_from_lb(int64_t milli_lb)
{
    /* The limit in pounds, checked before the product so that it cannot overflow. */
    if (milli_lb < 0 || milli_lb > MASS_LIMIT * LB_DENOMINATOR / LB_NUMERATOR)
        return -1;
    return divide_nearest(milli_lb * LB_NUMERATOR, LB_DENOMINATOR);
}

int64_t mass_to_lb(int64_t mass)
{
    if (mass < 0 || mass > MASS_LIMIT)
        return -1;
    return divide_nearest(mass * LB_DENOMINATOR, LB_NUMERATOR);
}

int64_t mass_to_quarter_lb(int64_t mass)
{
    /* From the mass itself, since rounding twice can go astray at a border. */
    if (mass < 0 || mass > MASS_LIMIT)
        return -1;
    return divide_nearest(mass * (LB_DENOMINATOR / QUARTER), LB_NUMERATOR) * QUARTER;
}

int64_t mass_share(int64_t mass, int64_t percent)
{
    if (mass < 0 || mass > MASS_LIMIT || percent < 0 || percent > 10 * SHARE_WHOLE)
        return -1;
    return divide_nearest(mass * percent, SHARE_WHOLE);
}

/* Writes value / 10^places without trailing zeros. */
static char *decimal_format(int64_t value, int places, char text[MASS_TEXT_SIZE])
{
    const char *sign = value < 0 ? "-" : "";
    uint64_t digits = value < 0 ? 0 - (uint64_t)value : (uint64_t)value;
    uint64_t one = 1;

    for (; places > 0 && digits % 10 == 0; places--)
        digits /= 10;
    for (int i = 0; i < places; i++)
        one *= 10;
    if (places == 0)
        snprintf(text, MASS_TEXT_SIZE, "%s%" PRIu64, sign, digits);
    else
        snprintf(text, MASS_TEXT_SIZE, "%s%" PRIu64 ".%0*" PRIu64, sign, digits / one, places,
                 digits % one);
    return text;
}

char *mass_format_kg(int64_t mass, char text[MASS_TEXT_SIZE])
{
    return decimal_format(mass, 2, text);
}

char *mass_format_lb(int64_t mass, char text[MASS_TEXT_SIZE])
{
    /* Over the limit the conversion refuses, and -1 would print as a mass. */
    if (mass > MASS_LIMIT || mass < -MASS_LIMIT) {
        text[0] = '\0';
        return text;
    }
    int64_t milli_lb = mass < 0 ? -mass_to_quarter_lb(-mass) : mass_to_quarter_lb(mass);
    return decimal_format(milli_lb, 3, text);
}
