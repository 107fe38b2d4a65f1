/* How the expressions of an explanation are written, and what they come to. Every expected figure is
 * worked out by hand beside it. */
#include "unit/explain_checks.h"

#define ODD                                                                                        \
    "currency JPY \xC2\xA5\n"                                                                      \
    "product { kind text = \"a # b\"; w mass as g = 0 g; x number = 7 }\n"                         \
    "rate hourly = \xC2\xA5"                                                                       \
    "3000 per h\n"                                                                                 \
    "rate minute = hourly / 60\n"                                                                  \
    "let twice(x) = x * 2 + w * \xC2\xA5"                                                          \
    "1 per g\n"                                                                                    \
    "let base = twice(\xC2\xA5"                                                                    \
    "100 + # a comment \"with a quote\n"                                                           \
    "    \xC2\xA5"                                                                                 \
    "50)\n"                                                                                        \
    "let label = if kind = \"say \\\"#\\\"\" then \xC2\xA5"                                        \
    "10 else \xC2\xA5"                                                                             \
    "1\n"                                                                                          \
    "let over = \xC2\xA5"                                                                          \
    "5\n"                                                                                          \
    "table t by w { up to 10 g : over + \xC2\xA5"                                                  \
    "7\n"                                                                                          \
    "    otherwise : \xC2\xA5"                                                                     \
    "9 }\n"                                                                                        \
    "cost a = base + label   # and so on\n"                                                        \
    "cost b = over + t\n"                                                                          \
    "pay h = 20 min * hourly\n"                                                                    \
    "channel stall {\n"                                                                            \
    "    let over = \xC2\xA5"                                                                      \
    "50\n"                                                                                         \
    "}\n"                                                                                          \
    "channel other {\n"                                                                            \
    "}\n"                                                                                          \
    "price { set cost; round up to \xC2\xA5"                                                       \
    "10 }\n"

static void comments_and_line_breaks_are_no_part_of_an_expression(void **state)
{
    (void)state;
    read_rules("odd.rules", ODD);
    explain("stall", 1, NULL);
    assert_line("a",
                "\xC2\xA5"
                "300 + \xC2\xA5"
                "1",
                "\xC2\xA5"
                "301");
    explain("stall", 1, "base");
    assert_string_equal(line_of("base")->written, "twice(\xC2\xA5"
                                                  "100 + \xC2\xA5"
                                                  "50)");
}

static void a_text_is_quoted_as_the_rules_would(void **state)
{
    (void)state;
    read_rules("odd.rules", ODD);
    set_fields("kind=say \"#\"");
    explain("stall", 1, "label");
    assert_string_equal(line_of("label")->written, "if kind = \"say \\\"#\\\"\" then \xC2\xA5"
                                                   "10 else \xC2\xA5"
                                                   "1");
    assert_line("label",
                "if \"say \\\"#\\\"\" = \"say \\\"#\\\"\" then \xC2\xA5"
                "10 else \xC2\xA5"
                "1",
                "\xC2\xA5"
                "10");
    assert_line("kind", NULL, NULL);
    assert_string_equal(line_of("kind")->amount, "\"say \\\"#\\\"\"");
}

static void a_function_gives_its_names_but_not_its_parameters(void **state)
{
    (void)state;
    read_rules("odd.rules", ODD);
    explain("stall", 1, "base");
    assert_int_equal(groat_explanation_lines(explanation), 2);
    assert_string_equal(groat_explanation_line(explanation, 1)->name, "w");
    assert_int_equal(groat_explanation_line(explanation, 1)->depth, 1);
}

static void a_channel_explains_its_own_definition(void **state)
{
    (void)state;
    read_rules("odd.rules", ODD);
    explain("stall", 1, "b");
    /* the row's expression is the channel's too: 50 + 7 */
    assert_line("b",
                "\xC2\xA5"
                "50 + \xC2\xA5"
                "57",
                "\xC2\xA5"
                "107");
    assert_int_equal(line_of("over")->line, 16);
    explain("other", 1, "b");
    assert_line("b",
                "\xC2\xA5"
                "5 + \xC2\xA5"
                "12",
                "\xC2\xA5"
                "17");
    assert_int_equal(line_of("over")->line, 9);
}

static void a_table_is_the_row_that_answered(void **state)
{
    (void)state;
    read_rules("odd.rules", ODD);
    explain("other", 1, "t");
    assert_line("t",
                "up to 10 g : over + \xC2\xA5"
                "7",
                "\xC2\xA5"
                "12");
    assert_int_equal(line_of("t")->line, 10);
    assert_non_null(line_of("w"));
    assert_non_null(line_of("over"));
    set_fields("w=11");
    explain("other", 1, "t");
    assert_line("t",
                "otherwise : \xC2\xA5"
                "9",
                "\xC2\xA5"
                "9");
    assert_null(line_of("over"));
}

static void a_rate_from_outside_says_so(void **state)
{
    (void)state;
    read_rules("odd.rules", ODD);
    groat_rate_value value = {.rate = "hourly",
                              .value = "\xC2\xA5"
                                       "3600 per h"};
    groat_trouble trouble;
    groat_method *other = groat_method_with_rates(method, &value, 1, &trouble);
    assert_non_null(other);
    explain_with(other, "stall", 1, "h");
    assert_line("h",
                "20 min * \xC2\xA5"
                "3600 per h",
                "\xC2\xA5"
                "1200");
    assert_line("hourly",
                "replaced by \xC2\xA5"
                "3600 per h",
                "\xC2\xA5"
                "3600 per h");
    assert_string_equal(line_of("hourly")->written, "\xC2\xA5"
                                                    "3000 per h");
    explain_with(other, "stall", 1, "minute");
    assert_line("minute",
                "\xC2\xA5"
                "3600 per h / 60",
                NULL);
    groat_method_free(other);
}

/* 25 minutes at $24 an hour are $10. */
static void a_range_says_that_its_likely_value_counts(void **state)
{
    (void)state;
    read_rules("r.rules", "currency USD $\n"
                          "product { bench time as min; glue money = $4 to $6 likely $4.50 }\n"
                          "rate hourly = $20 to $30 per h likely $24\n"
                          "rate helper = $14 to $18 per h\n"
                          "cost c = bench * (hourly + helper) + glue\n"
                          "channel stall { }\n"
                          "price { set c }\n");
    set_fields("bench=20 to 30");
    explain("stall", 1, "c");
    assert_line("c", "25 min * ($24.00 per h + $16.00 per h) + $4.50", "$21.17");
    assert_line("hourly", "the likely value of $20 to $30 per h likely $24", "$24.00 per h");
    assert_line("helper", "the midpoint of $14 to $18 per h", "$16.00 per h");
    assert_line("bench", "the likely value of 20 min to 30 min", "25 min");
    assert_line("glue", "the likely value of $4.00 to $6.00", "$4.50");
    groat_record_lean(record, groat_method_find_field(method, "bench"), GROAT_LOW);
    explain("stall", 1, "c");
    assert_line("bench", NULL, "20 min");
}

/* 500 g of oil of 0.915 kg a litre are 0.54645 l, at $36 for five of them $3.93. The cord's middle is
 * $3 a metre. What a part costs stands below the line that counts it, and only once. */
static void each_part_that_is_counted_has_a_line_of_its_own(void **state)
{
    (void)state;
    read_rules("m.rules", "currency USD $\n"
                          "materials { olive $36 per 5 l weighs 0.915 kg per l; lye $4 per 1 kg\n"
                          "screws $9.60 per 200; cord $2 to $4 per m }\n"
                          "product { uses parts; work time as min = 0 min }\n"
                          "rate hourly = $20 to $30 per h likely $21 per h\n"
                          "let stuff = worth of uses\n"
                          "cost goods = stuff\n"
                          "cost again = worth of uses\n"
                          "pay hands = work * hourly\n"
                          "channel stall { }\n"
                          "price { set cost; floor work * hourly }\n");
    set_fields("uses=olive 500 g + lye 70 g + screws 8 + cord 0.5 m");
    set_fields("work=20 min to 40 min");
    explain("stall", 1, NULL);
    assert_line("goods", "$6.10", "$6.10");
    assert_line("olive", "500 g at $36 per 5 l, weighing 0.915 kg per l", "$3.93");
    assert_line("lye", "70 g at $4 per 1 kg", "$0.28");
    assert_line("screws", "8 at $9.60 per 200", "$0.38");
    assert_line("cord", "500 mm at $3.00 per m, the midpoint of $2 to $4 per m", "$1.50");
    assert_line("work", "the likely value of 20 min to 40 min", "30 min");
    assert_line("hourly", "the likely value of $20 to $30 per h likely $21 per h", "$21.00 per h");
    size_t details = 0;
    for (size_t i = 0; i < groat_explanation_lines(explanation); i++)
        details += groat_explanation_line(explanation, i)->part == GROAT_PART_DETAIL;
    assert_int_equal(details, 6);
    assert_string_equal(groat_explanation_line(explanation, 1)->name, "olive");
    explain("stall", 1, "goods");
    assert_line("olive", "500 g at $36 per 5 l, weighing 0.915 kg per l", "$3.93");
    assert_int_equal(line_of("olive")->depth, 3);
}

static void three_decimals_are_three(void **state)
{
    (void)state;
    read_rules("d.rules", "currency KWD KD\nlet third = 10 KD / 3\ncost c = third\n"
                          "price { aim profit >= 1 KD }\n");
    explain("direct", 1, NULL);
    assert_line("c", "3.333 KD", "3.333 KD");
    /* 4.333 leaves 0.999666... */
    assert_below(GROAT_ON_AIM, "4.333 KD", 1);
    assert_miss(0, "direct", "aim", "0.9997 KD >= 1 KD");
}

static void names_that_can_be_explained_are_the_rules_and_the_engines(void **state)
{
    (void)state;
    static const char *const wanted[] = {"cost", "take_home", "hourly", "base", "t", "a", "w"};
    read_rules("odd.rules", ODD);
    size_t count = groat_method_names(method), found = 0;
    for (size_t i = 0; i < count; i++) {
        const char *name = groat_method_name(method, i);
        assert_string_not_equal(name, "twice");
        for (size_t k = 0; k < sizeof wanted / sizeof *wanted; k++)
            found += strcmp(name, wanted[k]) == 0;
    }
    assert_int_equal(found, sizeof wanted / sizeof *wanted);
    assert_null(groat_method_name(method, count));
}

static void a_show_is_exact_in_the_unit_it_is_shown_in(void **state)
{
    (void)state;
    read_rules("s.rules", "currency USD $\nlet w = 90 min\ncost c = $2\nshow c\n"
                          "show long as h = w\nprice { set $5 }\n");
    explain("direct", 1, NULL);
    assert_line("long", "90 min", "1.5 h");
    assert_exact("long", "3", "2");
    const groat_line *last = NULL; /* `show c`, beside the cost c */
    for (size_t i = 0; i < groat_explanation_lines(explanation); i++)
        if (groat_explanation_line(explanation, i)->part == GROAT_PART_SHOW && !last)
            last = groat_explanation_line(explanation, i);
    assert_string_equal(last->name, "c");
    assert_string_equal(last->amount, "$2.00");
}

/* An own unit, and the unit of a rate's first part, are how amounts of their kind are written. */
static void an_amount_is_written_in_a_unit_that_the_rules_use(void **state)
{
    (void)state;
    read_rules("u.rules", "currency USD $\nunit sheet\nunit board\n"
                          "product { x number = 7 }\n"
                          "rate dough = 2 oz * 3\n"
                          "let flour = dough * 2\n"
                          "let need = x * 1 board\n"
                          "show flour_ as oz = flour\nshow need_ as board = need\n"
                          "price { set $5 }\n");
    explain("direct", 1, "flour");
    assert_line("flour", "6 oz * 2", "12 oz");
    explain("direct", 1, "need");
    assert_line("need", "7 * 1 board", "7 board");
}

static void a_table_of_percentages_is_told_in_percent(void **state)
{
    (void)state;
    read_rules("p.rules", "currency USD $\nproduct { stuff money }\n"
                          "table share by stuff { up to $10 : 5%; otherwise : 7% }\n"
                          "cost rent = stuff * share\nprice { set cost }\n");
    set_fields("stuff=$20");
    explain("direct", 1, NULL);
    assert_line("rent", "$20.00 * 7%", "$1.40");
}

static void a_date_stands_in_the_place_of_its_name(void **state)
{
    (void)state;
    read_rules("t.rules", "currency USD $\nproduct { made date; uses parts optional }\n"
                          "materials { screws $9.60 per 200 }\n"
                          "cost wait = if made > 2026-01-31 then $2 else $3\n"
                          "cost extra = if uses is missing then $4 else $5\n"
                          "price { set cost }\n");
    set_fields("made=2026-03-02");
    explain("direct", 1, NULL);
    assert_line("wait", "if 2026-03-02 > 2026-01-31 then $2 else $3", "$2.00");
    assert_line("extra", "if uses is missing then $4 else $5", "$4.00");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(comments_and_line_breaks_are_no_part_of_an_expression),
        TEST(a_text_is_quoted_as_the_rules_would),
        TEST(a_function_gives_its_names_but_not_its_parameters),
        TEST(a_channel_explains_its_own_definition),
        TEST(a_table_is_the_row_that_answered),
        TEST(a_rate_from_outside_says_so),
        TEST(a_range_says_that_its_likely_value_counts),
        TEST(each_part_that_is_counted_has_a_line_of_its_own),
        TEST(three_decimals_are_three),
        TEST(names_that_can_be_explained_are_the_rules_and_the_engines),
        TEST(a_show_is_exact_in_the_unit_it_is_shown_in),
        TEST(an_amount_is_written_in_a_unit_that_the_rules_use),
        TEST(a_table_of_percentages_is_told_in_percent),
        TEST(a_date_stands_in_the_place_of_its_name),
    };
    return cmocka_run_group_tests_name("explanations of expressions", tests, NULL, NULL);
}
