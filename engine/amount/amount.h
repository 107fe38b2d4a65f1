/* Exact amounts above the core: the library's values as fractions of GMP's, for whoever goes on
 * calculating with them. An amount may be absent, as a value may be missing.
 *
 * Arithmetic is GMP's own, on `number`; set `there` with it. */
#ifndef GROAT_AMOUNT_H
#define GROAT_AMOUNT_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include <gmp.h>

#include "groat.h"

struct amount {
    bool there;
    mpq_t number; /* in the value's unit: money in the currency, time in seconds */
};

/* Whether a value of the kind is an amount: a number, money, a quantity. */
bool amount_is_kind(groat_kind kind);

void amount_open(struct amount *amount); /* absent */
void amount_close(struct amount *amount);
/* Absent where the value is. */
void amount_take(struct amount *amount, groat_value value);
void amount_copy(struct amount *amount, const struct amount *other);
/* `coins` of the smallest unit, which is 10 to the minus `decimals`. */
void amount_of_coins(struct amount *amount, int64_t coins, unsigned decimals);

/* a - b; a / b. Absent where a side is, or b is zero. */
void amount_subtract(struct amount *amount, const struct amount *a, const struct amount *b);
void amount_divide(struct amount *amount, const struct amount *a, const struct amount *b);
/* a times a whole number; `amount` may be `a`. Absent where `a` is. */
void amount_times(struct amount *amount, const struct amount *a, unsigned long whole);
/* The least whole number that is not below it, as an amount. */
void amount_round_up(struct amount *amount);
/* top / bottom to the nearest whole number, ties away from zero. `bottom` is above zero; `out` may be
 * `top`. */
void amount_round_ratio(mpz_t out, const mpz_t top, const mpz_t bottom);

/* Writers follow snprintf; nothing where the amount is absent. */
/* With exactly `places` decimals, ties away from zero. */
size_t amount_places(const struct amount *amount, unsigned places, char *buffer, size_t size);
/* With at most `places`, closing zeros dropped. */
size_t amount_short(const struct amount *amount, unsigned places, char *buffer, size_t size);
size_t amount_top(const struct amount *amount, char *buffer, size_t size);
size_t amount_bottom(const struct amount *amount, char *buffer, size_t size);

#endif
