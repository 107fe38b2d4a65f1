/* Memory that runs out while a ready-made method is written into a folder: all of it is there
 * afterwards, or none of it, and a run that says it went well has written all. */
#define _POSIX_C_SOURCE 200809L
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include "command/verb.h"
#include "fault/refusing.h"

/* ---- runs ---- */

static char place[] = "/tmp/groat_start_XXXXXX";

static int enter(void **state)
{
    (void)state;
    return mkdtemp(place) && chdir(place) == 0 ? 0 : -1;
}

static int leave(void **state)
{
    (void)state;
    return chdir("/") == 0 && rmdir(place) == 0 ? 0 : -1;
}

/* A run in a process of its own, since it closes standard output. */
struct run {
    int status;
    bool was_refused;
};

static struct run run_start(size_t first, size_t end)
{
    fflush(NULL);
    pid_t child = fork();
    assert_true(child >= 0);
    if (child == 0) {
        struct request request = {.method = "hourly_stall", .folder = "a/b", .currency = "JPY"};
        if (!freopen("/dev/null", "w", stdout) || !freopen("/dev/null", "w", stderr))
            _exit(99);
        refusing.from = first;
        refusing.to = end;
        refusing.on = true;
        int status = (int)verb_start(&request);
        refusing.on = false;
        _exit(status + (refusing.refused > 0 ? 10 : 0));
    }
    int ended;
    assert_int_equal(waitpid(child, &ended, 0), child);
    assert_true(WIFEXITED(ended));
    return (struct run){WEXITSTATUS(ended) % 10, WEXITSTATUS(ended) >= 10};
}

/* Removes what the run left, and returns the number of files and their bytes together. */
static size_t clear(size_t *bytes)
{
    size_t count = 0;
    DIR *folder = opendir("a/b");
    *bytes = 0;
    for (struct dirent *entry; folder && (entry = readdir(folder));) {
        char path[300];
        struct stat about;
        snprintf(path, sizeof path, "a/b/%.255s", entry->d_name);
        if (stat(path, &about) != 0 || !S_ISREG(about.st_mode))
            continue;
        count++;
        *bytes += (size_t)about.st_size;
        assert_int_equal(unlink(path), 0);
    }
    if (folder)
        closedir(folder);
    assert_int_equal(rmdir("a/b"), folder ? 0 : -1);
    assert_int_equal(rmdir("a"), folder ? 0 : -1);
    return count;
}

static void all_is_written_or_nothing(bool once)
{
    size_t whole, bytes, number = 0, without = 0;
    struct run run = run_start(0, 0);
    assert_int_equal(run.status, STATUS_FINE);
    assert_int_equal(clear(&whole), 3);
    do {
        number++;
        run = run_start(number, once ? number + 1 : SIZE_MAX);
        size_t count = clear(&bytes);
        assert_true(run.status == STATUS_FINE || run.status == STATUS_WRONG);
        assert_true((count == 0 && run.status == STATUS_WRONG) || (count == 3 && bytes == whole));
        without += count == 0;
    } while (run.was_refused);
    assert_true(number > 20 && without > 20);
}

static void one_refusal_leaves_all_or_nothing(void **state)
{
    (void)state;
    all_is_written_or_nothing(true);
}

static void no_memory_from_a_call_on_leaves_all_or_nothing(void **state)
{
    (void)state;
    all_is_written_or_nothing(false);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(one_refusal_leaves_all_or_nothing),
        cmocka_unit_test(no_memory_from_a_call_on_leaves_all_or_nothing),
    };
    return cmocka_run_group_tests_name("memory that runs out in start", tests, enter, leave);
}
