/* Where a list goes: files that are replaced whole, disks without room, readers that go away. */
#include "command/command_checks.h"

static int begin_with_sheet(void **state)
{
    if (test_begin(state) != 0)
        return -1;
    write_text("p.csv", "name,wood\nTray,5\n");
    return 0;
}

/* Names a folder's files, without what `run` writes. */
static void expect_files(const char *expected)
{
    expect_run("ls -A | grep -v -e '^out$' -e '^err$' | tr '\\n' ' '", 0, expected, "");
}

static const char list[] =
    HEADINGS ",notes\nTray,stall,1,10.00,10.00,0.20,0.00,9.80,5.00,4.80,0.4800,4.80,\n";

static void a_list_is_written_to_a_file_and_nothing_is_left_beside_it(void **state)
{
    (void)state;
    expect_run("umask 027; groat price shop.rules p.csv --format csv --output list.csv", 0, "", "");
    assert_string_equal(read_text("list.csv"), list);
    expect_files("list.csv p.csv shop.rules ");
    expect_run("stat -c %a list.csv", 0, "640\n", "");
}

static void an_old_file_keeps_its_permissions_and_its_links(void **state)
{
    (void)state;
    mkdir("shelf", 0777);
    write_text("shelf/real.csv", "old\n");
    assert_int_equal(chmod("shelf/real.csv", 0604), 0);
    assert_int_equal(symlink("shelf/real.csv", "list.csv"), 0);
    expect_run("groat price shop.rules p.csv --format csv --output list.csv", 0, "", "");
    assert_string_equal(read_text("shelf/real.csv"), list);
    expect_run("stat -c '%a %F' list.csv shelf/real.csv", 0,
               "777 symbolic link\n604 regular file\n", "");
}

static void an_old_file_stays_whole_when_the_run_fails(void **state)
{
    (void)state;
    write_text("list.csv", "old\n");
    write_text("bad.csv", "wood\n5\n");
    write_text("bad.rules", "currency USD $\nlet a = b\n");
    expect_run("groat price bad.rules p.csv --output list.csv", 2, "", NULL);
    expect_run("groat price shop.rules bad.csv --output list.csv", 2, "", NULL);
    expect_run("groat price shop.rules p.csv --channel no --output list.csv", 2, "", NULL);
    assert_string_equal(read_text("list.csv"), "old\n");
    expect_files("bad.csv bad.rules list.csv p.csv shop.rules ");
}

/* A limit on the size of files stands for a disk that becomes full on the way. */
static void an_old_file_stays_whole_when_there_is_no_room_for_the_new_one(void **state)
{
    (void)state;
    write_text("list.csv", "old\n");
    expect_run("seq 1 9000 | sed 's/$/,5/; 1i name,wood' >p.csv; "
               "(trap '' XFSZ; ulimit -f 64; "
               "groat price shop.rules p.csv --format csv --output list.csv 2>reason); "
               "echo $?; cat reason | tail -1",
               0, NULL, NULL);
    assert_string_equal(read_text("out"), "2\nlist.csv: cannot be written: File too large\n");
    assert_string_equal(read_text("list.csv"), "old\n");
    expect_files("list.csv p.csv reason shop.rules ");
}

static void products_left_out_do_not_keep_the_others_from_the_file(void **state)
{
    (void)state;
    write_text("p.csv", "name,wood\nBad,oops\nTray,5\n");
    write_text("list.csv", "old\n");
    expect_run("groat price shop.rules p.csv --format csv --output list.csv", 1, "", NULL);
    assert_string_equal(read_text("list.csv"), list);
}

static void a_run_that_is_broken_off_leaves_nothing_beside_the_old_file(void **state)
{
    (void)state;
    write_text("list.csv", "old\n");
    expect_run("seq 1 200000 | sed 's/$/,5/; 1i name,wood' >p.csv\n"
               "\"$GROAT\" price shop.rules p.csv --output list.csv & pid=$!\n"
               "n=0; while [ $n -lt 500 ] && ! ls list.csv.* >/dev/null 2>&1; do sleep 0.01; "
               "n=$((n + 1)); done\n"
               "kill -TERM $pid; wait $pid; echo $?",
               0, "143\n", NULL);
    assert_string_equal(read_text("list.csv"), "old\n");
    expect_files("list.csv p.csv shop.rules ");
}

static void what_is_read_is_never_written_over(void **state)
{
    (void)state;
    expect_run("groat price shop.rules p.csv --output p.csv", 2, "",
               "groat: --output would overwrite p.csv, which this command reads\n");
    expect_run("ln -s shop.rules other; groat price shop.rules p.csv --output ./other", 2, "",
               "groat: --output would overwrite shop.rules, which this command reads\n");
    assert_string_equal(read_text("p.csv"), "name,wood\nTray,5\n");
    assert_string_equal(read_text("shop.rules"), SHOP);
}

static void a_file_that_cannot_be_made_is_told_with_the_reason(void **state)
{
    (void)state;
    expect_run("groat price shop.rules p.csv --output gone/list.csv", 2, "",
               "gone/list.csv: cannot be written: No such file or directory\n");
    expect_run("groat price shop.rules p.csv --output .", 2, "",
               ".: cannot be written: Is a directory\n");
}

static void a_full_disk_is_told_and_is_exit_status_2(void **state)
{
    (void)state;
    static const char *const lines[] = {
        "groat price shop.rules p.csv >/dev/full",
        "groat price shop.rules p.csv --format csv >/dev/full",
        "groat price shop.rules p.csv --format json >/dev/full",
        "groat check shop.rules >/dev/full",
        "groat --help >/dev/full",
        "groat --version >/dev/full",
    };
    for (size_t i = 0; i < sizeof lines / sizeof *lines; i++)
        expect_run(lines[i], 2, "",
                   "standard output: cannot be written: No space left on device\n");
    expect_run("groat price shop.rules p.csv --output /dev/full", 2, "",
               "/dev/full: cannot be written: No space left on device\n");
    expect_run("test -c /dev/full", 0, "", "");
}

static void a_closed_standard_output_is_told(void **state)
{
    (void)state;
    expect_run("groat price shop.rules p.csv >&-", 2, "",
               "standard output: cannot be written: Bad file descriptor\n");
}

/* Enough rows that the pipe is full before the reader goes. */
static void a_reader_that_goes_away_ends_the_run_without_a_word(void **state)
{
    (void)state;
    static const char *const forms[] = {"csv", "json", "table"};
    for (size_t i = 0; i < 3; i++) {
        char line[256];
        snprintf(line, sizeof line,
                 "seq 1 5000 | sed 's/$/,5/; 1i name,wood' >p.csv; "
                 "{ groat price shop.rules p.csv --format %s; echo $? >status; } | head -c 10 "
                 ">/dev/null; cat status",
                 forms[i]);
        expect_run(line, 0, "0\n", "");
    }
}

#define TEST_WITH_SHEET(function)                                                                  \
    cmocka_unit_test_setup_teardown(function, begin_with_sheet, test_end)

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST_WITH_SHEET(a_list_is_written_to_a_file_and_nothing_is_left_beside_it),
        TEST_WITH_SHEET(an_old_file_keeps_its_permissions_and_its_links),
        TEST_WITH_SHEET(an_old_file_stays_whole_when_the_run_fails),
        TEST_WITH_SHEET(an_old_file_stays_whole_when_there_is_no_room_for_the_new_one),
        TEST_WITH_SHEET(products_left_out_do_not_keep_the_others_from_the_file),
        TEST_WITH_SHEET(a_run_that_is_broken_off_leaves_nothing_beside_the_old_file),
        TEST_WITH_SHEET(what_is_read_is_never_written_over),
        TEST_WITH_SHEET(a_file_that_cannot_be_made_is_told_with_the_reason),
        TEST_WITH_SHEET(a_full_disk_is_told_and_is_exit_status_2),
        TEST_WITH_SHEET(a_closed_standard_output_is_told),
        TEST_WITH_SHEET(a_reader_that_goes_away_ends_the_run_without_a_word),
    };
    return RUN_TESTS("output", tests);
}
