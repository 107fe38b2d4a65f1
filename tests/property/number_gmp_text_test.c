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

/* Amounts of two machine words, as lists have them: also exactly between two decimals, and just
 * beside it, where rounding carries into the whole part. */
static void short_fractions_and_ties_are_written_as_gmp_writes_them(void **state)
{
    char expected[TEXT_MOST];
    char text[TEXT_MOST];
    mpq_t exact;
    (void)state;
    mpq_init(exact);
    for (int i = 0; i < TEXT_ROUNDS; i++) {
        static const int64_t tens[] = {1, 10, 100, 1000, 10000, 1000000, 1000000000, 60, 7, 365};
        unsigned places = (unsigned)random_below(20);
        int64_t bottom = 2 * tens[random_below(sizeof tens / sizeof *tens)];
        int64_t top = (int64_t)(random_word() >> (1 + random_below(63)));
        top = random_below(2) == 0 ? top : -top;
        struct num number = num_whole(0);
        assert_int_equal(num_fraction(NULL, top, bottom, &number), NUM_OK);
        mpq_set_si(exact, top, (unsigned long)bottom);
        mpq_canonicalize(exact);
        for (int drop_zeros = 0; drop_zeros < 2; drop_zeros++) {
            size_t size = random_below(40);
            exact_text(exact, places, drop_zeros, expected);
            size_t length = drop_zeros ? num_write_short(number, places, '.', text, sizeof text)
                                       : num_write_places(number, places, '.', text, sizeof text);
            assert_int_equal(length, strlen(expected));
            assert_string_equal(text, expected);
            if (size == 0)
                continue;
            num_write_places(number, places, '.', text, size);
            exact_text(exact, places, false, expected);
            expected[size - 1] = 0;
            assert_string_equal(text, expected);
        }
        operations += 2;
    }
    mpq_clear(exact);
}

/* The text of up to 18 digits is the same number by either reader. */
static void plain_decimals_are_read_as_all_decimals_are(void **state)
{
    static const char *const others[] = {"",
                                         ".",
                                         "5.",
                                         "-1",
                                         "1_0",
                                         "1.2.3",
                                         " 1",
                                         "1e3",
                                         "1234567890123456789",
                                         "12345678901234567890"};
    (void)state;
    for (int i = 0; i < TEXT_ROUNDS; i++) {
        char text[32];
        uint64_t whole = random_word() >> (32 + random_below(32));
        unsigned places = (unsigned)random_below(8);
        int length = snprintf(text, sizeof text, "%llu", (unsigned long long)whole);
        if (places > 0)
            length += snprintf(text + length, sizeof text - (size_t)length, ".%0*llu", (int)places,
                               (unsigned long long)random_below(10000000) % 10000000);
        struct num plain = num_whole(0);
        mpq_t exact;
        mpq_init(exact);
        if ((size_t)length <= 18) {
            char digits[32];
            const char *point = strchr(text, '.');
            size_t before = point ? (size_t)(point - text) : (size_t)length;
            snprintf(digits, sizeof digits, "%.*s%s", (int)before, text, point ? point + 1 : "");
            mpz_set_str(mpq_numref(exact), digits, 10);
            mpz_ui_pow_ui(mpq_denref(exact), 10, strlen(digits) - before);
            mpq_canonicalize(exact);
            assert_true(num_read_plain(text, (size_t)length, &plain));
            assert_true(mpz_cmp_si(mpq_numref(exact), plain.top) == 0);
            assert_true(mpz_cmp_si(mpq_denref(exact), plain.bottom) == 0);
        }
        mpq_clear(exact);
        operations++;
    }
    for (size_t i = 0; i < sizeof others / sizeof *others; i++) {
        struct num number;
        assert_false(num_read_plain(others[i], strlen(others[i]), &number));
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
        cmocka_unit_test(short_fractions_and_ties_are_written_as_gmp_writes_them),
        cmocka_unit_test(plain_decimals_are_read_as_all_decimals_are),
        cmocka_unit_test(written_numerators_and_denominators_equal_those_of_gmp),
        cmocka_unit_test(read_decimals_equal_the_fractions_gmp_makes_of_their_digits),
    };
    choose_seed(argc, argv);
    return cmocka_run_group_tests_name("numbers as text against GMP", tests, make_operands,
                                       drop_operands);
}
