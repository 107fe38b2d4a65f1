/* The currency that a text's amounts are to be in, and such texts. */
#ifndef GROAT_COMMAND_TENDER_H
#define GROAT_COMMAND_TENDER_H

#include <stdbool.h>

#include "listing/bytes.h"

struct tender {
    char code[4];
    const char *sign; /* as it is written beside an amount: the code where there is no other */
    int decimals;
};

/* Reads a currency's code of ISO 4217, in capitals or not. Returns false and says on standard error
 * what is wrong. */
bool tender_read(struct tender *tender, const char *word);

/* Appends a text of rules or of a sheet whose amounts are in dollars, `$4.20`, with the same
 * amounts in another currency, `4.20 kr`. Where a currency has no decimals, an amount stays the
 * same number of smallest units: $4.20 becomes ¥420. The endings of a ladder and `USD` are
 * rewritten too. */
void tender_write(const struct tender *tender, struct bytes *out, const char *text);

#endif
