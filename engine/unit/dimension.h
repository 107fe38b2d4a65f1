/* Dimensions: what a value measures, as whole powers of a few base dimensions. */
#ifndef GROAT_DIMENSION_H
#define GROAT_DIMENSION_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* The base measures. A bare `unit NAME` takes the next free one from DIM_DECLARED on. Area and
 * volume are powers of length; power (watts) is energy per time. */
enum {
    DIM_MONEY,
    DIM_TIME,
    DIM_LENGTH,
    DIM_MASS,
    DIM_ENERGY,
    DIM_DECLARED,
    DIM_MOST = 40,     /* so rules may declare 35 of their own */
    DIM_POWER_MOST = 9 /* beyond this a product of units is an error */
};

struct dimension {
    int8_t power[DIM_MOST];
};

struct dimension dim_none(void);
struct dimension dim_base(unsigned base);
struct dimension dim_base_power(unsigned base, int power);
bool dim_equal(struct dimension a, struct dimension b);
bool dim_is_none(struct dimension a);
bool dim_is_money(struct dimension a); /* money to the first power and nothing else */
/* False if a power would be beyond DIM_POWER_MOST; `*out` is then unchanged. */
bool dim_multiply(struct dimension a, struct dimension b, struct dimension *out);
bool dim_divide(struct dimension a, struct dimension b, struct dimension *out);

/* The dimension in the words of the trade: "money", "money per volume", "area", "a plain number",
 * "sheet per time", "length to the power 4". `names` holds the names of the declared dimensions, in
 * the order of their numbers. Follows snprintf. */
size_t dim_describe(struct dimension a, const char *const *names, size_t names_count, char *buffer,
                    size_t size);

#endif
