#include "export/room_view.h"
#include "model/programme.h"

#include "wording/wording.h"

static bool is_seen(const struct programme_view *view, const struct occasion *occasion)
{
    for (size_t i = 0; i < view->count; i++)
        if (view->occasions[i] == occasion)
            return true;
    return false;
}

size_t room_views(const struct programme_view *view, struct room_view **rooms)
{
    const struct programme *programme = view->programme;
    struct squad_meeting *meetings;
    size_t count = squad_meetings(view->arena, programme->occasions, programme->occasion_count, &meetings), kept = 0;
    struct squad_memo *memo = squad_memo_new(view->arena);
    *rooms = arena_alloc(view->arena, (count + 1) * sizeof **rooms);
    for (size_t i = 0; i < count; i++) {
        bool *seen = arena_alloc(view->arena, meetings[i].count * sizeof *seen), any = false, all = true;
        for (size_t k = 0; k < meetings[i].count; k++) {
            seen[k] = is_seen(view, meetings[i].members[k]);
            any = any || seen[k];
            all = all && seen[k];
        }
        if (!any)
            continue;
        const struct squad *squad =
            squad_of(view->arena, (const struct occasion *const *)meetings[i].members, meetings[i].count);
        (*rooms)[kept++] = (struct room_view){squad, squad_solve(memo, squad), seen, all};
    }
    return kept;
}

const char *room_row_load(const struct programme_view *view, const struct squad_task *task)
{
    if (!task->load)
        return "";
    const char *made = wording_load_mass(view->arena, task->load, false);
    const char *meaning = *made ? wording_meaning(view->arena, task->item->exercise, task->load) : "";
    return arena_printf(view->arena, "%s%s%s", made, *meaning ? " " : "", meaning);
}
