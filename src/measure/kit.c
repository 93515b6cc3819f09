#include "measure/kit.h"

#include <string.h>

#include "base/text.h"
#include "model/athlete.h"
#include "model/exercise.h"
#include "model/gym.h"
#include "model/occasion.h"
#include "model/season.h"

const struct gym *occasion_gym(const struct occasion *occasion)
{
    return occasion->gym ? occasion->gym : occasion->athlete->gym;
}

const struct language *occasion_language(const struct occasion *occasion)
{
    const struct gym *gym = occasion_gym(occasion);
    if (occasion->athlete->language)
        return occasion->athlete->language;
    return occasion->camp->language ? occasion->camp->language : gym ? gym->language : NULL;
}

const struct closure *gym_closed(const struct gym *gym, int day)
{
    for (size_t i = 0; gym && i < gym->closure_count; i++)
        if (day >= gym->closures[i].first && day <= gym->closures[i].last)
            return &gym->closures[i];
    return NULL;
}

enum mass_unit gym_unit(const struct gym *gym)
{
    return gym ? gym->unit : MASS_IN_KG;
}

static int pieces(const struct disc *discs, size_t count)
{
    int sum = 0;
    for (size_t i = 0; i < count; i++)
        sum += discs[i].count;
    return sum;
}

/* Pairs of equal pieces. */
static int pairs_of(const struct disc *discs, size_t count)
{
    int sum = 0;
    for (size_t i = 0; i < count; i++)
        sum += discs[i].count / 2;
    return sum;
}

static bool ends_in(const char *text, const char *end)
{
    size_t length = strlen(text), tail = strlen(end);
    return length >= tail && strcmp(text + length - tail, end) == 0;
}

/* What is listed by name: bars, stations, bands and the rest. */
static int named(const struct gym *gym, const char *name)
{
    int sum = 0;
    bool any_band = text_same(name, "band");
    for (size_t i = 0; i < gym->bar_count; i++)
        if (text_same(gym->bars[i].name.folded, name))
            sum += gym->bars[i].count;
    for (size_t i = 0; i < gym->other_count; i++) {
        const char *other = gym->others[i].name.folded;
        if (text_same(other, name) || (any_band && ends_in(other, " band")))
            sum += gym->others[i].count > 0 ? gym->others[i].count : 1;
    }
    return sum;
}

int gym_count(const struct gym *gym, const char *name)
{
    if (text_same(name, "wall") || text_same(name, "partner"))
        return 1;
    int found = named(gym, name);
    if (text_same(name, "plates") || text_same(name, "weight plate"))
        return found + pieces(gym->discs, gym->disc_count);
    if (text_same(name, "dumbbell"))
        return found + pieces(gym->dumbbells, gym->dumbbell_count);
    if (text_same(name, "dumbbells"))
        return found + pairs_of(gym->dumbbells, gym->dumbbell_count);
    if (text_same(name, "kettlebell"))
        return found + pieces(gym->kettlebells, gym->kettlebell_count);
    if (text_same(name, "kettlebells"))
        return found + pairs_of(gym->kettlebells, gym->kettlebell_count);
    if (text_same(name, "throwing ball"))
        return found + pieces(gym->balls, gym->ball_count);
    return found;
}

const struct need *gym_missing(const struct gym *gym, const struct exercise *exercise)
{
    for (size_t i = 0; i < exercise->need_count; i++)
        if (gym_count(gym, exercise->needs[i].name.folded) < exercise->needs[i].count)
            return &exercise->needs[i];
    return NULL;
}

bool exercise_needs(const struct exercise *exercise, const char *kit)
{
    for (size_t i = 0; i < exercise->need_count; i++)
        if (text_same(exercise->needs[i].name.folded, kit))
            return true;
    return false;
}
