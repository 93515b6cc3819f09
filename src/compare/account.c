#include "compare/account.h"

#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "compare/bouts.h"
#include "model/activity.h"
#include "model/occasion.h"
#include "model/season.h"

void account_add(struct account *account, enum account_level level, char sign, const char *words)
{
    account->lines = arena_grow(account->arena, account->lines, account->count, &account->capacity, sizeof *account->lines);
    account->lines[account->count++] = (struct account_line){level, sign, words};
}

static const char *counted(struct arena *arena, size_t count, const char *one, const char *many)
{
    return arena_printf(arena, "%zu %s", count, count == 1 ? one : many);
}

static void add_renamings(struct account *account, const struct comparison *comparison)
{
    if (comparison->renaming_count)
        account_add(account, ACCOUNT_HEADING, ' ', "Renamed");
    for (size_t i = 0; i < comparison->renaming_count; i++) {
        const struct renaming *renaming = &comparison->renamings[i];
        const char *kind = renaming->kind == PART_OCCASION ? "session" : part_kind_word(renaming->kind);
        account_add(account, ACCOUNT_ENTRY, '~', arena_printf(account->arena, "%s %s is now called %s", kind, renaming->was, renaming->is));
    }
}

/* --- a bout that moves: one statement, with all that follows from it --- */

struct follows {
    size_t moved, came, went; /* occasions of the camp but the bout itself */
};

static bool is_bout(const struct part_of_plan *part)
{
    return part->occasion && part->occasion->activity && part->occasion->activity->bout;
}

/* What follows from the move of CAMP's bout at INDEX, for everything that counts towards it, before or now. */
static struct follows follows_of(const struct comparison *comparison, const struct plan_change *camp, size_t index)
{
    struct follows follows = {0};
    for (size_t i = 0; i < comparison->count; i++) {
        const struct plan_change *change = &comparison->changes[i];
        const struct part_of_plan *part = change_part(change);
        const struct camp *of = (part == change->old ? camp->old : camp->now)->subject;
        if (part->kind != PART_OCCASION || is_bout(part) || strcmp(part->camp, camp->now->name) != 0 ||
            bout_of_day(of, part->date) != index)
            continue;
        follows.moved += change->with_bout;
        follows.came += change->kind == CHANGE_CAME;
        follows.went += change->kind == CHANGE_WENT;
    }
    return follows;
}

static bool any_bout_moves(const struct plan_change *change)
{
    const struct camp *old = change->old->subject, *now = change->now->subject;
    for (size_t i = 0; i < old->bout_count; i++)
        if (bout_shift(old, now, i))
            return true;
    return false;
}

/* The bout of a camp at INDEX, with all that follows from its move; with WITH_FACTS, also what else is different. */
static void add_bout(struct account *account, const struct comparison *comparison, const struct plan_change *change, size_t index,
                     bool with_facts)
{
    struct arena *arena = account->arena;
    const struct camp *old = change->old->subject, *now = change->now->subject;
    int days = bout_shift(old, now, index);
    const struct follows follows = follows_of(comparison, change, index);
    struct text out = {.arena = arena};
    text_addf(&out, "%s: the bout moves from %s to %s, %s %s", change->now->name, part_day(arena, old->bouts[index]->day),
              part_day(arena, now->bouts[index]->day), counted(arena, (size_t)abs(days), "day", "days"),
              days < 0 ? "earlier" : "later");
    if (follows.moved)
        text_addf(&out, "; %s with it", counted(arena, follows.moved, "day of training moves", "days of training move"));
    account_add(account, ACCOUNT_ENTRY, '~', text_keep(arena, &out));
    if (with_facts)
        account_facts(account, change);
    if (follows.went)
        account_add(account, ACCOUNT_DETAIL, '-', arena_printf(arena, "%s and not made up for",
                                                               counted(arena, follows.went, "day of training is left out",
                                                                       "days of training are left out")));
    if (follows.came)
        account_add(account, ACCOUNT_DETAIL, '+', counted(arena, follows.came, "day of training is new", "days of training are new"));
}

static void add_bouts(struct account *account, const struct comparison *comparison, const struct plan_change *change)
{
    const struct camp *old = change->old->subject, *now = change->now->subject;
    bool first = true;
    for (size_t i = 0; i < old->bout_count; i++) {
        if (!bout_shift(old, now, i))
            continue;
        add_bout(account, comparison, change, i, first);
        first = false;
    }
}

/* --- what is declared --- */

static const char *heading_of(struct arena *arena, const struct part_of_plan *part)
{
    struct text out = {.arena = arena};
    text_addf(&out, "%s %s", part_kind_word(part->kind), part->name);
    if (*part->camp && part->kind != PART_ROOM)
        text_addf(&out, " (%s)", part->camp);
    if (*part->athlete)
        text_addf(&out, ", %s", part->athlete);
    if (part->date)
        text_addf(&out, ", %s", part_day(arena, part->date));
    if (part->clock >= 0)
        text_addf(&out, " %d:%02d", part->clock / 3600, part->clock / 60 % 60);
    return text_keep(arena, &out);
}

static void add_declared(struct account *account, const struct comparison *comparison, const struct plan_change *change)
{
    const struct part_of_plan *part = change_part(change);
    if (change->kind == CHANGE_CAME || change->kind == CHANGE_WENT) {
        bool came = change->kind == CHANGE_CAME;
        account_add(account, ACCOUNT_ENTRY, came ? '+' : '-', arena_printf(account->arena, "%s is %s", heading_of(account->arena, part),
                                                                           came ? "new" : "gone"));
        for (size_t i = 0; i < change->count && part->kind == PART_LIMIT; i++)
            account_add(account, ACCOUNT_DETAIL, came ? '+' : '-', came ? change->facts[i].is : change->facts[i].was);
        return;
    }
    if (part->kind == PART_CAMP && any_bout_moves(change)) {
        add_bouts(account, comparison, change);
        return;
    }
    account_add(account, ACCOUNT_ENTRY, '~', heading_of(account->arena, part));
    account_facts(account, change);
}

static void add_kind(struct account *account, const struct comparison *comparison, bool rooms, const char *heading)
{
    bool any = false;
    for (size_t i = 0; i < comparison->count; i++) {
        const struct plan_change *change = &comparison->changes[i];
        enum part_kind kind = change_part(change)->kind;
        bool said = change->with_bout && !change->count;
        if (kind == PART_OCCASION || (kind == PART_ROOM) != rooms || said)
            continue;
        if (!any)
            account_add(account, ACCOUNT_HEADING, ' ', heading);
        any = true;
        add_declared(account, comparison, change);
    }
}

/* --- findings and sheets --- */

/* How often FINDING came or went: " (2 times)", " (1 more: found 3 times in all, for ...)". */
static const char *times_words(struct arena *arena, const struct finding_change *finding)
{
    const char *all = finding->met_words;
    if (!all)
        return finding->times > 1 ? arena_printf(arena, " (%d times)", finding->times) : "";
    if (!finding->part)
        return arena_printf(arena, " (%s)", all);
    return finding->came ? arena_printf(arena, " (%d more: %s)", finding->times, all)
                         : arena_printf(arena, " (%d fewer: it was %s)", finding->times, all);
}

static void add_findings(struct account *account, const struct comparison *comparison)
{
    struct arena *arena = account->arena;
    size_t came = 0;
    for (size_t i = 0; i < comparison->finding_count; i++)
        came += comparison->findings[i].came;
    if (!comparison->finding_count)
        return;
    account_add(account, ACCOUNT_HEADING, ' ', arena_printf(arena, "%s, %zu went",
                                                            counted(arena, came, "finding came", "findings came"),
                                                            comparison->finding_count - came));
    for (size_t i = 0; i < comparison->finding_count; i++) {
        const struct finding_change *finding = &comparison->findings[i];
        account_add(account, ACCOUNT_ENTRY, finding->came ? '+' : '-',
                    arena_printf(arena, "%s: %s: %s [%s]%s", finding->place, finding->severity, finding->words, finding->name,
                                 times_words(arena, finding)));
    }
}

static void add_sheets(struct account *account, const struct comparison *comparison, enum sheet_fate fate, char sign,
                       const char *one, const char *many)
{
    struct arena *arena = account->arena;
    size_t count = 0;
    for (size_t i = 0; i < comparison->sheet_count; i++)
        count += comparison->sheets[i].fate == fate;
    if (!count)
        return;
    account_add(account, ACCOUNT_HEADING, ' ', counted(arena, count, one, many));
    for (size_t i = 0; i < comparison->sheet_count; i++) {
        const struct sheet_change *sheet = &comparison->sheets[i];
        if (sheet->fate == fate)
            account_add(account, ACCOUNT_ENTRY, sign, sheet->was && sheet->is
                            ? arena_printf(arena, "%s (version %s, now %s)", sheet->name, sheet->was, sheet->is) : sheet->name);
    }
}

struct account account_of(struct arena *arena, const struct comparison *comparison)
{
    struct account account = {.arena = arena};
    if (comparison->partial)
        account_add(&account, ACCOUNT_HEADING, ' ', "One of the plans could not be understood in full: what seems to come or go may be "
                                                    "what was not understood");
    add_renamings(&account, comparison);
    add_kind(&account, comparison, false, "The plan");
    account_days(&account, comparison);
    add_kind(&account, comparison, true, "Rooms");
    add_findings(&account, comparison);
    add_sheets(&account, comparison, SHEET_STALE, '~', "sheet no longer holds", "sheets no longer hold");
    add_sheets(&account, comparison, SHEET_GONE, '-', "sheet is gone", "sheets are gone");
    add_sheets(&account, comparison, SHEET_NEW, '+', "sheet is new", "sheets are new");
    return account;
}
