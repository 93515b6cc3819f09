#include "bench/club.h"

#include <stdio.h>
#include <stdlib.h>

#include "base/arena.h"
#include "figures/dates.h"

enum { SQUAD = 10, START = 740041 /* 2027-03-01, a Monday */ };

static const char *const first_names[] = {"Abril", "Benno", "Calla", "Dario", "Edda", "Fionn", "Greta", "Hakon"};
static const char *const last_names[] = {"Ashlock", "Birchall", "Cove", "Dunmere", "Elland"};
static const char *const days[] = {"monday", "tuesday", "thursday", "friday", "saturday", "wednesday"};

static void add_athlete_name(struct text *out, int athlete)
{
    text_addf(out, "%s %s", first_names[athlete % 8], last_names[athlete / 8 % 5]);
    if (athlete >= 40)
        text_addf(out, " %d", athlete / 40 + 1);
}

static void add_gym(struct text *out)
{
    text_add(out, "gym Quay\n"
                  "    barbells      4 x 20 kg, 2 x 15 kg\n"
                  "    bars          2 x trap bar 25 kg, safety bar 30 kg\n"
                  "    plates        8 x 25, 12 x 20, 8 x 15, 12 x 10, 12 x 5, 12 x 2.5, 8 x 1.25 kg\n"
                  "    dumbbells     pairs 4-40 kg by 2\n"
                  "    kettlebells   2 x 8, 2 x 12, 2 x 16, 2 x 20, 24 kg\n"
                  "    balls         2 x 3, 2 x 4, 5 kg\n"
                  "    bands         light, medium, heavy\n"
                  "    stations      4 x rack, 2 x landmine, 2 x bench, 4 x box, 4 x heavy bag, ring, sled, cable\n"
                  "    also has      12 x rope, 8 x focus pads, 8 x mat, pull-up bar\n");
}

static void add_athlete(struct text *out, int athlete)
{
    text_add(out, "\nathlete ");
    add_athlete_name(out, athlete);
    text_addf(out,
              "\n    stance        %s\n"
              "    lifting since %d-0%d\n"
              "    trains at     Quay\n"
              "    bests\n"
              "        trap bar deadlift : 1 @ %d kg on 2027-02-22\n"
              "        back squat        : 1 @ %d kg on 2027-02-22\n"
              "        landmine press    : 5 @ %d kg on 2027-02-22\n"
              "        bench press       : 3 @ %d kg on 2027-02-22\n",
              athlete % 3 ? "orthodox" : "southpaw", 2020 + athlete % 7, 1 + athlete % 9, 120 + athlete % 12 * 5,
              100 + athlete % 10 * 5, 20 + athlete % 8 * 5, 60 + athlete % 9 * 5);
}

/* Session NUMBER of a squad; loads differ from one to the next, so that none is another's text. */
static void add_session(struct text *out, int squad, int number, bool logged)
{
    int more = number % 4 * 2;
    text_addf(out,
              "%ssession Floor %d of squad %d\n"
              "    purpose   turn first, then let the hand go\n"
              "    under     90 min\n\n"
              "    rounds    3 x 2:00 rest 0:40\n"
              "        rope                         : easy\n"
              "        filler 90-90 hip switch      : 6 each side\n\n"
              "    contrast A   3/3/4/3/... sets rest 3:00\n"
              "        keep 1\n"
              "        landmine press from a stance : 4 orthodox + 4 southpaw @ 75/77.5/80/75/...%% tempo 2-0-X-0\n"
              "            cue hip first, the arm comes last\n"
              "        after 0:20\n"
              "        rear hand ball throw         : 5 orthodox + 5 southpaw @ 3 kg all-out\n\n",
              number ? "\n" : "", number + 1, squad + 1);
    text_addf(out,
              "    superset B   3 sets rest 1:30\n"
              "        keep 1\n"
              "        %s : %d/%d/4/3/... @ 75/77.5/80/75/...%% tempo 3-1-X-0\n"
              "            for novice : 8-10 @ RPE 6\n"
              "        side plank                   : hold 25/30/35/25/... s each side\n\n"
              "    superset C   3/3/4/2/... sets rest 1:15\n"
              "        keep 2\n"
              "        single leg romanian deadlift : 8 each side @ %d kg\n"
              "        one arm dumbbell row         : 8 each side @ %d kg\n\n"
              "    circuit D   2 sets rest 0:45   # the quiet end\n"
              "        four-way neck hold           : hold 8/10/12/8/... s each way @ RPE 5\n"
              "        band pull-apart              : 15 @ light band\n"
              "        open book                    : 5 each side\n",
              number % 2 ? "trap bar deadlift" : "back squat       ", 4 + number % 2, 5, 12 + more, 14 + more);
    if (logged)
        text_add(out, "\n    straight E   3 sets rest 1:30\n"
                      "        keep 3\n"
                      "        bench press                  : 8-10 @ 50 kg\n"
                      "            next time  8-10, then 2.5 kg\n");
}

static void add_camp(struct text *out, int athlete, struct club_shape shape)
{
    enum { SPAN = 4 };
    char bout[DATE_TEXT_SIZE];
    date_format(START + shape.weeks * 7 - 2, bout);
    text_add(out, "camp Season of ");
    add_athlete_name(out, athlete);
    text_add(out, "\n    for       ");
    add_athlete_name(out, athlete);
    for (int other = athlete + 1; shape.rooms && other < shape.athletes && other % SQUAD; other++) {
        text_add(out, ", ");
        add_athlete_name(out, other);
    }
    text_addf(out,
              "\n    starts    2027-03-01\n"
              "    bout      %s kickboxing 3 x 2:00 rest 1:00\n"
              "    phases\n"
              "        base     : until strength\n"
              "        strength : %d weeks\n"
              "        power    : %d weeks\n"
              "        taper    : 10 days\n"
              "    limits    house defaults\n",
              bout, shape.weeks / 3, shape.weeks / 6);
    for (int week = 1; week <= shape.weeks; week += SPAN) {
        int last = week + SPAN - 1 < shape.weeks ? week + SPAN - 1 : shape.weeks;
        text_addf(out, "\n    weeks %d-%d\n", week, last > week ? last : week + 1);
        for (int day = 0; day < shape.days; day++)
            text_addf(out, "        %-9s 17:30  Floor %d of squad %d\n", days[day], day + 1, athlete / SQUAD + 1);
        text_addf(out, "    week %d\n"
                       "        %s 17:30  Floor 1 of squad %d\n"
                       "            change B.1 : 3 @ 70%%\n"
                       "            drop D\n",
                  last, days[0], athlete / SQUAD + 1);
    }
}

static unsigned next_random(unsigned *seed)
{
    *seed = *seed * 1103515245u + 12345u;
    return *seed >> 16 & 0x7fff;
}

/* Logs of all that ATHLETE does but in the last week: most as planned, some missed, some with sets. */
static void add_logs(struct text *out, int athlete, struct club_shape shape)
{
    static const int weekday[] = {0, 1, 3, 4, 5, 2};
    unsigned seed = (unsigned)athlete * 7919u + 11u;
    for (int week = 0; week + 1 < shape.weeks; week++)
        for (int day = 0; day < shape.days; day++) {
            char date[DATE_TEXT_SIZE];
            unsigned draw = next_random(&seed) % 10;
            date_format(START + week * 7 + weekday[day], date);
            text_addf(out, "log %s ", date);
            add_athlete_name(out, athlete);
            text_addf(out, ", Floor %d of squad %d\n", day + 1, athlete / SQUAD + 1);
            if (draw == 0)
                text_add(out, "    missed because exam\n\n");
            else if (draw < 4)
                text_add(out, "    as planned\n\n");
            else
                text_addf(out, "    took  %u min RPE %u\n    E.1 : 3 x %u @ %u kg\n\n", 50 + draw, 5 + draw / 3, 8 + draw % 3,
                          50 + week / 4 * 2);
        }
}

struct club_files club_make(struct club_shape shape)
{
    int squads = (shape.athletes + SQUAD - 1) / SQUAD, camps = shape.rooms ? squads : shape.athletes;
    struct club_files files = {.count = (size_t)(1 + squads + camps + (shape.logged ? shape.athletes : 0))};
    files.items = calloc(files.count, sizeof *files.items);
    if (!files.items)
        abort();
    struct club_file *file = files.items;
    snprintf(file->name, sizeof file->name, "athletes.bell");
    add_gym(&file->text);
    for (int i = 0; i < shape.athletes; i++)
        add_athlete(&file->text, i);
    for (int squad = 0; squad < squads; squad++) {
        file++;
        snprintf(file->name, sizeof file->name, "squad-%d.bell", squad + 1);
        for (int i = 0; i < (shape.sessions > shape.days ? shape.sessions : shape.days); i++)
            add_session(&file->text, squad, i, shape.logged);
    }
    for (int i = 0; i < shape.athletes; i += shape.rooms ? SQUAD : 1) {
        file++;
        snprintf(file->name, sizeof file->name, "camp-%03d.bell", i + 1);
        add_camp(&file->text, i, shape);
    }
    for (int i = 0; shape.logged && i < shape.athletes; i++) {
        file++;
        snprintf(file->name, sizeof file->name, "logs-%03d.bell", i + 1);
        add_logs(&file->text, i, shape);
    }
    return files;
}

void club_free(struct club_files *files)
{
    for (size_t i = 0; i < files->count; i++)
        text_free(&files->items[i].text);
    free(files->items);
    *files = (struct club_files){0};
}

size_t club_size(const struct club_files *files)
{
    size_t size = 0;
    for (size_t i = 0; i < files->count; i++)
        size += files->items[i].text.length;
    return size;
}
