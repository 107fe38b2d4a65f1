/* The built-in units against the definitions of GNU units.
 *
 * Source: GNU units (Debian package `units`), its definitions file. Without it these tests skip.
 *
 * How the comparison is exact: the program itself calculates with doubles (it prints a pound as
 * 453.59237000000002 g), but its definitions file is text, in which every unit used here comes down
 * to metre, kilogram and second by exact decimals and ratios (`pound  0.45359237 kg`, `ounce
 * 1|16 pound`). So we read that file, follow the definitions with GMP's fractions, and compare for
 * equality. That we read it rightly is checked in turn by asking the program, whose answer must
 * agree to a double's precision. */
#define _POSIX_C_SOURCE 200809L

#include <ctype.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>
#include <gmp.h>

#include "unit/unit.h"

/* What we call a unit, and what GNU units calls it. */

static const struct {
    const char *ours;
    const char *theirs;
} counterparts[] = {
    {"s", "s"},
    {"min", "min"},
    {"h", "hour"}, /* their `h` is Planck's constant */
    {"day", "day"},
    {"week", "week"},
    {"month", "1|12 gregorianyear"}, /* their `month` is a twelfth of a tropical year */
    {"year", "gregorianyear"},       /* their `year` is the tropical one */
    {"mm", "mm"},
    {"cm", "cm"},
    {"m", "m"},
    {"in", "in"},
    {"ft", "ft"},
    {"yd", "yd"},
    {"sqin", "in^2"},
    {"sqft", "ft^2"},
    {"sqyd", "yd^2"},
    {"sqcm", "cm^2"},
    {"sqm", "m^2"},
    {"bf", "boardfoot"},
    {"ml", "ml"},
    {"cl", "cl"},
    {"l", "l"},
    {"usfloz", "usfluidounce"}, /* their bare names follow the locale; these do not */
    {"uspint", "uspint"},
    {"usgal", "usgallon"},
    {"ukfloz", "brfluidounce"},
    {"ukpint", "brpint"},
    {"ukgal", "brgallon"},
    {"mg", "mg"},
    {"g", "g"},
    {"kg", "kg"},
    {"oz", "oz"},
    {"lb", "lb"},
    {"ozt", "troyounce"},
    {"ct", "metriccarat"},
    {"Wh", "Wh"},
    {"kWh", "kWh"},
    {"W", "W"},
    {"kW", "kW"},
    {"each", "1"}, /* a piece is one of a count: nothing to define */
    {"pair", "pair"},
    {"dozen", "dozen"},
};

enum { COUNTERPARTS = sizeof counterparts / sizeof counterparts[0] };

/* The base that a unit's factor refers to, in their names. */
static void write_base(const struct unit *unit, char *out, size_t size)
{
    static const char *const bases[DIM_DECLARED] = {
        [DIM_TIME] = "s",
        [DIM_LENGTH] = "mm",
        [DIM_MASS] = "g",
        [DIM_ENERGY] = "Wh",
    };
    if (unit->base == DIM_MOST) {
        snprintf(out, size, "1");
    } else {
        snprintf(out, size, "%s^%d%s", bases[unit->base], unit->power,
                 unit->per_time ? " / s" : "");
    }
}

/* The definitions file. */

static char *definitions; /* the whole file; NULL when GNU units is not installed */

/* The first line that a command prints, or an empty text. */
static void first_line(const char *command, char *out, size_t size)
{
    out[0] = '\0';
    FILE *pipe = popen(command, "r");
    if (pipe == NULL) {
        return;
    }
    if (fgets(out, (int)size, pipe) != NULL) {
        out[strcspn(out, "\n")] = '\0';
    }
    pclose(pipe);
}

static int read_definitions(void **state)
{
    (void)state;
    char path[4096];
    first_line("units --unitsfile 2>/dev/null", path, sizeof path);
    FILE *file = path[0] == '\0' ? NULL : fopen(path, "rb");
    if (file == NULL) {
        return 0;
    }
    enum { FILE_MOST = 1 << 22 };
    definitions = malloc(FILE_MOST);
    if (definitions != NULL) {
        definitions[fread(definitions, 1, FILE_MOST - 1, file)] = '\0';
    }
    fclose(file);
    return 0;
}

static int free_definitions(void **state)
{
    (void)state;
    free(definitions);
    return 0;
}

static void need_definitions(void)
{
    if (definitions == NULL) {
        print_message("GNU units is not installed (Debian package `units`)\n");
        skip();
    }
}

/* Copies the definition of `name` (a prefix's name ends in `-`) without its comment. Blocks that
 * hold only for some locale or system of units are passed over: no unit used here is in one. */
static bool find_definition(const char *name, size_t length, char *out, size_t size)
{
    bool in_block = false;
    const char *next;
    for (const char *line = definitions; *line != '\0'; line = next) {
        const char *end = line + strcspn(line, "\n");
        next = *end == '\n' ? end + 1 : end;
        if (line[0] == '!') {
            bool opens = strncmp(line, "!var", 4) == 0 || strncmp(line, "!locale", 7) == 0;
            bool closes = strncmp(line, "!end", 4) == 0;
            in_block = opens || (in_block && !closes);
        } else if (!in_block && strncmp(line, name, length) == 0 &&
                   (line[length] == ' ' || line[length] == '\t')) {
            const char *text = line + length + strspn(line + length, " \t");
            size_t text_length = strcspn(text, "#\n");
            assert_true(text_length < size);
            memcpy(out, text, text_length);
            out[text_length] = '\0';
            return true;
        }
    }
    return false;
}

/* Exact reading of definitions. */

enum { METRE, KILOGRAM, SECOND, PRIMITIVES };

/* An exact amount of metre^a kilogram^b second^c. */
struct amount {
    mpq_t value;
    int power[PRIMITIVES];
};

static void amount_open(struct amount *amount)
{
    mpq_init(amount->value);
    mpq_set_ui(amount->value, 1, 1);
    memset(amount->power, 0, sizeof amount->power);
}

static void amount_close(struct amount *amount)
{
    mpq_clear(amount->value);
}

/* Multiplies `amount` by `factor` to a whole power, which may be below zero. */
static void amount_apply(struct amount *amount, const struct amount *factor, int power)
{
    for (int i = 0; i < abs(power); i++) {
        if (power > 0) {
            mpq_mul(amount->value, amount->value, factor->value);
        } else {
            mpq_div(amount->value, amount->value, factor->value);
        }
    }
    for (int i = 0; i < PRIMITIVES; i++) {
        amount->power[i] += power * factor->power[i];
    }
}

static void read_expression(const char *text, struct amount *out);

/* `0.45359237`, `1e-3`, `1|16`: exact, since each digit is taken as it is written. */
static const char *read_number(const char *text, mpq_t out)
{
    char digits[64];
    size_t count = 0;
    long exponent = 0;
    bool after_point = false;
    for (; isdigit((unsigned char)*text) || *text == '.'; text++) {
        if (*text == '.') {
            after_point = true;
            continue;
        }
        assert_true(count + 1 < sizeof digits);
        digits[count++] = *text;
        exponent -= after_point;
    }
    digits[count] = '\0';
    if (*text == 'e') {
        char *end;
        exponent += strtol(text + 1, &end, 10);
        text = end;
    }
    mpq_set_str(out, digits, 10);
    mpz_t scale;
    mpz_init(scale);
    mpz_ui_pow_ui(scale, 10, (unsigned long)labs(exponent));
    mpz_mul(exponent < 0 ? mpq_denref(out) : mpq_numref(out),
            exponent < 0 ? mpq_denref(out) : mpq_numref(out), scale);
    mpz_clear(scale);
    mpq_canonicalize(out);
    if (*text == '|') {
        mpq_t divisor;
        mpq_init(divisor);
        text = read_number(text + 1, divisor);
        mpq_div(out, out, divisor);
        mpq_clear(divisor);
    }
    return text;
}

static bool read_primitive(const char *name, size_t length, struct amount *out)
{
    static const char *const primitives[PRIMITIVES] = {"m", "kg", "s"};
    for (int i = 0; i < PRIMITIVES; i++) {
        if (strlen(primitives[i]) == length && memcmp(primitives[i], name, length) == 0) {
            out->power[i]++;
            return true;
        }
    }
    return false;
}

/* Multiplies `out` by the amount of that name: a unit, a prefix alone, or the longest prefix and a
 * unit, in that order, as GNU units takes them. False when there is none. */
static bool read_name(const char *name, size_t length, struct amount *out)
{
    char definition[256];
    char prefix[64];
    if (read_primitive(name, length, out)) {
        return true;
    }
    if (find_definition(name, length, definition, sizeof definition)) {
        read_expression(definition, out);
        return true;
    }
    assert_true(length + 1 < sizeof prefix);
    for (size_t taken = length; taken > 0; taken--) {
        memcpy(prefix, name, taken);
        prefix[taken] = '-';
        if (find_definition(prefix, taken + 1, definition, sizeof definition)) {
            read_expression(definition, out);
            return taken == length || read_name(name + taken, length - taken, out);
        }
    }
    return false;
}

/* Multiplies `out` by a product such as `kg m / s^2`, in which a `/` divides by the one factor
 * after it. Fails the test at anything that this reader does not know: it never guesses. */
static void read_expression(const char *text, struct amount *out)
{
    int sign = 1;
    for (text += strspn(text, " \t"); *text != '\0'; text += strspn(text, " \t")) {
        struct amount factor;
        if (*text == '/') {
            sign = -1;
            text++;
            continue;
        }
        amount_open(&factor);
        if (isdigit((unsigned char)*text) || *text == '.') {
            text = read_number(text, factor.value);
        } else {
            size_t length = strspn(text, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ");
            if (!read_name(text, length, &factor)) {
                fail_msg("cannot read a definition of GNU units at: %s", text);
            }
            text += length;
        }
        int power = 1;
        if (*text == '^') {
            assert_true(isdigit((unsigned char)text[1]));
            power = text[1] - '0';
            text += 2;
        }
        amount_apply(out, &factor, sign * power);
        amount_close(&factor);
        sign = 1;
    }
}

/* How many of `base` one `theirs` is. */
static void read_ratio(const char *theirs, const char *base, struct amount *ratio)
{
    struct amount divisor;
    amount_open(&divisor);
    read_expression(theirs, ratio);
    read_expression(base, &divisor);
    amount_apply(ratio, &divisor, -1);
    amount_close(&divisor);
}

static const struct unit *our_unit(const char *name)
{
    const struct unit *unit = unit_find(name, strlen(name));
    if (unit == NULL) {
        fail_msg("%s is not a built-in unit", name);
    }
    return unit;
}

static bool equals_factor(const struct unit *unit, const mpq_t value)
{
    mpq_t factor;
    mpq_init(factor);
    struct num ours = unit_factor(unit);
    mpq_set_si(factor, (long)ours.top, (unsigned long)ours.bottom);
    bool equal = mpq_equal(factor, value) != 0;
    mpq_clear(factor);
    return equal;
}

static bool is_near(double a, double b, double distance)
{
    return a - b <= distance && b - a <= distance;
}

static void every_built_in_unit_has_a_counterpart_in_gnu_units(void **state)
{
    (void)state;
    size_t count = 0;
    const struct unit *table = unit_table(&count);
    assert_int_equal(count, COUNTERPARTS);
    for (size_t i = 0; i < count; i++) {
        assert_string_equal(table[i].name, counterparts[i].ours);
    }
}

static void every_built_in_unit_is_exactly_what_gnu_units_defines(void **state)
{
    (void)state;
    need_definitions();
    for (size_t i = 0; i < COUNTERPARTS; i++) {
        const struct unit *unit = our_unit(counterparts[i].ours);
        char base[32];
        struct amount ratio;
        amount_open(&ratio);
        write_base(unit, base, sizeof base);
        read_ratio(counterparts[i].theirs, base, &ratio);
        for (int p = 0; p < PRIMITIVES; p++) {
            if (ratio.power[p] != 0) {
                fail_msg("%s does not measure the same as %s", unit->name, base);
            }
        }
        if (!equals_factor(unit, ratio.value)) {
            char *text = mpq_get_str(NULL, 10, ratio.value);
            fail_msg("%s: GNU units defines %s %s", unit->name, text, base);
        }
        amount_close(&ratio);
    }
}

static void the_program_agrees_with_our_reading_of_its_definitions(void **state)
{
    (void)state;
    need_definitions();
    for (size_t i = 0; i < COUNTERPARTS; i++) {
        char base[32];
        char command[256];
        char answer[64];
        struct amount ratio;
        amount_open(&ratio);
        write_base(our_unit(counterparts[i].ours), base, sizeof base);
        read_ratio(counterparts[i].theirs, base, &ratio);
        snprintf(command, sizeof command, "LC_ALL=C units -1 -t -o %%.17g '%s' '%s'",
                 counterparts[i].theirs, base);
        first_line(command, answer, sizeof answer);
        double exact = mpq_get_d(ratio.value);
        /* A chain of some ten operations, each off by at most 2^-53 of its result. */
        if (!is_near(strtod(answer, NULL), exact, exact * 1e-14)) {
            fail_msg("%s answers %s; its definitions say %.17g", command, answer, exact);
        }
        amount_close(&ratio);
    }
}

static void our_year_is_the_calendars_where_gnu_units_takes_the_tropical_one(void **state)
{
    (void)state;
    need_definitions();
    struct amount tropical;
    amount_open(&tropical);
    read_expression("year", &tropical);
    assert_false(equals_factor(our_unit("year"), tropical.value));
    /* 365.242198781 days: some 26 seconds shorter. */
    assert_true(is_near(mpq_get_d(tropical.value), 31556952, 60));
    amount_close(&tropical);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_built_in_unit_has_a_counterpart_in_gnu_units),
        cmocka_unit_test(every_built_in_unit_is_exactly_what_gnu_units_defines),
        cmocka_unit_test(the_program_agrees_with_our_reading_of_its_definitions),
        cmocka_unit_test(our_year_is_the_calendars_where_gnu_units_takes_the_tropical_one),
    };
    return cmocka_run_group_tests_name("units against GNU units", tests, read_definitions,
                                       free_definitions);
}
