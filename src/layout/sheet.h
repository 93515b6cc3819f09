/* sheet.h - what a sheet is asked to show, and the table of sheets. A new sheet is one file and one row. */
#ifndef BELL_LAYOUT_SHEET_H
#define BELL_LAYOUT_SHEET_H

#include "layout/paper.h"
#include "layout/press.h"
#include "model/programme.h"

struct sheet_request {
    struct arena *arena;   /* the scene lives in it */
    struct type *type;     /* and must not outlive this */
    const struct programme *programme;
    /* One session on one day at one hour, an occasion for each athlete; a card takes the first alone. */
    const struct occasion *const *occasions;
    size_t count;
    const struct paper *paper; /* NULL: the sheet's own */
    bool landscape;            /* meant when paper is given */
    double distance;           /* centimetres it is read from; 0: the sheet's own */
    int pages;                 /* how many pages first-rank text may be spread over to stay large; 0: one */
    const char *plan;          /* name of the plan, for the foot */
    const char *version;       /* hash or revision of its inputs; "" for none */
    const char *date_words;    /* the day as it is to be read, "Monday 1 March 2027"; "" for none */
    const char *author;        /* the club; "" for none */
};

struct sheet {
    const char *name;
    const char *what;          /* one line for a list of sheets */
    const char *paper;
    bool landscape;
    double distance;           /* centimetres */
    bool one_athlete;          /* made for each athlete, not for the squad */
    struct scene *(*make)(const struct sheet_request *request);
};

extern const struct sheet sheets[];
extern const size_t sheet_count;

/* The sheet called NAME, or NULL. */
const struct sheet *sheet_find(const char *name);

/* Makes it, with the sheet's own paper and distance where the request gives none, and inspects it: problems found
 * stand in the scene. */
struct scene *sheet_make(const struct sheet *sheet, const struct sheet_request *request);

struct scene *wall_scene(const struct sheet_request *request);
struct scene *card_scene(const struct sheet_request *request);

/* The size in points at which a capital fills MINUTES of arc seen from CENTIMETRES. */
double sheet_size(const struct type *type, double centimetres, double minutes);

/* The distance in centimetres from which capitals of CAPITAL points fill the least angle. */
double sheet_reach(double capital);

#endif
