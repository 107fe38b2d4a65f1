/* The decimals of currencies against ISO 4217 list one.
 *
 * Source: list one as published 2024-06-25, the file iso-4217-list-one.xml of the npm package
 * currency-codes. `make published` fetches it; without it these tests skip. */
#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "groat.h"
#include "unit/currency.h"

#define LIST_FILE "build/published/currency-codes/iso-4217-list-one.xml"

enum { LIST_MOST = 1 << 20 };

static char list[LIST_MOST];

static int read_list(void **state)
{
    (void)state;
    FILE *file = fopen(LIST_FILE, "rb");
    if (file != NULL) {
        list[fread(list, 1, sizeof list - 1, file)] = '\0';
        fclose(file);
    }
    return 0;
}

static void need_list(void)
{
    if (list[0] == '\0') {
        print_message("%s is not there; `make published` fetches it\n", LIST_FILE);
        skip();
    }
}

/* What the list says of one country's currency; a code stands once for each country that uses it.
 * `code` is empty for a country without a currency of its own. */
struct entry {
    char code[8];
    char decimals[8]; /* "2", or "N.A." */
};

static void read_element(const char *from, const char *end, const char *tag, char *out, size_t size)
{
    const char *start = strstr(from, tag);
    out[0] = '\0';
    if (start == NULL || start >= end) {
        return;
    }
    start += strlen(tag);
    size_t length = strcspn(start, "<");
    assert_true(length < size);
    memcpy(out, start, length);
    out[length] = '\0';
}

/* Reads the entry at `*at` and moves past it; false at the end of the list. */
static bool next_entry(const char **at, struct entry *entry)
{
    const char *start = strstr(*at, "<CcyNtry>");
    if (start == NULL) {
        return false;
    }
    const char *end = strstr(start, "</CcyNtry>");
    assert_non_null(end);
    read_element(start, end, "<Ccy>", entry->code, sizeof entry->code);
    read_element(start, end, "<CcyMnrUnts>", entry->decimals, sizeof entry->decimals);
    *at = end;
    return true;
}

static void the_list_is_the_one_our_table_was_made_from(void **state)
{
    (void)state;
    need_list();
    assert_non_null(strstr(list, "<ISO_4217 Pblshd=\"2024-06-25\">"));
}

static void every_currency_of_list_one_has_its_decimals(void **state)
{
    (void)state;
    need_list();
    const char *at = list;
    struct entry entry;
    size_t compared = 0;
    while (next_entry(&at, &entry)) {
        if (entry.code[0] == '\0') {
            continue;
        }
        int expected = -1;
        if (strcmp(entry.decimals, "N.A.") != 0) {
            assert_int_equal(strspn(entry.decimals, "0123456789"), 1);
            expected = atoi(entry.decimals);
        }
        int found = currency_decimals(entry.code, strlen(entry.code));
        assert_int_equal(groat_currency_decimals(entry.code), found);
        if (found != expected) {
            fail_msg("%s has %s decimals on the list, %d here", entry.code, entry.decimals, found);
        }
        compared++;
    }
    /* The list has an entry for each country; far fewer would mean that it was not read. */
    assert_true(compared > 250);
}

static bool on_the_list(const char *code)
{
    char element[16];
    snprintf(element, sizeof element, "<Ccy>%s</Ccy>", code);
    return strstr(list, element) != NULL;
}

static void no_code_is_known_that_list_one_does_not_have(void **state)
{
    (void)state;
    need_list();
    char code[] = "AAA";
    for (code[0] = 'A'; code[0] <= 'Z'; code[0]++) {
        for (code[1] = 'A'; code[1] <= 'Z'; code[1]++) {
            for (code[2] = 'A'; code[2] <= 'Z'; code[2]++) {
                if (currency_decimals(code, 3) >= 0 && !on_the_list(code)) {
                    fail_msg("%s is known here but is not on the list", code);
                }
            }
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_list_is_the_one_our_table_was_made_from),
        cmocka_unit_test(every_currency_of_list_one_has_its_decimals),
        cmocka_unit_test(no_code_is_known_that_list_one_does_not_have),
    };
    return cmocka_run_group_tests_name("currencies against ISO 4217", tests, read_list, NULL);
}
