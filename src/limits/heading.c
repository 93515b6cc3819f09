#include "limits/heading.h"

#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "model/programme.h"

enum { FAR = 4 };

struct nearest {
    const char *folded; /* what stands there */
    const char *words;  /* the nearest so far, or NULL */
    unsigned distance;
};

static void try_words(struct nearest *nearest, const char *folded, const char *shown)
{
    unsigned distance = text_distance(nearest->folded, folded, FAR);
    if (distance >= nearest->distance)
        return;
    nearest->distance = distance;
    nearest->words = shown;
}

static void try_numbered(struct arena *arena, struct nearest *nearest)
{
    static const char *const forms[][2] = {{"under ", ""},
                                           {"first ", " weeks"},
                                           {"first ", " days"},
                                           {"", " days before a bout"},
                                           {"", " weeks before a bout"},
                                           {"", " days after a bout"},
                                           {"", " weeks after a bout"}};
    const char *digits = strpbrk(nearest->folded, "0123456789");
    if (!digits)
        return;
    int length = (int)strspn(digits, "0123456789");
    for (size_t i = 0; i < sizeof forms / sizeof *forms; i++) {
        const char *words =
            arena_printf(arena, "%s%.*s%s", forms[i][0], length, digits, forms[i][1]);
        try_words(nearest, words, words);
    }
}

const char *heading_nearest(struct arena *arena, const struct programme *programme,
                            const char *folded)
{
    static const char *const plain[] = {"every week", "every session", "every phase", "every camp"};
    struct nearest nearest = {folded, NULL, FAR};
    for (size_t c = 0; c < programme->camp_count; c++)
        for (size_t i = 0; i < programme->camps[c]->phase_count; i++) {
            const struct name *phase = &programme->camps[c]->phases[i].name;
            try_words(&nearest, phase->folded, phase->shown);
        }
    for (size_t i = 0; i < sizeof plain / sizeof *plain; i++)
        try_words(&nearest, plain[i], plain[i]);
    for (size_t i = 0; i < levels.count; i++)
        try_words(&nearest, levels.names[i], levels.names[i]);
    for (size_t i = 0; i < programme->athlete_count; i++)
        try_words(&nearest, programme->athletes[i]->name.folded,
                  programme->athletes[i]->name.shown);
    try_numbered(arena, &nearest);
    return nearest.words;
}
