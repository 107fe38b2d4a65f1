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
    expect_run("groat price shop.rules p.csv | grep -c ^Tray", 0, "2\n", "");
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
               "NOK per h\n"
               "----------------------------------------------------------------------------"
               "---------\n"
               "A serving board of ash with a handle of cherry\n"
               "  direct   80.00 kr  80.00 kr  50.00 kr  30.00 kr   37.5%   30.00 kr           "
               "257.14\n"
               "      held to the ceiling: the set price is 100.00 kr\n",
               "");
}

static void numbers_of_a_show_align_by_their_decimal_point(void **state)
{
    (void)state;
    write_text("w.rules", "currency USD $\nproduct {\n    name text\n    x number\n}\n"
                          "price {\n    set $5\n}\nshow figure = x\n");
    write_text("p.csv", "name,x\nA,1234\nB,0.5\nC,-12.345\nD,0.00004\n");
    expect_run("groat price w.rules p.csv | sed 's/.*Take-home/T/; s/.*\\$5.00 //'", 0,
               "T   Figure\n"
               "----------------------------------------------------------------------------\n"
               " 1234\n"
               "    0.5\n"
               "  -12.35\n"
               "    0\n",
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
    const char *narrow = run_on_terminal("TERM=dumb $GROAT price n.rules p.csv", 70);
    assert_non_null(strstr(narrow, "\n      Earned per hour: 257.14 NOK per h\n"));
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
        TEST(numbers_of_a_show_align_by_their_decimal_point),
        TEST(headings_are_bold_on_a_terminal_unless_no_colour_is_wanted),
        TEST(a_table_fits_a_narrow_terminal_where_it_can),
        TEST(progress_is_shown_only_on_a_terminal_and_goes_away),
    };
    return RUN_TESTS("table", tests);
}
