/* resolve_held.c - the record of closed days: what was planned then, as `bellsheet close` wrote it. It makes occasions of
 * its own, and nothing of the plan as it is now has a say in them. */
#include <ctype.h>
#include <stdlib.h>
#include <string.h>

#include "measure/bars.h"
#include "measure/demand.h"
#include "measure/kit.h"
#include "measure/time.h"
#include "model/athlete.h"
#include "model/exercise.h"
#include "model/season.h"
#include "resolve/place.h"
#include "resolve/local_time.h"
#include "resolve/template.h"

enum { MOST_ITEMS = 200, MOST_BLOCKS = 26 };

/* --- lines --- */

/* How many bytes of TEXT are a place in a session and the space behind it: `A1 `, `A.1 `; 0: it begins with none. */
static size_t ref_length(const char *text)
{
    size_t at = text[0] && text[1] == '.' ? 2 : 1;
    if (text[0] < 'A' || text[0] > 'Z' || !isdigit((unsigned char)text[at]))
        return 0;
    while (isdigit((unsigned char)text[at]))
        at++;
    return text[at] == ' ' && text[at + 1] ? at + 1 : 0;
}

const char *held_exercise(struct resolver *r, const struct node *item, const char **ref)
{
    const struct node *name = node_find(item, NODE_NAME);
    size_t length = ref_length(name->text);
    const char *digits = name->text + 1 + (length && name->text[1] == '.');
    *ref = length ? arena_printf(r->arena, "%c.%.*s", *name->text, (int)(name->text + length - 1 - digits), digits) : "";
    return resolver_folded(r, name->text + length);
}

/* The number of the line behind REF among those of its block, from 0; -1: it has none. */
static int ref_index(const char *ref)
{
    return *ref ? atoi(ref + 2) - 1 : -1;
}

struct session *session_on(struct session *session, int day)
{
    struct session *best = session->first;
    for (struct session *other = session->first->later; other; other = other->later) {
        bool begun = other->from <= day, better = best->from <= day ? other->from > best->from : other->from < best->from;
        if (begun ? (best->from > day || better) : (best->from > day && better))
            best = other;
    }
    return best;
}

struct reading {
    struct resolver *r;
    struct occasion *occasion;
    struct dose_setting setting;
    struct block *blocks;
    size_t count;
    struct item *items; /* of the block at hand */
    size_t item_count;
};

/* `3 x 5 @ 70 kg`: three sets alike, as `3 sets` too. Of two counts the first is of sets, the second of repeats in each. */
static void read_run(struct reading *reading, const struct dose *dose, struct item *item, struct set_run *run)
{
    struct resolver *r = reading->r;
    struct dose one = *dose;
    struct figures *sets = dose->outer_times ? dose->outer_times : dose->times ? dose->times : dose->sets;
    one.times = dose->outer_times ? dose->times : NULL;
    one.outer_times = one.sets = NULL;
    one.next = NULL;
    run_settle(r, &one, &reading->setting, item, (struct at){0, 0}, run);
    struct range count = sets ? sets->values[0] : (struct range){1000, 1000};
    if (count.low != count.high || count.low % 1000 || count.low < 1000 || count.low > 100000)
        diag_error(r->diag, DIAG_BAD_COUNT, sets->span, "the number of sets is a whole number from 1 to 100");
    else
        run->count = (int)(count.low / 1000);
}

/* `was 80%` below a line: what its load was asked for as. The kilograms stay as they are written. */
static void read_share(struct reading *reading, const struct node *line, const struct exercise *exercise,
                       struct load *load)
{
    const struct node *share = resolver_single(reading->r, line, STATEMENT_SHARE_OF_BEST);
    if (!share || load->kind != LOAD_MASS)
        return;
    const struct dose *dose = dose_read(reading->r, share->first);
    if (dose->part_count != 1 || dose->parts[0].figures->measure != MEASURE_PERCENT) {
        diag_error(reading->r->diag, DIAG_WRONG_UNIT, share->span, "a share of a best is a percentage: `was 80%%`");
        return;
    }
    load->kind = LOAD_PERCENT;
    load->percent = dose->parts[0].figures->values[0];
    load->best = athlete_best(reading->occasion->athlete, exercise->base, reading->occasion->date);
    load->estimated = load->best && load->best->estimated;
}

/* Adds the sets of a line to ITEM. */
static void read_sets(struct reading *reading, const struct node *line, struct item *item)
{
    struct resolver *r = reading->r;
    const struct node *name = node_find(line, NODE_NAME);
    const struct node *value = name->next && name->next->kind == NODE_DOSE ? name->next : NULL;
    const struct dose none = {.span = item->span}, *dose = value ? dose_read(r, value) : &none;
    struct set_run *runs = arena_alloc(r->arena, (item->run_count + 1) * sizeof *runs);
    if (item->run_count)
        memcpy(runs, item->runs, item->run_count * sizeof *runs);
    struct set_run *run = &runs[item->run_count];
    read_run(reading, dose, item, run);
    read_share(reading, line, item->exercise, &run->load);
    item->runs = runs;
    item->run_count++;
    item->sets = reading->setting.block == BLOCK_ROUNDS ? runs[0].count : item->sets + run->count;
}

/* The item that ITEM, a line, continues: one exercise may take several lines, one for each of its loads. NULL: none. */
static struct item *find_before(const struct reading *reading, const struct item *item)
{
    struct item *before = reading->item_count ? &reading->items[reading->item_count - 1] : NULL;
    bool same = before && before->exercise == item->exercise && strcmp(before->ref, item->ref) == 0 &&
                before->round == item->round && before->filler == item->filler && item->after < 0;
    return same ? before : NULL;
}

/* Which line of its block ITEM is: its place says so, or, in rounds without a letter, what is done. */
static int find_index(const struct reading *reading, const struct item *item)
{
    int index = ref_index(item->ref), next = 0;
    for (size_t i = 0; index < 0 && i < reading->item_count; i++) {
        const struct item *before = &reading->items[i];
        if (before->exercise == item->exercise && before->filler == item->filler && before->round && item->round)
            return before->index;
        next = before->index >= next ? before->index + 1 : next;
    }
    return index < 0 ? next : index;
}

/* What leaves open what somebody does has no place in the record. */
static void refuse_variants(struct resolver *r, const struct node *line)
{
    for (const struct node *child = line->first; child; child = child->next)
        if (child->kind == STATEMENT_FOR || child->kind == STATEMENT_WITHOUT || child->kind == STATEMENT_WEEKS)
            diag_error(r->diag, DIAG_UNKNOWN_STATEMENT, child->span,
                       "the record says what was planned, and leaves nothing open");
}

static void read_item(struct reading *reading, const struct node *node, int after)
{
    struct resolver *r = reading->r;
    refuse_variants(r, node);
    const char *ref, *folded = held_exercise(r, node, &ref);
    const struct exercise *exercise = names_find(r->exercises, folded);
    if (!exercise)
        return; /* declare_held has told of a name that cannot be one */
    if (reading->item_count == MOST_ITEMS) {
        diag_error(r->diag, DIAG_TOO_MANY_ITEMS, node->span, "a block can have at most %d lines", MOST_ITEMS);
        return;
    }
    struct item *item = &reading->items[reading->item_count];
    const struct node *cue = node_find(node, STATEMENT_CUE), *stop = node_find(node, STATEMENT_STOP);
    *item = (struct item){.exercise = exercise, .ref = ref, .filler = node->kind == STATEMENT_FILLER,
                          .test = node_find(node, STATEMENT_AS_TEST) != NULL, .after = after,
                          .cue = resolver_text(cue), .stop = stop ? resolver_text(stop) : exercise->stop,
                          .span = node->span};
    int last;
    if (node->kind == STATEMENT_ROUND && !resolver_whole_range(r, node->first, 100, "rounds", &item->round, &last))
        return;
    item->index = find_index(reading, item);
    struct item *before = find_before(reading, item);
    read_sets(reading, node, before ? before : item);
    reading->item_count += !before;
}

static bool is_item(const struct node *node)
{
    return node->kind == STATEMENT_ITEM || node->kind == STATEMENT_FILLER || node->kind == STATEMENT_ROUND;
}

/* --- blocks --- */

static void begin_block(struct reading *reading, enum block_kind kind, size_t most)
{
    reading->items = arena_alloc(reading->r->arena, (most + 1) * sizeof *reading->items);
    reading->item_count = 0;
    reading->setting.block = kind;
    reading->setting.blocks = reading->blocks;
    reading->setting.block_count = reading->count;
    reading->setting.sets = 1; /* what stands before an x is counted here */
    reading->setting.work = 0;
}

static void end_block(struct reading *reading, struct block *block)
{
    for (size_t i = 0; i < reading->item_count && block->kind != BLOCK_ROUNDS; i++)
        if (reading->items[i].sets > block->sets)
            block->sets = reading->items[i].sets;
    block->items = reading->items;
    block->item_count = reading->item_count;
    if (block_shares_time(block))
        bars_part(reading->r->arena, occasion_gym(reading->occasion), reading->items, reading->item_count);
    reading->count++;
}

static void read_block(struct reading *reading, const struct node *node, enum block_kind kind)
{
    struct resolver *r = reading->r;
    const struct node *letter = node_find(node, NODE_LETTER), *header = node_find(node, NODE_DOSE);
    struct template_block head = {.kind = kind, .letter = letter ? (char)letter->number : 0, .span = node->span,
                                  .header = header ? dose_read(r, header) : NULL};
    struct block *block = &reading->blocks[reading->count];
    for (const struct node *child = node->first; child; child = child->next) {
        if (child->kind == STATEMENT_KEEP)
            head.keep = block_read_keep(r, child);
        else if (child->kind == STATEMENT_POOR_DAY)
            head.poor = block_read_poor_day(r, child);
        else if (child->kind == STATEMENT_ON_PURPOSE)
            head.on_purpose = resolver_text(child);
    }
    block_settle_header(r, &head, 0, block);
    begin_block(reading, kind, resolver_count(node->first));
    reading->setting.work = kind == BLOCK_ROUNDS ? block->work : 0;
    int after = -1;
    for (const struct node *child = node->first; child; child = child->next) {
        if (child->kind == STATEMENT_AFTER) {
            after = figures_time_of(r, child->first);
        } else if (is_item(child)) {
            read_item(reading, child, after);
            after = -1;
        }
    }
    end_block(reading, block);
}

/* Lines without a block's line above them: those of one letter are a straight block, or a superset. Returns the last. */
static const struct node *read_loose(struct reading *reading, const struct node *first)
{
    const char *ref, *other;
    held_exercise(reading->r, first, &ref);
    struct block *block = &reading->blocks[reading->count];
    begin_block(reading, BLOCK_STRAIGHT, resolver_count(first));
    const struct node *last = first;
    for (const struct node *node = first; node && is_item(node); node = node->next) {
        held_exercise(reading->r, node, &other);
        if (*other != *ref)
            break;
        read_item(reading, node, -1);
        last = node;
    }
    *block = (struct block){.kind = reading->item_count > 1 ? BLOCK_SUPERSET : BLOCK_STRAIGHT, .letter = *ref,
                            .times = 1, .span = first->span};
    end_block(reading, block);
    return last;
}

static void read_blocks(struct resolver *r, const struct node *node, struct occasion *occasion)
{
    struct reading reading = {.r = r, .occasion = occasion,
                              .setting = {.athlete = occasion->athlete, .gym = occasion_gym(occasion),
                                          .date = occasion->date, .held = true},
                              .blocks = arena_alloc(r->arena, (MOST_BLOCKS + 1) * sizeof *reading.blocks)};
    for (const struct node *child = node->first; child; child = child->next) {
        int kind = block_kind_of(child->kind);
        if (kind < 0 && !is_item(child))
            continue;
        if (reading.count == MOST_BLOCKS) {
            diag_error(r->diag, DIAG_TOO_MANY_BLOCKS, child->span, "a session can have at most %d blocks", MOST_BLOCKS);
            break;
        }
        if (kind >= 0)
            read_block(&reading, child, (enum block_kind)kind);
        else
            child = read_loose(&reading, child);
    }
    occasion->blocks = reading.blocks;
    occasion->block_count = reading.count;
    time_session(reading.blocks, reading.count, occasion->athlete, occasion_gym(occasion), occasion->date, &time_usual);
}

/* --- what stands above them --- */

/* `planned 53 min RPE 7`, `planned 5 x 3:00`, `planned 5000 m`: how long and hard the whole is, its rounds, how far. */
static void read_planned(struct resolver *r, const struct node *planned, struct occasion *occasion)
{
    for (; planned; planned = node_next_alike(planned)) {
        const struct dose *dose = dose_read(r, planned->first);
        const struct figures *amount = dose->part_count == 1 ? dose->parts[0].figures : NULL;
        int seconds = -1;
        if (amount && amount->measure == MEASURE_METRE)
            occasion->metres = amount->values[0];
        else if (amount)
            seconds = figures_seconds(r, amount, amount->values[0].low);
        const struct figures *rounds = dose->times ? dose->times : dose->sets;
        if (rounds)
            occasion->rounds = (int)(rounds->values[0].low / 1000);
        if (seconds >= 0 && dose->times)
            occasion->round_seconds = seconds;
        else if (seconds >= 0)
            occasion->seconds = seconds;
        if (dose->effort.given && dose->effort.word == EFFORT_WORD_RPE)
            occasion->rpe = dose->effort.figures->values[0];
        else if (dose->effort.given && dose->effort.word == EFFORT_WORD_PULSE)
            occasion->pulse = dose->effort.figures->values[0];
    }
}

/* `in week 3, column 2, 9 weeks out` */
static void read_in(struct resolver *r, const struct node *in, struct occasion *occasion)
{
    for (const struct node *word = in->first; word; word = word->next) {
        const char *text = resolver_fold(r, word);
        int number, length = 0, out = 0;
        if (sscanf(text, "week %3d%n", &number, &length) == 1 && !text[length] && number > 0)
            occasion->week = number;
        else if (sscanf(text, "column %3d%n", &number, &length) == 1 && !text[length] && number > 0)
            occasion->column = number - 1;
        else if (sscanf(text, "%3d week%*[s] out%n", &number, &out) == 1 && out && !text[out] && number >= 0)
            occasion->weeks_out = number;
        else if (strcmp(text, "1 week out") == 0)
            occasion->weeks_out = 1;
        else {
            struct finding *finding = diag_error(r->diag, DIAG_UNKNOWN_WORD, word->span,
                                                 "`%s` says nothing about a closed day", word->text);
            diag_help(r->diag, finding, "one of: week 3, column 2, 9 weeks out");
        }
    }
}

/* Whose it is, and what; false where that is not known. */
static bool read_key(struct resolver *r, const struct node *node, struct occasion *occasion)
{
    const struct node *who = node_find(node, NODE_NAME), *what = who ? node_next_alike(who) : NULL;
    const struct node *clock = node_find(node, NODE_CLOCK);
    *occasion = (struct occasion){.date = (int)node_find(node, NODE_DATE)->number, .held = true, .weeks_out = -1,
                                  .clock = clock ? (int)clock->number : -1, .span = node->span, .place = node};
    if (!what) {
        diag_error(r->diag, DIAG_LINE_TOO_SHORT, node->span, "a closed day names the athlete and then the session");
        return false;
    }
    occasion->athlete = resolver_find(r, who, "athlete", r->athletes);
    struct session *session = names_find(r->sessions, resolver_fold(r, what));
    session = session ? session_on(session, occasion->date) : NULL;
    occasion->session = session;
    occasion->activity = session ? NULL : names_find(r->activities, resolver_fold(r, what));
    if (session)
        session->placed++;
    return occasion->athlete && (session || occasion->activity);
}

/* The camp that it was in; reports and returns false where the line is missing. */
static bool read_camp(struct resolver *r, const struct node *node, struct occasion *occasion)
{
    const struct node *camp = resolver_single(r, node, STATEMENT_HELD_CAMP);
    if (camp) {
        occasion->camp = names_find(r->camps, resolver_fold(r, camp->first));
        return occasion->camp != NULL;
    }
    if (node_is_broken(node))
        return false;
    struct finding *finding = diag_error(r->diag, DIAG_LINE_TOO_SHORT, node->span, "in which camp was this?");
    diag_help(r->diag, finding, "add a line `camp` with its name below it");
    return false;
}

void resolve_held(struct resolver *r, const struct node *node)
{
    struct occasion occasion;
    if (!read_key(r, node, &occasion) || !read_camp(r, node, &occasion))
        return;
    const struct node *planned = node_find(node, STATEMENT_PLANNED);
    const struct node *phase = resolver_single(r, node, STATEMENT_HELD_PHASE);
    const struct node *in = resolver_single(r, node, STATEMENT_HELD_IN);
    const struct node *at = resolver_single(r, node, STATEMENT_AT);
    occasion.gym = at ? names_find(r->gyms, resolver_fold(r, at->first)) : NULL; /* a lost one: where the athlete trains */
    occasion.optional = node_find(node, STATEMENT_OPTIONAL) != NULL;
    occasion.zones = zones_read(r, node, NULL);
    occasion.zone = held_zone_read(r, node);
    if (in)
        read_in(r, in, &occasion);
    if (occasion.session)
        read_blocks(r, node, &occasion);
    if (planned) {
        read_planned(r, planned, &occasion);
    } else if (!node_is_broken(node)) {
        struct finding *finding = diag_error(r->diag, DIAG_LINE_TOO_SHORT, node->span, "how long was this meant to "
                                                                                       "be?");
        diag_help(r->diag, finding, "add a line such as `planned 53 min RPE 7` below it");
    }
    r->held = arena_grow(r->arena, r->held, r->held_count, &r->held_capacity, sizeof *r->held);
    r->held[r->held_count++] = (struct placed){.occasion = occasion, .from_column = -1,
                                               .held_phase = phase ? resolver_fold(r, phase->first) : NULL};
}

void resolve_held_until(struct resolver *r, const struct node *node)
{
    int day = (int)node->first->number;
    r->closed = day > r->closed ? day : r->closed;
}
