/* The table of built-in units, and the names that could mean more than one. */
#include "unit/unit.h"

#include <string.h>

/* The fractions must be in lowest terms, because unit_factor returns them as numbers.
 *
 * Sources, each of which gives the definition exactly: [SI] the International System of Units (NIST
 * Special Publication 330) [811] NIST Special Publication 811, Guide for the Use of the SI [Y&P]
 * the international yard and pound agreement of 1959: 1 yd = 0.9144 m, 1 lb = 453.59237 g [UK] the
 * Units of Measurement Regulations 1995 and the Weights and Measures Act 1985: 1 gallon = 4.54609 l
 * [PS20] the American Softwood Lumber Standard [Cal] the Gregorian calendar: 97 leap years in 400
 * years The names of the sources are from memory; tests/published/units_test.c compares every row
 * with the definitions of GNU units. */
static const struct unit units[] = {
    {"s", DIM_TIME, 1, false, 1, 1},                    /* [SI] */
    {"min", DIM_TIME, 1, false, 60, 1},                 /* [811] 60 s */
    {"h", DIM_TIME, 1, false, 3600, 1},                 /* [811] 60 min */
    {"day", DIM_TIME, 1, false, 86400, 1},              /* [811] 24 h */
    {"week", DIM_TIME, 1, false, 604800, 1},            /* common practice: 7 days */
    {"month", DIM_TIME, 1, false, 2629746, 1},          /* ours: a twelfth of a year */
    {"year", DIM_TIME, 1, false, 31556952, 1},          /* [Cal] 365.2425 days */
    {"mm", DIM_LENGTH, 1, false, 1, 1},                 /* [SI] */
    {"cm", DIM_LENGTH, 1, false, 10, 1},                /* [SI] */
    {"m", DIM_LENGTH, 1, false, 1000, 1},               /* [SI] */
    {"in", DIM_LENGTH, 1, false, 127, 5},               /* [Y&P] a twelfth of a foot: 25.4 mm */
    {"ft", DIM_LENGTH, 1, false, 1524, 5},              /* [Y&P] a third of a yard: 304.8 mm */
    {"yd", DIM_LENGTH, 1, false, 4572, 5},              /* [Y&P] 914.4 mm */
    {"sqin", DIM_LENGTH, 2, false, 16129, 25},          /* [811] 25.4 squared: 645.16 mm^2 */
    {"sqft", DIM_LENGTH, 2, false, 2322576, 25},        /* [811] 144 sqin */
    {"sqyd", DIM_LENGTH, 2, false, 20903184, 25},       /* [811] 9 sqft */
    {"sqcm", DIM_LENGTH, 2, false, 100, 1},             /* [SI] */
    {"sqm", DIM_LENGTH, 2, false, 1000000, 1},          /* [SI] */
    {"bf", DIM_LENGTH, 3, false, 294967152, 125},       /* [PS20] 144 cubic inches */
    {"ml", DIM_LENGTH, 3, false, 1000, 1},              /* [SI] */
    {"cl", DIM_LENGTH, 3, false, 10000, 1},             /* [SI] */
    {"l", DIM_LENGTH, 3, false, 1000000, 1},            /* [SI] a cubic decimetre */
    {"usfloz", DIM_LENGTH, 3, false, 473176473, 16000}, /* [811] a 128th of a usgal */
    {"uspint", DIM_LENGTH, 3, false, 473176473, 1000},  /* [811] an eighth of a usgal */
    {"usgal", DIM_LENGTH, 3, false, 473176473, 125},    /* [811] 231 cubic inches */
    {"ukfloz", DIM_LENGTH, 3, false, 454609, 16},       /* [UK] a 160th of a ukgal */
    {"ukpint", DIM_LENGTH, 3, false, 2273045, 4},       /* [UK] an eighth of a ukgal */
    {"ukgal", DIM_LENGTH, 3, false, 4546090, 1},        /* [UK] 4.54609 l */
    {"mg", DIM_MASS, 1, false, 1, 1000},                /* [SI] */
    {"g", DIM_MASS, 1, false, 1, 1},                    /* [SI] */
    {"kg", DIM_MASS, 1, false, 1000, 1},                /* [SI] */
    {"oz", DIM_MASS, 1, false, 45359237, 1600000},      /* [Y&P] a 16th of a lb */
    {"lb", DIM_MASS, 1, false, 45359237, 100000},       /* [Y&P] 453.59237 g */
    {"ozt", DIM_MASS, 1, false, 19439673, 625000},      /* [811] 480 grains, 7000 to the lb */
    {"ct", DIM_MASS, 1, false, 1, 5},                   /* [811] metric carat: 200 mg */
    {"Wh", DIM_ENERGY, 1, false, 1, 1},                 /* [811] 3600 J */
    {"kWh", DIM_ENERGY, 1, false, 1000, 1},             /* [811] */
    {"W", DIM_ENERGY, 1, true, 1, 3600},                /* [SI] a joule each second */
    {"kW", DIM_ENERGY, 1, true, 5, 18},                 /* [SI] */
    {"each", DIM_MOST, 1, false, 1, 1},                 /* common practice, no source */
    {"pair", DIM_MOST, 1, false, 2, 1},                 /* common practice, no source */
    {"dozen", DIM_MOST, 1, false, 12, 1},               /* common practice, no source */
};

static bool same_name(const char *known, const char *name, size_t length)
{
    return strlen(known) == length && memcmp(known, name, length) == 0;
}

const struct unit *unit_find(const char *name, size_t length)
{
    for (size_t i = 0; i < sizeof units / sizeof units[0]; i++) {
        if (same_name(units[i].name, name, length)) {
            return &units[i];
        }
    }
    return NULL;
}

const struct unit *unit_table(size_t *count)
{
    *count = sizeof units / sizeof units[0];
    return units;
}

struct dimension unit_dimension(const struct unit *unit)
{
    if (unit->base == DIM_MOST) {
        return dim_none();
    }
    struct dimension result = dim_base_power(unit->base, unit->power);
    if (unit->per_time) {
        result.power[DIM_TIME] = -1;
    }
    return result;
}

struct num unit_factor(const struct unit *unit)
{
    return (struct num){.top = unit->top, .bottom = unit->bottom};
}

/* If a built-in unit has one of the meanings, the choices name it; otherwise they are definitions
 * to choose from. */
static const struct {
    const char *name;
    const char *question;
} ambiguous[] = {
    {"gal", "usgal or ukgal"},
    {"gallon", "usgal or ukgal"},
    {"gallons", "usgal or ukgal"},
    {"floz", "usfloz or ukfloz"},
    {"pint", "uspint or ukpint"},
    {"pints", "uspint or ukpint"},
    {"pt", "uspint or ukpint"},
    {"qt", "unit qt = 2 uspint or unit qt = 2 ukpint"},
    {"quart", "unit quart = 2 uspint or unit quart = 2 ukpint"},
    {"gill", "unit gill = 4 usfloz or unit gill = 5 ukfloz"},
    {"cup", "unit cup = 8 usfloz or unit cup = 250 ml"},
    {"tbsp", "unit tbsp = 15 ml or unit tbsp = 20 ml"},
    {"ton", "unit ton = 2000 lb, unit ton = 2240 lb or unit ton = 1000 kg"},
    {"tons", "unit tons = 2000 lb, unit tons = 2240 lb or unit tons = 1000 kg"},
    {"cwt", "unit cwt = 100 lb or unit cwt = 112 lb"},
};

const char *unit_ambiguous(const char *name, size_t length)
{
    for (size_t i = 0; i < sizeof ambiguous / sizeof ambiguous[0]; i++) {
        if (same_name(ambiguous[i].name, name, length)) {
            return ambiguous[i].question;
        }
    }
    return NULL;
}
