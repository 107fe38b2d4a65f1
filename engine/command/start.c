/* groat start: a ready-made method, written into a folder of the maker's in the maker's
 * currency. */
#define _POSIX_C_SOURCE 200809L
#include <assert.h>
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "command/folder.h"
#include "command/next_steps.h"
#include "command/output.h"
#include "command/ready.h"
#include "command/rules.h"
#include "command/say.h"
#include "command/shell.h"
#include "command/tender.h"
#include "command/verb.h"

/* ---- the list of methods ---- */

static void write_method(FILE *stream, const struct ready_method *method)
{
    const char *channels = method->channels[0] ? method->channels : "one price for every buyer";
    fprintf(stream, "  %-14s  %s\n  %14s  %s\n", method->name, method->summary, "", channels);
}

static enum status list_methods(void)
{
    struct output output;
    if (!output_open(&output, NULL))
        return STATUS_WRONG;
    fputs("Ready-made methods, each with the channels that it sells on:\n", output.stream);
    for (size_t i = 0; i < ready_methods_count; i++)
        write_method(output.stream, &ready_methods[i]);
    fputs("\nTo write one into a folder, in your currency:\n"
          "  groat start hourly_stall my_shop --currency EUR\n",
          output.stream);
    return output_finish(&output, STATUS_FINE);
}

static const struct ready_method *find_method(const char *name)
{
    for (size_t i = 0; i < ready_methods_count; i++)
        if (strcmp(ready_methods[i].name, name) == 0)
            return &ready_methods[i];
    return NULL;
}

static groat_text method_name(void *context, size_t index)
{
    (void)context;
    return (groat_text){ready_methods[index].name, strlen(ready_methods[index].name)};
}

static void say_no_method(const struct request *request)
{
    say("groat: there is no ready-made method %s", request->method);
    if (request->folder && find_method(request->folder)) {
        say("Try: groat start %s %s", request->folder, request->method);
        return;
    }
    struct say_names names = {ready_methods_count, method_name, NULL, false};
    say_try_names(&names, request->method, "groat: the methods are", ready_methods_count);
}

/* ---- the files of a method ---- */

/* The most files that a method may have. */
enum { FILES_MOST = 8 };

/* A method's own rules, its sheet, and the rules that it uses, in this order. */
struct bundle {
    struct tender tender;
    struct new_file files[FILES_MOST];
    struct bytes texts[FILES_MOST]; /* what the files hold */
    size_t count;
};

static void bundle_free(struct bundle *bundle)
{
    folder_free(bundle->files, bundle->count);
    for (size_t i = 0; i < bundle->count; i++)
        bytes_free(&bundle->texts[i]);
}

static const struct ready_file *find_file(const char *name)
{
    for (size_t i = 0; i < ready_files_count; i++)
        if (strcmp(ready_files[i].name, name) == 0)
            return &ready_files[i];
    return NULL;
}

/* Lays rules out anew, since their amounts are of other widths now. */
static bool tidy(struct bytes *text)
{
    groat_tidied *tidied = groat_tidy(NULL, (groat_text){text->start, text->length}, NULL, NULL);
    if (!tidied)
        return false;
    groat_text tidy = groat_tidied_text(tidied);
    text->length = 0;
    bytes_put(text, tidy.start, tidy.length);
    groat_tidied_free(tidied);
    return !text->failed;
}

/* Adds a file that the command has; `rules` says that it is no sheet. NULL without memory. */
static const struct new_file *add_file(struct bundle *bundle, const char *name, bool rules)
{
    const struct ready_file *ready = find_file(name);
    assert(ready && bundle->count < FILES_MOST);
    struct bytes *text = &bundle->texts[bundle->count];
    struct new_file *file = &bundle->files[bundle->count++];
    tender_write(&bundle->tender, text, ready->text);
    if (text->failed || (rules && !tidy(text)))
        return NULL;
    *file = (struct new_file){.name = ready->name, .bytes = text->start, .length = text->length};
    return file;
}

/* Adds the files that a `use` names, as the method is read. */
static bool load(void *context, const char *name, const char *from, const char **full_name,
                 groat_text *text)
{
    (void)from;
    const struct new_file *file = add_file(context, name, true);
    if (!file)
        return false;
    *full_name = file->name;
    *text = (groat_text){file->bytes, file->length};
    return true;
}

/* Fills the bundle, and returns the method that it makes; NULL, and says why, without memory. */
static groat_method *read_bundle(struct bundle *bundle, const char *name)
{
    char rules[64], sheet[64];
    snprintf(rules, sizeof rules, "%s.rules", name);
    snprintf(sheet, sizeof sheet, "%s.csv", name);
    const struct new_file *first = add_file(bundle, rules, true);
    groat_report *report = NULL;
    groat_method *method = NULL;
    if (first && add_file(bundle, sheet, false)) {
        groat_reading reading = {.loader = load, .loader_context = bundle};
        groat_text text = {first->bytes, first->length};
        method = groat_method_read(first->name, text, &reading, &report);
    }
    if (!method)
        say_no_memory();
    groat_report_free(report);
    return method;
}

/* ---- writing it ---- */

/* Proposes the same command with another folder. */
static void say_folder(const struct request *request, const char *folder)
{
    struct bytes command = {0};
    bytes_text(&command, "groat start ");
    bytes_text(&command, request->method);
    bytes_char(&command, ' ');
    shell_path(&command, folder);
    if (request->currency) {
        bytes_text(&command, " --currency ");
        bytes_text(&command, request->currency);
    }
    bytes_char(&command, '\0');
    say_try(command.failed ? NULL : command.start);
    bytes_free(&command);
}

/* Proposes a folder that is not there yet: my_shop_2. */
static void say_free_folder(const struct request *request)
{
    enum { NUMBER_MOST = 99 };
    size_t length = strlen(request->folder), size = length + sizeof "_99";
    while (length > 1 && request->folder[length - 1] == '/')
        length--;
    char *folder = malloc(size);
    for (int number = 2; folder && number <= NUMBER_MOST; number++) {
        snprintf(folder, size, "%.*s_%d", (int)length, request->folder, number);
        if (folder_exists(folder))
            continue;
        say_folder(request, folder);
        break;
    }
    free(folder);
}

static enum status write_bundle(const struct request *request, struct bundle *bundle,
                                const groat_method *method)
{
    switch (folder_write(request->folder, bundle->files, bundle->count)) {
    case FOLDER_FAILED: return STATUS_WRONG;
    case FOLDER_TAKEN: say_free_folder(request); return STATUS_WRONG;
    case FOLDER_WRITTEN: break;
    }
    struct output output;
    if (!output_open(&output, NULL))
        return STATUS_WRONG;
    struct next_steps next = {.folder = request->folder,
                              .tender = &bundle->tender,
                              .currency_given = request->currency != NULL,
                              .files = bundle->files,
                              .count = bundle->count,
                              .method = method};
    struct bytes text = {0};
    next_steps_write(&text, &next);
    errno = ENOMEM;
    if (text.failed || fwrite(text.start, 1, text.length, output.stream) != text.length)
        output_failed(&output);
    bytes_free(&text);
    return output_finish(&output, STATUS_FINE);
}

enum status verb_start(const struct request *request)
{
    struct bundle bundle = {0};
    if (!tender_read(&bundle.tender, request->currency ? request->currency : "USD"))
        return STATUS_WRONG;
    if (!request->method)
        return list_methods();
    if (!find_method(request->method)) {
        say_no_method(request);
        return STATUS_WRONG;
    }
    if (!request->folder || !*request->folder) {
        say("groat: start needs a folder to write the method into");
        say("Try: groat start %s my_shop", request->method);
        return STATUS_WRONG;
    }
    groat_method *method = read_bundle(&bundle, request->method);
    enum status status = method ? write_bundle(request, &bundle, method) : STATUS_WRONG;
    groat_method_free(method);
    bundle_free(&bundle);
    return status;
}
