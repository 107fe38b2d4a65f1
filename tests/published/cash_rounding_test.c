/* Cash roundings as ladders, and where CLDR's decimals differ from ISO 4217's.
 *
 * Source: Unicode CLDR 48.2.0, npm package cldr-core, supplemental/currencyData.json. `make published`
 * fetches it; without it these tests skip. A cash rounding counts in units of the currency's CLDR
 * digits; 0 means that there is none. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include <yajl/yajl_tree.h>

#include "groat.h"
#include "unit/currency.h"

#define DATA_FILE "build/published/cldr-core/supplemental/currencyData.json"

static char text[1 << 20];
static yajl_val data;

static int read_data(void **state)
{
    (void)state;
    char why[200];
    FILE *file = fopen(DATA_FILE, "rb");
    if (!file)
        return 0;
    text[fread(text, 1, sizeof text - 1, file)] = '\0';
    fclose(file);
    data = yajl_tree_parse(text, why, sizeof why);
    return data ? 0 : -1;
}

static int free_data(void **state)
{
    (void)state;
    yajl_tree_free(data);
    return 0;
}

static yajl_val fractions(void)
{
    static const char *path[] = {"supplemental", "currencyData", "fractions", NULL};
    if (!data) {
        print_message("%s is not there; `make published` fetches it\n", DATA_FILE);
        skip();
        return NULL;
    }
    yajl_val found = yajl_tree_get(data, path, yajl_t_object);
    assert_non_null(found);
    return found;
}

static int number_in(yajl_val object, const char *name, int otherwise)
{
    const char *path[] = {name, NULL};
    yajl_val found = yajl_tree_get(object, path, yajl_t_string);
    return found ? atoi(found->u.string) : otherwise;
}

static int power_of_ten(int exponent)
{
    int power = 1;
    while (exponent-- > 0)
        power *= 10;
    return power;
}

/* ---- the engine's side ---- */

static groat_method *rules_for(const char *code, int step, int decimals)
{
    char rules[600];
    groat_report *report;
    int length = snprintf(rules, sizeof rules,
                          "currency %s\nproduct { amount money }\n"
                          "price { set amount; round nearest to %d.%0*d %s }\n",
                          code, step / power_of_ten(decimals), decimals,
                          step % power_of_ten(decimals), code);
    groat_method *method =
        groat_method_read("cash", (groat_text){rules, (size_t)length}, NULL, &report);
    assert_non_null(report);
    if (groat_report_count(report) > 0)
        print_message("%s: %s\n", code, groat_report_at(report, 0)->message);
    groat_report_free(report);
    assert_non_null(method);
    return method;
}

/* The price of an amount in smallest units, in smallest units. */
static int64_t price_of(groat_method *method, groat_scratch *scratch, int64_t amount,
                        int64_t units_in_one)
{
    int64_t price = 0;
    groat_number_column column = {groat_method_find_field(method, "amount"), &amount, units_in_one};
    groat_order order = {.channel = 0, .quantity = 1};
    groat_trouble trouble;
    assert_int_equal(
        groat_price_columns(scratch, method, &order, &column, 1, 1, &price, NULL, &trouble),
        GROAT_OK);
    return price;
}

/* By whole numbers alone: the nearest multiple, a tie to the dearer, never below the first. */
static int64_t nearest_multiple(int64_t amount, int64_t step)
{
    int64_t multiple = (amount + step / 2) / step * step;
    return multiple < step ? step : multiple;
}

static void every_cash_rounding_of_cldr_is_a_ladder(void **state)
{
    (void)state;
    yajl_val all = fractions();
    int checked = 0;
    for (size_t i = 0; i < YAJL_GET_OBJECT(all)->len; i++) {
        const char *code = YAJL_GET_OBJECT(all)->keys[i];
        yajl_val entry = YAJL_GET_OBJECT(all)->values[i];
        int rounding = number_in(entry, "_cashRounding", 0);
        int decimals = currency_decimals(code, strlen(code));
        if (rounding == 0 || decimals < 0)
            continue;
        int digits = number_in(entry, "_cashDigits", number_in(entry, "_digits", 2));
        int step = rounding * power_of_ten(decimals - digits);
        groat_method *method = rules_for(code, step, decimals);
        groat_scratch *scratch = groat_scratch_new(method);
        for (int64_t amount = 1; amount <= 2000; amount++)
            assert_int_equal(price_of(method, scratch, amount, power_of_ten(decimals)),
                             nearest_multiple(amount, step));
        groat_scratch_free(scratch);
        groat_method_free(method);
        checked++;
    }
    assert_true(checked >= 4); /* CAD 5, CHF 5, DKK 50, HUF 5 in 48.2.0 */
}

/* ISO stands. These are the codes for which CLDR gives other digits: those whose small coins are no
 * longer used. */
static const char *const other_digits[] = {"AFN", "ALL", "COP", "HUF", "IDR", "IQD", "IRR", "KPW",
                                           "LAK", "LBP", "MGA", "MMK", "PKR", "SOS", "SYP", "YER"};

static void decimals_differ_from_cldr_only_where_they_are_known_to(void **state)
{
    (void)state;
    yajl_val all = fractions();
    size_t differing = 0;
    for (size_t i = 0; i < YAJL_GET_OBJECT(all)->len; i++) {
        const char *code = YAJL_GET_OBJECT(all)->keys[i];
        int decimals = currency_decimals(code, strlen(code));
        int digits = number_in(YAJL_GET_OBJECT(all)->values[i], "_digits", 2);
        if (decimals < 0 || decimals == digits)
            continue; /* a code no longer on the list, or the same */
        bool known = false;
        for (size_t k = 0; k < sizeof other_digits / sizeof *other_digits; k++)
            known = known || strcmp(other_digits[k], code) == 0;
        if (!known)
            print_message("%s: ISO %d, CLDR %d\n", code, decimals, digits);
        assert_true(known);
        differing++;
    }
    assert_int_equal(differing, sizeof other_digits / sizeof *other_digits);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_cash_rounding_of_cldr_is_a_ladder),
        cmocka_unit_test(decimals_differ_from_cldr_only_where_they_are_known_to),
    };
    return cmocka_run_group_tests_name("cash roundings", tests, read_data, free_data);
}
