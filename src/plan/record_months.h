/* record_months.h - which files of a record are read: a club's record grows by a file a month for years, and a plan needs
 * those of the months that its camps reach into, and of the first of these the last days. */
#ifndef BELL_PLAN_RECORD_MONTHS_H
#define BELL_PLAN_RECORD_MONTHS_H

#include <stddef.h>

#include "syntax/tree.h"

/* The last day of the month that the file REAL keeps, if it is called like `record/2027-01.bell` and its folder is not
 * ROOT, which was asked for itself; else 0. */
int record_month_end(const char *real, const char *root);

/* The days of a month's file with the text TEXT, of LENGTH bytes, that lie before FROM and have nothing else between them, as
 * `close` writes them, but for notes. Empty where there is nothing to skip. */
struct extent record_days_before(const char *text, size_t length, int from);

/* The first day on which a camp of the COUNT TREES starts; 0 where none says so. */
int first_camp_day(struct tree *const *trees, size_t count);

#endif
