#include <jansson.h>
#include <string.h>

#include "compare/compare.h"
#include "export/json_text.h"

static const char *const change_words[] = {[CHANGE_CAME] = "came", [CHANGE_WENT] = "went", [CHANGE_DIFFERS] = "differs",
                                           [CHANGE_MOVED] = "moved"};

static void put_when(struct arena *arena, json_t *json, const struct part_of_plan *part)
{
    if (part->date)
        json_put_words(json, "day", part_day(arena, part->date));
    if (part->clock >= 0)
        json_put_words(json, "clock", arena_printf(arena, "%02d:%02d", part->clock / 3600 % 24, part->clock / 60 % 60));
    json_put_number(json, "number", (size_t)part->nth);
}

static json_t *fact_json(const struct fact_change *fact)
{
    json_t *json = json_object();
    json_put_words(json, "line", fact->label);
    json_put_words(json, "what", fact->aspect);
    json_put_words(json, "was", fact->was);
    json_put_words(json, "is", fact->is);
    if (fact->stays)
        json_put(json, "unchanged", json_true());
    return json;
}

static json_t *change_json(struct arena *arena, const struct plan_change *change)
{
    const struct part_of_plan *part = change_part(change);
    json_t *json = json_object(), *facts = json_array();
    json_put_words(json, "kind", part_kind_word(part->kind));
    json_put_words(json, "change", change_words[change->kind]);
    json_put_words(json, "name", part->name);
    json_put_words(json, "camp", *part->camp ? part->camp : NULL);
    json_put_words(json, "athlete", *part->athlete ? part->athlete : NULL);
    put_when(arena, json, part);
    if (change->kind == CHANGE_MOVED) {
        json_t *from = json_object();
        put_when(arena, from, change->old);
        json_put(json, "from", from);
    }
    if (change->with_bout)
        json_put(json, "with_bout", json_true());
    for (size_t i = 0; i < change->count; i++)
        json_add(facts, fact_json(&change->facts[i]));
    json_put(json, "facts", facts);
    return json;
}

static json_t *finding_json(const struct finding_change *finding)
{
    json_t *json = json_object();
    json_put_words(json, "change", finding->came ? "came" : "went");
    json_put_words(json, "severity", finding->severity);
    json_put_words(json, "check", finding->name);
    json_put_words(json, "file", finding->place);
    json_put_words(json, "words", finding->words);
    json_put_number(json, "times", (size_t)finding->times);
    return json;
}

static json_t *sheet_json(const struct sheet_change *sheet)
{
    static const char *const fates[] = {[SHEET_STALE] = "stale", [SHEET_GONE] = "gone", [SHEET_NEW] = "new"};
    json_t *json = json_object();
    json_put_words(json, "change", fates[sheet->fate]);
    json_put_words(json, "name", sheet->name);
    json_put_words(json, "was", sheet->was);
    json_put_words(json, "is", sheet->is);
    return json;
}

static json_t *renamings_json(const struct comparison *comparison)
{
    json_t *renamed = json_array();
    for (size_t i = 0; i < comparison->renaming_count; i++) {
        json_t *one = json_object();
        json_put_words(one, "kind", part_kind_word(comparison->renamings[i].kind));
        json_put_words(one, "was", comparison->renamings[i].was);
        json_put_words(one, "is", comparison->renamings[i].is);
        json_add(renamed, one);
    }
    return renamed;
}

void compare_json(const struct comparison *comparison, const char *version, struct text *out)
{
    json_t *root = json_object(), *changes = json_array(), *findings = json_array(), *sheets = json_array();
    json_put_words(root, "format", "bellsheet diff");
    json_put(root, "version", json_integer(1));
    json_put_words(root, "program", version);
    json_put(root, "partial", json_boolean(comparison->partial));
    json_put(root, "renamed", renamings_json(comparison));
    for (size_t i = 0; i < comparison->count; i++)
        json_add(changes, change_json(comparison->arena, &comparison->changes[i]));
    for (size_t i = 0; i < comparison->finding_count; i++)
        json_add(findings, finding_json(&comparison->findings[i]));
    for (size_t i = 0; i < comparison->sheet_count; i++)
        json_add(sheets, sheet_json(&comparison->sheets[i]));
    json_put(root, "changes", changes);
    json_put(root, "findings", findings);
    json_put(root, "sheets", sheets);
    json_write(root, out);
}
