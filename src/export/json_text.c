#include "export/json_text.h"

#include <glib.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "figures/mass.h"

void json_put(json_t *object, const char *key, json_t *value)
{
    if (json_object_set_new(object, key, value) != 0)
        abort();
}

void json_add(json_t *array, json_t *value)
{
    if (json_array_append_new(array, value) != 0)
        abort();
}

json_t *json_words(const char *words)
{
    json_t *json = json_string(words);
    if (json)
        return json;
    char *valid = g_utf8_make_valid(words, -1); /* a path may contain any bytes */
    json = json_string(valid);
    g_free(valid);
    return json;
}

void json_put_words(json_t *object, const char *key, const char *words)
{
    if (words)
        json_put(object, key, json_words(words));
}

void json_put_number(json_t *object, const char *key, size_t number)
{
    json_put(object, key, json_integer((json_int_t)number));
}

json_t *json_decimal(int64_t thousandths)
{
    return thousandths % 1000 == 0 ? json_integer(thousandths / 1000) : json_real((double)thousandths / 1000);
}

void json_put_mass(json_t *json, const char *key, mass value)
{
    if (value <= 0)
        return;
    json_put(json, key, json_decimal(mass_to(value, MASS_IN_KG)));
    if (mass_written_in(value) != MASS_IN_LB)
        return;
    char pounds[32];
    snprintf(pounds, sizeof pounds, "%.*slb", (int)strlen(key) - 2, key);
    json_put(json, pounds, json_decimal(mass_to(value, MASS_IN_LB)));
}

static int add_bytes(const char *bytes, size_t length, void *out)
{
    text_add_bytes(out, bytes, length);
    return 0;
}

void json_write(json_t *value, struct text *out)
{
    if (json_dump_callback(value, add_bytes, out, JSON_INDENT(2) | JSON_REAL_PRECISION(15)) != 0)
        abort();
    text_add_char(out, '\n');
    json_decref(value);
}
