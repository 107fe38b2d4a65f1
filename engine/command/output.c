#define _XOPEN_SOURCE 700
#include "command/output.h"

#include <errno.h>
#include <fcntl.h>
#include <libgen.h>
#include <signal.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "command/say.h"

static bool fail(struct output *output, int error)
{
    if (!output->failed && error == ENOMEM)
        say_no_memory();
    else if (!output->failed)
        say("%s: cannot be written: %s", output->name ? output->name : "standard output",
            strerror(error));
    output->failed = true;
    return false;
}

/* ---- a run that is broken off ---- */

/* What a signal must take away, since the run will not come to it. */
static char *volatile unfinished;

static void break_off(int number)
{
    if (unfinished)
        unlink(unfinished);
    raise(number); /* SA_RESETHAND: this time it ends the run */
}

static void watch_signals(void)
{
    static const int numbers[] = {SIGHUP, SIGINT, SIGQUIT, SIGTERM, SIGXCPU, SIGXFSZ};
    struct sigaction before, ours = {.sa_handler = break_off, .sa_flags = (int)SA_RESETHAND};
    sigemptyset(&ours.sa_mask);
    for (size_t i = 0; i < sizeof numbers / sizeof *numbers; i++)
        if (sigaction(numbers[i], NULL, &before) == 0 && before.sa_handler == SIG_DFL)
            sigaction(numbers[i], &ours, NULL);
}

/* ---- a new file beside the old one ---- */

/* What a new file may be used for: as the old one, or as files are made here. */
static mode_t mode_of(const struct stat *old)
{
    if (old)
        return old->st_mode & 07777;
    mode_t mask = umask(0);
    umask(mask);
    return 0666 & ~mask;
}

static bool open_beside(struct output *output, const struct stat *old)
{
    static const char ending[] = ".XXXXXX";
    size_t length = strlen(output->target);
    output->temporary = malloc(length + sizeof ending);
    if (!output->temporary)
        return fail(output, ENOMEM);
    memcpy(output->temporary, output->target, length);
    memcpy(output->temporary + length, ending, sizeof ending);
    int descriptor = mkstemp(output->temporary);
    if (descriptor < 0) {
        int why = errno;
        free(output->temporary);
        output->temporary = NULL;
        return fail(output, why);
    }
    unfinished = output->temporary;
    watch_signals();
    output->stream = fchmod(descriptor, mode_of(old)) == 0 ? fdopen(descriptor, "w") : NULL;
    if (output->stream)
        return true;
    fail(output, errno);
    close(descriptor);
    return false;
}

static bool open_file(struct output *output)
{
    struct stat old;
    bool exists = stat(output->name, &old) == 0;
    if (exists && S_ISDIR(old.st_mode))
        return fail(output, EISDIR);
    if (exists && !S_ISREG(old.st_mode)) { /* a device or a pipe is not replaced */
        output->stream = fopen(output->name, "w");
        return output->stream || fail(output, errno);
    }
    output->target = exists ? realpath(output->name, NULL) : strdup(output->name);
    if (!output->target)
        return fail(output, errno);
    return open_beside(output, exists ? &old : NULL);
}

static void drop(struct output *output)
{
    unfinished = NULL;
    if (output->temporary)
        unlink(output->temporary);
    free(output->temporary);
    free(output->target);
    output->temporary = output->target = NULL;
}

bool output_open(struct output *output, const char *name)
{
    *output = (struct output){.stream = stdout, .name = name};
    if (!name || open_file(output))
        return true;
    drop(output);
    output->stream = NULL;
    return false;
}

bool output_failed(struct output *output)
{
    output->gone = output->gone || errno == EPIPE;
    return errno == EPIPE || errno == ECANCELED ? false : fail(output, errno);
}

/* So that the new name is on the disk too; a folder that cannot be synced is no failure. */
static void sync_folder(const char *target)
{
    char *copy = strdup(target);
    int folder = copy ? open(dirname(copy), O_RDONLY | O_DIRECTORY | O_CLOEXEC) : -1;
    if (folder >= 0) {
        fsync(folder);
        close(folder);
    }
    free(copy);
}

static void close_stream(struct output *output)
{
    bool ended = fflush(output->stream) == 0;
    if (ended && output->temporary)
        ended = fsync(fileno(output->stream)) == 0;
    if (!ended)
        output_failed(output);
    if (fclose(output->stream) != 0 && ended)
        output_failed(output);
}

enum status output_finish(struct output *output, enum status status)
{
    close_stream(output);
    bool replace = status != STATUS_WRONG && !output->failed && output->temporary;
    if (replace && rename(output->temporary, output->target) == 0) {
        unfinished = NULL;
        free(output->temporary);
        output->temporary = NULL;
        sync_folder(output->target);
    } else if (replace) {
        fail(output, errno);
    }
    drop(output);
    return output->failed ? STATUS_WRONG : status;
}

enum status output_text(const char *name, groat_text text, enum status status)
{
    struct output output;
    if (!output_open(&output, name))
        return STATUS_WRONG;
    if (fwrite(text.start, 1, text.length, output.stream) != text.length)
        output_failed(&output);
    return output_finish(&output, status);
}
