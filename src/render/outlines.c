#include "render/outlines.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static const double powers_of_ten[] = {1, 10, 100, 1e3, 1e4, 1e5, 1e6};

/* NUMBER in units of its last decimal, as printf rounds it. False where only printf knows: it looks at all of the number's
 * binary digits, and a product this near to a half may have come to lie on the wrong side of it. */
static bool in_last_decimals(double number, int places, long long *units)
{
    const double most = 1e12, near_half = 1e-3;
    double product = number * powers_of_ten[places];
    if (!(fabs(product) < most) || fabs(fabs(product - trunc(product)) - 0.5) < near_half)
        return false;
    *units = llround(product);
    return true;
}

/* UNITS of the last of PLACES decimals. */
static void add_units(struct text *out, long long units, int places)
{
    char digits[32], *end = digits + sizeof digits, *at = end;
    unsigned long long left = units < 0 ? 0ULL - (unsigned long long)units : (unsigned long long)units;
    for (; places > 0 && left % 10 == 0; places--)
        left /= 10;
    for (int i = 0; left || i <= places; i++) {
        if (i && i == places)
            *--at = '.';
        *--at = (char)('0' + left % 10);
        left /= 10;
    }
    if (units < 0)
        *--at = '-';
    text_add_bytes(out, at, (size_t)(end - at));
}

void outlines_number(struct text *out, double number, int places)
{
    long long units;
    if (in_last_decimals(number, places, &units)) {
        add_units(out, units, places);
        return;
    }
    char digits[400];
    int length = snprintf(digits, sizeof digits, "%.*f", places, number);
    if (places > 0)
        while (digits[length - 1] == '0')
            length--;
    if (digits[length - 1] == '.')
        length--;
    digits[length] = '\0';
    text_add(out, strcmp(digits, "-0") == 0 ? "0" : digits);
}

struct outlines outlines_open(void)
{
    cairo_surface_t *surface = cairo_image_surface_create(CAIRO_FORMAT_A8, 1, 1);
    struct outlines outlines = {.arena = arena_new(), .cairo = cairo_create(surface)};
    cairo_surface_destroy(surface);
    return outlines;
}

void outlines_close(struct outlines *outlines)
{
    cairo_destroy(outlines->cairo);
    text_free(&outlines->paths);
    arena_free(outlines->arena);
}

/* The decimals that a path in units of the shaped size needs: a thousandth of the letters' height. */
static int places_of(cairo_scaled_font_t *font)
{
    cairo_matrix_t matrix;
    cairo_scaled_font_get_font_matrix(font, &matrix);
    double size = fabs(matrix.yy);
    return size >= 400 ? 0 : size >= 40 ? 1 : 2;
}

static void add_points(struct text *out, const cairo_path_data_t *data, int count, int places)
{
    for (int i = 1; i <= count; i++) {
        text_add(out, i > 1 ? " " : "");
        outlines_number(out, data[i].point.x, places);
        text_add_char(out, ' ');
        outlines_number(out, data[i].point.y, places);
    }
}

/* PATH as the data of an SVG path; false: it draws nothing. */
static bool add_path(struct text *out, const cairo_path_t *path, int places)
{
    static const char letters[] = {[CAIRO_PATH_MOVE_TO] = 'M', [CAIRO_PATH_LINE_TO] = 'L', [CAIRO_PATH_CURVE_TO] = 'C'};
    bool any = false;
    for (int i = 0; i < path->num_data; i += path->data[i].header.length) {
        const cairo_path_data_t *data = &path->data[i];
        if (data->header.type == CAIRO_PATH_CLOSE_PATH) {
            text_add_char(out, 'Z');
            continue;
        }
        /* What follows a closed path and is followed by nothing is cairo's own end of it. */
        if (data->header.type == CAIRO_PATH_MOVE_TO && i + data->header.length >= path->num_data)
            break;
        text_add_char(out, letters[data->header.type]);
        add_points(out, data, data->header.length - 1, places);
        any = true;
    }
    return any;
}

/* Makes the outline that ONE is; its element is number INDEX. */
static void make(struct outlines *outlines, struct outline *one, size_t index)
{
    cairo_glyph_t glyph = {.index = one->glyph};
    struct text data = {0};
    cairo_set_scaled_font(outlines->cairo, one->font);
    cairo_new_path(outlines->cairo);
    cairo_glyph_path(outlines->cairo, &glyph, 1);
    cairo_path_t *path = cairo_copy_path(outlines->cairo);
    cairo_new_path(outlines->cairo);
    one->empty = path->status != CAIRO_STATUS_SUCCESS || !add_path(&data, path, places_of(one->font));
    cairo_path_destroy(path);
    if (one->empty) {
        cairo_text_extents_t extents;
        cairo_scaled_font_glyph_extents(one->font, &glyph, 1, &extents);
        outlines->missing |= extents.width > 0;
    } else {
        text_addf(&outlines->paths, "<path id=\"g%zu\" d=\"%s\"/>\n", index, text_get(&data));
    }
    text_free(&data);
}

int outlines_find(struct outlines *outlines, cairo_scaled_font_t *font, unsigned long glyph)
{
    for (size_t i = 0; i < outlines->count; i++)
        if (outlines->items[i].glyph == glyph && outlines->items[i].font == font)
            return outlines->items[i].empty ? -1 : (int)i;
    outlines->items = arena_grow(outlines->arena, outlines->items, outlines->count, &outlines->capacity,
                                 sizeof *outlines->items);
    struct outline *one = &outlines->items[outlines->count++];
    *one = (struct outline){.font = font, .glyph = glyph};
    make(outlines, one, outlines->count - 1);
    return one->empty ? -1 : (int)outlines->count - 1;
}
