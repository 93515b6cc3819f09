#include "export/notation.h"

#include <string.h>

#include "figures/mass.h"
#include "model/block.h"
#include "model/exercise.h"
#include "model/test.h"
#include "wording/wording.h"

/* --- figures --- */

/* Thousandths without trailing zeros. */
static const char *plain(struct arena *arena, milli value)
{
    char *text = (char *)arena_printf(arena, "%lld.%03lld", (long long)(value / 1000), (long long)(value % 1000));
    size_t end = strlen(text);
    while (text[end - 1] == '0')
        end--;
    text[text[end - 1] == '.' ? end - 1 : end] = '\0';
    return text;
}

const char *notation_range(struct arena *arena, struct range range)
{
    const char *low = plain(arena, range.low);
    return range.high > range.low ? arena_printf(arena, "%s-%s", low, plain(arena, range.high)) : low;
}

const char *notation_time(struct arena *arena, int seconds)
{
    return arena_printf(arena, "%d:%02d", seconds / 60, seconds % 60);
}

const char *notation_length(struct arena *arena, int seconds)
{
    return seconds % 60 ? notation_time(arena, seconds) : arena_printf(arena, "%d min", seconds / 60);
}

/* --- sets --- */

static const char *unit_text(const struct item *item, const struct part *part)
{
    switch (part->unit) {
    case UNIT_SECONDS: return part->max ? "" : " s";
    case UNIT_METRES: return " m";
    case UNIT_CONTACTS: return part->max ? "" : " contacts";
    case UNIT_STRIKES: return part->max || part->several || item->exercise->counts != UNIT_STRIKES ? "" : " strikes";
    default: return "";
    }
}

static const char *side_text(const struct part *part)
{
    static const char *const sides[] = {
        [DOSE_WHOLE] = "",           [DOSE_EACH_SIDE] = " each side", [DOSE_EACH_WAY] = " each way",
        [DOSE_ORTHODOX] = " orthodox", [DOSE_SOUTHPAW] = " southpaw",   [DOSE_LEFT] = " left",
        [DOSE_RIGHT] = " right"};
    switch (part->workers) {
    case WORKER_LEAD_HAND: return " lead hand";
    case WORKER_REAR_HAND: return " rear hand";
    case WORKER_LEAD_LEG: return " lead leg";
    case WORKER_REAR_LEG: return " rear leg";
    default: return sides[part->side];
    }
}

static void add_part(struct arena *arena, const struct item *item, const struct part *part, struct text *out)
{
    text_addf(out, "%s%s", part->max ? "max" : notation_range(arena, part->amount), unit_text(item, part));
}

void notation_amounts(struct arena *arena, const struct item *item, const struct set_run *run, struct text *out)
{
    if (run->hold)
        text_add(out, "hold ");
    if (run->alternating) {
        const struct part whole = wording_whole(run);
        add_part(arena, item, &whole, out);
        text_add(out, " alternating stances");
        return;
    }
    for (size_t i = 0; i < run->part_count; i++) {
        text_add(out, i ? " + " : "");
        add_part(arena, item, &run->parts[i], out);
        text_add(out, side_text(&run->parts[i]));
    }
}

/* --- loads --- */

static const char *mass_text(struct arena *arena, mass value, enum mass_unit unit)
{
    char text[MASS_TEXT_SIZE];
    return arena_printf(arena, "%s", mass_format_exact(value, unit, text));
}

static void add_kilograms(struct arena *arena, const struct load *load, enum load_use use, struct text *out)
{
    const char *made = mass_text(arena, load->made, load->unit);
    text_add(out, " @ ");
    if (load->pieces > 1)
        text_addf(out, "%d x ", load->pieces);
    text_add(out, made);
    if (use == LOAD_PLANNED && load->asked_high > load->made)
        text_addf(out, "-%s", mass_text(arena, load->asked_high, load->unit));
    text_addf(out, " %s", mass_unit_name(load->unit));
}

static void add_body(struct arena *arena, const struct load *load, enum load_use use, struct text *out)
{
    bool share = load->percent.low != 100000 || load->percent.high != 100000;
    if (share && use == LOAD_LIFTED)
        return;
    text_add(out, " @ ");
    if (share)
        text_addf(out, "%s%% of ", notation_range(arena, load->percent));
    text_add(out, "body mass");
    if (load->added > 0)
        text_addf(out, " + %s %s", mass_text(arena, load->added, load->unit), mass_unit_name(load->unit));
}

void notation_load(struct arena *arena, const struct load *load, enum load_use use, struct text *out)
{
    switch (load->kind) {
    case LOAD_NONE: break;
    case LOAD_BAND: text_addf(out, " @ %s", load->thing); break;
    case LOAD_BODY: add_body(arena, load, use, out); break;
    case LOAD_TEST:
        if (use == LOAD_PLANNED)
            text_addf(out, " @ %s%% of %s", notation_range(arena, load->percent), load->test->name.shown);
        break;
    case LOAD_MASS:
    case LOAD_PERCENT:
        if (load->made > 0)
            add_kilograms(arena, load, use, out);
    }
}
