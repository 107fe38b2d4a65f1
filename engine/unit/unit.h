/* The built-in units, each exact by definition. */
#ifndef GROAT_UNIT_H
#define GROAT_UNIT_H

#include "number/number.h"
#include "unit/dimension.h"

/* One of this unit is top/bottom base units. The base units are the second, the millimetre (and its
 * powers), the gram, the watt-hour, and one. Watts are watt-hours per second, so 1 W is 1/3600. */
struct unit {
    const char *name;
    uint8_t base; /* a DIM_ number; DIM_MOST for counts (each, pair, dozen) */
    int8_t power;
    bool per_time; /* also divided by time: W, kW */
    int64_t top;
    int64_t bottom;
};

/* The unit with that name, or NULL. */
const struct unit *unit_find(const char *name, size_t length);
/* All of them, in the order of the reference; for listings and near names. */
const struct unit *unit_table(size_t *count);
struct dimension unit_dimension(const struct unit *unit);
struct num unit_factor(const struct unit *unit);

/* For a name that could mean more than one unit (`gal`, `floz`, `pint`, `ton`): the choices to
 * offer the writer, such as "usgal or ukgal". NULL for other names. */
const char *unit_ambiguous(const char *name, size_t length);

#endif
