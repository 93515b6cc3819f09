#include "layout/ribbon.h"
#include "language/language.h"
#include "model/occasion.h"

#include <math.h>

#include "wording/wording.h"

struct ribbon {
    const struct press *press;
    struct box *box;
    double scale;  /* points a second */
    double top, height;
    double width, free; /* of the whole; where the next letter may stand */
    int clock;          /* of its start; below 0: not known */
    struct face face;
};

/* Sets filled, with the rests between them open. If the rests would fill the block, the sets are drawn as one. */
static void draw_sets(const struct ribbon *ribbon, const struct block *block)
{
    int sets = block->sets > 0 ? block->sets : 1;
    double rest = (block->rest_low + block->rest_high) / 2.0;
    int times = block->times > 1 ? block->times : 1;
    double whole = (block->seconds - (double)block->times_rest * (times - 1)) / times;
    double work = (whole - rest * (sets - 1)) / sets;
    double x = block->starts * ribbon->scale;
    if (work <= 0) {
        sets = 1;
        work = whole;
    }
    enum ink ink = block->letter ? INK_BLACK : INK_GREY;
    for (int i = 0; i < sets * times; i++) {
        int time = i / sets;
        double start = time * (whole + block->times_rest) + i % sets * (work + rest);
        box_rectangle(ribbon->box, x + start * ribbon->scale, ribbon->top, work * ribbon->scale,
                      ribbon->height, ink, INK_NONE, 0);
    }
    double line = 0.06 * ribbon->face.size;
    box_line(ribbon->box, x, ribbon->top + ribbon->height - line / 2,
             block->seconds * ribbon->scale, 0, line, ink);
}

/* The hour of SECONDS from the start, or the minutes where nobody knows when that is. */
static const char *time_at(const struct ribbon *ribbon, int seconds)
{
    struct arena *arena = ribbon->press->arena;
    int at = ribbon->clock + seconds;
    return ribbon->clock < 0 ? arena_printf(arena, "%d", seconds / 60)
                             : said_hour(arena, at);
}

/* A letter where its block starts, and behind it the hour where there is room; no letter where the one before leaves none. */
static void draw_letter(struct ribbon *ribbon, const struct block *block, double until)
{
    if (!block->letter)
        return;
    struct face face = ribbon->face;
    struct type *type = ribbon->press->type;
    face.weight = WEIGHT_BOLD;
    face.style.ink = INK_SPOT;
    const char *letter = arena_printf(ribbon->press->arena, "%c", block->letter);
    double wide = type_width(type, letter, face.size, face.weight), baseline = face.size * type_capital(type);
    double x = fmin(block->starts * ribbon->scale, ribbon->width - wide);
    if (x < ribbon->free)
        return;
    press_put(ribbon->press, ribbon->box, x, baseline, letter, face);
    ribbon->free = x + wide + 0.15 * face.size;
    const char *hour = ribbon->clock < 0 ? "" : time_at(ribbon, block->starts);
    double end = ribbon->free + 0.1 * face.size + type_width(type, hour, face.size, WEIGHT_REGULAR);
    if (!*hour || end + 0.4 * face.size > fmin(until, ribbon->width + 0.4 * face.size))
        return;
    press_put(ribbon->press, ribbon->box, ribbon->free + 0.1 * face.size, baseline, hour, ribbon->face);
    ribbon->free = end + 0.3 * face.size;
}

/* Minutes between two ticks, so that their numbers have room. */
static int tick_minutes(const struct ribbon *ribbon)
{
    static const int steps[] = {5, 10, 15, 30, 60};
    for (size_t i = 0; i < sizeof steps / sizeof *steps; i++)
        if (steps[i] * 60 * ribbon->scale > (ribbon->clock < 0 ? 2.4 : 3.4) * ribbon->face.size)
            return steps[i];
    return 60;
}

static void draw_scale(const struct ribbon *ribbon, int seconds)
{
    struct arena *arena = ribbon->press->arena;
    double below = ribbon->top + ribbon->height, tick = 0.22 * ribbon->face.size;
    double baseline = below + tick + 0.15 * ribbon->face.size +
                      ribbon->face.size * type_capital(ribbon->press->type);
    double end = seconds * ribbon->scale;
    const char *whole = arena_printf(arena, said(arena, "%d\u00a0min"), (seconds + 30) / 60);
    if (ribbon->clock >= 0)
        whole = time_at(ribbon, seconds + 59);
    double room = end - type_width(ribbon->press->type, whole, ribbon->face.size, WEIGHT_BOLD) -
                  0.6 * ribbon->face.size;
    int step = tick_minutes(ribbon);
    struct face plain = ribbon->face;
    plain.style.role = ROLE_SCALE;
    box_line(ribbon->box, 0, below, end, 0, 0.6, INK_BLACK);
    for (int minute = 0; minute * 60 <= seconds; minute += step) {
        double x = minute * 60 * ribbon->scale;
        const char *number = time_at(ribbon, 60 * minute);
        double wide = type_width(ribbon->press->type, number, ribbon->face.size, WEIGHT_REGULAR);
        box_line(ribbon->box, fmax(x, 0.3), below, 0, tick, 0.6, INK_BLACK);
        double left = fmax(0, x - wide / 2);
        if (left + wide < room)
            press_put(ribbon->press, ribbon->box, left, baseline, number, plain);
    }
    box_line(ribbon->box, end - 0.3, below, 0, tick, 0.6, INK_BLACK);
    struct face bold = ribbon->face;
    bold.weight = WEIGHT_BOLD;
    bold.style.ink = INK_BLACK;
    press_put_end(ribbon->press, ribbon->box, end, baseline, whole, bold);
    ribbon->box->height = baseline;
}

struct box *ribbon_box(const struct press *press, const struct occasion *occasion, double width,
                       double size, enum rank rank)
{
    struct box *box = box_new(press->arena);
    if (occasion->seconds <= 0)
        return box;
    double capital = size * type_capital(press->type);
    struct ribbon ribbon = {.press = press,
                            .box = box,
                            .scale = width / occasion->seconds,
                            .top = capital + 0.3 * size,
                            .height = 0.7 * size,
                            .width = width,
                            .clock = occasion->clock,
                            .face = {size, WEIGHT_REGULAR, {INK_GREY, rank, ROLE_PLAIN}}};
    for (size_t i = 0; i < occasion->block_count; i++) {
        draw_sets(&ribbon, &occasion->blocks[i]);
        double until = i + 1 < occasion->block_count ? occasion->blocks[i + 1].starts * ribbon.scale : width + size;
        draw_letter(&ribbon, &occasion->blocks[i], until);
    }
    draw_scale(&ribbon, occasion->seconds);
    box->width = width;
    return box;
}
