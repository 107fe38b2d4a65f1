/* A compiled program as a text. The lines looked for were read off the first output, and each was
 * traced to the rules that it comes from. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "fault/rules_text.h"

static void steps_are_written_with_what_they_read_and_where_they_come_from(void **state)
{
    static const char rules[] = "currency USD $\nproduct { timber money; kind text = \"plain\" }\n"
                                "rate hourly = $24 per h\ncost work = timber + hourly * 30 min\n"
                                "channel fair {\n    fee card = 5% of price\n"
                                "    price { aim profit >= $5; round up to $1 }\n}\n";
    static const char *const lines[] = {
        "10 field timber  (field timber, hostile.rules:2)\n",
        "13 add 10 12  (cost work, hostile.rules:4)\n",
        "16 multiply 15 14, on trial  (fee card, hostile.rules:6)\n",
        "22 up to 21 20, on trial, forgiving  (aim, hostile.rules:7)\n",
        "32 constant \"plain\", settled\n",
        "  each trial: 14 16 18 19 20 22\n",
        "  steps: 6 10 13 24 25 26 27 28 29\n"};
    char text[4096], part[8];
    (void)state;
    groat_method *method = read_right(rules);
    assert_non_null(method);
    size_t length = groat_method_steps_write(method, text, sizeof text);
    assert_int_equal(length, strlen(text));
    assert_int_equal(groat_method_steps_write(method, part, sizeof part), length);
    assert_int_equal(strlen(part), sizeof part - 1);
    for (size_t i = 0; i < sizeof lines / sizeof *lines; i++)
        assert_non_null(strstr(text, lines[i]));
    groat_method_free(method);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(steps_are_written_with_what_they_read_and_where_they_come_from),
    };
    return cmocka_run_group_tests_name("compiled rules", tests, NULL, NULL);
}
