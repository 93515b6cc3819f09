/* parse.y - what the parts of a statement are, and how statements nest. Which parts a statement has is said in kinds.def,
 * and forms.awk puts it here, where an @ stands. Which words open a statement, where names end and how lines are indented
 * is settled before a token comes here (src/syntax/lines.c). Every action builds one piece of the tree and does nothing
 * else. */
%define api.pure full
%define api.token.raw
%define api.prefix {plan_}
%define api.token.prefix {T_}
%define api.location.type {struct extent}
%define api.value.type union
%define parse.error custom
%define parse.lac full
%define lr.default-reduction consistent
%expect 0
%locations
%param {struct reader *reader}

%code requires {
#include "syntax/tree.h"
struct reader;
}
%code provides {
/* The words for token KIND in a message. */
const char *plan_symbol_words(int symbol);

/* How the line of each form becomes tokens, see kinds.def. */
@steps@
}
%code {
#include "syntax/line.h"
/* Parts stand in order; of none, the place is behind what comes before. */
#define YYLLOC_DEFAULT(now, parts, n)                                                       \
    ((now) = (struct extent){(n) ? YYRHSLOC(parts, 1).start : YYRHSLOC(parts, 0).end, YYRHSLOC(parts, n).end})
static void yyerror(struct extent *place, struct reader *reader, const char *words);

static int yylex(PLAN_STYPE *value, struct extent *place, struct reader *reader)
{
    return line_give(reader->line, value, place);
}

#define NODE(kind, place) node_new(reader->tree, NODE_##kind, place)

static struct node *coded(struct node *node, int code)
{
    node->code = code;
    return node;
}

static struct node *numbered(struct node *node, int64_t number)
{
    node->number = number;
    return node;
}

/* NODE, which more of its line was added to: it takes up PLACE now. */
static struct node *widened(struct node *node, struct extent place)
{
    node->span.start = place.start;
    node->span.end = place.end;
    return node;
}

/* Nodes that are to have a parent wait in a ring: its last one, whose next is its first; NULL is none. A node that was
 * not put into one is alone. */
static struct node *ring(struct node *last, struct node *node)
{
    node->next = last ? last->next : node;
    if (last)
        last->next = node;
    return node;
}

static struct node *adopt(struct node *parent, struct node *last)
{
    struct node *child = last && last->next ? last->next : last;
    if (last)
        last->next = NULL;
    for (struct node *next; child; child = next) {
        next = child->next;
        node_add(parent, child);
    }
    return parent;
}
}

/* What opens a statement, one for each form of kinds.def: the value is its enum node_kind. */
@tokens@
%token <int> BROKEN "a line that could not be read"

%token NEWLINE "the end of the line" INDENT "an indented block" DEDENT "the end of the block"
%token <struct node *> NAME "a name" TEXT "words" REF "a place such as A.1" TEMPO "a tempo such as 3-1-X-0"
%token <int64_t> NUMBER "a number" TIME "a time such as 1:30" DATE "a date such as 2027-03-20"
%token <int64_t> MONTH "a month such as 2025-02" LETTER "a block letter"
%token <int> MEASURE "a unit" SIDE "a side" DAY "a day of the week" TAIL "what a limit counts over"
%token COLON ":" AT "@" PLUS "+" SLASH "/" MINUS "-" COMMA "," LIST_COMMA "`,` between figures" SEMICOLON ";"
%token DOTS "..." X "x" HOLD "hold" MAX "max" REST "rest" BLOCK_REST "block rest" TEMPO_WORD "tempo"
%token RPE "RPE" PULSE "pulse" IN_RESERVE "in reserve" ALL_OUT "all-out" EASY "easy"
%token BODY_MASS "body mass" OF "of" LAST "last" FOR "for" IN "in" ON "on" WORK_UP "work up to a" ALTERNATING "alternating stances"
%token PAIRS "pairs" BY "by" WEEK "week" OUT "out" TO "to" UNTIL "until"
%token FROM "from" BECAUSE "because"
%token EVERY_OTHER_WEEK "every other week" FROM_WEEK "from week"
%token <int> UP_TO "up to" BY_WEEKS "by weeks of the camp"
%token AT_MOST "at most" AT_LEAST "at least" WITHIN "within" NONE "none"
%token OFF "off" IN_TURN "in turn" FROM_COLUMN "from column" BASED_ON "based on"
%token SEEN_BY "seen by" KEEP "keep" OF_SETS "of the sets" LOWER "lower"
%token THEN "then" TWO_FOR_TWO "two for two" BY_EFFORT "by effort" BY_LAST_SET "by the last set of"

%nterm <struct node *> lines block bad head names letter block_letter piece pieces date month clock day on_date
%nterm <struct node *> dates members until_date on_day to_date from_date because for_names
%nterm <struct node *> dated seen dated_or_seen factor based by late_by kit_entry kit shares share
%nterm <struct node *> plain series list figures part amount sum dose clause intervals
%nterm <struct node *> load extra effort value bound tails tail when length phase_length up_to
%nterm <struct node *> next_rule deload lighter weekdays days placed in_turn logged_sets column

%%

file: lines                             { adopt(reader->tree->root, $lines); }

lines:
    %empty                              { $$ = NULL; }
  | lines[all] head NEWLINE             { $$ = ring($all, $head); }
  | lines[all] block DEDENT             { $$ = ring($all, $block); }
  | lines[all] bad                      { $$ = ring($all, $bad); }

block:
    head NEWLINE INDENT
  | block[in] head NEWLINE              { $$ = node_add($in, $head); }
  | block[in] block[other] DEDENT       { $$ = node_add($in, $other); }
  | block[in] bad                       { $$ = node_add($in, $bad); }

bad:
    error NEWLINE                       { yyerrok; $$ = coded(NODE(BROKEN, @$), (int)reader->statement); }
  | bad INDENT lines DEDENT

head:
    BROKEN                              { $$ = coded(NODE(BROKEN, @$), $1); }
@heads@

/* --- single words --- */

letter: LETTER                          { $$ = numbered(NODE(LETTER, @$), $1); }
date: DATE                              { $$ = numbered(NODE(DATE, @$), $1); }
clock: TIME                             { $$ = numbered(NODE(CLOCK, @$), $1); }
month: date | MONTH                     { $$ = numbered(NODE(MONTH, @$), $1); }
on_date: ON date                        { $$ = $2; }
to_date: TO date                        { $$ = node_add(NODE(TO, @$), $2); }
from_date: FROM date                    { $$ = node_add(NODE(FROM, @$), $2); }
until_date: UNTIL date                  { $$ = node_add(NODE(UNTIL, @$), $2); }
because: BECAUSE TEXT                   { $$ = node_add(NODE(BECAUSE, @$), $2); }
for_names: FOR names                    { $$ = adopt(NODE(FOR_NAMES, @$), $2); }
on_day: day
day: ON DATE                            { $$ = numbered(NODE(ON, @2), $2); }
dated: ON date                          { $$ = node_add(coded(NODE(WHEN, @$), WHEN_ON), $2); }
seen: SEEN_BY NAME dated                { $$ = node_add(node_add(NODE(SEEN, @$), $2), $3); }
block_letter: letter
piece: REF | letter
factor: X NUMBER                        { $$ = numbered(NODE(NUMBER, @2), $2); }
based: BASED_ON NAME                    { $$ = node_add(NODE(BASED, @2), $2); }
by: BY NAME                             { $$ = node_add(NODE(BY, @2), $2); }
late_by: BY dose                        { $$ = node_add(NODE(BY, @2), $2); }

dated_or_seen:
    dated
  | seen
  | dated seen                          { $$ = ring(ring(NULL, $1), $2); }

names:
    NAME                                { $$ = ring(NULL, $1); }
  | names[all] "," NAME                 { $$ = ring($all, $NAME); }

dates:
    date                                { $$ = ring(NULL, $1); }
  | dates[all] "," date                 { $$ = ring($all, $date); }

members:
    NAME                                { $$ = ring(NULL, $1); }
  | members[all] "," NAME               { $$ = ring($all, $NAME); }
  | members[all] from_date              { $$ = ring($all, $2); }
  | members[all] until_date             { $$ = ring($all, $2); }

pieces:
    piece                               { $$ = ring(NULL, $1); }
  | pieces[all] "," piece               { $$ = ring($all, $piece); }

/* --- a gym's kit, and shares by region --- */

kit:
    kit_entry                           { $$ = ring(NULL, $1); }
  | kit[all] "," kit_entry              { $$ = ring($all, $kit_entry); }

kit_entry:
    NAME                                { $$ = node_add(NODE(KIT_ENTRY, @$), $1); }
  | figures                             { $$ = node_add(NODE(KIT_ENTRY, @$), $1); }
  | NAME figures                        { $$ = node_add(node_add(NODE(KIT_ENTRY, @$), $1), $2); }
  | NUMBER X NAME                       { $$ = node_add(reader_kit_entry(reader, @$, @1, $1), $3); }
  | NUMBER X figures                    { $$ = node_add(reader_kit_entry(reader, @$, @1, $1), $3); }
  | NUMBER X NAME figures               { $$ = node_add(node_add(reader_kit_entry(reader, @$, @1, $1), $3), $4); }
  | PAIRS figures                       { $$ = node_add(coded(NODE(KIT_ENTRY, @$), 1), $2); }
  | PAIRS figures BY figures            { $$ = node_add(node_add(coded(NODE(KIT_ENTRY, @$), 1), $2), $4); }
  | figures BY figures                  { $$ = node_add(node_add(NODE(KIT_ENTRY, @$), $1), $3); }

shares:
    share                               { $$ = ring(NULL, $1); }
  | shares[all] "," share               { $$ = ring($all, $share); }

share: NAME NUMBER                      { $$ = node_add(node_add(NODE(SHARE, @$), $1), numbered(NODE(NUMBER, @2), $2)); }

/* --- figures --- */

plain:
    NUMBER                              { $$ = numbered(NODE(NUMBER, @$), $1); }
  | TIME                                { $$ = coded(numbered(NODE(NUMBER, @$), $1), 1); }
  | NUMBER[low] "-" NUMBER[high]        { $$ = node_add(node_add(NODE(RANGE, @$), numbered(NODE(NUMBER, @low), $low)), numbered(NODE(NUMBER, @high), $high)); }
  | TIME[low] "-" TIME[high]            { $$ = node_add(node_add(NODE(RANGE, @$), coded(numbered(NODE(NUMBER, @low), $low), 1)), coded(numbered(NODE(NUMBER, @high), $high), 1)); }
  | MAX                                 { $$ = NODE(MAX, @$); }

series:
    plain[a] "/" plain[b]               { $$ = node_add(node_add(NODE(SERIES, @$), $a), $b); }
  | series[all] "/" plain               { $$ = node_add($all, $plain); }
  | series[all] "/" DOTS                { $$ = node_add($all, NODE(REPEAT_LAST, @3)); }

list:
    plain[a] LIST_COMMA plain[b]        { $$ = node_add(node_add(NODE(LIST, @$), $a), $b); }
  | list[all] LIST_COMMA plain          { $$ = node_add($all, $plain); }

figures:
    plain                               { $$ = node_add(NODE(FIGURE, @$), $1); }
  | plain MEASURE                       { $$ = node_add(coded(NODE(FIGURE, @$), $2), $1); }
  | series                              { $$ = node_add(NODE(FIGURE, @$), $1); }
  | series MEASURE                      { $$ = node_add(coded(NODE(FIGURE, @$), $2), $1); }
  | list                                { $$ = node_add(NODE(FIGURE, @$), $1); }
  | list MEASURE                        { $$ = node_add(coded(NODE(FIGURE, @$), $2), $1); }

/* --- doses --- */

part:
    figures                             { $$ = node_add(NODE(PART, @$), $1); }
  | figures SIDE                        { $$ = node_add(coded(NODE(PART, @$), $2), $1); }

sum:
    part                                { $$ = node_add(NODE(AMOUNT, @$), $1); }
  | sum "+" part                        { $$ = widened(node_add($1, $3), @$); }

amount:
    sum
  | plain X amount[rest]                { $$ = node_add(node_add(numbered(NODE(AMOUNT, @$), 1), $1), $rest); }
  | HOLD sum                            { $$ = widened(coded($2, 1), @$); }

clause:
    amount
  | "@" load                            { $$ = widened($2, @$); }
  | effort
  | TEMPO_WORD TEMPO                    { $$ = widened($2, @$); }
  | REST figures                        { $$ = node_add(NODE(REST, @$), $2); }
  | BLOCK_REST figures                  { $$ = node_add(NODE(BLOCK_REST, @$), $2); }
  | FOR figures                         { $$ = node_add(NODE(FOR_SPAN, @$), $2); }
  | IN figures                          { $$ = node_add(NODE(WITHIN_SPAN, @$), $2); }
  | ON DATE                             { $$ = numbered(NODE(ON, @$), $2); }
  | WORK_UP figures                     { $$ = node_add(NODE(WORK_UP, @$), $2); }
  | ALTERNATING                         { $$ = NODE(ALTERNATING, @$); }

dose:
    clause                              { $$ = node_add(NODE(DOSE, @$), $1); }
  | dose[all] clause                    { $$ = widened(node_add($all, $2), @$); }

intervals:
    dose[a] "," dose[b]                 { $$ = node_add(node_add(NODE(INTERVALS, @$), $a), $b); }
  | intervals[all] "," dose             { $$ = widened(node_add($all, $dose), @$); }

value: dose | intervals

logged_sets:
    dose                                { $$ = node_add(NODE(LOGGED_SETS, @$), $1); }
  | logged_sets[all] ";" dose           { $$ = widened(node_add($all, $dose), @$); }

effort:
    RPE figures                         { $$ = node_add(coded(NODE(EFFORT, @$), EFFORT_WORD_RPE), $2); }
  | figures IN_RESERVE                  { $$ = node_add(coded(NODE(EFFORT, @$), EFFORT_WORD_RESERVE), $1); }
  | PULSE figures                       { $$ = node_add(coded(NODE(EFFORT, @$), EFFORT_WORD_PULSE), $2); }
  | ALL_OUT                             { $$ = coded(NODE(EFFORT, @$), EFFORT_WORD_ALL_OUT); }
  | EASY                                { $$ = coded(NODE(EFFORT, @$), EFFORT_WORD_EASY); }

load:
    effort
  | figures                             { $$ = node_add(coded(NODE(LOAD, @$), LOAD_WORD_FIGURE), $1); }
  | NUMBER X figures                    { $$ = node_add(numbered(coded(NODE(LOAD, @$), LOAD_WORD_PIECES), $1), $3); }
  | BODY_MASS extra                     { $$ = node_add(coded(NODE(LOAD, @$), LOAD_WORD_BODY), $2); }
  | figures OF BODY_MASS extra          { $$ = node_add(node_add(coded(NODE(LOAD, @$), LOAD_WORD_SHARE_BODY), $1), $4); }
  | figures OF REF                      { $$ = node_add(node_add(coded(NODE(LOAD, @$), LOAD_WORD_SHARE_REF), $1), $3); }
  | figures OF NAME                     { $$ = node_add(node_add(coded(NODE(LOAD, @$), LOAD_WORD_SHARE_TEST), $1), $3); }
  | LAST extra                          { $$ = node_add(coded(NODE(LOAD, @$), LOAD_WORD_LAST), $2); }
  | NAME                                { $$ = node_add(coded(NODE(LOAD, @$), LOAD_WORD_THING), $1); }

extra:
    %empty                              { $$ = NULL; }
  | "+" figures                         { $$ = $2; }

/* --- the calendar --- */

when:
    WEEK plain                          { $$ = node_add(coded(NODE(WHEN, @$), WHEN_WEEKS), $2); }
  | WEEK plain OUT                      { $$ = node_add(coded(NODE(WHEN, @$), WHEN_WEEKS_OUT), $2); }
  | WEEK NUMBER[a] TO NUMBER[b]         { $$ = node_add(coded(NODE(WHEN, @$), WHEN_WEEKS), reader_range(reader, @a, $a, @b, $b)); }
  | WEEK NUMBER[a] TO NUMBER[b] OUT     { $$ = node_add(coded(NODE(WHEN, @$), WHEN_WEEKS_OUT), reader_range(reader, @a, $a, @b, $b)); }
  | plain MEASURE OUT                   { $$ = reader_out(reader, @$, $1, $2); }
  | NUMBER[a] TO NUMBER[b] MEASURE OUT  { $$ = reader_out(reader, @$, reader_range(reader, @a, $a, @b, $b), $4); }
  | IN NAME                             { $$ = node_add(coded(NODE(WHEN, @$), WHEN_PHASE), $2); }
  | EVERY_OTHER_WEEK                    { $$ = coded(NODE(WHEN, @$), WHEN_EVERY_OTHER); }
  | EVERY_OTHER_WEEK FROM_WEEK plain    { $$ = node_add(coded(NODE(WHEN, @$), WHEN_EVERY_OTHER), $3); }
  | IN WEEK plain                       { $$ = node_add(coded(NODE(WHEN, @$), WHEN_WEEKS), $3); }
  | UNTIL date                          { $$ = node_add(coded(NODE(WHEN, @$), WHEN_UNTIL), $2); }

up_to: UP_TO NUMBER                     { $$ = numbered(coded(NODE(UP_TO, @2), $1), $2); }

length:
    plain MEASURE                       { $$ = node_add(coded(NODE(WHEN, @$), WHEN_LENGTH), node_add(coded(NODE(FIGURE, @$), $2), $1)); }
  | UNTIL NAME                          { $$ = node_add(coded(NODE(WHEN, @$), WHEN_UNTIL), $2); }
  | UNTIL date                          { $$ = node_add(coded(NODE(WHEN, @$), WHEN_UNTIL), $2); }

phase_length:
    length
  | length KEEP NUMBER                  { $$ = ring(ring(NULL, $1), node_add(NODE(KEEP, @2), numbered(NODE(NUMBER, @3), $3))); }

deload:
    lighter                             { $$ = ring(NULL, $1); }
  | deload[all] "," lighter             { $$ = ring($all, $lighter); }

lighter:
    NUMBER MEASURE OF_SETS              { $$ = numbered(NODE(OF_SETS, @$), $1); }
  | RPE NUMBER LOWER                    { $$ = numbered(NODE(LOWER, @$), $2); }

weekdays:
    DAY                                 { $$ = numbered(NODE(DAYS, @$), INT64_C(1) << $1); }
  | weekdays[all] "," DAY               { $$ = widened(numbered($all, $all->number | INT64_C(1) << $DAY), @$); }

days:
    weekdays                            { $$ = ring(NULL, $1); }
  | weekdays clock                      { $$ = ring(ring(NULL, $1), $2); }

placed:
    NAME                                { $$ = ring(NULL, $1); }
  | NAME column                         { $$ = ring(ring(NULL, $1), $2); }
  | NAME ":" value                      { $$ = ring(ring(NULL, $1), $3); }
  | in_turn
  | in_turn column                      { $$ = ring($1, $2); }
  | OFF                                 { $$ = NODE(OFF, @1); }

in_turn:
    IN_TURN NAME                        { $$ = ring(ring(NULL, NODE(IN_TURN, @1)), $2); }
  | in_turn[all] "," NAME               { $$ = ring($all, $NAME); }

column:
    FROM_COLUMN NUMBER                  { $$ = node_add(NODE(FROM_COLUMN, @$), numbered(NODE(NUMBER, @2), $2)); }
  | BY_WEEKS                            { $$ = coded(NODE(BY_WEEKS, @$), $1); }

/* --- what comes next --- */

next_rule:
    plain "," THEN figures              { $$ = node_add(node_add(coded(NODE(NEXT, @$), NEXT_WORD_RANGE), $1), $4); }
  | TWO_FOR_TWO "," figures             { $$ = node_add(coded(NODE(NEXT, @$), NEXT_WORD_TWICE), $3); }
  | BY_EFFORT plain                     { $$ = node_add(coded(NODE(NEXT, @$), NEXT_WORD_EFFORT), $2); }
  | BY_LAST_SET plain                   { $$ = node_add(coded(NODE(NEXT, @$), NEXT_WORD_LAST_SET), $2); }

/* --- limits --- */

bound:
    AT_MOST figures                     { $$ = node_add(coded(NODE(BOUND, @$), BOUND_AT_MOST), $2); }
  | AT_LEAST figures                    { $$ = node_add(coded(NODE(BOUND, @$), BOUND_AT_LEAST), $2); }
  | WITHIN figures                      { $$ = node_add(coded(NODE(BOUND, @$), BOUND_WITHIN), $2); }
  | figures                             { $$ = node_add(coded(NODE(BOUND, @$), BOUND_WITHIN), $1); }
  | AT_MOST RPE figures                 { $$ = node_add(coded(NODE(BOUND, @$), BOUND_AT_MOST), node_add(coded(NODE(EFFORT, @3), EFFORT_WORD_RPE), $3)); }
  | NONE                                { $$ = coded(NODE(BOUND, @$), BOUND_NONE); }

tails:
    %empty                              { $$ = NULL; }
  | tails[all] tail                     { $$ = ring($all, $tail); }

tail:
    TAIL                                { $$ = coded(NODE(TAIL, @$), $1); }
  | TO NUMBER NAME                      { $$ = node_add(numbered(coded(NODE(TAIL, @$), TAIL_TO_ONE), $2), $3); }

%%

const char *plan_symbol_words(int symbol)
{
    return yysymbol_name((yysymbol_kind_t)symbol);
}

static int yyreport_syntax_error(const yypcontext_t *context, struct reader *reader)
{
    enum { MOST = 64 };
    yysymbol_kind_t symbols[MOST];
    const char *expected[MOST];
    int count = yypcontext_expected_tokens(context, symbols, MOST);
    for (int i = 0; i < count; i++)
        expected[i] = yysymbol_name(symbols[i]);
    reader_syntax_error(reader, *yypcontext_location(context), yypcontext_token(context) == YYSYMBOL_NEWLINE,
                        expected, count);
    return 0;
}

static void yyerror(struct extent *place, struct reader *reader, const char *words)
{
    (void)words; /* bison calls this only when its stack cannot grow */
    reader_too_deep(reader, *place);
}
