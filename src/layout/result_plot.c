/* result_plot.c - results of one test as points with their error. */
#include <math.h>

#include "layout/test_results.h"

static const double DOT = 4.2, CAP = 5, HATCH = 2.2, BESIDE = 38, AROUND = 4, PAST = 6;

/* Where results stand: the axis of values, which each plot has of its own. */
struct axes {
    const struct result_plot *plot;
    double low, high; /* values at the plot's bottom and top */
    double top, room; /* within its height, below and above the figures */
};

double result_x(int day, int first, int last, double width)
{
    return BESIDE + (width - 2 * BESIDE) * ((double)(day - first) + 0.5) / (double)(last - first + 1);
}

static double x_of(const struct axes *axes, int day)
{
    return result_x(day, axes->plot->first, axes->plot->last, axes->plot->width);
}

static double y_of(const struct axes *axes, double value)
{
    return axes->top + axes->room * (axes->high - value) / (axes->high - axes->low);
}

static void widen(struct axes *axes, double middle, double by)
{
    axes->low = fmin(axes->low, middle - by);
    axes->high = fmax(axes->high, middle + by);
}

static double least_of(const struct result_plot *plot)
{
    return reliability_least_change(test_error_at(plot->error, plot->values.items[0].value));
}

static struct axes axes_of(const struct result_plot *plot)
{
    double first = plot->values.items[0].value;
    struct axes axes = {.plot = plot, .low = first, .high = first, .top = AROUND, .room = plot->height - 2 * AROUND};
    widen(&axes, first, least_of(plot));
    for (size_t i = 0; i < plot->values.count; i++)
        widen(&axes, plot->values.items[i].value, test_error_at(plot->error, plot->values.items[i].value));
    if (!(axes.high > axes.low))
        widen(&axes, first, fmax(1, fabs(first) / 10));
    return axes;
}

/* What the first result may differ from a later one by without anything having changed. */
static void draw_band(struct box *box, const struct axes *axes)
{
    const struct test_value *first = &axes->plot->values.items[0];
    double least = least_of(axes->plot), left = x_of(axes, first->date);
    if (!(least > 0) || axes->plot->values.count < 2)
        return;
    double top = y_of(axes, first->value + least), bottom = y_of(axes, first->value - least);
    double width = x_of(axes, axes->plot->values.items[axes->plot->values.count - 1].date) + PAST - left;
    for (double y = top; y < bottom; y += HATCH)
        box_line(box, left, y, width, 0, 0.4, INK_HAIR);
    box_line(box, left, top, width, 0, 0.6, INK_GREY);
    box_line(box, left, bottom, width, 0, 0.6, INK_GREY);
}

static void draw_point(struct box *box, const struct axes *axes, const struct test_value *one, bool end)
{
    double x = x_of(axes, one->date), y = y_of(axes, one->value);
    double error = test_error_at(axes->plot->error, one->value);
    if (error > 0) {
        double top = y_of(axes, one->value + error), bottom = y_of(axes, one->value - error);
        box_line(box, x, top, 0, bottom - top, 0.9, INK_BLACK);
        box_line(box, x - CAP / 2, top, CAP, 0, 0.9, INK_BLACK);
        box_line(box, x - CAP / 2, bottom, CAP, 0, 0.9, INK_BLACK);
    }
    double size = end ? 1.25 * DOT : DOT;
    struct element *dot = box_rectangle(box, x - size / 2, y - size / 2, size, size, end ? INK_BLACK : INK_PAPER, INK_BLACK, 1);
    dot->radius = size / 2;
}

/* The figure of ONE beside its point, before or behind it. */
static void put_figure(const struct frame *frame, struct box *box, const struct axes *axes, const struct test_value *one,
                       bool before)
{
    const char *words = test_figure(frame->press.arena, axes->plot->error->test, one->value);
    struct face face = frame_face(frame->second, WEIGHT_BOLD, INK_BLACK, RANK_SECOND);
    double x = x_of(axes, one->date), y = y_of(axes, one->value) + frame_capital(frame, face.size) / 2;
    if (before)
        press_put_end(&frame->press, box, x - CAP / 2 - 3, y, words, face);
    else
        press_put(&frame->press, box, x + PAST + 3, y, words, face);
}

struct box *result_plot_box(const struct frame *frame, const struct result_plot *plot)
{
    struct box *box = box_new(frame->press.arena);
    struct axes axes = axes_of(plot);
    const struct test_value *items = plot->values.items;
    size_t last = plot->values.count - 1;
    draw_band(box, &axes);
    for (size_t i = 0; i < last; i++)
        box_line(box, x_of(&axes, items[i].date), y_of(&axes, items[i].value),
                 x_of(&axes, items[i + 1].date) - x_of(&axes, items[i].date),
                 y_of(&axes, items[i + 1].value) - y_of(&axes, items[i].value), 0.5, INK_GREY);
    for (size_t i = 0; i <= last; i++)
        draw_point(box, &axes, &items[i], i == last);
    if (last)
        put_figure(frame, box, &axes, &items[0], true);
    put_figure(frame, box, &axes, &items[last], false);
    box->width = plot->width;
    box->height = plot->height;
    return box;
}
