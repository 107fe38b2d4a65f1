#include "command/rules.h"

#include <stdlib.h>
#include <string.h>

#include "command/file.h"
#include "command/say.h"

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

/* Takes the name over. */
static const struct source *add_source(struct sources *sources, char *name)
{
    struct file file = {0};
    if (name && !file_read(&file, name, false, sources->most)) {
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
    const struct source *source = add_source(context, name_beside(from, name));
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

static groat_method *read_sources(struct sources *sources, const char *name, bool unrounded)
{
    const struct source *first = add_source(sources, name_beside("", name));
    if (!first)
        return NULL;
    groat_reading reading = {.loader = load, .loader_context = sources, .unrounded = unrounded};
    groat_text text = {first->file.bytes, first->file.length};
    groat_report *report;
    groat_method *method = groat_method_read(first->name, text, &reading, &report);
    if (report)
        rules_say(report);
    else
        say_no_memory();
    groat_report_free(report);
    return method;
}

groat_method *rules_read(const char *name, bool unrounded)
{
    struct sources sources = {.most = groat_limits_default().source_bytes};
    groat_method *method = read_sources(&sources, name, unrounded);
    sources_free(&sources);
    return method;
}
