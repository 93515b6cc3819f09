#include "layout/chart.h"

#include <math.h>

#include "language/language.h"
#include "wording/wording.h"

/* No bar is wider, in points: a few weeks make no wall of ink. */
static const double BAR_MOST = 44;

/* Plot coordinates of one chart. */
struct plot {
    const struct press *press;
    const struct chart *chart;
    const struct chart_frame *frame;
    struct box *box;
    double top, bottom; /* of the axis, down from the piece's top */
    double most;        /* value at the top */
};

static struct face face_of(const struct chart_frame *frame, enum weight weight, enum ink ink)
{
    return (struct face){frame->size, weight, {ink, frame->rank, ROLE_PLAIN}};
}

static double capital(const struct plot *plot)
{
    return plot->frame->size * type_capital(plot->press->type);
}

double chart_step(double top, int most)
{
    double step = 1;
    for (int i = 0; top / step > most; i++)
        step *= i % 3 == 1 ? 2.5 : 2;
    return step;
}

void chart_spread(const double *wanted, double *got, size_t count, const double *heights,
                  double top, double bottom)
{
    double least = top;
    for (size_t i = 0; i < count; i++) {
        got[i] = fmax(wanted[i], least + heights[i] / 2);
        least = got[i] + heights[i] / 2;
    }
    double most = bottom;
    for (size_t i = count; i > 0; i--) {
        got[i - 1] = fmin(got[i - 1], most - heights[i - 1] / 2);
        most = got[i - 1] - heights[i - 1] / 2;
    }
}

/* --- values --- */

static double bar_top(const struct chart *chart, size_t column)
{
    double top = 0;
    for (size_t i = 0; i < chart->bar_count; i++)
        if (!isnan(chart->bars[i].values[column]))
            top += chart->bars[i].values[column];
    return top;
}

static double most_of(const double *values, size_t count, double most)
{
    for (size_t i = 0; values && i < count; i++)
        if (!isnan(values[i]))
            most = fmax(most, values[i]);
    return most;
}

/* The highest value drawn; limits far above everything are only named in words. */
static double highest(const struct chart *chart)
{
    double most = most_of(chart->line.values, chart->columns, most_of(chart->done, chart->columns, chart->least));
    for (size_t c = 0; c < chart->columns; c++)
        most = fmax(most, bar_top(chart, c));
    double limits = most;
    for (size_t i = 0; i < chart->limit_count; i++)
        limits = most_of(chart->limits[i].values, chart->columns, limits);
    return most > chart->least ? limits : chart->least;
}

static double x_of(const struct plot *plot, double share)
{
    return plot->frame->left + share * plot->frame->width;
}

static double y_of(const struct plot *plot, double value)
{
    double least = plot->chart->least;
    double share = (fmin(value, plot->most) - least) / (plot->most - least);
    return plot->bottom - fmax(0, share) * (plot->bottom - plot->top);
}

/* --- axis --- */

static void draw_axis(const struct plot *plot)
{
    double size = plot->frame->size, least = plot->chart->least;
    int room = (int)((plot->bottom - plot->top) / (1.5 * size));
    double step = chart_step(plot->most - least, room < 1 ? 1 : room > 4 ? 4 : room);
    double left = x_of(plot, 0), right = x_of(plot, 1);
    int steps = (int)((plot->most - least) / step + 1e-6);
    for (int i = 0; i <= steps; i++) {
        double value = least + i * step, y = y_of(plot, value);
        const char *number = wording_number(plot->press->arena, (milli)llround(value * 1000));
        if (i > 0)
            box_line(plot->box, left, y, right - left, 0, 0.4, INK_HAIR);
        box_line(plot->box, left - 2.5, y, 2.5, 0, 0.6, INK_BLACK);
        struct face face = face_of(plot->frame, WEIGHT_REGULAR, INK_GREY);
        face.style.role = ROLE_SCALE;
        press_put_end(plot->press, plot->box, left - 4, y + capital(plot) / 2, number, face);
    }
    box_line(plot->box, left, plot->top, 0, plot->bottom - plot->top, 0.6, INK_BLACK);
}

/* --- bars and line --- */

static void fill_swatch(struct element *rectangle, enum shade shade)
{
    static const enum ink fills[] = {[SHADE_FULL] = INK_BLACK,
                                     [SHADE_HALF] = INK_GREY,
                                     [SHADE_PALE] = INK_HAIR,
                                     [SHADE_OPEN] = INK_PAPER};
    rectangle->fill = fills[shade];
    rectangle->stroke = INK_BLACK;
    rectangle->stroke_width = 0.6;
}

static void draw_bar(const struct plot *plot, size_t column)
{
    const struct chart *chart = plot->chart;
    double left = x_of(plot, chart->edges[column]), right = x_of(plot, chart->edges[column + 1]);
    double inset = fmax(0.18 * (right - left), (right - left - BAR_MOST) / 2), low = 0;
    for (size_t i = 0; i < chart->bar_count; i++) {
        double value = chart->bars[i].values[column];
        if (isnan(value) || value <= 0)
            continue;
        double bottom = y_of(plot, low), top = y_of(plot, low + value);
        fill_swatch(box_rectangle(plot->box, left + inset, top, right - left - 2 * inset,
                                  bottom - top, INK_NONE, INK_NONE, 0),
                    chart->bars[i].shade);
        low += value;
    }
}

/* What was done, as a narrow column within its bar; white around it keeps the two apart in black and grey alike. */
static void draw_done(const struct plot *plot, size_t column)
{
    const struct chart *chart = plot->chart;
    double value = chart->done ? chart->done[column] : NAN;
    if (isnan(value))
        return;
    double left = x_of(plot, chart->edges[column]), right = x_of(plot, chart->edges[column + 1]);
    double middle = (left + right) / 2, half = fmin(0.11 * (right - left), 0.17 * BAR_MOST), top = y_of(plot, value);
    if (chart->bar_count == 0) {
        box_line(plot->box, middle - 2 * half, top, 4 * half, 0, 1.6, INK_BLACK);
        return;
    }
    if (plot->bottom - top > 1.2)
        box_rectangle(plot->box, middle - half - 1.2, top - 1.2, 2 * half + 2.4, plot->bottom - top + 1.2, INK_PAPER, INK_NONE, 0);
    box_rectangle(plot->box, middle - half, fmin(top, plot->bottom - 1), 2 * half, fmax(1, plot->bottom - top), INK_BLACK, INK_NONE, 0);
}

/* "1620 of 1675" of what is done in part or whole, else "1675"; with the column's mark. As much as WIDTH holds. */
static const char *number_words(const struct plot *plot, size_t column, double value, struct face face, double width)
{
    const struct chart *chart = plot->chart;
    struct arena *arena = plot->press->arena;
    double done = chart->done ? chart->done[column] : NAN;
    const char *mark = chart->marks && *chart->marks[column] ? arena_printf(arena, " %s", chart->marks[column]) : "";
    const char *planned = wording_number(arena, (milli)llround(value) * 1000);
    const char *whole = arena_printf(arena, "%s%s", planned, mark);
    if (isnan(done))
        return whole;
    const char *const joints[] = {said(arena, " of "), "/"};
    for (size_t i = 0; i < sizeof joints / sizeof *joints; i++) {
        const char *both = arena_printf(arena, "%s%s%s", wording_number(arena, (milli)llround(done) * 1000), joints[i], whole);
        if (type_width(plot->press->type, both, face.size, face.weight) <= width)
            return both;
    }
    return whole;
}

/* BASELINE, or above the lines of limits that letters HIGH would stand on. */
static double above_limits(const struct plot *plot, size_t column, double baseline, double high)
{
    const struct chart *chart = plot->chart;
    for (size_t tries = 0; tries < chart->limit_count; tries++)
        for (size_t i = 0; i < chart->limit_count; i++) {
            double value = chart->limits[i].values[column], y = isnan(value) ? -1 : y_of(plot, value);
            if (y > baseline - high - 1.5 && y < baseline + 1.5 && y - 2.5 - high >= -high)
                baseline = y - 2.5;
        }
    return baseline;
}

/* VALUE above its column and off the lines of limits, on a ground of paper, so that the axis' lines do not cross it. */
static void draw_number(const struct plot *plot, size_t column, double value, double gap)
{
    const struct chart *chart = plot->chart;
    double left = x_of(plot, chart->edges[column]), right = x_of(plot, chart->edges[column + 1]);
    struct face face = face_of(plot->frame, WEIGHT_BOLD, INK_BLACK);
    face.style.role = ROLE_CELL;
    const char *number = number_words(plot, column, value, face, right - left - 2);
    double wide = type_width(plot->press->type, number, face.size, face.weight), high = capital(plot);
    double done = chart->done && chart->done[column] > value ? chart->done[column] : value;
    double baseline = above_limits(plot, column, y_of(plot, done) - gap, high);
    if (wide > right - left - 2)
        return;
    double x = (left + right - wide) / 2;
    box_rectangle(plot->box, x - 1, baseline - high - 1, wide + 2, high + 2, INK_PAPER, INK_NONE, 0);
    press_put(plot->press, plot->box, x, baseline, number, face);
}

static void draw_line(const struct plot *plot)
{
    const struct chart *chart = plot->chart;
    double last_x = 0, last_y = 0;
    bool open = false;
    for (size_t c = 0; chart->line.values && c < chart->columns; c++) {
        double value = chart->line.values[c];
        double x = x_of(plot, (chart->edges[c] + chart->edges[c + 1]) / 2);
        double y = isnan(value) ? 0 : y_of(plot, value);
        if (open && !isnan(value))
            box_line(plot->box, last_x, last_y, x - last_x, y - last_y, 1.6, INK_BLACK);
        open = !isnan(value);
        last_x = x;
        last_y = y;
    }
    for (size_t c = 0; chart->line.values && c < chart->columns; c++)
        if (!isnan(chart->line.values[c])) {
            double x = x_of(plot, (chart->edges[c] + chart->edges[c + 1]) / 2), r = 2.2;
            box_rectangle(plot->box, x - r, y_of(plot, chart->line.values[c]) - r, 2 * r, 2 * r,
                          INK_BLACK, INK_PAPER, 0.6)
                ->radius = r;
        }
}

static void draw_numbers(const struct plot *plot)
{
    const struct chart *chart = plot->chart;
    for (size_t c = 0; c < chart->columns; c++) {
        box_open(plot->box, ROLE_DATUM);
        if (bar_top(chart, c) > 0 || (chart->done && chart->done[c] > 0 && chart->bar_count))
            draw_number(plot, c, bar_top(chart, c), 2.2);
        if (chart->line.values && !isnan(chart->line.values[c]))
            draw_number(plot, c, chart->line.values[c], 4.2);
        box_close(plot->box, ROLE_DATUM);
    }
}

/* --- limits --- */

/* The line of a limit, column by column; returns where it ends. False if it applies nowhere. */
static bool draw_limit(const struct plot *plot, const struct chart_limit *limit, double *end_x,
                       double *end_y)
{
    const struct chart *chart = plot->chart;
    bool open = false, any = false;
    double last = 0;
    for (size_t c = 0; c < chart->columns; c++) {
        double value = limit->values[c];
        bool holds = !isnan(value);
        double left = x_of(plot, fmax(limit->left, chart->edges[c]));
        double right = x_of(plot, fmin(limit->right > 0 ? limit->right : 1, chart->edges[c + 1]));
        double y = holds ? y_of(plot, value) : 0;
        holds = holds && right > left;
        if (holds && open && fabs(y - last) > 0.01)
            box_line(plot->box, left, last, 0, y - last, 1.1, INK_SPOT);
        if (holds) {
            box_line(plot->box, left, y, right - left, 0, 1.1, INK_SPOT);
            *end_x = right;
            *end_y = last = y;
            any = true;
        }
        open = holds;
    }
    return any;
}

/* Dots from where a limit ends to its words, so that it does not seem to apply there. */
static void draw_leader(const struct plot *plot, double from, double to, double y)
{
    int dots = (int)ceil((to - from - 3) / 4);
    for (int i = 0; i < dots; i++)
        box_line(plot->box, from + 3 + 4 * i, y, 0.9, 0, 0.6, INK_SPOT);
}

/* Where lines of limits end, the highest first, and what is to be said there. */
struct limit_ends {
    double x[CHART_LIMITS], y[CHART_LIMITS];
    const char *words[CHART_LIMITS];
    size_t count;
};

/* The lines of all limits. */
static struct limit_ends draw_limits(const struct plot *plot)
{
    const struct chart *chart = plot->chart;
    struct limit_ends ends = {.count = 0};
    for (size_t i = 0; i < chart->limit_count; i++) {
        double x = 0, y = 0;
        if (!draw_limit(plot, &chart->limits[i], &x, &y))
            continue;
        size_t at = ends.count++;
        for (; at > 0 && ends.y[at - 1] > y; at--) {
            ends.x[at] = ends.x[at - 1];
            ends.y[at] = ends.y[at - 1];
            ends.words[at] = ends.words[at - 1];
        }
        ends.x[at] = x;
        ends.y[at] = y;
        ends.words[at] = chart->limits[i].words;
    }
    return ends;
}

/* What a limit says, broken where the gutter is too narrow for it. */
static struct box *limit_words(const struct press *press, const struct chart_frame *frame, const char *words)
{
    return press_paragraph(press, words, face_of(frame, WEIGHT_REGULAR, INK_SPOT), frame->right - 11, 0, 0.95, false);
}

/* How much of the gutter they take, with a little space. */
static double limit_height(const struct press *press, const struct chart_frame *frame,
                           const char *words)
{
    return limit_words(press, frame, words)->height + 0.3 * frame->size;
}

/* The words of all limits in the right gutter, each led to from the end of its line. */
static void draw_limit_words(const struct plot *plot, const struct limit_ends *ends)
{
    double x = x_of(plot, 1), got[CHART_LIMITS], heights[CHART_LIMITS] = {0};
    for (size_t i = 0; i < ends->count; i++)
        heights[i] = limit_height(plot->press, plot->frame, ends->words[i]);
    chart_spread(ends->y, got, ends->count, heights, 0, plot->frame->height);
    for (size_t i = 0; i < ends->count; i++) {
        struct box *words = limit_words(plot->press, plot->frame, ends->words[i]);
        draw_leader(plot, ends->x[i], x + 3, ends->y[i]);
        box_line(plot->box, x + 3, ends->y[i], 5, got[i] - ends->y[i], 0.5, INK_SPOT);
        box_place(plot->box, words, x + 10, got[i] - (words->height - 0.22 * plot->frame->size) / 2);
    }
}

/* --- title and legend --- */

static double axis_width(const struct plot *plot)
{
    const char *number = wording_number(plot->press->arena, (milli)ceil(plot->most) * 1000);
    return type_width(plot->press->type, number, plot->frame->size, WEIGHT_REGULAR) + 10;
}

static double put_entry(const struct plot *plot, struct box *box, double y,
                        const struct chart_series *series)
{
    double size = plot->frame->size, side = 0.72 * size;
    fill_swatch(box_rectangle(box, 0.3, y, side, side, INK_NONE, INK_NONE, 0), series->shade);
    press_put(plot->press, box, side + 4, y + (side + capital(plot)) / 2, series->name,
              face_of(plot->frame, WEIGHT_REGULAR, INK_BLACK));
    return y + 1.22 * size;
}

/* Title, unit and a line for each series that has a name. The legend reads downwards as the stack stands. */
static struct box *title_box(const struct plot *plot)
{
    const struct chart *chart = plot->chart;
    const struct press *press = plot->press;
    double size = plot->frame->size, width = plot->frame->left - axis_width(plot);
    struct box *box = box_new(press->arena);
    struct face bold = face_of(plot->frame, WEIGHT_BOLD, INK_BLACK);
    bold.style.role = ROLE_HEADING;
    struct box *title = press_paragraph(press, chart->title, bold, width, 0, 0.95, false);
    box_place(box, title, 0, 0);
    double y = title->height + 0.15 * size;
    if (*chart->unit) {
        struct box *unit =
            press_paragraph(press, chart->unit, face_of(plot->frame, WEIGHT_REGULAR, INK_GREY),
                            width, 0, 0.95, false);
        box_place(box, unit, 0, y);
        y += unit->height + 0.15 * size;
    }
    y += 0.25 * size;
    for (size_t i = chart->bar_count; i > 0; i--)
        if (*chart->bars[i - 1].name)
            y = put_entry(plot, box, y, &chart->bars[i - 1]);
    box->height = y;
    return box;
}

/* Names under the columns. */
static void draw_names(const struct plot *plot)
{
    const struct chart *chart = plot->chart;
    struct face face = face_of(plot->frame, WEIGHT_REGULAR, INK_BLACK);
    face.style.role = ROLE_CELL;
    if (!chart->names)
        return;
    box_open(plot->box, ROLE_ROW);
    box_place_as(plot->box, ROLE_HEAD, NULL, 0, 0);
    for (size_t c = 0; c < chart->columns; c++) {
        double middle = x_of(plot, (chart->edges[c] + chart->edges[c + 1]) / 2);
        double wide = type_width(plot->press->type, chart->names[c], face.size, face.weight);
        box_open(plot->box, ROLE_HEAD);
        press_put(plot->press, plot->box, middle - wide / 2,
                  plot->bottom + 0.35 * face.size + capital(plot), chart->names[c], face);
        box_close(plot->box, ROLE_HEAD);
    }
    box_close(plot->box, ROLE_ROW);
}

/* The title and the columns' numbers, or why there are none, as the rows of a table. */
static void draw_table(const struct plot *plot, bool empty)
{
    const struct chart *chart = plot->chart;
    box_open(plot->box, ROLE_TABLE);
    draw_names(plot);
    box_open(plot->box, ROLE_ROW);
    box_place_as(plot->box, ROLE_HEAD, title_box(plot), 0, 0);
    if (empty) {
        struct face face = face_of(plot->frame, WEIGHT_REGULAR, INK_GREY);
        double middle = (plot->top + plot->bottom + capital(plot)) / 2;
        face.style.role = ROLE_CELL;
        box_open(plot->box, ROLE_DATUM);
        press_put(plot->press, plot->box, x_of(plot, 0) + 6, middle, chart->nothing, face);
        box_close(plot->box, ROLE_DATUM);
    } else
        draw_numbers(plot);
    box_close(plot->box, ROLE_ROW);
    box_close(plot->box, ROLE_TABLE);
}

static struct plot plot_of(const struct press *press, const struct chart *chart,
                           const struct chart_frame *frame)
{
    struct plot plot = {.press = press, .chart = chart, .frame = frame};
    /* Above the plot stands the number of the highest bar, below it half a number of the axis. */
    plot.top = 1.15 * frame->size;
    plot.bottom = frame->height - (chart->names ? 1.3 : 0.45) * frame->size;
    double most = highest(chart), least = chart->least;
    double step = chart_step(most - least, 4);
    plot.most = least + fmax(1, ceil((most - least) / step - 1e-9)) * step;
    return plot;
}

double chart_least_height(const struct press *press, const struct chart *chart,
                          const struct chart_frame *frame)
{
    struct plot plot = plot_of(press, chart, frame);
    double words = 0;
    for (size_t i = 0; i < chart->limit_count; i++)
        words += limit_height(press, frame, chart->limits[i].words);
    return fmax(title_box(&plot)->height, fmax(4 * frame->size, words));
}

bool chart_holds_numbers(const struct press *press, const struct chart *chart, const struct chart_frame *frame)
{
    struct plot plot = plot_of(press, chart, frame);
    struct face face = face_of(frame, WEIGHT_BOLD, INK_BLACK);
    for (size_t c = 0; c < chart->columns; c++) {
        double value = fmax(bar_top(chart, c), chart->line.values && !isnan(chart->line.values[c]) ? chart->line.values[c] : 0);
        double width = (chart->edges[c + 1] - chart->edges[c]) * frame->width - 2;
        if (value > 0 && type_width(press->type, number_words(&plot, c, value, face, width), face.size, face.weight) > width)
            return false;
    }
    return true;
}

struct box *chart_box(const struct press *press, const struct chart *chart,
                      const struct chart_frame *frame)
{
    struct plot plot = plot_of(press, chart, frame);
    struct limit_ends ends = {.count = 0};
    bool empty = highest(chart) <= chart->least;
    plot.box = box_new(press->arena);
    if (!empty) {
        draw_axis(&plot);
        for (size_t c = 0; c < chart->columns; c++)
            draw_bar(&plot, c);
        for (size_t c = 0; c < chart->columns; c++)
            draw_done(&plot, c);
        ends = draw_limits(&plot);
        draw_line(&plot);
    }
    draw_table(&plot, empty);
    draw_limit_words(&plot, &ends);
    box_line(plot.box, x_of(&plot, 0), plot.bottom, frame->width, 0, 0.8, INK_BLACK);
    plot.box->width = frame->left + frame->width + frame->right;
    plot.box->height = frame->height;
    return plot.box;
}
