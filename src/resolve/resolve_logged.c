/* resolve_logged.c - what a log says of the lines of its session: sets as they were done, and what was left out. */
#include <glib.h>
#include <stdlib.h>
#include <string.h>

#include "figures/mass.h"
#include "measure/demand.h"
#include "measure/logged_lifts.h"
#include "model/programme.h"
#include "resolve/dose.h"
#include "resolve/place.h"
#include "resolve/template.h"
#include "resolve/whereabouts.h"
#include "wording/wording.h"

/* Where a figure is a slip of the keyboard. Common practice, no source: nobody goes past a best by half of it, no bar has
 * carried 500 kg through a session, and a bar that is not thrown moves at up to 3 m/s. */
enum {
    ABSURD_SHARE = 150000,  /* of a best, in thousandths of a per cent */
    ABSURD_KG = 500000,     /* where there is no best */
    ABSURD_SPEED = 3000,    /* thousandths of a metre a second */
    ABSURD_THROW = 20000
};

/* One dose of a log, and whose set it is. */
struct logging {
    struct resolver *r;
    const struct done *done;
    const struct exercise *exercise;
    const struct dose *dose;
    struct dose_setting setting;
};

static void bad_log(struct resolver *r, struct span span, const char *words, const char *help)
{
    diag_help(r->diag, diag_error(r->diag, DIAG_BAD_LOG, span, "%s", words), "%s", help);
}

/* --- figures that cannot be meant --- */

static void report_absurd(struct resolver *r, struct span span, const char *figure, const char *words, const char *help)
{
    struct finding *finding = diag_report(r->diag, SEVERITY_WARNING, DIAG_LOG_ABSURD, span, "%s %s", figure, words);
    diag_help(r->diag, finding, "%s", help);
}

/* Compares a load with the athlete's best, or with what anybody lifts. A private best is not looked at: the message would
 * tell of it. */
static void check_load(const struct logging *logging, mass load, struct span span)
{
    struct resolver *r = logging->r;
    const struct athlete *athlete = logging->done->athlete;
    const struct exercise *exercise = logging->exercise;
    const struct best *best = exercise->base ? athlete_best(athlete, exercise->base, logging->done->date) : NULL;
    bool known = best && !best->private && best->one_max > 0;
    mass most = known ? mass_share(mass_share(best->one_max, exercise->factor * 100), ABSURD_SHARE)
                      : mass_from(ABSURD_KG, MASS_IN_KG);
    if (load <= most)
        return;
    char text[MASS_TEXT_SIZE];
    enum mass_unit unit = mass_written_in(load);
    const char *figure = arena_printf(r->arena, "%s %s", mass_format(load, unit, text), mass_unit_name(unit));
    if (known)
        report_absurd(r, span, figure, arena_printf(r->arena, "is more than one and a half times the best of %s in %s",
                                            athlete->name.shown, exercise->name.shown),
                      "check the figure and its unit; if it was lifted, add it to `bests`");
    else
        report_absurd(r, span, figure, "is more than anybody lifts in a session", "check the figure and its unit");
}

static void check_speed(const struct logging *logging, milli speed)
{
    milli most = logging->exercise->ballistic ? ABSURD_THROW : ABSURD_SPEED;
    struct resolver *r = logging->r;
    if (speed <= 0 || speed > most)
        report_absurd(r, logging->dose->speed->span, arena_printf(r->arena, "%s m/s", wording_number(r->arena, speed)),
                      "is not a speed at which a bar moves",
                      "check the point: a heavy lift moves at 0.1 to 1 m/s, a throw at up to 20 m/s");
}

/* --- one set --- */

/* A log is of one day: figures week by week say nothing there, nor does `max`. */
static bool is_definite(const struct logging *logging)
{
    const struct dose *dose = logging->dose;
    const struct figures *all[MOST_PARTS + 3];
    size_t count = 0;
    for (int i = 0; i < dose->part_count; i++)
        all[count++] = dose->parts[i].figures;
    all[count++] = dose->load.given ? dose->load.figures : NULL;
    all[count++] = dose->effort.given ? dose->effort.figures : NULL;
    all[count++] = dose->speed;
    for (size_t i = 0; i < count; i++) {
        const struct figures *figures = all[i];
        if (figures && figures->series) {
            bad_log(logging->r, figures->span, "a slash separates weeks, and a log is of one day",
                    "put `;` between sets, or `, ` between the figures of several");
            return false;
        }
        for (int value = 0; figures && value < figures->count; value++)
            if (figures->max[value]) {
                bad_log(logging->r, figures->span, "a log says how many there were", "write the figure in place of `max`");
                return false;
            }
    }
    return true;
}

/* A mass in kg or lb, which alone says what was lifted. */
static bool is_mass(const struct figures *figures)
{
    return figures->measure == MEASURE_KG || figures->measure == MEASURE_LB;
}

/* Reads the load of set INDEX; false if it says what was planned and not what was lifted. */
static bool read_load(const struct logging *logging, int index, struct logged_set *set)
{
    struct resolver *r = logging->r;
    const struct dose_load *load = &logging->dose->load;
    const struct figures *figures = load->figures;
    set->pieces = load->pieces;
    switch (load->word) {
    case LOAD_WORD_FIGURE: case LOAD_WORD_PIECES:
        if (!is_mass(figures))
            return false;
        set->kind = LOAD_MASS;
        set->load = figures_mass(r, figures, figures->list ? index : 0);
        check_load(logging, set->load, figures->span);
        return true;
    case LOAD_WORD_BODY:
        set->kind = LOAD_BODY;
        set->load = load->extra ? figures_mass(r, load->extra, 0) : 0;
        return true;
    case LOAD_WORD_THING:
        set->kind = LOAD_BAND;
        set->thing = load->thing;
        return true;
    case LOAD_WORD_SHARE_BODY: case LOAD_WORD_SHARE_REF: case LOAD_WORD_SHARE_TEST: case LOAD_WORD_LAST: break;
    }
    return false;
}

/* Fills SET, one of those of the dose; false where something is wrong, which is reported. */
static bool read_set(struct logging *logging, int index, struct logged_set *set)
{
    const struct dose *dose = logging->dose;
    const struct figures *effort = dose->effort.figures, *speed = dose->speed;
    *set = (struct logged_set){.count = 1, .pieces = 1, .kind = LOAD_NONE, .span = dose->span};
    set->parts = dose_parts(logging->r, dose, &logging->setting, logging->exercise, index, &set->part_count);
    if (!set->part_count)
        return false;
    if (dose->load.given && !read_load(logging, index, set)) {
        bad_log(logging->r, dose->load.span, "a log gives the load that was lifted",
                "write it in kg or lb, as `body mass + 10 kg`, or by its name");
        return false;
    }
    if (dose->effort.given) {
        set->effort = effort_kind_of(dose->effort.word);
        if (effort)
            set->effort_band = effort->values[effort->list ? index : 0];
    }
    if (speed) {
        set->speed = speed->values[speed->list ? index : 0].low;
        check_speed(logging, set->speed);
    }
    return true;
}

/* --- one line --- */

struct set_list {
    struct logged_set *items;
    size_t count, capacity;
};

static void add_set(struct resolver *r, struct set_list *list, const struct logged_set *set)
{
    list->items = arena_grow(r->arena, list->items, list->count, &list->capacity, sizeof *list->items);
    list->items[list->count++] = *set;
}

/* Adds the sets of one dose. */
static void read_dose(struct logging *logging, struct set_list *list)
{
    struct resolver *r = logging->r;
    const struct dose *dose = logging->dose;
    if (!dose->part_count) {
        struct finding *finding = diag_error(r->diag, DIAG_NO_AMOUNT, dose->span, "how many of %s?",
                                             logging->exercise->name.shown);
        diag_help(r->diag, finding, "give what was done before the load: `5 @ 60 kg`");
        return;
    }
    int listed = dose_listed(r, dose);
    int sets = dose_set_count(r, dose, &logging->setting, listed);
    struct logged_set set;
    if (!is_definite(logging))
        return;
    for (int i = 0; i < (listed ? sets : 1); i++) {
        if (!read_set(logging, i, &set))
            return;
        set.count = listed ? 1 : sets;
        add_set(r, list, &set);
    }
}

/* The sets of one line of a log. */
static void read_sets(struct resolver *r, const struct node *node, const struct done *done, struct logged_line *line)
{
    struct set_list list = {NULL, 0, 0};
    struct logging logging = {.r = r, .done = done, .exercise = line->exercise};
    for (const struct node *set = node->last->first; set; set = set->next) {
        size_t findings = resolver_errors(r);
        logging.dose = dose_read(r, set);
        logging.setting = (struct dose_setting){.athlete = done->athlete, .date = done->date,
                                                .block = BLOCK_STRAIGHT};
        if (resolver_errors(r) == findings)
            read_dose(&logging, &list);
    }
    line->sets = list.items;
    line->set_count = list.count;
}

/* --- the lines of a log --- */

/* What was planned as REF on a closed day, or NULL. */
static const struct exercise *held_exercise_at(const struct occasion *held, const char *ref)
{
    for (size_t b = 0; b < held->block_count; b++)
        for (size_t i = 0; i < held->blocks[b].item_count; i++)
            if (strcmp(held->blocks[b].items[i].ref, ref) == 0)
                return held->blocks[b].items[i].exercise;
    return NULL;
}

/* Had the session of a closed day the item or block that PIECE names? Reports it where not. */
static bool held_has(struct resolver *r, const struct occasion *held, const struct node *piece)
{
    for (size_t b = 0; b < held->block_count && piece->kind == NODE_LETTER; b++)
        if (held->blocks[b].letter == (char)piece->number)
            return true;
    if (piece->kind == NODE_REF && held_exercise_at(held, piece->text))
        return true;
    struct finding *finding = diag_error(r->diag, DIAG_UNKNOWN_ITEM, piece->span, "`%s` had no such line on this day",
                                         held->session->name.shown);
    diag_note(r->diag, finding, held->span, "what was planned is here");
    return false;
}

/* The line's words behind `skipped A`, without the `because`. */
static const char *reason_of(struct resolver *r, const struct node *line)
{
    const struct node *words = node_find(line, NODE_TEXT);
    if (!words)
        return NULL;
    whereabouts_words(r, words);
    bool because = g_ascii_strncasecmp(words->text, "because ", strlen("because ")) == 0;
    return because ? words->text + strlen("because ") : words->text;
}

static bool is_line(const struct node *node)
{
    return node->kind == STATEMENT_LOGGED || node->kind == STATEMENT_SKIPPED || node->kind == STATEMENT_POOR_TAKEN;
}

/* Is PIECE a block, of which alone there is a poor day? Reports it where not. */
static bool is_block(struct resolver *r, const struct node *piece)
{
    if (piece->kind == NODE_LETTER)
        return true;
    struct finding *finding = diag_error(r->diag, DIAG_UNKNOWN_ITEM, piece->span,
                                         "on a poor day a whole block is done with less");
    diag_help(r->diag, finding, "name the block: `on a poor day A`");
    return false;
}

/* Reads one line, whose exercise is known unless it is a block. */
static void read_line(struct resolver *r, const struct node *node, const struct node *piece, const struct done *done,
                      struct logged_line *line)
{
    line->poor = node->kind == STATEMENT_POOR_TAKEN;
    line->span = node->span;
    line->ref = piece->kind == NODE_REF ? piece->text : arena_printf(r->arena, "%c", (char)piece->number);
    line->skipped = node->kind == STATEMENT_SKIPPED;
    if (line->skipped)
        line->because = reason_of(r, node);
    else if (line->exercise)
        read_sets(r, node, done, line);
}

/* What a log's lines are of: what is placed then, with the changes made there, or else the session as it is declared. */
struct logged_of {
    const struct template *placed, *declared; /* NULL: there is none */
    struct occasion occasion;
};

static struct logged_of find_lines(struct resolver *r, const struct done *done)
{
    struct session *session = (struct session *)done->session;
    const struct placed *placed = placed_near(r, done->athlete, session, done->date, done->clock);
    struct logged_of of = {.placed = placed ? placed->template : NULL,
                           .declared = session->node ? template_of(r, session) : NULL};
    of.occasion = placed ? placed->occasion
                         : (struct occasion){.athlete = done->athlete, .session = session, .date = done->date, .clock = -1};
    return of;
}

/* Has the session the line or block that PIECE names? What was left out in one place may have been done all the same.
 * Reports it where not. */
static bool lines_have(struct resolver *r, const struct logged_of *of, const struct node *piece)
{
    return (of->placed && template_names(of->placed, piece)) || (of->declared && template_has(r, of->declared, piece));
}

/* What the athlete does of the line REF. */
static const struct exercise *lines_exercise(struct resolver *r, const struct logged_of *of, const char *ref)
{
    const struct template_item *item = of->placed ? template_item_at(of->placed, ref) : NULL;
    if (!item && of->declared)
        item = template_item_at(of->declared, ref);
    return item ? exercise_done(r, item, &of->occasion) : NULL;
}

/* The lines of a closed day are those of the record. */
void resolve_logged(struct resolver *r, const struct node *node, struct done *done)
{
    const struct occasion *held = held_session(r, done->athlete, done->session, done->date, done->clock);
    const struct logged_of none = {0}, of = held ? none : find_lines(r, done);
    size_t count = 0;
    for (const struct node *line = node->first; line; line = line->next)
        count += is_line(line) ? resolver_count(line->first) : 0;
    struct logged_line *lines = arena_alloc(r->arena, (count + 1) * sizeof *lines);
    done->lines = lines;
    for (const struct node *line = node->first; line; line = line->next) {
        if (!is_line(line))
            continue;
        bool poor = line->kind == STATEMENT_POOR_TAKEN;
        for (const struct node *piece = line->first; piece; piece = poor ? piece->next : NULL) {
            if ((poor && !is_block(r, piece)) || (held ? !held_has(r, held, piece) : !lines_have(r, &of, piece)))
                continue;
            struct logged_line *read = &lines[done->line_count++];
            if (piece->kind == NODE_REF)
                read->exercise = held ? held_exercise_at(held, piece->text) : lines_exercise(r, &of, piece->text);
            read_line(r, line, piece, done, read);
        }
    }
}

static int by_lift(const void *left, const void *right)
{
    return lifted_order(*(const struct logged_line *const *)left, *(const struct logged_line *const *)right);
}

void order_lifted(struct resolver *r)
{
    struct programme *programme = r->programme;
    size_t count = 0;
    for (size_t i = 0; i < r->done_count; i++)
        count += r->done[i].line_count;
    programme->lifted = arena_alloc(r->arena, (count + 1) * sizeof(struct logged_line *));
    for (size_t i = 0; i < r->done_count; i++)
        for (size_t l = 0; l < r->done[i].line_count; l++) {
            struct logged_line *line = (struct logged_line *)&r->done[i].lines[l];
            line->log = &r->done[i];
            if (line->set_count)
                programme->lifted[programme->lifted_count++] = line;
        }
    if (programme->lifted_count > 1)
        qsort(programme->lifted, programme->lifted_count, sizeof *programme->lifted, by_lift);
}
