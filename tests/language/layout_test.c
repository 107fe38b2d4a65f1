/* Where a statement ends and what a name is: each rule of "Layout" and "Names" in LANGUAGE.md. */
#include "language/reading.h"

/* One line, so that what a test adds begins on line 2. `none` is missing, `yes_flag` is yes. */
#define HEAD                                                                                       \
    "currency USD $; product { money_one money = $1; none money optional; yes_flag flag = yes; "   \
    "uses parts optional }; materials { beeswax $9 per kg }; price { set $9 }\n"

#define COUNT(array) (sizeof(array) / sizeof *(array))

/* An expression over line ends, and the money it is worth. */
struct worth {
    const char *expression, *top, *bottom;
};

static void assert_worth(const struct worth *cases, size_t count)
{
    char rules[1024];
    for (size_t i = 0; i < count; i++) {
        snprintf(rules, sizeof rules, HEAD "let x = %s\nlet y = $1\n", cases[i].expression);
        assert_named(rules, "x", cases[i].top, cases[i].bottom);
    }
}

/* ---- the text ---- */

static void a_byte_order_mark_is_passed_over(void **state)
{
    (void)state;
    assert_named("\xEF\xBB\xBF" HEAD "let x = $2\n", "x", "2", "1");
}

static void a_byte_order_mark_further_on_is_an_error(void **state)
{
    (void)state;
    assert_false(can_be_read(HEAD "\xEF\xBB\xBFlet x = $2\n"));
}

static void lines_may_end_with_carriage_returns(void **state)
{
    (void)state;
    assert_named("currency USD $\r\nproduct {\r\n  a money = $1\r\n}\r\nprice { set $9 }\r\n"
                 "let x = a +\r\n  $2\r\n",
                 "x", "3", "1");
}

static void a_place_counts_carriage_returns_as_part_of_the_line_end(void **state)
{
    (void)state;
    assert_said("currency USD $\r\nprice { set $9 }\r\nlet x = unknown\r\n", 3, 9,
                "unknown is not known");
}

static void a_column_counts_characters_and_not_bytes(void **state)
{
    (void)state;
    assert_said(HEAD "warn \"äöü€\" when unknown\n", 2, 18, "unknown is not known");
}

static void a_comment_reaches_to_the_end_of_the_line(void **state)
{
    (void)state;
    assert_named(HEAD "let x = $2 # + $3 \" { (\n# let x = $5\n", "x", "2", "1");
}

static void a_number_sign_within_a_text_begins_no_comment(void **state)
{
    (void)state;
    assert_true(can_be_read(HEAD "warn \"no. # 5\" when yes_flag\n"));
}

static void a_comment_may_be_in_any_alphabet(void **state)
{
    (void)state;
    assert_true(can_be_read(HEAD "# Preise für “Möbel” – ошибка 木\n"));
}

static void a_byte_that_is_not_utf8_is_an_error_with_its_place(void **state)
{
    (void)state;
    assert_said(HEAD "# ok\nlet x = \xff\n", 3, 9, "this byte is not valid UTF-8");
    assert_said(HEAD "# \xc3\n", 2, 3, "this byte is not valid UTF-8");     /* cut short */
    assert_said(HEAD "# \xc0\xaf\n", 2, 3, "this byte is not valid UTF-8"); /* too long a form */
    assert_said(HEAD "# \xed\xa0\x80\n", 2, 3, "this byte is not valid UTF-8"); /* a surrogate */
}

/* ---- where a statement ends ---- */

static void a_line_end_ends_a_statement(void **state)
{
    (void)state;
    assert_named(HEAD "let x = $2\nlet y = $3\n", "x", "2", "1");
    assert_false(can_be_read(HEAD "let x = $2 let y = $3\n"));
}

static void a_semicolon_ends_a_statement(void **state)
{
    (void)state;
    assert_named(HEAD "let x = $2; let y = x; ; let z = y;\n", "z", "2", "1");
}

static void a_closing_brace_ends_a_statement(void **state)
{
    (void)state;
    assert_named(HEAD "channel stall { let x = $2 }\n", "x", "2", "1");
    assert_named(HEAD "channel stall { let x = $2; price { floor $1 } }\n", "x", "2", "1");
}

static void the_end_of_the_file_ends_a_statement(void **state)
{
    (void)state;
    assert_named(HEAD "let x = $2", "x", "2", "1");
    assert_named(HEAD "let x = $2 # and a comment", "x", "2", "1");
    assert_named(HEAD "channel stall { let x = $2 }", "x", "2", "1");
}

static void an_opening_brace_stands_on_the_line_of_its_head(void **state)
{
    (void)state;
    assert_true(can_be_read(HEAD "channel stall\t{\n\n\n}\n"));
    assert_false(can_be_read(HEAD "channel stall\n{\n}\n"));
}

/* ---- where a line break does not end it ---- */

static void a_break_within_parentheses_ends_nothing(void **state)
{
    (void)state;
    static const struct worth cases[] = {
        {"(\n$1\n+\n$2\n)", "3", "1"},
        {"($1 + ($2\n* 2)\n+ $1)", "6", "1"},
        {"($1\n- $2)", "-1", "1"},
        {"(if\nnot yes_flag\nthen $1\nelse $2\n)", "2", "1"},
    };
    assert_worth(cases, COUNT(cases));
    assert_named(HEAD "let f(a,\n  b) = a + b\nlet x = f($1,\n\n  $2)\n", "x", "3", "1");
}

static void a_break_after_a_sign_ends_nothing(void **state)
{
    (void)state;
    static const struct worth cases[] = {
        {"$1 +\n$2", "3", "1"},
        {"$1 -\n$2", "-1", "1"},
        {"$3 *\n2", "6", "1"},
        {"$3 /\n2", "3", "2"},
        {"if money_one =\n$1 then $1 else $2", "1", "1"},
        {"if money_one !=\n$1 then $1 else $2", "2", "1"},
        {"if money_one <\n$1 then $1 else $2", "2", "1"},
        {"if money_one <=\n$1 then $1 else $2", "1", "1"},
        {"if money_one >\n$1 then $1 else $2", "2", "1"},
        {"if money_one >=\n$1 then $1 else $2", "1", "1"},
        {"\n\n$4", "4", "1"}, /* after the `=` of the definition */
        {"$1 + # why\n\n# and more\n$2", "3", "1"},
    };
    assert_worth(cases, COUNT(cases));
}

static void a_break_after_an_operator_word_ends_nothing(void **state)
{
    (void)state;
    static const struct worth cases[] = {
        {"if\nyes_flag then\n$1 else\n$2", "1", "1"},
        {"if not\nyes_flag then $1 else $2", "2", "1"},
        {"if yes_flag and\nyes_flag then $1 else $2", "1", "1"},
        {"if no or\nyes_flag then $1 else $2", "1", "1"},
        {"if money_one between\n$1 and\n$3 then $1 else $2", "1", "1"},
        {"50% of\n$4", "2", "1"},
        {"none otherwise\n$5", "5", "1"},
        {"$60 per\n30", "2", "1"},
        {"$2 * (90 min as\nh)", "3", "1"},
        {"$1.40 rounded to\n$1", "1", "1"},
        {"$1.40 rounded up to\n$1", "2", "1"},
        {"$1.60 rounded down to\n$1", "1", "1"},
        {"$2.50 rounded even to\n$1", "2", "1"},
        {"$2.50 rounded nearest to\n$1", "3", "1"},
        {"$1 at least\n$2", "2", "1"},
        {"$1 at most\n$2", "1", "1"},
        {"$6 at margin\n40%", "10", "1"},
        {"$10 marked up\n10%", "11", "1"},
        {"$10 marked down\n10%", "9", "1"},
        {"$9 allowing\n10% lost", "10", "1"},
        {"worth of\nuses otherwise $5", "5", "1"},
    };
    assert_worth(cases, COUNT(cases));
}

static void a_break_after_a_comma_a_colon_or_a_brace_ends_nothing(void **state)
{
    (void)state;
    assert_named(HEAD "table t by money_one,\n  yes_flag {\n\n up to $1,\n any :\n $4\n"
                      "  otherwise :\n $5\n}\nlet x = t\n",
                 "x", "4", "1");
    assert_true(
        can_be_read(HEAD "channel stall {\n\n}\nchannel web { }\nsame price on stall,\n  web\n"));
}

/* ---- where the next line goes on ---- */

static void a_line_that_begins_with_an_operator_goes_on(void **state)
{
    (void)state;
    static const struct worth cases[] = {
        {"$1\n+ $2", "3", "1"},
        {"$1\n\n# between\n\n    + $2", "3", "1"},
        {"$3\n* 2", "6", "1"},
        {"$3\n/ 2", "3", "2"},
        {"if money_one\n= $1 then $1 else $2", "1", "1"},
        {"if money_one\n!= $1 then $1 else $2", "2", "1"},
        {"if money_one\n< $1 then $1 else $2", "2", "1"},
        {"if money_one\n<= $1 then $1 else $2", "1", "1"},
        {"if money_one\n> $1 then $1 else $2", "2", "1"},
        {"if money_one\n>= $1 then $1 else $2", "1", "1"},
        {"if yes_flag\nand no then $1 else $2", "2", "1"},
        {"if yes_flag\nor no then $1 else $2", "1", "1"},
        {"if money_one\nbetween $1\nand $3 then $1 else $2", "1", "1"},
        {"if none\nis missing then $1 else $2", "1", "1"},
        {"50%\nof $4", "2", "1"},
        {"none\notherwise $5", "5", "1"},
        {"$60\nper 30", "2", "1"},
        {"$60\nper order", "60", "1"},
        {"$60\neach", "60", "1"},
        {"$2 * (90 min\nas h)", "3", "1"},
        {"$1.40\nrounded to $1", "1", "1"},
        {"$1.40\nrounded up to $1", "2", "1"},
        {"$1\nat least $2", "2", "1"},
        {"$1\nat most $2", "1", "1"},
        {"$6\nat margin 40%", "10", "1"},
        {"$10\nmarked up 10%", "11", "1"},
        {"$10\nmarked down 10%", "9", "1"},
        {"$9\nallowing 10%\nlost", "10", "1"},
    };
    assert_worth(cases, COUNT(cases));
}

static void a_line_that_begins_with_else_goes_on(void **state)
{
    (void)state;
    static const struct worth cases[] = {
        {"if yes_flag then $1\nelse $2", "1", "1"},
        {"if no then $1\nelse if no then $2\nelse $3", "3", "1"},
    };
    assert_worth(cases, COUNT(cases));
}

static void a_line_that_begins_with_or_more_goes_on_with_its_row(void **state)
{
    (void)state;
    assert_named(HEAD "table t by money_one {\n    $1\n    or more : $5\n    otherwise : $2\n}\n"
                      "let x = t\n",
                 "x", "5", "1");
    assert_named(HEAD "table t by money_one {\n    $2\n    or more : $5\n    otherwise : $2\n}\n"
                      "let x = t\n",
                 "x", "2", "1");
}

static void a_line_that_begins_with_then_goes_on_while_an_if_is_open(void **state)
{
    (void)state;
    static const struct worth cases[] = {
        {"if yes_flag\nthen $1\nelse $2", "1", "1"},
        {"if no\nthen $1\nelse if yes_flag\n\nthen $2\nelse $3", "2", "1"},
    };
    assert_worth(cases, COUNT(cases));
}

static void a_then_of_an_expect_begins_a_line_of_its_own(void **state)
{
    (void)state;
    assert_true(can_be_read(HEAD "expect \"e\" {\n  money_one = $1\n  then price = $9\n"
                                 "  then price > $1\n}\n"));
    assert_true(can_be_read(HEAD "expect \"e\" {\n  then if yes_flag then yes else no\n"
                                 "  then price = $9\n}\n"));
}

static void a_line_that_begins_with_a_minus_or_not_goes_on_with_nothing(void **state)
{
    (void)state;
    assert_said(HEAD "let x = $3\n- $1\n", 3, 1, "`-` does not fit here");
    assert_said(HEAD "let x = yes_flag\nnot yes_flag\n", 3, 1, "`not` does not fit here");
}

static void an_otherwise_before_a_colon_begins_a_row(void **state)
{
    (void)state;
    assert_named(HEAD "table t by money_one {\n  up to $1 : $4\n  otherwise : $5\n}\nlet x = t\n",
                 "x", "4", "1");
    assert_named(HEAD "table t by money_one {\n  up to $1 : none\n  otherwise $6\n"
                      "  otherwise : $5\n}\nlet x = t\n",
                 "x", "6", "1");
}

/* ---- one slip does not hide the rest ---- */

static void a_statement_closes_an_open_parenthesis_with_an_error_there(void **state)
{
    (void)state;
    static const char rules[] = HEAD "let x = ($1 + ($2\nlet y = unknown\nlet z = other\n";
    assert_said(rules, 2, 9, "this ( is not closed");
    assert_said(rules, 3, 9, "unknown is not known");
    assert_said(rules, 4, 9, "other is not known");
}

static void a_statement_word_within_parentheses_closes_nothing_where_it_is_a_name(void **state)
{
    (void)state;
    assert_named(HEAD "show x = ($1 +\ncost\n+ $2)\n", "x", "3", "1");
}

static void a_statement_ends_one_that_breaks_off_after_an_operator(void **state)
{
    (void)state;
    static const char rules[] = HEAD "let x =\nlet y = unknown\n";
    assert_said(rules, 2, 8, "this line ends too early");
    assert_false(can_be_read(rules));
}

static void a_block_closes_an_open_brace_with_an_error_there(void **state)
{
    (void)state;
    static const char rules[] = HEAD "channel stall {\n  fee pitch = $1\n\nchannel web {\n"
                                     "  fee card = unknown\n}\n";
    assert_said(rules, 2, 15, "this { is not closed");
    assert_said(rules, 6, 14, "unknown is not known");
}

static void a_wrong_first_line_leaves_its_block_together(void **state)
{
    (void)state;
    static const char rules[] = HEAD "channel stall {\n  nonsense here\n  fee card = $1 $2\n}\n"
                                     "let y = $1 $2\n";
    assert_said(rules, 3, 3, "`nonsense` does not fit here");
    assert_said(rules, 4, 17, "`$` does not fit here");
    assert_said(rules, 6, 12, "`$` does not fit here");
}

/* ---- names ---- */

static void a_name_has_letters_digits_and_underscores(void **state)
{
    (void)state;
    static const char *const names[] = {"a", "_", "_1", "Wax_2b", "wax", "WAX", "__wax__"};
    static const char *const others[] = {"1a", "wax-2", "wax.2", "w\xC3\xA4x", "wax?"};
    char rules[512];
    for (size_t i = 0; i < COUNT(names); i++) {
        snprintf(rules, sizeof rules, HEAD "let %s = $2\nlet x = %s\n", names[i], names[i]);
        assert_named(rules, "x", "2", "1");
    }
    for (size_t i = 0; i < COUNT(others); i++) {
        snprintf(rules, sizeof rules, HEAD "let %s = $2\n", others[i]);
        assert_false(can_be_read(rules));
    }
}

static void names_differ_by_their_capitals(void **state)
{
    (void)state;
    assert_named(HEAD "let wax_a = $1; let WAX_A = $2; let x = wax_a + WAX_A * 2\n", "x", "5", "1");
}

static void definitions_share_one_set_of_names(void **state)
{
    (void)state;
    static const char *const definitions[] = {
        "rate n = $1",
        "let n = $1",
        "let n(v) = v",
        "cost n = $1",
        "pay n = $1",
        "fee n = $1",
        "buyer pays n = $1",
        "table n by money_one { otherwise : $1 }",
        "rounding n { otherwise : every $1 }",
        "show n = $1",
        "materials { n $1 per g }",
        "product { n money = $1 }",
    };
    char rules[1024];
    for (size_t i = 0; i < COUNT(definitions); i++) {
        for (size_t k = 0; k < COUNT(definitions); k++) {
            snprintf(rules, sizeof rules, HEAD "%s\n%s\n", definitions[i], definitions[k]);
            const char *name = strstr(definitions[k], "n "), *call = strstr(definitions[k], "n(");
            while (name && name > definitions[k] && name[-1] != ' ')
                name = strstr(name + 1, "n ");
            const char *at = call ? call : name;
            assert_non_null(at);
            assert_said(rules, 3, (unsigned)(at - definitions[k]) + 1, "n is defined twice");
        }
    }
}

static void a_parameter_hides_a_name(void **state)
{
    (void)state;
    assert_named(HEAD "let twice(money_one) = money_one * 2\nlet x = twice($5) + money_one\n", "x",
                 "11", "1");
}

static void units_are_a_set_of_names_of_their_own(void **state)
{
    (void)state;
    assert_named(HEAD "unit board = 4 kg\nlet board = $2 per 2 board\nlet x = board * 8 kg\n", "x",
                 "2", "1");
    assert_named(HEAD "product { h money = $3 }\nlet x = h + $1\n", "x", "4", "1");
}

static void a_unit_may_not_have_a_types_name(void **state)
{
    (void)state;
    static const char *const types[] = {"number", "count", "percent", "money", "time",
                                        "length", "area",  "volume",  "mass",  "energy",
                                        "text",   "flag",  "date",    "parts"};
    char rules[512];
    for (size_t i = 0; i < COUNT(types); i++) {
        snprintf(rules, sizeof rules, HEAD "unit %s = 3 kg\n", types[i]);
        assert_said(rules, 2, 6, types[i]);
    }
}

static void some_words_are_never_units(void **state)
{
    (void)state;
    assert_said(HEAD "unit to = 3 kg\n", 2, 6, "to cannot be the name of a unit");
    assert_said(HEAD "unit from = 3 kg\n", 2, 6, "from cannot be the name of a unit");
    assert_said(HEAD "unit optional = 3 kg\n", 2, 6, "optional cannot be the name of a unit");
}

static void channels_are_named_apart_from_definitions(void **state)
{
    (void)state;
    assert_named(HEAD "let stall = $4\nchannel stall { }\nlet x = stall\n", "x", "4", "1");
    assert_said(HEAD "channel stall { }\nlet x = stall\n", 3, 9, "stall is not known");
}

static void the_engines_names_cannot_be_defined(void **state)
{
    (void)state;
    static const char *const names[] = {"quantity", "as_of",  "channel", "cost",     "pay", "list",
                                        "price",    "extras", "tax",     "paid",     "net", "fees",
                                        "keep",     "profit", "margin",  "take_home"};
    char rules[512];
    for (size_t i = 0; i < COUNT(names); i++) {
        snprintf(rules, sizeof rules, HEAD "let %s = $1\n", names[i]);
        assert_said(rules, 2, 5, names[i]);
        snprintf(rules, sizeof rules, HEAD "product { %s money = $1 }\n", names[i]);
        assert_said(rules, 2, 11, names[i]);
    }
}

static void statement_words_are_names_elsewhere(void **state)
{
    (void)state;
    static const char *const words[] = {
        "currency", "unit",     "use",      "materials", "product", "rate",     "let",    "table",
        "rounding", "fee",      "show",     "warn",      "refuse",  "goal",     "expect", "any",
        "sliced",   "optional", "from",     "when",      "on",      "needs",    "gives",  "takes",
        "has",      "aim",      "set",      "floor",     "ceiling", "discount", "pin",    "round",
        "none_",    "added",    "included", "every",     "to",      "by",       "below",  "over",
        "weighs",   "refused",  "warned",   "error",     "likely",
    };
    char rules[512];
    for (size_t i = 0; i < COUNT(words); i++) {
        snprintf(rules, sizeof rules, HEAD "let %s = $2\nlet x = %s + $1\n", words[i], words[i]);
        assert_named(rules, "x", "3", "1");
    }
}

static void operator_words_are_never_names(void **state)
{
    (void)state;
    static const char *const words[] = {"and",  "or",        "not",     "if",       "then",
                                        "else", "otherwise", "between", "of",       "per",
                                        "as",   "rounded",   "marked",  "allowing", "worth",
                                        "yes",  "no",        "more",    "lost",     "missing"};
    char rules[512];
    for (size_t i = 0; i < COUNT(words); i++) {
        snprintf(rules, sizeof rules, HEAD "let %s = $2\n", words[i]);
        assert_said(rules, 2, 5, "`");
    }
}

/* ---- operators of two words ---- */

static void the_words_of_an_operator_may_stand_apart_on_a_line(void **state)
{
    (void)state;
    static const struct worth cases[] = {
        {"$1 at   least $2", "2", "1"},
        {"$1 at\tmost $2", "1", "1"},
        {"$10 marked \t up 10%", "11", "1"},
        {"$60 per  order", "60", "1"},
        {"if none is  missing then $1 else $2", "1", "1"},
    };
    assert_worth(cases, COUNT(cases));
    assert_true(can_be_read(HEAD "buyer  pays wrap = $1\nchannel stall { only  when yes_flag }\n"));
}

static void the_words_of_an_operator_stand_on_one_line(void **state)
{
    (void)state;
    static const char *const texts[] = {
        "let x = $1 at\nleast $2",
        "let x = $1 at\nmost $2",
        "let x = $6 at\nmargin 40%",
        "let x = $10 marked\nup 10%",
        "let x = $10 marked\ndown 10%",
        "let x = $10 per\norder",
        "let x = worth\nof uses",
        "let x = none is\nmissing",
        "buyer\npays wrap = $1",
        "channel stall { only\nwhen yes_flag }",
        "channel a { }; channel b { }; same\nprice on a, b",
        "table t by money_one { $5 or\nmore : $1; otherwise : $2 }",
        "table t by money_one { up\nto $5 : $1; otherwise : $2 }",
        "rounding r { otherwise : ends\nin .99 }",
    };
    char rules[512];
    for (size_t i = 0; i < COUNT(texts); i++) {
        snprintf(rules, sizeof rules, HEAD "%s\n", texts[i]);
        if (can_be_read(rules))
            fail_msg("this can be read: %s", texts[i]);
    }
}

static void a_longer_word_is_no_operator(void **state)
{
    (void)state;
    assert_named(HEAD "let at = $1; let leastwise = $2; let x = at + leastwise\n", "x", "3", "1");
    assert_said(HEAD "let x = $1 at leastwise\n", 2, 12, "`at` does not fit here");
}

static void an_equals_sign_defines_first_and_then_compares(void **state)
{
    (void)state;
    assert_named(HEAD "let same = money_one = $1\nlet x = if same = yes then $1 else $2\n", "x",
                 "1", "1");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_byte_order_mark_is_passed_over),
        cmocka_unit_test(a_byte_order_mark_further_on_is_an_error),
        cmocka_unit_test(lines_may_end_with_carriage_returns),
        cmocka_unit_test(a_place_counts_carriage_returns_as_part_of_the_line_end),
        cmocka_unit_test(a_column_counts_characters_and_not_bytes),
        cmocka_unit_test(a_comment_reaches_to_the_end_of_the_line),
        cmocka_unit_test(a_number_sign_within_a_text_begins_no_comment),
        cmocka_unit_test(a_comment_may_be_in_any_alphabet),
        cmocka_unit_test(a_byte_that_is_not_utf8_is_an_error_with_its_place),
        cmocka_unit_test(a_line_end_ends_a_statement),
        cmocka_unit_test(a_semicolon_ends_a_statement),
        cmocka_unit_test(a_closing_brace_ends_a_statement),
        cmocka_unit_test(the_end_of_the_file_ends_a_statement),
        cmocka_unit_test(an_opening_brace_stands_on_the_line_of_its_head),
        cmocka_unit_test(a_break_within_parentheses_ends_nothing),
        cmocka_unit_test(a_break_after_a_sign_ends_nothing),
        cmocka_unit_test(a_break_after_an_operator_word_ends_nothing),
        cmocka_unit_test(a_break_after_a_comma_a_colon_or_a_brace_ends_nothing),
        cmocka_unit_test(a_line_that_begins_with_an_operator_goes_on),
        cmocka_unit_test(a_line_that_begins_with_else_goes_on),
        cmocka_unit_test(a_line_that_begins_with_or_more_goes_on_with_its_row),
        cmocka_unit_test(a_line_that_begins_with_then_goes_on_while_an_if_is_open),
        cmocka_unit_test(a_then_of_an_expect_begins_a_line_of_its_own),
        cmocka_unit_test(a_line_that_begins_with_a_minus_or_not_goes_on_with_nothing),
        cmocka_unit_test(an_otherwise_before_a_colon_begins_a_row),
        cmocka_unit_test(a_statement_closes_an_open_parenthesis_with_an_error_there),
        cmocka_unit_test(a_statement_word_within_parentheses_closes_nothing_where_it_is_a_name),
        cmocka_unit_test(a_statement_ends_one_that_breaks_off_after_an_operator),
        cmocka_unit_test(a_block_closes_an_open_brace_with_an_error_there),
        cmocka_unit_test(a_wrong_first_line_leaves_its_block_together),
        cmocka_unit_test(a_name_has_letters_digits_and_underscores),
        cmocka_unit_test(names_differ_by_their_capitals),
        cmocka_unit_test(definitions_share_one_set_of_names),
        cmocka_unit_test(a_parameter_hides_a_name),
        cmocka_unit_test(units_are_a_set_of_names_of_their_own),
        cmocka_unit_test(a_unit_may_not_have_a_types_name),
        cmocka_unit_test(some_words_are_never_units),
        cmocka_unit_test(channels_are_named_apart_from_definitions),
        cmocka_unit_test(the_engines_names_cannot_be_defined),
        cmocka_unit_test(statement_words_are_names_elsewhere),
        cmocka_unit_test(operator_words_are_never_names),
        cmocka_unit_test(the_words_of_an_operator_may_stand_apart_on_a_line),
        cmocka_unit_test(the_words_of_an_operator_stand_on_one_line),
        cmocka_unit_test(a_longer_word_is_no_operator),
        cmocka_unit_test(an_equals_sign_defines_first_and_then_compares),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
