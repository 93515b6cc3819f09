#include "layout/ahead.h"

#include <string.h>

#include "base/text.h"
#include "figures/dates.h"
#include "language/language.h"
#include "layout/group.h"
#include "measure/clocks.h"
#include "measure/person.h"
#include "model/programme.h"
#include "wording/wording.h"

enum { DAYS_AHEAD = 7 };

/* "Bout" or "Weigh-in"; "" for whatever else. */
static const char *occasion_word(const struct arena *arena, const struct occasion *occasion)
{
    if (!occasion->activity)
        return "";
    if (occasion->activity->bout)
        return said(arena, "Bout");
    return strcmp(occasion->activity->name.folded, "weigh-in") == 0 ? said(arena, "Weigh-in") : "";
}

const char *ahead_words(struct arena *arena, const struct programme *programme, const struct athlete *athlete, int day)
{
    struct text words = {.arena = arena};
    for (size_t i = 0; i < programme->occasion_count; i++) {
        const struct occasion *occasion = &programme->occasions[i];
        const char *word = occasion_word(arena, occasion);
        if (occasion->athlete != athlete || occasion->date < day || occasion->date > day + DAYS_AHEAD || !*word)
            continue;
        const char *zone = occasion->clock >= 0 ? abroad_words(arena, occasion) : "";
        text_addf(&words, "%s%s %s" WORDING_GAP "%s%s%s%s%s.", words.length ? " " : "", word,
                  said_weekday(arena, SAID_SHORT, date_weekday(occasion->date)), frame_day(arena, occasion->date),
                  occasion->clock >= 0 ? " " : "",
                  occasion->clock >= 0 ? said_hour(arena, occasion->clock) : "", *zone ? " " : "", zone);
    }
    return text_keep(arena, &words);
}

/* Everybody in GROUP to whom WORDS apply, after those at FIRST. */
static const char *names_of(struct arena *arena, const struct group *group, const char *const *words, size_t first)
{
    struct text names = {.arena = arena};
    for (size_t i = first; i < group->count; i++)
        if (strcmp(words[i], words[first]) == 0)
            text_addf(&names, "%s%s", names.length ? ", " : "", athlete_called(group->members[i]->athlete));
    return text_keep(arena, &names);
}

struct box *ahead_box(const struct frame *frame, const struct group *group, struct face face)
{
    struct arena *arena = frame->press.arena;
    const char **words = arena_alloc(arena, (group->count + 1) * sizeof *words);
    struct box *box = box_new(arena);
    for (size_t i = 0; i < group->count; i++) {
        size_t before = 0;
        words[i] = ahead_words(arena, frame->request->programme, group->members[i]->athlete, group->members[i]->date);
        while (before < i && strcmp(words[before], words[i]) != 0)
            before++;
        words[i] = before < i ? words[before] : words[i];
    }
    for (size_t i = 0; i < group->count; i++) {
        bool again = !*words[i];
        for (size_t before = 0; before < i && !again; before++)
            again = words[before] == words[i];
        if (!again)
            frame_stack(box,
                        press_paragraph(&frame->press,
                                        arena_printf(arena, "%s: %s", names_of(arena, group, words, i), words[i]), face,
                                        frame->inner, 0, 1, false),
                        box->count ? 3 : 0);
    }
    return box;
}
