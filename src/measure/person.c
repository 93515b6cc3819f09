#include "measure/person.h"

#include "figures/dates.h"
#include "model/athlete.h"

const char *athlete_called(const struct athlete *athlete)
{
    return athlete->called ? athlete->called : athlete->name.shown;
}

int athlete_age(const struct athlete *athlete, int day)
{
    int born_year, born_month, born_day, year, month, of_month;
    if (!date_to_ymd(athlete->born, &born_year, &born_month, &born_day) ||
        !date_to_ymd(day, &year, &month, &of_month))
        return -1;
    bool before_birthday = month < born_month || (month == born_month && of_month < born_day);
    return year - born_year - before_birthday;
}

bool athlete_under(const struct athlete *athlete, int day, int age)
{
    int years = athlete_age(athlete, day);
    return years >= 0 ? years < age : athlete->under_age > 0 && athlete->under_age <= age;
}

bool athlete_is_young(const struct athlete *athlete, int day)
{
    enum { GROWN = 18 };
    struct athlete person = *athlete;
    if (!person.born && !person.under_age)
        person.born = person.born_private;
    return athlete_under(&person, day, GROWN);
}

bool athlete_is_aged(const struct athlete *athlete, int day, int from, int below)
{
    int years = athlete_age(athlete, day);
    if (years < 0)
        return from == 0 && below > 0 && athlete_under(athlete, day, below);
    return years >= from && (!below || years < below);
}

bool athlete_level_known(const struct athlete *athlete)
{
    return athlete->level_given || athlete->lifting_since;
}

enum level athlete_level_on(const struct athlete *athlete, int day)
{
    if (athlete->level_given || !athlete->lifting_since)
        return athlete->level;
    int year, month, of_month, since_year, since_month, since_day;
    if (!date_to_ymd(day, &year, &month, &of_month) ||
        !date_to_ymd(athlete->lifting_since, &since_year, &since_month, &since_day))
        return LEVEL_NOVICE;
    int months = (year - since_year) * 12 + month - since_month;
    return months < 12 ? LEVEL_NOVICE : months < 36 ? LEVEL_INTERMEDIATE : LEVEL_ADVANCED;
}
