/* Explanations: the account of one price, of one figure, and what cannot be explained. */
#include "command/command_checks.h"

/* Reckoned by hand. Wood $6 and half an hour at $20 an hour are $16. The stall takes a tenth. A
 * margin of 20% asks for 0.9 p - 16 >= 0.2 p, so p is $22.857 and more, on the ladder $23.00: fee
 * $2.30, kept $20.70, profit $4.70, 4.70/23 = 20.43%. At $22.50 the fee is $2.25, the profit $4.25,
 * and 4.25/22.5 = 18.8889%. */
static const char shop[] = "currency USD $\n"
                           "product { name text; wood money; bench time as min; post flag = no }\n"
                           "rate hourly = $20 per h\n"
                           "cost timber = wood\n"
                           "pay hands = bench * hourly # our own\n"
                           "channel stall { fee card = 10% of price }\n"
                           "channel mail { only when post }\n"
                           "refuse \"too dear\" when price > $100\n"
                           "price { aim margin >= 20% and profit >= $2; floor wood; round up to "
                           "$0.50 }\n";

static const char sheet[] = "name,wood,bench,post\nShelf,6,30,no\nDoor,90,60,no\n";

static void write_shop(void)
{
    write_text("s.rules", shop);
    write_text("p.csv", sheet);
}

static void a_price_is_accounted_for_from_cost_to_the_coin_below(void **state)
{
    (void)state;
    write_shop();
    expect_run("groat explain s.rules p.csv --product Shelf --channel stall", 0,
               "Shelf on stall: $23.00\n"
               "\n"
               "What one piece costs\n"
               "  timber      $6.00  $6.00 [s.rules:4]\n"
               "  hands      $10.00  30 min * $20 per h [s.rules:5]\n"
               "  cost       $16.00\n"
               "\n"
               "What the buyer pays\n"
               "  price      $23.00\n"
               "\n"
               "What comes off\n"
               "  card        $2.30  10% of $23.00 [s.rules:6]\n"
               "  fees        $2.30\n"
               "\n"
               "What is left\n"
               "  keep       $20.70  $23.00 - $2.30\n"
               "  profit      $4.70  $20.70 - $16.00\n"
               "  margin     20.43%  $4.70 / $23.00\n"
               "  take_home  $14.70  $4.70 + $10.00\n"
               "\n"
               "Why this price\n"
               "  aim           yes  20.43% >= 20% and $4.70 >= $2 [s.rules:9]\n"
               "  floor       $6.00  $6.00 [s.rules:9]\n"
               "  round              up to $0.50 [s.rules:9]\n"
               "  The next lower allowed price is $22.50. It would not do, because:\n"
               "    aim margin >= 20% does not hold there: 18.8889% >= 20%\n",
               "");
}

/* At $25 the market keeps $22.50, $4.50 more than the wood: 18%. */
static void what_stands_against_a_coin_less_is_said_not_to_hold(void **state)
{
    (void)state;
    write_text("s.rules", "currency USD $\n"
                          "product { name text; wood money; low money optional }\n"
                          "cost timber = wood\n"
                          "channel stall { }\n"
                          "channel market { fee card = 10% of price }\n"
                          "same price on stall, market\n"
                          "price { aim margin >= 20%; floor low; round up to $1 }\n");
    write_text("p.csv", "name,wood,low\nBox,18,26\n");
    static const char against[] =
        "  The next lower allowed price is $25.00. It would not do, because:\n"
        "    floor low is above it: $26.00\n"
        "    floor low on market is above it: $26.00\n"
        "    aim margin >= 20% on market does not hold there: 18% >= 20%\n";
    assert_int_equal(run("groat explain s.rules p.csv --product Box --channel stall"), 0);
    const char *said = strstr(read_text("out"), "  The next");
    assert_non_null(said);
    assert_string_equal(said, against);
}

static void a_name_is_followed_down_to_what_it_is_made_of(void **state)
{
    (void)state;
    write_shop();
    expect_run("groat explain s.rules p.csv --product Shelf --channel stall --name hands", 0,
               "Shelf on stall\n"
               "\n"
               "What was asked for\n"
               "  hands        $10.00  30 min * $20 per h [s.rules:5]\n"
               "    bench      30 min  [s.rules:2]\n"
               "    hourly  $20 per h  $20 per h [s.rules:3]\n",
               "");
}

/* A tenth off $23.00 for five of them; 0.9 * $23.00 = $20.70. */
static void a_discount_has_the_list_price_accounted_for(void **state)
{
    (void)state;
    write_shop();
    expect_run("sed 's/^price {/price { discount if quantity >= 5 then 10% else 0%;/' s.rules "
               ">d.rules; "
               "groat explain d.rules p.csv --product Shelf --channel stall --quantity 5,1 | grep "
               "-e '^Shelf' -e '^Why'",
               0,
               "Shelf on stall, each of 5: $20.70\n"
               "Why the list price of $23.00, for one\n"
               "Shelf on stall: $23.00\n"
               "Why this price\n",
               "");
}

static void each_part_and_each_likely_value_stands_below_its_line(void **state)
{
    (void)state;
    write_text("m.rules", "currency USD $\n"
                          "materials { maple $9.20 per bf; oil $31 per 500 ml }\n"
                          "product { name text; uses parts; work time as min }\n"
                          "cost goods = worth of uses\n"
                          "pay hands = work * $20 per h\n"
                          "price { aim profit >= $0; floor work * $10 per h }\n");
    write_text("p.csv", "name,uses,work\nBowl,maple 2.4 bf + oil 25 ml,20 to 40 min\n");
    expect_run("groat explain m.rules p.csv --product Bowl | sed -n '3,9p'", 0,
               "What one piece costs\n"
               "  goods      $23.63  $23.63 [m.rules:4]\n"
               "    maple    $22.08  2.4 bf at $9.20 per bf [m.rules:2]\n"
               "    oil       $1.55  25 ml at $31 per 500 ml [m.rules:2]\n"
               "  hands      $10.00  30 min * $20 per h [m.rules:5]\n"
               "    work     30 min  the likely value of 20 min to 40 min [m.rules:3]\n"
               "  cost       $33.63\n",
               "");
    expect_run("groat explain m.rules p.csv --product Bowl --format json | grep -c '\"part\": "
               "\"detail\"'",
               0, "3\n", "");
}

static void a_name_may_be_the_heading_of_a_list(void **state)
{
    (void)state;
    static const char *const headings[] = {"'You keep'", "'you keep'", "Keep", "keep"};
    write_shop();
    for (size_t i = 0; i < sizeof headings / sizeof *headings; i++) {
        char command[160];
        snprintf(
            command, sizeof command,
            "groat explain s.rules p.csv --product Shelf --channel stall --name %s | sed -n 4p",
            headings[i]);
        expect_run(command, 0, "  keep          $20.70  $23.00 - $2.30\n", "");
    }
    expect_run("groat explain s.rules p.csv --product Shelf --channel stall --name Take-home "
               "| sed -n 4p",
               0, "  take_home            $14.70  $4.70 + $10.00\n", "");
}

static void a_replaced_rate_says_so(void **state)
{
    (void)state;
    write_shop();
    expect_run("groat explain s.rules p.csv --product Shelf --channel stall --name hourly "
               "--set hourly='$30 per h' | grep -c 'replaced by $30.00 per h'",
               0, "1\n", "");
}

static void json_is_the_same_as_data(void **state)
{
    (void)state;
    write_shop();
    assert_int_equal(run("groat explain s.rules p.csv --product Shelf --channel stall "
                         "--format json"),
                     0);
    const char *out = read_text("out");
    static const char hands[] =
        "{\"part\": \"pay\", \"name\": \"hands\", \"written\": \"bench * hourly\", "
        "\"worked\": \"30 min * $20 per h\", \"amount\": \"$10.00\", \"value\": \"10.00\", "
        "\"file\": \"s.rules\", \"line\": 5}";
    static const char margin[] =
        "\"name\": \"margin\", \"written\": \"profit / net\", \"worked\": \"$4.70 / $23.00\", "
        "\"amount\": \"20.43%\", \"value\": \"47/230\"";
    const char *wanted[] = {
        "\"product\": \"Shelf\", \"channel\": \"stall\", \"quantity\": 1, \"outcome\": \"priced\"",
        hands, margin, "\"rests_on\": \"aim\", \"next_lower\": {\"price\": \"$22.50\"",
        "\"worked\": \"18.8889% >= 20%\""};
    for (size_t i = 0; i < sizeof wanted / sizeof *wanted; i++)
        if (!strstr(out, wanted[i]))
            fail_msg("not there: %s\nin %s", wanted[i], out);
}

static void what_is_not_sold_or_is_refused_says_so(void **state)
{
    (void)state;
    write_shop();
    expect_run("groat explain s.rules p.csv --product Shelf --channel mail | head -1", 0,
               "Shelf on mail: not sold there\n", "");
    expect_run("groat explain s.rules p.csv --product Door --channel stall >all; status=$?; "
               "head -1 all; exit $status",
               1, "Door on stall: refused: too dear\n", "");
}

static void an_unknown_product_or_name_proposes_the_nearest(void **state)
{
    (void)state;
    write_shop();
    expect_run("groat explain s.rules p.csv --product Shelv", 2, "",
               "groat: the sheet has no product Shelv\nTry: Shelf\n");
    expect_run("groat explain s.rules p.csv", 2, "",
               "groat: explain needs a product: --product NAME\n"
               "groat: the products are: Shelf, Door\n");
    expect_run("groat explain s.rules p.csv --product Shelf --name hourli", 2, "",
               "groat: the rules have no name hourli\nTry: hourly\n");
    expect_run("groat explain s.rules p.csv --product Shelf --format csv", 2, "",
               "groat: an explanation can be a table or json, but not csv\n");
}

static void a_heading_without_a_figure_is_told_what_makes_it_up(void **state)
{
    (void)state;
    write_shop();
    expect_run("groat explain s.rules p.csv --product Shelf --name 'Buyer adds'", 2, "",
               "groat: Buyer adds has no name in the rules: it is paid minus price\n"
               "Try: --name paid, or --name price\n");
    expect_run("groat explain s.rules p.csv --product Shelf --name 'Break-even price'", 2, "",
               "groat: Break-even price has no name in the rules: groat earn works it out\n"
               "Try: groat earn RULES PRODUCTS --at PRICE\n");
    expect_run("groat explain s.rules p.csv --product Shelf --name paid", 0, NULL, "");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(a_heading_without_a_figure_is_told_what_makes_it_up),
        TEST(a_price_is_accounted_for_from_cost_to_the_coin_below),
        TEST(what_stands_against_a_coin_less_is_said_not_to_hold),
        TEST(a_name_is_followed_down_to_what_it_is_made_of),
        TEST(a_discount_has_the_list_price_accounted_for),
        TEST(each_part_and_each_likely_value_stands_below_its_line),
        TEST(a_name_may_be_the_heading_of_a_list),
        TEST(a_replaced_rate_says_so),
        TEST(json_is_the_same_as_data),
        TEST(what_is_not_sold_or_is_refused_says_so),
        TEST(an_unknown_product_or_name_proposes_the_nearest),
    };
    return RUN_TESTS("explain", tests);
}
