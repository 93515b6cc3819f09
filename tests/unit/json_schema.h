/* json_schema.h - holds a JSON value against a schema (draft 7), as far as our own schemas go:
 * type, const, enum, required, properties, additionalProperties, dependencies, items, minItems,
 * maxItems, minimum, minLength, pattern, and $ref into definitions. A keyword that is not among
 * them, and says something, is refused. */
#ifndef BELL_TESTS_JSON_SCHEMA_H
#define BELL_TESTS_JSON_SCHEMA_H

#include <jansson.h>
#include <regex.h>
#include <stdbool.h>
#include <stdio.h>
#include <string.h>

struct schema_check {
    json_t *root;
    char fault[400]; /* the first one: where, and what */
};

static inline bool schema_holds(struct schema_check *check, json_t *schema, json_t *value,
                                const char *where);

static inline bool schema_fault(struct schema_check *check, const char *where, const char *what)
{
    if (!check->fault[0])
        snprintf(check->fault, sizeof check->fault, "%s: %s", where, what);
    return false;
}

static inline bool schema_type(const char *type, const json_t *value)
{
    return (strcmp(type, "object") == 0 && json_is_object(value)) ||
           (strcmp(type, "array") == 0 && json_is_array(value)) ||
           (strcmp(type, "string") == 0 && json_is_string(value)) ||
           (strcmp(type, "number") == 0 && json_is_number(value)) ||
           (strcmp(type, "integer") == 0 && json_is_integer(value)) ||
           (strcmp(type, "boolean") == 0 && json_is_boolean(value));
}

static inline bool schema_pattern(const char *pattern, const char *text)
{
    regex_t regex;
    if (regcomp(&regex, pattern, REG_EXTENDED | REG_NOSUB) != 0)
        return false;
    bool matches = regexec(&regex, text, 0, NULL, 0) == 0;
    regfree(&regex);
    return matches;
}

static inline bool schema_among(json_t *list, json_t *value)
{
    size_t i;
    json_t *one;
    json_array_foreach(list, i, one) if (json_equal(one, value)) return true;
    return false;
}

static inline bool schema_has_all(json_t *names, json_t *object)
{
    size_t i;
    json_t *name;
    json_array_foreach(names, i,
                       name) if (!json_object_get(object, json_string_value(name))) return false;
    return true;
}

static inline bool schema_object(struct schema_check *check, json_t *schema, json_t *value,
                                 const char *where)
{
    json_t *properties = json_object_get(schema, "properties"), *member;
    json_t *more = json_object_get(schema, "additionalProperties");
    json_t *needs = json_object_get(schema, "dependencies");
    const char *key;
    if (!schema_has_all(json_object_get(schema, "required"), value))
        return schema_fault(check, where, "lacks a required property");
    json_object_foreach(value, key, member)
    {
        char path[200];
        snprintf(path, sizeof path, "%s/%s", where, key);
        json_t *known = json_object_get(properties, key);
        if (!known && json_is_false(more))
            return schema_fault(check, path, "is not a known property");
        if (!known)
            known = more;
        if (known && !schema_holds(check, known, member, path))
            return false;
        if (!schema_has_all(json_object_get(needs, key), value))
            return schema_fault(check, path, "stands without what belongs to it");
    }
    return true;
}

static inline bool schema_array(struct schema_check *check, json_t *schema, json_t *value,
                                const char *where)
{
    json_t *items = json_object_get(schema, "items"), *least = json_object_get(schema, "minItems");
    json_t *most = json_object_get(schema, "maxItems"), *item;
    size_t i, count = json_array_size(value);
    if ((least && count < (size_t)json_integer_value(least)) ||
        (most && count > (size_t)json_integer_value(most)))
        return schema_fault(check, where, "has too few or too many items");
    json_array_foreach(value, i, item)
    {
        char path[200];
        snprintf(path, sizeof path, "%s/%zu", where, i);
        if (items && !schema_holds(check, items, item, path))
            return false;
    }
    return true;
}

static inline bool schema_plain(struct schema_check *check, json_t *schema, json_t *value,
                                const char *where)
{
    json_t *least = json_object_get(schema, "minimum");
    json_t *most = json_object_get(schema, "maximum");
    json_t *shortest = json_object_get(schema, "minLength");
    json_t *pattern = json_object_get(schema, "pattern");
    if (least && json_number_value(value) < json_number_value(least))
        return schema_fault(check, where, "is below the minimum");
    if (most && json_number_value(value) > json_number_value(most))
        return schema_fault(check, where, "is above the maximum");
    if (shortest && json_string_length(value) < (size_t)json_integer_value(shortest))
        return schema_fault(check, where, "is too short");
    if (pattern && !schema_pattern(json_string_value(pattern), json_string_value(value)))
        return schema_fault(check, where, "does not match the pattern");
    return true;
}

static inline bool schema_known(struct schema_check *check, json_t *schema, const char *where)
{
    static const char *const known[] = {"$schema",      "$comment",
                                        "title",        "description",
                                        "definitions",  "type",
                                        "const",        "enum",
                                        "required",     "properties",
                                        "items",        "minItems",
                                        "maxItems",     "additionalProperties",
                                        "dependencies", "minimum",
                                        "maximum",
                                        "minLength",    "pattern",
                                        "$ref"};
    const char *key;
    json_t *value;
    json_object_foreach(schema, key, value)
    {
        bool found = false;
        for (size_t i = 0; i < sizeof known / sizeof *known; i++)
            found = found || strcmp(known[i], key) == 0;
        if (!found)
            return schema_fault(check, where, key);
    }
    return true;
}

static inline bool schema_holds(struct schema_check *check, json_t *schema, json_t *value,
                                const char *where)
{
    const char *ref = json_string_value(json_object_get(schema, "$ref"));
    static const char prefix[] = "#/definitions/";
    if (!schema_known(check, schema, where))
        return false;
    if (ref) {
        json_t *target = strncmp(ref, prefix, sizeof prefix - 1) != 0
                             ? NULL
                             : json_object_get(json_object_get(check->root, "definitions"),
                                               ref + sizeof prefix - 1);
        return target ? schema_holds(check, target, value, where)
                      : schema_fault(check, where, "refers to nothing");
    }
    json_t *type = json_object_get(schema, "type"), *exact = json_object_get(schema, "const");
    json_t *list = json_object_get(schema, "enum");
    if (type && !schema_type(json_string_value(type), value))
        return schema_fault(check, where, "is of another type");
    if ((exact && !json_equal(exact, value)) || (list && !schema_among(list, value)))
        return schema_fault(check, where, "is not the value wanted");
    if (json_is_object(value))
        return schema_object(check, schema, value, where);
    if (json_is_array(value))
        return schema_array(check, schema, value, where);
    return schema_plain(check, schema, value, where);
}

#endif
