#ifndef BELL_FIGURES_SIGHT_H
#define BELL_FIGURES_SIGHT_H

/*
 * Reading size. A character seen from a distance d under a visual angle a is 2 d tan(a / 2) high;
 * ISO 9241-303 asks for 16 minutes of arc at least and prefers 20 to 22 (published). The height is
 * that of a capital in the font's own metrics. Lengths in millimetres, angles in minutes of arc.
 */
#define SIGHT_MINUTES_LEAST 16.0
#define SIGHT_MINUTES_GOOD 20.0

/* Height in mm that fills the angle at the distance (both above 0, the angle below 10800). */
double sight_height(double distance, double minutes);

/* The distance in mm from which a height fills the angle: the farthest it can be read from. */
double sight_distance(double height, double minutes);

/* The typographic point of PDF and PostScript, 1/72 of an inch of 25.4 mm. */
double sight_points_from_mm(double mm);
double sight_mm_from_points(double points);

/*
 * Relative luminance of an sRGB colour, each part from 0 to 1; 0 black to 1 white. Published: Web
 * Content Accessibility Guidelines 2.2 (W3C 2023), with the border of 0.04045 that the text has
 * had since May 2021.
 */
double sight_luminance(double red, double green, double blue);

/* Contrast ratio of two luminances in either order, 1 to 21 (WCAG 2.2). */
double sight_contrast(double one, double other);

#endif
