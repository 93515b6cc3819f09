/* json_text.h - JSON values of our texts, and JSON values as text. Read by the files of this
 * room only. */
#ifndef BELL_EXPORT_JSON_TEXT_H
#define BELL_EXPORT_JSON_TEXT_H

#include <jansson.h>

#include <stdint.h>

#include "base/text.h"

/* To be called before the first value is made: from then on, memory that cannot be had ends the
 * program. */
void json_begin(void);

/* Sets KEY of OBJECT. WORDS must be UTF-8; VALUE is taken over. */
void json_put(json_t *object, const char *key, json_t *value);
void json_put_words(json_t *object, const char *key, const char *words);
void json_put_number(json_t *object, const char *key, size_t number);

/* MILLI thousandths as a number with no more decimals than it has: 82500 is 82.5, 5000 is 5. Exact
 * in what json_write makes of it below 10^12. */
json_t *json_decimal(int64_t milli);

/* Adds VALUE, which is ended with it, and a newline to OUT; members keep the order in which they
 * were set. */
void json_write(json_t *value, struct text *out);

#endif
