#include "property/sheet_plans.h"

#include <stdbool.h>
#include <string.h>

enum {
    LONGEST_NAME = 110,
    LONGEST_CUE = 170,
    SHEET_EXERCISES = 24,
    SHEET_ATHLETES = 12,
    MOST_BLOCKS = 10
};

struct sheet_plan {
    uint64_t chance;
    struct text *out;
    struct text names[SHEET_EXERCISES];
    int kinds[SHEET_EXERCISES];
    struct text people[SHEET_ATHLETES];
    int exercises, athletes;
};

static int sheet_pick(struct sheet_plan *plan, int from, int to)
{
    uint64_t *state = &plan->chance;
    *state ^= *state >> 12;
    *state ^= *state << 25;
    *state ^= *state >> 27;
    return from + (int)((*state * UINT64_C(2685821657736338717) >> 33) % (unsigned)(to - from + 1));
}

static bool sheet_one_in(struct sheet_plan *plan, int n)
{
    return sheet_pick(plan, 1, n) == 1;
}

/* Words of MOST bytes at most, in one script or another; NUMBER keeps names apart. */
static void add_words(struct sheet_plan *plan, struct text *out, int most, int number)
{
    static const char *const words[][8] = {
        {"low", "rear", "hand", "landmine", "press", "half kneeling", "rotation",
         "counterbalanced"},
        {"đẩy", "tạ", "một", "tay", "ngồi xổm", "nghiêng", "vững", "đường"},
        {"ยก", "น้ำหนัก", "หมัด", "ตรง", "เข่า", "ศอก", "เตะ", "สูง"},
        {"присед", "жим", "тяга", "стоя", "выпад", "подтягивание", "скручивание", "рывок"},
        {"ضغط", "كتف", "قرفصاء", "سحب", "دفع", "دوران", "ثبات", "جري"},
        {"腕立て", "伏せ", "懸垂", "屈伸", "回転", "体幹", "跳躍", "走"},
        {"stance", "push-off", "over", "and", "back", "again", "slowly",
         "Donaudampfschifffahrtsgesellschaft"},
    };
    enum { SCRIPTS = sizeof words / sizeof *words };
    int script = sheet_one_in(plan, 3) ? sheet_pick(plan, 0, SCRIPTS - 1) : 0;
    size_t start = out->length;
    int wish = sheet_one_in(plan, 4) ? most : sheet_pick(plan, 4, most / 3);
    text_addf(out, "%s", words[script][sheet_pick(plan, 0, 7)]);
    for (;;) {
        const char *word = words[script][sheet_pick(plan, 0, 7)];
        if (out->length - start + strlen(word) + 1 > (size_t)wish)
            break;
        text_addf(out, " %s", word);
    }
    if (number)
        text_addf(out, " %d", number);
}

static void line_of_words(struct sheet_plan *plan, const char *lead)
{
    text_add(plan->out, lead);
    add_words(plan, plan->out, LONGEST_CUE, 0);
    text_add_char(plan->out, '\n');
}

static void make_sheet_exercise(struct sheet_plan *plan, int i)
{
    static const char *const bodies[] = {
        "    kind strength\n    pattern squat\n    side both\n    needs barbell, plates\n"
        "    counts reps\n    weigh bar and plates\n",
        "    kind strength\n    pattern pull\n    side each side, hand\n    needs dumbbells\n"
        "    counts reps\n    weigh one hand\n",
        "    kind skill\n    pattern strike\n    side per stance, rear hand\n    counts strikes\n",
        "    kind hold\n    pattern brace\n    side each side\n    counts seconds\n",
    };
    plan->kinds[i] = i == 0 ? 0 : sheet_pick(plan, 0, 3);
    add_words(plan, &plan->names[i], LONGEST_NAME, i + 1);
    text_addf(plan->out, "exercise %s\n%s    loads trunk 1\n", text_get(&plan->names[i]),
              bodies[plan->kinds[i]]);
    if (!sheet_one_in(plan, 3))
        line_of_words(plan, "    cue ");
    if (sheet_one_in(plan, 2))
        line_of_words(plan, "    stop ");
}

static void make_sheet_athlete(struct sheet_plan *plan, int i)
{
    add_words(plan, &plan->people[i], LONGEST_NAME, i + 1);
    text_addf(plan->out,
              "athlete %s\n    stance %s\n    lifting since 20%02d-01\n    trains at hall\n",
              text_get(&plan->people[i]), sheet_one_in(plan, 2) ? "southpaw" : "orthodox",
              sheet_pick(plan, 15, 26));
    if (sheet_one_in(plan, 2))
        text_addf(plan->out, "    bests\n        %s : %d @ %d kg on 2026-12-05\n",
                  text_get(&plan->names[0]), sheet_pick(plan, 1, 5), 5 * sheet_pick(plan, 14, 40));
    if (sheet_one_in(plan, 4))
        text_add(plan->out, "    print pounds too\n");
}

static void add_sheet_dose(struct sheet_plan *plan, int kind)
{
    struct text *out = plan->out;
    switch (kind) {
    case 0:
        text_addf(out, "%d @ %d kg", sheet_pick(plan, 1, 8), 5 * sheet_pick(plan, 4, 40));
        if (sheet_one_in(plan, 2))
            text_addf(out, " tempo %d-%d-X-0", sheet_pick(plan, 1, 6), sheet_pick(plan, 0, 3));
        break;
    case 1:
        text_addf(out, "%d each side @ %d kg", sheet_pick(plan, 4, 15),
                  2 * sheet_pick(plan, 2, 15));
        break;
    case 2:
        text_addf(out, "%d orthodox + %d southpaw%s", sheet_pick(plan, 2, 20),
                  sheet_pick(plan, 2, 20), sheet_one_in(plan, 2) ? " all-out" : "");
        break;
    default:
        text_addf(out, "hold %d s each side%s", sheet_pick(plan, 5, 60),
                  sheet_one_in(plan, 2) ? " @ RPE 7" : "");
    }
}

static void add_sheet_item(struct sheet_plan *plan)
{
    int i = sheet_pick(plan, 0, plan->exercises - 1);
    text_addf(plan->out, "        %s : ", text_get(&plan->names[i]));
    add_sheet_dose(plan, plan->kinds[i]);
    text_add_char(plan->out, '\n');
    if (sheet_one_in(plan, 3))
        line_of_words(plan, "            cue ");
    if (sheet_one_in(plan, 4)) {
        text_addf(plan->out, "            for %s : ",
                  text_get(&plan->people[sheet_pick(plan, 0, plan->athletes - 1)]));
        add_sheet_dose(plan, plan->kinds[i]);
        text_add_char(plan->out, '\n');
    }
}

static void make_sheet_session(struct sheet_plan *plan)
{
    int blocks = sheet_one_in(plan, 5) ? MOST_BLOCKS : sheet_pick(plan, 1, 6);
    text_add(plan->out, "session ");
    add_words(plan, plan->out, LONGEST_NAME, 0);
    text_add(plan->out, " evening\n");
    line_of_words(plan, "    purpose ");
    for (int b = 0; b < blocks; b++) {
        bool straight = sheet_one_in(plan, 3);
        text_addf(plan->out, "    %s %c %d sets rest %d:%02d\n", straight ? "straight" : "superset",
                  'A' + b, sheet_pick(plan, 1, 6), sheet_pick(plan, 0, 4),
                  sheet_pick(plan, 0, 5) * 10);
        for (int left = straight ? 1 : sheet_pick(plan, 2, 4); left > 0; left--)
            add_sheet_item(plan);
    }
}

static void make_sheet_camp(struct sheet_plan *plan, const char *session)
{
    struct text *out = plan->out;
    text_add(out, "camp ");
    add_words(plan, out, LONGEST_NAME, 0);
    text_add(out, " camp\n    for ");
    for (int i = 0; i < plan->athletes; i++)
        text_addf(out, "%s%s", i ? ", " : "", text_get(&plan->people[i]));
    text_add(out, "\n    starts 2027-03-01\n");
    if (sheet_one_in(plan, 2))
        text_add(out,
                 "    bout 2027-05-22 boxing 3 x 3:00 rest 1:00\n    phases\n"
                 "        base : until power\n        power : 3 weeks\n        taper : 9 days\n");
    text_add(out, "    limits house rules\n    week 1\n");
    text_addf(out, "        monday 18:00 %s\n", session);
    text_add(out, "        tuesday 07:00 long slow running : 35 min RPE 4\n");
    text_addf(out,
              "    weeks 1-%d\n        saturday 10:00 sparring on the mats : %d x 3:00 RPE 7\n",
              sheet_pick(plan, 1, 11), sheet_pick(plan, 3, 20));
}

void sheet_plan_make(uint64_t seed, struct text *out)
{
    struct sheet_plan plan = {.chance = (seed + 1) * UINT64_C(0x9e3779b97f4a7c15), .out = out};
    plan.exercises = sheet_pick(&plan, 4, SHEET_EXERCISES);
    plan.athletes = sheet_one_in(&plan, 3)   ? 1
                    : sheet_one_in(&plan, 4) ? SHEET_ATHLETES
                                             : sheet_pick(&plan, 2, 6);
    text_add(out,
             "gym hall\n    barbells 2 x 20 kg\n    plates 8 x 25, 6 x 20, 4 x 10, 4 x 5, 4 x 2.5, "
             "4 x 1.25 kg\n    dumbbells pairs 2-40 kg by 2\n"
             "activity long slow running\nactivity sparring on the mats\n    counts rounds\n    "
             "sparring yes\n"
             "limits house rules\n    every week\n        sparring rounds at most 12\n"
             "        sets at most 30\n        all-out strikes at most 100 a side\n");
    for (int i = 0; i < plan.exercises; i++)
        make_sheet_exercise(&plan, i);
    for (int i = 0; i < plan.athletes; i++)
        make_sheet_athlete(&plan, i);
    size_t start = out->length + strlen("session ");
    make_sheet_session(&plan);
    size_t length = strcspn(text_get(out) + start, "\n");
    struct text session = {0};
    text_add_bytes(&session, text_get(out) + start, length);
    make_sheet_camp(&plan, text_get(&session));
    text_free(&session);
    for (int i = 0; i < SHEET_EXERCISES; i++)
        text_free(&plan.names[i]);
    for (int i = 0; i < SHEET_ATHLETES; i++)
        text_free(&plan.people[i]);
}
