#include "amount/amount.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

bool amount_is_kind(groat_kind kind)
{
    return kind == GROAT_KIND_NUMBER || kind == GROAT_KIND_MONEY || kind == GROAT_KIND_QUANTITY;
}

void amount_open(struct amount *amount)
{
    amount->there = false;
    mpq_init(amount->number);
}

void amount_close(struct amount *amount)
{
    mpq_clear(amount->number);
}

/* ---- from the library ---- */

typedef size_t writer(groat_value value, char *buffer, size_t size);

/* What most amounts take, so that they need no room of their own. */
enum { SHORT_TEXT = 128 };

static bool take_part(mpz_t part, writer *write, groat_value value)
{
    char text[SHORT_TEXT];
    size_t length = write(value, text, sizeof text);
    if (length < sizeof text)
        return mpz_set_str(part, text, 10) == 0;
    char *long_text = malloc(length + 1);
    if (!long_text)
        return false;
    write(value, long_text, length + 1);
    bool read = mpz_set_str(part, long_text, 10) == 0;
    free(long_text);
    return read;
}

void amount_take(struct amount *amount, groat_value value)
{
    amount->there = value.presence == GROAT_THERE &&
                    take_part(mpq_numref(amount->number), groat_value_top, value) &&
                    take_part(mpq_denref(amount->number), groat_value_bottom, value);
    if (!amount->there)
        mpq_set_ui(amount->number, 0, 1);
}

void amount_copy(struct amount *amount, const struct amount *other)
{
    amount->there = other->there;
    mpq_set(amount->number, other->number);
}

void amount_of_coins(struct amount *amount, int64_t coins, unsigned decimals)
{
    char text[32];
    snprintf(text, sizeof text, "%lld", (long long)coins);
    mpz_set_str(mpq_numref(amount->number), text, 10);
    mpz_ui_pow_ui(mpq_denref(amount->number), 10, decimals);
    mpq_canonicalize(amount->number);
    amount->there = true;
}

/* ---- arithmetic ---- */

void amount_subtract(struct amount *amount, const struct amount *a, const struct amount *b)
{
    amount->there = a->there && b->there;
    if (amount->there)
        mpq_sub(amount->number, a->number, b->number);
}

void amount_divide(struct amount *amount, const struct amount *a, const struct amount *b)
{
    amount->there = a->there && b->there && mpq_sgn(b->number) != 0;
    if (amount->there)
        mpq_div(amount->number, a->number, b->number);
}

void amount_times(struct amount *amount, const struct amount *a, unsigned long whole)
{
    amount_copy(amount, a);
    mpz_mul_ui(mpq_numref(amount->number), mpq_numref(amount->number), whole);
    mpq_canonicalize(amount->number);
}

void amount_round_up(struct amount *amount)
{
    mpz_cdiv_q(mpq_numref(amount->number), mpq_numref(amount->number), mpq_denref(amount->number));
    mpz_set_ui(mpq_denref(amount->number), 1);
}

/* (2 top ± bottom) / 2 bottom, cut off towards zero. */
void amount_round_ratio(mpz_t out, const mpz_t top, const mpz_t bottom)
{
    mpz_t twice;
    bool negative = mpz_sgn(top) < 0;
    mpz_init(twice);
    mpz_mul_2exp(out, top, 1);
    if (negative)
        mpz_sub(out, out, bottom);
    else
        mpz_add(out, out, bottom);
    mpz_mul_2exp(twice, bottom, 1);
    mpz_tdiv_q(out, out, twice);
    mpz_clear(twice);
}

/* ---- texts ---- */

static size_t hand_out(char *text, char *buffer, size_t size)
{
    if (!text)
        return 0;
    size_t length = (size_t)snprintf(buffer, size, "%s", text);
    void (*release)(void *, size_t);
    mp_get_memory_functions(NULL, NULL, &release);
    release(text, strlen(text) + 1);
    return length;
}

/* The amount times 10 to `places`, rounded to a whole number, ties away from zero. */
static void scaled(mpz_t out, const mpq_t number, unsigned places)
{
    mpz_ui_pow_ui(out, 10, places);
    mpz_mul(out, out, mpq_numref(number));
    amount_round_ratio(out, out, mpq_denref(number));
}

/* The digits of a whole number with a decimal point before the last `places`. */
static char *with_point(const mpz_t whole, unsigned places)
{
    char *text;
    mpz_t left, right, power;
    mpz_inits(left, right, power, NULL);
    mpz_ui_pow_ui(power, 10, places);
    mpz_tdiv_qr(left, right, whole, power);
    mpz_abs(left, left);
    mpz_abs(right, right);
    const char *sign = mpz_sgn(whole) < 0 ? "-" : "";
    if (places > 0)
        gmp_asprintf(&text, "%s%Zd.%0*Zd", sign, left, (int)places, right);
    else
        gmp_asprintf(&text, "%s%Zd", sign, left);
    mpz_clears(left, right, power, NULL);
    return text;
}

static size_t write_decimals(const struct amount *amount, unsigned places, bool brief, char *buffer,
                             size_t size)
{
    mpz_t whole;
    if (!amount->there) {
        if (size > 0)
            buffer[0] = '\0';
        return 0;
    }
    mpz_init(whole);
    scaled(whole, amount->number, places);
    for (; brief && places > 0 && mpz_divisible_ui_p(whole, 10); places--)
        mpz_divexact_ui(whole, whole, 10);
    char *text = with_point(whole, places);
    mpz_clear(whole);
    return hand_out(text, buffer, size);
}

size_t amount_places(const struct amount *amount, unsigned places, char *buffer, size_t size)
{
    return write_decimals(amount, places, false, buffer, size);
}

size_t amount_short(const struct amount *amount, unsigned places, char *buffer, size_t size)
{
    return write_decimals(amount, places, true, buffer, size);
}

static size_t write_whole(const struct amount *amount, const mpz_t whole, char *buffer, size_t size)
{
    if (amount->there)
        return hand_out(mpz_get_str(NULL, 10, whole), buffer, size);
    if (size > 0)
        buffer[0] = '\0';
    return 0;
}

size_t amount_top(const struct amount *amount, char *buffer, size_t size)
{
    return write_whole(amount, mpq_numref(amount->number), buffer, size);
}

size_t amount_bottom(const struct amount *amount, char *buffer, size_t size)
{
    return write_whole(amount, mpq_denref(amount->number), buffer, size);
}
