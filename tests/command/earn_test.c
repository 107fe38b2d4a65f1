/* What a price that is named leaves: its figures, its notes, and where the price comes from. Figures
 * are reckoned by hand. */
#include "command/command_checks.h"

/* A box costs $20 in wood. At $40:
 * stall:  2% is 0.80, and 0.10 an order: keeps 39.10. Nothing is lost from 20.51 on: 2% of it is
 *         0.4102, with 0.10 rounded to 0.51, leaves 20.00; 20.50 - 0.51 is 19.99.
 * greedy: 48.00 of 40; every price loses.
 * post:   a fifth is tax, 8.00; 4.00 of fee; keeps 28, and 8 is a quarter of the 32 without tax.
 *         From 28.57 on: 5.71 of tax and 2.86 of fee leave 20.00; of 28.56 the same leave 19.99. */
static const char rules[] = "currency USD $\n"
                            "product {\n"
                            "    name text\n"
                            "    wood money\n"
                            "    low money optional\n"
                            "    high money from \"dearest seen\" optional\n"
                            "}\n"
                            "cost material = wood\n"
                            "price {\n"
                            "    aim margin >= 25%\n"
                            "    floor low\n"
                            "    ceiling high\n"
                            "    round up to $5\n"
                            "}\n"
                            "channel stall {\n"
                            "    fee card = 2% of price + $0.10 per order\n"
                            "}\n"
                            "channel greedy {\n"
                            "    only when low > $29\n"
                            "    fee all = 120% of price\n"
                            "}\n"
                            "channel post {\n"
                            "    only when wood < $50\n"
                            "    tax included 25%\n"
                            "    fee cut = 10% of price\n"
                            "}\n"
                            "show third = price / 3\n"
                            "warn \"a thin one\" when margin < 30%\n"
                            "refuse \"a loss\" when profit < $0\n";

#define EARNED                                                                                     \
    "product,channel,quantity,at,fees,tax,keep,cost,profit,margin,take_home,third,no_loss,floor,"  \
    "ceiling,position,notes\n"
#define EARN "groat earn shop.rules p.csv "

static void write_shop(const char *products)
{
    write_text("shop.rules", rules);
    write_text("p.csv", products);
}

static void every_figure_is_worked_out_at_the_price(void **state)
{
    (void)state;
    write_shop("name,wood,low,dearest seen\nBox,20,30,50\n");
    static const char list[] =
        EARNED "Box,stall,1,40.00,0.90,0.00,39.10,20.00,19.10,0.4775,19.10,13.33,20.51,30.00,"
               "50.00,0.5000,meets your aim\n"
               "Box,greedy,1,40.00,48.00,0.00,-8.00,20.00,-28.00,-0.7000,-28.00,13.33,,30.00,"
               "50.00,0.5000,refused: a loss; no price avoids a loss: each extra $1 leaves -$0.20 "
               "after fees (shop.rules:18); a thin one\n"
               "Box,post,1,40.00,4.00,8.00,28.00,20.00,8.00,0.2500,8.00,13.33,28.57,30.00,50.00,"
               "0.5000,meets your aim; a thin one\n";
    expect_run(EARN "--at '$40' --format csv", 1, list, "");
    expect_run(EARN "--at 40 --format csv", 1, list, "");
    expect_run(EARN "--at=40.00 --format csv", 1, list, "");
}

static void a_price_need_not_be_on_the_ladder_or_within_the_limits(void **state)
{
    (void)state;
    write_shop("name,wood,low,dearest seen\nBox,20,30,50\n");
    /* 2% of 29.37 is 0.5874, with 0.10 it is 0.69; (29.37 - 30) / 20; 8.68 of 29.37 is less than
     * 30%; 2% of 51 is 1.02 */
    expect_run(EARN "--at 29.37 --format csv --channel stall | cut -d, -f4,5,7,16,17", 0,
               "at,fees,keep,position,notes\n29.37,0.69,28.68,-0.0315,meets your aim; a thin one\n",
               "");
    expect_run(EARN "--at 51 --format csv --channel stall | cut -d, -f4,5,7,16,17", 0,
               "at,fees,keep,position,notes\n51.00,1.12,49.88,1.0500,meets your aim\n", "");
}

static void a_position_needs_a_floor_below_a_ceiling(void **state)
{
    (void)state;
    write_shop("name,wood,low,dearest seen\nA,20,25,\nB,20,,50\nC,20,,\nD,20,28,28\nE,20,29,27\n");
    expect_run(EARN "--at 28 --format csv --channel stall | cut -d, -f1,14-16", 0,
               "product,floor,ceiling,position\n"
               "A,25.00,,\nB,,50.00,\nC,,,\nD,28.00,28.00,\nE,29.00,27.00,\n",
               "");
}

/* For five the order's dime is 2 cents a piece: 0.82 of 40. Nothing is lost from 20.43 on: 0.4086
 * and 0.02 are 0.43, which leaves 20.00; 20.42 - 0.43 is 19.99. */
static void a_price_is_what_one_costs_in_an_order_of_that_many(void **state)
{
    (void)state;
    write_shop("name,wood\nBox,20\n");
    expect_run(EARN "--at 40 --quantity 1,5 --format csv --channel stall | cut -d, -f3-5,7,13", 0,
               "quantity,at,fees,keep,no_loss\n1,40.00,0.90,39.10,20.51\n"
               "5,40.00,0.82,39.18,20.43\n",
               "");
}

/* 40 / 3; (40 - 31) / (50 - 31); 19.10 / 40 is 191/400. */
static void json_has_exact_amounts_and_null_for_what_is_not_there(void **state)
{
    (void)state;
    write_shop("name,wood,low,dearest seen\nBox,20,31,50\nLid,20,,\n");
    expect_run(EARN "--at 40 --format json --channel stall", 0,
               "[\n"
               "{\"product\": \"Box\", \"channel\": \"stall\", \"quantity\": 1, \"at\": \"40.00\", "
               "\"fees\": \"0.90\", \"tax\": \"0.00\", \"keep\": \"39.10\", \"cost\": \"20.00\", "
               "\"profit\": \"19.10\", \"margin\": \"0.4775\", \"take_home\": \"19.10\", "
               "\"third\": \"40/3\", \"no_loss\": \"20.51\", \"floor\": \"31.00\", \"ceiling\": "
               "\"50.00\", \"position\": \"9/19\", \"notes\": [\"meets your aim\"]},\n"
               "{\"product\": \"Lid\", \"channel\": \"stall\", \"quantity\": 1, \"at\": \"40.00\", "
               "\"fees\": \"0.90\", \"tax\": \"0.00\", \"keep\": \"39.10\", \"cost\": \"20.00\", "
               "\"profit\": \"19.10\", \"margin\": \"0.4775\", \"take_home\": \"19.10\", "
               "\"third\": \"40/3\", \"no_loss\": \"20.51\", \"floor\": null, \"ceiling\": null, "
               "\"position\": null, \"notes\": [\"meets your aim\"]}\n"
               "]\n",
               "");
    write_shop("name,wood\nLid,20\n"); /* not sold there */
    expect_run(EARN "--at 10 --format json --channel greedy", 0, "[]\n", "");
}

/* ---- a table ---- */

/* (36 - 30) / (50 - 30) is 30%; 2% of 36 is 0.72; 36 - 0.82 - 20. */
static void a_table_says_in_words_where_the_price_lies(void **state)
{
    (void)state;
    write_shop("name,wood,low,dearest seen\nA,20,30,50\nB,20,36,50\nC,20,30,36\nD,20,40,50\n"
               "E,20,30,35\nF,20,20,\nG,20,,50\nH,20,,\n");
    expect_run(
        EARN "--at 36 --channel stall", 0,
        "                                                                                      Br"
        "eak-even\n"
        "Product  Sold at   Asked   Fees  You keep    Cost  Profit  Margin  Take-home   Third    "
        "   price\n"
        "----------------------------------------------------------------------------------------"
        "--------\n"
        "A        stall    $36.00  $0.82    $35.18  $20.00  $15.18   42.2%     $15.18  $12.00    "
        "  $20.51\n"
        "             meets your aim; 30% of the way from the floor ($30.00) to the ceiling ($50."
        "00)\n"
        "B        stall    $36.00  $0.82    $35.18  $20.00  $15.18   42.2%     $15.18  $12.00    "
        "  $20.51\n"
        "             meets your aim; at the floor ($36.00)\n"
        "C        stall    $36.00  $0.82    $35.18  $20.00  $15.18   42.2%     $15.18  $12.00    "
        "  $20.51\n"
        "             meets your aim; at the ceiling ($36.00)\n"
        "D        stall    $36.00  $0.82    $35.18  $20.00  $15.18   42.2%     $15.18  $12.00    "
        "  $20.51\n"
        "             meets your aim; below the floor ($40.00)\n"
        "E        stall    $36.00  $0.82    $35.18  $20.00  $15.18   42.2%     $15.18  $12.00    "
        "  $20.51\n"
        "             meets your aim; above the ceiling ($35.00)\n"
        "F        stall    $36.00  $0.82    $35.18  $20.00  $15.18   42.2%     $15.18  $12.00    "
        "  $20.51\n"
        "             meets your aim; the floor is $20.00\n"
        "G        stall    $36.00  $0.82    $35.18  $20.00  $15.18   42.2%     $15.18  $12.00    "
        "  $20.51\n"
        "             meets your aim; the ceiling is $50.00\n"
        "H        stall    $36.00  $0.82    $35.18  $20.00  $15.18   42.2%     $15.18  $12.00    "
        "  $20.51\n"
        "             meets your aim\n",
        "");
}

static void a_decimal_comma_is_read_in_the_price_and_the_cells_and_written(void **state)
{
    (void)state;
    write_text("shop.rules", rules);
    write_text("p.csv", "name;wood;low;dearest seen;asking\nBox;20,00;$30,50;50;1.040,50\n");
    /* 2% of 40.50 is 0.81 */
    expect_run(EARN "--at 40,50 --decimal comma --channel stall", 0, NULL,
               "p.csv: not used by the rules: asking\n");
    assert_non_null(strstr(read_text("out"), "$40,50  $0,91    $39,59  $20,00"));
    assert_non_null(strstr(read_text("out"), "floor ($30,50) to the ceiling ($50,00)\n"));
    /* 2% of 1040.50 is 20.81 */
    expect_run(EARN "--at asking --decimal comma --channel stall --format csv | cut -d, -f4,5,7", 0,
               "at,fees,keep\n1040.50,20.91,1019.59\n", "");
}

/* The buyer adds a tax of 10% to 36; it is not the maker's, so 36 are kept. */
static void a_table_says_what_the_buyer_adds(void **state)
{
    (void)state;
    write_shop("name,wood\nA,20\n");
    run("printf 'channel away {\\n    tax added 10%%\\n}\\n' >>shop.rules");
    expect_run(EARN "--at 36 --channel away | tail -2", 0,
               "A        away     $36.00  $3.60  $3.60    $36.00  $20.00  $16.00   44.4%  $16.00  "
               "$12.00      $20.00\n"
               "             meets your aim\n",
               NULL);
}

/* Of five pieces at 27: 27 - 0.54 - 0.02 - 20 is 6.44, less than a quarter of 27; of one as well. Of
 * 27.40 one leaves 27.40 - 0.65 - 20 = 6.75, 24.6%; five leave 27.40 - 0.57 - 20 = 6.83, 24.9%. */
static void an_aim_of_one_piece_is_called_so_where_a_discount_is_taken_off(void **state)
{
    (void)state;
    static const char notes[] = EARN "--at 27.40 --quantity 1,5 --channel stall --format csv "
                                     "| cut -d, -f3,17";
    write_shop("name,wood\nA,20\n");
    expect_run(notes, 0,
               "quantity,notes\n1,below your aim; a thin one\n5,below your aim; a thin one\n", "");
    run("sed -i 's/aim margin/discount bulk\\n    aim margin/' shop.rules; printf 'table bulk by "
        "quantity {\\n    4 or more : 5%%\\n    otherwise : 0%%\\n}\\n' >>shop.rules");
    expect_run(notes, 0,
               "quantity,notes\n1,below your aim; a thin one\n"
               "5,below your aim for one piece; a thin one\n",
               "");
}

/* ---- prices of the sheet ---- */

static void a_column_need_not_be_one_that_the_rules_read(void **state)
{
    (void)state;
    write_shop("name,wood,asking,dearest seen\nBox,20,40,36\nLid,20,$36.00,40\n");
    expect_run(EARN "--at asking --format csv --channel stall | cut -d, -f1,4,7", 0,
               "product,at,keep\nBox,40.00,39.10\nLid,36.00,35.18\n", "");
    expect_run(EARN "--at 'dearest seen' --format csv --channel stall | cut -d, -f1,4,7", 0,
               "product,at,keep\nBox,36.00,35.18\nLid,40.00,39.10\n",
               "p.csv: not used by the rules: asking\n"
               "p.csv has no column for low, so the value is missing for every product\n");
}

static void a_row_without_a_price_is_left_out_and_named_once(void **state)
{
    (void)state;
    write_shop("name,wood,asking\nBox,20,\nLid,20,40\n");
    run(EARN "--at asking --format csv --quantity 1,2 --channel stall >list");
    assert_string_equal(read_text("err"), "p.csv:2: Box: left out because asking is empty\n");
    expect_run(EARN "--at asking --format csv", 0, NULL,
               "p.csv:2: Box: left out because asking is empty\n");
    expect_run("cut -d, -f1,3 list", 0, "product,quantity\nLid,1\nLid,2\n", "");
}

static void a_bad_price_in_a_cell_is_said_with_its_place_and_stops_no_other_row(void **state)
{
    (void)state;
    write_shop("name,wood,asking\n"
               "A,20,oak\n"
               "B,20,0\n"
               "C,20,-3\n"
               "D,20,1.005\n"
               "E,20,45 min\n"
               "F,20,90000000000000000000\n"
               "G,20,$40 to $45\n"
               "H,oops,nor this\n"
               "I,20,1e5\n"
               "J,20,40\n");
    expect_run(EARN "--at asking --format csv --channel stall | cut -d, -f1,4", 0,
               "product,at\nJ,40.00\n", NULL);
    const char *said = read_text("err");
    static const char *const wanted[] = {
        "p.csv:2: A, row 1, column asking, \"oak\": ",
        "p.csv:3: B, row 2, column asking, \"0\": a price must be above zero\n",
        "p.csv:4: C, row 3, column asking, \"-3\": a price must be above zero\n",
        "p.csv:5: D, row 4, column asking, \"1.005\": a price must be a whole number of the",
        "p.csv:6: E, row 5, column asking, \"45 min\": this is time; price is money\n",
        "p.csv:7: F, row 6, column asking, \"90000000000000000000\": ",
        "p.csv:8: G, row 7, column asking, \"$40 to $45\": ",
        "p.csv:9: H, row 8, column wood, \"oops\": ",
        "p.csv:9: H, row 8, column asking, \"nor this\": ",
        "p.csv:10: I, row 9, column asking, \"1e5\": ",
    };
    for (size_t i = 0; i < sizeof wanted / sizeof *wanted; i++)
        if (!strstr(said, wanted[i]))
            fail_msg("not said: %s\nbut: %s", wanted[i], said);
    expect_run(EARN "--at asking --format csv --channel stall", 1, NULL, NULL);
}

static void a_column_that_is_not_there_gets_the_nearest(void **state)
{
    (void)state;
    write_shop("name,wood,the asking price\nBox,20,40\n");
    expect_run(EARN "--at 'the askng price'", 2, "",
               "p.csv: the askng price is neither a column of the sheet nor a price\n"
               "Try: --at 'the asking price'\n");
    expect_run(EARN "--at zzzzzzzzzzz", 2, "",
               "p.csv: zzzzzzzzzzz is neither a column of the sheet nor a price\n"
               "p.csv: the columns are: name, wood, the asking price\n");
}

static void a_price_that_is_none_is_not_looked_for_as_a_column(void **state)
{
    (void)state;
    write_shop("name,wood\nBox,20\n");
    static const char *const wrong[][2] = {
        {"'$4.005'", "groat: --at $4.005: a price must be a whole number of the currency's "
                     "smallest unit\nTry: for example --at '$45'\n"},
        {"0", "groat: --at 0: a price must be above zero\nTry: for example --at '$45'\n"},
        {"-4", "groat: --at -4: a price must be above zero\nTry: for example --at '$45'\n"},
        {"'45 min'",
         "groat: --at 45 min: this is time; price is money\nTry: for example --at '$45'\n"},
    };
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++) {
        char line[128];
        snprintf(line, sizeof line, EARN "--at %s", wrong[i][0]);
        expect_run(line, 2, "", wrong[i][1]);
    }
    expect_run(EARN "--format csv", 2, "",
               "groat: earn needs a price, or a column of the sheet that has one for each "
               "product\nTry: for example --at '$45'\n");
}

static void an_order_that_cannot_be_worked_out_is_left_out_with_its_reason(void **state)
{
    (void)state;
    write_text("shop.rules", "currency USD $\nproduct {\n    name text\n    batch number\n}\n"
                             "cost share = $20 / batch\nprice {\n    set cost * 2\n}\n");
    write_text("p.csv", "name,batch\nBox,0\nLid,2\n");
    expect_run(EARN "--at 45 --format csv | cut -d, -f1,8,9,12,16", 0,
               "product,cost,profit,no_loss,notes\nLid,10.00,35.00,10.00,\n", NULL);
    assert_non_null(strstr(read_text("err"), "p.csv:2: Box, direct: no price: "));
    expect_run(EARN "--at 45 --format csv", 1, NULL, NULL);
}

static void the_examples_of_the_help_run(void **state)
{
    (void)state;
    char line[4400];
    snprintf(
        line, sizeof line,
        "groat earn --help | sed '1,/^For example/d' | sed 's/^ *groat /\"$GROAT\" /' >examples; "
        "test $(grep -c GROAT examples) = 2 && cd '%s' && sh -e \"$OLDPWD/examples\"",
        root);
    expect_run(line, 0, NULL, NULL);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(every_figure_is_worked_out_at_the_price),
        TEST(a_price_need_not_be_on_the_ladder_or_within_the_limits),
        TEST(a_position_needs_a_floor_below_a_ceiling),
        TEST(a_price_is_what_one_costs_in_an_order_of_that_many),
        TEST(json_has_exact_amounts_and_null_for_what_is_not_there),
        TEST(a_table_says_in_words_where_the_price_lies),
        TEST(a_table_says_what_the_buyer_adds),
        TEST(an_aim_of_one_piece_is_called_so_where_a_discount_is_taken_off),
        TEST(a_decimal_comma_is_read_in_the_price_and_the_cells_and_written),
        TEST(a_column_need_not_be_one_that_the_rules_read),
        TEST(a_row_without_a_price_is_left_out_and_named_once),
        TEST(a_bad_price_in_a_cell_is_said_with_its_place_and_stops_no_other_row),
        TEST(a_column_that_is_not_there_gets_the_nearest),
        TEST(a_price_that_is_none_is_not_looked_for_as_a_column),
        TEST(an_order_that_cannot_be_worked_out_is_left_out_with_its_reason),
        TEST(the_examples_of_the_help_run),
    };
    return RUN_TESTS("earn", tests);
}
