#include "measure/member.h"

#include "figures/dates.h"
#include "model/programme.h"

bool member_on(const struct camp *camp, size_t index, int day)
{
    return !camp->members || (day >= camp->members[index].first && day <= camp->members[index].last);
}

bool camp_lists(const struct camp *camp, const struct athlete *athlete)
{
    for (size_t i = 0; i < camp->athlete_count; i++)
        if (camp->athletes[i] == athlete)
            return true;
    return false;
}

bool camp_has(const struct camp *camp, const struct athlete *athlete, int day)
{
    return camp_has_between(camp, athlete, day, day);
}

bool camp_has_between(const struct camp *camp, const struct athlete *athlete, int first, int last)
{
    for (size_t i = 0; i < camp->athlete_count; i++)
        if (camp->athletes[i] == athlete &&
            (!camp->members || (camp->members[i].first <= last && camp->members[i].last >= first)))
            return true;
    return false;
}

bool camp_has_partly(const struct camp *camp, const struct athlete *athlete, int first, int last)
{
    for (size_t i = 0; camp->members && i < camp->athlete_count; i++) {
        const struct membership *member = &camp->members[i];
        bool joins = member->first > first && member->first <= last;
        bool leaves = member->last >= first && member->last < last;
        if (camp->athletes[i] == athlete && (joins || leaves))
            return true;
    }
    return false;
}

bool bout_is_on(const struct bout *bout, int day)
{
    for (size_t i = 0; i < bout->day_count && !bout->cancelled; i++)
        if (bout->days[i] == day)
            return !bout->out || day <= bout->out;
    return false;
}

int bout_end(const struct bout *bout)
{
    return bout->out ? bout->out : bout->last;
}

int bout_as_planned(const struct bout *bout, int day)
{
    return day < bout->moved_on ? bout->planned : bout->day;
}

const struct bout *camp_bout_on(const struct camp *camp, int day)
{
    for (size_t i = 0; i < camp->bout_count; i++)
        if (bout_is_on(camp->bouts[i], day))
            return camp->bouts[i];
    return NULL;
}

const struct bout *camp_next_bout(const struct camp *camp, int day)
{
    const struct bout *next = NULL;
    for (size_t i = 0; i < camp->bout_count; i++) {
        const struct bout *bout = camp->bouts[i];
        int first = bout_as_planned(bout, day);
        bool over = day > first + bout->last - bout->day || (bout->cancelled && day >= bout->cancelled);
        if (!over && (!next || first < bout_as_planned(next, day)))
            next = bout;
    }
    return next;
}

int camp_towards_from(const struct camp *camp, int day)
{
    int first = camp->first;
    for (size_t i = 0; i + 1 < camp->bout_count; i++)
        if (!camp->bouts[i]->cancelled && bout_end(camp->bouts[i]) < day)
            first = date_monday(bout_end(camp->bouts[i])) + 7;
    return first;
}

const struct bout *occasion_bout(const struct occasion *occasion)
{
    return occasion->activity && occasion->activity->bout ? camp_bout_on(occasion->camp, occasion->date) : NULL;
}

bool occasion_is_rest(const struct occasion *occasion)
{
    return occasion->activity && occasion->activity->rest;
}

bool season_has(const struct season *season, int day)
{
    return season->first && season->first <= day && day <= season->last;
}

const struct season *season_of(const struct programme *programme, int day)
{
    for (size_t i = 0; i < programme->season_count; i++)
        if (season_has(programme->seasons[i], day))
            return programme->seasons[i];
    return NULL;
}
