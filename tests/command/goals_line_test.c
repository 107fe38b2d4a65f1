/* The command line of groat goals. Figures are worked out beside their test. */
#include "command/goal_checks.h"

static void one_goal_can_be_asked_for(void **state)
{
    (void)state;
    expect_rows(BENCH SAW INCOME TRIP, "name,asks\nA,10\n", "--goal 'a trip'", 0,
                "a trip,A,stall,10.00,10.00,5,,,10,100.00,yes,,\n", "");
    expect_rows(BENCH SAW SAW INCOME, "name,asks\nA,10\n", "--goal 'a saw'", 0,
                "a saw,A,stall,10.00,10.00,10,,,,,,,\n"
                "a saw,A,stall,10.00,10.00,10,,,,,,,\n",
                "");
    write_text("g.rules", BENCH SAW INCOME TRIP);
    expect_run("groat goals g.rules p.csv --goal 'a trap'", 2, "",
               "groat: there is no goal a trap\nTry: a trip\n");
    expect_run("groat goals g.rules p.csv --goal wealth", 2, "",
               "groat: there is no goal wealth\ngroat: the goals are: a saw, an income, a trip\n");
}

static void rules_without_a_goal_are_told_how_one_looks(void **state)
{
    (void)state;
    write_text("p.csv", "name,wood\nTray,5\n");
    expect_run("groat goals shop.rules p.csv", 2, "",
               "groat: shop.rules has no goal\n"
               "Try: goal \"a bandsaw\" { needs 900 USD; gives profit }\n");
    run("cp shop.rules g.rules; groat goals shop.rules p.csv 2>&1 | sed -n 's/^Try: //p' "
        ">>g.rules; groat goals g.rules p.csv --format csv --channel stall | tail -1 >row");
    /* twice the cost is 10, the card takes 0.20: 4.80; 900 / 4.80 = 187.5 */
    assert_string_equal(read_text("row"), "a bandsaw,Tray,stall,10.00,4.80,188,,,,,,,\n");
}

static void a_pace_is_a_number_above_zero(void **state)
{
    (void)state;
    write_text("g.rules", BENCH SAW);
    write_text("p.csv", "name,asks\nA,10\n");
    static const char *const wrong[] = {"0",     "-2",  "many",       "2,5", "3 per", "1e3",
                                        "2 a h", "0.0", "5 per year", "3.",  ".5.5",  "9999999999"};
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++) {
        char line[128], err[256];
        snprintf(line, sizeof line, "groat goals g.rules p.csv --pace '%s'", wrong[i]);
        snprintf(err, sizeof err,
                 "groat: --pace needs the number of sales per week, above zero, not %s\n"
                 "Try: --pace 2.5, --pace '10 per month'\n",
                 wrong[i]);
        expect_run(line, 2, "", err);
    }
    /* 10 sales */
    static const struct {
        const char *pace, *weeks;
    } right[] = {{"2.5", "4"},
                 {".5", "20"},
                 {"4 per week", "2.5"},
                 {"5 a week", "2"},
                 {"4.348125 a month", "10"}};
    for (size_t i = 0; i < sizeof right / sizeof *right; i++) {
        char line[128];
        snprintf(line, sizeof line,
                 "groat goals g.rules p.csv --format csv --pace '%s' | tail -1 | cut -d, -f8",
                 right[i].pace);
        char weeks[16];
        snprintf(weeks, sizeof weeks, "%s\n", right[i].weeks);
        expect_run(line, 0, weeks, "");
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(one_goal_can_be_asked_for),
        TEST(rules_without_a_goal_are_told_how_one_looks),
        TEST(a_pace_is_a_number_above_zero),
    };
    return RUN_TESTS("the command line of goals", tests);
}
