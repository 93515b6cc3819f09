/* account_days.c - what athletes do differently, by athlete, then by what is done, with all the days that have the
 * same changes. */
#include <string.h>

#include "compare/account.h"
#include "base/text.h"
#include "figures/dates.h"

enum { MOST_DAYS = 8 };

/* Changes for one athlete that are all described alike. */
struct day_entry {
    const char *title, *body; /* BODY: all its lines, to compare them */
    struct account lines;
    char sign;
    const struct plan_change **changes;
    size_t count, capacity;
};

struct person {
    const char *name; /* several, if their changes are the same */
    struct day_entry *entries;
    size_t count, capacity;
    const char *all;  /* everything that is said, to compare it */
    bool said;
};

static const char *when_words(struct arena *arena, const struct part_of_plan *part)
{
    static const char *const days[] = {"monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"};
    const char *hour = part->clock < 0 ? "" : arena_printf(arena, " %d:%02d", part->clock / 3600, part->clock / 60 % 60);
    return arena_printf(arena, "%s %s%s", days[date_weekday(part->date) - 1], part_day(arena, part->date), hour);
}

/* "moves by 7 days", "moves from 18:00 to 19:00". */
static const char *move_words(struct arena *arena, const struct plan_change *change)
{
    const struct part_of_plan *was = change->old, *is = change->now;
    int days = is->date - was->date;
    struct text out = {.arena = arena};
    if (days)
        text_addf(&out, "moves %d day%s %s", days < 0 ? -days : days, days == 1 || days == -1 ? "" : "s",
                  days < 0 ? "earlier" : "later");
    if (change->with_bout)
        text_add(&out, ", with the bout");
    if (was->clock != is->clock && was->clock >= 0 && is->clock >= 0)
        text_addf(&out, "%s%d:%02d, not %d:%02d", out.length ? ", to " : "begins at ", is->clock / 3600, is->clock / 60 % 60,
                  was->clock / 3600, was->clock / 60 % 60);
    else if (was->clock != is->clock)
        text_addf(&out, "%s%s", out.length ? ", " : "", is->clock < 0 ? "no hour is said" : "an hour is said");
    return text_keep(arena, &out);
}

static void say(struct account *account, const struct plan_change *change)
{
    if (change->kind == CHANGE_MOVED)
        account_add(account, ACCOUNT_DETAIL, '~', move_words(account->arena, change));
    if (change->kind == CHANGE_DIFFERS || change->kind == CHANGE_MOVED)
        account_facts(account, change);
}

static const char *body_of(struct arena *arena, const struct account *account)
{
    struct text out = {.arena = arena};
    for (size_t i = 0; i < account->count; i++)
        text_addf(&out, "%c%s\n", account->lines[i].sign, account->lines[i].words);
    return text_keep(arena, &out);
}

static void add_change(struct arena *arena, struct person *person, const struct plan_change *change)
{
    struct account lines = {.arena = arena};
    const char *title = change_part(change)->name;
    char sign = change->kind == CHANGE_CAME ? '+' : change->kind == CHANGE_WENT ? '-' : '~';
    say(&lines, change);
    const char *body = body_of(arena, &lines);
    size_t at = 0;
    while (at < person->count && (person->entries[at].sign != sign || strcmp(person->entries[at].title, title) != 0 ||
                                  strcmp(person->entries[at].body, body) != 0))
        at++;
    if (at == person->count) {
        person->entries = arena_grow(arena, person->entries, person->count, &person->capacity, sizeof *person->entries);
        person->entries[person->count++] = (struct day_entry){.title = title, .body = body, .lines = lines, .sign = sign};
    }
    struct day_entry *entry = &person->entries[at];
    entry->changes = arena_grow(arena, entry->changes, entry->count, &entry->capacity, sizeof(struct plan_change *));
    entry->changes[entry->count++] = change;
}

static const char *entry_words(struct arena *arena, const struct day_entry *entry)
{
    struct text out = {.arena = arena};
    text_addf(&out, "%s%s, ", entry->title, entry->sign == '-' ? " is no longer planned" : entry->sign == '+' ? " is new" : "");
    for (size_t i = 0; i < entry->count && i < MOST_DAYS; i++)
        text_addf(&out, "%s%s", i ? "; " : "", when_words(arena, change_part(entry->changes[i])));
    if (entry->count > MOST_DAYS)
        text_addf(&out, " and %zu more", entry->count - MOST_DAYS);
    return text_keep(arena, &out);
}

/* What moved with its bout and is otherwise unchanged is listed with the bout. */
static bool is_said(const struct plan_change *change)
{
    return change_part(change)->kind != PART_OCCASION || (change->with_bout && !change->count);
}

static struct person *persons_of(struct arena *arena, const struct comparison *comparison, size_t *count)
{
    struct person *persons = NULL;
    size_t capacity = 0;
    *count = 0;
    for (size_t i = 0; i < comparison->count; i++) {
        const struct plan_change *change = &comparison->changes[i];
        const char *name = change_part(change)->athlete;
        if (is_said(change))
            continue;
        if (!*count || strcmp(persons[*count - 1].name, name) != 0) {
            persons = arena_grow(arena, persons, *count, &capacity, sizeof *persons);
            persons[(*count)++] = (struct person){.name = name};
        }
        add_change(arena, &persons[*count - 1], change);
    }
    return persons;
}

static const char *all_words(struct arena *arena, const struct person *person)
{
    struct text out = {.arena = arena};
    for (size_t i = 0; i < person->count; i++)
        text_addf(&out, "%s\n%s", entry_words(arena, &person->entries[i]), person->entries[i].body);
    return text_keep(arena, &out);
}

void account_days(struct account *account, const struct comparison *comparison)
{
    struct arena *arena = account->arena;
    size_t count;
    struct person *persons = persons_of(arena, comparison, &count);
    for (size_t i = 0; i < count; i++)
        persons[i].all = all_words(arena, &persons[i]);
    for (size_t i = 0; i < count; i++) {
        struct text names = {.arena = arena};
        for (size_t k = i; k < count && !persons[i].said; k++)
            if (!persons[k].said && strcmp(persons[k].all, persons[i].all) == 0) {
                text_addf(&names, "%s%s", names.length ? ", " : "", persons[k].name);
                persons[k].said = k > i;
            }
        if (persons[i].said)
            continue;
        account_add(account, ACCOUNT_HEADING, ' ', text_keep(arena, &names));
        for (size_t e = 0; e < persons[i].count; e++) {
            const struct day_entry *entry = &persons[i].entries[e];
            account_add(account, ACCOUNT_ENTRY, entry->sign, entry_words(arena, entry));
            for (size_t l = 0; l < entry->lines.count; l++)
                account_add(account, ACCOUNT_DETAIL, entry->lines.lines[l].sign, entry->lines.lines[l].words);
        }
    }
}
