/* The built-in units, each exact by definition. */
#ifndef GROAT_UNIT_H
#define GROAT_UNIT_H

#include "number/number.h"
#include "unit/dimension.h"

/* One of the unit is top/bottom of the base: second, millimetre (and its powers), gram, watt-hour,
 * one. Watts are watt-hours per second, so 1 W is 1/3600. */
struct unit {
    const char *name;
    uint8_t base; /* a DIM_ number; DIM_MOST for counts (each, pair, dozen) */
    int8_t power;
    bool per_time; /* divided by time as well: W, kW */
    int64_t top;
    int64_t bottom;
};

/* The unit of that name, or NULL. */
const struct unit *unit_find(const char *name, size_t length);
/* All of them, in the order of the reference; for listings and near names. */
const struct unit *unit_table(size_t *count);
struct dimension unit_dimension(const struct unit *unit);
struct num unit_factor(const struct unit *unit);

/* Names that more than one unit could mean (`gal`, `floz`, `pint`, `ton`): the question to put to
 * the writer, such as "usgal or ukgal", or NULL. */
const char *unit_ambiguous(const char *name, size_t length);

#endif
