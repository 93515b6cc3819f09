/* wall_fit.h - how large a wall sheet's letters can be on the pages it may take. */
#ifndef BELL_LAYOUT_WALL_FIT_H
#define BELL_LAYOUT_WALL_FIT_H

#include "layout/remedy.h"
#include "layout/wall.h"

/* The room between header and foot on the first page and on the others, and how far the headers reach. In points. */
struct wall_room {
    double first, other;
    double header, header_again;
};

struct wall_fit {
    struct wall_setting setting;
    int columns, pages;
    double tall; /* all in one column, in points */
    bool unfit; /* a word is broken or too wide */
    int readable; /* pages on which the letters would reach the least angle; 0: on none, a word is too wide */
};

struct wall wall_of(const struct sheet_request *request);

/* WALL in COLUMNS side by side. */
struct wall wall_in_columns(const struct wall *wall, int columns);

struct wall_room wall_room(const struct wall *wall);

/* The largest letters in ROOM on as few of PAGES as can be read from the distance asked for; if they cannot, the
 * largest on PAGES. It takes more pages than that if even half the least angle does. */
struct wall_fit wall_fit_pages(const struct wall *wall, const struct wall_room *room, int pages);

/* What would help a sheet that is too small or takes too many pages. */
struct remedy wall_remedy(const struct wall *wall, const struct wall_fit *fit);

#endif
