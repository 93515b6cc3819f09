#include "export/json_text.h"

#include <stdlib.h>

void json_begin(void)
{
    json_set_alloc_funcs(memory_get, free);
}

void json_put(json_t *object, const char *key, json_t *value)
{
    json_object_set_new(object, key, value);
}

void json_put_words(json_t *object, const char *key, const char *words)
{
    json_object_set_new(object, key, json_string(words));
}

void json_put_number(json_t *object, const char *key, size_t number)
{
    json_object_set_new(object, key, json_integer((json_int_t)number));
}

json_t *json_decimal(int64_t milli)
{
    return milli % 1000 == 0 ? json_integer(milli / 1000) : json_real((double)milli / 1000);
}

static int add_bytes(const char *bytes, size_t length, void *out)
{
    text_add_bytes(out, bytes, length);
    return 0;
}

void json_write(json_t *value, struct text *out)
{
    json_dump_callback(value, add_bytes, out, JSON_INDENT(2) | JSON_REAL_PRECISION(15));
    text_add_char(out, '\n');
    json_decref(value);
}
