/* What the tests of numbers share: a host that counts and can run dry, a heap made anew for each
 * test, numbers from texts and from powers of two, and what is expected of one. */
#ifndef UNIT_NUMBER_CHECKS_H
#define UNIT_NUMBER_CHECKS_H

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <gmp.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "number/number.h"

enum { TEXT_MOST = 16384 };

/* The host of a test: counts what is asked of it and can run dry. */
struct host {
    size_t calls;
    bool dry;
};

static inline void *host_resize(void *context, void *block, size_t old_size, size_t new_size)
{
    struct host *host = context;
    (void)old_size;
    host->calls++;
    if (new_size == 0) {
        free(block);
        return NULL;
    }
    return host->dry ? NULL : realloc(block, new_size);
}

static struct host host;
static struct memory memory;
static struct num_heap heap;

static inline int open_heap(void **state)
{
    (void)state;
    host = (struct host){0, false};
    memory = (struct memory){.resize = host_resize, .context = &host, .limit = SIZE_MAX};
    num_heap_open(&heap, &memory, NUM_BITS_DEFAULT);
    return 0;
}

static inline int close_heap(void **state)
{
    (void)state;
    num_heap_close(&heap);
    return memory.held == 0 ? 0 : -1;
}

static inline void limit_heap(size_t bits)
{
    num_heap_close(&heap);
    num_heap_open(&heap, &memory, bits);
}

static inline struct num fraction(int64_t top, int64_t bottom)
{
    struct num number;
    assert_int_equal(num_fraction(&heap, top, bottom, &number), NUM_OK);
    return number;
}

static inline enum num_status try_read(const char *text, struct num *out)
{
    return num_read_decimal(&heap, text, strlen(text), out);
}

static inline struct num read_text(const char *text)
{
    struct num number;
    assert_int_equal(try_read(text, &number), NUM_OK);
    return number;
}

/* 2^power + more, by way of GMP's decimal text. */
static inline enum num_status try_power(unsigned long power, long more, struct num *out)
{
    char text[TEXT_MOST];
    mpz_t value;
    mpz_init(value);
    mpz_ui_pow_ui(value, 2, power);
    if (more < 0)
        mpz_sub_ui(value, value, (unsigned long)-more);
    else
        mpz_add_ui(value, value, (unsigned long)more);
    mpz_get_str(text, 10, value);
    mpz_clear(value);
    return try_read(text, out);
}

static inline struct num power_of_two(unsigned long power, long more)
{
    struct num number;
    assert_int_equal(try_power(power, more, &number), NUM_OK);
    return number;
}

static inline struct num one_over(struct num number)
{
    assert_int_equal(num_divide(&heap, num_whole(1), number, &number), NUM_OK);
    return number;
}

static inline struct num minus(struct num number)
{
    assert_int_equal(num_negate(&heap, number, &number), NUM_OK);
    return number;
}

static inline void assert_small(struct num number, int64_t top, int64_t bottom)
{
    assert_int_equal(number.bottom, bottom);
    assert_int_equal(number.top, top);
}

static inline void assert_places(struct num number, unsigned places, const char *expected)
{
    char text[TEXT_MOST];
    assert_int_equal(num_write_places(number, places, '.', text, sizeof text), strlen(expected));
    assert_string_equal(text, expected);
}

static inline void assert_short(struct num number, unsigned places, const char *expected)
{
    char text[TEXT_MOST];
    assert_int_equal(num_write_short(number, places, '.', text, sizeof text), strlen(expected));
    assert_string_equal(text, expected);
}

#define NUMBER_TEST(name) cmocka_unit_test_setup_teardown(name, open_heap, close_heap)

#endif
