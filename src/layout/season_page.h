/* season_page.h - the parts of the season sheets: one axis of weeks and months, and below it rows of marks and camps. */
#ifndef BELL_LAYOUT_SEASON_PAGE_H
#define BELL_LAYOUT_SEASON_PAGE_H

#include "layout/frame.h"

struct athlete;
struct camp;
struct season;

struct season_sheet {
    struct frame frame;
    const struct season *season;
    int first; /* Monday of the first week */
    size_t weeks;
    double *edges; /* weeks + 1 places, 0 to 1 */
    double size;   /* of the text in rows */
    double left, width, right; /* of the plot, and the gutters beside it */
};

/* Days with words beside or inside them, both days inside. */
struct season_mark {
    int first, last;
    const char *words;
    enum ink fill;
    bool day; /* what happens on a day, such as a bout: a line leads through it */
};

struct season_marks {
    struct season_mark *items;
    size_t count, capacity;
};

/* The sheet of the request's season, with gutters LEFT and RIGHT. */
struct season_sheet season_sheet_of(const struct sheet_request *request, double left, double right);

/* Where DAY begins, held between the axis' ends. */
double season_x(const struct season_sheet *sheet, int day);

/* Adds MARK, cut to the season's days; nothing where it lies outside. */
void season_add(const struct season_sheet *sheet, struct season_marks *marks, struct season_mark mark);

/* The bouts of ATHLETE in the season, LONG with what kind they are; and the days on which the athlete is away or out. */
void season_add_bouts(const struct season_sheet *sheet, struct season_marks *marks, const struct athlete *athlete,
                      bool with_kind);
void season_add_absences(const struct season_sheet *sheet, struct season_marks *marks, const struct athlete *athlete);

/* The months, and the weeks by their ISO number. */
struct box *season_axis(const struct season_sheet *sheet);

/* MARKS in as many lines as they need so that no words touch, LEAD before them; NULL where there are none. */
struct box *season_row(const struct season_sheet *sheet, const char *lead, struct season_marks *marks);

/* The camps of ATHLETE with their phases, LEAD before them; NULL where there are none. */
struct box *season_camps(const struct season_sheet *sheet, const char *lead, const struct athlete *athlete);

/* Hair lines at the months' ends from TOP to BOTTOM of PAGE. */
void season_uprights(const struct season_sheet *sheet, struct box *page, double top, double bottom);

/* The title of a season's page: WHOSE it is, in words below the season's name. */
struct frame_title season_title(const struct season_sheet *sheet, const char *whose);

/* Puts FOOT at BOTTOM of each page, and the last line below it. */
void season_finish(const struct season_sheet *sheet, struct scene *scene, const struct box *foot, double bottom);

#endif
