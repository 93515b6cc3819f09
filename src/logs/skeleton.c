#include "logs/skeleton.h"

#include "export/notation.h"
#include "figures/dates.h"
#include "model/programme.h"

static void add_run(struct arena *arena, const struct item *item, const struct set_run *run, struct text *out)
{
    if (run->count > 1 && !run->work_up)
        text_addf(out, "%d x ", run->count);
    if (run->repeats > 1)
        text_addf(out, "%d x ", run->repeats);
    notation_amounts(arena, item, run, out);
    notation_load(arena, &run->load, LOAD_LIFTED, out);
}

/* `# A.1 : 3 x 5 @ 60 kg  # back squat` */
static void add_item(struct arena *arena, const struct item *item, struct text *out)
{
    if (!*item->ref)
        return;
    text_addf(out, "    # %s : ", item->ref);
    for (size_t i = 0; i < item->run_count; i++) {
        text_add(out, i ? "; " : "");
        add_run(arena, item, &item->runs[i], out);
    }
    text_addf(out, "  # %s\n", item->exercise->name.shown);
}

/* Is the same work planned for the athlete at another hour of the day? Then the log needs its hour. */
static bool is_twice(const struct programme *programme, const struct occasion *occasion)
{
    int times = 0;
    for (size_t i = 0; i < programme->occasion_count; i++) {
        const struct occasion *other = &programme->occasions[i];
        times += other->date == occasion->date && other->athlete == occasion->athlete &&
                 other->session == occasion->session && other->activity == occasion->activity;
    }
    return times > 1;
}

void skeleton_add(struct arena *arena, const struct programme *programme, const struct occasion *occasion,
                  struct text *out)
{
    char date[DATE_TEXT_SIZE];
    const char *what = occasion->session ? occasion->session->name.shown : occasion->activity->name.shown;
    text_addf(out, "log %s ", (date_format(occasion->date, date), date));
    if (occasion->clock >= 0 && is_twice(programme, occasion))
        text_addf(out, "%02d:%02d  ", occasion->clock / 3600, occasion->clock / 60 % 60);
    text_addf(out, "%s, %s\n    # as planned\n    # took      %d min", occasion->athlete->name.shown, what,
              (occasion->seconds + 59) / 60);
    if (occasion->rpe.high > 0)
        text_addf(out, " RPE %s", notation_range(arena, occasion->rpe));
    text_add_char(out, '\n');
    for (size_t b = 0; b < occasion->block_count; b++)
        for (size_t i = 0; i < occasion->blocks[b].item_count; i++)
            add_item(arena, &occasion->blocks[b].items[i], out);
}

void skeleton_add_private(const struct athlete *athlete, int day, struct text *out)
{
    char date[DATE_TEXT_SIZE];
    date_format(day, date);
    text_addf(out, "private %s\n    # head knock    on %s\n", athlete->name.shown, date);
    text_addf(out, "    # morning %s : sleep 3, soreness 3, fatigue 3, stress 3, mood 3\n", date);
    text_addf(out, "    # pain left knee 3 of 10 on %s\n", date);
}
