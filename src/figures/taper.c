#include "figures/taper.h"

static const int64_t WHOLE = 100000; /* 100 % */

/* With these two no product below leaves 64 bits; a week's tonnage in grams is far under them. */
static const int64_t FIGURE_LIMIT = 100000000000;
enum { WEEKS_LIMIT = 52 };

bool taper_is_valid(const struct taper *taper)
{
    return taper->peak >= 1 && taper->peak <= FIGURE_LIMIT && taper->total >= 0
           && taper->total <= FIGURE_LIMIT && taper->weeks >= 1 && taper->weeks <= WEEKS_LIMIT;
}

int64_t taper_cut(const struct taper *taper)
{
    if (!taper_is_valid(taper))
        return 0;

    int64_t full = taper->peak * taper->weeks;
    int64_t above = (full - taper->total) * WHOLE;
    return above >= 0 ? (above + full / 2) / full : -((-above + full / 2) / full);
}

int taper_compare(const struct taper *taper, int64_t percent)
{
    int64_t full = taper->peak * taper->weeks;
    int64_t cut = (full - taper->total) * WHOLE;
    int64_t asked = full * percent;

    return (cut > asked) - (cut < asked);
}
