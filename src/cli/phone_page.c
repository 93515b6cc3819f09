#include "cli/phone_page.h"

#include <glib.h>
#include <string.h>

#include "export/notation.h"
#include "figures/dates.h"
#include "language/language.h"
#include "layout/foot.h"
#include "layout/marks.h"
#include "layout/sheet.h"
#include "measure/clocks.h"
#include "measure/kit.h"
#include "model/activity.h"
#include "model/athlete.h"
#include "model/exercise.h"
#include "model/gym.h"
#include "model/occasion.h"
#include "model/season.h"
#include "wording/wording.h"

static void add_escaped(struct text *out, const char *words)
{
    char *escaped = g_markup_escape_text(words, -1);
    text_add(out, escaped);
    g_free(escaped);
}

static void add_element(struct text *out, const char *tag, const char *words)
{
    text_addf(out, "<%s>", tag);
    add_escaped(out, words);
    text_addf(out, "</%.*s>\n", (int)strcspn(tag, " "), tag);
}

static void add_attribute(struct text *out, const char *name, const char *value)
{
    text_addf(out, " %s=\"", name);
    add_escaped(out, value);
    text_add_char(out, '"');
}

/* --- the policy --- */

/* WORDS as a content policy names them, so that nothing but them runs or styles the page. */
static void add_hash(struct text *out, const char *words)
{
    GChecksum *sum = g_checksum_new(G_CHECKSUM_SHA256);
    guint8 digest[32];
    gsize length = sizeof digest;
    g_checksum_update(sum, (const guchar *)words, (gssize)strlen(words));
    g_checksum_get_digest(sum, digest, &length);
    char *hash = g_base64_encode(digest, length);
    text_addf(out, "'sha256-%s'", hash);
    g_free(hash);
    g_checksum_free(sum);
}

static void add_head(struct arena *arena, const struct phone_parts *parts, const char *title, struct text *out)
{
    const struct language *language = arena_language(arena);
    text_addf(out, "<!DOCTYPE html>\n<html lang=\"%s\">\n<head>\n<meta charset=\"utf-8\">\n", language ? language->code : "en");
    text_add(out, "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; base-uri 'none'; "
                  "form-action 'none'; style-src ");
    add_hash(out, parts->style);
    text_add(out, "; script-src ");
    add_hash(out, parts->script);
    text_add(out, "\">\n<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n");
    add_element(out, "title", title);
    text_addf(out, "<style>%s</style>\n</head>\n", parts->style);
}

/* --- words of the script --- */

/* What page.js says, as it looks it up. */
static const char *const said_by_script[] = {
    SAID(" (planned: %s)"), SAID("%s, set %d: %s"), SAID("less in set %d"), SAID("more in set %d"), SAID("lighter in set %d, %s"),
    SAID("heavier in set %d, %s"), SAID("not said"), SAID("less: %s"), SAID("more: %s"), SAID("Not done"), SAID("Not done?"),
    SAID("Why (nothing about your health)"), SAID("the log"), SAID("Nothing is tapped yet."), SAID("Copy the log"), SAID("Copied."),
    SAID("Press and hold the text to copy it."), SAID("Minutes: %s min"), SAID("Minutes"), SAID("How hard it was, RPE: %s"),
    SAID("How hard it was, RPE"), SAID("Note (nothing about your health: tell the coach)"), SAID("Share the log")};

static void add_string(struct text *out, const char *words)
{
    text_add_char(out, '"');
    for (const char *at = words; *at; at++)
        text_addf(out, "%s%c", *at == '"' || *at == '\\' ? "\\" : "", *at);
    text_add_char(out, '"');
}

/* Each that has another word in ARENA's language, with it: an object in JSON. */
static void add_words_of_script(struct arena *arena, struct text *out)
{
    struct text all = {.arena = arena};
    text_add_char(&all, '{');
    for (size_t i = 0; i < sizeof said_by_script / sizeof *said_by_script; i++) {
        const char *here = said(arena, said_by_script[i]);
        if (here == said_by_script[i])
            continue;
        text_add(&all, all.length > 1 ? "," : "");
        add_string(&all, said_by_script[i]);
        text_add_char(&all, ':');
        add_string(&all, here);
    }
    text_addf(&all, "%s\".\":\"%s\"}", all.length > 1 ? "," : "", said_figures(arena, "."));
    add_attribute(out, "data-words", text_get(&all));
}

/* --- a line --- */

/* The sets of ITEM one by one, as a log would have them: a list of texts in JSON. Of rounds there are none to tap. */
static void add_sets(struct arena *arena, const struct item *item, struct text *out)
{
    struct text list = {.arena = arena};
    text_add(&list, "[");
    for (size_t r = 0; r < item->run_count; r++) {
        const struct set_run *run = &item->runs[r];
        struct text set = {.arena = arena};
        if (run->repeats > 1)
            text_addf(&set, "%d x ", run->repeats);
        notation_amounts(arena, item, run, &set);
        notation_load(arena, &run->load, LOAD_LIFTED, &set);
        const char *words = text_get(&set);
        for (int i = 0; i < (run->work_up ? 1 : run->count); i++) {
            text_add(&list, list.length > 1 ? "," : "");
            add_string(&list, words);
        }
    }
    text_add(&list, "]");
    add_attribute(out, "data-sets", text_get(&list));
}

static void add_item(struct arena *arena, const struct block *block, const struct item *item, struct text *out)
{
    const struct exercise *exercise = item->exercise;
    bool taps = item->ref && *item->ref && item->run_count && !item->filler;
    text_add(out, "<div");
    if (taps) {
        add_attribute(out, "data-ref", item->ref);
        add_attribute(out, "data-name", wording_exercise(arena, exercise));
        add_sets(arena, item, out);
        text_addf(out, " data-step=\"%s\"", item->runs->load.plating.disc_count
                                               ? (item->runs->load.unit == MASS_IN_LB ? "5" : "2.5")
                                               : "1");
    }
    text_add(out, ">\n");
    add_element(out, "h4", item->filler ? text_joined(arena, wording_exercise(arena, exercise), said(arena, " (in the rests)"))
                                        : wording_exercise(arena, exercise));
    const char *dose = wording_dose(arena, block, item), *load = wording_loads(arena, block, item, false);
    const char *side = wording_sides_out(arena, item);
    add_element(out, "p", arena_printf(arena, "%s%s%s%s%s", dose, *dose && *load ? " " WORDING_DOT " " : "", load,
                                       *side ? " " WORDING_DOT " " : "", side));
    const char *cue = item->cue ? item->cue : exercise->cue_count ? exercise->cues[0] : NULL;
    if (cue)
        add_element(out, "p", said_as(arena, "cue", cue));
    if (item->stop)
        add_element(out, "p class=\"stop\"", mark_stop_words(arena, item->stop));
    text_add(out, "</div>\n");
}

/* --- a session --- */

static const char *log_line(struct arena *arena, const struct occasion *occasion)
{
    char date[DATE_TEXT_SIZE];
    const char *hour = occasion->clock >= 0
                           ? arena_printf(arena, " %02d:%02d", occasion->clock / 3600, occasion->clock / 60 % 60)
                           : "";
    return arena_printf(arena, "log %s%s %s, %s", date_format(occasion->date, date), hour, occasion->athlete->name.shown,
                        occasion->session ? occasion->session->name.shown : occasion->activity->name.shown);
}

static void add_occasion(struct arena *arena, const struct occasion *occasion, struct text *out)
{
    const struct gym *gym = occasion->activity && occasion->activity->outside ? NULL : occasion_gym(occasion);
    const char *name = occasion->session ? occasion->session->name.shown : wording_activity(arena, occasion->activity);
    bool rest = occasion->activity && (occasion->activity->rest || occasion->activity->bout);
    text_add(out, "<section");
    if (!rest) {
        add_attribute(out, "data-log", log_line(arena, occasion));
        text_addf(out, " data-minutes=\"%d\"", (occasion->seconds + 59) / 60);
        if (occasion->rpe.high > 0)
            text_addf(out, " data-effort=\"%s\"", notation_range(arena, (struct range){occasion->rpe.high, occasion->rpe.high}));
    }
    text_add(out, ">\n");
    add_element(out, "h3", occasion->clock < 0 ? name
                                               : arena_printf(arena, "%s %s", said_hour(arena, occasion->clock), name));
    const char *const parts[] = {abroad_words(arena, occasion), wording_occasion(arena, occasion), gym ? gym->name.shown : ""};
    struct text when = {.arena = arena};
    for (size_t i = 0; i < sizeof parts / sizeof *parts; i++)
        if (*parts[i])
            text_addf(&when, "%s%s", when.length ? " " WORDING_DOT " " : "", parts[i]);
    add_element(out, "p", text_keep(arena, &when));
    for (size_t b = 0; b < occasion->block_count; b++) {
        const struct block *block = &occasion->blocks[b];
        add_element(out, "p", block->letter
                                  ? arena_printf(arena, "%c " WORDING_DOT " %s", block->letter, wording_block(arena, block))
                                  : wording_block(arena, block));
        for (size_t i = 0; i < block->item_count; i++)
            add_item(arena, block, &block->items[i], out);
    }
    text_add(out, "</section>\n");
}

void phone_page(struct arena *arena, const struct phone_parts *parts, const struct occasion *const *occasions, size_t count,
                const char *plan, struct text *out)
{
    const char *athlete = occasions[0]->athlete->name.shown;
    const struct language *before = arena_language(arena);
    arena_speak(arena, occasion_language(occasions[0]));
    add_head(arena, parts, arena_printf(arena, "%s, %s", athlete, plan), out);
    text_add(out, "<body");
    add_attribute(out, "data-page", arena_printf(arena, "%s, %s", plan, athlete));
    if (arena_language(arena))
        add_words_of_script(arena, out);
    text_add(out, ">\n");
    add_element(out, "h1", athlete);
    const char *minor = foot_minor(arena, occasions[0]);
    if (*minor)
        add_element(out, "p class=\"stop\"", minor);
    text_add(out, "<main>\n");
    for (size_t i = 0; i < count; i++) {
        char date[DATE_TEXT_SIZE];
        if (i == 0 || occasions[i]->date != occasions[i - 1]->date) {
            text_addf(out, "%s<div data-day=\"%s\">\n", i ? "</div>\n" : "", date_format(occasions[i]->date, date));
            add_element(out, "h2", sheet_day_words(arena, occasions[i]->date));
        }
        add_occasion(arena, occasions[i], out);
    }
    text_add(out, "</div>\n</main>\n");
    add_element(out, "p", foot_cautions(arena));
    if (*said_unread(arena))
        add_element(out, "p", said_unread(arena));
    text_addf(out, "<script>%s</script>\n</body>\n</html>\n", parts->script);
    arena_speak(arena, before);
}
