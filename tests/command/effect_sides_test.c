/* groat effect against a list that was printed earlier, and against other rules. Every figure is worked
 * out by hand: see the shop. */
#include "command/effect_checks.h"

/* ---- since a list was printed ---- */

static void a_list_that_was_printed_is_what_was(void **state)
{
    (void)state;
    write_shop();
    assert_int_equal(run("groat price shop.rules p.csv --quantity 1,5 --format csv --output l.csv"),
                     0);
    /* Its own quantities are taken: a tenth off for five, before and after. */
    expect_run("groat effect shop.rules p.csv --since l.csv --set wage='$11' --format csv", 0,
               CSV "Tray,stall,1,20.00,21.00,1.00,0.0500,\n"
                   "Tray,stall,5,18.00,18.90,0.90,0.0500,\n"
                   "Box,stall,1,50.00,51.00,1.00,0.0200,\n"
                   "Box,stall,5,45.00,45.90,0.90,0.0200,\n"
                   "Chest,stall,1,85.00,86.00,1.00,0.0118,\n"
                   "Chest,stall,5,76.50,77.40,0.90,0.0118,\n",
               "");
    expect_run("groat effect shop.rules p.csv --since l.csv --quantity 5 --set wage='$9' --hold 2% "
               "--format csv | sed -n 3p",
               0,
               "Box,stall,5,45.00,45.00,0.00,0.0000,\"kept, although the list price in the rules "
               "is now $49.00\"\n",
               "");
    expect_run("groat effect shop.rules p.csv --since l.csv", 0,
               "Up                  0\n"
               "Down                0\n"
               "Unchanged           6, not shown\n",
               "");
}

static void rows_of_the_list_alone_and_of_the_sheet_alone_are_said(void **state)
{
    (void)state;
    write_shop();
    write_text("p.csv", "name,wood\nTray,5\nChest,80\nBroken,much\nBox,35\n");
    write_text("l.csv", LIST "Ladder,stall,1,30.00,30.00,1,\n"
                             "Tray,stall,1,19.00,19.00,1,\n"
                             "Tray,attic,1,19.00,19.00,1,\n"
                             "Broken,stall,1,12.00,12.00,1,\n"
                             "Ladder,attic,1,31.00,31.00,1,\n");
    expect_run("groat effect shop.rules p.csv --since l.csv --format csv", 1,
               CSV "Tray,stall,1,19.00,20.00,1.00,0.0526,\n"
                   "Tray,attic,1,19.00,,,,no longer sold: there is no such channel now\n"
                   "Chest,stall,1,,,,,\"not in the list, and refused: dearer than anyone pays\"\n"
                   "Broken,stall,1,12.00,,,,no price now: its row of the sheet cannot be read\n"
                   "Box,stall,1,,50.00,,,newly sold: not in the list\n"
                   "Ladder,stall,1,30.00,,,,no longer sold: not in the sheet\n"
                   "Ladder,attic,1,31.00,,,,no longer sold: not in the sheet\n",
               NULL);
    /* Only what is asked for. */
    expect_run("groat effect shop.rules p.csv --since l.csv --channel stall --format csv | "
               "grep -c attic",
               1, "0\n", NULL);
}

static void what_is_said_of_a_price_is_new_only_when_the_list_did_not_say_it(void **state)
{
    (void)state;
    write_shop();
    write_text("p.csv", "name,wood,promised\nGate,40,30\nFence,40,31\n");
    write_text("l.csv", LIST "Gate,stall,1,30.00,30.00,1,pinned: the aim would be $55.00\n"
                             "Fence,stall,1,31.00,31.00,1,\n");
    expect_run("groat effect shop.rules p.csv --since l.csv", 0,
               "Product  Sold at     Was     Now  Change  Percent\n"
               "-------------------------------------------------\n"
               "Fence    stall    $31.00  $31.00   $0.00     0.0%\n"
               "             pinned: the aim would be $55.00\n"
               "\n"
               "Up                  0\n"
               "Down                0\n"
               "Unchanged           2, 1 of them not shown\n",
               "");
}

static void products_of_one_name_cannot_be_told_apart_by_a_list(void **state)
{
    (void)state;
    write_shop();
    write_text("p.csv", "name,wood\nTray,5\nBox,6\nTray,7\n");
    write_text("l.csv", LIST "Tray,stall,1,9.00,9.00,1,\nTray,stall,1,9.00,9.00,1,\n");
    expect_run("groat effect shop.rules p.csv --since l.csv", 2, "",
               "p.csv:4: Tray has the same name as line 2; --since compares products by name\n");
}

/* A list of one bad thing, and what is said about it. */
struct bad_list {
    const char *text;
    const char *said; /* after `l.csv` */
};

static void a_list_that_is_not_whole_is_refused(void **state)
{
    (void)state;
    write_shop();
    static const char again[] = "Try: groat price RULES PRODUCTS --format csv --output LIST.csv\n";
    static const struct bad_list lists[] = {
        {"", ": the sheet is empty\nTry: export the sheet again, with its headings\n"},
        {"product,channel,price\nTray,stall,20\n",
         ": this is not a price list: columns are missing: quantity, list, take_home\n"},
        {LIST "Tray,stall,1,20.00,2",
         ":2: column take_home: the cell is empty; is the list incomplete?\n"},
        {LIST "Tray,stall,1\n", ":2: column list: the cell is empty; is the list incomplete?\n"},
        {LIST "Tray,stall,0,20,20,14,\n",
         ":2: column quantity, \"0\": a quantity must be a whole number, at least 1\n"},
        {LIST "Tray,stall,1.0,20,20,14,\n",
         ":2: column quantity, \"1.0\": a quantity must be a whole number, at least 1\n"},
        {LIST "Tray,stall,99999999999999999999,20,20,14,\n",
         ":2: column quantity, \"99999999999999999999\": a quantity must be a whole number, at "
         "least 1\n"},
        {LIST "Tray,stall,1,20,-20,14,\n",
         ":2: column price, \"-20\": a price must be above zero\n"
         "Try: write it as groat price does, for example 20.00\n"},
        {LIST "Tray,stall,1,0,20,14,\n", ":2: column list, \"0\": a price must be above zero\n"
                                         "Try: write it as groat price does, for example 20.00\n"},
        {LIST "Tray,stall,1,\"20,00\",20,14,\n",
         ":2: column list, \"20,00\": this comma may divide thousands or begin decimals\n"
         "Try: write it as groat price does, for example 20.00\n"},
        {LIST "Tray,stall,1,20 EUR,20,14,\n",
         ":2: column list, \"20 EUR\": EUR is another currency; this shop uses USD\n"
         "Try: write it as groat price does, for example 20.00\n"},
        {LIST "Tray,stall,1,20.005,20,14,\n",
         ":2: column list, \"20.005\": a price must be a "
         "whole number of the currency's smallest unit\n"
         "Try: write it as groat price does, for example 20.00\n"},
        {LIST "Tr\xE9,stall,1,20,20,14,\n",
         ":2:3: the byte E9 here is not valid UTF-8\nTry: save the sheet as UTF-8\n"},
        {LIST "Tray,stall,1,20,20,14,\nBox,stall,1,50,50,14,\nTray,stall,1,20,20,14,\n",
         ":4: Tray on stall for 1 is given twice: it is also on line 2\n"},
        {LIST "Tray,stall,1,20,20,14,,9\n",
         ":2:24: this row has 8 cells, but the sheet has 7 headings\n"
         "Try: put a cell with a separator inside it in quotes, or remove the extra cells\n"},
    };
    for (size_t i = 0; i < sizeof lists / sizeof *lists; i++) {
        char said[512];
        write_text("l.csv", lists[i].text);
        snprintf(said, sizeof said, "l.csv%s%s", lists[i].said,
                 strstr(lists[i].said, "not a price list") ? again : "");
        expect_run("groat effect shop.rules p.csv --since l.csv 2>&1 >/dev/null | grep -v '^p.csv'",
                   0, said, "");
        assert_int_equal(run("groat effect shop.rules p.csv --since l.csv"), 2);
    }
}

static void a_list_that_is_no_csv_or_not_there_is_refused(void **state)
{
    (void)state;
    write_shop();
    write_text("l.json", "[]");
    expect_run("groat effect shop.rules p.csv --since l.json 2>&1 | grep -v '^p.csv'", 0,
               "l.json: --since reads a list as csv, not as json\n"
               "Try: groat price RULES PRODUCTS --format csv --output LIST.csv\n",
               "");
    expect_run("groat effect shop.rules p.csv --since nowhere.csv 2>&1 | grep -v '^p.csv'", 0,
               "nowhere.csv: cannot be read: No such file or directory\n", "");
}

static void of_many_wrong_cells_the_first_are_said_and_the_others_counted(void **state)
{
    (void)state;
    write_shop();
    run("{ printf 'product,channel,quantity,list,price,take_home\\n'; "
        "for i in $(seq 30); do echo Tray,stall,$i,x,20,14; done; } > l.csv; "
        "groat effect shop.rules p.csv --since l.csv 2>&1 | grep -c column; "
        "groat effect shop.rules p.csv --since l.csv 2>&1 | tail -1");
    assert_string_equal(read_text("out"), "10\nl.csv: and 20 more cells are wrong\n");
}

static void a_list_cannot_steer_the_terminal(void **state)
{
    (void)state;
    write_shop();
    write_text("l.csv", LIST "La\033[31mdder,at\033[2Jtic,1,30,30,14,\n");
    assert_int_equal(run("groat effect shop.rules p.csv --since l.csv"), 0);
    assert_non_null(strstr(read_text("out"), "La [31mdder on at [2Jtic"));
    assert_null(strchr(read_text("out"), '\033'));
}

static void a_list_of_more_quantities_than_are_priced_is_refused(void **state)
{
    (void)state;
    write_shop();
    run("{ printf 'product,channel,quantity,list,price,take_home\\n'; "
        "for i in $(seq 1001); do echo Tray,stall,$i,20,20,14; done; } > l.csv; "
        "groat effect shop.rules p.csv --since l.csv 2>&1");
    assert_string_equal(read_text("out"),
                        "l.csv: it has more than 1000 quantities; choose some with --quantity\n");
    expect_run("groat effect shop.rules p.csv --since l.csv --quantity 1 --channel stall "
               "--format csv | head -2",
               0, CSV "Tray,stall,1,20.00,20.00,0.00,0.0000,\n", NULL);
}

/* ---- against other rules ---- */

static void channels_and_fields_of_one_side_only_are_rows_of_one_side(void **state)
{
    (void)state;
    write_shop();
    /* The other rules have no stall but a fair, and a gallery instead of nothing; their wood comes
     * from another column, at twice the amount. The shed is $1 dearer there: a fee of $2. */
    write_text("old.rules",
               AIMED_UNTIL_PRICE AIMED_STALL "channel shed {\n    fee f = $1\n}\n" AIMED_PRICE);
    write_text("new.rules", "currency USD $\n"
                            "product { name text; oak money }\n"
                            "rate wage = $10\n"
                            "cost material = oak\n"
                            "pay hands = wage\n"
                            "channel shed { fee f = $2 }\n"
                            "channel fair { fee f = $1 }\n"
                            "price { aim profit >= $4; round up to $1 }\n");
    write_text("p.csv", "name,wood,oak\nTray,5,10\nBox,,10\n");
    /* Tray: old 5 + 15 = 20; new shed 10 + 10 + 2 + 4 = 26, fair 25; box: not read before. */
    expect_run("groat effect old.rules p.csv --against new.rules --format csv", 0,
               CSV "Tray,shed,1,20.00,26.00,6.00,0.3000,\n"
                   "Tray,fair,1,,25.00,,,newly sold\n"
                   "Tray,stall,1,20.00,,,,no longer sold: there is no such channel now\n"
                   "Box,shed,1,,26.00,,,had no price before: its row of the sheet could not be "
                   "read\n"
                   "Box,fair,1,,25.00,,,newly sold\n",
               "p.csv: not used by the rules: wood\n");
    /* --set is about the other rules. */
    expect_run("groat effect old.rules p.csv --against new.rules --set wage='$11' --channel shed "
               "--format csv | sed -n 2p",
               0, "Tray,shed,1,20.00,27.00,7.00,0.3500,\n", NULL);
}

static void a_channel_that_is_named_may_be_of_one_side_only(void **state)
{
    (void)state;
    write_shop();
    run("sed 's/channel stall/channel fair/' shop.rules > new.rules");
    write_text("p.csv", "name,wood\nTray,5\n");
    expect_run("groat effect shop.rules p.csv --against new.rules --channel fair --format csv", 0,
               CSV "Tray,fair,1,,20.00,,,newly sold\n", NULL);
    expect_run("groat effect shop.rules p.csv --against new.rules --channel stall --format csv", 0,
               CSV "Tray,stall,1,20.00,,,,no longer sold: there is no such channel now\n", NULL);
    expect_run("groat effect shop.rules p.csv --against new.rules --channel attic 2>&1 | tail -1",
               0, "groat: neither shop.rules nor new.rules has a channel attic\n", NULL);
    assert_int_equal(run("groat effect shop.rules p.csv --against new.rules --channel attic"), 2);
}

static void a_ticket_is_held_against_other_rules_too(void **state)
{
    (void)state;
    write_shop();
    run("sed 's/wage = $10/wage = $9/' shop.rules > new.rules");
    expect_run("groat effect shop.rules p.csv --against new.rules --hold 2% --format csv | "
               "sed -n 3p",
               0,
               "Box,stall,1,50.00,50.00,0.00,0.0000,\"kept, although the price in the rules is now "
               "$49.00\"\n",
               NULL);
}

static void rules_that_do_not_read_are_told_as_ever(void **state)
{
    (void)state;
    write_shop();
    write_text("new.rules", "currency USD $\nprice { set $1 + 1 h }\n");
    assert_int_equal(run("groat effect shop.rules p.csv --against new.rules"), 2);
    assert_non_null(strstr(read_text("err"), "new.rules:2:"));
    assert_string_equal(read_text("out"), "");
    assert_int_equal(run("groat effect new.rules p.csv --against shop.rules"), 2);
    assert_non_null(strstr(read_text("err"), "new.rules:2:"));
    assert_int_equal(run("groat effect shop.rules p.csv --against nowhere.rules"), 2);
    assert_non_null(strstr(read_text("err"), "nowhere.rules: cannot be read"));
}

static void rules_in_another_currency_are_refused(void **state)
{
    (void)state;
    write_shop();
    run("sed 's/currency USD [$]/currency CAD $/' shop.rules > new.rules; "
        "groat effect shop.rules p.csv --against new.rules 2>&1 | tail -1");
    assert_string_equal(read_text("out"),
                        "groat: shop.rules prices in USD, and new.rules in CAD\n");
}

static void columns_that_the_old_rules_need_are_named_with_them(void **state)
{
    (void)state;
    write_shop();
    write_text("new.rules", "currency USD $\nproduct { name text }\nprice { set $5 }\n");
    write_text("p.csv", "name\nTray\n");
    expect_run("groat effect shop.rules p.csv --against new.rules", 2, "",
               "p.csv: columns are missing that shop.rules needs: wood\n");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(a_list_that_was_printed_is_what_was),
        TEST(rows_of_the_list_alone_and_of_the_sheet_alone_are_said),
        TEST(what_is_said_of_a_price_is_new_only_when_the_list_did_not_say_it),
        TEST(products_of_one_name_cannot_be_told_apart_by_a_list),
        TEST(a_list_that_is_not_whole_is_refused),
        TEST(a_list_that_is_no_csv_or_not_there_is_refused),
        TEST(of_many_wrong_cells_the_first_are_said_and_the_others_counted),
        TEST(a_list_cannot_steer_the_terminal),
        TEST(a_list_of_more_quantities_than_are_priced_is_refused),
        TEST(channels_and_fields_of_one_side_only_are_rows_of_one_side),
        TEST(a_channel_that_is_named_may_be_of_one_side_only),
        TEST(a_ticket_is_held_against_other_rules_too),
        TEST(rules_that_do_not_read_are_told_as_ever),
        TEST(rules_in_another_currency_are_refused),
        TEST(columns_that_the_old_rules_need_are_named_with_them),
    };
    return RUN_TESTS("effect, sides", tests);
}
