/* account_facts.c - what differs in a part, one line for each line of the plan: "B1 back squat: 82.5 % -> 85 %, bar
 * unchanged at 77.5 kg". */
#include <string.h>

#include "compare/account.h"
#include "base/text.h"

#define TO " \342\206\222 " /* → */

static const char *fact_of(const struct part_of_plan *part, const char *label, const char *aspect)
{
    for (size_t i = 0; part && i < part->facts.count; i++)
        if (strcmp(part->facts.items[i].label, label) == 0 && strcmp(part->facts.items[i].aspect, aspect) == 0)
            return part->facts.items[i].words;
    return "";
}

static bool has_bar(const struct plan_change *change, const char *label)
{
    return strchr(fact_of(change->now, label, "plates"), ':') != NULL;
}

/* "82.5 % -> 85 %". An aspect that is obvious is not named. */
static void add_words(struct account *account, struct text *out, const struct plan_change *change, const struct fact_change *fact)
{
    static const char *const plain[] = {"share", "load", "sets", "exercise", "heading", "effort", "bound", "phase", "takes part",
                                        "stay", "asks"};
    struct arena *arena = account->arena;
    const char *name = fact->aspect;
    for (size_t i = 0; i < sizeof plain / sizeof *plain; i++)
        if (strcmp(plain[i], fact->aspect) == 0)
            name = "";
    text_add(out, out->length ? ", " : "");
    if (fact->stays) {
        text_addf(out, "%s unchanged at %s", has_bar(change, fact->label) ? "bar" : "load", fact->is);
        return;
    }
    if (strcmp(name, "reason") == 0 || strcmp(name, "details") == 0) {
        text_add(out, strcmp(name, "reason") == 0 ? "its reason changes" : "details that no sheet names");
        return;
    }
    text_addf(out, "%s%s", name, *name ? " " : "");
    if (fact->was && fact->is)
        text_addf(out, "%s" TO "%s", fact->was, fact->is);
    else
        text_addf(out, "%s%s", fact->is ? "now " : "no longer ", fact->is ? fact->is : fact->was);
    (void)arena;
}

/* A line that came or went as a whole, because its exercise did. */
static char sign_of(const struct plan_change *change, const char *label)
{
    for (size_t i = 0; i < change->count; i++) {
        const struct fact_change *fact = &change->facts[i];
        bool whole = strcmp(fact->aspect, "exercise") == 0 || strcmp(fact->aspect, "phase") == 0 ||
                     strcmp(fact->aspect, "takes part") == 0 || strcmp(fact->aspect, "fault") == 0;
        if (strcmp(fact->label, label) == 0 && whole && (!fact->was || !fact->is))
            return fact->was ? '-' : '+';
    }
    return '~';
}

/* "B1 back squat". */
static const char *title_of(struct arena *arena, const struct plan_change *change, const char *label, char sign)
{
    const struct part_of_plan *part = sign == '-' ? change->old : change_part(change);
    const char *exercise = fact_of(part, label, "exercise");
    const char *was = fact_of(change->old, label, "exercise");
    if (!*exercise || (sign == '~' && *was && strcmp(was, exercise) != 0))
        return label;
    return arena_printf(arena, "%s %s", label, exercise);
}

static const char *whole_line(struct arena *arena, const struct plan_change *change, const char *label, char sign)
{
    static const char *const aspects[] = {"sets", "share", "load", "effort", "phase", "takes part"};
    struct text out = {.arena = arena};
    for (size_t i = 0; i < change->count; i++) {
        const struct fact_change *fact = &change->facts[i];
        for (size_t k = 0; k < sizeof aspects / sizeof *aspects; k++)
            if (strcmp(fact->label, label) == 0 && strcmp(fact->aspect, aspects[k]) == 0)
                text_addf(&out, "%s%s", out.length ? ", " : "", fact->is ? fact->is : fact->was);
    }
    return arena_printf(arena, "%s%s%s", title_of(arena, change, label, sign), out.length ? ": " : "", text_get(&out));
}

void account_facts(struct account *account, const struct plan_change *change)
{
    struct arena *arena = account->arena;
    for (size_t i = 0; i < change->count; i++) {
        const char *label = change->facts[i].label;
        struct text out = {.arena = arena};
        bool said = false;
        for (size_t k = 0; k < i && !said; k++)
            said = strcmp(change->facts[k].label, label) == 0;
        if (said)
            continue;
        char sign = *label ? sign_of(change, label) : '~';
        if (sign != '~') {
            account_add(account, ACCOUNT_DETAIL, sign, whole_line(arena, change, label, sign));
            continue;
        }
        for (size_t k = i; k < change->count; k++) {
            const struct fact_change *fact = &change->facts[k];
            bool implied = strcmp(fact->aspect, "plates") == 0 || (strcmp(fact->aspect, "bout") == 0 && fact->was && fact->is);
            if (strcmp(fact->label, label) == 0 && !implied)
                add_words(account, &out, change, fact);
        }
        const char *title = *label ? title_of(arena, change, label, sign) : "";
        if (out.length)
            account_add(account, ACCOUNT_DETAIL, '~', arena_printf(arena, "%s%s%s", title, *title ? ": " : "", text_get(&out)));
    }
}
