/* The values in a plan's lines, at random; a part of plan_maker.c. */
#include <ctype.h>
#include <string.h>

#include "base/text.h"
#include "parse.h"
#include "syntax/phrases.h"
#include "syntax/read.h"

enum { DEEPEST_BLOCK = 6 };

struct maker {
    const struct phrasebook *book;
    struct text *out;
    uint64_t shape, spelling;
    struct text indents[DEEPEST_BLOCK +
                        1]; /* the white space that the lines of each open block start with */
    const char *line_end;
    bool in_series; /* where 10/2000 would be taken for a date */
};

/* --- chance --- */

static unsigned draw(uint64_t *state, unsigned below)
{
    *state ^= *state >> 12;
    *state ^= *state << 25;
    *state ^= *state >> 27;
    return (unsigned)(*state * UINT64_C(2685821657736338717) >> 33) % below;
}

/* What stands in the plan. */
static unsigned pick(struct maker *m, unsigned below)
{
    return draw(&m->shape, below);
}

static bool one_in(struct maker *m, unsigned n)
{
    return pick(m, n) == 0;
}

/* How it is written. */
static unsigned vary(struct maker *m, unsigned below)
{
    return draw(&m->spelling, below);
}

#define ONE_OF(m, list) ((list)[pick((m), (unsigned)(sizeof(list) / sizeof *(list)))])

/* --- white space and words --- */

static void add(struct maker *m, const char *words)
{
    text_add(m->out, words);
}

static void space(struct maker *m)
{
    static const char *const spaces[] = {" ", " ", " ", " ", "  ", "   ", "\t", " \t "};
    add(m, spaces[vary(m, 8)]);
}

static void maybe_space(struct maker *m)
{
    if (vary(m, 2))
        space(m);
}

/* SIGN with or without space around it. */
static void sign(struct maker *m, const char *mark)
{
    maybe_space(m);
    add(m, mark);
    maybe_space(m);
}

static void comma(struct maker *m)
{
    maybe_space(m);
    add(m, ",");
    space(m); /* 2,5 would be a slip */
}

/* Any of the spellings in PHRASES, in any case. */
static void spell(struct maker *m, const char *phrases)
{
    unsigned count = 1;
    for (const char *p = phrases; *p; p++)
        count += *p == '|';
    for (unsigned skip = vary(m, count); skip; skip--)
        phrases = strchr(phrases, '|') + 1;
    bool shout = vary(m, 8) == 0;
    for (; *phrases && *phrases != '|'; phrases++) {
        if (*phrases == ' ')
            space(m);
        else
            text_add_char(m->out, shout ? (char)toupper((unsigned char)*phrases) : *phrases);
    }
}

static void coded(struct maker *m, int token, int code)
{
    spell(m, word_phrases(token, code));
}

static void word(struct maker *m, int token)
{
    coded(m, token, 0);
}

static void spaced_word(struct maker *m, int token)
{
    space(m);
    word(m, token);
    space(m);
}

/* --- names and texts --- */

static void words_of(struct maker *m, const char *const *words, unsigned count)
{
    for (unsigned left = 1 + pick(m, 4); left; left--) {
        add(m, words[pick(m, count)]);
        if (left > 1)
            space(m);
    }
}

/* A name where a sign or the line ends it. */
static void name(struct maker *m)
{
    static const char *const words[] = {"landmine", "press",  "hip",    "90-90",  "1/2",  "step-up",
                                        "3:1",      "#2",     "(wide)", "Zürich", "深蹲", "жим",
                                        "goblet",   "D-ring", "4x4",    "a+b"};
    words_of(m, words, 16);
}

/* A name of words alone, where figures may follow. */
static void loose_name(struct maker *m)
{
    static const char *const words[] = {"medium", "band",      "trap", "sled",
                                        "тяга",   "élastique", "ring"};
    words_of(m, words, 7);
}

static void item_name(struct maker *m)
{
    static const char *const openers[] = {"rest ",   "hold ",   "every ",
                                          "clean, ", "ladder ", "rest-pause "};
    if (one_in(m, 4))
        add(m, ONE_OF(m, openers));
    name(m);
    if (one_in(m, 12))
        add(m, ", from the deficit and with a pause at the knee");
}

static void names(struct maker *m)
{
    for (unsigned left = 1 + pick(m, 3); left; left--) {
        name(m);
        if (left > 1)
            comma(m);
    }
}

/* Free text: to be kept to the byte. */
static void free_text(struct maker *m)
{
    static const char *const texts[] = {
        "turn the hip  before the arm",
        "knees: over toes",
        "\"let go\", then  breathe",
        "4x8 @80% is not read here",
        "note #2 : as it stands",
        "naïve – 1–2\tspots",
        "a;b / c, d + e",
        "5kg",
        "rest 1:30 in turn",
        "slow... then x 3",
        "Sözen et al. 2019, 12:5",
        "だめ  なら 止める",
    };
    add(m, ONE_OF(m, texts));
}

/* --- figures --- */

static void whole(struct maker *m, unsigned low, unsigned high)
{
    if (vary(m, 30) == 0 && high < 100)
        add(m, "0");
    text_addf(m->out, "%u", low + pick(m, high - low + 1));
    if (vary(m, 30) == 0)
        add(m, ".0");
}

static void number(struct maker *m)
{
    unsigned which = pick(m, 12);
    if (which < 8) {
        whole(m, 1, 30);
    } else if (which < 10) {
        static const char *const parts[] = {".5", ".25", ".125", ".05", ".7"};
        text_addf(m->out, "%u%s%s", pick(m, 90), ONE_OF(m, parts), vary(m, 20) ? "" : "");
    } else {
        whole(m, 31, 999);
    }
}

static void time_of(struct maker *m, unsigned most)
{
    unsigned seconds = pick(m, most);
    if (seconds >= 3600 && vary(m, 2))
        text_addf(m->out, "%u:%02u:%02u", seconds / 3600, seconds / 60 % 60, seconds % 60);
    else
        text_addf(m->out, "%u:%02u", seconds / 60, seconds % 60);
}

static void minus(struct maker *m)
{
    sign(m, vary(m, 4) ? "-" : "–");
}

static void range(struct maker *m)
{
    if (!m->in_series && one_in(m, 20)) {
        static const char *const wide[][2] = {
            {"1000", "1200"}, {"2000", "50"}, {"800", "1000"}, {"1500", "20.5"}};
        const char *const *ends = ONE_OF(m, wide);
        text_addf(m->out, "%s%s%s", ends[0], " - ", ends[1]);
        return;
    }
    if (one_in(m, 4)) {
        time_of(m, 600);
        minus(m);
        time_of(m, 600);
        return;
    }
    number(m);
    minus(m);
    number(m);
}

/* Returns whether a digit ends it, so that a unit may stand close. */
static bool plain(struct maker *m)
{
    switch (pick(m, 8)) {
    case 0:
        range(m);
        return true;
    case 1:
        time_of(m, 8000);
        return true;
    case 2:
        word(m, T_MAX);
        return false;
    default:
        number(m);
        return true;
    }
}

static bool series(struct maker *m)
{
    if (one_in(m, 8)) {
        add(m, "10 / 20 / 1000");
        return true;
    }
    m->in_series = true;
    bool close = plain(m);
    for (unsigned left = 1 + pick(m, 4); left; left--) {
        sign(m, "/");
        close = plain(m);
    }
    m->in_series = false;
    if (!one_in(m, 5))
        return close;
    sign(m, "/");
    add(m, vary(m, 2) ? "..." : "…");
    return false;
}

static bool list(struct maker *m)
{
    bool close = plain(m);
    for (unsigned left = 1 + pick(m, 3); left; left--) {
        comma(m);
        close = plain(m);
    }
    return close;
}

static void measure(struct maker *m, bool close, int code)
{
    if (close)
        maybe_space(m);
    else
        space(m);
    coded(m, T_MEASURE, code);
}

static const int dose_measures[] = {
    MEASURE_KG,      MEASURE_LB,       MEASURE_SECOND, MEASURE_MINUTE, MEASURE_METRE,
    MEASURE_CM,      MEASURE_PERCENT,  MEASURE_REPS,   MEASURE_SETS,   MEASURE_ROUNDS,
    MEASURE_STRIKES, MEASURE_CONTACTS, MEASURE_RM,     MEASURE_HOUR,   MEASURE_METRE_A_SECOND,
    MEASURE_NEWTON,  MEASURE_WATT};

static void figures(struct maker *m)
{
    unsigned which = pick(m, 8);
    bool close = which == 0 ? series(m) : which == 1 ? list(m) : plain(m);
    if (one_in(m, 2))
        measure(m, close, ONE_OF(m, dose_measures));
}

/* --- dates --- */

static void date(struct maker *m)
{
    text_addf(m->out, "20%02u-%02u-%02u", pick(m, 60), 1 + pick(m, 12), 1 + pick(m, 28));
}

static void on_date(struct maker *m)
{
    space(m);
    word(m, T_ON);
    space(m);
    date(m);
}

/* --- doses --- */

static void part(struct maker *m)
{
    figures(m);
    if (!one_in(m, 3))
        return;
    space(m);
    coded(m, T_SIDE, SIDE_WORD_EACH_SIDE + (int)pick(m, SIDE_WORD_REAR_LEG));
}

static void sum(struct maker *m)
{
    if (one_in(m, 6)) {
        whole(m, 1, 8);
        for (unsigned left = 1 + pick(m, 3); left; left--) {
            sign(m, "+");
            whole(m, 1, 8);
        }
        return;
    }
    part(m);
    for (unsigned left = pick(m, 3) / 2; left; left--) {
        sign(m, "+");
        part(m);
    }
}

/* Close to what stands behind it only where that starts with a digit: `4x8`, but `2 x rack`. */
static void times(struct maker *m, bool close)
{
    maybe_space(m);
    add(m, vary(m, 8) ? "x" : "×");
    if (close)
        maybe_space(m);
    else
        space(m);
}

static void amount(struct maker *m)
{
    switch (pick(m, 7)) {
    case 0:
        whole(m, 1, 12);
        times(m, false);
        sum(m);
        break;
    case 6:
        plain(m) ? maybe_space(m) : space(m);
        times(m, true);
        whole(m, 1, 12);
        break;
    case 1:
        word(m, T_HOLD);
        space(m);
        sum(m);
        break;
    case 2:
        text_addf(m->out, "%u", 1 + pick(m, 4));
        measure(m, true, MEASURE_HOUR);
        space(m);
        whole(m, 1, 9);
        measure(m, true, MEASURE_MINUTE);
        break;
    default:
        sum(m);
    }
}

static void extra(struct maker *m)
{
    if (one_in(m, 2))
        return;
    sign(m, "+");
    number(m);
    measure(m, true, MEASURE_KG);
}

static void load(struct maker *m)
{
    add(m, "@");
    maybe_space(m);
    switch (pick(m, 9)) {
    case 8:
        whole(m, 5, 60);
        measure(m, true, MEASURE_PERCENT);
        spaced_word(m, T_OF);
        loose_name(m);
        break;
    case 0:
        whole(m, 2, 4);
        times(m, true);
        number(m);
        measure(m, true, MEASURE_KG);
        break;
    case 1:
        word(m, T_BODY_MASS);
        extra(m);
        break;
    case 2:
        whole(m, 5, 60);
        measure(m, true, MEASURE_PERCENT);
        spaced_word(m, T_OF);
        word(m, T_BODY_MASS);
        extra(m);
        break;
    case 3:
        whole(m, 5, 60);
        measure(m, true, MEASURE_PERCENT);
        spaced_word(m, T_OF);
        text_addf(m->out, "%c.%u", 'A' + (int)pick(m, 6), 1 + pick(m, 4));
        break;
    case 4:
        word(m, T_LAST);
        extra(m);
        break;
    case 5:
        loose_name(m);
        break;
    default:
        figures(m);
    }
}

static void effort(struct maker *m)
{
    if (vary(m, 2)) {
        add(m, "@");
        maybe_space(m);
    }
    switch (pick(m, 5)) {
    case 0:
        word(m, T_RPE);
        space(m);
        number(m);
        break;
    case 1:
        number(m);
        space(m);
        word(m, T_IN_RESERVE);
        break;
    case 2:
        word(m, T_PULSE);
        space(m);
        range(m);
        break;
    case 3:
        word(m, T_ALL_OUT);
        break;
    default:
        word(m, T_EASY);
    }
}

static void tempo(struct maker *m)
{
    word(m, T_TEMPO_WORD);
    space(m);
    const char *fast = vary(m, 2) ? "X" : "x";
    text_addf(m->out, "%u-%u-%s-%u", pick(m, 6), pick(m, 3), one_in(m, 2) ? fast : "1", pick(m, 3));
}

static void word_figures(struct maker *m, int token)
{
    word(m, token);
    space(m);
    figures(m);
}

static void clause_behind(struct maker *m)
{
    static const int tokens[] = {T_REST, T_BLOCK_REST, T_FOR, T_IN};
    switch (pick(m, 6)) {
    case 0:
        tempo(m);
        break;
    case 1:
        word(m, T_ON);
        space(m);
        date(m);
        break;
    default:
        word_figures(m, ONE_OF(m, tokens));
    }
}

static void dose(struct maker *m)
{
    unsigned parts = 1 + pick(m, 15); /* a bit for each clause */
    if (parts & 1)
        one_in(m, 10) ? word_figures(m, T_WORK_UP) : amount(m);
    if (parts & 2) {
        space(m);
        load(m);
    }
    if (parts & 4) {
        space(m);
        effort(m);
    }
    if (parts & 8) {
        space(m);
        clause_behind(m);
    }
}

/* Doses one after the other; each ends in a word, for figures on both sides of a comma would be a
 * list. */
static void intervals(struct maker *m)
{
    for (unsigned left = 2 + pick(m, 2); left; left--) {
        whole(m, 2, 40);
        measure(m, true, MEASURE_SECOND);
        space(m);
        word(m, one_in(m, 2) ? T_ALL_OUT : T_EASY);
        if (left > 1)
            comma(m);
    }
}

static void value(struct maker *m)
{
    one_in(m, 6) ? intervals(m) : dose(m);
}

static void colon(struct maker *m)
{
    maybe_space(m);
    add(m, ":");
    space(m);
}

static void colon_value(struct maker *m)
{
    colon(m);
    value(m);
}

/* --- the calendar --- */

static void from_to(struct maker *m)
{
    whole(m, 5, 9);
    spaced_word(m, T_TO);
    whole(m, 1, 4);
}

static void low_high(struct maker *m)
{
    whole(m, 5, 9);
    minus(m);
    whole(m, 1, 4);
}

/* Weeks counted back: three ways to write one thing. */
static void weeks_out(struct maker *m, bool week_first)
{
    bool one = one_in(m, 2), long_hand = vary(m, 2);
    week_first = week_first || vary(m, 2);
    if (week_first) {
        word(m, T_WEEK);
        space(m);
    }
    if (one)
        whole(m, 0, 9);
    else
        long_hand ? from_to(m) : low_high(m);
    space(m);
    if (!week_first) {
        coded(m, T_MEASURE, MEASURE_WEEKS);
        space(m);
    }
    word(m, T_OUT);
}

static void weeks_on(struct maker *m, bool may_say_in)
{
    if (may_say_in) {
        word(m, T_IN);
        space(m);
    }
    word(m, T_WEEK);
    space(m);
    if (one_in(m, 2))
        whole(m, 1, 12);
    else
        low_high(m);
}

static void span(struct maker *m)
{
    switch (pick(m, 5)) {
    case 0:
        weeks_out(m, false);
        break;
    case 1:
        whole(m, 1, 20);
        space(m);
        coded(m, T_MEASURE, MEASURE_DAYS);
        space(m);
        word(m, T_OUT);
        break;
    case 2:
        word(m, T_IN);
        space(m);
        loose_name(m);
        break;
    case 3:
        word(m, T_EVERY_OTHER_WEEK);
        if (one_in(m, 2)) {
            spaced_word(m, T_FROM_WEEK);
            whole(m, 1, 4);
        }
        break;
    default:
        weeks_on(m, vary(m, 2));
    }
}

static void phase_length(struct maker *m)
{
    switch (pick(m, 4)) {
    case 0:
        word(m, T_UNTIL);
        space(m);
        loose_name(m);
        break;
    case 1:
        word(m, T_UNTIL);
        space(m);
        date(m);
        break;
    default:
        if (one_in(m, 3))
            low_high(m);
        else
            whole(m, 1, 5);
        maybe_space(m);
        coded(m, T_MEASURE, one_in(m, 2) ? MEASURE_DAYS : MEASURE_WEEKS);
        if (one_in(m, 3)) {
            spaced_word(m, T_KEEP);
            whole(m, 1, 3);
        }
    }
}

static void placed(struct maker *m)
{
    int first = 1 + (int)pick(m, 8), second = 1 + (int)pick(m, 8);
    coded(m, T_DAY, first);
    if (one_in(m, 4) && second > first) {
        comma(m);
        coded(m, T_DAY, second);
    }
    if (!one_in(m, 3)) {
        unsigned hour = pick(m, 24), minute = pick(m, 60);
        space(m);
        text_addf(m->out, vary(m, 2) ? "%02u:%02u" : "%u:%02u", hour, minute);
    }
    space(m);
    switch (pick(m, 5)) {
    case 0:
        word(m, T_OFF);
        return;
    case 1:
        word(m, T_IN_TURN);
        space(m);
        names(m);
        break;
    case 2:
        name(m);
        colon_value(m);
        return;
    default:
        name(m);
    }
    if (one_in(m, 3)) {
        spaced_word(m, T_FROM_COLUMN);
        whole(m, 1, 9);
    } else if (one_in(m, 4)) {
        text_add(m->out, one_in(m, 2) ? " by weeks met" : " by weeks of the camp");
    }
}

/* --- kit and limits --- */

static void kit_entry(struct maker *m)
{
    unsigned which = pick(m, 7);
    if (which == 0 || which == 1) {
        if (which == 0) {
            word(m, T_PAIRS);
            space(m);
        }
        text_addf(m->out, "%u", 1 + pick(m, 9));
        minus(m);
        whole(m, 10, 50);
        measure(m, true, MEASURE_KG);
        spaced_word(m, T_BY);
        number(m);
        return;
    }
    if (which & 1) {
        text_addf(m->out, "%u", 1 + pick(m, 9));
        times(m, which >= 5);
    }
    if (which < 5) {
        loose_name(m);
        if (one_in(m, 2))
            return;
        space(m);
    }
    number(m);
    if (one_in(m, 2))
        measure(m, true, one_in(m, 5) ? MEASURE_LB : MEASURE_KG);
}

static void limit(struct maker *m)
{
    static const int tokens[] = {T_AT_MOST, T_AT_LEAST, T_WITHIN};
    static const int measures[] = {MEASURE_KG, MEASURE_PERCENT, MEASURE_MINUTE, MEASURE_REPS,
                                   MEASURE_METRE};
    static const char *const counted[] = {"first 2 weeks of an exercise", "A.1 sets",
                                          "90-90 holds"};
    bool digits = one_in(m, 4);
    digits ? add(m, ONE_OF(m, counted)) : loose_name(m);
    space(m);
    switch (pick(m, 5)) {
    case 0:
        word(m, T_NONE);
        break;
    case 1:
        word(m, T_AT_MOST);
        space(m);
        word(m, T_RPE);
        space(m);
        number(m);
        break;
    case 2:
        if (digits || vary(m, 2)) {
            word(m, T_WITHIN);
            space(m);
        }
        whole(m, 1, 40);
        minus(m);
        whole(m, 41, 99);
        measure(m, true, MEASURE_PERCENT);
        break;
    default:
        word(m, ONE_OF(m, tokens));
        space(m);
        one_in(m, 4) ? time_of(m, 8000) : number(m);
        if (one_in(m, 2))
            measure(m, true, ONE_OF(m, measures));
    }
    for (unsigned left = pick(m, 3); left; left--) {
        space(m);
        if (!one_in(m, 4)) {
            coded(m, T_TAIL, (int)pick(m, TAIL_TO_ONE));
            continue;
        }
        word(m, T_TO);
        space(m);
        number(m);
        space(m);
        loose_name(m);
    }
}
