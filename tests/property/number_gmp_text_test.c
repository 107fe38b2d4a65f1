/* Decimals read and written against texts that GMP's whole numbers give, for random numbers. */
#include "property/operands.h"

enum { TEXT_ROUNDS = 100000 };

/* The text of a value to some places, ties away from zero, from GMP alone. */
static void exact_text(const mpq_t exact, unsigned places, bool drop_zeros, char *text)
{
    char digits[TEXT_MOST];
    mpz_t scaled;
    mpz_t bottom;
    mpz_inits(scaled, bottom, NULL);
    mpz_ui_pow_ui(scaled, 10, places);
    mpz_mul(scaled, scaled, mpq_numref(exact));
    mpz_abs(scaled, scaled);
    mpz_mul_ui(scaled, scaled, 2);
    mpz_add(scaled, scaled, mpq_denref(exact));
    mpz_mul_ui(bottom, mpq_denref(exact), 2);
    mpz_fdiv_q(scaled, scaled, bottom);
    const char *sign = mpq_sgn(exact) < 0 && mpz_sgn(scaled) != 0 ? "-" : "";
    mpz_get_str(digits, 10, scaled);
    size_t length = strlen(digits);
    size_t zeros = length <= places ? places + 1 - length : 0;
    memmove(digits + zeros, digits, length + 1);
    memset(digits, '0', zeros);
    size_t whole = length + zeros - places;
    snprintf(text, TEXT_MOST, "%s%.*s%s%s", sign, (int)whole, digits, places > 0 ? "." : "",
             digits + whole);
    size_t end = strlen(text);
    while (drop_zeros && places > 0 && text[end - 1] == '0')
        text[--end] = 0;
    if (drop_zeros && text[end - 1] == '.')
        text[end - 1] = 0;
    mpz_clears(scaled, bottom, NULL);
}

static void written_decimals_equal_text_made_by_gmp(void **state)
{
    char expected[TEXT_MOST];
    char text[TEXT_MOST];
    (void)state;
    for (int i = 0; i < TEXT_ROUNDS; i++) {
        const struct operand *a = any_operand();
        unsigned places = (unsigned)random_below(61);
        exact_text(a->exact, places, false, expected);
        assert_int_equal(num_write_places(a->number, places, '.', text, sizeof text),
                         strlen(expected));
        assert_string_equal(text, expected);
        exact_text(a->exact, places, true, expected);
        assert_int_equal(num_write_short(a->number, places, '.', text, sizeof text),
                         strlen(expected));
        assert_string_equal(text, expected);
        operations += 2;
    }
}

static void written_numerators_and_denominators_equal_those_of_gmp(void **state)
{
    char expected[TEXT_MOST];
    char text[TEXT_MOST];
    (void)state;
    for (size_t i = 0; i < OPERANDS; i++) {
        mpz_get_str(expected, 10, mpq_numref(pool[i].exact));
        assert_int_equal(num_write_top(pool[i].number, text, sizeof text), strlen(expected));
        assert_string_equal(text, expected);
        mpz_get_str(expected, 10, mpq_denref(pool[i].exact));
        assert_int_equal(num_write_bottom(pool[i].number, text, sizeof text), strlen(expected));
        assert_string_equal(text, expected);
    }
}

/* A decimal with underscores and needless zeros in `text`, its value in `exact`. */
static void random_decimal(char *text, mpq_t exact)
{
    char digits[TEXT_MOST];
    size_t most = random_below(4) == 0 ? 120 : 22;
    size_t whole = random_below(most);
    size_t places = random_below(3) == 0 ? 0 : random_below(most);
    size_t length = 0;
    if (whole + places == 0)
        whole = 1;
    for (size_t i = 0; i < whole + places; i++) {
        digits[i] = (char)('0' + (random_below(3) == 0 ? 0 : random_below(10)));
        if (i == whole)
            text[length++] = '.';
        else if (i > 0 && random_below(8) == 0)
            text[length++] = '_';
        text[length++] = digits[i];
    }
    digits[whole + places] = 0;
    text[length] = 0;
    mpz_set_str(mpq_numref(exact), digits, 10);
    mpz_ui_pow_ui(mpq_denref(exact), 10, places);
    mpq_canonicalize(exact);
}

static void read_decimals_equal_the_fractions_gmp_makes_of_their_digits(void **state)
{
    struct num_heap heap;
    char text[TEXT_MOST];
    mpq_t exact;
    (void)state;
    num_heap_open(&heap, &memory, 256);
    mpq_init(exact);
    for (int i = 0; i < TEXT_ROUNDS; i++) {
        struct num_mark mark = num_heap_mark(&heap);
        struct num number;
        random_decimal(text, exact);
        enum num_status status = num_read_decimal(&heap, text, strlen(text), &number);
        expect_number(&heap, status, number, exact, text);
        num_heap_rewind(&heap, mark);
    }
    mpq_clear(exact);
    num_heap_close(&heap);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(written_decimals_equal_text_made_by_gmp),
        cmocka_unit_test(written_numerators_and_denominators_equal_those_of_gmp),
        cmocka_unit_test(read_decimals_equal_the_fractions_gmp_makes_of_their_digits),
    };
    choose_seed(argc, argv);
    return cmocka_run_group_tests_name("numbers as text against GMP", tests, make_operands,
                                       drop_operands);
}
