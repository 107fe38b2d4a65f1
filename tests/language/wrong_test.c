/* Everything Groat has to say about wrong rules, as a maker reads it.
 *
 * Each file of tests/language/wrong is one slip, named after it; beside it stands what is said, in a
 * text file of the same name. Files that a slip needs for its `use` stand in wrong/used.
 *
 * After a change of a message, `REWRITE=1 build/tests/language/wrong_test` writes the texts anew.
 * Read the difference before you keep it: is the place right, is the marked span right, is the
 * message true, does what stands after Try work when it is typed, and does nothing follow that the
 * maker need not mend?
 *
 * To be run from the top of the repository. */
#define _POSIX_C_SOURCE 200809L

#include <ctype.h>
#include <dirent.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "groat.h"
#include "language/messages.h"
#include "language/text_file.h"

#define FOLDER "tests/language/wrong/"

enum { PAIRS_LEAST = 75, NAME_MOST = 128 };

/* ---- the files ---- */

struct names {
    char (*items)[NAME_MOST];
    size_t count;
};

static int by_name(const void *a, const void *b)
{
    return strcmp(a, b);
}

/* The names in the folder that end so, without the ending, in the order of the alphabet. */
static struct names names_with(const char *ending)
{
    struct names names = {0};
    DIR *folder = opendir(FOLDER);
    assert_non_null(folder);
    for (struct dirent *entry = readdir(folder); entry; entry = readdir(folder)) {
        size_t length = strlen(entry->d_name), tail = strlen(ending);
        if (length <= tail || strcmp(entry->d_name + length - tail, ending) != 0)
            continue;
        assert_true(length < NAME_MOST);
        names.items = realloc(names.items, (names.count + 1) * sizeof *names.items);
        assert_non_null(names.items);
        memset(names.items[names.count], 0, sizeof *names.items);
        memcpy(names.items[names.count++], entry->d_name, length - tail);
    }
    closedir(folder);
    if (names.count > 0)
        qsort(names.items, names.count, sizeof *names.items, by_name);
    return names;
}

static bool is_among(const struct names *names, const char *name)
{
    for (size_t i = 0; i < names->count; i++)
        if (strcmp(names->items[i], name) == 0)
            return true;
    return false;
}

/* ---- what is said of a file ---- */

/* Files that meet a limit, which is then made small enough for a small file. */
static const struct {
    const char *name;
    size_t limit; /* its place in groat_limits */
    size_t most;
} limited[] = {
    {"file_too_large", offsetof(groat_limits, source_bytes), 40},
    {"used_file_too_large", offsetof(groat_limits, source_bytes), 150},
    {"too_many_definitions", offsetof(groat_limits, definitions), 4},
    {"too_many_table_rows", offsetof(groat_limits, table_rows), 2},
    {"too_many_bands", offsetof(groat_limits, table_rows), 2},
    {"nested_too_deep", offsetof(groat_limits, nesting), 8},
    {"definitions_lean_too_deep", offsetof(groat_limits, nesting), 8},
    {"channels_lean_too_deep", offsetof(groat_limits, nesting), 12},
    {"parentheses_without_end", offsetof(groat_limits, nesting), 100000},
    {"too_many_steps", offsetof(groat_limits, steps), 60},
    {"expects_take_too_many_steps", offsetof(groat_limits, steps), 110},
    {"number_too_long", offsetof(groat_limits, number_bits), 128},
    {"rate_too_large_to_work_out", offsetof(groat_limits, number_bits), 128},
};

static groat_limits limits_for(const char *name)
{
    groat_limits limits = groat_limits_default();
    for (size_t i = 0; i < sizeof limited / sizeof *limited; i++)
        if (strcmp(limited[i].name, name) == 0)
            memcpy((char *)&limits + limited[i].limit, &limited[i].most, sizeof limited[i].most);
    return limits;
}

/* Texts that a reading was handed live until it ends. */
enum { FILES_MOST = 256 };
struct loaded {
    struct text_file files[FILES_MOST];
    char names[FILES_MOST][NAME_MOST];
    size_t count;
};

/* A text of one line repeated, with a number in it. */
static struct text_file numbered(const char *before, const char *behind, unsigned from, unsigned to)
{
    struct text_file file = {0};
    size_t room = (strlen(before) + strlen(behind) + 12) * (to - from + 1) + 1;
    file.text = malloc(room);
    assert_non_null(file.text);
    for (unsigned i = from; i <= to; i++)
        file.length += (size_t)snprintf(file.text + file.length, room - file.length, "%s%u%s\n",
                                        before, i, behind);
    return file;
}

/* What is too large to be kept as a file: `endless/7.rules` uses `endless/8.rules`, and so on. */
static bool make_file(const char *name, struct text_file *file)
{
    unsigned number;
    if (sscanf(name, "endless/%u.rules", &number) == 1)
        *file = numbered("use \"endless/", ".rules\"", number + 1, number + 1);
    else if (strcmp(name, "thousand/units.rules") == 0)
        *file = numbered("unit crate_", " = 3 kg", 1, 1001);
    else if (strcmp(name, "thousand/channels.rules") == 0)
        *file = numbered("channel stall_", " { }", 1, 1001);
    return file->text != NULL;
}

static bool load(void *context, const char *name, const char *from, const char **full_name,
                 groat_text *text)
{
    (void)from;
    struct loaded *loaded = context;
    char path[sizeof FOLDER + NAME_MOST];
    if (loaded->count == FILES_MOST || strlen(name) >= NAME_MOST)
        return false;
    struct text_file *file = &loaded->files[loaded->count];
    *file = (struct text_file){0};
    snprintf(path, sizeof path, "%s%s", FOLDER, name);
    if (!make_file(name, file) && !text_file_read(path, file))
        return false;
    strcpy(loaded->names[loaded->count], name);
    *full_name = loaded->names[loaded->count++];
    *text = (groat_text){file->text, file->length};
    return true;
}

static void append_report(struct text_file *out, const groat_report *report)
{
    for (size_t i = 0; i < groat_report_count(report); i++) {
        const groat_diagnostic *diagnostic = groat_report_at(report, i);
        size_t length = groat_diagnostic_write(diagnostic, NULL, 0);
        out->text = realloc(out->text, out->length + length + 1);
        assert_non_null(out->text);
        groat_diagnostic_write(diagnostic, out->text + out->length, length + 1);
        out->length += length;
    }
}

/* What reading the file says, and its expects when it can be read. */
static struct text_file said_of(const char *name)
{
    char path[sizeof FOLDER + NAME_MOST + 8], base[NAME_MOST + 8];
    struct text_file rules, said = {0};
    snprintf(path, sizeof path, "%s%s.rules", FOLDER, name);
    snprintf(base, sizeof base, "%s.rules", name);
    assert_true(text_file_read(path, &rules));
    groat_limits limits = limits_for(name);
    static struct loaded loaded;
    loaded.count = 0;
    groat_reading reading = {.limits = &limits, .loader = load, .loader_context = &loaded};
    groat_report *report;
    groat_method *method =
        groat_method_read(base, (groat_text){rules.text, rules.length}, &reading, &report);
    assert_non_null(report);
    assert_int_equal(method == NULL, groat_report_errors(report) > 0);
    append_report(&said, report);
    groat_report_free(report);
    if (method) {
        report = groat_method_check(method, NULL);
        assert_non_null(report);
        append_report(&said, report);
        groat_report_free(report);
        groat_method_free(method);
    }
    for (size_t i = 0; i < loaded.count; i++)
        free(loaded.files[i].text);
    free(rules.text);
    return said;
}

/* ---- comparing ---- */

static bool same_text(const struct text_file *a, const struct text_file *b)
{
    return a->length == b->length && (a->length == 0 || memcmp(a->text, b->text, a->length) == 0);
}

static size_t line_length(const struct text_file *file, size_t at)
{
    size_t length = 0;
    while (at + length < file->length && file->text[at + length] != '\n')
        length++;
    return length;
}

static void print_line(const char *mark, const struct text_file *file, size_t *at)
{
    size_t length = line_length(file, *at);
    fprintf(stderr, "  %s %.*s\n", mark, (int)length, file->text + *at);
    *at += length + 1;
}

/* Line beside line; what is the same in both is printed once. */
static void print_difference(const char *name, const struct text_file *wanted,
                             const struct text_file *said)
{
    fprintf(stderr, "\n" FOLDER "%s.rules: '-' is in the text file, '+' is said now\n", name);
    size_t a = 0, b = 0;
    while (a < wanted->length || b < said->length) {
        size_t length = a < wanted->length ? line_length(wanted, a) : SIZE_MAX;
        bool same = a < wanted->length && b < said->length && length == line_length(said, b) &&
                    memcmp(wanted->text + a, said->text + b, length) == 0;
        if (same) {
            print_line(" ", wanted, &a);
            b += length + 1;
            continue;
        }
        if (a < wanted->length)
            print_line("-", wanted, &a);
        if (b < said->length)
            print_line("+", said, &b);
    }
}

static bool rewrites(void)
{
    const char *asked = getenv("REWRITE");
    return asked && strcmp(asked, "1") == 0;
}

static void golden_path(char *path, size_t size, const char *name)
{
    snprintf(path, size, "%s%s.txt", FOLDER, name);
}

/* Whether what is said is what stands in the text file. */
static bool is_said(const char *name)
{
    char path[sizeof FOLDER + NAME_MOST + 8];
    golden_path(path, sizeof path, name);
    struct text_file said = said_of(name), wanted = {0};
    if (rewrites())
        text_file_write(path, &said);
    bool there = text_file_read(path, &wanted);
    bool same = there && said.length > 0 && same_text(&wanted, &said);
    if (said.length == 0)
        fprintf(stderr, "\n" FOLDER "%s.rules: nothing is said of it\n", name);
    else if (!there)
        fprintf(stderr, "\n" FOLDER "%s.txt is missing\n", name);
    if (!same && said.length > 0)
        print_difference(name, &wanted, &said);
    free(said.text);
    free(wanted.text);
    return same;
}

/* ---- the tests ---- */

static void every_slip_is_said_as_its_text_file_shows(void **state)
{
    (void)state;
    struct names rules = names_with(".rules");
    size_t different = 0;
    for (size_t i = 0; i < rules.count; i++)
        different += !is_said(rules.items[i]);
    free(rules.items);
    assert_int_equal(different, 0);
}

static void there_are_many_slips(void **state)
{
    (void)state;
    struct names rules = names_with(".rules");
    free(rules.items);
    assert_true(rules.count >= PAIRS_LEAST);
}

static void a_limit_is_made_small_for_rules_that_exist(void **state)
{
    (void)state;
    struct names rules = names_with(".rules");
    for (size_t i = 0; i < sizeof limited / sizeof *limited; i++)
        assert_true(is_among(&rules, limited[i].name));
    free(rules.items);
}

static void slips_without_end_are_cut_short(void **state)
{
    (void)state;
    struct text_file rules = numbered("cost wood_", " = unknown", 1, 1000);
    groat_report *report;
    groat_method *method =
        groat_method_read("long.rules", (groat_text){rules.text, rules.length}, NULL, &report);
    assert_null(method);
    assert_non_null(report);
    size_t count = groat_report_count(report);
    assert_in_range(count, 100, 300);
    assert_non_null(strstr(groat_report_at(report, count - 1)->message, "correct the above first"));
    groat_report_free(report);
    free(rules.text);
}

static void every_text_file_has_its_rules(void **state)
{
    (void)state;
    struct names rules = names_with(".rules"), texts = names_with(".txt");
    size_t alone = 0;
    for (size_t i = 0; i < texts.count; i++) {
        if (is_among(&rules, texts.items[i]))
            continue;
        fprintf(stderr, "\n" FOLDER "%s.txt has no rules beside it\n", texts.items[i]);
        alone++;
    }
    free(rules.items);
    free(texts.items);
    assert_int_equal(alone, 0);
}

/* Otherwise nobody has read it as a maker does. */
static void every_message_of_the_sources_is_met_by_some_slip(void **state)
{
    (void)state;
    struct messages messages;
    messages_gather(&messages);
    assert_true(messages.count > 100);
    struct names texts = names_with(".txt");
    for (size_t i = 0; i < texts.count; i++) {
        char path[sizeof FOLDER + NAME_MOST + 8];
        struct text_file golden;
        golden_path(path, sizeof path, texts.items[i]);
        assert_true(text_file_read(path, &golden));
        messages_meet(&messages, golden.text);
        free(golden.text);
    }
    free(texts.items);
    size_t wrong = messages_print_wrong(&messages);
    messages_free(&messages);
    assert_int_equal(wrong, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_slip_is_said_as_its_text_file_shows),
        cmocka_unit_test(there_are_many_slips),
        cmocka_unit_test(every_text_file_has_its_rules),
        cmocka_unit_test(a_limit_is_made_small_for_rules_that_exist),
        cmocka_unit_test(slips_without_end_are_cut_short),
        cmocka_unit_test(every_message_of_the_sources_is_met_by_some_slip),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
