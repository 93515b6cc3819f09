#include "export/morning_view.h"

#include <math.h>

#include "export/athlete_json.h"
#include "export/json_text.h"
#include "export/show_programme.h"
#include "figures/dates.h"
#include "figures/morning.h"
#include "model/athlete.h"
#include "wording/wording.h"

/* The morning at INDEX compared with those before it. */
static struct morning_figure compare(const struct programme_view *view, const struct athlete *athlete, size_t index)
{
    int *before = arena_alloc(view->arena, (index + 1) * sizeof *before);
    for (size_t i = 0; i < index; i++)
        before[i] = athlete->mornings[i].sum;
    return morning_compare(athlete->mornings[index].sum, before, index);
}

/* In thousandths, to the nearest. */
static milli thousandths(double value)
{
    return (milli)llround(value * 1000);
}

void mornings_text(const struct programme_view *view, const struct athlete *athlete, int first, int last, struct text *out)
{
    for (size_t i = 0; view->private && i < athlete->morning_count; i++) {
        const struct morning *morning = &athlete->mornings[i];
        if (morning->day < first || morning->day > last)
            continue;
        char day[DATE_TEXT_SIZE];
        struct morning_figure figure = compare(view, athlete, i);
        text_addf(out, "  morning %s: %d of %d", date_format(morning->day, day), morning->sum, MORNING_BEST);
        if (figure.known)
            text_addf(out, ", usually %.1f over %zu days, %+.1f of the usual spread\n", figure.mean, i, figure.z);
        else
            text_addf(out, ", too few mornings before it to tell (%zu of %d)\n", i, MORNING_LEAST_DAYS);
    }
}

json_t *mornings_json(const struct programme_view *view, const struct athlete *athlete)
{
    json_t *list = json_array();
    for (size_t i = 0; i < athlete->morning_count; i++) {
        json_t *one = json_object();
        struct morning_figure figure = compare(view, athlete, i);
        json_put_day(view, one, "day", athlete->mornings[i].day);
        json_put_number(one, "sum", (size_t)athlete->mornings[i].sum);
        json_put_number(one, "days_before", i);
        if (figure.known) {
            json_put(one, "mean", json_decimal(thousandths(figure.mean)));
            json_put(one, "deviation", json_decimal(thousandths(figure.deviation)));
            json_put(one, "z", json_decimal(thousandths(figure.z)));
        }
        json_add(list, one);
    }
    return list;
}
