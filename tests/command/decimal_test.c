/* Decimal commas on the command line: a sheet may have them, and then so may what is asked of it;
 * rates are written as in the rules file. */
#include "command/command_checks.h"

#define STOVE                                                                                      \
    "currency NOK kr\n"                                                                            \
    "product {\n"                                                                                  \
    "    name text\n"                                                                              \
    "    work time as min\n"                                                                       \
    "    fuel energy as kWh\n"                                                                     \
    "    asked money optional\n"                                                                   \
    "}\n"                                                                                          \
    "rate hourly = 300 kr per h\n"                                                                 \
    "rate power = 2 kr per kWh\n"                                                                  \
    "rate cracked = 8%\n"                                                                          \
    "rate loss = 1 kWh\n"                                                                          \
    "cost heat = (fuel + loss) * power / (100% - cracked)\n"                                       \
    "pay hands = work * hourly\n"                                                                  \
    "price {\n"                                                                                    \
    "    set cost * 2\n"                                                                           \
    "    round to 1 kr\n"                                                                          \
    "}\n"                                                                                          \
    "channel stall {}\n"                                                                           \
    "goal \"a kiln\" { needs 1000 kr; gives profit }\n"

#define SHEET "name;work;fuel;asked\nBowl;10,5;1,5;99,50\n"

static void write_shop(void)
{
    write_text("stove.rules", STOVE);
    write_text("p.csv", SHEET);
}

static void a_rate_on_the_command_line_is_written_as_in_the_rules(void **state)
{
    (void)state;
    static const char says[] =
        "a rate is written as in the rules file, with a point before the decimals";
    static const struct {
        const char *option, *rate, *tried;
    } cases[] = {
        {"price --set", "hourly='310,50 kr per h'", "--set hourly='310.50 kr per h'"},
        {"price --set", "hourly='310,50 kr/h'", "--set hourly='310.50 kr per h'"},
        {"price --set", "cracked=8,5%", "8.5%"},
        {"price --set", "hourly=+2,5%", "+2.5%"},
        {"price --set", "cracked=-2,5%", "-2.5%"},
        {"price --set", "loss='0,5 kWh'", "--set loss='0.5 kWh'"},
        {"sweep --over", "power='1,50 kr per kWh..5 kr per kWh'",
         "--over power='1.50 kr per kWh..5 kr per kWh'"},
        {"sweep --over", "power='1,50 kr per kWh..5,25 kr per kWh'",
         "--over power='1.50 kr per kWh..5.25 kr per kWh'"},
        {"sweep --over", "power=-2,5%..+2,5%", "--over power='-2.5%..+2.5%'"},
        {"price --set", "loss='1,250 kWh'", "no separator between thousands"},
    };
    write_shop();
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char line[256], said[512];
        char verb[16];
        const char *option = strchr(cases[i].option, ' ') + 1;
        snprintf(verb, sizeof verb, "%.*s", (int)(option - cases[i].option - 1), cases[i].option);
        snprintf(line, sizeof line, "groat %s stove.rules p.csv --decimal comma %s %s", verb,
                 option, cases[i].rate);
        snprintf(said, sizeof said, "groat: %s: %.*s: %s\nTry: %s\n", option,
                 (int)strcspn(cases[i].rate, "="), cases[i].rate, says, cases[i].tried);
        expect_run(line, 2, "", said);
    }
}

/* The same words with a point are what they were meant to be. */
static void what_is_tried_instead_is_read(void **state)
{
    (void)state;
    write_shop();
    expect_run("groat price stove.rules p.csv --decimal comma --set hourly='310.50 kr per h' "
               "--set cracked=8.5% --set power=+2.5% --format csv",
               0, NULL, "");
    expect_run("groat sweep stove.rules p.csv --decimal comma "
               "--over power='1.50 kr per kWh..5 kr per kWh' --format csv",
               0, NULL, "");
}

/* What a line prints with a comma in its option is what it prints with a point there. */
static void expect_same(const char *with_comma, const char *with_point)
{
    char first[1 << 14];
    expect_run(with_point, 0, NULL, "");
    snprintf(first, sizeof first, "%s", read_text("out"));
    assert_true(strlen(first) > 100);
    expect_run(with_comma, 0, first, "");
}

#define RUN_COMMA(verb) "groat " verb " stove.rules p.csv --format csv --decimal comma "

static void a_number_asked_of_a_sheet_may_have_the_sheet_s_comma(void **state)
{
    (void)state;
    write_shop();
    expect_same(RUN_COMMA("drivers --each") "--by 2,5%", RUN_COMMA("drivers --each") "--by 2.5%");
    expect_same(RUN_COMMA("drivers --each") "--by -2,5%", RUN_COMMA("drivers --each") "--by -2.5%");
    expect_same(RUN_COMMA("effect") "--set power=+9% --hold 2,5%",
                RUN_COMMA("effect") "--set power=+9% --hold 2.5%");
    expect_same("groat effect stove.rules p.csv --format csv --set power=+9% --hold 2,5% "
                "--decimal comma",
                RUN_COMMA("effect") "--set power=+9% --hold 2.5%");
    expect_run("groat drivers stove.rules p.csv --decimal comma --by 2,5% | head -1", 0,
               "Each rate 2,5% higher: the effect on 1 price before rounding\n", "");
    expect_same(RUN_COMMA("goals") "--pace 2,5", RUN_COMMA("goals") "--pace 2.5");
    expect_same(RUN_COMMA("earn") "--at 120,00", RUN_COMMA("earn") "--at 120");
}

static void a_comma_without_decimal_commas_is_refused_with_a_point(void **state)
{
    (void)state;
    static const char *const wrong[][2] = {
        {"drivers stove.rules p.csv --by 2,5%",
         "groat: --by needs a percentage, not 2,5%\nTry: --by 2.5%\n"},
        {"drivers stove.rules p.csv --by -2,5%",
         "groat: --by needs a percentage, not -2,5%\nTry: --by -2.5%\n"},
        {"effect stove.rules p.csv --set power=+9% --hold 2,5%",
         "groat: --hold needs a percentage from 0% to 100%, not 2,5%\nTry: --hold 2.5%\n"},
        {"drivers stove.rules p.csv --by 2,,5%",
         "groat: --by needs a percentage, not 2,,5%\nTry: for example --by 5%\n"},
        {"drivers stove.rules p.csv --decimal comma --by 2,5,5%",
         "groat: --by needs a percentage, not 2,5,5%\nTry: for example --by 5%\n"},
        {"effect stove.rules p.csv --set power=+9% --decimal comma --hold 2,%",
         "groat: --hold needs a percentage from 0% to 100%, not 2,%\n"
         "Try: for example --hold 3%\n"},
        {"effect stove.rules p.csv --set power=+9% --decimal comma --hold 100,5%",
         "groat: --hold needs a percentage from 0% to 100%, not 100,5%\n"
         "Try: for example --hold 3%\n"},
    };
    write_text("stove.rules", STOVE);
    write_text("p.csv", "name,work,fuel\nBowl,10,1\n");
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++) {
        char line[256];
        snprintf(line, sizeof line, "groat %s", wrong[i][0]);
        expect_run(line, 2, "", wrong[i][1]);
    }
}

/* A price that is no price is told with one that this shop could have. */
static void an_example_of_a_price_is_in_the_shop_s_money(void **state)
{
    (void)state;
    write_shop();
    expect_run("groat earn stove.rules p.csv --decimal comma --at 4,,5", 2, "",
               "groat: --at 4,,5: this is not a value; price is money\n"
               "Try: for example --at '45 kr'\n");
    expect_run("groat earn stove.rules p.csv --decimal comma --at 'ca 99,50 kr.'", 2, "",
               "groat: --at ca 99,50 kr.: this is not a value; price is money\n"
               "Try: --at '99,50 kr'\n");
    expect_run("groat earn stove.rules p.csv --decimal comma --at 120,- --format csv", 0, NULL, "");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(a_rate_on_the_command_line_is_written_as_in_the_rules),
        TEST(what_is_tried_instead_is_read),
        TEST(a_number_asked_of_a_sheet_may_have_the_sheet_s_comma),
        TEST(a_comma_without_decimal_commas_is_refused_with_a_point),
        TEST(an_example_of_a_price_is_in_the_shop_s_money),
    };
    return RUN_TESTS("decimal commas", tests);
}
