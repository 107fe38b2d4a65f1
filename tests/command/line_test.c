/* The command line: verbs, options, help, and what the command ends with. */
#include "command/command_checks.h"

static void a_word_that_is_no_verb_gets_the_nearest_one_proposed(void **state)
{
    (void)state;
    expect_run("groat prise shop.rules", 2, "", "groat: there is no verb prise\nTry: price\n");
    expect_run("groat juggle shop.rules", 2, "",
               "groat: there is no verb juggle\nTry: groat --help\n");
}

static void an_option_that_is_not_known_gets_the_nearest_one_proposed(void **state)
{
    (void)state;
    expect_run("groat price shop.rules p.csv --chanel stall", 2, "",
               "groat: there is no option --chanel\nTry: --channel\n");
    expect_run("groat price shop.rules p.csv --outptu=x", 2, "",
               "groat: there is no option --outptu\nTry: --output\n");
    expect_run("groat check shop.rules -v", 2, "", NULL);
}

static void a_missing_word_is_asked_for(void **state)
{
    (void)state;
    expect_run("groat", 2, "", "groat: a verb is missing\nTry: groat --help\n");
    expect_run("groat check", 2, "", "groat: check needs a rules file\nTry: groat check RULES\n");
    expect_run("groat price shop.rules", 2, "",
               "groat: price needs a product sheet\nTry: groat price RULES PRODUCTS\n");
    expect_run("groat price shop.rules p.csv --format", 2, "",
               "groat: --format needs a value: --format FORM\n");
    expect_run("groat price shop.rules p.csv --channel=", 2, "",
               "groat: --channel needs a value: --channel NAME,...\n");
}

static void a_word_too_many_is_named(void **state)
{
    (void)state;
    expect_run("groat check shop.rules p.csv", 2, "",
               "groat: check cannot use the argument p.csv\nTry: groat check RULES\n");
    expect_run("groat check shop.rules --format csv", 2, "", "groat: check takes no --format\n");
    expect_run("groat price a b --help=yes", 2, "", "groat: --help takes no value\n");
}

static void a_value_that_an_option_cannot_take_is_told_with_one_that_it_can(void **state)
{
    (void)state;
    static const char *const wrong[][2] = {
        {"--format xml", "groat: --format must be table, csv or json, not xml\n"},
        {"--from xls", "groat: --from must be csv, tsv, json or ndjson, not xls\n"},
        {"--decimal dot", "groat: --decimal must be comma or point, not dot\n"},
        {"--quantity 0", "groat: --quantity needs whole numbers of 1 or more, not 0\n"
                         "Try: for example --quantity 1,5,20\n"},
        {"--quantity 1,,5", "groat: --quantity needs whole numbers of 1 or more, not 1,,5\n"
                            "Try: for example --quantity 1,5,20\n"},
        {"--quantity 99999999999999999999",
         "groat: --quantity needs whole numbers of 1 or more, not 99999999999999999999\n"
         "Try: for example --quantity 1,5,20\n"},
        {"--as-of 2027-02-29", "groat: --as-of needs a date, not 2027-02-29\n"
                               "Try: for example --as-of 2027-01-31\n"},
        {"--set hourly", "groat: --set needs a rate and its value, not hourly\n"
                         "Try: for example --set hourly='$27 per h'\n"},
        {"--set hourly=40%", "groat: --set: hourly: this is a plain number; hourly is money per "
                             "time\nTry: +40%\n"},
        {"--set hourly=25", "groat: --set: hourly: this number needs a unit; hourly is money per "
                            "time\nTry: --set hourly='$25 per h'\n"
                            "Use single quotes, or the shell replaces what follows the $\n"},
        {"--set hourly=\"$25 per h\"",
         "groat: --set: hourly: this is a plain number per time; hourly is money per time\n"
         "Try: --set hourly='$5 per h'\n"
         "Use single quotes, or the shell replaces what follows the $\n"},
        {"--set hourly=\"$WAGE per h\"",
         "groat: --set: hourly: this is not a value; hourly is money per time\n"
         "Try: for example --set hourly='$30 per h'\n"
         "Use single quotes, or the shell replaces what follows the $\n"},
        {"--set hourly='$25/h'", "groat: --set: hourly: this is not a value; hourly is money per "
                                 "time\nTry: --set hourly='$25 per h'\n"},
        {"--set hurly='$20 per h'", "groat: --set: there is no rate hurly\nTry: hourly\n"},
        {"--channel stal", "groat: there is no channel stal\nTry: stall\n"},
        {"--channel stall,stal", "groat: there is no channel stal\nTry: stall\n"},
        {"--channel stall,", "groat: --channel needs names with commas between them, not stall,\n"},
        {"--channel gallery",
         "groat: there is no channel gallery\nThe channels are: stall, post\n"},
    };
    write_text("p.csv", "name\nTray\n");
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++) {
        char line[256];
        snprintf(line, sizeof line, "groat price shop.rules p.csv %s", wrong[i][0]);
        expect_run(line, 2, "", wrong[i][1]);
    }
}

static void options_stand_anywhere_and_with_either_spelling(void **state)
{
    (void)state;
    write_text("p.csv", "name,wood\nTray,$5\n");
    const char *expected =
        HEADINGS ",notes\n"
                 "Tray,stall,3,10.00,10.00,0.20,0.00,9.80,5.00,4.80,0.4800,4.80,\n";
    expect_run("groat --format csv price --quantity=3 shop.rules p.csv", 0, expected, "");
    expect_run("groat price shop.rules --quantity 3 p.csv --format=csv", 0, expected, "");
    expect_run("groat price --format csv --quantity 3 -- shop.rules p.csv", 0, expected, "");
}

static void a_sheet_in_the_place_of_the_rules_is_told_apart(void **state)
{
    (void)state;
    write_text("p.csv", "name,wood\nTray,$5\n");
    expect_run("groat price p.csv shop.rules", 2, "",
               "groat: p.csv looks like a sheet: the rules come first\n"
               "Try: groat price shop.rules p.csv\n");
    expect_run("groat price p.csv p.csv", 2, "",
               "groat: p.csv looks like a sheet: the rules come first\n");
    expect_run("groat tidy --write shop.rules p.csv", 2, "",
               "groat: p.csv looks like a sheet, not like rules\n");
    assert_string_equal(read_text("p.csv"), "name,wood\nTray,$5\n");
}

static void a_spreadsheet_s_own_file_is_to_be_saved_as_csv(void **state)
{
    (void)state;
    static const char *const endings[] = {"xlsx", "XLS", "ods"};
    for (size_t i = 0; i < sizeof endings / sizeof *endings; i++) {
        char line[64], err[128];
        snprintf(line, sizeof line, "groat price shop.rules things.%s", endings[i]);
        snprintf(err, sizeof err,
                 "things.%s: this is a spreadsheet's own file, not text\n"
                 "Try: save it as CSV in UTF-8\n",
                 endings[i]);
        expect_run(line, 2, "", err);
    }
}

static void channels_stand_together_or_apart(void **state)
{
    (void)state;
    write_text("p.csv", "name,wood,parcel\nTray,$5,1 kg\n");
    const char *expected = "channel\npost\nstall\n";
    expect_run("groat price shop.rules p.csv --format csv --channel post,stall | cut -d, -f2", 0,
               expected, "");
    expect_run("groat price shop.rules p.csv --format csv --channel post --channel stall,post | "
               "cut -d, -f2",
               0, expected, "");
    expect_run("groat price --help | grep -e ' --channel NAME'", 0,
               "  --channel NAME,...   only this channel; repeat it for more channels\n", "");
}

static void of_an_option_given_twice_the_last_one_counts(void **state)
{
    (void)state;
    write_text("p.csv", "name,work\nTray,1 h\n");
    expect_run("groat price shop.rules p.csv --format table --format csv "
               "--set hourly='$9 per h' --set hourly='$10 per h'",
               0,
               HEADINGS ",notes\n"
                        "Tray,stall,1,20.00,20.00,0.40,0.00,19.60,10.00,9.60,0.4800,19.60,\n",
               "");
}

static void help_is_there_for_the_command_and_for_each_verb(void **state)
{
    (void)state;
    expect_run("groat --help", 0, NULL, "");
    assert_non_null(strstr(read_text("out"), "\n  check "));
    assert_non_null(strstr(read_text("out"), "\n  price "));
    expect_run("groat price --help", 0, NULL, "");
    assert_non_null(strstr(read_text("out"), "--set hourly='$27 per h'"));
    assert_non_null(strstr(read_text("out"), "\"top/bottom\""));
    expect_run("groat --help check", 0, NULL, "");
    assert_null(strstr(read_text("out"), "--format"));
}

/* The examples are for someone who stands at the root of the repository. */
static void the_examples_of_the_help_run(void **state)
{
    (void)state;
    char line[4400];
    snprintf(
        line, sizeof line,
        "for verb in check price effect tidy sweep drivers goals; do groat $verb --help | sed "
        "'1,/^For "
        "example/d' | "
        "sed 's/^ *groat /\"$GROAT\" /'; done >examples; test $(grep -c GROAT examples) = 14 && "
        "cd '%s' && sh -e \"$OLDPWD/examples\"",
        root);
    expect_run(line, 0, NULL, "");
}

static void the_version_is_the_library_s(void **state)
{
    (void)state;
    expect_run("groat --version", 0, "groat 0.1.0\n", "");
    expect_run("groat price --version", 0, "groat 0.1.0\n", "");
}

static void check_counts_what_the_rules_hold(void **state)
{
    (void)state;
    expect_run("groat check shop.rules", 0, "shop.rules: 2 channels, 1 rate, no expects\n", "");
    expect_run("cat shop.rules - <<'.' >more.rules; groat check ./more.rules\n"
               "materials {\n"
               "    twine $6 per 100 m\n"
               "}\n"
               "expect \"a tray\" {\n"
               "    wood = $5\n"
               "    on stall\n"
               "    then price = $10.00\n"
               "}\n"
               ".",
               0, "./more.rules: 2 channels, 1 rate, 1 material, 1 expect holds\n", "");
}

static void an_expect_that_fails_is_exit_status_1(void **state)
{
    (void)state;
    int status = run("cat shop.rules - <<'.' >more.rules; groat check more.rules\n"
                     "expect \"a tray\" {\n"
                     "    wood = $5\n"
                     "    on stall\n"
                     "    then price = $11.00\n"
                     "}\n"
                     ".");
    assert_int_equal(status, 1);
    assert_string_equal(read_text("out"), "more.rules: 2 channels, 1 rate, 1 expect, 1 failure\n");
    assert_non_null(strstr(read_text("err"), "more.rules:25:"));
}

/* Each line that fails counts once, on however many channels it does. */
static void failures_are_counted_beside_the_expects(void **state)
{
    (void)state;
    int status = run("cat shop.rules - <<'.' >more.rules; groat check more.rules\n"
                     "expect \"a tray\" {\n"
                     "    wood = $5\n"
                     "    then price = $11.00\n"
                     "    then cost = $6\n"
                     "}\n"
                     ".");
    assert_int_equal(status, 1);
    assert_string_equal(read_text("out"), "more.rules: 2 channels, 1 rate, 1 expect, 2 failures\n");
}

static void price_runs_no_expects_and_says_each_warning_once(void **state)
{
    (void)state;
    static const char warning[] = "more.rules:22:27: warning: this markup is ten times the amount "
                                  "that it is added to, or more\n"
                                  "    let dear = cost marked up 12\n"
                                  "                              ^^\n"
                                  "Try: 12%\n";
    write_text("p.csv", "name,wood\nTray,$5\n");
    expect_run("cat shop.rules - <<'.' >more.rules; groat price more.rules p.csv\n"
               "let dear = cost marked up 12\n"
               "show dear\n"
               "expect \"a tray\" {\n"
               "    wood = $5\n"
               "    on stall\n"
               "    then price = $11.00\n"
               "}\n"
               ".",
               0, NULL, warning);
    expect_run("groat explain more.rules p.csv --product Tray", 0, NULL, warning);
    expect_run("groat drivers more.rules p.csv", 0, NULL, warning);
    assert_int_equal(run("groat check more.rules"), 1);
    assert_non_null(strstr(read_text("err"), warning));
}

static void wrong_rules_are_exit_status_2_and_print_nothing(void **state)
{
    (void)state;
    write_text("bad.rules", "currency USD $\nlet a = b\nlet c = d\n");
    write_text("p.csv", "name\nTray\n");
    expect_run("groat price bad.rules p.csv", 2, "", NULL);
    const char *said = read_text("err");
    assert_non_null(strstr(said, "bad.rules:2:9: error: "));
    assert_non_null(strstr(said, "bad.rules:3:9: error: "));
    expect_run("groat check bad.rules", 2, "", said);
}

static void rules_that_cannot_be_read_are_told_with_the_reason(void **state)
{
    (void)state;
    expect_run("groat check gone.rules", 2, "",
               "gone.rules: cannot be read: No such file or directory\n");
    expect_run("groat check .", 2, "", ".: cannot be read: Is a directory\n");
    expect_run("groat check /dev/zero", 2, "", "/dev/zero: is larger than 4 MB\n");
    write_text("uses.rules", "use \"gone.rules\"\nuse \"/\"\n");
    expect_run("groat check uses.rules", 2, "", NULL);
    const char *said = read_text("err");
    assert_non_null(strstr(said, "gone.rules: cannot be read: No such file or directory\n"));
    assert_non_null(strstr(said, "/: cannot be read: Is a directory\n"));
    assert_non_null(strstr(said, "uses.rules:1:5: error: "));
    assert_non_null(strstr(said, "uses.rules:2:5: error: "));
}

static void a_used_file_is_looked_for_beside_the_file_that_uses_it(void **state)
{
    (void)state;
    mkdir("mine", 0777);
    write_text("mine/own.rules", "use \"../shop.rules\"\nuse \"fees.rules\"\n");
    write_text("mine/fees.rules",
               "use \"../shop.rules\"\nrate postage = $4\ncost posting = postage\n");
    expect_run("groat check mine/own.rules", 0, "mine/own.rules: 2 channels, 2 rates, no expects\n",
               "");
}

/* By another name it is still the same file. */
static void a_circle_of_files_is_found_through_links_too(void **state)
{
    (void)state;
    write_text("own.rules", "currency USD $\nuse \"again.rules\"\n");
    assert_int_equal(symlink("own.rules", "again.rules"), 0);
    expect_run("groat check own.rules", 2, "", NULL);
    assert_non_null(strstr(read_text("err"), "uses itself"));
}

static void what_would_steer_a_terminal_is_said_as_a_space(void **state)
{
    (void)state;
    write_text("p.csv", "name,wood,\033[31m\nTr\033[2Jay,oops,1\n");
    expect_run("groat price shop.rules p.csv", 1, NULL, NULL);
    assert_null(strchr(read_text("err"), '\033'));
    assert_non_null(strstr(read_text("err"), "p.csv:2: Tr [2Jay, row 1, column wood, \"oops\": "));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(a_word_that_is_no_verb_gets_the_nearest_one_proposed),
        TEST(an_option_that_is_not_known_gets_the_nearest_one_proposed),
        TEST(a_missing_word_is_asked_for),
        TEST(a_word_too_many_is_named),
        TEST(a_value_that_an_option_cannot_take_is_told_with_one_that_it_can),
        TEST(options_stand_anywhere_and_with_either_spelling),
        TEST(a_sheet_in_the_place_of_the_rules_is_told_apart),
        TEST(a_spreadsheet_s_own_file_is_to_be_saved_as_csv),
        TEST(channels_stand_together_or_apart),
        TEST(of_an_option_given_twice_the_last_one_counts),
        TEST(help_is_there_for_the_command_and_for_each_verb),
        TEST(the_examples_of_the_help_run),
        TEST(the_version_is_the_library_s),
        TEST(check_counts_what_the_rules_hold),
        TEST(an_expect_that_fails_is_exit_status_1),
        TEST(failures_are_counted_beside_the_expects),
        TEST(price_runs_no_expects_and_says_each_warning_once),
        TEST(wrong_rules_are_exit_status_2_and_print_nothing),
        TEST(rules_that_cannot_be_read_are_told_with_the_reason),
        TEST(a_used_file_is_looked_for_beside_the_file_that_uses_it),
        TEST(a_circle_of_files_is_found_through_links_too),
        TEST(what_would_steer_a_terminal_is_said_as_a_space),
    };
    return RUN_TESTS("command line", tests);
}
