/* Amounts of the command's own exactly at their bounds. Every figure is worked out by hand. */
#include "command/command_checks.h"

/* $5 twice is $10, four times $20: all of the old price more, and a cent beyond it. */
static void a_price_that_doubles_is_held_by_a_hundred_percent_and_no_further(void **state)
{
    (void)state;
    write_text("shop.rules", "currency USD $\n"
                             "product { name text; wood money }\n"
                             "rate times = 2\n"
                             "cost material = wood\n"
                             "price { set wood * times }\n");
    write_text("p.csv", "name,wood\nTray,5\n");
    expect_run("groat effect shop.rules p.csv --set times=4 --hold 100% --format csv | sed -n 2p",
               0,
               "Tray,direct,1,10.00,10.00,0.00,0.0000,\"kept, although the price in the rules is "
               "now $20.00\"\n",
               "");
    expect_run("groat effect shop.rules p.csv --set times=4.002 --hold 100% --format csv | "
               "sed -n 2p | cut -d, -f1-7",
               0, "Tray,direct,1,10.00,20.01,10.01,1.0010\n", "");
    expect_run("groat effect shop.rules p.csv --set times=4 --hold 100.000001%", 2, "", NULL);
}

/* Ten wrong cells are all said, an eleventh is counted. */
static void nothing_is_counted_where_every_wrong_cell_was_said(void **state)
{
    (void)state;
    write_text("shop.rules", "currency USD $\n"
                             "product { name text }\n"
                             "price { set $5 }\n");
    write_text("p.csv", "name\nTray\n");
    static const char line[] =
        "{ printf 'product,channel,quantity,list,price,take_home\\n'; for i in $(seq %d); do echo "
        "Tray,direct,$i,x,20,14; done; } > l.csv; groat effect shop.rules p.csv --since l.csv 2>&1 "
        "| grep -v '^Try' | sed 's/:.*column.*/ a wrong cell/' | uniq -c | tr -s ' '";
    char ten[400], eleven[400];
    snprintf(ten, sizeof ten, line, 10);
    snprintf(eleven, sizeof eleven, line, 11);
    expect_run(ten, 0, " 10 l.csv a wrong cell\n", "");
    expect_run(eleven, 0, " 10 l.csv a wrong cell\n 1 l.csv: and 1 more cells are wrong\n", "");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(a_price_that_doubles_is_held_by_a_hundred_percent_and_no_further),
        TEST(nothing_is_counted_where_every_wrong_cell_was_said),
    };
    return RUN_TESTS("bounds of the command", tests);
}
