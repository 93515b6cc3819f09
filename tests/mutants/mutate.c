/* mutate - puts every mutant of a source file into it, each behind its number.
 *
 *     clang -Xclang -ast-dump=json -fsyntax-only ... FILE | mutate FILE LIST FILE... >MUTATED
 *
 * `a < b` becomes an expression that is `a <= b` when mutant 17 runs, `a >= b` when 18 does, and `a < b` else, so that one
 * build has them all. A number is the file's place among FILE... and the mutant's place in the file. LIST gets a line for
 * each: number, file, line, function, kind and change, with tabs between.
 *
 * The kinds:
 *     border      a comparison takes or leaves the border; a loop misses its last turn
 *     turned      a comparison that is used as a value is turned round; `!` is left out
 *     condition   a condition always holds, or never; so does what a function answers that answers yes or no
 *     part        a part of `a && b` or `a || b` is left out
 *     joined      `&&` becomes `||`, and the reverse
 *     arithmetic  + and -, * and /, % and /, & and |, << and >> change places; a minus is left out
 *     figure      a number, or a named one of an enum without name, is one more or one less
 *     dropped     a call, an assignment, a `break`, a `continue` is left out
 *
 * Left alone are constants that the compiler wants to know (sizes, cases, what is static), what stands in headers and
 * macros, and text. Clang says where everything stands and of what type it is. */
#include <glib.h>
#include <jansson.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "mutant.h"

/* --- the file and what is made of it --- */

struct work {
    const char *name; /* of the file */
    char *source;
    size_t size;
    GString *out;
    FILE *list;
    int number; /* of the next mutant */
    const char *function;
    bool answers;          /* the function returns a bool */
    GHashTable *constants; /* ids of constants of enums without name */
};

struct range {
    size_t begin, end;
};

static const char *text_of(const json_t *node, const char *key)
{
    const char *text = json_string_value(json_object_get(node, key));
    return text ? text : "";
}

static bool is_kind(const json_t *node, const char *kind)
{
    return strcmp(text_of(node, "kind"), kind) == 0;
}

static json_t *inner(const json_t *node, size_t i)
{
    return json_array_get(json_object_get(node, "inner"), i);
}

/* The type that a value has, with the names of typedefs looked through. */
static const char *type_of(const json_t *node)
{
    const json_t *type = json_object_get(node, "type");
    const char *looked = text_of(type, "desugaredQualType");
    return *looked ? looked : text_of(type, "qualType");
}

static bool is_pointer(const json_t *node)
{
    return strpbrk(type_of(node), "*[(") != NULL;
}

static bool is_number(const json_t *node)
{
    static const char *const no_numbers[] = {"struct", "union", "void", "__"};
    const char *type = type_of(node);
    for (size_t i = 0; i < G_N_ELEMENTS(no_numbers); i++)
        if (strstr(type, no_numbers[i]))
            return false;
    return *type && !is_pointer(node);
}

/* --- where a node stands --- */

/* Behind the parentheses that open at AT, if any do. */
static size_t behind_arguments(const struct work *work, size_t at)
{
    size_t open = at, depth = 0;
    while (open < work->size && g_ascii_isspace(work->source[open]))
        open++;
    if (open == work->size || work->source[open] != '(')
        return at;
    for (size_t i = open; i < work->size; i++) {
        depth += work->source[i] == '(';
        depth -= work->source[i] == ')';
        if (depth == 0)
            return i + 1;
    }
    return at;
}

static bool in_macro(const json_t *location)
{
    return json_object_get(location, "expansionLoc") != NULL;
}

static bool place(const json_t *location, size_t *offset, size_t *length)
{
    if (in_macro(location))
        location = json_object_get(location, "expansionLoc");
    const json_t *at = json_object_get(location, "offset");
    if (!at || json_object_get(location, "includedFrom"))
        return false;
    *offset = (size_t)json_integer_value(at);
    *length = (size_t)json_integer_value(json_object_get(location, "tokLen"));
    return true;
}

/* False for what stands in another file or nowhere. */
static bool range_of(const struct work *work, const json_t *node, struct range *range)
{
    const json_t *both = json_object_get(node, "range");
    const json_t *end = json_object_get(both, "end");
    size_t length, from;
    if (!place(json_object_get(both, "begin"), &range->begin, &length) || !place(end, &from, &length))
        return false;
    range->end = from + length;
    if (in_macro(end))
        range->end = behind_arguments(work, range->end);
    return range->begin < range->end && range->end <= work->size;
}

/* Does all of NODE come out of one macro? */
static bool is_of_macro(const json_t *node)
{
    const json_t *both = json_object_get(node, "range");
    const json_t *begin = json_object_get(json_object_get(both, "begin"), "expansionLoc");
    const json_t *end = json_object_get(json_object_get(both, "end"), "expansionLoc");
    return begin && end && json_equal(json_object_get(begin, "offset"), json_object_get(end, "offset"));
}

/* --- a mutant's number, and its line in the list --- */

static void list_text(struct work *work, const char *text, size_t length)
{
    bool space = false;
    for (size_t i = 0; i < length; i++) {
        if (g_ascii_isspace(text[i])) {
            space = true;
            continue;
        }
        if (space)
            fputc(' ', work->list);
        space = false;
        fputc(text[i], work->list);
    }
}

/* A new mutant of KIND: what stands at RANGE becomes CHANGE. Returns its number. */
static int mutant_new(struct work *work, struct range range, const char *kind, const char *change)
{
    int line = 1;
    for (size_t i = 0; i < range.begin; i++)
        line += work->source[i] == '\n';
    fprintf(work->list, "%d\t%s\t%d\t%s\t%s\t", work->number, work->name, line, work->function, kind);
    list_text(work, work->source + range.begin, range.end - range.begin);
    fprintf(work->list, " => %s\n", change);
    return work->number++;
}

static void put(struct work *work, const char *format, ...) G_GNUC_PRINTF(2, 3);
static void put(struct work *work, const char *format, ...)
{
    va_list list;
    va_start(list, format);
    g_string_append_vprintf(work->out, format, list);
    va_end(list);
}

static void copy(struct work *work, size_t from, size_t to)
{
    g_string_append_len(work->out, work->source + from, (gssize)(to - from));
}

/* --- nodes, one after the other --- */

/* What a node is there for, by which it may be changed as a whole. */
enum role {
    ROLE_VALUE,
    ROLE_CONDITION, /* of `if` and `?:` */
    ROLE_LOOP,      /* what a loop goes on by */
    ROLE_PART,      /* of && and || */
    ROLE_LOOP_PART, /* the same of what a loop goes on by */
    ROLE_ANSWER,    /* what a function returns that says yes or no */
    ROLE_STATEMENT,
    ROLE_LINE, /* a statement of a block */
    ROLE_FIXED      /* is left as it is written */
};

static void emit(struct work *work, const json_t *node, enum role role);

static enum role role_of(const struct work *work, const json_t *parent, size_t i)
{
    static const struct {
        const char *parent;
        size_t child;
        enum role role;
    } roles[] = {
        {"IfStmt", 0, ROLE_CONDITION}, {"ConditionalOperator", 0, ROLE_CONDITION}, {"WhileStmt", 0, ROLE_LOOP},
        {"DoStmt", 1, ROLE_LOOP},      {"ForStmt", 2, ROLE_LOOP},                  {"ForStmt", 3, ROLE_FIXED},
        {"IfStmt", 1, ROLE_STATEMENT}, {"IfStmt", 2, ROLE_STATEMENT},              {"WhileStmt", 1, ROLE_STATEMENT},
        {"DoStmt", 0, ROLE_STATEMENT}, {"ForStmt", 4, ROLE_STATEMENT},             {"CaseStmt", 1, ROLE_STATEMENT},
        {"DefaultStmt", 0, ROLE_STATEMENT}, {"LabelStmt", 0, ROLE_STATEMENT},
    };
    for (size_t r = 0; r < G_N_ELEMENTS(roles); r++)
        if (is_kind(parent, roles[r].parent) && i == roles[r].child)
            return roles[r].role;
    if (is_kind(parent, "CompoundStmt"))
        return ROLE_LINE;
    return is_kind(parent, "ReturnStmt") && work->answers ? ROLE_ANSWER : ROLE_VALUE;
}

/* A child in the order of the text. */
struct child {
    const json_t *node;
    struct range range;
    enum role role;
};

static int by_place(const void *a, const void *b)
{
    const struct child *left = a, *right = b;
    return (left->range.begin > right->range.begin) - (left->range.begin < right->range.begin);
}

/* What is declared is looked through: only the values that variables begin with are of interest. */
static void add_children(const struct work *work, const json_t *parent, GArray *children)
{
    static const char *const fixed[] = {"ConstantExpr", "EnumDecl",     "RecordDecl",              "StaticAssertDecl",
                                        "TypedefDecl",  "OffsetOfExpr", "UnaryExprOrTypeTraitExpr"};
    size_t i;
    const json_t *node;
    json_array_foreach(json_object_get(parent, "inner"), i, node) {
        struct child child = {.node = node, .role = role_of(work, parent, i)};
        bool leave = child.role == ROLE_FIXED || strcmp(text_of(node, "storageClass"), "static") == 0;
        for (size_t f = 0; f < G_N_ELEMENTS(fixed); f++)
            leave = leave || is_kind(node, fixed[f]);
        if (leave)
            continue;
        if (is_kind(node, "VarDecl"))
            add_children(work, node, children);
        else if (range_of(work, node, &child.range))
            g_array_append_val(children, child);
    }
}

/* The text of NODE, with its children changed. */
static void emit_inside(struct work *work, const json_t *node, struct range range)
{
    GArray *children = g_array_new(FALSE, FALSE, sizeof(struct child));
    if (!is_of_macro(node))
        add_children(work, node, children);
    if (children->len)
        qsort(children->data, children->len, sizeof(struct child), by_place);
    size_t at = range.begin;
    for (guint i = 0; i < children->len; i++) {
        const struct child *child = &g_array_index(children, struct child, i);
        if (child->range.begin < at || child->range.end > range.end)
            continue;
        copy(work, at, child->range.begin);
        emit(work, child->node, child->role);
        at = child->range.end;
    }
    copy(work, at, range.end);
    g_array_free(children, TRUE);
}

/* Do both sides of an operator stand in this file? */
static bool both_stand(const struct work *work, const json_t *node)
{
    struct range range;
    return range_of(work, inner(node, 0), &range) && range_of(work, inner(node, 1), &range);
}

/* `T name = (value);` of one side of an operator. */
static void emit_side(struct work *work, const json_t *side, char name, int number)
{
    put(work, "%s %c%d = (", is_number(side) ? type_of(side) : "__auto_type", name, number);
    emit(work, side, ROLE_VALUE);
    put(work, "); ");
}

static void emit_comparison(struct work *work, const json_t *node, struct range range, enum role role)
{
    static const char *const operators[][3] = {
        /* operator, the same with the border moved, turned round */
        {"<", "<=", ">="}, {"<=", "<", ">"}, {">", ">=", "<="}, {">=", ">", "<"}, {"==", NULL, "!="}, {"!=", NULL, "=="},
    };
    size_t row = 0;
    while (strcmp(operators[row][0], text_of(node, "opcode")) != 0)
        row++;
    const json_t *left = inner(node, 0), *right = inner(node, 1);
    bool turned = role == ROLE_VALUE, border = operators[row][1] != NULL;
    bool loops = role == ROLE_LOOP || role == ROLE_LOOP_PART; /* one turn more would read what is not there */
    if (loops)
        border = border && is_number(left) && is_number(right);
    if ((!turned && !border) || !both_stand(work, node)) {
        emit_inside(work, node, range);
        return;
    }
    int first = work->number;
    int moved = border ? mutant_new(work, range, "border", loops ? "misses the last turn" : operators[row][1]) : -1;
    int round = turned ? mutant_new(work, range, "turned", operators[row][2]) : -1;
    put(work, "({ ");
    emit_side(work, left, 'l', first);
    emit_side(work, right, 'r', first);
    if (border && loops)
        put(work, "mutant(%d) ? l%d %s r%d %c 1 : ", moved, first, operators[row][0], first,
            *operators[row][0] == '<' ? '-' : '+');
    else if (border)
        put(work, "mutant(%d) ? l%d %s r%d : ", moved, first, operators[row][1], first);
    if (turned)
        put(work, "mutant(%d) ? l%d %s r%d : ", round, first, operators[row][2], first);
    put(work, "l%d %s r%d; })", first, operators[row][0], first);
}

static void emit_arithmetic(struct work *work, const json_t *node, struct range range)
{
    static const char *const operators[][2] = {{"+", "-"}, {"-", "+"}, {"*", "/"}, {"/", "*"}, {"%", "/"},
                                               {"&", "|"}, {"|", "&"}, {"<<", ">>"}, {">>", "<<"}};
    const char *operator = text_of(node, "opcode"), *other = NULL;
    for (size_t i = 0; i < G_N_ELEMENTS(operators); i++)
        if (strcmp(operators[i][0], operator) == 0)
            other = operators[i][1];
    const json_t *left = inner(node, 0), *right = inner(node, 1);
    if (!other || !is_number(left) || !is_number(right) || !both_stand(work, node)) {
        emit_inside(work, node, range);
        return;
    }
    int number = mutant_new(work, range, "arithmetic", other);
    put(work, "({ ");
    emit_side(work, left, 'l', number);
    emit_side(work, right, 'r', number);
    put(work, "mutant(%d) ? ", number);
    if (*other == '/')
        put(work, "r%d == 0 ? 0 : ", number);
    put(work, "l%d %s r%d : l%d %s r%d; })", number, other, number, number, operator, number);
}

/* a || b is !(!a && !b): so that neither has to be written twice. */
static void emit_joined(struct work *work, const json_t *node, struct range range, enum role role)
{
    bool loops = role == ROLE_LOOP || role == ROLE_LOOP_PART;
    bool both = strcmp(text_of(node, "opcode"), "&&") == 0;
    int joined = mutant_new(work, range, "joined", both ? "||" : "&&");
    put(work, "({ int m%d = mutant(%d); m%d ^ (", joined, joined, joined);
    for (size_t i = 0; i < 2; i++) {
        const json_t *side = inner(node, i);
        struct range part;
        range_of(work, side, &part);
        int number = mutant_new(work, part, "part", both ? "left out of &&" : "left out of ||");
        put(work, "(m%d ^ !!(mutant(%d) ? %d : (", joined, number, both);
        emit(work, side, loops ? ROLE_LOOP_PART : ROLE_PART);
        put(work, ")))%s", i == 0 ? text_of(node, "opcode") : "");
    }
    put(work, "); })");
}

static void emit_added(struct work *work, const json_t *node, struct range range)
{
    const json_t *left = inner(node, 0), *right = inner(node, 1);
    struct range value;
    bool adds = strcmp(text_of(node, "opcode"), "+=") == 0 || strcmp(text_of(node, "opcode"), "-=") == 0;
    if (!adds || !is_number(left) || !is_number(right) || !range_of(work, right, &value)) {
        emit_inside(work, node, range);
        return;
    }
    int number = mutant_new(work, range, "arithmetic", "the other sign");
    copy(work, range.begin, value.begin);
    put(work, "({ ");
    emit_side(work, right, 'r', number);
    put(work, "mutant(%d) ? -r%d : r%d; })", number, number, number);
}

static void emit_unary(struct work *work, const json_t *node, struct range range, enum role role)
{
    const char *operator = text_of(node, "opcode");
    const json_t *of = inner(node, 0);
    if (strcmp(operator, "!") == 0 && role == ROLE_VALUE) {
        put(work, "(mutant(%d) != (", mutant_new(work, range, "turned", "without !"));
        emit_inside(work, node, range);
        put(work, "))");
    } else if (strcmp(operator, "-") == 0 && is_number(of) && !is_kind(of, "IntegerLiteral")) {
        int number = mutant_new(work, range, "arithmetic", "without minus");
        put(work, "({ ");
        emit_side(work, of, 'l', number);
        put(work, "mutant(%d) ? l%d : -l%d; })", number, number, number);
    } else {
        emit_inside(work, node, range);
    }
}

static void emit_figure(struct work *work, const json_t *node, struct range range)
{
    const char *value = text_of(node, "value");
    if (is_of_macro(node) || !is_number(node)) {
        copy(work, range.begin, range.end);
        return;
    }
    put(work, "(");
    copy(work, range.begin, range.end);
    put(work, " + mutant(%d)", mutant_new(work, range, "figure", "one more"));
    if (strcmp(value, "0") != 0)
        put(work, " - mutant(%d)", mutant_new(work, range, "figure", "one less"));
    put(work, ")");
}

static bool is_named_figure(const struct work *work, const json_t *node)
{
    const json_t *declared = json_object_get(node, "referencedDecl");
    return is_kind(node, "DeclRefExpr") && is_kind(declared, "EnumConstantDecl") &&
        g_hash_table_contains(work->constants, text_of(declared, "id"));
}

/* NODE by itself, whatever it is there for. */
static void emit_node(struct work *work, const json_t *node, struct range range, enum role role)
{
    static const char *const comparisons = " < <= > >= == != ";
    char operator[8];
    snprintf(operator, sizeof operator, " %s ", text_of(node, "opcode"));
    bool zeros = is_kind(node, "InitListExpr") && strncmp(work->source + range.begin, "{0}", 3) == 0;
    if (is_of_macro(node) || zeros || is_kind(node, "UnaryExprOrTypeTraitExpr"))
        copy(work, range.begin, range.end);
    else if (is_kind(node, "BinaryOperator") && strstr(comparisons, operator))
        emit_comparison(work, node, range, role);
    else if (is_kind(node, "BinaryOperator") && strstr(" && || ", operator) && both_stand(work, node))
        emit_joined(work, node, range, role);
    else if (is_kind(node, "BinaryOperator"))
        emit_arithmetic(work, node, range);
    else if (is_kind(node, "CompoundAssignOperator"))
        emit_added(work, node, range);
    else if (is_kind(node, "UnaryOperator"))
        emit_unary(work, node, range, role);
    else if (is_kind(node, "IntegerLiteral") || is_kind(node, "FloatingLiteral") || is_named_figure(work, node))
        emit_figure(work, node, range);
    else
        emit_inside(work, node, range);
}

/* Parentheses and casts that nobody wrote hand on what a value is there for. */
static bool hands_on(const json_t *node)
{
    return is_kind(node, "ParenExpr") || is_kind(node, "ImplicitCastExpr");
}

static bool can_be_dropped(const json_t *node)
{
    const char *operator = text_of(node, "opcode");
    return is_kind(node, "CallExpr") || is_kind(node, "CompoundAssignOperator") ||
        (is_kind(node, "BinaryOperator") && strcmp(operator, "=") == 0) ||
        (is_kind(node, "UnaryOperator") && (strcmp(operator, "++") == 0 || strcmp(operator, "--") == 0));
}

/* `break;` and its like are dropped only as lines of a block: before an `else` an `if` could not be put around them. */
static bool is_jump(const json_t *node)
{
    return is_kind(node, "BreakStmt") || is_kind(node, "ContinueStmt") || (is_kind(node, "ReturnStmt") && !inner(node, 0));
}

static void emit_statement(struct work *work, const json_t *node, struct range range, enum role role)
{
    if (can_be_dropped(node) && !is_of_macro(node)) {
        put(work, "mutant(%d) ? (void)0 : (void)(", mutant_new(work, range, "dropped", "nothing"));
        emit_node(work, node, range, ROLE_STATEMENT);
        put(work, ")");
    } else if (role == ROLE_LINE && is_jump(node)) {
        put(work, "if (!mutant(%d)) ", mutant_new(work, range, "dropped", "nothing"));
        copy(work, range.begin, range.end);
    } else {
        emit_node(work, node, range, ROLE_STATEMENT);
    }
}

/* A condition that is true or false as it is written gets the other only. */
static void emit_condition(struct work *work, const json_t *node, struct range range, enum role role)
{
    struct range within = range;
    while (hands_on(node) && inner(node, 0) && range_of(work, inner(node, 0), &within))
        node = inner(node, 0);
    bool loops = role == ROLE_LOOP, literal = is_kind(node, "IntegerLiteral");
    bool holds = literal && strcmp(text_of(node, "value"), "0") != 0;
    put(work, "(");
    if (!loops && !holds)
        put(work, "mutant(%d) ? 1 : ", mutant_new(work, range, "condition", "always"));
    if (holds || !literal)
        put(work, "mutant(%d) ? 0 : ", mutant_new(work, range, "condition", "never"));
    put(work, "(");
    if (literal)
        copy(work, range.begin, range.end);
    else
        emit_node(work, node, within, role);
    put(work, "))");
}

/* NODE must stand in the file (range_of). */
static void emit(struct work *work, const json_t *node, enum role role)
{
    struct range range = {0, 0};
    range_of(work, node, &range);
    if (role == ROLE_STATEMENT || role == ROLE_LINE)
        emit_statement(work, node, range, role);
    else if ((role == ROLE_PART || role == ROLE_LOOP_PART) && hands_on(node))
        emit(work, inner(node, 0), role);
    else if (role == ROLE_PART || role == ROLE_LOOP_PART || role == ROLE_VALUE)
        emit_node(work, node, range, role);
    else
        emit_condition(work, node, range, role);
}

/* --- the whole file --- */

static void find_constants(struct work *work, const json_t *node)
{
    size_t i;
    const json_t *child;
    bool nameless = is_kind(node, "EnumDecl") && !*text_of(node, "name");
    json_array_foreach(json_object_get(node, "inner"), i, child) {
        if (nameless && is_kind(child, "EnumConstantDecl"))
            g_hash_table_add(work->constants, (char *)text_of(child, "id"));
        find_constants(work, child);
    }
}

/* The block of a function that stands in this file, or NULL. */
static const json_t *body_of(const struct work *work, const json_t *node, struct range *range)
{
    size_t count = json_array_size(json_object_get(node, "inner"));
    const json_t *last = count ? inner(node, count - 1) : NULL;
    bool body = is_kind(node, "FunctionDecl") && last && is_kind(last, "CompoundStmt") && range_of(work, last, range);
    return body ? last : NULL;
}

static void mutate(struct work *work, const json_t *unit)
{
    size_t i, at = 0;
    const json_t *node;
    find_constants(work, unit);
    json_array_foreach(json_object_get(unit, "inner"), i, node) {
        struct range range;
        const json_t *body = body_of(work, node, &range);
        if (!body || range.begin < at)
            continue;
        const char *type = type_of(node);
        work->function = text_of(node, "name");
        work->answers = g_str_has_prefix(type, "bool ") || g_str_has_prefix(type, "_Bool ");
        copy(work, at, range.begin);
        emit_inside(work, body, range);
        at = range.end;
    }
    copy(work, at, work->size);
}

int main(int argc, char **argv)
{
    struct work work = {.out = g_string_new(NULL), .number = -1, .function = ""};
    json_error_t error;
    json_t *unit = json_loadf(stdin, 0, &error);
    if (argc < 4 || !unit || !g_file_get_contents(argv[1], &work.source, &work.size, NULL)) {
        fprintf(stderr, "usage: clang -Xclang -ast-dump=json -fsyntax-only FILE | mutate FILE LIST FILE... >MUTATED\n");
        return 2;
    }
    for (int i = 3; i < argc; i++)
        if (strcmp(argv[i], argv[1]) == 0)
            work.number = (i - 3) * MUTANTS_OF_A_FILE;
    int end = work.number + MUTANTS_OF_A_FILE;
    work.name = argv[1];
    work.list = fopen(argv[2], "w");
    if (work.number < 0 || end > MUTANTS_MOST || !work.list) {
        fprintf(stderr, "mutate: %s is none of the files, or they are too many, or %s cannot be written\n", argv[1], argv[2]);
        return 2;
    }
    work.constants = g_hash_table_new(g_str_hash, g_str_equal);
    mutate(&work, unit);
    fwrite(work.out->str, 1, work.out->len, stdout);
    bool fits = work.number <= end;
    if (!fits)
        fprintf(stderr, "mutate: %s has more mutants than numbers\n", argv[1]);
    bool written = fclose(work.list) == 0 && fflush(stdout) == 0;
    g_hash_table_destroy(work.constants);
    g_string_free(work.out, TRUE);
    g_free(work.source);
    json_decref(unit);
    return fits && written ? 0 : 2;
}
