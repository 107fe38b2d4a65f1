/* groat goals: what it takes until a goal is reached. Every figure is worked out beside its test; a
 * month is 365.2425 / 12 days, which is 4.348125 weeks exactly. */
#include "command/goal_checks.h"

/* ---- a sum that is needed ---- */

static void sales_are_rounded_up_and_weeks_are_not(void **state)
{
    (void)state;
    /* gives 10 - 3 = 7: 100 / 7 = 14.3, so 15 sales, 15 / 4 = 3.75 weeks.
     * 28 - 3 = 25: 100 / 25 = 4 sales exactly, 1 week.
     * 27.99 - 3 = 24.99: 4.0016, so 5 sales, 1.25 weeks. */
    expect_rows(BENCH SAW, "name,asks,stuff\nSeven,10,3\nFour,28,3\nShort,27.99,3\n", "--pace 4", 0,
                "a saw,Four,stall,28.00,25.00,4,,1,,,,,\n"
                "a saw,Short,stall,27.99,24.99,5,,1.25,,,,,\n"
                "a saw,Seven,stall,10.00,7.00,15,,3.75,,,,,\n",
                "");
    /* 10 a month are 10 / 4.348125 = 2.2998 a week: 4 / 2.2998 = 1.73925 weeks */
    expect_rows(BENCH SAW, "name,asks,stuff\nFour,28,3\n", "--pace '10 per month'", 0,
                "a saw,Four,stall,28.00,25.00,4,,1.73925,,,,,\n", "");
    expect_rows(BENCH SAW, "name,asks,stuff\nFour,28,3\n", "", 0,
                "a saw,Four,stall,28.00,25.00,4,,,,,,,\n", "");
}

static void a_sale_that_gives_nothing_never_gets_there(void **state)
{
    (void)state;
    expect_rows(
        BENCH SAW, "name,asks,stuff\nLoss,4,5\nNothing,5,5\nCent,5.01,5\n", "--pace 1", 0,
        "a saw,Cent,stall,5.01,0.01,10000,,10000,,,,,\n" /* 100 / 0.01 */
        "a saw,Nothing,stall,5.00,0.00,,,,,,never,,never: a sale contributes nothing\n"
        "a saw,Loss,stall,4.00,-1.00,,,,,,never,,never: a sale contributes a negative amount\n",
        "");
}

static void where_nothing_is_needed_no_sale_is(void **state)
{
    (void)state;
    expect_rows(BENCH "goal \"paid\" {\n    needs $5 - owed otherwise $5\n    gives profit\n}\n",
                "name,asks,stuff,owed\nLoss,4,5,5\nGain,7,5,6\n", "--pace 2", 0,
                "paid,Gain,stall,7.00,2.00,0,,0,,,,,nothing is needed\n"
                "paid,Loss,stall,4.00,-1.00,0,,0,,,,,nothing is needed\n",
                "");
}

static void a_sum_may_have_a_limit_of_its_own(void **state)
{
    (void)state;
    /* Room for 10 h / 60 min = 10 sales. Seven: 50 / 7 = 7.14, so 8; brings 70. Five: 50 / 5 = 10;
     * brings 50, exactly enough. Less: 50 / 4.99 = 10.02, so 11; brings 49.90; 5 is asked for.
     * Long: 10 h / 90 min = 6.67; 50 / 8 = 6.25 is less, but 7 whole sales are more than 6;
     * brings 8 * 6.67 = 53.33. */
    expect_rows(BENCH TRIP,
                "name,asks,work\nSeven,7,60\nFive,5,60\nLess,4.99,60\nLong,8,90\nSlow,8,120\n",
                "--pace 2", 0,
                "a trip,Long,stall,8.00,8.00,7,,3.5,6.666667,53.33,yes,,\"only 6 whole sales fit, "
                "one too few\"\n"
                "a trip,Seven,stall,7.00,7.00,8,,4,10,70.00,yes,,\n"
                "a trip,Five,stall,5.00,5.00,10,,5,10,50.00,yes,,\n"
                /* of what falls short, the nearest comes first: 4.99 * 10, then 8 * 5 */
                "a trip,Less,stall,4.99,4.99,11,,5.5,10,49.90,no,5.00,\n"
                "a trip,Slow,stall,8.00,8.00,7,,3.5,5,40.00,no,10.00,\n",
                "");
}

/* ---- a sum per time ---- */

static void exactly_enough_suffices_and_a_coin_less_does_not(void **state)
{
    (void)state;
    /* 10 h a week are 10 sales, 43.48125 a month, 43 of them whole. Exact gives 7: 70 a week,
     * 304.36875 a month; 10 sales a week, 43.48 a month, so 44. Less gives 6.99: 69.90 a week,
     * 303.9339 a month; 70 / 6.99 = 10.0143 a week, 43.54 a month. A cent more would do. */
    expect_rows(BENCH INCOME, "name,asks,stuff\nLess,9.99,3\nExact,10,3\n", "", 0,
                "an income,Exact,stall,10.00,7.00,44,10,,43.48125,304.37,yes,,\"only 43 whole "
                "sales fit into a month, but over several months it is enough\"\n"
                "an income,Less,stall,9.99,6.99,44,10.014306,,43.48125,303.93,no,10.00,\n",
                "");
}

static void what_never_gets_there_is_told_the_price_that_would(void **state)
{
    (void)state;
    /* 7 above what it costs, which is 5: 12 */
    expect_rows(
        BENCH INCOME, "name,asks,stuff\nLoss,4,5\nNothing,5,5\n", "", 0,
        "an income,Nothing,stall,5.00,0.00,,,,43.48125,,never,12.00,never: a sale contributes "
        "nothing\n"
        "an income,Loss,stall,4.00,-1.00,,,,43.48125,,never,12.00,never: a sale contributes a "
        "negative amount\n",
        "");
}

static void what_takes_nothing_has_no_limit_and_comes_first(void **state)
{
    (void)state;
    /* 70 / 8 = 8.75 a week, 38.05 a month; 70 / 20 = 3.5 a week, 15.2 a month, and 200 a week are
     * 869.625 a month */
    expect_rows(BENCH INCOME, "name,asks,work\nDear,20,60\nFree,8,0\n", "", 0,
                "an income,Free,stall,8.00,8.00,39,8.75,,,,yes,,no limit: a sale uses none of what "
                "there is\n"
                "an income,Dear,stall,20.00,20.00,16,3.5,,43.48125,869.63,yes,,\n",
                "");
    expect_rows(BENCH INCOME, "name,asks,stuff,work\nNothing,5,5,0\n", "", 0,
                "an income,Nothing,stall,5.00,0.00,,,,,,never,,never: a sale contributes nothing\n",
                "");
}

static void most_of_what_there_is_comes_before_fewest_sales(void **state)
{
    (void)state;
    /* Small: 20 sales a week of 8 are 160; Large: 5 of 30 are 150, and it takes fewer sales. 160
     * and 150 times 4.348125 are 695.70 and 652.21875; room for 86.9625 and 21.740625; 8.75 and
     * 2.33 a week are 38.05 and 10.15 a month. */
    expect_rows(BENCH INCOME, "name,asks,work\nLarge,30,120\nSmall,8,30\n", "", 0,
                "an income,Small,stall,8.00,8.00,39,8.75,,86.9625,695.70,yes,,\n"
                "an income,Large,stall,30.00,30.00,11,2.333333,,21.740625,652.22,yes,,\n",
                "");
}

static void a_price_above_the_ceiling_is_told_as_such(void **state)
{
    (void)state;
    /* 70 / 6 = 11.67 a week, 50.7 a month; 60 a week are 260.8875 a month */
    expect_rows(
        BENCH INCOME, "name,asks,cap\nCapped,9,6\nRoomy,6,7\n", "", 0,
        "an income,Capped,stall,6.00,6.00,51,11.666667,,43.48125,260.89,no,7.00,$7.00 is above "
        "the ceiling of $6.00\n"
        "an income,Roomy,stall,6.00,6.00,51,11.666667,,43.48125,260.89,no,7.00,\n",
        "");
}

static void a_price_that_the_rules_refuse_is_told_with_the_reason(void **state)
{
    (void)state;
    /* 100 h each: a tenth of one a week, 0.43 a month; 700 is needed, and 500 the most. 70 / 100
     * = 0.7 a week, 3.04 a month; 10 a week are 43.48 a month. */
    expect_rows(
        BENCH INCOME, "name,asks,work\nHuge,100,6000\n", "", 0,
        "an income,Huge,stall,100.00,100.00,4,0.7,,0.434813,43.48,no,700.00,not one fits into a "
        "month; $700.00 is refused: too dear\n",
        "");
}

static void a_promise_that_another_price_would_serve_better_is_told(void **state)
{
    (void)state;
    /* 70 a week in 10 h are 7 for a sale of an hour; 6 is promised. 6 a week are 11.67 sales,
     * 50.7 a month; 60 a week are 260.8875 a month. With 7 promised nothing more is needed. */
    static const char pinned[] =
        "currency USD $\n"
        "product {\n    name text\n    asks money\n    promised money optional\n}\n"
        "channel stall {}\n"
        "let work = 1 h\n"
        "rate free_time = 10 h per week\n"
        "price {\n    set asks\n    pin promised\n}\n"
        "goal \"an income\" {\n    needs $70 per week\n    gives price\n    takes work\n"
        "    has free_time\n}\n";
    expect_rows(pinned, "name,asks,promised\nLow,9,6\nHigh,9,7\nOpen,6,\n", "", 0,
                "an income,High,stall,7.00,7.00,44,10,,43.48125,304.37,yes,,\"only 43 whole sales "
                "fit into a month, but over several months it is enough\"\n"
                "an income,Low,stall,6.00,6.00,51,11.666667,,43.48125,260.89,no,7.00,the price is "
                "pinned at $6.00\n"
                "an income,Open,stall,6.00,6.00,51,11.666667,,43.48125,260.89,no,7.00,\n",
                "");
    expect_run("groat goals g.rules p.csv --decimal comma | grep pinned | sed 's/^ *//'", 0,
               "the price is pinned at $6,00\n", "");
}

static void a_wide_table_keeps_every_product_in_its_row_and_does_without_sales_a_week(void **state)
{
    (void)state;
    write_text("g.rules",
               "currency NOK kr\nproduct {\n    name text\n    asks money\n}\n"
               "channel workshop_door {}\nlet work = 1 h\nrate free_time = 10 h per week\n"
               "price {\n    set asks\n}\n"
               "goal \"an income\" {\n    needs 70 kr per week\n    gives price\n"
               "    takes work\n    has free_time\n}\n");
    /* 6 in an hour are too little: 70 in 10 h are 7. */
    write_text("p.csv", "name,asks\nA bowl of elm with a rim of brass,6\nA lidded box of ash,9\n");
    expect_run(
        "groat goals g.rules p.csv | tail -n +2 | head -n -1", 0,
        "                                                           One             All that\n"
        "                                                          sale    Sales  time would       "
        "    Price\n"
        "                                                  Price  gives   needed       bring       "
        "   needed\n"
        "Product                            Sold at           kr     kr  a month  kr a month  "
        "Enough      kr\n"
        "------------------------------------------------------------------------------------------"
        "---------\n"
        "A lidded box of ash                workshop_door   9.00   9.00       34      391.33  yes\n"
        "A bowl of elm with a rim of brass  workshop_door   6.00   6.00       51      260.89  no   "
        "     7.00\n",
        "");
}

static void what_there_is_is_named_as_the_rules_name_it(void **state)
{
    (void)state;
    static const char head[] = "currency USD $\nunit kiln\n"
                               "product {\n    name text\n    asks money\n"
                               "    days time as day = 9 day\n}\n"
                               "rate room = 30 kiln per month\nlet load = 1 kiln\n"
                               "show loads as week = load / room\n"
                               "price { set asks }\n";
    static const struct {
        const char *lines, *last;
    } cases[] = {
        {"goal \"a\" { needs $9 per week; gives price; takes load; has room }\n",
         "Most for your 30 kiln a month: A on direct, $60.00 a month.\n"},
        {"goal \"a\" { needs $9 per week; gives price; takes 1 h; has 6 h per day }\n",
         /* 6 sales a day of $2, times 365.2425 / 12 */
         "Most for your 6 h a day: A on direct, $365.24 a month.\n"},
        {"goal \"a\" { needs $8 per week; gives price; takes 1 h; has days / 1 year }\n",
         /* 216 h a year are 18 h a month */
         "Most for what there is: A on direct, $36.00 a month.\n"},
        {"goal \"a\" { needs $900 per year; gives price; takes 1 h; has 9 h per year }\n",
         "No product reaches it with your 9 h a year. Nearest: A on direct, at most $1.50 a "
         "month.\n"},
        {"goal \"a\" { needs $900; gives price; takes 1 h; has 9 h }\n",
         "No product reaches it with your 9 h. Nearest: A on direct, at most $18.00.\n"},
    };
    write_text("p.csv", "name,asks\nA,2\n");
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char rules[1024];
        snprintf(rules, sizeof rules, "%s%s", head, cases[i].lines);
        write_text("g.rules", rules);
        expect_run("groat goals g.rules p.csv | tail -1", 0, cases[i].last, "");
    }
    /* Only of time is there time. */
    expect_run("groat goals g.rules p.csv | grep -c 'All that time'", 0, "1\n", "");
    char rules[1024];
    snprintf(rules, sizeof rules, "%s%s", head, cases[0].lines);
    write_text("g.rules", rules);
    expect_run("groat goals g.rules p.csv | grep -c -e 'Time' -e 'time'", 1, "0\n", "");
}

static void where_not_one_sale_fits_the_row_says_so(void **state)
{
    (void)state;
    /* 10 h of 20 are half a sale of a sum, and of an income 0.5 a week, 2.17 a month; of 50 h 0.2
     * a week, 0.87 a month, which bring 0.2 * 400 = 80 a week, 347.85 a month. 70 / 400 = 0.175 a
     * week, 0.76 a month. 70 / 0.5 = 140. Of a trip they bring 0.2 * 400 and 0.5 * 100, which is
     * enough. */
    expect_rows(BENCH INCOME TRIP, "name,asks,work\nTwo,100,1200\nOne,400,3000\n", "", 0,
                "an income,One,stall,400.00,400.00,1,0.175,,0.869625,347.85,yes,,\"not one fits "
                "into a month, but over several months it is enough\"\n"
                "an income,Two,stall,100.00,100.00,4,0.7,,2.174063,217.41,no,140.00,\n"
                "a trip,One,stall,400.00,400.00,1,,,0.2,80.00,yes,,not one fits\n"
                "a trip,Two,stall,100.00,100.00,1,,,0.5,50.00,yes,,not one fits\n",
                "");
}

static void where_no_price_would_do_the_reason_is_told(void **state)
{
    (void)state;
    /* 5 - 5.50 */
    expect_rows(BENCH INCOME, "name,asks,where\nVain,5,greedy\n", "", 0,
                "an income,Vain,greedy,5.00,-0.50,,,,43.48125,,never,,never: a sale contributes a "
                "negative amount; "
                "no price reaches the goal: each extra $1 leaves -$0.10 after fees (g.rules:22)\n",
                "");
}

static void without_a_limit_the_fewest_sales_come_first(void **state)
{
    (void)state;
    /* 70 / 10 = 7 a week, 30.4 a month; 70 / 20 = 3.5, 15.2 */
    expect_rows(BENCH "goal \"rent\" {\n    needs $70 per week\n    gives profit\n}\n",
                "name,asks\nA,10\nB,20\n", "--pace 5", 0,
                "rent,B,stall,20.00,20.00,16,3.5,,,,,,\n"
                "rent,A,stall,10.00,10.00,31,7,,,,,,\n",
                "");
}

/* ---- what is not answered ---- */

static void a_goal_that_lacks_a_line_is_not_answered(void **state)
{
    (void)state;
    static const char lines[] =
        BENCH "goal \"needs\" { needs owed; gives profit }\n"
              "goal \"gives\" { needs $9; gives owed }\n"
              "goal \"takes\" { needs $9; gives profit; takes cap; has $9 }\n"
              "goal \"has\" { needs $9; gives profit; takes $1; has owed }\n"
              "goal \"error\" { needs $9; gives profit * (1 min / work) }\n";
    expect_rows(lines, "name,asks,work\nA,3,0\n", "", 0,
                "needs,A,stall,3.00,3.00,,,,,,,,not answered: needs is missing\n"
                "gives,A,stall,3.00,,,,,,,,,not answered: gives is missing\n"
                "takes,A,stall,3.00,3.00,,,,,,,,not answered: takes is missing\n"
                "has,A,stall,3.00,3.00,,,,,,,,not answered: has is missing\n"
                "error,A,stall,3.00,,,,,,,,,not answered: gives cannot be worked out\n",
                "");
}

static void what_is_answered_comes_before_what_is_not(void **state)
{
    (void)state;
    expect_rows(BENCH "goal \"debt\" { needs owed; gives profit }\n",
                "name,asks,stuff,owed\nA,9,0,\nB,1,1,9\nC,3,0,9\n", "", 0,
                "debt,C,stall,3.00,3.00,3,,,,,,,\n"
                "debt,B,stall,1.00,0.00,,,,,,never,,never: a sale contributes nothing\n"
                "debt,A,stall,9.00,9.00,,,,,,,,not answered: needs is missing\n",
                "");
}

static void refused_rows_are_named_once_and_not_sold_is_no_row(void **state)
{
    (void)state;
    expect_rows(BENCH SAW INCOME, "name,asks,where\nDear,501,stall\nNowhere,5,attic\nA,10,stall\n",
                "", 1,
                "a saw,A,stall,10.00,10.00,10,,,,,,,\n"
                "an income,A,stall,10.00,10.00,31,7,,43.48125,434.81,yes,,\n",
                "p.csv:2: Dear, stall: refused: too dear\n");
    expect_rows(BENCH SAW, "name,asks\nBad,plenty\nA,10\n", "", 1,
                "a saw,A,stall,10.00,10.00,10,,,,,,,\n", NULL);
}

/* ---- json ---- */

static void json_has_every_amount_exactly(void **state)
{
    (void)state;
    write_text("g.rules", BENCH SAW INCOME);
    write_text("p.csv", "name,asks,stuff,work\nA,10,3,70\nB,5,5,0\n");
    /* A: 15 sales at 4 a week; 70 / 7; 10 h / 70 min = 60/7 a week, times 4.348125 = 20871/560 =
     * 37.27; times 7 = 60 a week, 260.8875 a month; it needs 70 * 70 min / 10 h = 8.1667 and so 3
     * + 8.17 */
    expect_run(
        "groat goals g.rules p.csv --pace 4 --format json", 0,
        "[\n"
        "{\"goal\": \"a saw\", \"product\": \"A\", \"channel\": \"stall\", \"price\": "
        "\"10.00\", \"gives\": \"7.00\", \"sales\": 15, \"sales_per_week\": null, "
        "\"weeks\": \"3.75\", \"sales_allowed\": null, \"brings\": null, \"suffices\": "
        "null, \"price_needed\": null, \"notes\": []},\n"
        "{\"goal\": \"a saw\", \"product\": \"B\", \"channel\": \"stall\", \"price\": "
        "\"5.00\", \"gives\": \"0.00\", \"sales\": null, \"sales_per_week\": null, "
        "\"weeks\": null, \"sales_allowed\": null, \"brings\": null, \"suffices\": "
        "\"never\", \"price_needed\": null, \"notes\": [\"never: a sale contributes nothing\"]},\n"
        "{\"goal\": \"an income\", \"product\": \"A\", \"channel\": \"stall\", \"price\": "
        "\"10.00\", \"gives\": \"7.00\", \"sales\": 44, \"sales_per_week\": \"10\", "
        "\"weeks\": null, \"sales_allowed\": \"20871/560\", \"brings\": \"260.8875\", "
        "\"suffices\": "
        "\"no\", \"price_needed\": \"11.17\", \"notes\": []},\n"
        "{\"goal\": \"an income\", \"product\": \"B\", \"channel\": \"stall\", \"price\": "
        "\"5.00\", \"gives\": \"0.00\", \"sales\": null, \"sales_per_week\": null, "
        "\"weeks\": null, \"sales_allowed\": null, \"brings\": null, \"suffices\": "
        "\"never\", \"price_needed\": null, \"notes\": [\"never: a sale contributes nothing\"]}\n"
        "]\n",
        "");
    write_text("p.csv", "name,asks,stuff,work\nA,10,3,60\n");
    /* 15 / 7 weeks */
    expect_run("groat goals g.rules p.csv --pace 7 --format json | grep -c '\"weeks\": \"15/7\"'",
               0, "1\n", "");
}

/* ---- the table ---- */

static void a_table_has_a_part_for_each_goal_and_names_the_best(void **state)
{
    (void)state;
    write_text("g.rules", BENCH SAW INCOME);
    write_text("p.csv", "name,asks,stuff\nLess,9.99,3\nMore,20,3\nTwin,20,3\n");
    /* More gives 17: 100 / 17 = 5.9, so 6 sales, 2.4 weeks; 70 / 17 = 4.12 a week, 17.9 a month;
     * 170 a week are 739.18 a month; 2.5 a week are 42.50 a week, 184.80 a month */
    expect_run(
        "groat goals g.rules p.csv --pace 2.5", 0,
        "a saw: $100.00 needed\n"
        "                                                                Weeks\n"
        "Product  Sold at   Price  One sale gives  Sales needed  at 2.5 a week\n"
        "---------------------------------------------------------------------\n"
        "More     stall    $20.00          $17.00             6            2.4\n"
        "Twin     stall    $20.00          $17.00             6            2.4\n"
        "Less     stall     $9.99           $6.99            15            6.0\n"
        "First: More on stall, after 6 sales, 2.4 weeks at 2.5 a week; 1 other is as good.\n"
        "\n"
        "an income: $70.00 a week needed\n"
        "                                            Sales   Sales            All that time\n"
        "                                           needed  needed  Time for    would bring    "
        "       Price\n"
        "Product  Sold at   Price  One sale gives  a month  a week   a month        a month  En"
        "ough  needed\n"
        "--------------------------------------------------------------------------------------"
        "------------\n"
        "More     stall    $20.00          $17.00       18    4.12      43.5        $739.18  ye"
        "s\n"
        "Twin     stall    $20.00          $17.00       18    4.12      43.5        $739.18  ye"
        "s\n"
        "Less     stall     $9.99           $6.99       44   10.01      43.5        $303.93  no"
        "      $10.00\n"
        "Most for your 10 h a week: More on stall, $739.18 a month; 1 other is as good.\n"
        "At 2.5 a week the most comes from More on stall: $184.80 a month, which is not "
        "enough.\n",
        "");
}

static void a_pace_has_a_best_of_its_own_within_what_there_is(void **state)
{
    (void)state;
    write_text("g.rules", BENCH INCOME);
    write_text("p.csv", "name,asks,work\nSmall,8,30\nLarge,30,120\n");
    /* In the 10 h 20 Small bring 160 a week and 5 Large 150. At 4 a week: 32 and 120, which is
     * 521.775 a month; at 6 a week there is room for 5 Large: 150, or 652.21875 a month. At 2 a
     * week: 16 and 60; 70 is needed. */
    expect_run("for pace in 4 6 2; do groat goals g.rules p.csv --pace $pace | tail -2; done", 0,
               "Most for your 10 h a week: Small on stall, $695.70 a month.\n"
               "At 4 a week the most comes from Large on stall: $521.78 a month, which is enough.\n"
               "Most for your 10 h a week: Small on stall, $695.70 a month.\n"
               "At 6 a week the most comes from Large on stall: $652.22 a month, which is enough.\n"
               "Most for your 10 h a week: Small on stall, $695.70 a month.\n"
               "At 2 a week the most comes from Large on stall: $260.89 a month, which is not "
               "enough.\n",
               "");
}

static void a_decimal_comma_is_read_and_written_in_a_pace_too(void **state)
{
    (void)state;
    write_text("g.rules", BENCH SAW);
    write_text("p.csv", "name;asks\nMore;17,00\n");
    expect_run("groat goals g.rules p.csv --decimal comma --pace 2,5 | tail -1", 0,
               "First: More on stall, after 6 sales, 2,4 weeks at 2,5 a week.\n", "");
}

static void a_goal_that_nothing_reaches_names_the_nearest(void **state)
{
    (void)state;
    write_text("g.rules", BENCH INCOME);
    write_text("p.csv", "name,asks,stuff\nLess,9.99,3\nLeast,5,3\n");
    expect_run(
        "groat goals g.rules p.csv | tail -1", 0,
        "No product reaches it with your 10 h a week. Nearest: Less on stall, at most $303.93 a "
        "month.\n",
        "");
    write_text("p.csv", "name,asks,stuff\nA,3,3\n");
    expect_run("groat goals g.rules p.csv | tail -1", 0,
               "No product reaches it: no sale contributes anything.\n", "");
    write_text("p.csv", "name,asks,where\nA,3,attic\n");
    expect_run("groat goals g.rules p.csv", 0,
               "an income\nNo product has a price that could contribute to it.\n", "");
    write_text("g.rules", BENCH "goal \"debt\" { needs owed; gives profit }\n");
    write_text("p.csv", "name,asks\nA,3\n");
    expect_run("groat goals g.rules p.csv | tail -1", 0,
               "This goal could not be answered for any product.\n", "");
}

static void what_is_needed_has_a_column_where_it_differs(void **state)
{
    (void)state;
    write_text("g.rules", BENCH "goal \"its own mould\" { needs owed; gives profit }\n");
    write_text("p.csv", "name,asks,owed\nA,3,9\nB,5,20\nC,4,\n");
    expect_run("groat goals g.rules p.csv", 0,
               "its own mould\n"
               "Product  Sold at  Price  Needed  One sale gives  Sales needed\n"
               "-------------------------------------------------------------\n"
               "A        stall    $3.00   $9.00           $3.00             3\n"
               "B        stall    $5.00  $20.00           $5.00             4\n"
               "C        stall    $4.00                   $4.00\n"
               "             not answered: needs is missing\n"
               "First: A on stall, after 3 sales.\n",
               "");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(sales_are_rounded_up_and_weeks_are_not),
        TEST(a_sale_that_gives_nothing_never_gets_there),
        TEST(where_nothing_is_needed_no_sale_is),
        TEST(a_sum_may_have_a_limit_of_its_own),
        TEST(exactly_enough_suffices_and_a_coin_less_does_not),
        TEST(what_never_gets_there_is_told_the_price_that_would),
        TEST(what_takes_nothing_has_no_limit_and_comes_first),
        TEST(most_of_what_there_is_comes_before_fewest_sales),
        TEST(a_price_above_the_ceiling_is_told_as_such),
        TEST(a_price_that_the_rules_refuse_is_told_with_the_reason),
        TEST(a_promise_that_another_price_would_serve_better_is_told),
        TEST(a_wide_table_keeps_every_product_in_its_row_and_does_without_sales_a_week),
        TEST(what_there_is_is_named_as_the_rules_name_it),
        TEST(where_not_one_sale_fits_the_row_says_so),
        TEST(where_no_price_would_do_the_reason_is_told),
        TEST(without_a_limit_the_fewest_sales_come_first),
        TEST(a_goal_that_lacks_a_line_is_not_answered),
        TEST(what_is_answered_comes_before_what_is_not),
        TEST(refused_rows_are_named_once_and_not_sold_is_no_row),
        TEST(json_has_every_amount_exactly),
        TEST(a_table_has_a_part_for_each_goal_and_names_the_best),
        TEST(a_pace_has_a_best_of_its_own_within_what_there_is),
        TEST(a_decimal_comma_is_read_and_written_in_a_pace_too),
        TEST(a_goal_that_nothing_reaches_names_the_nearest),
        TEST(what_is_needed_has_a_column_where_it_differs),
    };
    return RUN_TESTS("goals", tests);
}
