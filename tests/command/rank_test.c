/* Rankings: their order, what has no place, the gap, and what is said below the table. Figures are
 * reckoned by hand. */
#include "command/command_checks.h"

/* A tray costs $20: wood for $10, and 20 minutes at $30 an hour. Its aim is $6 of profit.
 * stall:  p - 2 - 20 >= 6, so $28, which leaves 6.00, a margin of 6/28.
 * market: 0.9 p - 20 >= 6, so $29 (28.89 rounded up), which leaves 26.10 - 20 = 6.10.
 * shop:   as the stall.
 * gift:   $24, which leaves 4.00 of 24.
 * far:    $26, which is refused.
 * trap:   takes more than all; no price can do it. */
static const char rules[] = "currency USD $\n"
                            "product {\n"
                            "    name text\n"
                            "    wood money\n"
                            "    work time as min = 20 min\n"
                            "    top money optional\n"
                            "    fancy flag = no\n"
                            "}\n"
                            "rate hourly = $30 per h\n"
                            "cost material = wood\n"
                            "pay hands = work * hourly\n"
                            "let rich = wood > $9\n"
                            "price {\n"
                            "    aim profit >= $6\n"
                            "    ceiling top\n"
                            "    round up to $1\n"
                            "}\n"
                            "channel stall {\n"
                            "    fee pitch = $2 per order\n"
                            "}\n"
                            "channel market {\n"
                            "    fee cut = 10% of price\n"
                            "    show share = cut / price\n"
                            "}\n"
                            "channel shop {\n"
                            "    fee card = $2\n"
                            "}\n"
                            "channel gift {\n"
                            "    price { set cost + $4 }\n"
                            "}\n"
                            "channel far {\n"
                            "    only when fancy\n"
                            "    refuse \"too dear to send\" when price > $25\n"
                            "}\n"
                            "channel trap {\n"
                            "    only when fancy\n"
                            "    fee all = 120% of price\n"
                            "}\n"
                            "show pace as USD per h = take_home / work\n"
                            "warn \"slim\" when profit < $4.10 and rich\n";

#define RANKED "product,place,channel,quantity,price,keep,profit,margin,take_home,"
#define RANK "groat rank shop.rules p.csv "

static void write_shop(const char *products)
{
    write_text("shop.rules", rules);
    write_text("p.csv", products);
}

static void the_best_comes_first_and_what_has_no_price_last(void **state)
{
    (void)state;
    write_shop("name,wood,fancy\nTray,10,yes\n");
    expect_run(RANK "--format csv", 1,
               RANKED "gap,notes\n"
                      "Tray,1,market,1,29.00,26.10,6.10,0.2103,16.10,0.00,\n"
                      "Tray,2,stall,1,28.00,26.00,6.00,0.2143,16.00,0.10,\n"
                      "Tray,2,shop,1,28.00,26.00,6.00,0.2143,16.00,0.10,\n"
                      "Tray,4,gift,1,24.00,24.00,4.00,0.1667,14.00,2.10,slim\n"
                      "Tray,,far,1,,,,,,,refused: too dear to send\n"
                      "Tray,,trap,1,,,,,,,no price: no price meets the aim: each extra $1 leaves "
                      "-$0.20 after fees (shop.rules:35)\n",
               NULL);
}

static void equal_values_share_a_place_in_the_order_of_the_command_line(void **state)
{
    (void)state;
    write_shop("name,wood\nTray,10\n");
    expect_run(RANK "--format csv --channel gift --channel shop --channel stall | cut -d, -f2,3,10",
               0, "place,channel,gap\n1,shop,0.00\n1,stall,0.00\n3,gift,2.00\n", NULL);
}

/* At most $27: the stall and the shop keep 25 and 5.00 of profit, the market 24.30 and 4.30. The
 * gift, at $24, is what the rules aim at; it leaves less, and comes first. */
static void what_is_held_to_its_ceiling_comes_after_what_is_not(void **state)
{
    (void)state;
    write_shop("name,wood,top\nBox,10,27\n");
    expect_run(RANK "--format csv", 0,
               RANKED "gap,notes\n"
                      "Box,1,gift,1,24.00,24.00,4.00,0.1667,14.00,0.00,slim\n"
                      "Box,2,stall,1,27.00,25.00,5.00,0.1852,15.00,-1.00,held to the ceiling: the "
                      "aim needs $28.00\n"
                      "Box,2,shop,1,27.00,25.00,5.00,0.1852,15.00,-1.00,held to the ceiling: the "
                      "aim needs $28.00\n"
                      "Box,4,market,1,27.00,24.30,4.30,0.1593,14.30,-0.30,held to the ceiling: the "
                      "aim needs $29.00\n",
               NULL);
    /* A gap below zero is for scripts; a table leaves it empty and says why. */
    expect_run(RANK, 0,
               "Product  Place  Sold at   Price  You keep  Profit  Margin  Take-home  Behind\n"
               "----------------------------------------------------------------------------\n"
               "Box          1  gift     $24.00    $24.00   $4.00   16.7%     $14.00   $0.00\n"
               "             slim\n"
               "             2  stall    $27.00    $25.00   $5.00   18.5%     $15.00\n"
               "             held to the ceiling: the aim needs $28.00\n"
               "             2  shop     $27.00    $25.00   $5.00   18.5%     $15.00\n"
               "             held to the ceiling: the aim needs $28.00\n"
               "             4  market   $27.00    $24.30   $4.30   15.9%     $14.30\n"
               "             held to the ceiling: the aim needs $29.00\n"
               "\n"
               "How often each channel comes first by profit:\n"
               "  stall   0 of 1\n"
               "  market  0 of 1\n"
               "  shop    0 of 1\n"
               "  gift    1 of 1\n"
               "  far     0 of 1\n"
               "  trap    0 of 1\n"
               "A price that misses its aim comes after those that meet it, even if it leaves "
               "more; Behind is then empty.\n",
               NULL);
}

static void what_it_is_ranked_by_is_said_in_words(void **state)
{
    (void)state;
    write_shop("name,wood,top\nTray,10,\n");
    expect_run(RANK "--by take_home --channel stall --channel market | grep first", 0,
               "How often each channel comes first by take home:\n", NULL);
}

/* An hour is 3 trays: 16.10 * 3, 16 * 3, 14 * 3. */
static void a_show_is_ranked_by_in_its_own_unit(void **state)
{
    (void)state;
    write_shop("name,wood\nTray,10\n");
    expect_run(RANK "--by pace --format csv | cut -d, -f2,3,10,11", 0,
               "place,channel,pace,gap\n1,market,48.3,0\n2,stall,48,0.3\n2,shop,48,0.3\n"
               "4,gift,42,6.3\n",
               NULL);
}

static void money_by_its_name_has_a_column_and_a_gap_in_money(void **state)
{
    (void)state;
    write_shop("name,wood\nTray,10\n");
    expect_run(RANK "--by list --format csv --channel stall --channel market", 0,
               RANKED "list,gap,notes\n"
                      "Tray,1,market,1,29.00,26.10,6.10,0.2103,16.10,29.00,0.00,\n"
                      "Tray,2,stall,1,28.00,26.00,6.00,0.2143,16.00,28.00,1.00,\n",
               NULL);
    expect_run(RANK "--by hands --format csv --channel stall --channel market | cut -d, -f2,10,11",
               0, "place,hands,gap\n1,10.00,0.00\n1,10.00,0.00\n", NULL);
    expect_run(RANK "--by work --format csv --channel stall | cut -d, -f2,10,11", 0,
               "place,work,gap\n1,1200,0\n", NULL); /* seconds */
}

static void what_has_no_such_value_has_no_place_and_no_gap(void **state)
{
    (void)state;
    write_shop("name,wood\nTray,10\n");
    /* 2.90 of 29 */
    expect_run(RANK
               "--by share --format csv --channel stall --channel market | cut -d, -f2,3,10,11",
               0, "place,channel,share,gap\n1,market,0.1,0\n,stall,,\n", NULL);
    expect_run(RANK "--by share --format csv --channel stall | cut -d, -f2,3,10,11", 0,
               "place,channel,share,gap\n,stall,,\n", NULL);
    assert_non_null(strstr(read_text("err"), "groat: --by: no row has a value for share\n"));
}

/* 6/28 is 3/14; 6.10/29 is 61/290, and 3/14 - 61/290 is 16/4060; 3/14 - 1/6 is 2/42. */
static void json_has_exact_amounts_and_null_for_what_is_not_there(void **state)
{
    (void)state;
    write_shop("name,wood,fancy\nTray,10,yes\n");
    expect_run(RANK "--by margin --format json --channel stall --channel market --channel gift "
                    "--channel far",
               1,
               "[\n"
               "{\"product\": \"Tray\", \"place\": 1, \"channel\": \"stall\", \"quantity\": 1, "
               "\"price\": \"28.00\", \"keep\": \"26.00\", \"profit\": \"6.00\", \"margin\": "
               "\"3/14\", \"take_home\": \"16.00\", \"gap\": \"0\", \"notes\": []},\n"
               "{\"product\": \"Tray\", \"place\": 2, \"channel\": \"market\", \"quantity\": 1, "
               "\"price\": \"29.00\", \"keep\": \"26.10\", \"profit\": \"6.10\", \"margin\": "
               "\"61/290\", \"take_home\": \"16.10\", \"gap\": \"4/1015\", \"notes\": []},\n"
               "{\"product\": \"Tray\", \"place\": 3, \"channel\": \"gift\", \"quantity\": 1, "
               "\"price\": \"24.00\", \"keep\": \"24.00\", \"profit\": \"4.00\", \"margin\": "
               "\"1/6\", \"take_home\": \"14.00\", \"gap\": \"1/21\", \"notes\": [\"slim\"]},\n"
               "{\"product\": \"Tray\", \"place\": null, \"channel\": \"far\", \"quantity\": 1, "
               "\"price\": null, \"keep\": null, \"profit\": null, \"margin\": null, "
               "\"take_home\": null, \"gap\": null, \"notes\": [\"refused: too dear to send\"]}\n"
               "]\n",
               NULL);
}

/* For two the pitch is $1 a piece: 27 - 1 - 20 is 6.00, a margin of 6/27. */
static void quantities_are_ranked_apart_the_smallest_first(void **state)
{
    (void)state;
    write_shop("name,wood\nTray,10\n");
    expect_run(RANK "--by margin --format csv --quantity 2,1 --channel market --channel stall "
                    "| cut -d, -f2-5,8,10",
               0,
               "place,channel,quantity,price,margin,gap\n"
               "1,stall,1,28.00,0.2143,0.0000\n2,market,1,29.00,0.2103,0.0039\n"
               "1,stall,2,27.00,0.2222,0.0000\n2,market,2,29.00,0.2103,0.0119\n",
               NULL);
}

static void a_table_ends_with_how_often_each_comes_first(void **state)
{
    (void)state;
    write_shop("name,wood,top\nTray,10,\nBox,10,27\n");
    expect_run(RANK "--channel stall --channel market --channel far", 0,
               "Product  Place  Sold at   Price  You keep  Profit  Margin  Take-home  Behind\n"
               "----------------------------------------------------------------------------\n"
               "Tray         1  market   $29.00    $26.10   $6.10   21.0%     $16.10   $0.00\n"
               "             2  stall    $28.00    $26.00   $6.00   21.4%     $16.00   $0.10\n"
               "Box          1  stall    $27.00    $25.00   $5.00   18.5%     $15.00   $0.00\n"
               "             held to the ceiling: the aim needs $28.00\n"
               "             2  market   $27.00    $24.30   $4.30   15.9%     $14.30   $0.70\n"
               "             held to the ceiling: the aim needs $29.00\n"
               "\n"
               "How often each channel comes first by profit:\n"
               "  stall   1 of 2\n"
               "  market  1 of 2\n"
               "  far     0 of 2\n",
               NULL);
    expect_run(RANK "--channel stall | tail -2", 0,
               "  stall  2 of 2\n2 of the 2 have only one channel to rank.\n", NULL);
}

static void a_decimal_comma_is_written_in_the_table(void **state)
{
    (void)state;
    write_text("shop.rules", rules);
    write_text("p.csv", "name;wood\nTray;10,00\n");
    expect_run(RANK "--decimal comma --channel market", 0, NULL, NULL);
    assert_non_null(strstr(read_text("out"),
                           "Tray         1  market   $29,00    $26,10   $6,10   21,0%     $16,10"));
}

static void a_name_that_is_not_there_gets_the_nearest(void **state)
{
    (void)state;
    write_shop("name,wood\nTray,10\n");
    expect_run(RANK "--by magrin 2>&1 | tail -2", 0,
               "groat: --by: the rules have no name magrin\nTry: --by margin\n", NULL);
    expect_run(RANK "--by zzzzzzzz 2>&1 | tail -2", 0,
               "groat: --by: the rules have no name zzzzzzzz\nTry: --by profit\n", NULL);
    expect_run(RANK "--by magrin", 2, "", NULL);
    expect_run("groat price shop.rules p.csv --by profit", 2, "", "groat: price takes no --by\n");
}

static void what_has_no_greatest_is_refused_before_anything_is_printed(void **state)
{
    (void)state;
    write_shop("name,wood\nTray,10\nBox,12\n");
    expect_run(RANK "--by rich --format csv", 2, "", NULL);
    assert_non_null(strstr(read_text("err"),
                           "groat: --by: rich is yes or no; only amounts can be ranked\n"
                           "Try: --by profit\n"));
    expect_run(RANK "--by name --format json", 2, "", NULL);
    assert_non_null(strstr(read_text("err"), "name is a text; only amounts"));
}

static void a_bad_cell_stops_its_product_and_no_other(void **state)
{
    (void)state;
    write_shop("name,wood\nTray,oak\nBox,10\n");
    expect_run(RANK "--format csv --channel gift | cut -d, -f1-3", 0,
               "product,place,channel\nBox,1,gift\n", NULL);
    assert_non_null(strstr(read_text("err"), "p.csv:2: Tray, row 1, column wood, \"oak\": "));
    expect_run(RANK "--format csv --channel gift", 1, NULL, NULL);
}

static void a_ranking_of_nothing_is_still_a_list(void **state)
{
    (void)state;
    write_shop("name,wood\n");
    expect_run(RANK "--format csv", 0, RANKED "gap,notes\n", NULL);
    expect_run(RANK "--format json", 0, "[]\n", NULL);
    write_shop("name,wood\nTray,10\n"); /* not sold there */
    expect_run(RANK "--format csv --channel far", 0, RANKED "gap,notes\n", NULL);
}

static void the_examples_of_the_help_run(void **state)
{
    (void)state;
    char line[4400];
    snprintf(
        line, sizeof line,
        "groat rank --help | sed '1,/^For example/d' | sed 's/^ *groat /\"$GROAT\" /' >examples; "
        "test $(grep -c GROAT examples) = 2 && cd '%s' && sh -e \"$OLDPWD/examples\"",
        root);
    expect_run(line, 0, NULL, "");
}

/* Two fractions of which each fits, and whose difference has twice as many digits: nothing is said in
 * its place. */
static void a_difference_with_too_many_digits_is_left_empty_and_said(void **state)
{
    (void)state;
    static char shop[8192], ones[2401];
    memset(ones, '1', sizeof ones - 1);
    snprintf(shop, sizeof shop,
             "currency USD $\nproduct { name text }\ncost c = $50\nprice { set cost * 2 }\n"
             "channel stall { show x = 1 / 0.%s3 }\nchannel post { show x = 1 / 0.%s7 }\n",
             ones, ones);
    write_text("long.rules", shop);
    write_text("long.csv", "name\nBowl\n");
    expect_run("groat rank long.rules long.csv --by x --format csv", 0,
               "product,place,channel,quantity,price,keep,profit,margin,take_home,x,gap,notes\n"
               "Bowl,1,stall,1,100.00,100.00,50.00,0.5000,50.00,9,0,\n"
               "Bowl,2,post,1,100.00,100.00,50.00,0.5000,50.00,9,,a number has too many digits\n",
               "");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(the_best_comes_first_and_what_has_no_price_last),
        TEST(equal_values_share_a_place_in_the_order_of_the_command_line),
        TEST(what_is_held_to_its_ceiling_comes_after_what_is_not),
        TEST(what_it_is_ranked_by_is_said_in_words),
        TEST(a_show_is_ranked_by_in_its_own_unit),
        TEST(money_by_its_name_has_a_column_and_a_gap_in_money),
        TEST(what_has_no_such_value_has_no_place_and_no_gap),
        TEST(json_has_exact_amounts_and_null_for_what_is_not_there),
        TEST(quantities_are_ranked_apart_the_smallest_first),
        TEST(a_table_ends_with_how_often_each_comes_first),
        TEST(a_decimal_comma_is_written_in_the_table),
        TEST(a_name_that_is_not_there_gets_the_nearest),
        TEST(what_has_no_greatest_is_refused_before_anything_is_printed),
        TEST(a_bad_cell_stops_its_product_and_no_other),
        TEST(a_ranking_of_nothing_is_still_a_list),
        TEST(the_examples_of_the_help_run),
        TEST(a_difference_with_too_many_digits_is_left_empty_and_said),
    };
    return RUN_TESTS("rank", tests);
}
