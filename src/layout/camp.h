/* camp.h - the parts of a camp sheet: the band of time, and the charts below it that share its scale. */
#ifndef BELL_LAYOUT_CAMP_H
#define BELL_LAYOUT_CAMP_H

#include "layout/chart.h"
#include "layout/frame.h"
#include "model/tally.h"

struct camp_sheet {
    struct frame frame;
    const struct camp *camp;
    int first; /* Monday of the first week */
    size_t weeks;
    struct tally *tallies; /* of each week */
    double *heaviest; /* largest share of a best in each week, per cent; NAN where there is none */
    double *edges;    /* weeks + 1 places, 0 to 1 */
    double left, width, right; /* of the plot, and the gutters beside it */
};

/* Works out a sheet's weeks from the request's occasions. */
struct camp_sheet camp_sheet_of(const struct sheet_request *request);

enum { CAMP_CHARTS = 6 };

/* The charts, each HEIGHT high; their count, at most CAMP_CHARTS. */
size_t camp_charts(const struct camp_sheet *sheet, double height, struct piece *out[CAMP_CHARTS]);

/* Height that the charts need at least. */
double camp_charts_least(const struct camp_sheet *sheet);

#endif
