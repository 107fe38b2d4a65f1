/* What the tests of the command share: a folder of its own for each test, files in it, and running
 * the command there through the shell, as a maker would. The command is build/checked/groat, or what
 * the environment variable GROAT names; tests start at the root of the repository. */
#ifndef GROAT_COMMAND_CHECKS_H
#define GROAT_COMMAND_CHECKS_H

#ifndef _XOPEN_SOURCE
#define _XOPEN_SOURCE 700
#endif

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>
#include <cmocka.h>

static char folder[64];
static char root[4096];

/* A text in a file of the test's folder. */
static inline void write_text(const char *name, const char *text)
{
    FILE *file = fopen(name, "wb");
    assert_non_null(file);
    assert_int_equal(fwrite(text, 1, strlen(text), file), strlen(text));
    assert_int_equal(fclose(file), 0);
}

/* What a file of the test's folder says; until the next call but three. */
static inline const char *read_text(const char *name)
{
    static char texts[4][1 << 16];
    static unsigned turn;
    char *text = texts[turn++ % 4];
    FILE *file = fopen(name, "rb");
    if (!file)
        fail_msg("there is no file %s", name);
    size_t length = fread(text, 1, sizeof texts[0] - 1, file);
    text[length] = '\0';
    fclose(file);
    return text;
}

/* Runs a line of the shell, in which `groat` is the command. Its status is returned; what it
 * printed is in the files `out` and `err`. */
static inline int run(const char *line)
{
    char whole[8192];
    int length =
        snprintf(whole, sizeof whole, "groat() { \"$GROAT\" \"$@\"; }; { %s\n} >out 2>err", line);
    assert_true(length > 0 && (size_t)length < sizeof whole);
    int status = system(whole);
    assert_true(WIFEXITED(status));
    return WEXITSTATUS(status);
}

/* Runs a line and holds it to its status and to the whole of what it prints on each stream. NULL:
 * whatever it is. */
static inline void expect_run(const char *line, int status, const char *out, const char *err)
{
    int found = run(line);
    const char *found_err = read_text("err");
    if (found != status)
        fail_msg("%s: ended with %d, not %d, and said: %s", line, found, status, found_err);
    if (out)
        assert_string_equal(read_text("out"), out);
    if (err)
        assert_string_equal(found_err, err);
}

static inline int group_begin(void **state)
{
    (void)state;
    const char *given = getenv("GROAT");
    char *whole = realpath(given ? given : "build/checked/groat", NULL);
    if (!whole || !getcwd(root, sizeof root)) {
        fprintf(stderr, "there is no command to test: make build/checked/groat\n");
        return -1;
    }
    int failed = setenv("GROAT", whole, 1);
    unsetenv("NO_COLOR");
    free(whole);
    return failed;
}

/* A shop that is priced by hand in a glance: twice the cost, to the dollar. */
#define SHOP                                                                                       \
    "currency USD $\n"                                                                             \
    "product {\n"                                                                                  \
    "    name text\n"                                                                              \
    "    work time as min = 0 min\n"                                                               \
    "    wood money = $0\n"                                                                        \
    "    parcel mass as g optional\n"                                                              \
    "}\n"                                                                                          \
    "rate hourly = $30 per h\n"                                                                    \
    "cost material = wood\n"                                                                       \
    "pay hands = work * hourly\n"                                                                  \
    "price {\n"                                                                                    \
    "    set cost * 2\n"                                                                           \
    "    round to $1\n"                                                                            \
    "}\n"                                                                                          \
    "channel stall {\n"                                                                            \
    "    fee card = 2% of price\n"                                                                 \
    "}\n"                                                                                          \
    "channel post {\n"                                                                             \
    "    only when (parcel otherwise 0 g) > 0 g\n"                                                 \
    "    refuse \"too heavy to post\" when parcel > 5 kg\n"                                        \
    "}\n"

static inline int test_begin(void **state)
{
    (void)state;
    snprintf(folder, sizeof folder, "/tmp/groat_test_XXXXXX");
    if (!mkdtemp(folder) || chdir(folder) != 0)
        return -1;
    write_text("shop.rules", SHOP);
    return 0;
}

static inline int test_end(void **state)
{
    (void)state;
    char line[128];
    snprintf(line, sizeof line, "rm -rf %s", folder);
    return chdir(root) != 0 || system(line) != 0;
}

#define TEST(function) cmocka_unit_test_setup_teardown(function, test_begin, test_end)
#define RUN_TESTS(name, tests) cmocka_run_group_tests_name(name, tests, group_begin, NULL)

#define HEADINGS "product,channel,quantity,list,price,fees,tax,keep,cost,profit,margin,take_home"

#endif
