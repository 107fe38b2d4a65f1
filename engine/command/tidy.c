/* groat tidy: rules in the one layout. */
#define _POSIX_C_SOURCE 200809L
#include <errno.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "command/file.h"
#include "command/output.h"
#include "command/rules.h"
#include "command/say.h"
#include "command/verb.h"

/* NULL, and said why, when the text cannot be read. */
static groat_tidied *tidy_text(const char *name, const struct file *file)
{
    groat_report *report;
    groat_tidied *tidied = groat_tidy(name, (groat_text){file->bytes, file->length}, NULL, &report);
    if (report)
        rules_say(report);
    else
        say_no_memory();
    groat_report_free(report);
    return tidied;
}

/* A file that may not be written is not replaced either, though its folder would allow it. */
static bool can_be_replaced(const char *name)
{
    struct stat about;
    if (file_is_standard(name)) {
        say("groat: --write replaces files, and - is standard input");
        return false;
    }
    if (stat(name, &about) == 0 && !S_ISREG(about.st_mode) && !S_ISDIR(about.st_mode)) {
        say("%s: this file cannot be replaced", name);
        return false;
    }
    if (access(name, W_OK) == 0 || errno == ENOENT)
        return true; /* or reading says why not */
    say("%s: cannot be written: %s", name, strerror(errno));
    return false;
}

/* What is to be done with one file; `out` takes the names of those that are not tidy. */
static enum status tidy_one(const struct request *request, const char *name, struct output *out)
{
    struct file file;
    const char *called = file_called(name);
    if (request->write && !can_be_replaced(name))
        return STATUS_WRONG;
    if (!file_read(&file, name, true, groat_limits_default().source_bytes)) {
        say("%s: %s", called, file.why);
        return STATUS_WRONG;
    }
    enum status status = STATUS_WRONG;
    groat_tidied *tidied = tidy_text(called, &file);
    if (tidied) {
        groat_text text = groat_tidied_text(tidied);
        bool tidy = text.length == file.length && memcmp(text.start, file.bytes, text.length) == 0;
        status = STATUS_FINE;
        if (request->check && !tidy) {
            fprintf(out->stream, "%s\n", called);
            status = STATUS_PARTLY;
        } else if (!request->check && !(request->write && tidy)) {
            status = output_text(request->write ? name : request->output, text, STATUS_FINE);
        }
    }
    groat_tidied_free(tidied);
    file_free(&file);
    return status;
}

static enum status worse(enum status one, enum status other)
{
    return one > other ? one : other;
}

static enum status tidy_all(const struct request *request, struct output *out)
{
    enum status status = STATUS_FINE;
    for (size_t i = 0; i < request->rules_count; i++)
        status = worse(status, tidy_one(request, request->all_rules[i], out));
    return status;
}

/* Whether the options go together. */
static bool is_clear(const struct request *request)
{
    const char *other = request->write ? "--write" : "--output";
    if (request->check && (request->write || request->output))
        say("groat: --check changes nothing, so it cannot be used with %s", other);
    else if (request->write && request->output)
        say("groat: --write and --output cannot be used together");
    else if (request->rules_count > 1 && !request->check && !request->write)
        say("groat: several files need --write or --check");
    else
        return true;
    return false;
}

enum status verb_tidy(const struct request *request)
{
    if (!is_clear(request))
        return STATUS_WRONG;
    if (!request->check)
        return tidy_all(request, NULL);
    struct output output;
    if (!output_open(&output, NULL))
        return STATUS_WRONG;
    enum status status = tidy_all(request, &output);
    return worse(status, output_finish(&output, STATUS_FINE));
}
