/* Sweeps: a rate that moves, and every price on the way. */
#include "command/command_checks.h"

#define ALL_STEPS "--over hourly='$20 per h..$30 per h' --steps 11"

/* Half an hour is half of hourly; twice the cost of it is hourly itself, to the dollar. So the
 * price on the stall goes from $20 to $30; 2% of it are the fee. */
static void write_sheet(void)
{
    write_text("p.csv", "name,work,parcel\nMug,30,\n");
}

static void every_value_of_the_range_has_a_row(void **state)
{
    (void)state;
    write_sheet();
    expect_run("groat sweep shop.rules p.csv --over hourly='$20 per h..$21 per h' --steps 5 "
               "--format csv",
               0,
               "product,channel,quantity,value,price,keep,profit,notes\n"
               "Mug,stall,1,20,20.00,19.60,9.60,\n"
               "Mug,stall,1,20.25,20.00,19.60,9.48,\n"
               "Mug,stall,1,20.5,21.00,20.58,10.33,\n"
               "Mug,stall,1,20.75,21.00,20.58,10.21,\n"
               "Mug,stall,1,21,21.00,20.58,10.08,\n",
               "");
}

static void values_are_exact_in_json(void **state)
{
    (void)state;
    write_sheet();
    expect_run(
        "groat sweep shop.rules p.csv --over hourly='$20 per h..$21 per h' --steps 4 "
        "--format json | grep -o '\"value.*notes'",
        0,
        "\"value\": \"20\", \"price\": \"20.00\", \"keep\": \"19.60\", \"profit\": \"9.60\", "
        "\"notes\n"
        "\"value\": \"61/3\", \"price\": \"20.00\", \"keep\": \"19.60\", \"profit\": "
        "\"283/30\", \"notes\n"
        "\"value\": \"62/3\", \"price\": \"21.00\", \"keep\": \"20.58\", \"profit\": "
        "\"1537/150\", \"notes\n"
        "\"value\": \"21\", \"price\": \"21.00\", \"keep\": \"20.58\", \"profit\": \"10.08\", "
        "\"notes\n",
        "");
}

static void values_stand_in_the_unit_that_the_range_begins_with(void **state)
{
    (void)state;
    write_sheet();
    expect_run("groat sweep shop.rules p.csv --over hourly='$0.50 per min..$60 per h' --steps 2 "
               "--format csv | cut -d, -f4,5",
               0, "value,price\n0.5,30.00\n1,60.00\n", "");
    expect_run("groat sweep shop.rules p.csv --over hourly=-10%..+10% --steps 3 --format csv | "
               "cut -d, -f4,5",
               0, "value,price\n27,27.00\n30,30.00\n33,33.00\n", "");
}

static void one_product_is_shown_as_steps_with_the_values_they_hold_for(void **state)
{
    (void)state;
    write_sheet();
    expect_run("export LC_ALL=C.UTF-8; groat sweep shop.rules p.csv "
               "--over hourly='$29 per h..$31 per h' --steps 9",
               0,
               "Mug on stall, as hourly goes from $29 to $31 per h\n"
               "\n"
               "$31.00 ┤                                                               "
               "━━━━━━━━━━━━━━━━━━━━━━━━━━━━━\n"
               "$30.00 ┤                  ━━━━━━━━━━━━━━━━━━━━━━━━━━━━━━━━━━━━━━━━━━━━━\n"
               "$29.00 ┤━━━━━━━━━━━━━━━━━━\n"
               "       └┬──────────────────────┬──────────────────────┬─────────────────────┬"
               "──────────────────────┬\n"
               "        $29.00                 $29.50                 $30.00                "
               "$30.50            $31.00\n"
               "                                                      ▲ now $30 per h       "
               "         hourly, $ per h\n"
               "\n"
               "From    To       Price  You keep  Profit at From  Profit at To\n"
               "--------------------------------------------------------------\n"
               "$29.00  $29.25  $29.00    $28.42          $13.92        $13.80\n"
               "$29.50  $30.25  $30.00    $29.40          $14.65        $14.28\n"
               "$30.50  $31.00  $31.00    $30.38          $15.13        $14.88\n",
               "");
}

static void an_end_is_written_without_needless_zeros(void **state)
{
    (void)state;
    write_sheet();
    /* In nineteen parts the values between have no end. */
    static const struct {
        const char *over, *title;
    } cases[] = {
        {"hourly='$8.28 per h..$10.12 per h'", "hourly goes from $8.28 to $10.12 per h"},
        {"hourly='$8.5 per h..$10 per h'", "hourly goes from $8.50 to $10 per h"},
        {"hourly='$8.125 per h..$10 per h'", "hourly goes from $8.125 to $10 per h"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char line[160], title[160];
        snprintf(line, sizeof line, "groat sweep shop.rules p.csv --over %s --steps 20 | head -1",
                 cases[i].over);
        snprintf(title, sizeof title, "Mug on stall, as %s\n", cases[i].title);
        expect_run(line, 0, title, "");
    }
}

static void what_is_said_of_several_steps_is_said_once(void **state)
{
    (void)state;
    write_text("w.rules", "currency NOK kr\nproduct { name text; work time as min }\n"
                          "rate hourly = 30 kr per h\npay hands = work * hourly\n"
                          "channel stall {}\nprice { set cost; round to 5 kr }\n"
                          "warn \"dear\" when price > 20 kr and price < 40 kr\n");
    write_text("p.csv", "name,work\nMug,60\n");
    expect_run("groat sweep w.rules p.csv --over hourly='20 kr per h..50 kr per h' --steps 7 "
               "| sed 1,/now/d",
               0,
               "\n"
               "From      To\n"
               "kr per h  kr per h     Price  You keep  Profit at From  Profit at To\n"
               "--------------------------------------------------------------------\n"
               "20        20        20.00 kr  20.00 kr         0.00 kr       0.00 kr\n"
               "25        25        25.00 kr  25.00 kr         0.00 kr       0.00 kr\n"
               "              from here to 35: dear\n"
               "30        30        30.00 kr  30.00 kr         0.00 kr       0.00 kr\n"
               "35        35        35.00 kr  35.00 kr         0.00 kr       0.00 kr\n"
               "40        40        40.00 kr  40.00 kr         0.00 kr       0.00 kr\n"
               "45        45        45.00 kr  45.00 kr         0.00 kr       0.00 kr\n"
               "50        50        50.00 kr  50.00 kr         0.00 kr       0.00 kr\n",
               "");
}

static void a_decimal_comma_is_written_in_titles_notes_and_pictures(void **state)
{
    (void)state;
    write_sheet();
    run("sed 's/^rate hourly.*/rate hourly = $30.50 per h/' shop.rules > half.rules");
    expect_run("groat sweep half.rules p.csv --decimal comma --chart s.svg --steps 3 "
               "--over hourly='$29.50 per h..$31.50 per h' | sed -n '1p;$p'",
               0,
               "Mug on stall, as hourly goes from $29,50 to $31,50 per h\n"
               "$31,50  $31,50  $32,00    $31,36          $15,61        $15,61\n",
               "");
    expect_run("export LC_ALL=C.UTF-8; groat sweep half.rules p.csv --decimal comma --steps 3 "
               "--over hourly='$29.50 per h..$31.50 per h' | grep -o 'now [^ ]* per h'",
               0, "now $30,50 per h\n", "");
    assert_non_null(strstr(read_text("s.svg"), ">now $30,50 per h<"));
    assert_non_null(strstr(read_text("s.svg"), ">Prices as hourly goes from $29,50 to $31,50"));
    assert_null(strstr(read_text("s.svg"), "$30.50"));
}

static void many_products_have_a_row_and_a_strip_each(void **state)
{
    (void)state;
    write_text("p.csv", "name,work,parcel\nMug,30,\nJug,60,1 kg\n");
    expect_run("export LC_ALL=C; groat sweep shop.rules p.csv " ALL_STEPS, 0,
               "                   Price at   Price at                 hourly\n"
               "Product  Sold at  $20 per h  $30 per h  Price changes  $20 to $30 per h\n"
               "-----------------------------------------------------------------------\n"
               "Mug      stall       $20.00     $30.00             10  _..-~==+**#\n"
               "Jug      stall       $40.00     $60.00             10  _..-~==+**#\n"
               "         post        $40.00     $60.00             10  _..-~==+**#\n",
               "");
}

static void a_terminal_of_ascii_gets_nothing_else(void **state)
{
    (void)state;
    write_sheet();
    assert_int_equal(run("export LC_ALL=C; groat sweep shop.rules p.csv " ALL_STEPS), 0);
    for (const char *at = read_text("out"); *at; at++)
        assert_in_range((unsigned char)*at, '\n', 0x7E);
}

static void a_product_that_is_not_sold_there_says_so(void **state)
{
    (void)state;
    write_sheet();
    expect_run("groat sweep shop.rules p.csv --channel post " ALL_STEPS, 0, "",
               "groat: the product is not sold on any of these channels\n");
}

static void a_name_cannot_steer_the_terminal(void **state)
{
    (void)state;
    write_text("p.csv", "name,work,parcel\n\"M\033[31mug\n\tx\",30,\n");
    expect_run("groat sweep shop.rules p.csv " ALL_STEPS " | head -1", 0,
               "M [31mug  x on stall, as hourly goes from $20 to $30 per h\n", "");
    assert_int_equal(run("groat sweep shop.rules p.csv " ALL_STEPS " --chart c.svg; "
                         "grep -c \"$(printf '\\033')\" c.svg"),
                     1);
}

static void a_value_without_a_price_says_so(void **state)
{
    (void)state;
    write_text("r.rules", "currency USD $\nproduct { name text }\nrate hourly = $5 per h\n"
                          "cost time = 1 h * hourly\nrefuse \"too dear\" when price > $7\n"
                          "price { set cost; round to $1 }\nchannel stall { }\n");
    write_text("p.csv", "name\nMug\n");
    static const char over[] = "groat sweep r.rules p.csv --over hourly='$6 per h..$9 per h' "
                               "--steps 4";
    char line[512];
    snprintf(line, sizeof line, "%s --format csv", over);
    expect_run(line, 1,
               "product,channel,quantity,value,price,keep,profit,notes\n"
               "Mug,stall,1,6,6.00,6.00,0.00,\n"
               "Mug,stall,1,7,7.00,7.00,0.00,\n"
               "Mug,stall,1,8,,,,refused: too dear\n"
               "Mug,stall,1,9,,,,refused: too dear\n",
               "p.csv:2: Mug, stall: no price at 2 of 4 values, first at $8 per h: refused: too "
               "dear\n");
    snprintf(line, sizeof line, "%s | tail -2", over);
    expect_run(line, 0, "$8    $9\n          refused: too dear\n", "");
}

static void a_sweep_is_as_many_runs_with_another_rate(void **state)
{
    (void)state;
    static const char *const rates[] = {"hourly 20 30 '${} per h' 11", "hourly 20 21 '${} per h' 4",
                                        "offcuts 10 20 '{}%' 5",
                                        "timber_price 1 10 '${} per bf' 10"};
    static const char *const counts[] = {"314 prices are the same, 5 are refused by both\n", NULL,
                                         NULL, NULL};
    for (size_t i = 0; i < sizeof rates / sizeof *rates; i++) {
        char line[1024];
        snprintf(line, sizeof line,
                 "cd %.600s && python3 tests/command/sweep_equal.py \"$GROAT\" "
                 "rules/fernhollow/fernhollow.rules rules/fernhollow/products.csv %s",
                 root, rates[i]);
        expect_run(line, 0, counts[i], "");
    }
}

static void rows_come_in_the_order_of_the_sheet_however_many_threads_there_are(void **state)
{
    (void)state;
    FILE *sheet = fopen("many.csv", "w");
    assert_non_null(sheet);
    fputs("name,work,parcel\n", sheet);
    for (int i = 1; i <= 500; i++)
        fprintf(sheet, "P%d,%d,%s\n", i, i, i % 3 ? "" : "1 kg");
    fclose(sheet);
    assert_int_equal(run("groat sweep shop.rules many.csv --over hourly='$20 per h..$40 per h' "
                         "--steps 3 --format csv >all; "
                         "for h in 20 30 40; do groat price shop.rules many.csv --format csv "
                         "--set hourly=\"\\$$h per h\" | cut -d, -f1,2,3,5 | sed 1d >at$h; done; "
                         "cut -d, -f1,2,3,5 all | sed 1d | awk '{ print > \"got\" (NR - 1) % 3 }'; "
                         "cmp got0 at20 && cmp got1 at30 && cmp got2 at40; wc -l <at40"),
                     0);
    assert_string_equal(read_text("err"), "");
    assert_string_equal(read_text("out"), "666\n");
}

static void a_picture_is_xml_with_a_panel_for_each_product(void **state)
{
    (void)state;
    write_text("p.csv", "name,work,parcel\n\"Mug <&> \"\"big\"\"\",30,\nJug,60,1 kg\n");
    assert_int_equal(run("groat sweep shop.rules p.csv " ALL_STEPS " --chart c.svg --format csv "
                         ">first; cp c.svg d.svg; "
                         "groat sweep shop.rules p.csv " ALL_STEPS " --chart c.svg >second; "
                         "cmp c.svg d.svg; python3 -c \"import xml.etree.ElementTree as e; "
                         "r = e.parse('c.svg').getroot(); n = '{http://www.w3.org/2000/svg}'; "
                         "print(sorted(t.text for t in r.iter(n + 'text') if t.get('class') in "
                         "('title', 'label')))\""),
                     0);
    assert_string_equal(read_text("out"), "['Jug', 'Mug <&> \"big\"', 'post', 'stall', 'stall']\n");
}

static void a_channel_is_drawn_in_one_way_in_every_panel(void **state)
{
    (void)state;
    write_text("r.rules", "currency USD $\nproduct { name text; post_only flag = no }\n"
                          "rate hourly = $5 per h\ncost time = 1 h * hourly\n"
                          "channel stall { only when not post_only }\nchannel post { }\n"
                          "price { set cost; round to $1 }\n");
    write_text("p.csv", "name,post_only\nMug,no\nJug,yes\nPot,no\n");
    /* The dashes of the lines: of stall and post, of post alone, of both again. */
    assert_int_equal(
        run("groat sweep r.rules p.csv --over hourly='$6 per h..$9 per h' --chart c.svg "
            ">all; python3 -c \"import xml.etree.ElementTree as e; "
            "r = e.parse('c.svg').getroot(); n = '{http://www.w3.org/2000/svg}'; "
            "d = [t.get('stroke-dasharray') for t in r.iter(n + 'path') "
            "if t.get('fill') == 'none']; "
            "print(len(d), d[0] != d[1], d[2] == d[1], d[3:] == d[:2])\""),
        0);
    assert_string_equal(read_text("out"), "5 True True True\n");
}

static void a_picture_that_nobody_can_read_is_refused(void **state)
{
    (void)state;
    assert_int_equal(run("{ echo name,work; for i in $(seq 25); do echo P$i,5; done; } >p.csv"), 0);
    expect_run("groat sweep shop.rules p.csv " ALL_STEPS " --chart c.svg; ls c.svg 2>/dev/null", 2,
               "",
               "groat: a chart has room for 24 products, but there are 25\n"
               "Try: --product NAME\n");
    expect_run("groat sweep shop.rules p.csv " ALL_STEPS
               " --chart c.svg --product P3 --quantity 1,2,3,4,5",
               2, "",
               "groat: a chart has room for 8 lines per product, but there are 10\n"
               "Try: --channel NAME\n");
}

static void files_that_are_read_are_not_drawn_over(void **state)
{
    (void)state;
    write_sheet();
    expect_run("groat sweep shop.rules p.csv " ALL_STEPS " --chart p.csv", 2, "",
               "groat: --chart would overwrite p.csv, which this command reads\n");
    expect_run("groat sweep shop.rules p.csv " ALL_STEPS " --chart c.svg --output c.svg", 2, "",
               "groat: --output and --chart are the same file\n");
    expect_run("groat sweep shop.rules p.csv " ALL_STEPS " --chart no/where.svg >all", 2, "",
               "no/where.svg: cannot be written: No such file or directory\n");
}

static void a_range_that_is_none_is_told_with_a_way_out(void **state)
{
    (void)state;
    write_sheet();
    static const char *const wrong[][2] = {
        {"", "groat: sweep needs a rate with its first and last value\n"
             "Try: for example --over hourly='$20 per h..$30 per h'\n"},
        {"--over hourly=20", "groat: --over needs a rate with its first and last value, not "
                             "hourly=20\nTry: for example --over hourly='$20 per h..$30 per h'\n"},
        {"--over hourl='$20 per h..$30 per h'",
         "groat: --over: there is no rate hourl\nTry: hourly\n"},
        {"--over hourly='$30 per h..$20 per h'",
         "groat: --over: a sweep must start with the smaller value\n"
         "Try: --over hourly='$20 per h..$30 per h'\n"},
        {"--over hourly='$30 per h..$0.50 per min'",
         "groat: --over: both ends of the sweep are the same\n"},
        {"--over hourly='$20..$30'",
         "groat: --over: hourly: this is money; hourly is money per time\n"
         "Try: --over hourly='$20 per h..$30 per h'\n"},
        {"--over hourly=dear..dearer",
         "groat: --over: hourly: this is not a value; hourly is money per time\n"
         "Try: for example $30 per h\n"},
        {"--over hourly=18..28",
         "groat: --over: hourly: this number needs a unit; hourly is money per time\n"
         "Try: --over hourly='$18 per h..$28 per h'\n"
         "Use single quotes, or the shell replaces what follows the $\n"},
        {ALL_STEPS " --steps 1", "groat: --steps needs a whole number from 2 to 10000, not 1\n"},
        {ALL_STEPS " --steps 10001",
         "groat: --steps needs a whole number from 2 to 10000, not 10001\n"},
        {ALL_STEPS " --product Mugg", "groat: the sheet has no product Mugg\nTry: Mug\n"},
    };
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++) {
        char line[512];
        snprintf(line, sizeof line, "groat sweep shop.rules p.csv %s", wrong[i][0]);
        expect_run(line, 2, "", wrong[i][1]);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(every_value_of_the_range_has_a_row),
        TEST(values_are_exact_in_json),
        TEST(values_stand_in_the_unit_that_the_range_begins_with),
        TEST(one_product_is_shown_as_steps_with_the_values_they_hold_for),
        TEST(an_end_is_written_without_needless_zeros),
        TEST(what_is_said_of_several_steps_is_said_once),
        TEST(a_decimal_comma_is_written_in_titles_notes_and_pictures),
        TEST(many_products_have_a_row_and_a_strip_each),
        TEST(a_terminal_of_ascii_gets_nothing_else),
        TEST(a_product_that_is_not_sold_there_says_so),
        TEST(a_name_cannot_steer_the_terminal),
        TEST(a_value_without_a_price_says_so),
        TEST(a_sweep_is_as_many_runs_with_another_rate),
        TEST(rows_come_in_the_order_of_the_sheet_however_many_threads_there_are),
        TEST(a_picture_is_xml_with_a_panel_for_each_product),
        TEST(a_channel_is_drawn_in_one_way_in_every_panel),
        TEST(a_picture_that_nobody_can_read_is_refused),
        TEST(files_that_are_read_are_not_drawn_over),
        TEST(a_range_that_is_none_is_told_with_a_way_out),
    };
    return RUN_TESTS("sweep", tests);
}
