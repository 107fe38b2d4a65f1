/* Headings of a sheet that no field has, and fields that have no column. */
#include "command/command_checks.h"

static const char rules[] = "currency USD $\n"
                            "product {\n"
                            "    name     text\n"
                            "    lathe    time as min = 0 min\n"
                            "    low      money from \"lowest seen\" optional\n"
                            "    high     money from \"highest seen\" optional\n"
                            "    gallery  flag = no\n"
                            "}\n"
                            "price {\n"
                            "    set (lathe * $60 per h + $5) at least (low otherwise $0)\n"
                            "}\n";

#define LATHE "p.csv has no column for lathe, so 0 min is used for every product"
#define LOW "p.csv has no column \"lowest seen\" for low, so the value is missing for every product"
#define HIGH                                                                                       \
    "p.csv has no column \"highest seen\" for high, so the value is missing for every product"
#define GALLERY "p.csv has no column for gallery, so no is used for every product"

/* What standard error says of a sheet with these headings and one row; the rules have five fields. */
static const char *said_of(const char *headings, const char *options)
{
    char line[256];
    write_text("turnery.rules", rules);
    snprintf(line, sizeof line, "%s\nCup\n", headings);
    write_text("p.csv", line);
    snprintf(line, sizeof line, "groat price turnery.rules p.csv %s", options);
    run(line);
    return read_text("err");
}

static void a_heading_that_begins_with_the_field_s_word_is_asked_about(void **state)
{
    (void)state;
    assert_string_equal(said_of("name,Lathe time,lowest seen,highest seen,gallery", "--format csv"),
                        LATHE ". Is it the column \"Lathe time\"?\n");
    assert_string_equal(
        said_of("name,minutes at the lathe,lowest seen,highest seen,gallery", "--format csv"),
        LATHE ". Is it the column \"minutes at the lathe\"?\n");
}

static void a_heading_by_the_field_s_own_name_is_asked_about(void **state)
{
    (void)state;
    assert_string_equal(said_of("name,lathe,low,highest seen,gallery", "--format csv"),
                        LOW ". Is it the column \"low\"?\n");
}

static void capitals_dashes_and_slips_are_asked_about(void **state)
{
    (void)state;
    assert_string_equal(said_of("name,LATHE,Lowest_Seen,highest-sen,gallery", "--format csv"),
                        LATHE ". Is it the column \"LATHE\"?\n" LOW
                              ". Is it the column \"Lowest_Seen\"?\n" HIGH
                              ". Is it the column \"highest-sen\"?\n");
}

static void a_heading_is_proposed_for_the_nearest_field_alone(void **state)
{
    (void)state;
    assert_string_equal(said_of("name,lathe,lowest,gallery", "--format csv"),
                        LOW ". Is it the column \"lowest\"?\n");
    assert_string_equal(said_of("name,lathe,Highest Seen,gallery", "--format csv"),
                        HIGH ". Is it the column \"Highest Seen\"?\n");
}

static void a_heading_like_no_field_is_named_beside_the_fields_without_a_column(void **state)
{
    (void)state;
    assert_string_equal(said_of("name,turning,lowest seen,highest seen,colour", "--format csv"),
                        "p.csv: not used by the rules: turning, colour\n" LATHE "\n" GALLERY "\n");
}

static void many_fields_without_a_column_are_one_line(void **state)
{
    (void)state;
    write_text("many.rules", "currency USD $\nproduct {\n    name text\n    one money = $0\n"
                             "    two money = $0\n    three money = $0\n    four money = $0\n"
                             "    five money = $0\n    width length as cm = 1 cm\n}\n"
                             "price { set $5 }\n");
    write_text("p.csv", "name,colour,Width\nCup,red,\n");
    expect_run("groat price many.rules p.csv --format csv", 0, NULL,
               "p.csv: not used by the rules: colour\n"
               "p.csv: every row is without: one, two, three, four, five\n"
               "p.csv has no column for width, so 1 cm is used for every product. Is it the column "
               "\"Width\"?\n");
}

static void a_sheet_whose_every_column_is_used_need_not_have_all_fields(void **state)
{
    (void)state;
    assert_string_equal(said_of("name", "--format csv"), "");
    assert_string_equal(said_of("name", ""), "");
}

static void beside_a_table_it_is_said_after_the_table_too(void **state)
{
    (void)state;
    assert_string_equal(
        said_of("name,Lathe time,lowest seen,highest seen,gallery", "2>&1 | tail -1"), "");
    assert_string_equal(read_text("out"), LATHE ". Is it the column \"Lathe time\"?\n");
    said_of("name,Lathe time,lowest seen,highest seen,gallery", "2>&1 | head -1");
    assert_string_equal(read_text("out"), LATHE ". Is it the column \"Lathe time\"?\n");
}

static void a_required_column_that_is_missing_is_looked_for_among_the_unused(void **state)
{
    (void)state;
    assert_string_equal(said_of("Product,lathe", ""),
                        "p.csv: not used by the rules: Product\n" LOW "\n" HIGH "\n" GALLERY "\n"
                        "p.csv: columns are missing that the rules need: name\n"
                        "Try: name instead of Product\n");
    said_of("Product,colour,lathe,lowest seen,highest seen,gallery", "2>&1 | tail -2");
    assert_string_equal(read_text("out"), "p.csv: columns are missing that the rules need: name\n"
                                          "Try: name instead of one of these: Product, colour\n");
    said_of("Name of it,lathe,lowest seen,highest seen,gallery", "");
    assert_string_equal(read_text("err"), "p.csv: columns are missing that the rules need: name\n"
                                          "Try: name instead of Name of it\n");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(a_heading_that_begins_with_the_field_s_word_is_asked_about),
        TEST(a_heading_by_the_field_s_own_name_is_asked_about),
        TEST(capitals_dashes_and_slips_are_asked_about),
        TEST(a_heading_is_proposed_for_the_nearest_field_alone),
        TEST(a_heading_like_no_field_is_named_beside_the_fields_without_a_column),
        TEST(many_fields_without_a_column_are_one_line),
        TEST(a_sheet_whose_every_column_is_used_need_not_have_all_fields),
        TEST(beside_a_table_it_is_said_after_the_table_too),
        TEST(a_required_column_that_is_missing_is_looked_for_among_the_unused),
    };
    return RUN_TESTS("headings", tests);
}
