/* Which rate moves prices most. */
#include "command/command_checks.h"

/* Reckoned by hand: the price is twice the cost, to the dollar when it is rounded. A mug costs $5
 * of wood, half an hour at $20 and half a machine hour at $1000 / 500 h = $2: $16, so $32. A jug costs
 * an hour of both, $22, so $44. Hourly 1% higher: 20 cents of $32, 40 cents of $44. The machine 1%
 * dearer: 2 cents of $32, 4 cents of $44. Its hours 1% more: half of $2 - $2 / 1.01, so
 * 2 * 0.5 * (2/101) of $32 lower. */
static const char shop[] =
    "currency USD $\n"
    "product { name text; wood money = $0; work time as min; sold flag = yes }\n"
    "rate hourly = $20 per h\n"
    "rate machine_bought = $1000\n"
    "rate machine_hours = 500 h\n"
    "rate machine_hour = machine_bought / machine_hours\n"
    "rate carton = $0\n"
    "rate brochure = $3\n"
    "materials { glue $4 per 100 ml }\n"
    "cost timber = wood\n"
    "cost machine = work * machine_hour\n"
    "cost packing = carton\n"
    "pay hands = work * hourly\n"
    "channel stall { }\n"
    "channel mail { only when not sold }\n"
    "warn \"dearer than its brochure\" when brochure > price\n"
    "price { set cost * 2; round to $1 }\n";

static void write_shop(void)
{
    write_text("s.rules", shop);
    write_text("p.csv", "name,wood,work\nMug,5,30\nJug,,60\n");
}

static void rates_are_ranked_by_the_mean_of_what_they_move(void **state)
{
    (void)state;
    write_shop();
    expect_run("groat drivers s.rules p.csv --format csv", 0,
               "rate,value,percent_mean,percent_largest,product_largest,channel_largest,moved,"
               "prices,notes\n"
               "hourly,$20 per h,0.00767,0.009091,Jug,stall,2,2,\n"
               "machine_bought,$1000,0.000767,0.000909,Jug,stall,2,2,\n"
               "machine_hour,$2.00 per h,0.000767,0.000909,Jug,stall,2,2,\n"
               "machine_hours,500 h,-0.000759,-0.0009,Jug,stall,2,2,\n"
               "brochure,$3,0,0,,,0,2,none of these prices depends on it\n"
               "glue,$4 per 100 ml,0,0,,,0,2,none of these prices depends on it\n"
               "carton,$0,,,,,0,0,\"zero, so a percentage does not change it\"\n",
               "");
}

static void figures_are_exact_in_json_and_means_have_twelve_decimals(void **state)
{
    (void)state;
    write_shop();
    /* (1/160 + 1/110) / 2, of which 1/110 is averaged as 0.009090909091 */
    expect_run("groat drivers s.rules p.csv --format json | grep hourly", 0,
               "{\"rate\": \"hourly\", \"value\": \"$20 per h\", \"percent_mean\": "
               "\"0.007670454546\", \"percent_largest\": \"1/110\", \"product_largest\": \"Jug\", "
               "\"channel_largest\": \"stall\", \"moved\": 2, \"prices\": 2, \"notes\": []},\n",
               "");
}

static void a_change_may_be_stated_and_may_go_down(void **state)
{
    (void)state;
    write_shop();
    expect_run("groat drivers s.rules p.csv --by 5% --format csv | sed -n 2p", 0,
               "hourly,$20 per h,0.038352,0.045455,Jug,stall,2,2,\n", "");
    expect_run("groat drivers s.rules p.csv --by -5% --format csv | sed -n 2p", 0,
               "hourly,$20 per h,-0.038352,-0.045455,Jug,stall,2,2,\n", "");
    expect_run("groat drivers s.rules p.csv --by -5% | head -1", 0,
               "Each rate 5% lower: the effect on 2 prices before rounding\n", "");
}

static void each_price_has_its_own_ranking(void **state)
{
    (void)state;
    write_shop();
    expect_run("groat drivers s.rules p.csv --each --product Mug --format csv", 0,
               "product,channel,quantity,rate,before,after,change,percent,notes\n"
               "Mug,stall,1,hourly,32,32.2,0.2,0.00625,\n"
               "Mug,stall,1,machine_bought,32,32.02,0.02,0.000625,\n"
               "Mug,stall,1,machine_hour,32,32.02,0.02,0.000625,\n"
               "Mug,stall,1,machine_hours,32,31.980198,-0.019802,-0.000619,\n"
               "Mug,stall,1,brochure,32,32,0,0,\n"
               "Mug,stall,1,glue,32,32,0,0,\n"
               "Mug,stall,1,carton,32,,,,\"zero, so a percentage does not change it\"\n",
               "");
}

static void a_table_has_bars_and_leaves_out_of_each_what_does_nothing(void **state)
{
    (void)state;
    write_shop();
    expect_run(
        "export LC_ALL=C.UTF-8; groat drivers s.rules p.csv", 0,
        "Each rate 1% higher: the effect on 2 prices before rounding\n"
        "\n"
        "                               Average\n"
        "Rate            Now            of all 2              Most      on          Prices moved\n"
        "---------------------------------------------------------------------------------------\n"
        "hourly          $20 per h      ██████████   +0.767%   +0.909%  Jug, stall             2\n"
        "machine_bought  $1000          █            +0.077%   +0.091%  Jug, stall             2\n"
        "machine_hour    $2.00 per h    █            +0.077%   +0.091%  Jug, stall             2\n"
        "machine_hours   500 h          ░            -0.076%   -0.090%  Jug, stall             2\n"
        "brochure        $3                               0%                                   0\n"
        "                    none of these prices depends on it\n"
        "glue            $4 per 100 ml                    0%                                   0\n"
        "                    none of these prices depends on it\n"
        "carton          $0                                                                    0\n"
        "                    zero, so a percentage does not change it\n"
        "\n"
        "░ marks a price that falls.\n",
        "");
    expect_run("export LC_ALL=C; groat drivers s.rules p.csv --each --product Mug", 0,
               "Product  Sold at  Rate            Change                Unrounded price    Then\n"
               "-------------------------------------------------------------------------------\n"
               "Mug      stall    hourly          ##########   +0.625%           $32.00  $32.20\n"
               "         stall    machine_bought  #            +0.063%           $32.00  $32.02\n"
               "         stall    machine_hour    #            +0.063%           $32.00  $32.02\n"
               "         stall    machine_hours   -            -0.062%           $32.00  $31.98\n"
               "\n"
               "- marks a price that falls.\n",
               "");
    /* Nothing falls any more, or no bar is drawn. */
    expect_run("sed 's|machine_bought / .*|machine_bought / 500 h|; /rate machine_hours/d' s.rules "
               ">r.rules; "
               "groat drivers r.rules p.csv | grep -e 'a fall' -e machine_hours; "
               "groat drivers r.rules p.csv --each | grep 'a fall'; "
               "groat drivers s.rules p.csv --each --format csv | grep 'a fall'; "
               "groat drivers r.rules p.csv | grep -c machine_hour",
               0, "1\n", "");
}

static void a_decimal_comma_is_written_in_what_rates_are_too(void **state)
{
    (void)state;
    write_shop();
    /* Of $32, 3 cents; of $44, 6: 0.09375% and 0.13636%. */
    expect_run(
        "groat drivers s.rules p.csv --decimal comma --by 1.5% | sed -n '1p;/machine_hour /p' "
        "| sed 's/h  *[^+ ]*  *+/h +/'",
        0,
        "Each rate 1,5% higher: the effect on 2 prices before rounding\n"
        "machine_hour    $2,00 per h +0,115%   +0,136%  Jug, stall             2\n",
        "");
}

static void a_rate_that_was_set_is_moved_from_there(void **state)
{
    (void)state;
    write_shop();
    /* Set on its own, a machine hour no longer rests on what the machine was bought for. It is 10
     * of 25 dollars of the mug, 20 of 40 of the jug. */
    expect_run("groat drivers s.rules p.csv --set machine_hour='$20 per h' --format csv | "
               "grep machine",
               0,
               "machine_hour,$20.00 per h,0.0045,0.005,Jug,stall,2,2,\n"
               "machine_bought,$1000,0,0,,,0,2,none of these prices depends on it\n"
               "machine_hours,500 h,0,0,,,0,2,none of these prices depends on it\n",
               "");
}

static void what_is_refused_is_left_out_and_said(void **state)
{
    (void)state;
    write_shop();
    assert_int_equal(run("echo 'refuse \"too dear\" when price > $44' >>s.rules"), 0);
    expect_run("groat drivers s.rules p.csv --format csv | grep -e hourly -e hours", 0,
               "hourly,$20 per h,0.00625,0.00625,Mug,stall,1,1,1 of 2 prices is "
               "refused or missing at this rate\n"
               "machine_hours,500 h,-0.000759,-0.0009,Jug,stall,2,2,\n",
               "");
    write_text("p.csv", "name,wood,work\nMug,5,30\nJug,,61\n");
    expect_run("groat drivers s.rules p.csv --format csv >all; status=$?; wc -l <all; "
               "exit $status",
               1, "8\n", "p.csv:3: Jug, stall: refused: too dear\n");
}

static void a_picture_has_a_bar_for_every_rate(void **state)
{
    (void)state;
    write_shop();
    assert_int_equal(run("groat drivers s.rules p.csv --chart c.svg >all && python3 -c \"import "
                         "xml.etree.ElementTree as e; n = '{http://www.w3.org/2000/svg}'; "
                         "r = e.parse('c.svg').getroot(); "
                         "print([b.get('class') for b in r.iter(n + 'rect') if b.get('class')], "
                         "[t.text for t in r.iter(n + 'text')][1:5])\""),
                     0);
    assert_string_equal(read_text("out"),
                        "['bar', 'bar', 'bar', 'below', 'bar', 'bar', 'bar', 'below'] "
                        "['hourly', '+0.767%', 'machine_bought', '+0.077%']\n");
}

static void a_change_that_is_none_is_told_with_a_way_out(void **state)
{
    (void)state;
    write_shop();
    static const char *const wrong[] = {"5", "0%", "-100%", "5%%", "x%", "1e1%", "+-5%", "$1", "%"};
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++) {
        char line[128], err[128];
        snprintf(line, sizeof line, "groat drivers s.rules p.csv --by '%s'", wrong[i]);
        snprintf(err, sizeof err,
                 "groat: --by needs a percentage, not %s\nTry: for example --by 5%%\n", wrong[i]);
        expect_run(line, 2, "", err);
    }
}

/* Wherever on the way it is that there is none. The sanitizers need more than any of these. */
static void a_run_without_memory_says_so_and_leaves_no_list(void **state)
{
    (void)state;
#ifndef __SANITIZE_ADDRESS__
    assert_int_equal(
        run("{ echo 'currency USD $'; echo 'product { name text; m money }'\n"
            "echo 'rate r = $1'; echo 'cost c = m + r'\n"
            "for i in $(seq 1 250); do echo \"channel c$i { fee f$i = 9% of price }\"\n"
            "done; echo 'price { aim profit >= $1 }'; } > many.rules\n"
            "{ echo name,m; for i in $(seq 1 30); do echo p$i,$i; done; } > many.csv"),
        0);
    assert_int_equal(
        run("for kb in $(seq 14000 1000 48000); do\n"
            "    ( ulimit -v $kb; groat drivers many.rules many.csv --format csv \\\n"
            "          --output list.csv 2>said )\n"
            "    found=$?; case $found in 0) rm list.csv; continue;; 127) continue;; esac\n"
            "    [ $found = 2 ] && grep -q 'no memory left' said || exit 9\n"
            "    [ -z \"$(ls -A | grep list)\" ] || exit 8\n"
            "done"),
        0);
#endif
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(rates_are_ranked_by_the_mean_of_what_they_move),
        TEST(figures_are_exact_in_json_and_means_have_twelve_decimals),
        TEST(a_change_may_be_stated_and_may_go_down),
        TEST(each_price_has_its_own_ranking),
        TEST(a_table_has_bars_and_leaves_out_of_each_what_does_nothing),
        TEST(a_decimal_comma_is_written_in_what_rates_are_too),
        TEST(a_rate_that_was_set_is_moved_from_there),
        TEST(what_is_refused_is_left_out_and_said),
        TEST(a_picture_has_a_bar_for_every_rate),
        TEST(a_change_that_is_none_is_told_with_a_way_out),
        TEST(a_run_without_memory_says_so_and_leaves_no_list),
    };
    return RUN_TESTS("drivers", tests);
}
