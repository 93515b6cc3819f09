/* command_find.c - look on the shelf and in the plan. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "cli/commands.h"
#include "cli/project.h"
#include "model/kit.h"

enum { MOST_IN_FULL = 6, HALF = 500, NAME_WIDTH = 40 };

struct query {
    const char **words; /* folded */
    size_t count;
    const struct gym *gym; /* only what can be done there; or NULL */
};

struct match {
    const struct exercise *exercise;
    int rank; /* less is nearer */
};

static const char *const worker_names[] = {"lead hand", "rear hand", "lead leg", "rear leg", "lead hip",
                                           "rear hip",  "hand",      "leg",      "hip"};

enum { WORKER_NAME_COUNT = sizeof worker_names / sizeof *worker_names };

/* How near WORD is to what is known of EXERCISE: its name, another name, or what it is; 0 where it is not met. */
static int rank_word(const struct exercise *exercise, const char *word)
{
    const char *at = strstr(exercise->name.folded, word);
    if (at)
        return at == exercise->name.folded || at[-1] == ' ' ? 1 : 2;
    for (size_t i = 0; i < exercise->alias_count; i++)
        if (strstr(exercise->aliases[i].folded, word))
            return 2;
    for (int i = 0; i < PATTERN_COUNT; i++)
        if ((exercise->patterns >> i & 1) && strstr(patterns.names[i], word))
            return 3;
    for (int i = 0; i < REGION_COUNT; i++)
        if (exercise->loads[i] >= HALF && strstr(regions.names[i], word))
            return 4;
    for (size_t i = 0; i < exercise->need_count; i++)
        if (strstr(exercise->needs[i].name.folded, word))
            return 4;
    for (size_t i = 0; i < exercise->position_count; i++)
        if (strstr(exercise->positions[i], word))
            return 4;
    for (int i = 0; i < WORKER_NAME_COUNT; i++)
        if ((exercise->workers >> i & 1) && strstr(worker_names[i], word))
            return 4;
    return strstr(exercise_kinds.names[exercise->kind], word) ? 4 : 0;
}

static int rank(const struct exercise *exercise, const struct query *query)
{
    if (query->gym && gym_lacks(query->gym, exercise))
        return 0;
    int worst = 1;
    for (size_t i = 0; i < query->count; i++) {
        int rank = rank_word(exercise, query->words[i]);
        if (!rank)
            return 0;
        worst = rank > worst ? rank : worst;
    }
    return worst;
}

static int nearest_first(const void *left, const void *right)
{
    const struct match *a = left, *b = right;
    if (a->rank != b->rank)
        return a->rank < b->rank ? -1 : 1;
    return strcmp(a->exercise->name.folded, b->exercise->name.folded);
}

static struct match *find_all(struct arena *arena, const struct programme *programme, const struct query *query,
                              size_t *count)
{
    struct match *matches = arena_alloc(arena, programme->exercise_count * sizeof *matches);
    *count = 0;
    for (size_t i = 0; i < programme->exercise_count; i++) {
        int near = rank(programme->exercises[i], query);
        if (near)
            matches[(*count)++] = (struct match){programme->exercises[i], near};
    }
    if (*count > 1)
        qsort(matches, *count, sizeof *matches, nearest_first);
    return matches;
}

/* --- printing --- */

static const char *side_words(const struct exercise *exercise)
{
    static const char *const rules[] = {"both sides at once", "each side", "each way", "from a stance"};
    return rules[exercise->side];
}

static void print_workers(unsigned workers)
{
    for (int i = 0; i < WORKER_NAME_COUNT; i++)
        if (workers >> i & 1)
            printf(", %s", worker_names[i]);
}

static void print_line(const char *label, const char *words)
{
    if (words && *words)
        printf("    %-10s %s\n", label, words);
}

static void print_loads(const struct exercise *exercise)
{
    bool any = false;
    for (int i = 0; i < REGION_COUNT; i++) {
        milli load = exercise->loads[i];
        if (!load)
            continue;
        printf(any ? ", %s" : "    loads      %s", regions.names[i]);
        if (load != 1000)
            printf(" %g", (double)load / 1000);
        any = true;
    }
    if (any)
        putchar('\n');
}

static void print_needs(const struct exercise *exercise)
{
    for (size_t i = 0; i < exercise->need_count; i++)
        printf(i ? ", %s" : "    needs      %s", exercise->needs[i].name.shown);
    if (exercise->need_count)
        putchar('\n');
}

static void print_teaching(const struct exercise *exercise)
{
    for (size_t i = 0; i < exercise->cue_count; i++)
        print_line(i ? "" : "cue", exercise->cues[i]);
    for (size_t i = 0; i < exercise->fault_count; i++) {
        print_line("fault", exercise->faults[i].fault);
        print_line("  fix", exercise->faults[i].fix);
    }
    print_line("stop if", exercise->stop);
}

static void print_entry(const struct exercise *exercise)
{
    printf("%s\n    %s", exercise->name.shown, exercise_kinds.names[exercise->kind]);
    for (int i = 0; i < PATTERN_COUNT; i++)
        if (exercise->patterns >> i & 1)
            printf(", %s", patterns.names[i]);
    printf("; %s", side_words(exercise));
    print_workers(exercise->workers);
    printf("; counted in %s%s\n", units.names[exercise->counts], exercise->shelf ? "" : "; the club's own");
    for (size_t i = 0; i < exercise->alias_count; i++)
        printf(i ? ", %s" : "    also       %s", exercise->aliases[i].shown);
    if (exercise->alias_count)
        putchar('\n');
    print_needs(exercise);
    print_loads(exercise);
    print_line("kilograms", weighs.names[exercise->weigh]);
    if (exercise->base != exercise)
        printf("    percent of %s\n", exercise->base->name.shown);
    print_teaching(exercise);
    print_line("easier", exercise->easier ? exercise->easier->name.shown : NULL);
    print_line("harder", exercise->harder ? exercise->harder->name.shown : NULL);
    for (size_t i = 0; i < exercise->without_count; i++)
        printf("    without %s: %s\n", exercise->without[i].kit.shown, exercise->without[i].instead->name.shown);
}

static void print_short(const struct exercise *exercise)
{
    unsigned width = text_width(exercise->name.shown, strlen(exercise->name.shown));
    printf("%s%*s %s; %s\n", exercise->name.shown, width < NAME_WIDTH ? (int)(NAME_WIDTH - width) : 0, "",
           patterns.names[exercise->pattern], side_words(exercise));
}

static int print_matches(const struct match *matches, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        if (count > MOST_IN_FULL) {
            print_short(matches[i].exercise);
        } else {
            if (i)
                putchar('\n');
            print_entry(matches[i].exercise);
        }
    }
    if (count > MOST_IN_FULL)
        printf("\n%zu exercises; more words make it fewer\n", count);
    return EXIT_CLEAN;
}

static const struct gym *find_gym(const struct project *project, const char *asked)
{
    const char *folded = text_fold(project->arena, asked, strlen(asked));
    for (size_t i = 0; i < project->programme->gym_count; i++)
        if (strcmp(project->programme->gyms[i]->name.folded, folded) == 0)
            return project->programme->gyms[i];
    fprintf(stderr, "bellsheet: error: there is no gym called `%s` in this folder\n", asked);
    return NULL;
}

/* Each word of the command line by itself: `find "rear hand" press` asks for three. */
static struct query read_query(struct arena *arena, const struct options *options)
{
    struct query query = {0};
    size_t capacity = 0;
    for (int i = 0; i < options->path_count; i++) {
        for (const char *word = options->paths[i]; *word;) {
            size_t length = strcspn(word, " ");
            query.words = arena_grow(arena, query.words, query.count, &capacity, sizeof *query.words);
            if (length)
                query.words[query.count++] = text_fold(arena, word, length);
            word += length + (word[length] == ' ');
        }
    }
    return query;
}

int command_find(const struct options *options)
{
    struct options here = *options;
    here.path_count = 0; /* the words are no paths: the plan looked into is the one in this folder */
    struct project project;
    int status = EXIT_COULD_NOT;
    if (project_open(&project, &here, PLAN_WELCOME)) {
        struct query query = read_query(project.arena, options);
        query.gym = options->kit ? find_gym(&project, options->kit) : NULL;
        size_t count;
        struct match *matches = find_all(project.arena, project.programme, &query, &count);
        if (!query.count && !query.gym && !options->kit)
            fputs("bellsheet: error: say what to look for: `bellsheet find landmine press`\n", stderr);
        else if (!options->kit || query.gym)
            status = count ? print_matches(matches, count) : EXIT_PLAN;
        if (status == EXIT_PLAN)
            fputs("nothing on the shelf or in this folder fits all of these words\n", stderr);
    }
    project_close(&project);
    return status;
}
