#include "measure/member.h"

#include "model/programme.h"

bool member_on(const struct camp *camp, size_t index, int day)
{
    return !camp->members || (day >= camp->members[index].first && day <= camp->members[index].last);
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

bool camp_has_bout(const struct camp *camp)
{
    return camp->bout && !camp->cancelled;
}

bool camp_bouts_on(const struct camp *camp, int day)
{
    bool on = camp->bout == day;
    for (size_t i = 0; i < camp->bout_day_count; i++)
        on |= camp->bout_days[i] == day;
    return on && camp_has_bout(camp) && (!camp->bout_out || day <= camp->bout_out);
}

int camp_bout_end(const struct camp *camp)
{
    int last = camp->bout_last > camp->bout ? camp->bout_last : camp->bout;
    return camp->bout_out ? camp->bout_out : last;
}

bool occasion_is_bout(const struct occasion *occasion)
{
    return occasion->activity && occasion->activity->bout && camp_bouts_on(occasion->camp, occasion->date);
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
