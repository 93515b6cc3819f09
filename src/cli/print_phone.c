/* print_phone.c - the pages for the phone, one for each athlete for whom something was asked. */
#include <glib.h>

#include "cli/phone_page.h"
#include "cli/print.h"
#include "cli/selection.h"
#include "cli/tell.h"
#include "model/athlete.h"
#include "model/occasion.h"
#include "model/programme.h"

/* A file of the shelf's folder for the phone; NULL, with a message, if it is not there. */
static const char *part_of(struct printing *printing, const char *name)
{
    struct arena *arena = printing->project->arena;
    const char *share = share_folder(arena);
    char *bytes = NULL;
    gsize length;
    if (share && g_file_get_contents(arena_printf(arena, "%s/phone/%s", share, name), &bytes, &length, NULL)) {
        const char *kept = arena_copy(arena, bytes, length);
        g_free(bytes);
        return kept;
    }
    tell_error("%s: it is not in the shelf's folder", name);
    printing->failed = true;
    return NULL;
}

/* ATHLETE's occasions that were asked for and have no error, in the order of their days and hours. */
static const struct occasion **occasions_of(struct printing *printing, const struct wanted *wanted,
                                            const struct athlete *athlete, size_t *count)
{
    const struct programme *programme = printing->project->programme;
    const struct occasion **list = arena_alloc(printing->project->arena, programme->occasion_count * sizeof *list);
    *count = 0;
    for (size_t i = 0; i < programme->occasion_count; i++)
        if (wanted->occasions[i] && programme->occasions[i].athlete == athlete && !printing->barred[i])
            list[(*count)++] = &programme->occasions[i];
    return list;
}

static void print_page(struct printing *printing, const struct phone_parts *parts, const struct occasion **occasions,
                       size_t count)
{
    struct arena *arena = printing->project->arena;
    struct text page = {.arena = arena};
    const char *name = print_own_name(printing, occasions[0]->athlete, "phone.html");
    phone_page(arena, parts, occasions, count, printing->project->name, &page);
    if (!printing->options->list)
        print_file_listed(printing, name, "phone", &page);
    else
        print_say(printing, name);
    print_note(printing, (struct printed){.name = name, .title = occasions[0]->athlete->name.shown, .page = 1});
}

void print_phone(struct printing *printing)
{
    const struct programme *programme = printing->project->programme;
    const struct wanted wanted = selection_wanted(printing->project, printing->options);
    const struct phone_parts parts = {part_of(printing, "page.css"), part_of(printing, "page.js")};
    for (size_t i = 0; i < programme->athlete_count && !printing->failed; i++) {
        size_t count;
        const struct occasion **occasions = occasions_of(printing, &wanted, programme->athletes[i], &count);
        if (count)
            print_page(printing, &parts, occasions, count);
    }
}
