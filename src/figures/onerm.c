#include "figures/onerm.h"

#include <math.h>
#include <stddef.h>
#include <string.h>

static double epley(double load, double reps)
{
    return load * (1.0 + reps / 30.0);
}

static double brzycki(double load, double reps)
{
    return 36.0 * load / (37.0 - reps);
}

static double lombardi(double load, double reps)
{
    return load * pow(reps, 0.10);
}

static double mayhew(double load, double reps)
{
    return 100.0 * load / (52.2 + 41.9 * exp(-0.055 * reps));
}

static double oconner(double load, double reps)
{
    return load * (1.0 + 0.025 * reps);
}

static double wathen(double load, double reps)
{
    return 100.0 * load / (48.8 + 53.8 * exp(-0.075 * reps));
}

static double lander(double load, double reps)
{
    return 100.0 * load / (101.3 - 2.67123 * reps);
}

struct equation {
    const char *name;
    const char *source;
    double (*maximum)(double load, double reps);
    int reps_last; /* the last count that the equation can take */
};

/* In the order of enum onerm_equation. */
static const struct equation equations[ONERM_EQUATIONS] = {
    {"epley", "Epley 1985, Poundage Chart", epley, ONERM_REPS_LIMIT},
    {"brzycki", "Brzycki 1993, JOPERD 64(1):88-90", brzycki, 36},
    {"lombardi", "Lombardi 1989, Beginning Weight Training", lombardi, ONERM_REPS_LIMIT},
    {"mayhew", "Mayhew et al. 1992, J Appl Sport Sci Res 6(4):200-206", mayhew, ONERM_REPS_LIMIT},
    {"oconner", "O'Conner, Simmons and O'Shea 1989, Weight Training Today", oconner,
     ONERM_REPS_LIMIT},
    {"wathen", "Wathen 1994, Load Assignment, in Essentials of Strength Training and Conditioning",
     wathen, ONERM_REPS_LIMIT},
    {"lander", "Lander 1985, NSCA Journal 6(6):60-61", lander, 36},
};

static const struct equation *equation_find(enum onerm_equation equation)
{
    /* Through unsigned, since a compiler may give the enumeration a signed type or not. */
    return (unsigned)equation < ONERM_EQUATIONS ? &equations[equation] : NULL;
}

const char *onerm_source(enum onerm_equation equation)
{
    const struct equation *row = equation_find(equation);
    return row != NULL ? row->source : NULL;
}

bool onerm_from_name(const char *name, enum onerm_equation *equation)
{
    for (int i = 0; i < ONERM_EQUATIONS; i++) {
        if (strcmp(equations[i].name, name) == 0) {
            *equation = (enum onerm_equation)i;
            return true;
        }
    }
    return false;
}

enum onerm_status onerm_real(enum onerm_equation equation, double load, int reps, double *maximum)
{
    const struct equation *row = equation_find(equation);

    *maximum = 0.0;
    if (row == NULL || !(load > 0.0) || load > (double)ONERM_LOAD_LIMIT || reps < 1
        || reps > row->reps_last)
        return ONERM_REFUSED;
    *maximum = reps == 1 ? load : row->maximum(load, reps);
    return reps <= ONERM_REPS_MOST ? ONERM_OK : ONERM_OUTSIDE;
}

double onerm_at(enum onerm_equation equation, double load, double reps)
{
    const struct equation *row = equation_find(equation);

    if (row == NULL || !(load > 0.0) || load > (double)ONERM_LOAD_LIMIT || !(reps >= 1.0) || reps > row->reps_last)
        return 0.0;
    return reps > 1.0 ? row->maximum(load, reps) : load;
}

enum onerm_status onerm_estimate(enum onerm_equation equation, int64_t load, int reps,
                                 int64_t *maximum)
{
    double real;
    /* A double represents every load under the limit exactly; anything above is refused either way. */
    enum onerm_status status = onerm_real(equation, (double)load, reps, &real);

    *maximum = status == ONERM_REFUSED ? 0 : mass_round_in((int64_t)llround(real), mass_written_in(load));
    return status;
}
