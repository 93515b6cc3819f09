#include "property/club_maker.h"

#include <stdbool.h>
#include <stdio.h>
#include <string.h>

#include "figures/dates.h"

enum {
    MOST_PIECES = 64,
    MOST_EXERCISES = 10,
    MOST_ATHLETES = 3,
    MOST_SESSIONS = 5,
    CAMP_WEEKS = 12,
    TAPER_DAYS = 10
};

/* Texts that may stand in any order. */
struct pieces {
    struct text items[MOST_PIECES];
    size_t count;
};

enum sort { SORT_LIFT, SORT_ONE_SIDED, SORT_STANCE, SORT_HOLD, SORT_DISTANCE, SORT_FOUR_WAYS, SORT_COUNT };

struct club {
    uint64_t chance;
    struct pieces pieces;
    enum sort sorts[MOST_EXERCISES];
    int exercises, athletes, gyms, sessions, camps;
    int bout_later;
    uint64_t order;
};

/* --- chance --- */

static unsigned draw(uint64_t *state, unsigned below)
{
    *state ^= *state >> 12;
    *state ^= *state << 25;
    *state ^= *state >> 27;
    return (unsigned)(*state * UINT64_C(2685821657736338717) >> 33) % below;
}

static int pick(struct club *club, int from, int to)
{
    return from + (int)draw(&club->chance, (unsigned)(to - from + 1));
}

static bool one_in(struct club *club, int n)
{
    return pick(club, 1, n) == 1;
}

/* --- pieces --- */

static struct text *piece(struct pieces *pieces)
{
    return &pieces->items[pieces->count++];
}

/* Adds the pieces to OUT in an order that follows from *ORDER; as they are where it is 0. */
static void pieces_write(struct pieces *pieces, uint64_t *order, struct text *out)
{
    for (size_t left = pieces->count; *order && left > 1; left--) {
        size_t i = draw(order, (unsigned)left);
        struct text last = pieces->items[left - 1];
        pieces->items[left - 1] = pieces->items[i];
        pieces->items[i] = last;
    }
    for (size_t i = 0; i < pieces->count; i++) {
        text_add_bytes(out, text_get(&pieces->items[i]), pieces->items[i].length);
        text_free(&pieces->items[i]);
    }
    pieces->count = 0;
}

/* --- kit and people --- */

static void make_gym(struct club *club, int number)
{
    struct text *out = piece(&club->pieces);
    text_addf(out, "gym room %d\n    barbells 2 x 20 kg%s\n    time zone %s\n", number, one_in(club, 2) ? ", 15 kg" : "",
              number % 2 ? "Europe/London" : "America/New_York");
    text_add(out, "    plates 4 x 25, 6 x 20, 4 x 10, 4 x 5, 4 x 2.5, 4 x 1.25 kg\n");
    text_addf(out, "    dumbbells pairs 4-%d kg by 2\n", 2 * pick(club, 10, 20));
    text_addf(out, "    stations 2 x rack%s\n", number == 1 || one_in(club, 2) ? ", sled" : "");
}

static void make_exercise(struct club *club, int number)
{
    static const char *const bodies[SORT_COUNT] = {
        [SORT_LIFT] = "    kind strength\n    pattern squat\n    side both\n    needs barbell, plates\n"
                      "    loads hips 1, trunk 0.5\n    counts reps\n    weigh bar and plates\n",
        [SORT_ONE_SIDED] = "    kind strength\n    pattern pull\n    side each side, hand\n"
                           "    needs dumbbells\n    loads arm 1\n    counts reps\n    weigh one hand\n",
        [SORT_STANCE] = "    kind skill\n    pattern strike\n    side per stance, rear hand\n"
                        "    loads shoulder 1\n    counts strikes\n",
        [SORT_HOLD] = "    kind hold\n    pattern brace\n    side each side\n    loads trunk 1\n"
                      "    counts seconds\n",
        [SORT_DISTANCE] = "    kind conditioning\n    pattern locomotion\n    side both\n"
                          "    needs sled\n    loads calf 1\n    counts metres\n",
        [SORT_FOUR_WAYS] = "    kind hold\n    pattern neck\n    side four ways\n    loads neck 1\n"
                           "    counts seconds\n",
    };
    enum sort sort = number == 0 ? SORT_LIFT : (enum sort)pick(club, 0, SORT_COUNT - 1);
    club->sorts[number] = sort;
    struct text *out = piece(&club->pieces);
    text_addf(out, "exercise exercise %d\n%s", number, bodies[sort]);
    if (sort == SORT_LIFT && number > 0 && one_in(club, 2))
        text_add(out, "    percent of exercise 0 x 0.8\n");
}

static void make_athlete(struct club *club, int number)
{
    struct text *out = piece(&club->pieces);
    text_addf(out, "athlete person %d\n    stance %s\n", number,
              one_in(club, 2) ? "southpaw" : "orthodox");
    text_addf(out, "    lifting since 20%02d-%02d\n", pick(club, 15, 26), pick(club, 1, 9));
    text_addf(out, "    trains at room %d\n    bests\n", pick(club, 1, club->gyms));
    for (int i = 0; i < club->exercises; i++)
        if (club->sorts[i] == SORT_LIFT)
            text_addf(out, "        exercise %d : %d @ %d kg on 2026-12-%02d\n", i, pick(club, 1, 5),
                      5 * pick(club, 14, 30), pick(club, 1, 28));
    if (one_in(club, 4)) {
        out = piece(&club->pieces);
        text_addf(out, "private person %d\n    born 19%02d-05-01\n    body mass %d kg on 2026-12-01\n",
                  number, pick(club, 70, 99), pick(club, 50, 100));
    }
}

/* --- sessions --- */

/* "5", "3-5", "5/4/3/...": figures of one kind. */
static void add_figures(struct club *club, struct text *out, int from, int to)
{
    int first = pick(club, from, to);
    switch (pick(club, 0, 3)) {
    case 0:
        text_addf(out, "%d-%d", first, first + pick(club, 1, 3));
        break;
    case 1:
        text_addf(out, "%d/%d/...", first, pick(club, from, to));
        break;
    default:
        text_addf(out, "%d", first);
    }
}

static void add_dose(struct club *club, struct text *out, enum sort sort)
{
    static const char *const stances[] = {" each stance", " orthodox + 2 southpaw", " own + 3 switched",
                                          " southpaw"};
    switch (sort) {
    case SORT_LIFT:
        add_figures(club, out, 2, 8);
        if (one_in(club, 3))
            text_addf(out, " @ RPE %d", pick(club, 5, 9));
        else if (one_in(club, 3))
            text_addf(out, " @ %d/%d/...%%", pick(club, 60, 70), pick(club, 70, 90));
        else
            text_addf(out, " @ %d%% tempo 3-%d-X-0", pick(club, 60, 90), pick(club, 0, 2));
        break;
    case SORT_ONE_SIDED:
        add_figures(club, out, 5, 12);
        text_addf(out, "%s @ %d kg", one_in(club, 3) ? "" : " each side", 2 * pick(club, 3, 9));
        break;
    case SORT_STANCE:
        add_figures(club, out, 3, 9);
        text_addf(out, "%s all-out", stances[pick(club, 0, 3)]);
        break;
    case SORT_HOLD:
        text_add(out, "hold ");
        add_figures(club, out, 10, 40);
        text_add(out, " s each side");
        break;
    case SORT_DISTANCE:
        if (one_in(club, 2))
            text_addf(out, "%d x ", pick(club, 4, 6));
        text_addf(out, "%d m rest %d s", 5 * pick(club, 2, 8), pick(club, 10, 30));
        break;
    default:
        text_addf(out, "hold %d s each way @ RPE %d", pick(club, 5, 12), pick(club, 4, 6));
    }
}

static void add_variants(struct club *club, struct text *out, enum sort sort)
{
    static const char *const ages[] = {"novice", "intermediate", "advanced"};
    if (one_in(club, 4)) {
        text_addf(out, "            for %s : ", ages[pick(club, 0, 2)]);
        add_dose(club, out, sort);
        text_add_char(out, '\n');
    }
    if (one_in(club, 5)) {
        text_addf(out, "            for person %d : ", pick(club, 1, club->athletes));
        add_dose(club, out, sort);
        text_add_char(out, '\n');
    }
    if (one_in(club, 6)) {
        text_addf(out, "            weeks %d-%d : ", pick(club, 1, 2), pick(club, 3, 9));
        add_dose(club, out, sort);
        text_add_char(out, '\n');
    }
}

static void add_item(struct club *club, struct text *out)
{
    int number = pick(club, 0, club->exercises - 1);
    text_addf(out, "        exercise %d : ", number);
    add_dose(club, out, club->sorts[number]);
    text_add_char(out, '\n');
    add_variants(club, out, club->sorts[number]);
}

static void add_block(struct club *club, struct text *out, char letter)
{
    static const char *const kinds[] = {"superset", "circuit", "complex"};
    if (one_in(club, 5)) {
        text_addf(out, "    rounds %c %d x %d:00 rest 0:%d0\n", letter, pick(club, 2, 6),
                  pick(club, 2, 3), pick(club, 3, 5));
        text_addf(out, "        exercise %d : %s\n", pick(club, 0, club->exercises - 1),
                  one_in(club, 2) ? "easy" : "10 s all-out, 20 s easy");
        return;
    }
    bool straight = one_in(club, 3);
    text_addf(out, "    %s %c ", straight ? "straight" : kinds[pick(club, 0, 2)], letter);
    if (one_in(club, 3))
        text_addf(out, "%d/%d/... sets", pick(club, 2, 3), pick(club, 2, 3));
    else
        text_addf(out, "%d sets", pick(club, 2, 3));
    text_add_char(out, '\n');
    if (one_in(club, 3))
        text_addf(out, "        keep %d\n", pick(club, 1, 3));
    for (int left = straight ? 1 : pick(club, 1, 3); left > 0; left--)
        add_item(club, out);
}

static void make_session(struct club *club, int number)
{
    struct text *out = piece(&club->pieces);
    text_addf(out, "session session %d\n", number);
    int blocks = pick(club, 1, 3);
    for (int i = 0; i < blocks; i++)
        add_block(club, out, (char)('A' + i));
}

/* --- camps --- */

static const char *const days[] = {"monday", "tuesday",  "wednesday", "thursday",
                                   "friday", "saturday", "sunday"};

/* Each line has a day and an hour to itself; each camp its own minute. */
static void make_lines(struct club *club, int camp, int hour, int rare, struct pieces *lines)
{
    for (int day = 0; day < 7; day++) {
        if (!one_in(club, rare))
            continue;
        struct text *out = piece(lines);
        text_addf(out, "        %s %02d:%02d  ", days[day], hour, camp * 7);
        if (one_in(club, 4)) {
            text_addf(out, "activity %d : %d min RPE %d\n", pick(club, 1, 2), pick(club, 20, 90),
                      pick(club, 3, 8));
            continue;
        }
        int session = pick(club, 1, club->sessions);
        if (one_in(club, 6))
            text_addf(out, "in turn session %d, session %d", session, pick(club, 1, club->sessions));
        else
            text_addf(out, "session %d", session);
        text_add(out, one_in(club, 8) ? " from column 2\n" : "\n");
        if (one_in(club, 8))
            text_add(out, "            optional\n");
    }
}

/* One in RARE days of WHEN has a line. */
static void make_span(struct club *club, int camp, const char *when, int hour, int rare,
                      struct pieces *spans)
{
    struct pieces lines = {.count = 0};
    struct text *out = piece(spans);
    make_lines(club, camp, hour, rare, &lines);
    if (lines.count == 0)
        text_addf(piece(&lines), "        monday %02d:%02d  session 1\n", hour, camp * 7);
    text_addf(out, "    %s\n", when);
    pieces_write(&lines, &club->order, out);
}

static void make_spans(struct club *club, int camp, bool bout, struct pieces *spans)
{
    char when[40];
    make_span(club, camp, "weeks 1-3", 18, 4, spans);
    for (int week = 1; week <= 3; week++)
        if (one_in(club, 3)) { /* narrower, at the same hour: these win */
            snprintf(when, sizeof when, "week %d", week);
            make_span(club, camp, when, 18, 3, spans);
        }
    if (one_in(club, 3))
        make_span(club, camp, "every other week", 7, 10, spans);
    for (int out = 0; out <= 3 && bout; out++)
        if (one_in(club, 2)) {
            snprintf(when, sizeof when, "week %d out", out);
            make_span(club, camp, when, 12, 5, spans);
        }
    if (bout && one_in(club, 2))
        make_span(club, camp, "in taper", 15, 5, spans);
}

static void make_camp(struct club *club, int number)
{
    struct text *out = piece(&club->pieces);
    struct pieces spans = {.count = 0};
    int start = date_from_ymd(2027, 1, 4) + pick(club, 0, 20);
    bool bout = one_in(club, 2);
    text_addf(out, "camp camp %d\n    for person 1", number);
    for (int i = 2; i <= club->athletes; i++)
        if (one_in(club, 2))
            text_addf(out, ", person %d", i);
    char day[DATE_TEXT_SIZE];
    text_addf(out, "\n    starts %s\n", date_format(start, day));
    if (one_in(club, 2))
        text_addf(out, "    time zone Asia/Kolkata from %s to %s\n", date_format(start + 8, day),
                  date_format(start + pick(club, 8, 16), (char[DATE_TEXT_SIZE]){0}));
    if (bout)
        text_addf(out, "    bout %s boxing\n",
                  date_format(start + 7 * CAMP_WEEKS - pick(club, 0, 13) + club->bout_later, day));
    text_addf(out, "    phases\n        base : %s\n        strength : %d weeks\n",
              bout ? "until strength" : "3 weeks", pick(club, 2, 4));
    text_addf(out, "        taper : %d days\n", TAPER_DAYS);
    if (bout && one_in(club, 2))
        text_add(out, "        recovery : until medical check\n");
    text_add(out, "    limits house rules\n");
    make_spans(club, number, bout, &spans);
    pieces_write(&spans, &club->order, out);
}

void club_make(const struct club_seed *seed, struct text *out)
{
    struct club club = {.chance = seed->shape * UINT64_C(0x9e3779b97f4a7c15) + 1,
                        .order = seed->order,
                        .bout_later = seed->bout_later};
    club.gyms = pick(&club, 1, 2);
    club.exercises = pick(&club, 3, MOST_EXERCISES);
    club.athletes = pick(&club, 1, MOST_ATHLETES);
    club.sessions = pick(&club, 1, MOST_SESSIONS);
    club.camps = one_in(&club, 3) ? 2 : 1;
    for (int i = 1; i <= club.gyms; i++)
        make_gym(&club, i);
    for (int i = 0; i < club.exercises; i++)
        make_exercise(&club, i);
    for (int i = 1; i <= 2; i++)
        text_addf(piece(&club.pieces), "activity activity %d\n    rpe %d\n", i, pick(&club, 3, 8));
    text_add(piece(&club.pieces),
             "limits house rules\n    every week\n        sets at most 200\n");
    for (int i = 1; i <= club.athletes; i++)
        make_athlete(&club, i);
    for (int i = 1; i <= club.sessions; i++)
        make_session(&club, i);
    for (int i = 1; i <= club.camps; i++)
        make_camp(&club, i);
    pieces_write(&club.pieces, &club.order, out);
}
