/* groat effect: prices before and after a change. Every figure is worked out by hand. */
#include "command/effect_checks.h"

/* ---- the change ---- */

static void every_row_says_before_after_change_and_percent(void **state)
{
    (void)state;
    write_shop();
    /* +10%: a wage of $11, so a dollar more: 1/20, 1/50, 1/85 = 0.01176... */
    expect_run("groat effect shop.rules p.csv --set wage=+10% --format csv", 0,
               CSV "Tray,stall,1,20.00,21.00,1.00,0.0500,\n"
                   "Box,stall,1,50.00,51.00,1.00,0.0200,\n"
                   "Chest,stall,1,85.00,86.00,1.00,0.0118,\n",
               NULL);
}

static void several_rates_change_at_once(void **state)
{
    (void)state;
    write_shop();
    /* A wage of $8: 18, 48, 83. Two for five of them off: 14.40, 38.40, 66.40; before 18, 45, 76.50. */
    expect_run("groat effect shop.rules p.csv --set wage='$8' --set off=20% --quantity 5 "
               "--format csv",
               0,
               CSV "Tray,stall,5,18.00,14.40,-3.60,-0.2000,\n"
                   "Box,stall,5,45.00,38.40,-6.60,-0.1467,\n"
                   "Chest,stall,5,76.50,66.40,-10.10,-0.1320,\n",
               NULL);
}

static void a_table_shows_what_moves_and_sums_it_up(void **state)
{
    (void)state;
    write_shop();
    write_text("p.csv", "name,wood,promised\nTray,5,\nBox,35,\nGate,40,30\nChest,70,\n");
    /* A wage of $12.50: 22.50, 52.50 and 87.50 go up to 23, 53 and 88. The gate stays at its promise,
     * which earlier would have been 55, now 58. Changes 0, 3, 3, 3: the median is 3, the mean 9/4;
     * percents 0, 3/85, 3/50, 15%: the median is (3/85 + 3/50) / 2 = 4.76%, the mean 6.13%. */
    expect_run("groat effect shop.rules p.csv --set wage='$12.50'", 0,
               "Product  Sold at     Was     Now  Change  Percent\n"
               "-------------------------------------------------\n"
               "Tray     stall    $20.00  $23.00   $3.00    15.0%\n"
               "Box      stall    $50.00  $53.00   $3.00     6.0%\n"
               "Gate     stall    $30.00  $30.00   $0.00     0.0%\n"
               "             pinned: the aim would be $58.00\n"
               "Chest    stall    $85.00  $88.00   $3.00     3.5%\n"
               "\n"
               "Up                  3\n"
               "Down                0\n"
               "Unchanged           1\n"
               "Typical change      $3.00, 4.8%, including unchanged prices\n"
               "Average change      $2.25, 6.1%, including unchanged prices\n"
               "Largest change      $3.00, 15.0%: Tray on stall, $20.00 to $23.00\n",
               NULL);
}

static void a_table_of_nothing_that_moves_is_its_sums(void **state)
{
    (void)state;
    write_shop();
    expect_run("groat effect shop.rules p.csv --set wage='$9.50'", 0,
               "Up                  0\n"
               "Down                0\n"
               "Unchanged           3, not shown\n",
               NULL);
}

static void json_has_rows_and_a_summary_and_is_exact(void **state)
{
    (void)state;
    write_shop();
    /* A wage of $30: 40, 70, 105, and 105 is more than 90. Median and mean (20 + 20) / 2; percents 1
     * and 2/5: median and mean are 7/10. */
    expect_run(
        "groat effect shop.rules p.csv --set wage='$30' --format json | "
        "python3 -c 'import json, sys; print(json.dumps(json.load(sys.stdin)))'",
        0,
        "{\"rows\": ["
        "{\"product\": \"Tray\", \"channel\": \"stall\", \"quantity\": 1, \"before\": "
        "\"20.00\", \"after\": \"40.00\", \"change\": \"20.00\", \"percent\": \"1\", "
        "\"notes\": []}, "
        "{\"product\": \"Box\", \"channel\": \"stall\", \"quantity\": 1, \"before\": "
        "\"50.00\", \"after\": \"70.00\", \"change\": \"20.00\", \"percent\": \"0.4\", "
        "\"notes\": []}, "
        "{\"product\": \"Chest\", \"channel\": \"stall\", \"quantity\": 1, \"before\": "
        "\"85.00\", \"after\": null, \"change\": null, \"percent\": null, "
        "\"notes\": [\"newly refused: dearer than anyone pays\"]}], "
        "\"summary\": {\"compared\": 2, \"unchanged\": 0, \"up\": 2, \"down\": 0, \"kept\": "
        "0, \"newly_refused\": 1, \"still_refused\": 0, \"no_longer_refused\": 0, "
        "\"newly_sold\": 0, \"no_longer_sold\": 0, \"median_change\": \"20.00\", "
        "\"median_percent\": \"0.7\", \"mean_change\": \"20.00\", \"mean_percent\": \"0.7\", "
        "\"largest_change\": "
        "{\"product\": \"Tray\", \"channel\": \"stall\", \"quantity\": 1, \"before\": "
        "\"20.00\", \"after\": \"40.00\", \"change\": \"20.00\", \"percent\": \"1\"}}}\n",
        NULL);
    expect_run("groat effect shop.rules p.csv --set wage='$30' --format json", 1, NULL, NULL);
}

/* ---- one side without a price ---- */

static void what_is_refused_on_one_side_has_a_row_that_says_why(void **state)
{
    (void)state;
    write_shop();
    expect_run("groat effect shop.rules p.csv --set most='$40' --format csv", 1,
               CSV "Tray,stall,1,20.00,20.00,0.00,0.0000,\n"
                   "Box,stall,1,50.00,,,,newly refused: dearer than anyone pays\n"
                   "Chest,stall,1,85.00,,,,newly refused: dearer than anyone pays\n",
               NULL);
    run("sed 's/most = $90/most = $40/' shop.rules > low.rules");
    expect_run("groat effect low.rules p.csv --set most='$60' --format csv", 1,
               CSV "Tray,stall,1,20.00,20.00,0.00,0.0000,\n"
                   "Box,stall,1,,50.00,,,was refused before: dearer than anyone pays\n"
                   "Chest,stall,1,,,,,\"refused, as before: dearer than anyone pays\"\n",
               NULL);
}

static void what_has_no_price_on_one_side_says_why(void **state)
{
    (void)state;
    write_text("shop.rules", "currency USD $\n"
                             "product { name text; wood money }\n"
                             "rate parts = 2\n"
                             "cost material = wood\n"
                             "price { set cost * 10 / parts }\n");
    write_text("p.csv", "name,wood\nTray,5\n");
    run("groat price shop.rules p.csv --set parts=0");
    const char *why = strstr(read_text("err"), "no price: ");
    assert_non_null(why);
    char expected[256];
    snprintf(expected, sizeof expected, CSV "Tray,direct,1,25.00,,,,no price now: %s",
             why + strlen("no price: "));
    expect_run("groat effect shop.rules p.csv --set parts=0 --format csv", 1, expected, NULL);
}

static void what_is_sold_on_one_side_only_has_a_row_and_on_neither_none(void **state)
{
    (void)state;
    write_shop();
    run("sed 's/least_wood = $0/least_wood = $40/' shop.rules > other.rules");
    expect_run("groat effect shop.rules p.csv --set least_wood='$40' --format csv", 0,
               CSV "Tray,stall,1,20.00,,,,no longer sold here\n"
                   "Box,stall,1,50.00,,,,no longer sold here\n"
                   "Chest,stall,1,85.00,85.00,0.00,0.0000,\n",
               NULL);
    expect_run("groat effect other.rules p.csv --set least_wood='$30' --format csv", 0,
               CSV "Box,stall,1,,50.00,,,newly sold\n"
                   "Chest,stall,1,85.00,85.00,0.00,0.0000,\n",
               NULL);
}

static void what_is_refused_as_before_is_counted_and_has_no_row_in_a_table(void **state)
{
    (void)state;
    write_shop();
    run("sed 's/most = $90/most = $60/' shop.rules > low.rules");
    expect_run("groat effect low.rules p.csv --set wage='$10'", 1,
               "Up                  0\n"
               "Down                0\n"
               "Unchanged           2, not shown\n"
               "Refused as before   1: Chest on stall\n",
               NULL);
    /* Another reason is news. */
    run("sed 's/dearer than anyone/more than the bank/' low.rules > new.rules");
    expect_run("groat effect low.rules p.csv --against new.rules | sed -n 4p", 0,
               "             refused, as before: more than the bank pays\n", NULL);
    /* A list has only what had a price. */
    run("groat price low.rules p.csv --format csv --output l.csv");
    expect_run("groat effect low.rules p.csv --since l.csv", 1,
               "Up                  0\n"
               "Down                0\n"
               "Unchanged           2, not shown\n"
               "Refused, unlisted   1: Chest on stall\n",
               NULL);
    expect_run("groat effect low.rules p.csv --since l.csv --format csv | tail -1", 0,
               "Chest,stall,1,,,,,\"not in the list, and refused: dearer than anyone pays\"\n",
               NULL);
}

static void a_sum_names_the_products_of_one_side(void **state)
{
    (void)state;
    write_shop();
    expect_run("groat effect shop.rules p.csv --quantity 1,2 --set most='$40' | tail -5", 0,
               "\n"
               "Up                  0\n"
               "Down                0\n"
               "Unchanged           2, not shown\n"
               "Newly refused       4: Box on stall; Box on stall, 2 pieces; Chest on stall; and 1 "
               "more\n",
               NULL);
    write_text("p.csv", "name,wood\nA,50\nB,50\nC,50\nD,50\nE,50\nF,50\nG,50\n");
    expect_run("groat effect shop.rules p.csv --set most='$40' | tail -1", 0,
               "Newly refused       7: A on stall; B on stall; C on stall; and 4 more\n", NULL);
}

static void a_row_that_cannot_be_read_is_said_once_and_left_out(void **state)
{
    (void)state;
    write_shop();
    write_text("p.csv", "name,wood\nTray,5\nBox,much\n");
    expect_run("groat effect shop.rules p.csv --set wage=+10% --format csv", 1,
               CSV "Tray,stall,1,20.00,21.00,1.00,0.0500,\n", NULL);
    expect_run("groat effect shop.rules p.csv --set wage=+10% 2>&1 >/dev/null | grep -c much", 0,
               "1\n", NULL);
}

/* ---- holding tickets ---- */

static void a_ticket_within_the_band_is_kept(void **state)
{
    (void)state;
    write_shop();
    /* A wage of $9: 19, 49, 84: 5% off 20, 2% off 50, 1.2% off 85. The band may be met exactly. */
    expect_run("groat effect shop.rules p.csv --set wage='$9' --hold 3% --format csv", 0,
               CSV "Tray,stall,1,20.00,19.00,-1.00,-0.0500,\n"
                   "Box,stall,1,50.00,50.00,0.00,0.0000,\"kept, although the price in the rules is "
                   "now $49.00\"\n"
                   "Chest,stall,1,85.00,85.00,0.00,0.0000,\"kept, although the price in the rules "
                   "is now $84.00\"\n",
               NULL);
    expect_run("groat effect shop.rules p.csv --set wage='$9' --hold 5% --format csv | sed -n 2p",
               0,
               "Tray,stall,1,20.00,20.00,0.00,0.0000,\"kept, although the price in the rules is "
               "now $19.00\"\n",
               NULL);
    expect_run("groat effect shop.rules p.csv --set wage='$9' --hold 4.999999% --format csv | "
               "sed -n 2p",
               0,
               "Tray,stall,1,20.00,19.00,-1.00,-0.0500,\"not kept: changes by 5.00%, more than "
               "4.999999%\"\n",
               NULL);
    expect_run("groat effect shop.rules p.csv --set wage='$9' --hold 3% | tail -7", 0,
               "Up                  0\n"
               "Down                1\n"
               "Unchanged           0\n"
               "Kept                2\n"
               "Typical change      $0.00, 0.0%, including unchanged prices\n"
               "Average change      -$0.33, -1.7%, including unchanged prices\n"
               "Largest change      -$1.00, -5.0%: Tray on stall, $20.00 to $19.00\n",
               NULL);
}

static void a_decimal_comma_is_written_in_the_sums_and_notes_of_a_table(void **state)
{
    (void)state;
    write_shop();
    expect_run("groat effect shop.rules p.csv --decimal comma --set wage='$9' --hold 1.6%", 0,
               "Product  Sold at     Was     Now  Change  Percent\n"
               "-------------------------------------------------\n"
               "Tray     stall    $20,00  $19,00  -$1,00    -5,0%\n"
               "Box      stall    $50,00  $49,00  -$1,00    -2,0%\n"
               "             not kept: changes by 2,00%, more than 1,6%\n"
               "Chest    stall    $85,00  $85,00   $0,00     0,0%\n"
               "             kept, although the price in the rules is now $84,00\n"
               "\n"
               "Up                  0\n"
               "Down                2\n"
               "Unchanged           0\n"
               "Kept                1\n"
               "Typical change      -$1,00, -2,0%, including unchanged prices\n"
               "Average change      -$0,67, -2,3%, including unchanged prices\n"
               "Largest change      -$1,00, -5,0%: Tray on stall, $20,00 to $19,00\n",
               NULL);
    /* Data has the point, in its notes too. */
    expect_run(
        "groat effect shop.rules p.csv --decimal comma --set wage='$9' --hold 1.6% "
        "--format csv | sed -n 3p",
        0, "Box,stall,1,50.00,49.00,-1.00,-0.0200,\"not kept: changes by 2.00%, more than 1.6%\"\n",
        NULL);
    /* A pin is what the rules say. */
    run("sed 's/profit >= $4/profit >= $4.50/' shop.rules > more.rules");
    write_text("q.csv", "name,wood,promised\nGate,5,30\n");
    expect_run("groat effect shop.rules q.csv --decimal comma --against more.rules "
               "--set wage='$10.25' | sed -n 4p",
               0, "             pinned: the aim would be $21.00\n", NULL);
}

static void how_far_it_moves_is_said_where_that_is_near_the_band(void **state)
{
    (void)state;
    write_shop();
    /* A box of 50 goes to 49, by 2%. A quarter more than 1.6% is 2%. */
    static const struct {
        const char *hold, *note;
    } cases[] = {
        {"1.6%", "\"not kept: changes by 2.00%, more than 1.6%\""},
        {"1.599999%", ""},
        {"2%", "\"kept, although the price in the rules is now $49.00\""},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char line[160], row[160];
        snprintf(line, sizeof line,
                 "groat effect shop.rules p.csv --set wage='$9' --hold %s --format csv | sed -n 3p",
                 cases[i].hold);
        snprintf(row, sizeof row, "Box,stall,1,50.00,%s,%s\n",
                 cases[i].hold[0] == '2' ? "50.00,0.00,0.0000" : "49.00,-1.00,-0.0200",
                 cases[i].note);
        expect_run(line, 0, row, NULL);
    }
    /* 62 goes to 61, by 1.612903%: two decimals would be the band. */
    write_text("p.csv", "name,wood\nGate,47\n");
    expect_run("groat effect shop.rules p.csv --set wage='$9' --hold 1.61% --format csv | "
               "sed -n 2p",
               0,
               "Gate,stall,1,62.00,61.00,-1.00,-0.0161,\"not kept: changes by 1.613%, more than "
               "1.61%\"\n",
               NULL);
    write_text("p.csv", "name,wood\nBox,35\n");
    expect_run(
        "groat effect shop.rules p.csv --set wage='$9' --hold 1.7% --quantity 5 --format csv "
        "| sed -n 2p",
        0,
        "Box,stall,5,45.00,44.10,-0.90,-0.0200,\"not kept: the list price changes by 2.00%, more "
        "than 1.7%\"\n",
        NULL);
}

static void a_ticket_is_not_kept_where_the_aim_does_not_hold_any_more(void **state)
{
    (void)state;
    write_shop();
    expect_run("groat effect shop.rules p.csv --set wage='$11' --hold 3% --format csv", 0,
               CSV "Tray,stall,1,20.00,21.00,1.00,0.0500,\n"
                   "Box,stall,1,50.00,51.00,1.00,0.0200,not kept: the aim does not hold at $50.00\n"
                   "Chest,stall,1,85.00,86.00,1.00,0.0118,"
                   "not kept: the aim does not hold at $85.00\n",
               NULL);
}

static void a_rise_of_a_set_price_is_held_too(void **state)
{
    (void)state;
    write_text("shop.rules", "currency USD $\n"
                             "product { name text; wood money }\n"
                             "rate times = 2\n"
                             "cost material = wood\n"
                             "price { set wood * times }\n");
    write_text("p.csv", "name,wood\nTray,5\n");
    /* 10.00, and 10.20: 2% more. */
    expect_run("groat effect shop.rules p.csv --set times=2.04 --hold 2% --format csv", 0,
               CSV "Tray,direct,1,10.00,10.00,0.00,0.0000,\"kept, although the price in the rules "
                   "is now $10.20\"\n",
               NULL);
    expect_run("groat effect shop.rules p.csv --set times=2.04 --hold 0% --format csv", 0,
               CSV "Tray,direct,1,10.00,10.20,0.20,0.0200,\n", NULL);
}

static void a_ticket_is_not_kept_outside_floor_and_ceiling_nor_against_a_promise(void **state)
{
    (void)state;
    write_shop();
    write_text("p.csv", "name,wood,low,top,promised\nLow,5,40,,\nTop,50,,60,\nPin,5,,,40\n");
    expect_run("groat effect shop.rules p.csv --set spread='$1' --hold 3% --format csv", 0,
               CSV "Low,stall,1,40.00,41.00,1.00,0.0250,not kept: below the floor of $41.00\n"
                   "Top,stall,1,60.00,59.00,-1.00,-0.0167,not kept: above the ceiling of $59.00; "
                   "held to the ceiling: the aim needs $65.00\n"
                   "Pin,stall,1,40.00,41.00,1.00,0.0250,not kept: the new price is pinned; "
                   "pinned: the aim would be $20.00\n",
               NULL);
}

static void a_ticket_is_not_kept_where_the_rules_refuse_it(void **state)
{
    (void)state;
    write_shop();
    expect_run("groat effect shop.rules p.csv --set wage='$9' --set most='$49' --hold 3% "
               "--format csv | sed -n 3p",
               0,
               "Box,stall,1,50.00,49.00,-1.00,-0.0200,"
               "not kept: refused at $50.00: dearer than anyone pays\n",
               NULL);
}

static void a_discount_is_off_the_ticket_that_is_kept(void **state)
{
    (void)state;
    write_shop();
    /* Five boxes: 50 less a tenth. The list price of 49 is within 3%; with a fifth off it would not
     * be the same ticket. */
    expect_run(
        "groat effect shop.rules p.csv --set wage='$9' --quantity 5 --hold 3% --format csv | "
        "sed -n 3p",
        0,
        "Box,stall,5,45.00,45.00,0.00,0.0000,\"kept, although the list price in the rules is now "
        "$49.00\"\n",
        NULL);
    expect_run("groat effect shop.rules p.csv --set wage='$9' --set off=20% --quantity 5 --hold 3% "
               "--format csv | sed -n 3p",
               0, "Box,stall,5,45.00,39.20,-5.80,-0.1289,not kept: the discount is different\n",
               NULL);
}

static void a_hold_is_a_percentage(void **state)
{
    (void)state;
    write_shop();
    static const char *const wrong[] = {"3",   "100.1%",     "-1%",  "+3%",
                                        "3.%", ".5%",        "1e1%", "3 %",
                                        "%",   "0.1234567%", "3%%",  "99999999999999999999%"};
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++) {
        char line[160], said[160];
        snprintf(line, sizeof line, "groat effect shop.rules p.csv --set wage=+1%% --hold '%s'",
                 wrong[i]);
        snprintf(said, sizeof said,
                 "groat: --hold needs a percentage from 0%% to 100%%, not %s\nTry: for example "
                 "--hold 3%%\n",
                 wrong[i]);
        expect_run(line, 2, "", said);
    }
}

/* ---- the command line ---- */

static void a_change_is_needed_and_one_alone(void **state)
{
    (void)state;
    write_shop();
    write_text("l.csv", LIST);
    expect_run("groat effect shop.rules p.csv", 2, "",
               "groat: effect needs one of --set, --against and --since\n"
               "Try: for example --set hourly=+10%\n");
    expect_run("groat effect shop.rules p.csv --since l.csv --against shop.rules", 2, "",
               "groat: use either --against or --since, not both\n"
               "Try: groat effect RULES PRODUCTS --since LIST.csv\n");
    expect_run("groat price shop.rules p.csv --hold 3%", 2, "", "groat: price takes no --hold\n");
    assert_int_equal(run("groat effect shop.rules p.csv --set wages=+10%"), 2);
    assert_non_null(strstr(read_text("err"), "Try: wage\n"));
}

static void nothing_that_is_read_is_written_over(void **state)
{
    (void)state;
    write_shop();
    write_text("l.csv", LIST);
    run("cp shop.rules new.rules");
    static const char *const read[] = {"shop.rules", "new.rules", "p.csv"};
    for (size_t i = 0; i < sizeof read / sizeof *read; i++) {
        char line[160], said[160];
        snprintf(line, sizeof line, "groat effect shop.rules p.csv --against new.rules --output %s",
                 read[i]);
        snprintf(said, sizeof said,
                 "groat: --output would overwrite %s, which this command reads\n", read[i]);
        expect_run(line, 2, "", said);
    }
    expect_run("groat effect shop.rules p.csv --since l.csv --output l.csv", 2, "",
               "groat: --output would overwrite l.csv, which this command reads\n");
}

static void a_sheet_from_standard_input_is_read_once_for_both_sides(void **state)
{
    (void)state;
    write_shop();
    expect_run("groat effect shop.rules - --from csv --against shop.rules --set wage='$11' "
               "--format csv < p.csv | sed -n 2p",
               0, "Tray,stall,1,20.00,21.00,1.00,0.0500,\n", NULL);
}

static void an_empty_sheet_has_no_rows_and_no_median(void **state)
{
    (void)state;
    write_shop();
    write_text("p.csv", "name,wood\n");
    expect_run("groat effect shop.rules p.csv --set wage='$11' --format json", 0,
               "{\"rows\": []\n, \"summary\": {\"compared\": 0, \"unchanged\": 0, \"up\": 0, "
               "\"down\": 0, \"kept\": 0, \"newly_refused\": 0, \"still_refused\": 0, "
               "\"no_longer_refused\": 0, \"newly_sold\": 0, \"no_longer_sold\": 0, "
               "\"median_change\": null, \"median_percent\": null, \"mean_change\": null, "
               "\"mean_percent\": null, "
               "\"largest_change\": null}}\n",
               NULL);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(every_row_says_before_after_change_and_percent),
        TEST(several_rates_change_at_once),
        TEST(a_table_shows_what_moves_and_sums_it_up),
        TEST(a_table_of_nothing_that_moves_is_its_sums),
        TEST(json_has_rows_and_a_summary_and_is_exact),
        TEST(what_is_refused_on_one_side_has_a_row_that_says_why),
        TEST(what_has_no_price_on_one_side_says_why),
        TEST(what_is_sold_on_one_side_only_has_a_row_and_on_neither_none),
        TEST(what_is_refused_as_before_is_counted_and_has_no_row_in_a_table),
        TEST(a_sum_names_the_products_of_one_side),
        TEST(a_row_that_cannot_be_read_is_said_once_and_left_out),
        TEST(a_ticket_within_the_band_is_kept),
        TEST(a_decimal_comma_is_written_in_the_sums_and_notes_of_a_table),
        TEST(how_far_it_moves_is_said_where_that_is_near_the_band),
        TEST(a_ticket_is_not_kept_where_the_aim_does_not_hold_any_more),
        TEST(a_rise_of_a_set_price_is_held_too),
        TEST(a_ticket_is_not_kept_outside_floor_and_ceiling_nor_against_a_promise),
        TEST(a_ticket_is_not_kept_where_the_rules_refuse_it),
        TEST(a_discount_is_off_the_ticket_that_is_kept),
        TEST(a_hold_is_a_percentage),
        TEST(a_change_is_needed_and_one_alone),
        TEST(nothing_that_is_read_is_written_over),
        TEST(a_sheet_from_standard_input_is_read_once_for_both_sides),
        TEST(an_empty_sheet_has_no_rows_and_no_median),
    };
    return RUN_TESTS("effect", tests);
}
