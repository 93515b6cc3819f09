/* amend_file.h - changes to a plan that were worked out: shown as a patch, or written. */
#ifndef BELL_CLI_AMEND_FILE_H
#define BELL_CLI_AMEND_FILE_H

#include "amend/attempt.h"

struct options;

/* Can what OPTIONS ask for be shown or written? Says so if not. */
bool amend_is_asked_well(const struct options *options);

/* Prints the change from the file to AMENDED, as `git apply` reads it. */
void amend_print_patch(const struct project *project, const struct amended *amended);

/* Writes the file, whole or not at all, and prints its name. Returns the exit status; what went wrong has been
 * reported. */
int amend_write(const struct project *project, const struct amended *amended);

/* Prints or writes, as OPTIONS ask, each file that ATTEMPT changes. */
int amend_hand_over(struct project *project, const struct options *options, const struct attempt *attempt);

#endif
