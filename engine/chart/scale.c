#include "chart/scale.h"

#include <math.h>
#include <stdio.h>

#include "number/amount.h"

#define LARGEST 1e300
/* Numbers that lie closer together than this share of their size are drawn as one. */
#define CLOSEST 1e-9
#define SLACK 1e-9 /* of a step: a tick that rounding has moved by less is still on it */
#define DECIMALS_MOST 15
#define COINS_MOST 9e18 /* that a machine word holds */
#define DIGITS 6        /* of a place on an axis, at most */

bool scale_holds(double number)
{
    return isfinite(number) && fabs(number) <= LARGEST;
}

void scale_widen(const double *numbers, size_t count, double *least, double *most)
{
    for (size_t i = 0; i < count; i++) {
        if (scale_holds(numbers[i])) {
            *least = fmin(*least, numbers[i]);
            *most = fmax(*most, numbers[i]);
        }
    }
}

/* The least step of 1, 2 or 5 times a power of ten that is not below `least`. */
static double round_step(double least)
{
    static const double steps[] = {1, 2, 5, 10};
    double power = pow(10, floor(log10(least)));
    for (size_t i = 0; i < sizeof steps / sizeof *steps; i++)
        if (steps[i] * power >= least * (1 - SLACK))
            return steps[i] * power;
    return 10 * power;
}

static unsigned decimals_of(double step)
{
    double places = -floor(log10(step) + SLACK);
    if (places <= 0)
        return 0;
    return places > DECIMALS_MOST ? DECIMALS_MOST : (unsigned)places;
}

/* Ends that coincide are moved apart. */
static void spread(double *least, double *most)
{
    double size = fmax(fabs(*least), fabs(*most));
    if (*most - *least > size * CLOSEST)
        return;
    double middle = *least, reach = size > 0 ? size / 10 : 1;
    *least = middle - reach;
    *most = middle + reach;
}

struct scale scale_around(double least, double most, unsigned wanted, double finest)
{
    spread(&least, &most);
    double step = (most - least) / (wanted > 1 ? wanted - 1 : 1);
    struct scale scale = {.step = round_step(fmax(step, finest))};
    scale.first = floor(least / scale.step + SLACK);
    double last = ceil(most / scale.step - SLACK);
    scale.count = (unsigned)(last - scale.first) + 1;
    scale.low = scale.first * scale.step;
    scale.high = last * scale.step;
    scale.decimals = decimals_of(scale.step);
    return scale;
}

struct scale scale_within(double least, double most, unsigned wanted)
{
    spread(&least, &most);
    struct scale scale = {.low = least, .high = most};
    scale.step = round_step((most - least) / (wanted > 1 ? wanted - 1 : 1));
    scale.first = ceil(least / scale.step - SLACK);
    double last = floor(most / scale.step + SLACK);
    scale.count = last >= scale.first ? (unsigned)(last - scale.first) + 1 : 0;
    scale.decimals = decimals_of(scale.step);
    return scale;
}

double scale_tick(const struct scale *scale, unsigned index)
{
    return (scale->first + index) * scale->step;
}

double scale_share(const struct scale *scale, double number)
{
    return (number - scale->low) / (scale->high - scale->low);
}

/* The number with so many decimals, as an amount; a number beyond these is a whole one. */
static struct amount amount_of_double(double number, unsigned *places)
{
    double coins = number * pow(10, *places);
    if (fabs(coins) < COINS_MOST)
        return amount_of_coins(llround(coins), *places);
    *places = 0;
    return fabs(number) < COINS_MOST ? amount_whole(llround(number)) : (struct amount){0};
}

size_t scale_number(double number, unsigned places, char mark, char *buffer, size_t size)
{
    struct amount amount = amount_of_double(number, &places);
    if (amount.there)
        return amount_places(amount, places, mark, buffer, size);
    int length = snprintf(buffer, size, "%.0f", number);
    return length < 0 ? 0 : (size_t)length;
}

/* The decimals of a scale's ticks: at least `decimals` if it needs any. */
static unsigned tick_places(const struct scale *scale, unsigned decimals)
{
    return scale->decimals > 0 && scale->decimals < decimals ? decimals : scale->decimals;
}

size_t scale_label(const struct scale *scale, unsigned index, unsigned decimals, char mark,
                   char *buffer, size_t size)
{
    return scale_number(scale_tick(scale, index), tick_places(scale, decimals), mark, buffer, size);
}

size_t scale_on_axis(const struct chart_axis *axis, double number, unsigned places, char mark,
                     char *buffer, size_t size)
{
    char text[64];
    scale_number(number, places, mark, text, sizeof text);
    bool negative = text[0] == '-';
    int length = snprintf(buffer, size, "%s%.16s%.40s%.16s", negative ? "-" : "", axis->before,
                          text + negative, axis->after);
    return length < 0 ? 0 : (size_t)length;
}

size_t scale_tick_on_axis(const struct chart_axis *axis, const struct scale *scale, unsigned index,
                          char mark, char *buffer, size_t size)
{
    return scale_on_axis(axis, scale_tick(scale, index), tick_places(scale, axis->decimals), mark,
                         buffer, size);
}

unsigned scale_places(double number, unsigned decimals)
{
    double size = fabs(number);
    unsigned most = size < 1 ? DIGITS : DIGITS - 1 - (unsigned)fmin(log10(size), DIGITS - 1);
    unsigned places = 0;
    amount_decimals(amount_of_double(number, &most), &places);
    return places > 0 && places < decimals ? decimals : places;
}
