/* Work shared out among threads. */
#include <setjmp.h>
#include <stdarg.h>
#include <stdatomic.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "study/crew.h"

enum { THINGS = 5000 };

static atomic_int done[THINGS];
static atomic_int busy[CREW_MOST];
static atomic_int wrong;

/* No two threads may be the same hand at once. */
static void work(void *context, size_t hand, size_t thing)
{
    size_t hands = *(const size_t *)context;
    if (hand >= hands || atomic_fetch_add(&busy[hand], 1) != 0)
        atomic_fetch_add(&wrong, 1);
    atomic_fetch_add(&done[thing], 1);
    atomic_fetch_sub(&busy[hand], 1);
}

static void everything_is_done_once_by_however_many_hands(void **state)
{
    (void)state;
    static const size_t hands[] = {1, 2, 3, CREW_MOST, CREW_MOST + 5};
    for (size_t i = 0; i < sizeof hands / sizeof *hands; i++) {
        size_t most = hands[i] > CREW_MOST ? CREW_MOST : hands[i];
        for (size_t j = 0; j < THINGS; j++)
            atomic_store(&done[j], 0);
        crew_run(hands[i], THINGS, work, &most);
        for (size_t j = 0; j < THINGS; j++)
            assert_int_equal(atomic_load(&done[j]), 1);
    }
    assert_int_equal(atomic_load(&wrong), 0);
}

static void no_more_hands_come_than_there_are_things(void **state)
{
    (void)state;
    size_t most = 2;
    atomic_store(&done[0], 0);
    atomic_store(&done[1], 0);
    crew_run(8, 2, work, &most);
    crew_run(8, 0, work, &most);
    assert_int_equal(atomic_load(&done[0]) + atomic_load(&done[1]), 2);
    assert_int_equal(atomic_load(&wrong), 0);
}

static void a_machine_has_a_hand(void **state)
{
    (void)state;
    assert_in_range(crew_hands(), 1, CREW_MOST);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(everything_is_done_once_by_however_many_hands),
        cmocka_unit_test(no_more_hands_come_than_there_are_things),
        cmocka_unit_test(a_machine_has_a_hand),
    };
    return cmocka_run_group_tests_name("crew", tests, NULL, NULL);
}
