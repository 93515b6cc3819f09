/* Whom what was not understood may concern: the statement at the margin that it stands in tells who rests on it. Where that
 * cannot be known, it may be everybody. */
#include <glib.h>
#include <string.h>

#include "model/athlete.h"
#include "model/log.h"
#include "model/season.h"
#include "resolve/declare.h"
#include "resolve/template.h"
#include "source/shift.h"

void resolver_mark_unclear(struct resolver *r, struct span span)
{
    const struct span *last = r->unclear_count ? &r->unclear_spans[r->unclear_count - 1] : NULL;
    if (last && last->file == span.file && last->start == span.start)
        return;
    r->unclear_spans = arena_grow(r->arena, r->unclear_spans, r->unclear_count, &r->unclear_capacity, sizeof *r->unclear_spans);
    r->unclear_spans[r->unclear_count++] = span;
}

/* Of everybody where a statement tells nobody in particular: what finds no athletes returns false. */
struct unclear_search {
    struct pass *pass;
    bool *unclear;    /* by athlete */
    GHashTable *seen; /* sessions that were looked at already */
    unsigned file;    /* of which these are all the statements at the margin, and where they start */
    const struct node **statements;
    uint32_t *starts;
    size_t count;
};

/* Lists the statements at the margin of FILE. */
static void list_statements(struct unclear_search *search, struct tree *const *trees, size_t count, unsigned file)
{
    struct arena *arena = search->pass->r.arena;
    size_t i = 0, statements = 0;
    while (i < count && trees[i]->file != file)
        i++;
    const struct node *first = i < count ? trees[i]->root->first : NULL;
    for (const struct node *node = first; node; node = node->next)
        statements++;
    search->file = file;
    search->count = statements;
    search->statements = arena_alloc(arena, (statements + 1) * sizeof(struct node *));
    search->starts = arena_alloc(arena, (statements + 1) * sizeof *search->starts);
    i = 0;
    for (const struct node *node = first; node; node = node->next, i++) {
        search->statements[i] = node;
        search->starts[i] = node->span.start;
    }
}

static const void *declared_at(const struct declarations *list, const struct node *node)
{
    for (size_t i = 0; i < list->count; i++)
        if (list->items[i].node == node)
            return list->items[i].thing;
    return NULL;
}

/* The athlete whom NODE, `private NAME` for instance, is about. */
static bool reach_named(struct unclear_search *search, const struct node *node)
{
    struct resolver *r = &search->pass->r;
    const struct node *name = node_find(node, NODE_NAME);
    const struct athlete *athlete = name ? names_find(r->athletes, resolver_fold(r, name)) : NULL;
    if (athlete)
        search->unclear[athlete->number] = true;
    return athlete != NULL;
}

/* Those in the camp at NODE. Whom its line `for` leaves out could be anybody. */
static bool reach_camp(struct unclear_search *search, const struct node *node, uint32_t offset)
{
    const struct camp *camp = declared_at(&search->pass->camps, node);
    const struct node *members = node_find(node, STATEMENT_MEMBERS);
    if (!camp || !camp->athlete_count || !members || (members->span.start <= offset && offset <= members->span.end))
        return false;
    for (size_t i = 0; i < camp->athlete_count; i++)
        search->unclear[camp->athletes[i]->number] = true;
    return true;
}

static bool rests_on(const struct session *session, const struct node *node)
{
    for (const struct template *template = session->template; template; template = template->base)
        if (template->session->node == node)
            return true;
    return false;
}

/* Those for whom the session at NODE is placed, or who have logged it. */
static bool reach_session(struct unclear_search *search, const struct node *node)
{
    const struct resolver *r = &search->pass->r;
    if (!g_hash_table_add(search->seen, (void *)node))
        return true;
    if (!declared_at(&search->pass->sessions, node))
        return false;
    for (size_t i = 0; i < r->placed_count; i++) {
        const struct occasion *occasion = &r->placed[i].occasion;
        bool *unclear = &search->unclear[occasion->athlete->number];
        *unclear = *unclear || (occasion->session && rests_on(occasion->session, node));
    }
    for (size_t i = 0; i < r->done_count; i++)
        if (r->done[i].session && rests_on(r->done[i].session, node))
            search->unclear[r->done[i].athlete->number] = true;
    return true;
}

/* Where the words end that start at TEXT, and where those of the next line start that has some; remarks are none. */
static const char *line_end(const char *text)
{
    return text + strcspn(text, "\n");
}

static const char *next_words(const char *text)
{
    text += strspn(text, " \t\r\n");
    while (*text == '#') {
        text = line_end(text);
        text += strspn(text, " \t\r\n");
    }
    return text;
}

/* A line that could not be read and that can have declared no more than a name: that is missed where it is named, and
 * unclear there. A version of a session is not named; what is not known may have lines below it, or, as `use`, words
 * behind it. */
static bool declares_only_a_name(const struct source *source, const struct node *node)
{
    const char *line = source->text + node->span.start, *end = line_end(line);
    if (node->code == STATEMENT_SESSION)
        return !g_strstr_len(line, end - line, " from ");
    if (node->code)
        return node->code == STATEMENT_ATHLETE;
    size_t word = strcspn(line, " \t\r\n"), blank = strspn(line + word, " \t\r");
    bool alone = line + word + blank == end || line[word + blank] == '#';
    const char *below = next_words(end);
    return alone && (!*below || below[-1] == '\n');
}

/* False: it may concern everybody. */
static bool reach_statement(struct unclear_search *search, const struct node *node, struct span span)
{
    const struct resolver *r = &search->pass->r;
    switch ((int)node->kind) {
    case STATEMENT_ATHLETE:
    case STATEMENT_PRIVATE:
    case STATEMENT_RESULTS:
    case STATEMENT_LOG: return reach_named(search, node);
    case STATEMENT_CAMP: return reach_camp(search, node, span.start);
    case STATEMENT_SESSION: return reach_session(search, node);
    case STATEMENT_SEASON: return true; /* no limit looks at it */
    case NODE_BROKEN: return declares_only_a_name(&r->sources->items[span.file], node);
    default: return false;
    }
}

/* Is what stands at SPAN somewhere that tells whom it concerns? */
static bool reach_at(struct unclear_search *search, struct tree *const *trees, size_t count, struct span span)
{
    if (search->pass->r.sources->items[span.file].shelf)
        return false;
    if (!search->statements || search->file != span.file)
        list_statements(search, trees, count, span.file);
    if (!search->count || search->starts[0] > span.start)
        return false;
    return reach_statement(search, search->statements[part_at(search->starts, search->count, span.start)], span);
}

static bool reach_all(struct unclear_search *search, struct tree *const *trees, size_t count)
{
    const struct resolver *r = &search->pass->r;
    bool known = !r->unclear_all && !r->full && !r->large && !r->held_count;
    search->seen = g_hash_table_new(NULL, NULL);
    for (size_t i = 0; known && i < r->unclear_count; i++)
        known = reach_at(search, trees, count, r->unclear_spans[i]);
    g_hash_table_destroy(search->seen);
    return known;
}

void mark_unread(struct resolver *r)
{
    const struct diag *diag = r->diag;
    size_t errors = 0;
    for (size_t i = 0; i < diag->count; i++) {
        if (diag->items[i]->severity != SEVERITY_ERROR)
            continue;
        resolver_mark_unclear(r, diag->items[i]->span);
        errors++;
    }
    r->unclear_all |= errors < resolver_errors(r); /* of too many some are only counted */
}

const bool *find_unclear(struct pass *pass, struct tree *const *trees, size_t count)
{
    struct resolver *r = &pass->r;
    size_t athletes = pass->athletes.count;
    struct unclear_search search = {.pass = pass, .unclear = arena_alloc(r->arena, athletes + 1)};
    if (!reach_all(&search, trees, count))
        memset(search.unclear, true, athletes);
    return search.unclear;
}
