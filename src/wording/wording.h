/* wording.h - doses, loads and rests in a coach's words, with the right signs: ×, –, and spaces that keep a
 * number with its unit. Texts live in the arena given, and are in its language. */
#ifndef BELL_WORDING_WORDING_H
#define BELL_WORDING_WORDING_H

#include "model/quantity.h"

struct activity;
struct avoid;
struct block;
struct bout;
struct camp;
struct exercise;
struct item;
struct item_tempo;
struct kit;
struct load;
struct logged_set;
struct occasion;
struct part;
struct set_run;
struct zone;

#define WORDING_GAP "\302\240"    /* no-break space */
#define WORDING_TIMES "\303\227"  /* × */
#define WORDING_TO "\342\200\223" /* – */
#define WORDING_DOT "\302\267"    /* · */

/* What an exercise or activity is called, where the language has a name for it, and as written where it has none. */
const char *wording_exercise(const struct arena *arena, const struct exercise *exercise);
const char *wording_activity(const struct arena *arena, const struct activity *activity);

/* "5", "82.5", "8–10". */
const char *wording_number(struct arena *arena, milli number);
const char *wording_range(struct arena *arena, struct range range);

/* "3:30", "1:04:00" past an hour; and "64 min", "45 s" for reading rather than timing. */
const char *wording_clock(struct arena *arena, int seconds);
const char *wording_time(struct arena *arena, int seconds);

/* "kg" or "lb". */
const char *wording_mass_unit(const struct arena *arena, enum mass_unit unit);
/* "62.5 kg", "135 lb"; with pounds after kilograms if POUNDS: "62.5 kg (137.75 lb)". */
const char *wording_mass(struct arena *arena, mass load, enum mass_unit unit, bool pounds);
/* The same to the thousandth, for what is written in a plan or stamped on a thing. */
const char *wording_mass_exact(struct arena *arena, mass load, enum mass_unit unit, bool pounds);
/* What is stamped on a piece of kit, in the unit that it is marked in: "20 kg", "45 lb". */
const char *wording_stamped(struct arena *arena, mass thing);

/* The unit of a part's amount as it follows the number: " m", " strikes", "" for plain repetitions and times. */
const char *wording_unit(const struct arena *arena, const struct part *part);
/* How much of one part, without its side: "4", "25 s", "40 m", "max". */
const char *wording_amount(struct arena *arena, const struct part *part);
/* What both stances of RUN, which alternates, do together, as one part. */
struct part wording_whole(const struct set_run *run);

/* What is barred: "left knee deep", "overhead". */
const char *wording_avoid(struct arena *arena, const struct avoid *avoid);

/* Its side or limb: "each side", "rear hand", "orthodox"; "" where there is none to name. */
const char *wording_side(const struct arena *arena, const struct part *part);
/* The rest inside a set: "rest 20 s", "rest 1:30–2:00", or "" where there is none. */
const char *wording_rest_inside(struct arena *arena, const struct set_run *run);
/* One set: "4 orthodox + 4 southpaw", "hold 25 s each side", "6 × 40 m". */
const char *wording_set(struct arena *arena, const struct set_run *run);

/* "left side left out": what a restriction takes out of the item; "" where it is whole. */
const char *wording_sides_out(const struct arena *arena, const struct item *item);

/* "round 3", "rounds 1–2". */
const char *wording_rounds(struct arena *arena, int first, int last);

/* Whether the block's sets are counted exercise by exercise ("3 × 5"), not by its heading ("3 rounds"). */
bool wording_counts_sets(const struct block *block);
/* How many of the item's runs, from the first, alternate work and ease inside a round, over and over; 0 if it is not
 * such an item. Its dose then gives the efforts too, and its load is empty. */
size_t wording_intervals(const struct block *block, const struct item *item);
/* Whether the block's line counts rounds, not sets. */
bool wording_in_rounds(const struct block *block);
/* "on a poor day: 2 sets, RPE 6" of a block that says so; else "". */
const char *wording_poor_day(struct arena *arena, const struct block *block);
/* Whether the item's sets differ only in the number, so that unit and side are given once, after the last. */
bool wording_once(const struct item *item);
/* The whole dose of an item: "3 × 5", "8, 8, 10, 12", "3 × 4 each side", "4 × (5 s all-out, 25 s easy)"; "" where an
 * item of rounds lasts as long as the round. */
const char *wording_dose(struct arena *arena, const struct block *block, const struct item *item);

/* The parts of a load. A share of body mass is never turned into kilograms: the two together would reveal what the
 * athlete weighs. Each is "" if there is nothing to say. */
const char *wording_load_mass(struct arena *arena, const struct load *load, bool pounds);
const char *wording_load_share(struct arena *arena, const struct load *load);
const char *wording_effort(struct arena *arena, const struct load *load);
/* What the kilograms are of: "with bar", "plates", "each hand", "one hand", "both hands". */
const char *wording_meaning(const struct arena *arena, const struct exercise *exercise, const struct load *load);
/* Which bar a load is made on: "15 kg bar", "25 kg trap bar". */
const char *wording_bar(struct arena *arena, const struct kit *bar);
/* What stands in place of kilograms, without effort: "medium band", "20 % of body mass + 5 kg", "80 %" of a best that
 * is not known; "" where kilograms or nothing stand. */
const char *wording_load_words(struct arena *arena, const struct load *load, bool pounds);
/* All of it: "80 % · 60 kg with bar", "2 × 16 kg each hand", "medium band", "RPE 8". */
const char *wording_load(struct arena *arena, const struct exercise *exercise,
                         const struct load *load, bool pounds);
/* The loads of an item's sets: one if they are alike, otherwise set by set: "60, 60, 55, 50 kg". */
const char *wording_loads(struct arena *arena, const struct block *block, const struct item *item,
                          bool pounds);

/* A set as a log tells it: "2 × 8 @ 20 kg RPE 8". */
const char *wording_logged_set(struct arena *arena, const struct logged_set *set);

/* "3-1-X-0", or "" where none is given. */
const char *wording_tempo(struct arena *arena, const struct item_tempo *tempo);
/* "3:30", "3:00–4:00", or "" where there is none. */
const char *wording_rest(struct arena *arena, const struct block *block);
/* A block's heading: "contrast · 3 sets · rest 3:30", "4 × 2:00 · rest 0:40". */
const char *wording_block(struct arena *arena, const struct block *block);
/* "may be left out", or "" of what must be done. */
const char *wording_optional(const struct arena *arena, const struct occasion *occasion);
/* What an occasion asks for in all, length first if it is known: "45 min · 6000 m · pulse 130–145 · may be left out", "6 ×
 * 2:00 · RPE 7"; "" where nothing is said. */
const char *wording_occasion(struct arena *arena, const struct occasion *occasion);
/* "9 weeks out", "bout week", or "" where there is no bout ahead. */
const char *wording_weeks_out(struct arena *arena, int weeks);
/* What BOUT is fought by, as its line has it, and whether it was cancelled: "kickboxing, cancelled"; "" where nothing is said. */
const char *wording_bout(struct arena *arena, const struct bout *bout);
/* "left out: base, strength" of the phases of a camp for which there are no days; else "". */
const char *wording_left_phases(struct arena *arena, const struct camp *camp);
/* "7 time zones east"; and "7 east", as a plan says it. */
const char *wording_zones(struct arena *arena, milli zones);
const char *wording_zones_written(struct arena *arena, milli zones);
/* "Bangkok time" of a zone; "" of NULL. */
const char *wording_local_time(struct arena *arena, const struct zone *zone);
/* In the seven days to a bout "2 days before the bout", else "". */
const char *wording_before_bout(struct arena *arena, const struct occasion *occasion);
/* How many days from DAY to the next day of a bout of CAMP; -1 where none is to come. */
int wording_days_to_bout(const struct camp *camp, int day);
/* The one or, further away, the other. */
const char *wording_out(struct arena *arena, const struct occasion *occasion);

#endif
