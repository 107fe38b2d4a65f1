/* Bounds of a number in the machine's own floating point. They never become a value: they are only
 * used to find out what is certain. */
#include <assert.h>
#include <float.h>
#include <math.h>

#include "number/large.h"

/* Two roundings of the operands and one of the quotient, each at most 2^-53 of it; the lower limbs
 * add far less than that. */
static const double RELATIVE_ERROR = 0x1p-50;

/* limbs = mantissa * 2^exponent. The mantissa is correctly rounded except for the limbs left
 * out. */
static double mantissa_of(struct limbs a, int *exponent)
{
    *exponent = 0;
    if (a.count == 0)
        return 0;
    double mantissa = (double)a.at[a.count - 1];
    if (a.count > 1)
        mantissa += (double)a.at[a.count - 2] * 0x1p-64;
    *exponent = (int)(a.count - 1) * LIMB_BITS;
    return mantissa;
}

static void large_bounds(struct num number, double *low, double *high)
{
    struct num_parts parts;
    num_take_apart(number, &parts);
    int top_exponent, bottom_exponent;
    double top = mantissa_of(parts.top, &top_exponent);
    double bottom = mantissa_of(parts.bottom, &bottom_exponent);
    double size = ldexp(top / bottom, top_exponent - bottom_exponent);
    double least = size * (1 - RELATIVE_ERROR), most = size * (1 + RELATIVE_ERROR);
    if (size < DBL_MIN) { /* where a double has fewer significant bits, or none */
        least = 0;
        most = 2 * DBL_MIN;
    }
    if (!(most < DBL_MAX)) {
        least = DBL_MAX / 2;
        most = INFINITY;
    }
    assert(least <= most);
    *low = parts.negative ? -most : least;
    *high = parts.negative ? -least : most;
}

void num_bounds(struct num number, double *low, double *high)
{
    enum { EXACT_BITS = 53 };
    if (number.bottom == 0) {
        large_bounds(number, low, high);
        return;
    }
    double value = (double)number.top / (double)number.bottom;
    bool exact = number.bottom == 1 && number.top < (int64_t)1 << EXACT_BITS &&
                 number.top > -((int64_t)1 << EXACT_BITS);
    double error = exact ? 0 : fabs(value) * RELATIVE_ERROR;
    *low = value - error;
    *high = value + error;
}
