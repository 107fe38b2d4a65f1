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

/* ---- sheets ---- */

static size_t fail_to_give(const struct incoming *incoming, const char *why)
{
    say("%s: cannot be read: %s", incoming->name, why);
    return SHEET_GIVES_NONE;
}

static size_t give(void *context, char *bytes, size_t room, bool *last)
{
    struct incoming *incoming = context;
    ssize_t got;
    do
        got = read(incoming->descriptor, bytes, room);
    while (got < 0 && errno == EINTR);
    if (got < 0)
        return fail_to_give(incoming, strerror(errno));
    incoming->taken += (size_t)got;
    if (incoming->taken > incoming->most) {
        say("%s: is larger than %zu MB", incoming->name, incoming->most >> 20);
        return SHEET_GIVES_NONE;
    }
    *last = incoming->regular && (size_t)got < room;
    return (size_t)got;
}

static bool open_incoming(struct incoming *incoming, const char *path, bool standard_input,
                          const char *name)
{
    struct stat about;
    *incoming = (struct incoming){.name = name, .descriptor = STDIN_FILENO, .most = SIZE_MAX};
    incoming->standard = standard_input && strcmp(path, "-") == 0;
    if (!incoming->standard)
        incoming->descriptor = open(path, O_RDONLY | O_CLOEXEC | O_NOCTTY);
    if (incoming->descriptor < 0 || fstat(incoming->descriptor, &about) != 0) {
        fail_to_give(incoming, strerror(errno));
        return false;
    }
    if (S_ISDIR(about.st_mode)) {
        fail_to_give(incoming, strerror(EISDIR));
        return false;
    }
    incoming->regular = S_ISREG(about.st_mode);
    return true;
}

/* An empty message: whoever could not give the bytes has said why. */
static void say_broken(const char *name, const struct sheet_error *error)
{
    if (error->line > 0)
        say("%s:%zu:%zu: %s", name, error->line, error->column, error->message);
    else if (error->message[0])
        say("%s: %s", name, error->message);
    say_try(error->help);
}

static struct sheet *open_blocks(struct incoming *incoming, enum sheet_form form, size_t block)
{
    struct sheet_error error;
    struct sheet *sheet = sheet_open(form, block, give, incoming, &error);
    if (!sheet)
        say_broken(incoming->name, &error);
    return sheet;
}

struct sheet *file_open_sheet(struct incoming *incoming, const char *path, bool standard_input,
                              enum sheet_form form, const char *name)
{
    if (!open_incoming(incoming, path, standard_input, name))
        return NULL;
    if (form == SHEET_JSON)
        incoming->most = FILE_SHEET_MOST;
    return open_blocks(incoming, form, SHEET_BLOCK);
}

enum sheet_step file_next_rows(struct sheet *sheet, const struct incoming *incoming)
{
    struct sheet_error error;
    enum sheet_step step = sheet_next(sheet, &error);
    if (step == SHEET_BROKEN)
        say_broken(incoming->name, &error);
    return step;
}

void file_close_sheet(struct incoming *incoming)
{
    if (!incoming->standard && incoming->descriptor >= 0)
        close(incoming->descriptor);
    incoming->descriptor = -1;
}

struct sheet *file_read_sheet(const char *path, bool standard_input, enum sheet_form form,
                              const char *name)
{
    struct incoming incoming;
    struct sheet *sheet = NULL;
    if (open_incoming(&incoming, path, standard_input, name)) {
        incoming.most = FILE_SHEET_MOST;
        sheet = open_blocks(&incoming, form, SHEET_WHOLE);
    }
    file_close_sheet(&incoming);
    return sheet;
}
