#include "number/amount.h"

void amounts_open(struct amounts *room)
{
    room->memory = memory_standard();
    num_heap_open(&room->heap, &room->memory, NUM_BITS_DEFAULT);
}

void amounts_close(struct amounts *room)
{
    num_heap_close(&room->heap);
}

void amounts_forget(struct amounts *room)
{
    num_heap_rewind(&room->heap, (struct num_mark){NULL, 0});
    room->heap.starved = false;
}

bool amounts_starved(const struct amounts *room)
{
    return room->heap.starved;
}

/* ---- making amounts ---- */

/* Makes an amount of the result of an operation. Division by zero gives an absent amount but is not
 * a failure. */
static struct amount outcome(enum num_status status, struct num number)
{
    if (status == NUM_OK)
        return (struct amount){.there = true, .number = number};
    bool failed = status == NUM_TOO_LARGE || status == NUM_NO_MEMORY;
    return (struct amount){.status = failed ? status : NUM_OK};
}

struct amount amount_of(struct num number)
{
    return outcome(NUM_OK, number);
}

struct amount amount_whole(int64_t whole)
{
    return amount_of(num_whole(whole));
}

/* A fraction of two machine words is small, so no room is needed. */
struct amount amount_ratio(int64_t top, int64_t bottom)
{
    struct num number = num_whole(0);
    return outcome(num_fraction(NULL, top, bottom, &number), number);
}

static int64_t power_of_ten(unsigned exponent)
{
    int64_t power = 1;
    while (exponent-- > 0)
        power *= 10;
    return power;
}

struct amount amount_of_coins(int64_t coins, unsigned decimals)
{
    return amount_ratio(coins, power_of_ten(decimals));
}

struct amount amount_read(struct amounts *room, const char *digits, size_t length)
{
    struct num number = num_whole(0);
    bool negative = length > 0 && digits[0] == '-';
    enum num_status status =
        num_read_decimal(&room->heap, digits + negative, length - negative, &number);
    if (status == NUM_OK && negative)
        status = num_negate(&room->heap, number, &number);
    return outcome(status, number);
}

struct amount amount_copy(struct amounts *room, struct amount amount)
{
    struct num number = num_whole(0);
    return amount.there ? outcome(num_copy(&room->heap, amount.number, &number), number) : amount;
}

/* ---- arithmetic ---- */

static struct amount combine(struct amounts *room, num_operation *operate, struct amount a,
                             struct amount b)
{
    struct num number = num_whole(0);
    if (a.there && b.there)
        return outcome(operate(&room->heap, a.number, b.number, &number), number);
    return (struct amount){.status = a.status != NUM_OK ? a.status : b.status};
}

struct amount amount_add(struct amounts *room, struct amount a, struct amount b)
{
    return combine(room, num_add, a, b);
}

struct amount amount_subtract(struct amounts *room, struct amount a, struct amount b)
{
    return combine(room, num_subtract, a, b);
}

struct amount amount_multiply(struct amounts *room, struct amount a, struct amount b)
{
    return combine(room, num_multiply, a, b);
}

struct amount amount_divide(struct amounts *room, struct amount a, struct amount b)
{
    return combine(room, num_divide, a, b);
}

struct amount amount_times(struct amounts *room, struct amount amount, int64_t whole)
{
    return amount_multiply(room, amount, amount_whole(whole));
}

struct amount amount_size(struct amounts *room, struct amount amount)
{
    return amount_sign(amount) < 0 ? amount_times(room, amount, -1) : amount;
}

struct amount amount_round(struct amounts *room, struct amount amount, enum num_rounding rounding)
{
    struct num number = num_whole(0);
    if (!amount.there)
        return amount;
    return outcome(num_round(&room->heap, amount.number, rounding, &number), number);
}

struct amount amount_round_places(struct amounts *room, struct amount amount, unsigned places)
{
    struct amount scaled = amount_times(room, amount, power_of_ten(places));
    return amount_divide(room, amount_round(room, scaled, NUM_NEAREST),
                         amount_whole(power_of_ten(places)));
}

/* ---- comparing ---- */

static struct num number_of(struct amount amount)
{
    return amount.there ? amount.number : num_whole(0);
}

int amount_compare(struct amount a, struct amount b)
{
    return num_compare(number_of(a), number_of(b));
}

int amount_sign(struct amount amount)
{
    return num_sign(number_of(amount));
}

bool amount_is_whole_number(struct amount amount, int64_t whole)
{
    return amount.there && num_equal(amount.number, num_whole(whole));
}

bool amount_decimals(struct amount amount, unsigned *decimals)
{
    return amount.there && num_decimals(amount.number, decimals);
}

double amount_double(struct amount amount)
{
    struct num number = number_of(amount);
    double low, high;
    if (number.bottom > 0)
        return (double)number.top / (double)number.bottom;
    num_bounds(number, &low, &high);
    return low + (high - low) / 2;
}

/* ---- texts ---- */

static size_t empty(char *buffer, size_t size)
{
    if (size > 0)
        buffer[0] = '\0';
    return 0;
}

size_t amount_places(struct amount amount, unsigned places, char mark, char *buffer, size_t size)
{
    return amount.there ? num_write_places(amount.number, places, mark, buffer, size)
                        : empty(buffer, size);
}

size_t amount_short(struct amount amount, unsigned places, char mark, char *buffer, size_t size)
{
    return amount.there ? num_write_short(amount.number, places, mark, buffer, size)
                        : empty(buffer, size);
}

size_t amount_top(struct amount amount, char *buffer, size_t size)
{
    return amount.there ? num_write_top(amount.number, buffer, size) : empty(buffer, size);
}

size_t amount_bottom(struct amount amount, char *buffer, size_t size)
{
    return amount.there ? num_write_bottom(amount.number, buffer, size) : empty(buffer, size);
}
