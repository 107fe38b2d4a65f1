/* Adding, subtracting, multiplying and comparing runs of limbs. */
#include "number/limbs.h"

#include <assert.h>
#include <string.h>

struct limbs limbs_trim(const uint64_t *at, size_t count)
{
    while (count > 0 && at[count - 1] == 0)
        count--;
    return (struct limbs){at, count};
}

struct limbs limbs_copy(struct limbs a, uint64_t *room)
{
    memmove(room, a.at, a.count * sizeof *room);
    return (struct limbs){room, a.count};
}

size_t limbs_bits(struct limbs a)
{
    assert(limbs_are_sound(a) && a.count > 0);
    return a.count * LIMB_BITS - (size_t)__builtin_clzll(a.at[a.count - 1]);
}

int limbs_compare(struct limbs a, struct limbs b)
{
    assert(limbs_are_sound(a) && limbs_are_sound(b));
    if (a.count != b.count)
        return a.count < b.count ? -1 : 1;
    for (size_t i = a.count; i-- > 0;)
        if (a.at[i] != b.at[i])
            return a.at[i] < b.at[i] ? -1 : 1;
    return 0;
}

struct limbs limbs_add(struct limbs a, struct limbs b, uint64_t *room)
{
    struct limbs longer = a.count >= b.count ? a : b;
    struct limbs shorter = a.count >= b.count ? b : a;
    uint64_t carry = 0;
    for (size_t i = 0; i < longer.count; i++) {
        limb_pair sum = (limb_pair)longer.at[i] + carry;
        if (i < shorter.count)
            sum += shorter.at[i];
        room[i] = (uint64_t)sum;
        carry = (uint64_t)(sum >> LIMB_BITS);
    }
    room[longer.count] = carry;
    return limbs_trim(room, longer.count + 1);
}

struct limbs limbs_subtract(struct limbs a, struct limbs b, uint64_t *room)
{
    uint64_t borrow = 0;
    for (size_t i = 0; i < a.count; i++) {
        limb_pair less = (limb_pair)borrow + (i < b.count ? b.at[i] : 0);
        limb_pair difference = (limb_pair)a.at[i] - less;
        room[i] = (uint64_t)difference;
        borrow = (uint64_t)(difference >> LIMB_BITS) & 1;
    }
    assert(borrow == 0 && a.count >= b.count); /* otherwise `a` was below `b` */
    return limbs_trim(room, a.count);
}

struct limbs limbs_multiply(struct limbs a, struct limbs b, uint64_t *room)
{
    assert(room != a.at && room != b.at);
    memset(room, 0, (a.count + b.count) * sizeof *room);
    for (size_t i = 0; i < a.count; i++) {
        uint64_t carry = 0;
        for (size_t j = 0; j < b.count; j++) {
            limb_pair term = (limb_pair)a.at[i] * b.at[j] + room[i + j] + carry;
            room[i + j] = (uint64_t)term;
            carry = (uint64_t)(term >> LIMB_BITS);
        }
        room[i + b.count] = carry;
    }
    return limbs_trim(room, a.count + b.count);
}

size_t limbs_scale(uint64_t *room, size_t count, uint64_t factor, uint64_t more)
{
    uint64_t carry = more;
    for (size_t i = 0; i < count; i++) {
        limb_pair term = (limb_pair)room[i] * factor + carry;
        room[i] = (uint64_t)term;
        carry = (uint64_t)(term >> LIMB_BITS);
    }
    room[count] = carry;
    return limbs_trim(room, count + 1).count;
}
