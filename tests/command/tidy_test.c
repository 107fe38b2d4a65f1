/* groat tidy: printed, looked at, put in place; and what it never does to a file. */
#include "command/command_checks.h"

#define UNTIDY                                                                                     \
    "currency  USD $\nproduct {\nname text\nwood money=$0 # of one\n}\nprice{set wood*2}\n"
#define TIDY                                                                                       \
    "currency USD $\n"                                                                             \
    "product {\n"                                                                                  \
    "    name  text\n"                                                                             \
    "    wood  money   = $0  # of one\n"                                                           \
    "}\n"                                                                                          \
    "price { set wood * 2 }\n"
#define BROKEN "currency  USD $\nprice {  set $5\nlet a = ($3\n"

static void the_tidy_text_is_printed_and_the_file_stays(void **state)
{
    (void)state;
    write_text("a.rules", UNTIDY);
    expect_run("groat tidy a.rules", 0, TIDY, "");
    assert_string_equal(read_text("a.rules"), UNTIDY);
}

static void the_tidy_text_goes_to_the_file_that_output_names(void **state)
{
    (void)state;
    write_text("a.rules", UNTIDY);
    expect_run("groat tidy a.rules --output b.rules", 0, "", "");
    assert_string_equal(read_text("b.rules"), TIDY);
    assert_string_equal(read_text("a.rules"), UNTIDY);
    expect_run("groat tidy a.rules --output a.rules", 0, "", "");
    assert_string_equal(read_text("a.rules"), TIDY);
}

static void check_names_what_is_not_tidy_and_changes_nothing(void **state)
{
    (void)state;
    write_text("a.rules", UNTIDY);
    write_text("b.rules", TIDY);
    expect_run("groat tidy --check a.rules", 1, "a.rules\n", "");
    expect_run("groat tidy --check b.rules", 0, "", "");
    expect_run("groat tidy --check b.rules a.rules ./a.rules", 1, "a.rules\n./a.rules\n", "");
    assert_string_equal(read_text("a.rules"), UNTIDY);
    write_text("c.rules", "rate a = 1\r\n");
    write_text("d.rules", "rate a = 1");
    write_text("e.rules", "\xEF\xBB\xBFrate a = 1\n");
    expect_run("groat tidy --check c.rules d.rules e.rules", 1, "c.rules\nd.rules\ne.rules\n", "");
}

static void write_puts_the_tidy_text_in_place_with_the_old_rights(void **state)
{
    (void)state;
    struct stat about;
    write_text("a.rules", UNTIDY);
    write_text("b.rules", "rate  a = 1\n");
    assert_int_equal(chmod("a.rules", 0640), 0);
    expect_run("groat tidy --write a.rules b.rules", 0, "", "");
    assert_string_equal(read_text("a.rules"), TIDY);
    assert_string_equal(read_text("b.rules"), "rate a = 1\n");
    assert_int_equal(stat("a.rules", &about), 0);
    assert_int_equal(about.st_mode & 07777, 0640);
    expect_run("groat tidy --check a.rules b.rules", 0, "", "");
    expect_run("ls", 0, "a.rules\nb.rules\nerr\nout\nshop.rules\n", "");
}

static void write_leaves_a_tidy_file_as_it_is(void **state)
{
    (void)state;
    struct stat before, after;
    write_text("a.rules", TIDY);
    assert_int_equal(stat("a.rules", &before), 0);
    expect_run("groat tidy --write a.rules", 0, "", "");
    assert_int_equal(stat("a.rules", &after), 0);
    assert_int_equal(before.st_ino, after.st_ino);
}

static void write_follows_a_link_to_the_file_itself(void **state)
{
    (void)state;
    struct stat about;
    assert_int_equal(mkdir("shelf", 0777), 0);
    write_text("shelf/real.rules", UNTIDY);
    assert_int_equal(symlink("shelf/real.rules", "a.rules"), 0);
    expect_run("groat tidy --write a.rules", 0, "", "");
    assert_string_equal(read_text("shelf/real.rules"), TIDY);
    assert_int_equal(lstat("a.rules", &about), 0);
    assert_true(S_ISLNK(about.st_mode));
}

static void
a_file_that_cannot_be_read_as_rules_stays_and_its_errors_are_those_of_check(void **state)
{
    (void)state;
    write_text("a.rules", BROKEN);
    write_text("b.rules", "rate  a = 1\n");
    expect_run("groat check a.rules", 2, "", NULL);
    char said[1024];
    snprintf(said, sizeof said, "%s", read_text("err"));
    assert_non_null(strstr(said, "a.rules:3:9: error: this ( is not closed"));
    expect_run("groat tidy a.rules", 2, "", said);
    expect_run("groat tidy --check a.rules", 2, "", said);
    expect_run("groat tidy a.rules --output c.rules", 2, "", said);
    assert_int_equal(access("c.rules", F_OK), -1);
    expect_run("groat tidy --write a.rules b.rules", 2, "", said);
    assert_string_equal(read_text("a.rules"), BROKEN);
    assert_string_equal(read_text("b.rules"), "rate a = 1\n");
    expect_run("groat tidy --check b.rules a.rules", 2, "", said);
}

static void rules_whose_names_are_not_known_are_tidied_all_the_same(void **state)
{
    (void)state;
    expect_run("printf 'use  \"gone.rules\"\\nlet a=b\\n' >a.rules; groat tidy a.rules", 0,
               "use \"gone.rules\"\nlet a = b\n", "");
}

static void what_cannot_be_opened_is_told(void **state)
{
    (void)state;
    expect_run("groat tidy gone.rules", 2, "",
               "gone.rules: cannot be read: No such file or directory\n");
    expect_run("groat tidy --write gone.rules", 2, "",
               "gone.rules: cannot be read: No such file or directory\n");
    expect_run("groat tidy --write .", 2, "", ".: cannot be read: Is a directory\n");
    expect_run("groat tidy /dev/zero", 2, "", "/dev/zero: is larger than 4 MB\n");
    write_text("a.rules", UNTIDY);
    expect_run("groat tidy a.rules >/dev/full", 2, NULL,
               "standard output: cannot be written: No space left on device\n");
    expect_run("printf 'rate  a = 1\\n' >b; groat tidy --check b >/dev/full", 2, NULL,
               "standard output: cannot be written: No space left on device\n");
    expect_run("groat tidy a.rules --output gone/b.rules", 2, "",
               "gone/b.rules: cannot be written: No such file or directory\n");
}

/* A file that may not be written, and a folder in which nothing can be made. Who may do anything is
 * not kept out, so these run as someone else then. */
static void a_file_that_may_not_be_written_stays(void **state)
{
    (void)state;
    static const char *const as_other =
        "as() { if [ $(id -u) = 0 ]; then "
        "setpriv --reuid 65534 --regid 65534 --clear-groups "
        "\"$@\"; else \"$@\"; fi; }; cp \"$GROAT\" g; chmod 755 g; ";
    char line[1024];
    write_text("a.rules", UNTIDY);
    assert_int_equal(chmod(folder, 0777), 0);
    assert_int_equal(chmod("a.rules", 0444), 0);
    snprintf(line, sizeof line, "%s as ./g tidy --write a.rules", as_other);
    expect_run(line, 2, "", "a.rules: cannot be written: Permission denied\n");
    assert_int_equal(chmod("a.rules", 0666), 0);
    assert_int_equal(mkdir("shelf", 0777), 0);
    assert_int_equal(rename("a.rules", "shelf/a.rules"), 0);
    assert_int_equal(chmod("shelf", 0555), 0);
    snprintf(line, sizeof line, "%s as ./g tidy --write shelf/a.rules", as_other);
    expect_run(line, 2, "", "shelf/a.rules: cannot be written: Permission denied\n");
    assert_string_equal(read_text("shelf/a.rules"), UNTIDY);
    assert_int_equal(chmod("shelf", 0755), 0);
}

static void a_pipe_is_read_and_never_replaced(void **state)
{
    (void)state;
    assert_int_equal(mkfifo("pipe", 0600), 0);
    expect_run("printf 'rate  a = 1\\n' >pipe & groat tidy pipe", 0, "rate a = 1\n", "");
    expect_run("groat tidy --write pipe", 2, "", "pipe: this file cannot be replaced\n");
    expect_run("printf 'rate  a = 1\\n' | groat tidy /dev/stdin", 0, "rate a = 1\n", "");
}

static void options_that_do_not_go_together_are_told(void **state)
{
    (void)state;
    write_text("a.rules", UNTIDY);
    expect_run("groat tidy --check --write a.rules", 2, "",
               "groat: --check changes nothing, so it cannot be used with --write\n");
    expect_run("groat tidy --check a.rules --output b", 2, "",
               "groat: --check changes nothing, so it cannot be used with --output\n");
    expect_run("groat tidy --write a.rules --output b", 2, "",
               "groat: --write and --output cannot be used together\n");
    expect_run("groat tidy a.rules shop.rules", 2, "",
               "groat: several files need --write or --check\n");
    expect_run("groat tidy", 2, "", "groat: tidy needs a rules file\nTry: groat tidy RULES\n");
    expect_run("groat check shop.rules --write", 2, "", "groat: check takes no --write\n");
    assert_string_equal(read_text("a.rules"), UNTIDY);
}

static void lines_of_a_megabyte_are_tidied(void **state)
{
    (void)state;
    expect_run("much() { head -c 1000000 /dev/zero | tr '\\0' \"$1\"; }\n"
               "{ printf 'warn  \"'; much x; printf '\"  when a'; much ' '; echo '# b'; } >one\n"
               "{ printf 'rate  a = 1 #'; much y; echo; } >>one\n"
               "{ printf 'warn \"'; much x; printf '\" when a  # b\\n'; } >two\n"
               "{ printf 'rate a = 1  #'; much y; echo; } >>two\n"
               "timeout 20 \"$GROAT\" tidy --write one && cmp one two",
               0, "", "");
}

/* Every method with its sheet, its spaces spoilt, tidied: all three print the same prices. */
static void prices_are_the_same_before_and_after(void **state)
{
    (void)state;
    char line[6000];
    snprintf(line, sizeof line,
             "cp -r '%s/rules' was; cp -r was spoilt; cp -r was tidied; count=0\n"
             "for file in $(cd was; echo *.rules */*.rules); do\n"
             "    sed -i 's/^ *//; s/  */ /g; s/ = /=/; s/ \\*/*/g; s/$/\\t/' spoilt/$file\n"
             "    groat tidy --check spoilt/$file >>names && exit 3\n"
             "    groat tidy spoilt/$file --output tidied/$file || exit 4\n"
             "    groat tidy --check tidied/$file || exit 5\n"
             "done\n"
             "for sheet in $(cd was; echo */*.csv); do\n"
             "    rules=$(echo $sheet | sed 's/csv$/rules/; s/products/fernhollow/')\n"
             "    for kind in was spoilt tidied; do\n"
             "        groat check $kind/$rules >$kind.check || exit 6\n"
             "        groat price $kind/$rules $kind/$sheet --format csv >$kind.csv 2>$kind.err\n"
             "        sed -i \"s/$kind//\" $kind.check $kind.err\n"
             "    done\n"
             "    for other in spoilt tidied; do\n"
             "        cmp was.csv $other.csv && cmp was.err $other.err && "
             "cmp was.check $other.check || exit 7\n"
             "    done\n"
             "    test $(grep -c . was.csv) -gt 1 || exit 8\n"
             "    count=$((count + 1))\n"
             "done\n"
             "test $count -ge 9",
             root);
    expect_run(line, 0, "", "");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(the_tidy_text_is_printed_and_the_file_stays),
        TEST(the_tidy_text_goes_to_the_file_that_output_names),
        TEST(check_names_what_is_not_tidy_and_changes_nothing),
        TEST(write_puts_the_tidy_text_in_place_with_the_old_rights),
        TEST(write_leaves_a_tidy_file_as_it_is),
        TEST(write_follows_a_link_to_the_file_itself),
        TEST(a_file_that_cannot_be_read_as_rules_stays_and_its_errors_are_those_of_check),
        TEST(rules_whose_names_are_not_known_are_tidied_all_the_same),
        TEST(what_cannot_be_opened_is_told),
        TEST(a_file_that_may_not_be_written_stays),
        TEST(a_pipe_is_read_and_never_replaced),
        TEST(options_that_do_not_go_together_are_told),
        TEST(lines_of_a_megabyte_are_tidied),
        TEST(prices_are_the_same_before_and_after),
    };
    return RUN_TESTS("groat tidy", tests);
}
