/* The deepest rules there may be, on a small stack: 512 KB, as a thread of a host may have. */
#define _POSIX_C_SOURCE 200809L /* for threads with a stack of their own */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <pthread.h>

#include "fault/rules_text.h"

/* The sanitizers surround every variable: frames are several times as large then. */
#if defined(__SANITIZE_ADDRESS__) || defined(__SANITIZE_THREAD__)
#define FRAMES 16
#elif defined(__has_feature)
#if __has_feature(address_sanitizer) || __has_feature(thread_sanitizer)
#define FRAMES 16
#endif
#endif
#ifndef FRAMES
#define FRAMES 1
#endif

enum { STACK_BYTES = FRAMES * 512 * 1024, NESTING = 200, UNTOUCHED = 0x5C };

/* ---- work for a thread, and how much of its stack it took ---- */

static void price_everywhere(const groat_method *method)
{
    groat_record *record = groat_record_new(method);
    groat_scratch *scratch = groat_scratch_new(method);
    for (size_t i = 0; record && scratch && i < groat_method_channels(method) && i < 3; i++) {
        groat_outcome outcome;
        groat_order order = {.channel = i, .quantity = 2};
        groat_price(scratch, method, record, &order);
        groat_explanation_free(groat_explain(scratch, method, record, &order, &outcome));
        groat_explanation_free(
            groat_explain_name(scratch, method, record, &order, "cost", &outcome));
    }
    groat_record_free(record);
    groat_scratch_free(scratch);
}

static void *read_and_price(void *rules)
{
    size_t count;
    groat_report *report;
    groat_method *method = read_with(rules, NULL, &report);
    for (size_t i = 0; i < groat_report_count(report) && i < 3; i++)
        groat_diagnostic_write(groat_report_at(report, i), NULL, 0);
    groat_report_free(report);
    if (!method)
        return NULL;
    groat_report_free(groat_method_check(method, &count));
    price_everywhere(method);
    groat_method_free(method);
    return method;
}

static size_t touched(const unsigned char *stack)
{
    size_t low = 0;
    while (low < STACK_BYTES && stack[low] == UNTOUCHED)
        low++;
    return STACK_BYTES - low;
}

/* Runs on the small stack; whether the rules were right. Frees the text. */
static bool run_small(const char *what, struct text rules)
{
    pthread_t thread;
    pthread_attr_t attributes;
    void *result, *stack = NULL;
    assert_int_equal(posix_memalign(&stack, 4096, STACK_BYTES), 0);
    memset(stack, UNTOUCHED, STACK_BYTES);
    assert_int_equal(pthread_attr_init(&attributes), 0);
    assert_int_equal(pthread_attr_setstack(&attributes, stack, STACK_BYTES), 0);
    assert_int_equal(pthread_create(&thread, &attributes, read_and_price, rules.start), 0);
    assert_int_equal(pthread_join(thread, &result), 0);
    print_message("%s: %zu KB of stack%s\n", what, touched(stack) / 1024,
                  result ? "" : ", refused");
    assert_true(touched(stack) < STACK_BYTES * 3 / 4);
    pthread_attr_destroy(&attributes);
    free(stack);
    text_free(&rules);
    return result != NULL;
}

static struct text shop(void)
{
    struct text rules = {0};
    text_append(&rules, "currency USD $\nproduct { n number = 1.00000000000000000000000001 }\n"
                        "price { aim profit >= $5 }\n");
    return rules;
}

/* ---- expressions ---- */

static void nest(struct text *rules, const char *open, const char *inside, const char *close,
                 size_t depth)
{
    text_repeat(rules, open, depth);
    text_add(rules, inside, strlen(inside));
    text_repeat(rules, close, depth);
    text_add(rules, "\n", 1);
}

static void expressions_as_deep_as_they_may_be(void **state)
{
    (void)state;
    static const struct {
        const char *what, *open, *inside, *close;
    } kinds[] = {{"parentheses", "(", "$1 * n", ")"},
                 {"ifs at the end", "if n > 1 then $1 else ", "$1 * n", ""},
                 {"ifs in the middle", "if n > 1 then ", "$1 * n", " else $1"},
                 {"ifs in conditions", "if (", "n > 1", ") then yes else no"},
                 {"sums", "", "$1 * n", " + $1 * n"},
                 {"larger ones", "", "$1", " at least $1 * n"},
                 {"signs", "-", "$1", ""},
                 {"roundings", "", "$1", " rounded to $0.01"}};
    for (size_t i = 0; i < sizeof kinds / sizeof *kinds; i++) {
        struct text rules = shop();
        bool flag = strcmp(kinds[i].inside, "n > 1") == 0;
        text_append(&rules, flag ? "refuse \"x\" when " : "cost c = ");
        /* The sum of a cost and what a bare product has in it take some levels themselves. */
        nest(&rules, kinds[i].open, kinds[i].inside, kinds[i].close,
             flag ? NESTING / 2 - 10 : NESTING - 10);
        assert_true(run_small(kinds[i].what, rules));
    }
}

static void expressions_deeper_than_that_are_refused(void **state)
{
    (void)state;
    struct text rules = shop(), sums = shop();
    text_append(&rules, "cost c = ");
    nest(&rules, "(", "$1", ")", 100000);
    assert_false(run_small("100000 parentheses", rules));
    text_append(&sums, "cost c = ");
    nest(&sums, "", "$1", " + $1", 100000);
    assert_false(run_small("a sum of 100000", sums));
}

/* ---- definitions ---- */

static void definitions_that_lean_on_each_other_as_deep_as_they_may(void **state)
{
    (void)state;
    enum { LONG = NESTING / 2 - 5 }; /* each takes a level for its sum and one for its name */
    struct text lets = shop(), functions = shop(), tables = shop(), units = shop();
    for (int i = 0; i < LONG; i++)
        text_append(&lets, "let a%d = a%d + $1 * n\n", i, i + 1);
    text_append(&lets, "let a%d = $1\ncost c = a0\n", LONG);
    assert_true(run_small("lets", lets));
    text_append(&functions, "let f0(x) = x * n\n");
    for (int i = 1; i < LONG; i++)
        text_append(&functions, "let f%d(x) = f%d(x) + $1\n", i, i - 1);
    text_append(&functions, "cost c = f%d($1)\n", LONG - 1);
    assert_true(run_small("functions", functions));
    for (int i = 0; i < LONG; i++)
        text_append(&tables, "table t%d by n { up to 5 : t%d + $1\n otherwise : $2 * n }\n", i,
                    i + 1);
    text_append(&tables, "table t%d by n { otherwise : $1 }\ncost c = t0\n", LONG);
    assert_true(run_small("tables", tables));
    for (int i = 0; i < LONG; i++)
        text_append(&units, "unit u%d = (2 u%d)\n", i, i + 1);
    text_append(&units, "unit u%d = 1 g\nlet w = 1 u0\ncost c = $1 * (w as g)\n", LONG);
    run_small("units", units);
}

/* A figure on another channel brings in all that it is made of. */
static void channels_that_look_at_each_other_as_deep_as_they_may(void **state)
{
    (void)state;
    static const struct {
        const char *what, *line;
    } kinds[] = {
        {"prices", "channel c%d { price { set list on c%d * 1.01 } }\n"},
        {"fees", "channel c%d { tax added 5%%\n buyer pays s = $1\n fee f = take_home on c%d }\n"},
        {"shares", "channel c%d { tax included 5%%\n"
                   " fee f = if margin on c%d > 5%% then $1 else $2 }\n"},
        {"aims", "channel c%d { tax included 5%%\n fee f = 1%% of price\n"
                 " price { aim profit >= (profit on c%d) * 0.5 and margin >= 1%% } }\n"}};
    static const int lengths[] = {10, 20, 40, 300};
    for (size_t i = 0; i < sizeof kinds / sizeof *kinds; i++) {
        for (size_t k = 0; k < sizeof lengths / sizeof *lengths; k++) {
            struct text rules = shop();
            for (int n = 0; n < lengths[k]; n++)
                text_append(&rules, kinds[i].line, n, n + 1);
            text_append(&rules, "channel c%d {}\n", lengths[k]);
            bool right = run_small(kinds[i].what, rules);
            assert_true(right || k > 0);
            assert_false(right && k == 3);
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(expressions_as_deep_as_they_may_be),
        cmocka_unit_test(expressions_deeper_than_that_are_refused),
        cmocka_unit_test(definitions_that_lean_on_each_other_as_deep_as_they_may),
        cmocka_unit_test(channels_that_look_at_each_other_as_deep_as_they_may),
    };
    return cmocka_run_group_tests_name("stack", tests, NULL, NULL);
}
