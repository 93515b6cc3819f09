/* language.h - the words of the sheets in other languages.
 *
 * The code says English. Each text that a sheet prints is looked up in the catalogue of the language of the arena that it is
 * made in (arena_speak); what a catalogue lacks stays English. Catalogues are the files of po/, which the build checks
 * with msgfmt and compiles into tables (tools/make_languages.c): the program reads no file for them and has no locale. */
#ifndef BELL_LANGUAGE_LANGUAGE_H
#define BELL_LANGUAGE_LANGUAGE_H

#include <stdint.h>

#include "base/arena.h"

/* A text of the code and what stands for it, by where they begin among the texts of its language: pointers would be worked
 * out at each start, thousands of them, and most starts ask for no language. */
struct translation {
    uint32_t context; /* tells texts apart that are one word in English; "" for most */
    uint32_t id;
    uint32_t forms;   /* one, or as many as the language has of a count, one behind the other */
};

struct language {
    const char *name; /* as a plan says it: "Spanish" */
    const char *code; /* of ISO 639: "es" */
    const char *texts;                      /* each with its NUL */
    const struct translation *translations; /* by context, then by id, as strcmp orders them */
    size_t count;
    size_t (*form)(unsigned long n); /* which form N things take */
    char decimal;
    int years_ahead;  /* of the Gregorian calendar's, as dates in it count them */
    bool half_days;   /* hours are counted to twelve */
    bool rises;       /* its letters stack marks above the height of Latin capitals */
    bool read;        /* by somebody whose mother tongue it is */
    bool guards_read; /* and so was all that keeps somebody from harm */
};

/* All of them, English first, by name. */
extern const struct language *const languages[];
extern const size_t language_count;

/* The language that a plan calls FOLDED (text_fold), or NULL. */
const struct language *language_find(const char *folded);

/* Marks a text that is looked up where it is used, by a name. */
#define SAID(text) text
#define SAID_AS(context, text) text

/* ID in ARENA's language. */
const char *said(const struct arena *arena, const char *id) __attribute__((format_arg(2), returns_nonnull));

/* The same of a text that may mean several things: CONTEXT says which. */
const char *said_as(const struct arena *arena, const char *context, const char *id)
    __attribute__((format_arg(3), returns_nonnull));

/* ONE or MANY, as COUNT things are said. */
const char *said_count(const struct arena *arena, long count, const char *one, const char *many)
    __attribute__((format_arg(3), format_arg(4), returns_nonnull));

/* What keeps somebody from harm: with the English beside it until somebody whose mother tongue it is has read these
 * words in the catalogue. */
const char *said_guard(struct arena *arena, const char *id) __attribute__((returns_nonnull));
const char *said_guard_as(struct arena *arena, const char *context, const char *id) __attribute__((returns_nonnull));

/* The name of a day of the week, from 1 for Monday, or of a month, from 1. */
enum said_length { SAID_LONG, SAID_SHORT };
const char *said_weekday(const struct arena *arena, enum said_length length, int day) __attribute__((returns_nonnull));
/* Its letter, for a narrow column. */
const char *said_initial(const struct arena *arena, int day) __attribute__((returns_nonnull));
const char *said_month(const struct arena *arena, enum said_length length, int month) __attribute__((returns_nonnull));

/* YEAR as the calendar of ARENA's language counts it: in Thai of the Buddhist era. */
int said_year(const struct arena *arena, int year);

/* That nobody whose mother tongue it is has read ARENA's language here; "" where somebody has. */
const char *said_unread(const struct arena *arena) __attribute__((returns_nonnull));

/* Do letters of ARENA's language rise above Latin capitals? What stands over them needs more room below. */
bool said_rises(const struct arena *arena);

/* FIGURES, with points, with the decimal sign of ARENA's language. */
const char *said_figures(struct arena *arena, const char *figures) __attribute__((returns_nonnull));

/* The hour of a day, SECONDS from its midnight or that of the day before: "17:30", "5:30 p.m." */
const char *said_hour(struct arena *arena, int seconds) __attribute__((returns_nonnull));

#endif
