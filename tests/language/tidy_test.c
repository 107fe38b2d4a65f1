/* The layout that groat_tidy gives: each rule of "Tidy" in LANGUAGE.md. */
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

static void blank_lines_in_a_block_stay(void **state)
{
    (void)state;
    assert_tidy("price {\n\n    set $5\n\n    floor $3\n\n}\n");
}

/* ---- spaces ---- */

static void one_space_stands_around_operators_and_after_commas(void **state)
{
    (void)state;
    assert_tidied("let x=a+b*c/d-e\n", "let x = a + b * c / d - e\n");
    assert_tidied("let x = a   >=b  and  not c!=d or e<f\n",
                  "let x = a >= b and not c != d or e < f\n");
    assert_tidied("let f(a ,b)= share( a,b )*( a+b )\n", "let f(a, b) = share(a, b) * (a + b)\n");
    assert_tidied("let x=(a)at least(b)\nlet y = f (x)\n",
                  "let x = (a) at least (b)\nlet y = f(x)\n");
}

static void a_minus_that_negates_stands_at_its_value(void **state)
{
    (void)state;
    assert_tidied("let x = - 3+ -a - -  b-(- c)\nlet y = - - d\n",
                  "let x = -3 + -a - -b - (-c)\nlet y = --d\n");
}

static void units_stand_after_a_space_and_signs_of_money_without(void **state)
{
    (void)state;
    assert_tidied("let a = 25min + 1h 20  min\nlet b = $ 26 per  h\nlet c = 45kr + 7.80USD\n",
                  "let a = 25 min + 1 h 20 min\nlet b = $26 per h\nlet c = 45 kr + 7.80 USD\n");
    assert_tidied("let a = 5€ + € .50\nlet b = USD  5\nlet c = zł 5 + 5zł\nlet d = R$ 3\n",
                  "let a = 5 € + €.50\nlet b = USD 5\nlet c = zł 5 + 5 zł\nlet d = R$3\n");
    assert_tidied("let a = 144in ^ 3\nlet b = 1-1/2in + 3/4  in\nlet c = 3/4\nlet d = -$2\n",
                  "let a = 144 in^3\nlet b = 1-1/2 in + 3/4 in\nlet c = 3 / 4\nlet d = -$2\n");
    assert_tidied("let a = 5%of b\nlet c = 1_000 per 5l\n",
                  "let a = 5% of b\nlet c = 1_000 per 5 l\n");
}

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

/* Words of statements are names where they can be nothing else. */
static void a_statement_s_word_that_is_a_name_is_set_out_as_one(void **state)
{
    (void)state;
    assert_tidied("show x=price-cost -pay\n", "show x = price - cost - pay\n");
    assert_tidied("rate x=(a)to -b likely(c)\n", "rate x = (a) to -b likely (c)\n");
    assert_tidied("rate x=-1to-2 likely-  3\n", "rate x = -1 to -2 likely -3\n");
    assert_tidied("price {\nset -x\naim(a)>=b\nfloor(c)\nset price\n}\n",
                  "price {\n    set   -x\n    aim   (a) >= b\n    floor (c)\n    set   price\n}\n");
    assert_tidied("warn \"a\" when(b)\nwarn \"b\" when -c<0\n",
                  "warn \"a\" when (b)\nwarn \"b\" when -c < 0\n");
    assert_tidied("materials {\n  oil ($5)per l\n}\n", "materials {\n    oil  ($5) per l\n}\n");
    assert_tidied("table t by (a),-b {\nx-1:f(2)\n}\n",
                  "table t by (a), -b {\n    x - 1 : f(2)\n}\n");
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

static void a_block_on_one_line_stays_there(void **state)
{
    (void)state;
    assert_tidied("price{set $5}\nchannel a{ }\nchannel b {}\nproduct {name text;wood money ;}\n",
                  "price { set $5 }\nchannel a { }\nchannel b { }\n"
                  "product { name text; wood money; }\n");
}

static void statements_on_one_line_stay_there(void **state)
{
    (void)state;
    assert_tidied("rate a=1 ;rate bcd=2;\nexpect \"x\" {\na=1;b = 2\n;c=3\nthen d\n}\n",
                  "rate a = 1; rate bcd = 2;\nexpect \"x\" {\n    a = 1; b = 2\n    ; c = 3\n"
                  "    then d\n}\n");
}

static void a_line_that_goes_on_begins_one_level_further_in(void **state)
{
    (void)state;
    assert_tidied("let also =\nbench * hourly\n          + setup\nlet b = 1\n",
                  "let also =\n    bench * hourly\n    + setup\nlet b = 1\n");
    assert_tidied("channel a {\nfee b = c +\nd\n}\n",
                  "channel a {\n    fee b = c +\n        d\n}\n");
    assert_tidied("same price on a,\nb,\n\n\nc\n", "same price on a,\n    b,\n\n\n    c\n");
    assert_tidied("table t by a,\nb {\nany, any:\n5\n}\n",
                  "table t by a,\n    b {\n    any, any :\n        5\n}\n");
}

static void then_and_else_stand_under_the_if_they_belong_to(void **state)
{
    (void)state;
    assert_tidied("let a =\nif b\nthen $2\nelse $1\n",
                  "let a =\n    if b\n        then $2\n        else $1\n");
    assert_tidied("let a = if b\nthen $2\n+ $3\nelse $1 +\n$4\n",
                  "let a = if b\n    then $2\n        + $3\n    else $1 +\n        $4\n");
    assert_tidied("let a =\nif b\nthen if c\nthen 1\nelse 2\nelse 3\n",
                  "let a =\n    if b\n        then if c\n            then 1\n            else 2\n"
                  "        else 3\n");
    assert_tidied("let a =\nif b\nthen 1\nelse if c\nthen 2\nelse if d\nthen 3\nelse 4\n",
                  "let a =\n    if b\n        then 1\n        else if c\n        then 2\n"
                  "        else if d\n        then 3\n        else 4\n");
    assert_tidied("let a = 1 + (if b\nthen 2\nelse 3\n)\n",
                  "let a = 1 + (if b\n                 then 2\n                 else 3\n"
                  "            )\n");
}

static void within_parentheses_lines_stand_under_what_comes_first(void **state)
{
    (void)state;
    assert_tidied("let a = b of (c\n+ d\n- e(f,\ng)\n)\n",
                  "let a = b of (c\n              + d\n              - e(f,\n"
                  "                  g)\n             )\n");
    assert_tidied("let a = (\nb +\n(\nc\n)\n)\n",
                  "let a = (\n    b +\n    (\n        c\n    )\n)\n");
}

/* ---- columns ---- */

static void fields_stand_in_columns(void **state)
{
    (void)state;
    assert_tidied("product {\n"
                  "name text\n"
                  "timber volume as bf = 0 bf\n"
                  "rate money per mass from \"day's price\" optional\n"
                  "low money from \"low\" = $1\n"
                  "}\n",
                  "product {\n"
                  "    name    text\n"
                  "    timber  volume as bf     = 0 bf\n"
                  "    rate    money per mass   from \"day's price\" optional\n"
                  "    low     money            from \"low\"         = $1\n"
                  "}\n");
}

static void materials_stand_in_columns(void **state)
{
    (void)state;
    assert_tidied("materials {\nscrews $9 per 200\noil $36 per 5l weighs 0.9 kg per l\n}\n",
                  "materials {\n    screws  $9 per 200\n"
                  "    oil     $36 per 5 l   weighs 0.9 kg per l\n}\n");
}

static void definitions_stand_in_columns(void **state)
{
    (void)state;
    assert_tidied("rate ab = 1\nlet f(a,b) = 2\ncost c = 3\npay def = 4\n"
                  "tax  added 20%\nshow a_long_name = 6\nunit crate\nunit day_off = 8 h\n"
                  "fee h = 5\n",
                  "rate ab      = 1\nlet  f(a, b) = 2\ncost c       = 3\npay  def     = 4\n"
                  "tax  added 20%\nshow a_long_name = 6\nunit crate\nunit day_off = 8 h\n"
                  "fee  h       = 5\n");
}

static void rows_stand_at_their_colons(void **state)
{
    (void)state;
    assert_tidied("table t by a sliced {\nup to 500 g:$1\n\"oak\" or \"ash\",no : $2\n"
                  "otherwise:$3\n}\n",
                  "table t by a sliced {\n    up to 500 g        : $1\n"
                  "    \"oak\" or \"ash\", no : $2\n    otherwise          : $3\n}\n");
    assert_tidied(
        "rounding r {\nbelow $10:ends in .49 or.99\notherwise:every $5\n}\n",
        "rounding r {\n    below $10 : ends in .49 or .99\n    otherwise : every $5\n}\n");
}

static void lines_of_a_price_and_of_a_goal_stand_in_columns(void **state)
{
    (void)state;
    assert_tidied("price {\naim margin>=35%\nfloor none\nceiling a\ndiscount b\npin c\n"
                  "round up to $1\n}\n",
                  "price {\n    aim      margin >= 35%\n    floor    none\n    ceiling  a\n"
                  "    discount b\n    pin      c\n    round    up to $1\n}\n");
    assert_tidied(
        "goal \"g\" {\nneeds $5 per month\ngives profit\ntakes a\nhas 40 h per month\n}\n",
        "goal \"g\" {\n    needs $5 per month\n    gives profit\n    takes a\n"
        "    has   40 h per month\n}\n");
}

static void warnings_and_refusals_stand_in_columns(void **state)
{
    (void)state;
    assert_tidied("warn \"a\" when b\nrefuse \"cde\" when f\n",
                  "warn   \"a\"   when b\nrefuse \"cde\" when f\n");
}

static void sums_of_an_expect_stand_at_their_equals_signs(void **state)
{
    (void)state;
    assert_tidied(
        "expect \"e\" {\na=1\nbcd=2\non c\nthen price=$1\nthen 2+2=4\nthen (a=b)=yes\n"
        "then margin>=2%\nthen a=1 and b=2\nthen refused\nthen warned \"w\"\nthen error\n}\n",
        "expect \"e\" {\n    a   = 1\n    bcd = 2\n    on c\n    then price   = $1\n"
        "    then 2 + 2   = 4\n    then (a = b) = yes\n    then margin >= 2%\n"
        "    then a = 1 and b = 2\n    then refused\n    then warned \"w\"\n"
        "    then error\n}\n");
}

static void what_is_alone_keeps_single_spaces(void **state)
{
    (void)state;
    assert_tidied("currency  USD   $\nuse   \"a.rules\"\nbuyer pays a  =  $1\n",
                  "currency USD $\nuse \"a.rules\"\nbuyer pays a = $1\n");
}

static void a_blank_line_or_another_kind_of_line_begins_new_columns(void **state)
{
    (void)state;
    assert_tidied(
        "rate a = 1\nrate bc = 2\n\nrate d = 3\nuse \"x\"\nrate efg = 4\n# why\nrate h = 5\n",
        "rate a  = 1\nrate bc = 2\n\nrate d = 3\nuse \"x\"\nrate efg = 4\n# why\n"
        "rate h   = 5\n");
}

static void columns_are_counted_in_characters(void **state)
{
    (void)state;
    assert_tidied("warn \"zu groß\" when a\nwarn \"too large\" when b # €\nwarn \"ß\" when c # d\n",
                  "warn \"zu groß\"   when a\nwarn \"too large\" when b  # €\n"
                  "warn \"ß\"         when c  # d\n");
}

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

static void comments_stand_where_the_first_of_them_stood(void **state)
{
    (void)state;
    assert_tidied("rate a = 1       # one\nrate b = 22 # two\nrate c = 333              # three\n",
                  "rate a = 1       # one\nrate b = 22      # two\nrate c = 333     # three\n");
}

static void comments_move_left_when_the_first_leaves_no_room_or_tabs_hide_where_it_was(void **state)
{
    (void)state;
    assert_tidied("rate a = 1 # one\nrate b = 4444        # two\n",
                  "rate a = 1     # one\nrate b = 4444  # two\n");
    assert_tidied("rate a = 1\t\t# one\nrate b = 22   # two\n",
                  "rate a = 1   # one\nrate b = 22  # two\n");
}

static void
comments_with_lines_without_one_between_share_a_column_unless_it_was_chosen(void **state)
{
    (void)state;
    assert_tidied("rate a = 1 # one\nrate b = 2\nrate c = 333 # three\n",
                  "rate a = 1    # one\nrate b = 2\nrate c = 333  # three\n");
    assert_tidied("rate a = 1 # one\nrate b = 2\nrate c = 333   # three\n",
                  "rate a = 1  # one\nrate b = 2\nrate c = 333   # three\n");
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

static void rules_that_can_be_read_but_mean_nothing_are_tidied(void **state)
{
    (void)state;
    assert_tidied("use \"nowhere.rules\"\nlet  a=unknown\n",
                  "use \"nowhere.rules\"\nlet a = unknown\n");
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

/* ---- all of the language ---- */

/* Every example of LANGUAGE.md, which has every kind of statement. */
static void every_example_of_the_manual_stays_what_it_is(void **state)
{
    (void)state;
    struct text_file manual;
    assert_true(text_file_read("grammar/LANGUAGE.md", &manual));
    size_t count = 0;
    for (const char *at = strstr(manual.text, "\n```groat"); at; at = strstr(at, "\n```groat")) {
        const char *begin = strchr(at + 1, '\n') + 1, *end = strstr(begin, "\n```\n");
        bool wrong = strncmp(at, "\n```groat-wrong", 15) == 0;
        assert_non_null(end);
        at = end + 1;
        if (wrong)
            continue;
        groat_tidied_free(tidy_well("an example", begin, (size_t)(end + 1 - begin)).object);
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
        cmocka_unit_test(blank_lines_in_a_block_stay),
        cmocka_unit_test(one_space_stands_around_operators_and_after_commas),
        cmocka_unit_test(a_minus_that_negates_stands_at_its_value),
        cmocka_unit_test(units_stand_after_a_space_and_signs_of_money_without),
        cmocka_unit_test(words_that_belong_together_have_one_space_between),
        cmocka_unit_test(spelling_is_never_changed),
        cmocka_unit_test(a_statement_s_word_that_is_a_name_is_set_out_as_one),
        cmocka_unit_test(what_stands_in_braces_begins_four_spaces_further_in),
        cmocka_unit_test(a_block_on_one_line_stays_there),
        cmocka_unit_test(statements_on_one_line_stay_there),
        cmocka_unit_test(a_line_that_goes_on_begins_one_level_further_in),
        cmocka_unit_test(then_and_else_stand_under_the_if_they_belong_to),
        cmocka_unit_test(within_parentheses_lines_stand_under_what_comes_first),
        cmocka_unit_test(fields_stand_in_columns),
        cmocka_unit_test(materials_stand_in_columns),
        cmocka_unit_test(definitions_stand_in_columns),
        cmocka_unit_test(rows_stand_at_their_colons),
        cmocka_unit_test(lines_of_a_price_and_of_a_goal_stand_in_columns),
        cmocka_unit_test(warnings_and_refusals_stand_in_columns),
        cmocka_unit_test(sums_of_an_expect_stand_at_their_equals_signs),
        cmocka_unit_test(what_is_alone_keeps_single_spaces),
        cmocka_unit_test(a_blank_line_or_another_kind_of_line_begins_new_columns),
        cmocka_unit_test(columns_are_counted_in_characters),
        cmocka_unit_test(a_cell_far_too_long_does_not_move_the_others),
        cmocka_unit_test(a_comment_of_its_own_stands_at_the_level_of_what_follows),
        cmocka_unit_test(a_comment_at_the_end_of_a_line_stays_there),
        cmocka_unit_test(comments_stand_where_the_first_of_them_stood),
        cmocka_unit_test(
            comments_move_left_when_the_first_leaves_no_room_or_tabs_hide_where_it_was),
        cmocka_unit_test(
            comments_with_lines_without_one_between_share_a_column_unless_it_was_chosen),
        cmocka_unit_test(a_chosen_column_is_kept_up_to_the_widest_code_and_no_further),
        cmocka_unit_test(code_wider_than_that_has_its_comment_two_spaces_behind_and_moves_no_other),
        cmocka_unit_test(what_cannot_be_read_is_not_tidied_and_is_told_as_when_it_is_checked),
        cmocka_unit_test(rules_that_can_be_read_but_mean_nothing_are_tidied),
        cmocka_unit_test(the_rules_that_are_handed_out_are_tidy),
        cmocka_unit_test(every_rules_file_of_the_tests_stays_what_it_is),
        cmocka_unit_test(every_example_of_the_manual_stays_what_it_is),
    };
    return cmocka_run_group_tests_name("tidy", tests, NULL, NULL);
}
