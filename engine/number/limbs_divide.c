/* Dividing runs of limbs: by one limb with long division, by several with Knuth's algorithm D (The
 * Art of Computer Programming, volume 2, 4.3.1), whose step letters the comments name. */
#include "number/limbs.h"

#include <assert.h>
#include <string.h>

uint64_t limbs_divide_word(uint64_t *room, size_t count, uint64_t divisor)
{
    uint64_t rest = 0;
    assert(divisor > 0);
    for (size_t i = count; i-- > 0;) {
        limb_pair part = (limb_pair)rest << LIMB_BITS | room[i];
        room[i] = (uint64_t)(part / divisor);
        rest = (uint64_t)(part % divisor);
    }
    return rest;
}

/* Shifts left by less than one limb and returns the bits shifted out of the most significant
 * limb. */
static uint64_t shift_up(struct limbs a, unsigned shift, uint64_t *room)
{
    uint64_t carry = 0;
    for (size_t i = 0; i < a.count; i++) {
        limb_pair part = (limb_pair)a.at[i] << shift | carry;
        room[i] = (uint64_t)part;
        carry = (uint64_t)(part >> LIMB_BITS);
    }
    return carry;
}

static void shift_down(uint64_t *room, size_t count, unsigned shift)
{
    uint64_t carry = 0;
    for (size_t i = count; i-- > 0;) {
        limb_pair part = ((limb_pair)carry << LIMB_BITS | room[i]) >> shift;
        carry = room[i];
        room[i] = (uint64_t)part;
    }
}

/* D3: a digit of the quotient, too great by at most one. `top` holds the three most significant
 * limbs of the remainder so far, the most significant last; `first` and `second` are the two most
 * significant limbs of the divisor. */
static uint64_t guess_digit(const uint64_t top[3], uint64_t first, uint64_t second)
{
    limb_pair part = (limb_pair)top[2] << LIMB_BITS | top[1];
    limb_pair digit = part / first;
    limb_pair rest = part % first;
    while (digit >> LIMB_BITS != 0 || digit * second > (rest << LIMB_BITS | top[0])) {
        digit--;
        rest += first;
        if (rest >> LIMB_BITS != 0)
            break;
    }
    return (uint64_t)digit;
}

/* D4: subtracts digit * divisor from room[0 .. divisor.count]; true if the result would be
 * negative, and the room then lacks a borrow. */
static bool take_away(uint64_t *room, struct limbs divisor, uint64_t digit)
{
    uint64_t carry = 0;
    uint64_t borrow = 0;
    for (size_t i = 0; i < divisor.count; i++) {
        limb_pair product = (limb_pair)divisor.at[i] * digit + carry;
        carry = (uint64_t)(product >> LIMB_BITS);
        limb_pair left = (limb_pair)room[i] - (uint64_t)product - borrow;
        room[i] = (uint64_t)left;
        borrow = (uint64_t)(left >> LIMB_BITS) & 1;
    }
    limb_pair left = (limb_pair)room[divisor.count] - carry - borrow;
    room[divisor.count] = (uint64_t)left;
    return (left >> LIMB_BITS) != 0;
}

/* D6: adds the divisor back once; the carry out of the top limb cancels the borrow. */
static void give_back(uint64_t *room, struct limbs divisor)
{
    uint64_t carry = 0;
    for (size_t i = 0; i < divisor.count; i++) {
        limb_pair sum = (limb_pair)room[i] + divisor.at[i] + carry;
        room[i] = (uint64_t)sum;
        carry = (uint64_t)(sum >> LIMB_BITS);
    }
    room[divisor.count] += carry;
}

static struct limbs_quotient divide_long(struct limbs a, struct limbs b, uint64_t *quotient_room,
                                         uint64_t *rest_room)
{
    uint64_t divisor_room[LIMBS_WIDE];
    assert(b.count > 1 && b.count <= LIMBS_WIDE && a.count >= b.count);
    struct limbs divisor = {divisor_room, b.count};
    unsigned shift = (unsigned)__builtin_clzll(b.at[b.count - 1]);
    shift_up(b, shift, divisor_room);
    rest_room[a.count] = shift_up(a, shift, rest_room);

    size_t digits = a.count - b.count + 1;
    for (size_t i = digits; i-- > 0;) {
        uint64_t digit = guess_digit(rest_room + i + b.count - 2, divisor_room[b.count - 1],
                                     divisor_room[b.count - 2]);
        if (take_away(rest_room + i, divisor, digit)) {
            digit--;
            give_back(rest_room + i, divisor);
        }
        quotient_room[i] = digit;
    }
    assert(rest_room[b.count] == 0); /* the remainder is below the divisor */
    shift_down(rest_room, b.count, shift);
    return (struct limbs_quotient){limbs_trim(quotient_room, digits),
                                   limbs_trim(rest_room, b.count)};
}

struct limbs_quotient limbs_divide(struct limbs a, struct limbs b, uint64_t *quotient_room,
                                   uint64_t *rest_room)
{
    assert(b.count > 0);
    if (limbs_compare(a, b) < 0)
        return (struct limbs_quotient){{quotient_room, 0}, limbs_copy(a, rest_room)};
    if (b.count > 1)
        return divide_long(a, b, quotient_room, rest_room);
    uint64_t divisor = b.at[0];
    limbs_copy(a, quotient_room);
    rest_room[0] = limbs_divide_word(quotient_room, a.count, divisor);
    return (struct limbs_quotient){limbs_trim(quotient_room, a.count), limbs_trim(rest_room, 1)};
}

struct limbs limbs_divide_exactly(struct limbs a, struct limbs b, uint64_t *room)
{
    uint64_t rest_room[LIMBS_WIDE];
    if (b.count == 1 && b.at[0] == 1)
        return limbs_copy(a, room);
    assert(a.count < LIMBS_WIDE && b.count < LIMBS_WIDE);
    struct limbs_quotient quotient = limbs_divide(a, b, room, rest_room);
    assert(quotient.rest.count == 0);
    return quotient.quotient;
}
