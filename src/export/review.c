#include "export/review.h"

#include <string.h>

#include "done/camp_review.h"
#include "model/programme.h"
#include "wording/wording.h"

struct writer {
    const struct programme_view *view;
    const struct camp_review *review;
    struct text *out;
};

/* NAME with the characters escaped that mean something in Markdown. */
static const char *plain(const struct writer *writer, const char *name)
{
    struct text out = {.arena = writer->view->arena};
    for (; *name; name++) {
        if (strchr("\\`*_[]<>|#&", *name))
            text_add_char(&out, '\\');
        text_add_char(&out, *name);
    }
    return text_keep(writer->view->arena, &out);
}

static const char *day_words(const struct writer *writer, int day)
{
    return view_date(writer->view->arena, day);
}

/* --- planned and done --- */

static const char *whole(struct arena *arena, milli value)
{
    return wording_number(arena, (value + 500) / 1000 * 1000);
}

/* "12 of 14 (85.7 %)" */
static const char *share_words(const struct writer *writer, const struct done_share *share)
{
    struct arena *arena = writer->view->arena;
    struct range percent;
    if (!kept_share(share, &percent))
        return share->done ? arena_printf(arena, "%s, none planned", whole(arena, share->done)) : "none planned";
    return arena_printf(arena, "%s of %s (%s %%)", whole(arena, share->done), whole(arena, share->planned.high),
                        wording_number(arena, (percent.low + 50) / 100 * 100));
}

static void add_row(const struct writer *writer, const char *name, const struct review_days *days)
{
    text_addf(writer->out, "| %s | %s to %s | %zu | ", plain(writer, name), day_words(writer, days->first),
              day_words(writer, days->last), days->planned);
    if (!days->kept.known)
        text_add(writer->out, "no log | no log |\n");
    else
        text_addf(writer->out, "%s | %s |\n", share_words(writer, &days->kept.of[ADHERENCE_SESSIONS]),
                  share_words(writer, &days->kept.of[ADHERENCE_LOAD]));
}

/* What was cut because there were too few days before the bout. */
static void add_cuts(const struct writer *writer)
{
    const struct camp_review *review = writer->review;
    for (size_t i = 0; i < review->camp->left_phase_count; i++)
        text_addf(writer->out, "\nThere were too few days before the bout for %s, which was left out.\n",
                  plain(writer, review->camp->left_phases[i].shown));
    for (size_t i = 0; i < review->shorter_count; i++) {
        const struct phase *phase = review->shorter[i];
        text_addf(writer->out, "\n%s had %d of its full %d days.\n", plain(writer, phase->name.shown),
                  phase->last - phase->first + 1, phase->longest);
    }
}

static void add_phases(const struct writer *writer)
{
    const struct camp_review *review = writer->review;
    text_add(writer->out, "\n## Planned and done\n\n| | days | planned | sessions done | session load done |\n"
                          "|---|---|---:|---:|---:|\n");
    for (size_t i = 0; i < review->phase_count; i++)
        add_row(writer, review->phases[i].name, &review->phases[i]);
    add_row(writer, "whole camp", &review->all);
    add_cuts(writer);
}

/* --- one athlete --- */

static void add_estimates(const struct writer *writer, const struct review_athlete *own)
{
    struct arena *arena = writer->view->arena;
    for (size_t i = 0; i < own->estimate_count; i++) {
        const struct lift_estimate *one = &own->estimates[i];
        enum mass_unit unit = mass_written_in(one->maximum);
        int day = one->line->log->date;
        text_addf(writer->out, "- %s: estimated maximum %s, %s to %s, by the log of %s", plain(writer, one->exercise->name.shown),
                  wording_mass(arena, one->maximum, unit, false), wording_mass(arena, one->low, unit, false),
                  wording_mass(arena, one->high, unit, false), day_words(writer, day));
        if (one->first_day && one->first_day < day)
            text_addf(writer->out, "; %s by that of %s", wording_mass(arena, one->first, unit, false),
                      day_words(writer, one->first_day));
        text_add_char(writer->out, '\n');
    }
}

static void add_tests(const struct writer *writer, const struct review_athlete *own)
{
    struct arena *arena = writer->view->arena;
    for (size_t i = 0; i < own->test_count; i++) {
        const struct review_test *one = &own->tests[i];
        const struct test *test = one->test;
        text_addf(writer->out, "- %s%s%s: %s on %s", plain(writer, test->name.shown), one->side ? " " : "",
                  test_side_words(one->side), test_words(arena, test, one->first.value), day_words(writer, one->first.date));
        if (one->last.date != one->first.date) {
            text_addf(writer->out, ", %s on %s: %s", test_words(arena, test, one->last.value),
                      day_words(writer, one->last.date), test_verdict_words(one->change.verdict));
            if (one->change.error > 0)
                text_addf(writer->out, " (up to %s)", test_words(arena, test, one->change.least));
        }
        text_add_char(writer->out, '\n');
    }
}

/* Only the coach's own copy says who was on hold, and since when. */
static void add_holds(const struct writer *writer, const struct review_athlete *own)
{
    for (size_t i = 0; i < own->hold_count; i++) {
        int ended = own->holds[i].ended;
        text_addf(writer->out, "- held from %s%s%s\n", day_words(writer, own->holds[i].since), ended ? " to " : ", not ended",
                  ended ? day_words(writer, ended) : "");
    }
}

static void add_athlete(const struct writer *writer, const struct review_athlete *own)
{
    const struct adherence *kept = &own->all.kept;
    text_addf(writer->out, "\n### %s\n\n", plain(writer, own->athlete->name.shown));
    if (kept->known)
        text_addf(writer->out, "- sessions done: %s; sets: %s; session load: %s\n",
                  share_words(writer, &kept->of[ADHERENCE_SESSIONS]), share_words(writer, &kept->of[ADHERENCE_SETS]),
                  share_words(writer, &kept->of[ADHERENCE_LOAD]));
    else
        text_add(writer->out, "- no log\n");
    add_estimates(writer, own);
    add_tests(writer, own);
    add_holds(writer, own);
}

/* --- the whole --- */

static void add_waivers(const struct writer *writer)
{
    const struct camp_review *review = writer->review;
    text_add(writer->out, review->waiver_count ? "\n## Waived\n\n" : "");
    for (size_t i = 0; i < review->waiver_count; i++) {
        const struct waiver *waiver = review->waivers[i];
        text_addf(writer->out, "- %s, %s to %s: %s\n", plain(writer, waiver->check), day_words(writer, waiver->first),
                  day_words(writer, waiver->last), plain(writer, waiver->because));
    }
}

static void add_camp(const struct writer *writer)
{
    const struct camp *camp = writer->review->camp;
    text_addf(writer->out, "# %s\n\n%s to %s, %d %s, %zu %s.", plain(writer, camp->name.shown),
              day_words(writer, camp->first), day_words(writer, camp->last), camp->weeks, camp->weeks == 1 ? "week" : "weeks",
              camp->athlete_count, camp->athlete_count == 1 ? "athlete" : "athletes");
    for (size_t i = 0; i < camp->bout_count; i++) {
        const struct bout *bout = camp->bouts[i];
        text_addf(writer->out, " Bout on %s%s%s.", day_words(writer, bout->day), bout->words ? ": " : "",
                  bout->words ? plain(writer, bout->words) : "");
    }
    text_add_char(writer->out, '\n');
    add_phases(writer);
    text_add(writer->out, "\n## Athletes\n");
    for (size_t i = 0; i < writer->review->athlete_count; i++)
        add_athlete(writer, &writer->review->athletes[i]);
    add_waivers(writer);
    text_add(writer->out, "\nEstimates are estimates. What is within the error of a test may be no change at all.\n");
}

void review_markdown(const struct programme_view *view, struct text *out)
{
    const struct programme *programme = view->programme;
    bool *met = arena_alloc(view->arena, programme->camp_count + 1);
    for (size_t i = 0; i < view->count; i++)
        met[view->occasions[i]->camp->number] = true;
    for (size_t c = 0; c < programme->camp_count; c++) {
        if (!met[c])
            continue;
        struct camp_review review = review_of(view->arena, programme, programme->camps[c], view->private);
        text_add(out, out->length ? "\n" : "");
        add_camp(&(struct writer){view, &review, out});
    }
}
