/* Amounts: numbers that may be absent, to be calculated with where nothing stops for a failure.
 *
 * What is calculated with an absent amount is absent. A result that has more digits than the limit
 * allows, or that finds no memory, is absent too and says why in `status`; so is what is calculated
 * with it. Amounts are passed by value and need no closing: the digits of a large one live in the
 * room that it was made in. */
#ifndef GROAT_NUMBER_AMOUNT_H
#define GROAT_NUMBER_AMOUNT_H

#include "number/number.h"

struct amount {
    bool there;
    enum num_status status; /* where it is not there: NUM_OK, NUM_TOO_LARGE or NUM_NO_MEMORY */
    struct num number;      /* where it is there */
};

/* Where large amounts live: the C library's memory, without a limit on how many. Belongs to one
 * thread, and stays where it is in memory while it is open. */
struct amounts {
    struct memory memory;
    struct num_heap heap;
};

void amounts_open(struct amounts *room);
void amounts_close(struct amounts *room);
/* Forgets every amount made in the room; keeps the memory for the next ones. */
void amounts_forget(struct amounts *room);

struct amount amount_of(struct num number);
struct amount amount_whole(int64_t whole); /* not INT64_MIN */
/* top / bottom, neither INT64_MIN; absent where the bottom is zero. */
struct amount amount_ratio(int64_t top, int64_t bottom);
/* `coins` of the smallest unit, which is 10 to the minus `decimals`; at most 18. */
struct amount amount_of_coins(int64_t coins, unsigned decimals);
/* A whole number as decimal digits, which may have a minus; absent where the text is none. */
struct amount amount_read(struct amounts *room, const char *digits, size_t length);
/* The same amount in another room. */
struct amount amount_copy(struct amounts *room, struct amount amount);

struct amount amount_add(struct amounts *room, struct amount a, struct amount b);
struct amount amount_subtract(struct amounts *room, struct amount a, struct amount b);
struct amount amount_multiply(struct amounts *room, struct amount a, struct amount b);
/* Absent where b is zero. */
struct amount amount_divide(struct amounts *room, struct amount a, struct amount b);
struct amount amount_times(struct amounts *room, struct amount amount, int64_t whole);
/* The amount without its sign. */
struct amount amount_size(struct amounts *room, struct amount amount);
/* The nearest whole number as the rounding says. */
struct amount amount_round(struct amounts *room, struct amount amount, enum num_rounding rounding);
/* The nearest one with so many decimals (at most 18), ties away from zero. */
struct amount amount_round_places(struct amounts *room, struct amount amount, unsigned places);

/* Below, at or above zero; what is absent counts as zero. */
int amount_compare(struct amount a, struct amount b);
int amount_sign(struct amount amount);
bool amount_is_whole_number(struct amount amount, int64_t whole);
/* A double beside it, for drawing. */
double amount_double(struct amount amount);

/* Writers follow snprintf; nothing where the amount is absent. */
/* With exactly `places` decimals, ties away from zero. */
size_t amount_places(struct amount amount, unsigned places, char *buffer, size_t size);
/* With at most `places`, closing zeros dropped. */
size_t amount_short(struct amount amount, unsigned places, char *buffer, size_t size);
size_t amount_top(struct amount amount, char *buffer, size_t size);
size_t amount_bottom(struct amount amount, char *buffer, size_t size);

#endif
