#include "command/rules.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "command/apart.h"
#include "command/file.h"
#include "command/say.h"
#include "mend/mend.h"

/* A rules file and what it is called in messages: for the first as the user gave it, for one that
 * is used the folder of the file that uses it and the name it says. */
struct source {
    struct file file;
    char *name;
};

/* The files of a method; they stay until it is read. */
struct sources {
    struct source *items;
    size_t count;
    size_t most; /* bytes of one */
    bool quiet;  /* while proposals are tried, which may name files that are not there */
};

static void sources_free(struct sources *sources)
{
    for (size_t i = 0; i < sources->count; i++) {
        file_free(&sources->items[i].file);
        free(sources->items[i].name);
    }
    free(sources->items);
}

/* The name of a file that `from` uses. */
static char *name_beside(const char *from, const char *name)
{
    const char *slash = name[0] == '/' ? NULL : strrchr(from, '/');
    size_t folder = slash ? (size_t)(slash - from) + 1 : 0;
    size_t length = strlen(name);
    char *path = malloc(folder + length + 1);
    if (!path)
        return NULL;
    memcpy(path, from, folder);
    memcpy(path + folder, name, length + 1);
    return path;
}

/* The same file under a name it had before, or NULL. */
static const struct source *find_same(const struct sources *sources, const struct file *file)
{
    for (size_t i = 0; i < sources->count; i++) {
        const struct file *other = &sources->items[i].file;
        if (other->device == file->device && other->inode == file->inode)
            return &sources->items[i];
    }
    return NULL;
}

/* A verb may read its rules twice, but standard input ends only once. It is kept to the end of the
 * run. */
static struct file standard_input;
static bool standard_input_is_read;

static bool read_standard_input(struct file *file, size_t most)
{
    if (!standard_input_is_read)
        standard_input_is_read = file_read(&standard_input, "-", true, most);
    *file = standard_input;
    file->bytes = standard_input_is_read ? malloc(file->length + 1) : NULL;
    if (file->bytes)
        memcpy(file->bytes, standard_input.bytes, file->length);
    else if (standard_input_is_read)
        snprintf(file->why, sizeof file->why, "cannot be read: there is no memory left");
    return file->bytes != NULL;
}

/* Takes the name over. */
static const struct source *add_source(struct sources *sources, char *name, bool standard)
{
    struct file file = {0};
    bool read = !name || (standard ? read_standard_input(&file, sources->most)
                                   : file_read(&file, name, false, sources->most));
    if (!read) {
        if (!sources->quiet)
            say("%s: %s", name, file.why);
        free(name);
        return NULL;
    }
    const struct source *same = find_same(sources, &file);
    struct source *items = NULL;
    if (name && !same)
        items = realloc(sources->items, (sources->count + 1) * sizeof *items);
    if (!items) {
        file_free(&file);
        free(name);
        if (!same)
            say_no_memory();
        return same;
    }
    sources->items = items;
    items[sources->count] = (struct source){file, name};
    return &items[sources->count++];
}

static bool load(void *context, const char *name, const char *from, const char **full_name,
                 groat_text *text)
{
    const struct source *source = add_source(context, name_beside(from, name), false);
    if (!source)
        return false;
    *full_name = source->name;
    *text = (groat_text){source->file.bytes, source->file.length};
    return true;
}

static void say_diagnostic(const groat_diagnostic *diagnostic)
{
    size_t length = groat_diagnostic_write(diagnostic, NULL, 0);
    char *text = malloc(length + 1);
    if (!text) {
        say_no_memory();
        return;
    }
    groat_diagnostic_write(diagnostic, text, length + 1);
    say_lines(text, length);
    free(text);
}

void rules_say(const groat_report *report)
{
    for (size_t i = 0; i < groat_report_count(report); i++)
        if (say_takes_notes() || groat_report_at(report, i)->severity == GROAT_ERROR)
            say_diagnostic(groat_report_at(report, i));
}

/* ---- proposals ---- */

/* The files as they were read, one of them with another text. */
struct trial {
    struct sources *sources;
    const struct mend_file *changed;
    groat_text text;
};

static groat_text text_of(const struct source *source)
{
    return (groat_text){source->file.bytes, source->file.length};
}

/* Rules are texts; a file of a word processor is not read at all. */
static const char *not_a_text(const struct file *file)
{
    static const char *const begins[] = {"PK\x03\x04", "\xD0\xCF\x11\xE0", "{\\rtf", "<html",
                                         "<!DOCTYPE"};
    for (size_t i = 0; i < sizeof begins / sizeof *begins; i++)
        if (file->length >= strlen(begins[i]) &&
            memcmp(file->bytes, begins[i], strlen(begins[i])) == 0)
            return i < 3 ? "a word processor's file" : "a web page";
    return NULL;
}

static bool load_again(void *context, const char *name, const char *from, const char **full_name,
                       groat_text *text)
{
    struct trial *trial = context;
    char *path = name_beside(from, name);
    const struct source *found = NULL;
    for (size_t i = 0; path && i < trial->sources->count && !found; i++)
        if (strcmp(trial->sources->items[i].name, path) == 0)
            found = &trial->sources->items[i];
    if (found)
        free(path);
    else
        found = add_source(trial->sources, path, false);
    if (!found)
        return false;
    *full_name = found->name;
    *text = strcmp(found->name, trial->changed->name) == 0 ? trial->text : text_of(found);
    return true;
}

static groat_report *read_again(void *context, const struct mend_file *changed, groat_text text)
{
    struct trial trial = {context, changed, text};
    const struct source *first = &trial.sources->items[0];
    groat_reading reading = {.loader = load_again, .loader_context = &trial};
    bool is_first = strcmp(changed->name, first->name) == 0;
    groat_report *report;
    groat_method_free(
        groat_method_read(first->name, is_first ? text : text_of(first), &reading, &report));
    return report;
}

/* The report with proposals that can be read; as it is where memory is short. */
static void say_mended(struct sources *sources, const groat_report *report)
{
    struct mend_file *files = calloc(sources->count, sizeof *files);
    struct mend mend = {files, sources->count, read_again, sources};
    struct mended_errors mended;
    sources->quiet = true;
    for (size_t i = 0; files && i < sources->count; i++)
        files[i] = (struct mend_file){sources->items[i].name, text_of(&sources->items[i])};
    if (files && mend_report(&mend, report, &mended)) {
        for (size_t i = 0; i < mended.count; i++)
            if (say_takes_notes() || mended.items[i].severity == GROAT_ERROR)
                say_diagnostic(&mended.items[i]);
        mended_free(&mended);
    } else {
        rules_say(report);
    }
    free(files);
}

/* The files that `use` brings in are known only now. */
static bool are_apart(const struct sources *sources, const struct request *request)
{
    for (size_t i = 1; i < sources->count; i++)
        if (!apart_from(request, sources->items[i].name))
            return false;
    return true;
}

static groat_method *read_sources(struct sources *sources, const char *name,
                                  const struct request *request)
{
    bool unrounded = request->verb->options & READS_UNROUNDED;
    const struct source *first =
        add_source(sources, name_beside("", file_called(name)), file_is_standard(name));
    if (!first)
        return NULL;
    const char *other = not_a_text(&first->file);
    if (other) {
        say("%s: this is %s, not plain text", first->name, other);
        say_try("save the rules as plain text in UTF-8");
        return NULL;
    }
    groat_reading reading = {.loader = load, .loader_context = sources, .unrounded = unrounded};
    groat_text text = {first->file.bytes, first->file.length};
    groat_report *report;
    groat_method *method = groat_method_read(first->name, text, &reading, &report);
    if (!report)
        say_no_memory();
    else if (method)
        rules_say(report);
    else
        say_mended(sources, report);
    groat_report_free(report);
    if (!method || are_apart(sources, request))
        return method;
    groat_method_free(method);
    return NULL;
}

groat_method *rules_read(const char *name, const struct request *request)
{
    struct sources sources = {.most = groat_limits_default().source_bytes};
    groat_method *method = read_sources(&sources, name, request);
    sources_free(&sources);
    return method;
}
