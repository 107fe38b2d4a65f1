/* The price list: its rows, its three forms, and what is said of products that are left out. */
#include "command/command_checks.h"

static const char products[] = "name,work,wood,parcel\n"
                               "Tray,30,$5,\n"
                               "Box,1 h,10,800\n"
                               "\"Door, \"\"oak\"\"\",5 h,80,9 kg\n";

static const char refused[] = "p.csv:4: Door, \"oak\", post: refused: too heavy to post\n";

/* Reckoned by hand: an hour is $30, a price twice the cost, the stall's card takes 2%. */
static const char list[] =
    HEADINGS ",notes\n"
             "Tray,stall,1,40.00,40.00,0.80,0.00,39.20,20.00,19.20,0.4800,34.20,\n"
             "Box,stall,1,80.00,80.00,1.60,0.00,78.40,40.00,38.40,0.4800,68.40,\n"
             "Box,post,1,80.00,80.00,0.00,0.00,80.00,40.00,40.00,0.5000,70.00,\n"
             "\"Door, \"\"oak\"\"\",stall,1,460.00,460.00,9.20,0.00,450.80,230.00,220.80,0.4800,"
             "370.80,\n";

static void csv_has_the_agreed_columns_and_quotes_what_needs_it(void **state)
{
    (void)state;
    write_text("p.csv", products);
    expect_run("groat price shop.rules p.csv --format csv", 1, list, refused);
}

static void not_sold_is_no_row_and_no_word(void **state)
{
    (void)state;
    write_text("p.csv", "name,wood,parcel\nTray,5,\n");
    expect_run("groat price shop.rules p.csv --format csv --channel post", 0, HEADINGS ",notes\n",
               "");
}

static void rows_go_by_product_then_channel_then_quantity(void **state)
{
    (void)state;
    write_text("p.csv", "name,wood,parcel\nB,5,1\nA,6,1\n");
    expect_run("groat price shop.rules p.csv --format csv --quantity 5,1,5 --channel post "
               "--channel stall --channel post | cut -d, -f1-4",
               0,
               "product,channel,quantity,list\n"
               "B,post,5,10.00\nB,post,1,10.00\nB,stall,5,10.00\nB,stall,1,10.00\n"
               "A,post,5,12.00\nA,post,1,12.00\nA,stall,5,12.00\nA,stall,1,12.00\n",
               "");
}

static void a_refusal_names_the_pieces_when_they_were_asked_for(void **state)
{
    (void)state;
    write_text("p.csv", "name,wood,parcel\nDoor,80,9 kg\n");
    expect_run("groat price shop.rules p.csv --format csv --quantity 1,5 --channel post", 1,
               HEADINGS ",notes\n",
               "p.csv:2: Door, post, 1 piece: refused: too heavy to post\n"
               "p.csv:2: Door, post, 5 pieces: refused: too heavy to post\n");
}

static void a_bad_cell_stops_its_product_and_no_other(void **state)
{
    (void)state;
    write_text("p.csv", "name,work,wood\nOne,oak,5\nTwo,40 kg,oops\nThree,0,5\n");
    expect_run("groat price shop.rules p.csv --format csv", 1,
               HEADINGS ",notes\n"
                        "Three,stall,1,10.00,10.00,0.20,0.00,9.80,5.00,4.80,0.4800,4.80,\n",
               NULL);
    const char *said = read_text("err");
    assert_non_null(strstr(said, "p.csv:2: One, row 1, column work, \"oak\": "));
    assert_non_null(strstr(said, "p.csv:3: Two, row 2, column work, \"40 kg\": "));
    assert_non_null(strstr(said, "p.csv:3: Two, row 2, column wood, \"oops\": "));
    assert_null(strstr(said, "Three"));
}

static void an_empty_cell_that_is_required_is_said_once(void **state)
{
    (void)state;
    write_text("p.csv", "name,wood,parcel\n,5,1\nTray,5,\n");
    expect_run("groat price shop.rules p.csv --format csv --quantity 1,2,3 | cut -d, -f1-4", 0,
               "product,channel,quantity,list\nTray,stall,1,10.00\nTray,stall,2,10.00\n"
               "Tray,stall,3,10.00\n",
               "p.csv:2: row 1, column name: a value is required, but the cell is empty\n");
}

static void missing_required_columns_are_one_error_before_any_row(void **state)
{
    (void)state;
    write_text("more.rules", "currency USD $\nproduct {\n    name text\n    width length as cm\n"
                             "    height length from \"Tall\" as cm\n}\nprice {\n    set $5\n}\n");
    write_text("p.csv", "name,height\nTray,5\n");
    expect_run("sed -i 's/height length from \"Tall\" as cm/height length as cm from \"Tall\"/' "
               "more.rules; groat price more.rules p.csv --format csv",
               2, "",
               "p.csv: columns are missing that the rules need: width, Tall\n"
               "Try: Tall instead of height\n");
}

static void a_product_without_a_name_is_its_row(void **state)
{
    (void)state;
    write_text("plain.rules", "currency USD $\nproduct {\n    wood money\n}\nprice {\n"
                              "    set wood\n}\n");
    write_text("p.csv", "wood\n5\n6\n");
    expect_run("groat price plain.rules p.csv --format csv | cut -d, -f1-4", 0,
               "product,channel,quantity,list\nrow 1,direct,1,5.00\nrow 2,direct,1,6.00\n", "");
}

/* ---- shows and notes ---- */

#define SHOWS                                                                                      \
    "currency USD $\n"                                                                             \
    "product {\n"                                                                                  \
    "    name text\n"                                                                              \
    "    parts_of number = 3\n"                                                                    \
    "    kind text optional\n"                                                                     \
    "    cap money optional\n"                                                                     \
    "}\n"                                                                                          \
    "price {\n"                                                                                    \
    "    set $20 / 3\n"                                                                            \
    "    ceiling cap\n"                                                                            \
    "}\n"                                                                                          \
    "show third = 1 / parts_of\n"                                                                  \
    "show share = $10 / parts_of\n"                                                                \
    "show weight as kg = 1 g / parts_of\n"                                                         \
    "show kind_shown = kind\n"                                                                     \
    "show many = parts_of > 3\n"                                                                   \
    "warn \"a; b\" when parts_of = 3\n"

static void a_show_is_a_column_and_notes_are_the_last(void **state)
{
    (void)state;
    write_text("s.rules", SHOWS);
    write_text("p.csv", "name,parts_of,kind,cap\nA,3,,5\nB,4,\"say \"\"hi\"\"\",\nC,0,x,\n");
    expect_run(
        "groat price s.rules p.csv --format csv | cut -d, -f1,4-5,13-", 0,
        "product,list,price,third,share,weight,kind_shown,many,notes\n"
        "A,5.00,5.00,0.333333,3.33,0.000333,,no,held to the ceiling: the set price is $6.67; "
        "a; b\n"
        "B,6.67,6.67,0.25,2.50,0.00025,\"say \"\"hi\"\"\",yes,\n"
        "C,6.67,6.67,,,,x,no,third is left empty because it divides by zero; share is left empty "
        "because it divides by zero; weight is left empty because it divides by zero\n",
        "");
}

static void json_has_the_same_names_and_exact_amounts(void **state)
{
    (void)state;
    write_text("s.rules", SHOWS);
    write_text("p.csv", "name,parts_of,kind,cap\nA,3,,5\n\"B \"\"\\\",4,hi,\n");
    expect_run("groat price s.rules p.csv --format json", 0,
               "[\n"
               "{\"product\": \"A\", \"channel\": \"direct\", \"quantity\": 1, \"list\": \"5.00\", "
               "\"price\": \"5.00\", \"fees\": \"0.00\", \"tax\": \"0.00\", \"keep\": \"5.00\", "
               "\"cost\": \"0.00\", \"profit\": \"5.00\", \"margin\": \"1\", \"take_home\": "
               "\"5.00\", \"third\": \"1/3\", \"share\": \"10/3\", \"weight\": \"1/3000\", "
               "\"kind_shown\": null, \"many\": false, \"notes\": [\"held to the ceiling: the set "
               "price is $6.67\", \"a; b\"]},\n"
               "{\"product\": \"B \\\"\\\\\", \"channel\": \"direct\", \"quantity\": 1, \"list\": "
               "\"6.67\", \"price\": \"6.67\", \"fees\": \"0.00\", \"tax\": \"0.00\", \"keep\": "
               "\"6.67\", \"cost\": \"0.00\", \"profit\": \"6.67\", \"margin\": \"1\", "
               "\"take_home\": \"6.67\", \"third\": \"0.25\", \"share\": \"2.50\", \"weight\": "
               "\"0.00025\", \"kind_shown\": \"hi\", \"many\": true, \"notes\": []}\n"
               "]\n",
               "");
}

static void a_list_of_nothing_is_still_a_list(void **state)
{
    (void)state;
    write_text("p.csv", "name\n");
    expect_run("groat price shop.rules p.csv --format json", 0, "[]\n", "");
    expect_run("groat price shop.rules p.csv --format csv", 0, HEADINGS ",notes\n", "");
}

static void a_margin_that_does_not_exist_is_empty(void **state)
{
    (void)state;
    write_text("free.rules", "currency USD $\nproduct {\n    name text\n}\nchannel gift {\n"
                             "    tax included 100%\n    buyer pays back = -$5\n}\n"
                             "price {\n    set $5\n}\n");
    write_text("p.csv", "name\nA\n");
    expect_run("groat price free.rules p.csv --format csv | cut -d, -f1,8,10,11", 0,
               "product,keep,profit,margin\nA,0.00,0.00,\n", "");
    expect_run("groat price free.rules p.csv --format json | grep -c '\"margin\": null'", 0, "1\n",
               "");
}

/* ---- every form of sheet ---- */

static void every_form_of_sheet_gives_the_same_list(void **state)
{
    (void)state;
    write_text("p.csv", products);
    write_text("p.tsv", "name\twork\twood\tparcel\nTray\t30\t$5\t\nBox\t1 h\t10\t800\n"
                        "\"Door, \"\"oak\"\"\"\t5 h\t80\t9 kg\n");
    write_text("p.json", "[{\"name\": \"Tray\", \"work\": 30, \"wood\": \"$5\"},\n"
                         "{\"name\": \"Box\", \"work\": \"1 h\", \"wood\": 10, \"parcel\": 800},\n"
                         "{\"name\": \"Door, \\\"oak\\\"\", \"work\": \"5 h\", \"wood\": 80, "
                         "\"parcel\": \"9 kg\"}]\n");
    write_text("p.ndjson", "{\"name\": \"Tray\", \"work\": 30, \"wood\": \"$5\"}\n"
                           "{\"name\": \"Box\", \"work\": \"1 h\", \"wood\": 10, \"parcel\": 800}\n"
                           "{\"name\": \"Door, \\\"oak\\\"\", \"work\": \"5 h\", \"wood\": 80, "
                           "\"parcel\": \"9 kg\"}\n");
    static const char *const forms[] = {"csv", "tsv", "json", "ndjson"};
    for (size_t i = 0; i < 4; i++) {
        char line[128];
        snprintf(line, sizeof line, "groat price shop.rules p.%s --format csv", forms[i]);
        expect_run(line, 1, list, NULL);
        snprintf(line, sizeof line, "groat price shop.rules - --from %s --format csv <p.%s",
                 forms[i], forms[i]);
        expect_run(line, 1, list, NULL);
        assert_non_null(strstr(read_text("err"), "standard input:"));
    }
}

static void a_decimal_comma_is_read_and_a_table_is_written_with_it(void **state)
{
    (void)state;
    write_text("p.csv", "name;wood\nTray;1.234,50\n");
    expect_run("groat price shop.rules p.csv --decimal comma --format csv", 0,
               HEADINGS ",notes\nTray,stall,1,2469.00,2469.00,49.38,0.00,2419.62,1234.50,1185.12,"
                        "0.4800,1185.12,\n",
               "");
    expect_run("groat price shop.rules p.csv --decimal comma", 0, NULL, "");
    assert_non_null(strstr(read_text("out"), "$1234,50  $1185,12   48,0%"));
}

static void a_sheet_that_cannot_be_read_is_exit_status_2(void **state)
{
    (void)state;
    expect_run("groat price shop.rules gone.csv", 2, "",
               "gone.csv: cannot be read: No such file or directory\n");
    expect_run("groat price shop.rules . --from csv", 2, "", ".: cannot be read: Is a directory\n");
    expect_run(
        "groat price shop.rules p.text", 2, "",
        "p.text: this does not end in .csv, .tsv, .json or .ndjson; say with --from what it is\n");
    expect_run("groat price shop.rules - </dev/null", 2, "",
               "groat: standard input needs --from csv, tsv, json or ndjson\n");
    expect_run("groat price shop.rules - --from csv <&-", 2, "",
               "standard input: cannot be read: Bad file descriptor\n");
    write_text("p.json", "[{\"name\": \"a\"}, {\"name\"\n");
    expect_run("groat price shop.rules p.json", 2, "", NULL);
    assert_non_null(strstr(read_text("err"), "p.json:"));
    write_text("p.csv", "");
    expect_run("groat price shop.rules p.csv", 2, "", NULL);
}

static void products_of_one_name_are_said_once_by_every_verb_that_reads_them(void **state)
{
    (void)state;
    static const char says[] = "p.csv:4: warning: Tray has the same name as line 2; explain, sweep "
                               "and effect --since find products by name\n";
    static const char *const lines[] = {
        "groat price shop.rules p.csv", "groat price shop.rules p.csv --format csv",
        "groat effect shop.rules p.csv --set hourly=+10%", "groat rank shop.rules p.csv",
        "groat drivers shop.rules p.csv"};
    write_text("p.csv", "name,wood\nTray,5\nBox,6\nTray,7\n");
    for (size_t i = 0; i < sizeof lines / sizeof *lines; i++) {
        run(lines[i]);
        const char *said = strstr(read_text("err"), says);
        assert_non_null(said);
        assert_null(strstr(said + strlen(says), "is also line"));
    }
    run("groat explain shop.rules p.csv --product Tray --channel stall");
    assert_non_null(
        strstr(read_text("err"), "p.csv:2: Tray has this name and is explained\np.csv:4: Tray has "
                                 "this name and is explained"));
    write_text("p.csv", "name,wood\n,5\n,6\ntray,7\nTray,5\n");
    run("groat price shop.rules p.csv");
    assert_null(strstr(read_text("err"), "is also line"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(products_of_one_name_are_said_once_by_every_verb_that_reads_them),
        TEST(csv_has_the_agreed_columns_and_quotes_what_needs_it),
        TEST(not_sold_is_no_row_and_no_word),
        TEST(rows_go_by_product_then_channel_then_quantity),
        TEST(a_refusal_names_the_pieces_when_they_were_asked_for),
        TEST(a_bad_cell_stops_its_product_and_no_other),
        TEST(an_empty_cell_that_is_required_is_said_once),
        TEST(missing_required_columns_are_one_error_before_any_row),
        TEST(a_product_without_a_name_is_its_row),
        TEST(a_show_is_a_column_and_notes_are_the_last),
        TEST(json_has_the_same_names_and_exact_amounts),
        TEST(a_list_of_nothing_is_still_a_list),
        TEST(a_margin_that_does_not_exist_is_empty),
        TEST(every_form_of_sheet_gives_the_same_list),
        TEST(a_decimal_comma_is_read_and_a_table_is_written_with_it),
        TEST(a_sheet_that_cannot_be_read_is_exit_status_2),
    };
    return RUN_TESTS("price list", tests);
}
