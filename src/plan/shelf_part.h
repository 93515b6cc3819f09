/* shelf_part.h - a plan reads of the shelf what it names: a plan of a few lines would else spend nine tenths of its time on
 * entries that it never mentions.
 *
 * What is read must mean the same as if all were. So the whole shelf is read where its bytes are not those that the index
 * was made from, and for plans that are compared with all of it (see asks_for_all). */
#ifndef BELL_PLAN_SHELF_PART_H
#define BELL_PLAN_SHELF_PART_H

#include <stdbool.h>
#include <stddef.h>

#include "plan/plan.h"
#include "source/diag.h"
#include "syntax/tree.h"

struct phrasebook;

/* The files of the shelf, which are the first of SOURCES and of TREES. */
struct shelf_part {
    struct sources *sources;
    struct tree **trees;
    size_t file_count, tree_count; /* trees: with those of the plan */
    const struct phrasebook *phrases;
    struct diag *diag;
    struct shelf_read again; /* what may be taken in place of reading it */
};

/* Are the bytes of the files those that the index was made from? */
bool shelf_is_indexed(const struct shelf_part *shelf);

/* Reads all of it, whatever was read before. */
void shelf_read_all(const struct shelf_part *shelf);

/* Reads what the plan's trees name, and what that names in turn. The entries that were read, which live as long as the
 * sources; NULL, with nothing read, where the plan asks for all. */
const bool *shelf_read_named(const struct shelf_part *shelf);

#endif
