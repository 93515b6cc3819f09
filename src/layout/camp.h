/* camp.h - the parts of a camp sheet: the band of time, and the charts below it that share its scale. */
#ifndef BELL_LAYOUT_CAMP_H
#define BELL_LAYOUT_CAMP_H

#include "layout/chart.h"
#include "layout/frame.h"
#include "layout/strips.h"
#include "measure/tally.h"

enum { CAMP_NOTES = 26 };

/* Why a limit need not be kept in some weeks. */
struct camp_note {
    enum counted counted;
    const char *because;
    bool *weeks; /* of the camp */
};

struct camp_sheet {
    struct frame frame;
    const struct camp *camp;
    int first; /* Monday of the first week */
    size_t weeks;
    struct tally *tallies; /* of each week */
    double *heaviest; /* largest share of a best in each week, per cent; NAN where there is none */
    struct tally *done;     /* the same as it was done; NULL: no log tells of it */
    double *heaviest_done;
    size_t weeks_gone;      /* so many of the weeks have begun to be logged or are over */
    struct camp_note *notes; /* of limits that are waived, a letter each */
    size_t note_count;
    double *edges;    /* weeks + 1 places, 0 to 1 */
    double left, width, right; /* of the plot, and the gutters beside it */
};

/* Works out a sheet's weeks from the request's occasions. */
struct camp_sheet camp_sheet_of(const struct sheet_request *request);

enum { CAMP_CHARTS = 6 };

/* The charts, each HEIGHT high; their count, at most CAMP_CHARTS. */
size_t camp_charts(const struct camp_sheet *sheet, double height, struct box *out[CAMP_CHARTS]);

/* What ROW says of WEEK (from 0): its number, its Monday, how far it is from the bout ("" after it), its phase. */
const char *camp_week_words(const struct camp_sheet *sheet, size_t row, size_t week);

/* The strength and power exercises as rows of tables, what is done of each in every week; none where there are none. */
struct strips camp_lifts(const struct camp_sheet *sheet);

/* Whether every bar and point has its number; else columns are too narrow for some. */
bool camp_numbers_fit(const struct camp_sheet *sheet);

/* "a  week 10, all-out strikes: waived, because ..." of each note; "" where there is none. */
const char *camp_notes_words(const struct camp_sheet *sheet);

/* Height that the charts need at least. */
double camp_charts_least(const struct camp_sheet *sheet);

#endif
