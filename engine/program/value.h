/* A value while a record is priced: present, missing, or an error. Errors are values, so that an
 * error in a part that is not selected has no effect. */
#ifndef GROAT_VALUE_H
#define GROAT_VALUE_H

#include "number/number.h"

enum value_state { VALUE_MISSING, VALUE_THERE, VALUE_ERROR };

/* Why there is no value. */
enum fault {
    FAULT_NONE,
    FAULT_DIVIDED_BY_ZERO,
    FAULT_TOO_LARGE, /* a number beyond the limit */
    FAULT_NO_MEMORY,
    FAULT_NO_MARGIN,       /* the net price is zero or less, so there is no margin */
    FAULT_NO_ROW,          /* a table has no row for the key */
    FAULT_NEGATIVE_KEY,    /* of a sliced table */
    FAULT_SHARE,           /* a rate that must be below 100% is not */
    FAULT_DISCOUNT,        /* a discount outside 0% to below 100% */
    FAULT_REQUIRED,        /* a field that must be given is not */
    FAULT_NO_DATE,         /* as_of is used and not given */
    FAULT_GRID,            /* rounding to a step that is not above zero */
    FAULT_NOT_ABOVE_ZERO,  /* a set or pinned price is not above zero */
    FAULT_NOTHING_ALLOWED, /* no allowed price between floor and ceiling */
    FAULT_LADDER_ENDS,     /* the ladder has no price that high or that low */
    FAULT_NO_PRICE,        /* no price meets the aim */
    FAULT_TOO_MANY_TRIALS,
    FAULT_TOO_MANY_BENDS,
    FAULT_TOO_MANY_STEPS,
    FAULT_PRICE_TOO_LARGE
};

struct parts;

struct value {
    uint8_t state;   /* enum value_state */
    uint8_t fault;   /* enum fault, when in error */
    uint32_t origin; /* the step in which the error arose */
    union {
        struct num number; /* amounts in base units; flags 0 or 1; dates as days */
        struct {
            const char *start;
            size_t length;
        } text;
        const struct parts *parts;
    };
};

/* One entry of a parts cell: an amount of a material. */
struct part {
    uint32_t material; /* its place among the rates */
    bool as_mass;      /* given by mass where it is bought by volume */
    bool as_volume;    /* and the other way round */
    struct num amount;
};
struct parts {
    size_t count;
    struct part items[];
};

/* A range of values from `low` to `high`; calculations use `likely`. */
struct value_range {
    bool there;
    struct value low, likely, high;
};

static inline struct value value_missing(void)
{
    return (struct value){.state = VALUE_MISSING};
}

static inline struct value value_number(struct num number)
{
    return (struct value){.state = VALUE_THERE, .number = number};
}

static inline struct value value_flag(bool flag)
{
    return value_number(num_whole(flag));
}

static inline struct value value_error(enum fault fault, uint32_t origin)
{
    return (struct value){.state = VALUE_ERROR, .fault = (uint8_t)fault, .origin = origin};
}

static inline bool value_is_yes(struct value value)
{
    return value.state == VALUE_THERE && value.number.bottom && value.number.top;
}

#endif
