#include "chart/scale.h"

#include <math.h>
#include <stdio.h>

#define LARGEST 1e300
/* Numbers that lie closer together than this share of their size are drawn as one. */
#define CLOSEST 1e-9
#define SLACK 1e-9 /* of a step: a tick that rounding has moved by less is still on it */
#define DECIMALS_MOST 15

bool scale_holds(double number)
{
    return isfinite(number) && fabs(number) <= LARGEST;
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

size_t scale_label(const struct scale *scale, unsigned index, unsigned decimals, char *buffer,
                   size_t size)
{
    double tick = scale_tick(scale, index);
    unsigned places = scale->decimals;
    if (places > 0 && places < decimals)
        places = decimals;
    if (fabs(tick) < scale->step / 2)
        tick = 0; /* never a zero below zero */
    int length = snprintf(buffer, size, "%.*f", (int)places, tick);
    return length < 0 ? 0 : (size_t)length;
}
