/* Slips that hostile reading found, each once. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "fault/rules_text.h"

#define SHOP "currency USD $\nprice { set $5 }\n"

static void a_show_of_a_name_alone_stands_in_a_shop_of_many_names(void **state)
{
    (void)state;
    struct text rules = {0};
    text_print(&rules, SHOP "let boards = 3\nshow boards\n");
    for (int i = 0; i < 200; i++)
        text_print(&rules, "cost line%d = $%d\n", i, i);
    groat_method *method = read_right(rules.start);
    assert_non_null(method);
    groat_method_free(method);
    text_free(&rules);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_show_of_a_name_alone_stands_in_a_shop_of_many_names),
    };
    return cmocka_run_group_tests_name("what hostile reading found", tests, NULL, NULL);
}
