/* command_find.c - look on the shelf and in the plan. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "cli/commands.h"
#include "cli/project.h"
#include "cli/tell.h"
#include "wording/entry.h"
#include "measure/kit.h"
#include "measure/stand_in.h"
#include "model/programme.h"

enum { MOST_IN_FULL = 6, HALF = 500, NAME_WIDTH = 40, EXACT = 1 };

static const char SPLIT_STANCE[] = "split stance";

struct query {
    const char **words; /* folded */
    size_t count;
    const char *phrase; /* all of them */
    const struct gym *gym; /* only what can be done there; or NULL */
};

struct match {
    const struct exercise *exercise;
    int rank; /* less is nearer; EXACT where all the words are its name */
};

/* Is WORD what coaches say for work from a stance, and is EXERCISE done from one? */
static bool is_from_stance(const struct exercise *exercise, const char *word)
{
    return exercise->side == SIDE_PER_STANCE && (strcmp(word, SPLIT_STANCE) == 0 || strcmp(word, "stance") == 0);
}

/* How near WORD is to what is known about EXERCISE: its name, another name, or what it is; 0 if it does not fit. */
static int rank_word(const struct exercise *exercise, const char *word)
{
    const char *at = strstr(exercise->name.folded, word);
    if (at)
        return at == exercise->name.folded || at[-1] == ' ' ? 2 : 3;
    for (size_t i = 0; i < exercise->alias_count; i++)
        if (strstr(exercise->aliases[i].folded, word))
            return 3;
    for (int i = 0; i < PATTERN_COUNT; i++)
        if ((exercise->patterns >> i & 1) && strstr(patterns.names[i], word))
            return 4;
    for (int i = 0; i < REGION_COUNT; i++)
        if (exercise->loads[i] >= HALF && strstr(regions.names[i], word))
            return 5;
    for (size_t i = 0; i < exercise->need_count; i++)
        if (strstr(exercise->needs[i].name.folded, word))
            return 5;
    for (size_t i = 0; i < exercise->position_count; i++)
        if (strstr(exercise->positions[i], word))
            return 5;
    for (size_t i = 0; i < exercise->strains.count; i++) {
        const struct strain *strain = &exercise->strains.items[i];
        if (strcmp(joints.names[strain->joint], word) == 0 ||
            (strain->demand != DEMAND_NONE && strcmp(demands.names[strain->demand], word) == 0))
            return 5;
    }
    for (size_t i = 0; i < entry_worker_count; i++)
        if ((exercise->workers >> i & 1) && strstr(entry_workers[i], word))
            return 5;
    if (is_from_stance(exercise, word))
        return 5;
    int level = vocabulary_find(&levels, word);
    if (level >= (int)exercise->level) /* what a novice may do, the others may do too */
        return level == (int)exercise->level ? 4 : 5;
    return strstr(exercise_kinds.names[exercise->kind], word) ? 5 : 0;
}

static bool is_called(const struct exercise *exercise, const char *name)
{
    bool called = strcmp(exercise->name.folded, name) == 0;
    for (size_t i = 0; i < exercise->alias_count && !called; i++)
        called = strcmp(exercise->aliases[i].folded, name) == 0;
    return called;
}

static int rank(const struct exercise *exercise, const struct query *query)
{
    if (exercise->replaced || (query->gym && gym_missing(query->gym, exercise)))
        return 0;
    if (is_called(exercise, query->phrase))
        return EXACT;
    int worst = EXACT + 1;
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

static void print_line(const char *label, const char *words)
{
    if (words && *words)
        printf("    %-10s %s\n", label, words);
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

static void print_entry(struct arena *arena, const struct exercise *exercise)
{
    const char *age = entry_age(exercise);
    printf("%s\n    %s: %s; %s; counted in %s%s%s%s\n", exercise->name.shown, exercise_kinds.names[exercise->kind],
           entry_patterns(arena, exercise), entry_side(arena, exercise), entry_counts(exercise), *age ? "; " : "", age,
           exercise->shelf ? "" : "; the club's own");
    print_line("also", entry_aliases(arena, exercise));
    print_line("position", entry_positions(arena, exercise));
    print_line("joints", entry_joints(arena, exercise, false));
    print_line("both sides", entry_joints(arena, exercise, true));
    print_line("needs", entry_needs(arena, exercise));
    print_line("loads", entry_loads(arena, exercise));
    print_line("kilograms", weighs.names[exercise->weigh]);
    print_line("percent of", entry_base(arena, exercise));
    print_teaching(exercise);
    print_line("easier", exercise->easier ? exercise->easier->name.shown : NULL);
    print_line("harder", exercise->harder ? exercise->harder->name.shown : NULL);
    for (size_t i = 0; i < exercise->without_count; i++)
        print_line("without", entry_without(arena, exercise, i));
}

static void print_short(struct arena *arena, const struct exercise *exercise)
{
    unsigned width = text_width(exercise->name.shown, strlen(exercise->name.shown));
    printf("%s%*s %s; %s\n", exercise->name.shown, width < NAME_WIDTH ? (int)(NAME_WIDTH - width) : 0, "",
           patterns.names[exercise->pattern], entry_side(arena, exercise));
}

static void print_in_full(struct arena *arena, const struct match *matches, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        if (i)
            putchar('\n');
        print_entry(arena, matches[i].exercise);
    }
}

/* Prints them in full if they are few; otherwise one line each, after those with exactly this name. */
static int print_matches(struct arena *arena, const struct match *matches, size_t count)
{
    if (count <= MOST_IN_FULL) {
        print_in_full(arena, matches, count);
        return EXIT_CLEAN;
    }
    size_t exact = 0;
    while (exact < count && matches[exact].rank == EXACT)
        exact++;
    print_in_full(arena, matches, exact);
    if (exact)
        putchar('\n');
    for (size_t i = exact; i < count; i++)
        print_short(arena, matches[i].exercise);
    printf("\n%zu exercises; add words to narrow the list\n", count);
    return EXIT_CLEAN;
}

/* --- what stands in --- */

static const char INSTEAD_OF[] = "instead of ";

/* The athlete whose name follows the last ` for ` of *PHRASE, which is cut there; NULL if there is none. */
static const struct athlete *cut_athlete(const struct project *project, const char **phrase)
{
    const struct programme *programme = project->programme;
    size_t length = strlen(*phrase);
    for (size_t i = 0; i < programme->athlete_count; i++) {
        const char *name = programme->athletes[i]->name.folded;
        size_t tail = strlen(" for ") + strlen(name);
        if (length > tail && strcmp(*phrase + length - strlen(name), name) == 0 &&
            strncmp(*phrase + length - tail, " for ", strlen(" for ")) == 0) {
            *phrase = arena_copy(project->arena, *phrase, length - tail);
            return programme->athletes[i];
        }
    }
    return NULL;
}

static const struct exercise *find_called(const struct programme *programme, const char *name)
{
    for (size_t i = 0; i < programme->exercise_count; i++)
        if (!programme->exercises[i]->replaced && is_called(programme->exercises[i], name))
            return programme->exercises[i];
    return NULL;
}

/* `find instead of back squat for Mateus Quillfeather`. */
static int find_instead(const struct project *project, const char *phrase, const struct gym *gym)
{
    const char *wanted = phrase + strlen(INSTEAD_OF);
    const struct athlete *athlete = cut_athlete(project, &wanted);
    struct stand_in_for asked = {.programme = project->programme,
                                 .exercise = find_called(project->programme, wanted),
                                 .athlete = athlete,
                                 .gym = gym ? gym : athlete ? athlete->gym : NULL,
                                 .day = project->programme->today};
    if (!asked.exercise) {
        tell_error("there is no exercise called `%s`%s", wanted,
                   athlete ? "" : "; an athlete's name stands behind `for`, as the plan of this folder writes it");
        return EXIT_PLAN;
    }
    struct stand_in found[STAND_INS_MOST];
    size_t count = stand_ins_find(&asked, found);
    printf("instead of %s%s%s%s%s\n", asked.exercise->name.shown, athlete ? " for " : "", athlete ? athlete->name.shown : "",
           asked.gym ? ", at " : "", asked.gym ? asked.gym->name.shown : "");
    for (size_t i = 0; i < count; i++) {
        const char *name = found[i].exercise->name.shown;
        unsigned width = text_width(name, strlen(name));
        printf("    %s%*s  %s\n", name, width < NAME_WIDTH ? (int)(NAME_WIDTH - width) : 0, "",
               stand_in_words(project->arena, asked.exercise, found[i].exercise));
    }
    if (count == 0)
        puts("    nothing that comes near it may be done there");
    puts("Whoever treats the athlete decides what may be done; a list is no treatment.");
    return count ? EXIT_CLEAN : EXIT_PLAN;
}

/* --- the question --- */

static const struct gym *find_gym(const struct project *project, const char *asked)
{
    const char *folded = text_fold(project->arena, asked, strlen(asked));
    for (size_t i = 0; i < project->programme->gym_count; i++)
        if (strcmp(project->programme->gyms[i]->name.folded, folded) == 0)
            return project->programme->gyms[i];
    tell_error("there is no gym called `%s` in this folder", asked);
    return NULL;
}

/* A region, pattern, limb or stance of two words: `back thigh` does not mean whatever has a back and a thigh. */
static bool is_pair(const char *words)
{
    for (size_t i = 0; i < entry_worker_count; i++)
        if (strcmp(entry_workers[i], words) == 0)
            return true;
    return strcmp(words, SPLIT_STANCE) == 0 || vocabulary_find(&regions, words) >= 0 || vocabulary_find(&patterns, words) >= 0;
}

static void add_word(struct arena *arena, struct query *query, size_t *capacity, const char *word, size_t length)
{
    const char *folded = text_fold(arena, word, length);
    if (query->count) {
        const char **last = &query->words[query->count - 1];
        const char *pair = arena_printf(arena, "%s %s", *last, folded);
        if (is_pair(pair)) {
            *last = pair;
            return;
        }
    }
    query->words = arena_grow(arena, query->words, query->count, capacity, sizeof *query->words);
    query->words[query->count++] = folded;
}

/* Each word of the command line by itself: `find "rear hand" press` asks for a limb and a word. */
static struct query read_query(struct arena *arena, const struct options *options)
{
    struct query query = {.phrase = ""};
    size_t capacity = 0;
    for (int i = 0; i < options->path_count; i++) {
        for (const char *word = options->paths[i]; *word;) {
            size_t length = strcspn(word, " ");
            if (length)
                add_word(arena, &query, &capacity, word, length);
            word += length + (word[length] == ' ');
        }
    }
    for (size_t i = 0; i < query.count; i++)
        query.phrase = arena_printf(arena, "%s%s%s", query.phrase, i ? " " : "", query.words[i]);
    return query;
}

int command_find(const struct options *options)
{
    struct options here = *options;
    here.path_count = 0; /* the words are not paths: the search is in the plan of this folder */
    struct project project;
    int status = EXIT_COULD_NOT;
    bool asks_instead = false;
    if (project_open(&project, &here, PLAN_WELCOME)) {
        struct query query = read_query(project.arena, options);
        query.gym = options->kit ? find_gym(&project, options->kit) : NULL;
        size_t count;
        struct match *matches = find_all(project.arena, project.programme, &query, &count);
        if (!query.count && !query.gym && !options->kit)
            tell_error("say what to look for: `bellsheet find landmine press`");
        else if (options->kit && !query.gym)
            status = EXIT_COULD_NOT;
        else if (strncmp(query.phrase, INSTEAD_OF, strlen(INSTEAD_OF)) == 0)
            asks_instead = true;
        else
            status = count ? print_matches(project.arena, matches, count) : EXIT_PLAN;
        if (asks_instead)
            status = find_instead(&project, query.phrase, query.gym);
        else if (status == EXIT_PLAN)
            fputs("nothing on the shelf or in this folder fits all of these words\n", stderr);
    }
    project_close(&project);
    return status;
}
