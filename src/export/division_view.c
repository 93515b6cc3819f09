#include "export/division_view.h"

#include "export/show_programme.h"
#include "figures/dates.h"
#include "figures/mass.h"
#include "measure/member.h"
#include "measure/person.h"
#include "model/athlete.h"
#include "model/season.h"

static const char *mass_words(const struct programme_view *view, mass value, enum mass_unit unit)
{
    char text[MASS_TEXT_SIZE];
    return arena_printf(view->arena, "%s %s", mass_format(value, unit, text), mass_unit_name(unit));
}

void division_text(const struct programme_view *view, const struct athlete *athlete, const struct camp *camp, int day,
                   struct text *out)
{
    enum { GROWN = 18 };
    const struct body_mass *last = NULL;
    const struct bout *bout = camp_next_bout(camp, day);
    if (!view->private || !bout || !bout->division || athlete_is_young(athlete, day) || athlete_under(athlete, day, GROWN))
        return;
    for (size_t i = 0; i < athlete->mass_count; i++)
        if (athlete->masses[i].date <= day && (!last || athlete->masses[i].date > last->date))
            last = &athlete->masses[i];
    if (!last)
        return;
    enum mass_unit unit = mass_written_in(bout->division);
    mass above = last->mass - bout->division;
    char date[DATE_TEXT_SIZE];
    text_addf(out, "  division of %s: %s on %s", mass_words(view, bout->division, unit), mass_words(view, last->mass, unit),
              date_format(last->date, date));
    if (above > 0)
        text_addf(out, ", %s above it; a doctor or a dietitian plans how weight is made\n", mass_words(view, above, unit));
    else
        text_add(out, ", not above it\n");
}
