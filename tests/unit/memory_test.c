/* Memory and its limit, and arenas. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "memory/memory.h"

#ifdef __SANITIZE_ADDRESS__
#include <sanitizer/asan_interface.h>
#endif

static void all_of_the_limit_can_be_held_and_not_a_byte_more(void **state)
{
    (void)state;
    struct memory memory = memory_standard();
    memory.limit = 100;
    void *first = memory_resize(&memory, NULL, 0, 60);
    assert_non_null(first);
    assert_null(memory_resize(&memory, NULL, 0, 41));
    assert_true(memory.limited);
    memory.limited = false;
    void *second = memory_resize(&memory, NULL, 0, 40);
    assert_non_null(second);
    assert_false(memory.limited);
    assert_int_equal(memory.held, 100);
    assert_null(memory_resize(&memory, second, 40, 41));
    assert_int_equal(memory.held, 100);
    memory_release(&memory, first, 60);
    second = memory_resize(&memory, second, 40, 100);
    assert_non_null(second);
    assert_int_equal(memory.held, 100);
    memory_release(&memory, second, 100);
    assert_int_equal(memory.held, 0);
}

static void what_is_taken_from_an_arena_is_zero_also_where_something_was_taken_before(void **state)
{
    (void)state;
    static const unsigned char zero[300];
    struct memory memory = memory_standard();
    struct arena arena;
    arena_open(&arena, &memory);
    for (int round = 0; round < 2; round++) {
        for (size_t size = 1; size <= sizeof zero; size++) {
            unsigned char *taken = arena_take(&arena, size);
            assert_memory_equal(taken, zero, size);
            memset(taken, 0xA5, size);
        }
        size_t held = memory.held;
        arena_empty(&arena);
        assert_int_equal(memory.held, held);
    }
    arena_close(&arena);
    assert_int_equal(memory.held, 0);
}

#ifdef __SANITIZE_ADDRESS__
static void the_address_sanitizer_sees_a_byte_beside_an_object_of_an_arena(void **state)
{
    (void)state;
    struct memory memory = memory_standard();
    struct arena arena;
    arena_open(&arena, &memory);
    const char *first = arena_take(&arena, 1);
    for (size_t size = 0; size <= 2000; size++) {
        const char *taken = arena_take(&arena, size);
        assert_true(__asan_address_is_poisoned(taken - 1));
        assert_null(__asan_region_is_poisoned((void *)(uintptr_t)taken, size));
        assert_true(__asan_address_is_poisoned(taken + size));
    }
    assert_false(__asan_address_is_poisoned(first));
    arena_empty(&arena);
    assert_true(__asan_address_is_poisoned(first));
    arena_close(&arena);
}
#endif

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(all_of_the_limit_can_be_held_and_not_a_byte_more),
        cmocka_unit_test(what_is_taken_from_an_arena_is_zero_also_where_something_was_taken_before),
#ifdef __SANITIZE_ADDRESS__
        cmocka_unit_test(the_address_sanitizer_sees_a_byte_beside_an_object_of_an_arena),
#endif
    };
    return cmocka_run_group_tests_name("memory", tests, NULL, NULL);
}
