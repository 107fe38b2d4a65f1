#define _POSIX_C_SOURCE 200809L
#include "command/file.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "command/say.h"

static bool fail(struct file *file, int error)
{
    snprintf(file->why, sizeof file->why, "cannot be read: %s", strerror(error));
    return false;
}

/* Twice the room, or for a file of known size that size and one byte to meet its end. */
static bool make_room(struct file *file, size_t *room, size_t known, size_t most)
{
    size_t wanted = *room == 0 ? known + 1 : *room * 2;
    wanted = wanted < 4096 ? 4096 : wanted;
    wanted = wanted > most + 1 ? most + 1 : wanted;
    char *bytes = realloc(file->bytes, wanted);
    if (!bytes)
        return fail(file, ENOMEM);
    file->bytes = bytes;
    *room = wanted;
    return true;
}

static bool read_all(struct file *file, int descriptor, size_t known, size_t most)
{
    size_t room = 0;
    for (;;) {
        if (file->length == room && !make_room(file, &room, known, most))
            return false;
        ssize_t got = read(descriptor, file->bytes + file->length, room - file->length);
        if (got < 0 && errno == EINTR)
            continue;
        if (got < 0)
            return fail(file, errno);
        if (got == 0)
            return true;
        file->length += (size_t)got;
        if (file->length > most) {
            snprintf(file->why, sizeof file->why, "is larger than %zu MB", most >> 20);
            return false;
        }
    }
}

static bool read_open(struct file *file, int descriptor, size_t most)
{
    struct stat about;
    if (fstat(descriptor, &about) != 0)
        return fail(file, errno);
    if (S_ISDIR(about.st_mode))
        return fail(file, EISDIR);
    file->device = about.st_dev;
    file->inode = about.st_ino;
    size_t known = S_ISREG(about.st_mode) && about.st_size > 0 ? (size_t)about.st_size : 0;
    return read_all(file, descriptor, known, most);
}

bool file_is_standard(const char *name)
{
    return strcmp(name, "-") == 0;
}

const char *file_called(const char *name)
{
    return file_is_standard(name) ? "standard input" : name;
}

bool file_read(struct file *file, const char *name, bool standard_input, size_t most)
{
    *file = (struct file){0};
    bool standard = standard_input && file_is_standard(name);
    int descriptor = standard ? STDIN_FILENO : open(name, O_RDONLY | O_CLOEXEC | O_NOCTTY);
    if (descriptor < 0)
        return fail(file, errno);
    bool read = read_open(file, descriptor, most);
    if (!standard)
        close(descriptor);
    if (!read)
        file_free(file);
    return read;
}

void file_free(struct file *file)
{
    free(file->bytes);
    file->bytes = NULL;
    file->length = 0;
}

struct sheet *file_read_sheet(const char *path, bool standard_input, enum sheet_form form,
                              const char *name)
{
    struct file file;
    if (!file_read(&file, path, standard_input, FILE_SHEET_MOST)) {
        say("%s: %s", name, file.why);
        return NULL;
    }
    struct sheet_error error;
    struct sheet *sheet = sheet_read(form, file.bytes, file.length, &error);
    file_free(&file);
    if (sheet)
        return sheet;
    if (error.line > 0)
        say("%s:%zu:%zu: %s", name, error.line, error.column, error.message);
    else
        say("%s: %s", name, error.message);
    say_try(error.help);
    return NULL;
}
