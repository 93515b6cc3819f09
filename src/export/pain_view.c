#include "export/pain_view.h"

#include "export/athlete_json.h"
#include "export/json_text.h"
#include "export/show_programme.h"
#include "model/athlete.h"

void pains_text(const struct programme_view *view, const struct athlete *athlete, int first, int last, struct text *out)
{
    for (size_t i = 0; view->private && i < athlete->pain_count; i++) {
        const struct pain *pain = &athlete->pains[i];
        if (pain->day >= first && pain->day <= last)
            text_addf(out, "  pain %s: %s, %d of 10\n", view_date(view->arena, pain->day), pain->shown, pain->score);
    }
}

json_t *pains_json(const struct programme_view *view, const struct athlete *athlete)
{
    json_t *list = json_array();
    for (size_t i = 0; i < athlete->pain_count; i++) {
        json_t *one = json_object();
        json_put_day(view, one, "day", athlete->pains[i].day);
        json_put_words(one, "place", athlete->pains[i].shown);
        json_put_number(one, "of_10", (size_t)athlete->pains[i].score);
        json_add(list, one);
    }
    return list;
}
