/* Amounts: numbers that may be absent, for calculations that go on after a failure.
 *
 * A result is absent if an operand is absent. A result is also absent, with the reason in `status`,
 * if it has more digits than the limit allows or if memory runs out; results calculated from it
 * keep that status. Amounts are passed by value and need no closing: the digits of a large amount
 * belong to the room that it was made in. */
#ifndef GROAT_NUMBER_AMOUNT_H
#define GROAT_NUMBER_AMOUNT_H

#include "number/number.h"

struct amount {
    bool there;
    enum num_status status; /* if absent: NUM_OK, NUM_TOO_LARGE or NUM_NO_MEMORY */
    struct num number;      /* valid if `there` */
};

/* The room that holds large amounts. It uses the C library's memory without a limit. It belongs to
 * one thread, and the struct must not be moved while it is open. */
struct amounts {
    struct memory memory;
    struct num_heap heap;
};

void amounts_open(struct amounts *room);
void amounts_close(struct amounts *room);
/* Whether an amount found no memory since the room was opened, or last emptied. */
bool amounts_starved(const struct amounts *room);
/* Forgets every amount made in the room; keeps the memory for reuse. */
void amounts_forget(struct amounts *room);

struct amount amount_of(struct num number);
struct amount amount_whole(int64_t whole); /* not INT64_MIN */
/* top / bottom. Neither may be INT64_MIN. Absent if the bottom is zero. */
struct amount amount_ratio(int64_t top, int64_t bottom);
/* `coins` smallest units of 10^-decimals each; `decimals` is at most 18. */
struct amount amount_of_coins(int64_t coins, unsigned decimals);
/* Reads a whole number in decimal digits, with or without a minus sign; absent if the text is not a
 * whole number. */
struct amount amount_read(struct amounts *room, const char *digits, size_t length);
/* The same amount in another room. */
struct amount amount_copy(struct amounts *room, struct amount amount);

struct amount amount_add(struct amounts *room, struct amount a, struct amount b);
struct amount amount_subtract(struct amounts *room, struct amount a, struct amount b);
struct amount amount_multiply(struct amounts *room, struct amount a, struct amount b);
/* Absent if b is zero. */
struct amount amount_divide(struct amounts *room, struct amount a, struct amount b);
struct amount amount_times(struct amounts *room, struct amount amount, int64_t whole);
/* The amount without its sign. */
struct amount amount_size(struct amounts *room, struct amount amount);
/* Rounds to a whole number. */
struct amount amount_round(struct amounts *room, struct amount amount, enum num_rounding rounding);
/* Rounds to `places` decimals (at most 18), ties away from zero. */
struct amount amount_round_places(struct amounts *room, struct amount amount, unsigned places);

/* Below, at or above zero. An absent amount counts as zero. */
int amount_compare(struct amount a, struct amount b);
int amount_sign(struct amount amount);
bool amount_is_whole_number(struct amount amount, int64_t whole);
/* How many decimals the amount has. False if it is absent, if no number of decimals writes it
 * exactly, or if its denominator has more than 64 bits. */
bool amount_decimals(struct amount amount, unsigned *decimals);
/* A double close to the amount, for drawing only. */
double amount_double(struct amount amount);

/* Writers follow snprintf. An absent amount is written as an empty text. `mark` is the decimal
 * mark. */
/* With exactly `places` decimals, ties away from zero. */
size_t amount_places(struct amount amount, unsigned places, char mark, char *buffer, size_t size);
/* With at most `places` decimals, without trailing zeros. */
size_t amount_short(struct amount amount, unsigned places, char mark, char *buffer, size_t size);
size_t amount_top(struct amount amount, char *buffer, size_t size);
size_t amount_bottom(struct amount amount, char *buffer, size_t size);

#endif
