/* The table: its shapes, its alignment, and what changes on a terminal. */
#define _GNU_SOURCE
#include <fcntl.h>
#include <sys/ioctl.h>
#include <termios.h>

#include "command/command_checks.h"

static void a_table_says_each_product_once_and_leaves_out_what_says_nothing(void **state)
{
    (void)state;
    write_text("p.csv", "name,work,wood,parcel\nTray,30,$5,\nBox,1 h,10,800\n");
    expect_run("groat price shop.rules p.csv", 0,
               "Product  Sold at   Price   Fees  You keep    Cost  Profit  Margin  Take-home\n"
               "----------------------------------------------------------------------------\n"
               "Tray     stall    $40.00  $0.80    $39.20  $20.00  $19.20   48.0%     $34.20\n"
               "Box      stall    $80.00  $1.60    $78.40  $40.00  $38.40   48.0%     $68.40\n"
               "         post     $80.00  $0.00    $80.00  $40.00  $40.00   50.0%     $70.00\n",
               "");
}

/* Two products may have the same name: they are two all the same. */
static void two_products_of_one_name_are_both_said(void **state)
{
    (void)state;
    write_text("p.csv", "name,wood\nTray,5\nTray,6\n");
    expect_run("groat price shop.rules p.csv | grep -c ^Tray", 0, "2\n",
               "p.csv:3: warning: Tray has the same name as line 2; explain, sweep and effect "
               "--since find products by name\n");
}

static void columns_align_by_what_the_eye_sees(void **state)
{
    (void)state;
    write_text("p.csv", "name,wood\n陶器の皿,5\nCafe\xCC\x81,5\nplate,5\n");
    expect_run("groat price shop.rules p.csv", 0,
               "Product   Sold at   Price   Fees  You keep   Cost  Profit  Margin  Take-home\n"
               "----------------------------------------------------------------------------\n"
               "陶器の皿  stall    $10.00  $0.20     $9.80  $5.00   $4.80   48.0%      $4.80\n"
               "Cafe\xCC\x81      stall    $10.00  $0.20     $9.80  $5.00   $4.80   48.0%      "
               "$4.80\n"
               "plate     stall    $10.00  $0.20     $9.80  $5.00   $4.80   48.0%      $4.80\n",
               "");
}

#define LONG_SHOP                                                                                  \
    "currency NOK kr\n"                                                                            \
    "product {\n"                                                                                  \
    "    name text\n"                                                                              \
    "    wood money = 0 kr\n"                                                                      \
    "    work time as min = 7 min\n"                                                               \
    "    cap money optional\n"                                                                     \
    "}\n"                                                                                          \
    "cost material = wood\n"                                                                       \
    "price {\n"                                                                                    \
    "    set cost * 2\n"                                                                           \
    "    ceiling cap\n"                                                                            \
    "}\n"                                                                                          \
    "show earned_per_hour as NOK per h = profit / work\n"

static void a_long_name_gets_a_line_of_its_own_and_notes_stand_under_their_row(void **state)
{
    (void)state;
    write_text("n.rules", LONG_SHOP);
    write_text("p.csv",
               "name,wood,cap\n\"A serving board of ash with a handle of cherry\",50,80\n");
    expect_run("groat price n.rules p.csv", 0,
               "                                                                      "
               "Earned per hour\n"
               "  Sold at     Price  You keep      Cost    Profit  Margin  Take-home        "
               "    per h\n"
               "----------------------------------------------------------------------------"
               "---------\n"
               "A serving board of ash with a handle of cherry\n"
               "  direct   80.00 kr  80.00 kr  50.00 kr  30.00 kr   37.5%   30.00 kr        "
               "257.14 kr\n"
               "      held to the ceiling: the set price is 100.00 kr\n",
               "");
}

/* The one column of a show, of products with these values. */
static void expect_numbers(const char *show, const char *values, const char *numbers)
{
    char rules[400], sheet[400], expected[400];
    snprintf(rules, sizeof rules,
             "currency USD $\nproduct {\n    name text\n    x number\n}\n"
             "price {\n    set $5\n}\nshow %s\n",
             show);
    snprintf(sheet, sizeof sheet, "name,x\n%s", values);
    snprintf(expected, sizeof expected, "%s", numbers);
    write_text("w.rules", rules);
    write_text("p.csv", sheet);
    expect_run("groat price w.rules p.csv | sed '1,/^---/d; s/.*\\$5.00 //; s/^ *//'", 0, expected,
               "");
}

static void numbers_of_a_column_have_as_many_decimals(void **state)
{
    (void)state;
    expect_numbers("figure = x", "A,1234\nB,0.5\nC,-12.345\nD,0.00004\n",
                   "1234.00\n0.50\n-12.35\n0.00\n");
    expect_numbers("figure = x", "A,18.5\nB,12\n", "18.5\n12.0\n");
    expect_numbers("figure = x", "A,18\nB,-3\n", "18\n-3\n");
}

static void numbers_below_one_have_up_to_four_decimals(void **state)
{
    (void)state;
    expect_numbers("figure = x", "A,0.11034\nB,0.128\nC,-0.5\n", "0.1103\n0.1280\n-0.5000\n");
    expect_numbers("figure = x", "A,0.125\nB,0.5\n", "0.125\n0.500\n");
    expect_numbers("figure = x", "A,0.004\nB,110\n", "0.004\n110.000\n");
}

static void money_per_something_has_the_sign_of_the_currency(void **state)
{
    (void)state;
    expect_numbers("wage as USD per h = x * $1 per h", "A,33.914\nB,37\nC,-1.5\n",
                   "$33.91\n$37.00\n-$1.50\n");
    expect_numbers("wage as USD per g = x * $1 per g", "A,0.0314\nB,0.5\n", "$0.0314\n$0.5000\n");
}

/* `R$` ends in a mark of money: it stands before an amount although it begins with a letter. */
static void the_sign_of_a_currency_stands_on_one_side_in_tables_and_in_help(void **state)
{
    (void)state;
    write_text("real.rules", "currency BRL R$\nproduct {\n    name text\n    wood money\n}\n"
                             "rate glue = R$1.50\ncost all = wood + glue\n"
                             "price {\n    set cost * 2\n    round to R$1\n}\nchannel stall {}\n");
    write_text("real.csv", "name,wood\nBowl,3\n");
    expect_run("groat price real.rules real.csv", 0,
               "Product  Sold at   Price  You keep    Cost  Profit  Margin  Take-home\n"
               "---------------------------------------------------------------------\n"
               "Bowl     stall    R$9.00    R$9.00  R$4.50  R$4.50   50.0%     R$4.50\n",
               "");
    expect_run(
        "groat price real.rules real.csv --set glue=3", 2, "",
        "groat: --set: glue: this number needs a unit; glue is money\n"
        "Try: --set glue='R$3'\nUse single quotes, or the shell replaces what follows the $\n");
    expect_run("groat earn real.rules real.csv --at 4,,5", 2, "",
               "groat: --at 4,,5: this is not a value; price is money\n"
               "Try: for example --at 'R$45'\n");
}

static void numbers_align_by_their_decimal_mark(void **state)
{
    (void)state;
    write_text("w.rules", "currency USD $\nproduct {\n    name text\n    x number\n}\n"
                          "price {\n    set $5\n}\nshow figure = x\n");
    write_text("p.csv", "name;x\nA;1234\nB;-0,5\n");
    expect_run("groat price w.rules p.csv --decimal comma | sed 's/.*Take-home/T/; s/.*\\$5,00 //'",
               0,
               "T  Figure\n"
               "---------------------------------------------------------------------------\n"
               " 1234,0\n"
               "   -0,5\n",
               "");
}

/* ---- on a terminal ---- */

/* Runs a line with a terminal of so many columns for its standard output, and returns what came. */
static const char *run_on_terminal(const char *line, unsigned short columns)
{
    static char text[1 << 16];
    int terminal = posix_openpt(O_RDWR | O_NOCTTY);
    assert_true(terminal >= 0 && grantpt(terminal) == 0 && unlockpt(terminal) == 0);
    int end = open(ptsname(terminal), O_RDWR | O_NOCTTY);
    assert_true(end >= 0);
    struct termios plain;
    tcgetattr(end, &plain);
    cfmakeraw(&plain);
    tcsetattr(end, TCSANOW, &plain);
    ioctl(end, TIOCSWINSZ, &(struct winsize){.ws_row = 40, .ws_col = columns});
    pid_t child = fork();
    if (child == 0) {
        dup2(end, STDOUT_FILENO);
        dup2(end, STDERR_FILENO);
        execl("/bin/sh", "sh", "-c", line, (char *)NULL);
        _exit(127);
    }
    close(end);
    size_t length = 0;
    ssize_t got;
    while ((got = read(terminal, text + length, sizeof text - 1 - length)) > 0)
        length += (size_t)got;
    text[length] = '\0';
    close(terminal);
    int status;
    assert_int_equal(waitpid(child, &status, 0), child);
    assert_true(WIFEXITED(status));
    return text;
}

/* A shop whose postage and tax the buyer pays. Shows are `first`, `second` and `third`. */
#define WIDE_SHOP                                                                                  \
    "currency USD $\n"                                                                             \
    "product {\n"                                                                                  \
    "    name text\n"                                                                              \
    "    wood money\n"                                                                             \
    "    work time as min = 30 min\n"                                                              \
    "}\n"                                                                                          \
    "cost material = wood\n"                                                                       \
    "channel marketplace {\n"                                                                      \
    "    fee  card = 10% of price\n"                                                               \
    "    tax  added 5%\n"                                                                          \
    "    buyer pays post = $10\n"                                                                  \
    "}\n"                                                                                          \
    "price { set cost * 2 }\n"                                                                     \
    "show earned_per_hour as USD per h = profit / work\n"                                          \
    "show hands_min as min = work\n"

/* At 800 the buyer pays 10 for the post and 40.50 of tax; 80 are fees, so 730 are kept, and 400 of
 * them are the wood. In half an hour that is 660 an hour. The row takes 106 characters, of which 22
 * are spaces between its 12 columns. */
static void headings_take_more_lines_before_a_column_is_given_up(void **state)
{
    (void)state;
    write_text("n.rules", WIDE_SHOP);
    write_text("p.csv", "name,wood\nA,400\n");
    assert_string_equal(run_on_terminal("TERM=dumb $GROAT price n.rules p.csv", 106),
                        "                                                                          "
                        "                 "
                        "  Earned\n"
                        "                                                                          "
                        "                 "
                        "     per  Hands\n"
                        "                         Buyer                      You                   "
                        "           Take- "
                        "    hour    min\n"
                        "  Sold at        Price    adds    Fees     Tax     keep     Cost   Profit "
                        " Margin     home "
                        "   per h    min\n"
                        "--------------------------------------------------------------------------"
                        "-----------------"
                        "---------------\n"
                        "A\n"
                        "  marketplace  $800.00  $50.50  $80.00  $40.50  $730.00  $400.00  $330.00 "
                        "  40.7%  $330.00 "
                        " $660.00     30\n");
}

static void columns_stand_closer_before_one_is_given_up(void **state)
{
    (void)state;
    write_text("n.rules", WIDE_SHOP);
    write_text("p.csv", "name,wood\nA,400\n");
    assert_non_null(strstr(run_on_terminal("TERM=dumb $GROAT price n.rules p.csv", 97),
                           "\n  marketplace  $800.00  $50.50 $80.00 $40.50 $730.00 $400.00 $330.00 "
                           " 40.7% $330.00 $660.00    30\n"));
    assert_non_null(strstr(run_on_terminal("TERM=dumb $GROAT price n.rules p.csv", 94),
                           "  40.7%  $330.00\n"
                           "      Earned per hour: $660.00 per h; Hands min: 30 min\n"));
}

static void a_currency_s_word_goes_into_the_headings_before_a_column_is_given_up(void **state)
{
    (void)state;
    write_text("n.rules", LONG_SHOP);
    write_text("p.csv", "name,wood,cap\nBoard,50,80\n");
    assert_string_equal(
        run_on_terminal("TERM=dumb NO_COLOR=1 $GROAT price n.rules p.csv", 75),
        "                                                          Take-    Earned\n"
        "                  Price  You keep   Cost  Profit           home  per hour\n"
        "Product  Sold at     kr        kr     kr      kr  Margin     kr  kr per h\n"
        "-------------------------------------------------------------------------\n"
        "Board    direct   80.00     80.00  50.00   30.00   37.5%  30.00    257.14\n"
        "             held to the ceiling: the set price is 100.00 kr\n");
}

/* The widest cells and the longest words of the headings make 66 characters; with one less the product
 * gets a line of its own. */
static void a_table_exactly_as_wide_as_the_terminal_stands_as_it_is(void **state)
{
    (void)state;
    write_text("n.rules", "currency USD $\n"
                          "product { name text; wood money }\n"
                          "cost material = wood\n"
                          "channel stall { fee card = 2% of paid }\n"
                          "price { set cost * 2 }\n");
    write_text("p.csv", "name,wood\nTray,5\n");
    assert_string_equal(run_on_terminal("TERM=dumb NO_COLOR=1 $GROAT price n.rules p.csv", 66),
                        "         Sold                    You                         Take-\n"
                        "Product  at      Price   Fees   keep   Cost  Profit  Margin   home\n"
                        "------------------------------------------------------------------\n"
                        "Tray     stall  $10.00  $0.20  $9.80  $5.00   $4.80   48.0%  $4.80\n");
    assert_non_null(
        strstr(run_on_terminal("TERM=dumb NO_COLOR=1 $GROAT price n.rules p.csv", 65),
               "\nTray\n  stall    $10.00  $0.20     $9.80  $5.00   $4.80   48.0%  $4.80\n"));
}

static void what_the_buyer_adds_makes_a_row_add_up(void **state)
{
    (void)state;
    write_text("n.rules",
               WIDE_SHOP "channel inside {\n    tax included 25%\n    buyer pays post = $10\n}\n"
                         "channel stall {\n    fee card = 10% of price\n}\n");
    write_text("p.csv", "name,wood\nA,40\n");
    /* At 80: 80 + 10 + 4.50 - 8 - 4.50 = 82; of the 90 the tax inside is a fifth: 80 + 10 - 18 = 72 */
    expect_run("groat price n.rules p.csv | cut -c3-60 | grep '\\$'", 0,
               "marketplace  $80.00  $14.50  $8.00   $4.50  $82.00  $40.00\n"
               "inside       $80.00  $10.00  $0.00  $18.00  $72.00  $40.00\n"
               "stall        $80.00   $0.00  $8.00   $0.00  $72.00  $40.00\n",
               "");
    expect_run("groat price n.rules p.csv --channel stall | grep -c Buyer", 1, "0\n", "");
}

static void a_table_without_a_row_says_so(void **state)
{
    (void)state;
    write_text("p.csv", "name,wood\nTray,5\n");
    static const char said[] = "Nothing could be priced.\n";
    expect_run("groat price shop.rules p.csv --channel post", 0, said, "");
    expect_run("groat price shop.rules p.csv --channel post --quantity 1,5", 0, said, "");
    expect_run("groat earn shop.rules p.csv --channel post --at 5", 0, said, "");
    expect_run("groat rank shop.rules p.csv --channel post", 0, said, NULL);
    expect_run("groat price shop.rules p.csv --channel post --format json", 0, "[]\n", "");
    expect_run("groat price shop.rules p.csv --channel post --format csv", 0, HEADINGS ",notes\n",
               "");
}

static void headings_are_bold_on_a_terminal_unless_no_colour_is_wanted(void **state)
{
    (void)state;
    write_text("p.csv", "name,wood\nTray,5\n");
    const char *line = "TERM=xterm $GROAT price shop.rules p.csv";
    assert_ptr_equal(strstr(run_on_terminal(line, 100), "\033[1mProduct"),
                     run_on_terminal(line, 100));
    assert_null(strchr(run_on_terminal("NO_COLOR=1 TERM=xterm $GROAT price shop.rules p.csv", 100),
                       '\033'));
    assert_null(strchr(run_on_terminal("TERM=dumb $GROAT price shop.rules p.csv", 100), '\033'));
    assert_null(strchr(
        run_on_terminal("TERM=xterm $GROAT price shop.rules p.csv --format csv", 100), '\033'));
}

static void a_table_fits_a_narrow_terminal_where_it_can(void **state)
{
    (void)state;
    write_text("n.rules", LONG_SHOP);
    write_text("p.csv", "name,wood,cap\nBoard,50,80\n");
    const char *narrow = run_on_terminal("TERM=dumb $GROAT price n.rules p.csv", 50);
    assert_non_null(strstr(narrow, "\n      Earned per hour: 257.14 kr per h\n"));
    assert_non_null(strstr(narrow, "\nBoard\n  direct "));
}

static void progress_is_shown_only_on_a_terminal_and_goes_away(void **state)
{
    (void)state;
    run("seq 1 300000 | sed 's/$/,5 h,5,/; 1i name,work,wood,' >p.csv");
    const char *shown = run_on_terminal("$GROAT price shop.rules p.csv --output list", 100);
    size_t length = strlen(shown);
    if (length == 0) /* it took less than a second */
        return;
    assert_non_null(strstr(shown, " of 300000 products"));
    assert_string_equal(shown + length - 4, "\r\033[K");
    expect_run("groat price shop.rules p.csv --output list", 0, "", "");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(a_table_says_each_product_once_and_leaves_out_what_says_nothing),
        TEST(two_products_of_one_name_are_both_said),
        TEST(columns_align_by_what_the_eye_sees),
        TEST(a_long_name_gets_a_line_of_its_own_and_notes_stand_under_their_row),
        TEST(numbers_of_a_column_have_as_many_decimals),
        TEST(numbers_below_one_have_up_to_four_decimals),
        TEST(money_per_something_has_the_sign_of_the_currency),
        TEST(the_sign_of_a_currency_stands_on_one_side_in_tables_and_in_help),
        TEST(numbers_align_by_their_decimal_mark),
        TEST(headings_take_more_lines_before_a_column_is_given_up),
        TEST(columns_stand_closer_before_one_is_given_up),
        TEST(a_currency_s_word_goes_into_the_headings_before_a_column_is_given_up),
        TEST(a_table_exactly_as_wide_as_the_terminal_stands_as_it_is),
        TEST(what_the_buyer_adds_makes_a_row_add_up),
        TEST(a_table_without_a_row_says_so),
        TEST(headings_are_bold_on_a_terminal_unless_no_colour_is_wanted),
        TEST(a_table_fits_a_narrow_terminal_where_it_can),
        TEST(progress_is_shown_only_on_a_terminal_and_goes_away),
    };
    return RUN_TESTS("table", tests);
}
