/* Wrong sheets, each with all that the command says of it in a golden file beside it.
 *
 * tests/sheets/wrong/NAME is priced by shop.rules of that folder; NAME.txt holds the exit status,
 * then standard error, then the list that came all the same. REWRITE=1 writes the goldens anew: read
 * the difference before it is kept. The command is build/checked/groat, or what GROAT names. */
#define _XOPEN_SOURCE 700
#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>

#include <cmocka.h>
#include <dirent.h>

#define FOLDER "tests/sheets/wrong"

enum { SHEETS_LEAST = 30, TEXT_MOST = 1 << 16 };

static bool ends_in(const char *name, const char *ending)
{
    size_t length = strlen(name), tail = strlen(ending);
    return length > tail && strcmp(name + length - tail, ending) == 0;
}

static int is_sheet(const struct dirent *entry)
{
    static const char *const endings[] = {".csv", ".tsv", ".json", ".ndjson"};
    for (size_t i = 0; i < sizeof endings / sizeof *endings; i++)
        if (ends_in(entry->d_name, endings[i]))
            return 1;
    return 0;
}

/* What the command says of a sheet, run in its folder so that the messages name no path. */
static void say_of(const char *sheet, char *text)
{
    const char *groat = getenv("GROAT") ? getenv("GROAT") : "build/checked/groat";
    char line[1024];
    snprintf(line, sizeof line,
             "here=$(pwd); case '%s' in /*) g='%s';; *) g=\"$here/%s\";; esac; cd " FOLDER
             "; list=$(\"$g\" price shop.rules '%s' --format csv 2>&1 >/dev/null); status=$?; "
             "echo \"exit status $status\"; echo \"$list\"; "
             "\"$g\" price shop.rules '%s' --format csv 2>/dev/null",
             groat, groat, groat, sheet, sheet);
    FILE *pipe = popen(line, "r");
    assert_non_null(pipe);
    text[fread(text, 1, TEXT_MOST - 1, pipe)] = '\0';
    assert_int_equal(WEXITSTATUS(pclose(pipe)) <= 2, 1);
}

static void golden_name(const char *sheet, char *name, size_t size)
{
    snprintf(name, size, FOLDER "/%s.txt", sheet);
}

static void read_golden(const char *sheet, char *text)
{
    char name[512];
    golden_name(sheet, name, sizeof name);
    FILE *file = fopen(name, "rb");
    text[0] = '\0';
    if (!file)
        return;
    text[fread(text, 1, TEXT_MOST - 1, file)] = '\0';
    fclose(file);
}

static void write_golden(const char *sheet, const char *text)
{
    char name[512];
    golden_name(sheet, name, sizeof name);
    FILE *file = fopen(name, "wb");
    assert_non_null(file);
    fputs(text, file);
    fclose(file);
}

static void every_wrong_sheet_says_what_its_golden_says(void **state)
{
    (void)state;
    static char said[TEXT_MOST], wanted[TEXT_MOST];
    struct dirent **sheets;
    int count = scandir(FOLDER, &sheets, is_sheet, alphasort), differing = 0;
    for (int i = 0; i < count; i++) {
        say_of(sheets[i]->d_name, said);
        if (getenv("REWRITE"))
            write_golden(sheets[i]->d_name, said);
        read_golden(sheets[i]->d_name, wanted);
        if (strcmp(said, wanted) != 0) {
            print_message("%s says\n%s\nand not\n%s\n", sheets[i]->d_name, said, wanted);
            differing++;
        }
        if (strncmp(said, "exit status 0", strlen("exit status 0")) == 0) {
            print_message("%s is not wrong\n", sheets[i]->d_name);
            differing++;
        }
        free(sheets[i]);
    }
    free(sheets);
    assert_int_equal(differing, 0);
    assert_true(count >= SHEETS_LEAST);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_wrong_sheet_says_what_its_golden_says),
    };
    return cmocka_run_group_tests_name("wrong sheets", tests, NULL, NULL);
}
