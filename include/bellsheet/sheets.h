/* sheets.h - a sheet as bytes, of a plan that an open session has compiled: libbellsheet-sheets, which brings cairo and Pango along,
 * and comes beside libbellsheet of the very same version. See bellsheet.h for what holds of sessions, texts and memory. Fonts and
 * pictures are made in the C library's memory, and only one thread at a time may make sheets. */
#ifndef BELLSHEET_SHEETS_H
#define BELLSHEET_SHEETS_H

#include <bellsheet/bellsheet.h>

#ifdef __cplusplus
extern "C" {
#endif

enum bell_sheet_format {
    BELL_SHEET_PDF,  /* all pages */
    BELL_SHEET_SVG,  /* one page */
    BELL_SHEET_PNG,  /* one page */
    BELL_SHEET_TEXT, /* the words of all pages, each with its place in points: for tests */
    BELL_SHEET_FORMATS
};

/* Which sheet. What may be 0 or NULL says what is meant then. */
struct bell_sheet {
    const char *kind;    /* "wall", "card"...: see bell_sheet_kind */
    const char *day;     /* "2027-03-08": of it, of its week or its camp */
    const char *athlete; /* whose; NULL: everybody's who does the session, or the first athlete's where the kind is of one */
    const char *session; /* by name; NULL: the first of the day */
    const char *paper;   /* "A4", "Letter"...; NULL: the kind's own */
    int landscape;       /* of a wall */
    int coach;           /* the coach's own copy, which tells who does which exchange, and who is on hold: not for a wall */
    enum bell_sheet_format format;
    int page;            /* of SVG and PNG, from 1; 0: the first */
    double dots;         /* an inch, of PNG: up to 600; 0: 150 */
};

/* The name of kind INDEX, from 0, and what it is in *WHAT, which may be NULL; NULL beyond the last. */
BELL_API const char *bell_sheet_kind(size_t index, const char **what);

/* Makes SHEET, whose LENGTH bytes and PAGES, which may be NULL, live as other answers do. What breaks a hold, a restriction or a
 * limit that must hold is not made: BELL_BARRED; nor is anything of a plan that was not understood. BELL_NOTHING: nothing is planned
 * there, or there is no such page. BELL_BAD_ARGUMENT, BELL_NO_MEMORY, BELL_CANCELLED, BELL_NOT_COMPILED; BELL_NO_FILE where no font can be had. */
BELL_API enum bell_status bell_sheet_make(struct bell_session *session, const struct bell_sheet *sheet,
                                          const char **bytes, size_t *length, int *pages);

#ifdef __cplusplus
}
#endif

#endif
