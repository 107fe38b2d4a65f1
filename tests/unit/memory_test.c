/* Memory and its limit. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "memory/memory.h"

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

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(all_of_the_limit_can_be_held_and_not_a_byte_more),
    };
    return cmocka_run_group_tests_name("memory", tests, NULL, NULL);
}
