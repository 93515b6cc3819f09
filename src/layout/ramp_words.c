#include "layout/ramp_words.h"

#include <string.h>

#include "base/text.h"
#include "language/language.h"
#include "measure/demand.h"
#include "measure/kit.h"
#include "measure/loads.h"
#include "model/exercise.h"
#include "model/occasion.h"
#include "wording/wording.h"

static bool is_alike(const struct kit *bar, const struct kit *other)
{
    return other && bar->mass == other->mass && strcmp(bar->name.folded, other->name.folded) == 0;
}

const char *ramp_words(struct arena *arena, const struct occasion *occasion, const struct item *item)
{
    struct ramp_step steps[RAMP_STEPS];
    if (item != occasion_ramped(occasion))
        return "";
    const struct load *working = &item->runs[0].load;
    int count = load_ramp(occasion_gym(occasion), item->exercise, working, steps);
    struct text out = {.arena = arena};
    for (int i = 0; i < count; i++) {
        const struct kit *bar = steps[i].load.plating.bar;
        text_addf(&out, "%s%d" WORDING_GAP WORDING_TIMES WORDING_GAP "%s",
                  i ? ", " : said(arena, "Warm up: "), steps[i].reps,
                  wording_load_mass(arena, &steps[i].load, false));
        if (bar && !is_alike(bar, working->plating.bar))
            text_addf(&out, " (%s)", wording_bar(arena, bar));
    }
    return text_keep(arena, &out);
}
