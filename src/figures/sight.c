#include "figures/sight.h"

#include <math.h>

static const double MM_PER_INCH = 25.4;
static const double POINTS_PER_INCH = 72.0;
static const double MINUTES_PER_HALF_TURN = 180.0 * 60.0;
static const double PI = 3.14159265358979323846; /* M_PI is not in C17 */

/* Tangent of half the angle, which is all the formula takes from it. */
static double half_tangent(double minutes)
{
    return tan(minutes * PI / MINUTES_PER_HALF_TURN / 2.0);
}

double sight_height(double distance, double minutes)
{
    return 2.0 * distance * half_tangent(minutes);
}

double sight_distance(double height, double minutes)
{
    return height / (2.0 * half_tangent(minutes));
}

double sight_points_from_mm(double mm)
{
    return mm / MM_PER_INCH * POINTS_PER_INCH;
}

double sight_mm_from_points(double points)
{
    return points / POINTS_PER_INCH * MM_PER_INCH;
}

static double linear_part(double part)
{
    return part <= 0.04045 ? part / 12.92 : pow((part + 0.055) / 1.055, 2.4);
}

double sight_luminance(double red, double green, double blue)
{
    return 0.2126 * linear_part(red) + 0.7152 * linear_part(green) + 0.0722 * linear_part(blue);
}

double sight_contrast(double one, double other)
{
    return (fmax(one, other) + 0.05) / (fmin(one, other) + 0.05);
}
