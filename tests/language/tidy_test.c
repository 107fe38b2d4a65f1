/* The layout that groat_tidy gives: each rule of "Tidy" in LANGUAGE.md. tidy.md beside this file
 * shows rules before and after; what a page cannot show is here. */
#define _POSIX_C_SOURCE 200809L
#include "language/reading.h"

#include <glob.h>

#include "language/text_file.h"
#include "language/tidy_checks.h"

/* ---- tidying ---- */

struct tidied {
    groat_tidied *object;
    const char *text;
    size_t length;
};

/* Without an object when the text cannot be read. */
static struct tidied tidy(const char *text, size_t length)
{
    groat_report *report;
    struct tidied made = {.object =
                              groat_tidy("test.rules", (groat_text){text, length}, NULL, &report)};
    assert_non_null(report);
    assert_int_equal(groat_report_errors(report) == 0, made.object != NULL);
    groat_report_free(report);
    if (!made.object)
        return made;
    made.text = groat_tidied_text(made.object).start;
    made.length = groat_tidied_text(made.object).length;
    assert_int_equal(made.text[made.length], '\0');
    return made;
}

/* Fails unless the text can be tidied into one that still is what it was, and is tidy. */
static struct tidied tidy_well(const char *name, const char *text, size_t length)
{
    struct tidied made = tidy(text, length);
    if (!made.object)
        fail_msg("%s cannot be read", name);
    if (!tidy_same_tokens(text, length, made.text, made.length))
        fail_msg("%s: other tokens:\n%s", name, made.text);
    if (!tidy_same_letters(text, length, made.text, made.length))
        fail_msg("%s: other letters:\n%s", name, made.text);
    if (!tidy_is_clean(made.text, made.length))
        fail_msg("%s: not clean:\n%s", name, made.text);
    struct tidied again = tidy(made.text, made.length);
    assert_non_null(again.object);
    assert_string_equal(again.text, made.text);
    groat_tidied_free(again.object);
    return made;
}

static void assert_tidied(const char *from, const char *to)
{
    struct tidied made = tidy_well("the text", from, strlen(from));
    assert_string_equal(made.text, to);
    groat_tidied_free(made.object);
}

static void assert_tidy(const char *text)
{
    assert_tidied(text, text);
}

/* ---- lines ---- */

static void an_empty_file_stays_empty(void **state)
{
    (void)state;
    assert_tidied("", "");
    assert_tidied("\n \n\t\r\n", "");
    assert_tidied("\xEF\xBB\xBF", "");
}

static void line_ends_are_line_feeds_and_nothing_stands_before_them(void **state)
{
    (void)state;
    assert_tidied("\xEF\xBB\xBF"
                  "currency USD $\r\nrate a = 1 \t\r\n# so \t \r\nrate b = 2",
                  "currency USD $\nrate a = 1\n# so\nrate b = 2\n");
}

static void of_blank_lines_two_are_kept_and_none_at_the_ends(void **state)
{
    (void)state;
    assert_tidied("\n\nrate a = 1\n\nrate b = 2\n\n\nrate c = 3\n\n \n\t\n\nrate d = 4\n\n\n",
                  "rate a = 1\n\nrate b = 2\n\n\nrate c = 3\n\n\nrate d = 4\n");
    assert_tidied("\n\n# one\n\n\n\n# two\n\n", "# one\n\n\n# two\n");
}

/* ---- spaces ---- */

static void words_that_belong_together_have_one_space_between(void **state)
{
    (void)state;
    assert_tidied("let x = a at \t least b rounded    up  to  c\n",
                  "let x = a at least b rounded up to c\n");
    assert_tidied("channel a {\nonly   when  b\nbuyer  pays c=$1  per   order\n}\n",
                  "channel a {\n    only when b\n    buyer pays c = $1 per order\n}\n");
    assert_tidied("same  price  on a,b ,c\n", "same price on a, b, c\n");
}

static void spelling_is_never_changed(void **state)
{
    (void)state;
    assert_tidy("let a = 1_850 + 01.50 + .990 + 12.0%\n");
    assert_tidy("warn \"two  spaces, a\ttab, \\\" and \\\\ # no comment\" when a\n");
    assert_tidy("#no space\n#\n##   many   spaces\ttab\n");
    assert_tidy("let a = b < 2027-01-31\n");
}

/* ---- levels ---- */

static void what_stands_in_braces_begins_four_spaces_further_in(void **state)
{
    (void)state;
    assert_tidied("channel a {\n\tfee b = $1\n price {\nset $5\n   }\n  }\n",
                  "channel a {\n    fee b = $1\n    price {\n        set $5\n    }\n}\n");
    assert_tidied("channel a {\nprice {\nset $5 } }\nrate b = 1\n",
                  "channel a {\n    price {\n        set $5 } }\nrate b = 1\n");
    assert_tidied("channel a {price {\nset $5\n}}\nrate b = 1\n",
                  "channel a { price {\n    set $5\n} }\nrate b = 1\n");
}

/* ---- columns ---- */

static void a_cell_far_too_long_does_not_move_the_others(void **state)
{
    (void)state;
    char from[600], to[600], text[200] = "";
    memset(text, 'x', 120);
    snprintf(from, sizeof from, "warn \"a\" when b\nwarn \"%s\" when c\nwarn \"de\" when f\n",
             text);
    snprintf(to, sizeof to, "warn \"a\"  when b\nwarn \"%s\" when c\nwarn \"de\" when f\n", text);
    assert_tidied(from, to);
}

/* ---- comments ---- */

static void a_comment_of_its_own_stands_at_the_level_of_what_follows(void **state)
{
    (void)state;
    assert_tidied("  # top\n price { # after\n# in\n   set $5\n  # last\n}\n   # end",
                  "# top\nprice {  # after\n    # in\n    set $5\n    # last\n}\n# end\n");
    assert_tidied("let a =\n# why\n  if b\n# yes\n then 1\n# no\nelse 2\n# next\nrate c = 3\n",
                  "let a =\n    # why\n    if b\n        # yes\n        then 1\n        # no\n"
                  "        else 2\n# next\nrate c = 3\n");
    assert_tidied("let a = (b\n# what\n+ c)\n", "let a = (b\n         # what\n         + c)\n");
    assert_tidied("channel a {\nprice {\nset $5\n# one\n}\n# two\n}\n",
                  "channel a {\n    price {\n        set $5\n        # one\n    }\n    # two\n}\n");
}

static void a_comment_at_the_end_of_a_line_stays_there(void **state)
{
    (void)state;
    assert_tidied("rate a = 1# x\nrate b = a + #y\n2   # z",
                  "rate a = 1    # x\nrate b = a +  #y\n    2  # z\n");
}

static void comments_move_left_when_the_first_leaves_no_room_or_tabs_hide_where_it_was(void **state)
{
    (void)state;
    assert_tidied("rate a = 1 # one\nrate b = 4444        # two\n",
                  "rate a = 1     # one\nrate b = 4444  # two\n");
    assert_tidied("rate a = 1\t\t# one\nrate b = 22   # two\n",
                  "rate a = 1   # one\nrate b = 22  # two\n");
}

/* A rate with so many digits that its code is `width` wide, and a comment in column `column`, from 0. */
static int wide_rate(char *text, size_t size, int width, int column)
{
    char digits[120];
    memset(digits, '1', sizeof digits);
    return snprintf(text, size, "rate a = %.*s%*s# one\n", width - 9, digits, column - width, "");
}

/* Two spaces behind the widest code that counts, 100 characters, is the last column there is. */
static void a_chosen_column_is_kept_up_to_the_widest_code_and_no_further(void **state)
{
    (void)state;
    char from[400], to[400];
    int length = wide_rate(from, sizeof from, 20, 102);
    snprintf(from + length, sizeof from - (size_t)length, "rate b = 2 # two\n");
    length = wide_rate(to, sizeof to, 20, 102);
    snprintf(to + length, sizeof to - (size_t)length, "rate b = 2%*s# two\n", 92, "");
    assert_tidied(from, to);
    length = wide_rate(from, sizeof from, 20, 103);
    snprintf(from + length, sizeof from - (size_t)length, "rate b = 2 # two\n");
    length = wide_rate(to, sizeof to, 20, 22);
    snprintf(to + length, sizeof to - (size_t)length, "rate b = 2%*s# two\n", 12, "");
    assert_tidied(from, to);
}

static void code_wider_than_that_has_its_comment_two_spaces_behind_and_moves_no_other(void **state)
{
    (void)state;
    char from[400], to[400];
    int length = wide_rate(from, sizeof from, 100, 101);
    snprintf(from + length, sizeof from - (size_t)length, "rate b = 2 # two\n");
    length = wide_rate(to, sizeof to, 100, 102);
    snprintf(to + length, sizeof to - (size_t)length, "rate b = 2%*s# two\n", 92, "");
    assert_tidied(from, to);
    length = wide_rate(from, sizeof from, 101, 102);
    snprintf(from + length, sizeof from - (size_t)length, "rate b = 2 # two\n");
    length = wide_rate(to, sizeof to, 101, 103);
    snprintf(to + length, sizeof to - (size_t)length, "rate b = 2  # two\n");
    assert_tidied(from, to);
}

/* ---- what cannot be read ---- */

static void what_cannot_be_read_is_not_tidied_and_is_told_as_when_it_is_checked(void **state)
{
    (void)state;
    static const char *const wrong[] = {"let a = \"open\n",
                                        "price { set $5\n",
                                        "let a = (b\nrate c = 1\n",
                                        "rate a = 1,250\n",
                                        "rate = 3\n",
                                        "let a = b \xFF\n",
                                        "let a \xE2\x88\x92 b\n",
                                        "let a = $5 \xC2\xA0 + 1\n"};
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++) {
        groat_report *report, *other;
        groat_text text = {wrong[i], strlen(wrong[i])};
        assert_null(groat_tidy("test.rules", text, NULL, &report));
        groat_method_free(groat_method_read("test.rules", text, NULL, &other));
        assert_non_null(report);
        assert_true(groat_report_errors(report) > 0);
        for (size_t k = 0; k < groat_report_count(report); k++) {
            const groat_diagnostic *said = groat_report_at(report, k);
            bool found = false;
            for (size_t m = 0; m < groat_report_count(other); m++) {
                const groat_diagnostic *same = groat_report_at(other, m);
                found = found || (same->line == said->line && same->column == said->column &&
                                  strcmp(same->message, said->message) == 0);
            }
            assert_true(found);
        }
        groat_report_free(report);
        groat_report_free(other);
    }
}

/* ---- every rules file there is ---- */

static size_t tidy_files(const char *pattern, bool held_tidy)
{
    glob_t found;
    size_t tidied = 0;
    if (glob(pattern, 0, NULL, &found) != 0)
        fail_msg("there is nothing at %s", pattern);
    for (size_t i = 0; i < found.gl_pathc; i++) {
        struct text_file file;
        assert_true(text_file_read(found.gl_pathv[i], &file));
        struct tidied made = tidy(file.text, file.length);
        groat_tidied_free(made.object);
        if (made.object) {
            made = tidy_well(found.gl_pathv[i], file.text, file.length);
            if (held_tidy && strcmp(made.text, file.text) != 0)
                fail_msg("%s is not tidy; groat tidy --write makes it so", found.gl_pathv[i]);
            groat_tidied_free(made.object);
            tidied++;
        }
        free(file.text);
    }
    globfree(&found);
    return tidied;
}

static void the_rules_that_are_handed_out_are_tidy(void **state)
{
    (void)state;
    assert_true(tidy_files("rules/*.rules", true) >= 1);
    assert_true(tidy_files("rules/*/*.rules", true) >= 10);
}

static void every_rules_file_of_the_tests_stays_what_it_is(void **state)
{
    (void)state;
    assert_true(tidy_files("tests/*/*.rules", false) >= 4);
    assert_true(tidy_files("tests/*/*/*.rules", false) >= 50);
    assert_true(tidy_files("tests/*/*/*/*.rules", false) >= 15);
}

/* ---- what documents show ---- */

/* The body of the first block from here on whose first line begins so; or no text. */
static groat_text find_block(const char *at, const char *beginning)
{
    const char *fence = strstr(at, beginning);
    if (!fence)
        return (groat_text){NULL, 0};
    const char *body = strchr(fence + 1, '\n') + 1, *end = strstr(body - 1, "\n```\n");
    assert_non_null(end);
    return (groat_text){body, (size_t)(end + 1 - body)};
}

/* Fails unless the block is laid out as the block after it, if that is marked `tidied`, else as it
 * is. */
static void assert_block_tidied(const char *where, groat_text from)
{
    static const char tidied[] = "\n```tidied\n";
    const char *after = from.start + from.length + strlen("```\n");
    groat_text to = from;
    if (strncmp(after, tidied, strlen(tidied)) == 0)
        to = find_block(after, tidied);
    struct tidied made = tidy_well(where, from.start, from.length);
    if (made.length != to.length || memcmp(made.text, to.start, to.length) != 0)
        fail_msg("%s: not the layout that follows:\n%s", where, made.text);
    groat_tidied_free(made.object);
}

static void each_rule_of_the_layout_holds(void **state)
{
    (void)state;
    struct text_file document;
    assert_true(text_file_read("tests/language/tidy.md", &document));
    size_t count = 0, line = 1;
    const char *at = document.text;
    for (;; count++) {
        groat_text rules = find_block(at, "\n```rules\n");
        if (!rules.start)
            break;
        for (; at < rules.start; at++)
            line += *at == '\n';
        char where[64];
        snprintf(where, sizeof where, "tests/language/tidy.md:%zu", line);
        assert_block_tidied(where, rules);
    }
    free(document.text);
    assert_true(count >= 46);
}

/* Every example of LANGUAGE.md, which has every kind of statement. */
static void every_example_of_the_manual_stays_what_it_is(void **state)
{
    (void)state;
    struct text_file manual;
    assert_true(text_file_read("grammar/LANGUAGE.md", &manual));
    size_t count = 0;
    groat_text rules = find_block(manual.text, "\n```groat");
    for (; rules.start; rules = find_block(rules.start + rules.length, "\n```groat")) {
        static const char wrong[] = "-wrong\n";
        if (strncmp(rules.start - strlen(wrong), wrong, strlen(wrong)) == 0)
            continue;
        groat_tidied_free(tidy_well("an example", rules.start, rules.length).object);
        count++;
    }
    free(manual.text);
    assert_true(count >= 25);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(an_empty_file_stays_empty),
        cmocka_unit_test(line_ends_are_line_feeds_and_nothing_stands_before_them),
        cmocka_unit_test(of_blank_lines_two_are_kept_and_none_at_the_ends),
        cmocka_unit_test(words_that_belong_together_have_one_space_between),
        cmocka_unit_test(spelling_is_never_changed),
        cmocka_unit_test(what_stands_in_braces_begins_four_spaces_further_in),
        cmocka_unit_test(a_cell_far_too_long_does_not_move_the_others),
        cmocka_unit_test(a_comment_of_its_own_stands_at_the_level_of_what_follows),
        cmocka_unit_test(a_comment_at_the_end_of_a_line_stays_there),
        cmocka_unit_test(
            comments_move_left_when_the_first_leaves_no_room_or_tabs_hide_where_it_was),
        cmocka_unit_test(a_chosen_column_is_kept_up_to_the_widest_code_and_no_further),
        cmocka_unit_test(code_wider_than_that_has_its_comment_two_spaces_behind_and_moves_no_other),
        cmocka_unit_test(what_cannot_be_read_is_not_tidied_and_is_told_as_when_it_is_checked),
        cmocka_unit_test(the_rules_that_are_handed_out_are_tidy),
        cmocka_unit_test(every_rules_file_of_the_tests_stays_what_it_is),
        cmocka_unit_test(each_rule_of_the_layout_holds),
        cmocka_unit_test(every_example_of_the_manual_stays_what_it_is),
    };
    return cmocka_run_group_tests_name("tidy", tests, NULL, NULL);
}
