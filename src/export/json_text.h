/* json_text.h - JSON values of our texts, and JSON values as text. For this room and
 * src/lsp. */
#ifndef BELL_EXPORT_JSON_TEXT_H
#define BELL_EXPORT_JSON_TEXT_H

#include <jansson.h>

#include <stdint.h>

#include "base/text.h"
#include "model/quantity.h"

/* jansson gets its memory from the C library, as GLib does. If there is none left, a report would be incomplete, so
 * the process ends with abort(), as GLib ends it. */

/* Adds VALUE, which is taken over, to the end of ARRAY. */
void json_add(json_t *array, json_t *value);

/* WORDS as a value; what is not UTF-8 in them is replaced. */
json_t *json_words(const char *words);

/* Sets KEY of OBJECT. VALUE is taken over; WORDS may be NULL, and then nothing is set. */
void json_put(json_t *object, const char *key, json_t *value);
void json_put_words(json_t *object, const char *key, const char *words);
void json_put_number(json_t *object, const char *key, size_t number);

/* THOUSANDTHS as a number with no more decimals than it has: 82500 is 82.5, 5000 is 5. Exact
 * in what json_write makes of it below 10^12. */
json_t *json_decimal(int64_t thousandths);

/* Sets KEY, which ends in "kg", to kilograms to the gram; if VALUE is marked in pounds, also sets those under a key
 * that ends in "lb". Nothing is set for a VALUE of 0. */
void json_put_mass(json_t *json, const char *key, mass value);

/* Adds VALUE, which is then freed, and a newline to OUT; members keep the order in which they were set. */
void json_write(json_t *value, struct text *out);

#endif
