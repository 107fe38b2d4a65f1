#define _POSIX_C_SOURCE 200809L
#include "command/folder.h"

#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "command/file.h"
#include "command/say.h"

char *folder_path(const char *folder, const char *name)
{
    size_t length = strlen(folder), more = strlen(name);
    bool slash = length > 0 && folder[length - 1] != '/';
    char *path = malloc(length + slash + more + 1);
    if (!path)
        return NULL;
    memcpy(path, folder, length);
    path[length] = '/';
    memcpy(path + length + slash, name, more + 1);
    return path;
}

/* ---- what is there already ---- */

bool folder_exists(const char *folder)
{
    struct stat about;
    return lstat(folder, &about) == 0;
}

/* Whether this file may be written, or is there as it would be written. */
static bool is_free(struct new_file *file)
{
    struct stat about;
    struct file old = {0};
    if (lstat(file->path, &about) != 0)
        return true; /* or writing says why not */
    file->was_there = S_ISREG(about.st_mode) && file_read(&old, file->path, false, file->length) &&
                      old.length == file->length &&
                      memcmp(old.bytes, file->bytes, file->length) == 0;
    file_free(&old);
    if (!file->was_there)
        say("%s: this file exists already, and start never replaces a file", file->path);
    return file->was_there;
}

static enum folder_outcome look(const char *folder, struct new_file *files, size_t count)
{
    struct stat about;
    if (stat(folder, &about) == 0 && !S_ISDIR(about.st_mode)) {
        say("%s: this is a file, not a folder", folder);
        return FOLDER_TAKEN;
    }
    bool free_to_write = true;
    for (size_t i = 0; i < count; i++) {
        files[i].path = folder_path(folder, files[i].name);
        if (!files[i].path) {
            say_no_memory();
            return FOLDER_FAILED;
        }
        free_to_write = is_free(&files[i]) && free_to_write;
    }
    return free_to_write ? FOLDER_WRITTEN : FOLDER_TAKEN;
}

/* ---- folders ---- */

/* Calls for the folder and each folder above it, from the outermost inward. `path` is cut and put
 * together again. */
static bool make_folders(char *path, size_t *first_made)
{
    for (size_t end = 1;; end++) {
        if (path[end] != '/' && path[end] != '\0')
            continue;
        char cut = path[end];
        struct stat about;
        path[end] = '\0';
        bool there = stat(path, &about) == 0;
        bool made = !there && mkdir(path, 0777) == 0;
        if (made && *first_made == 0)
            *first_made = end;
        if (!there && !made)
            say("%s: this folder cannot be made: %s", path, strerror(errno));
        path[end] = cut;
        if (!there && !made)
            return false;
        if (cut == '\0')
            return true;
    }
}

/* Takes away the folders that were made. */
static void remove_folders(char *path, size_t first_made)
{
    for (size_t end = strlen(path); first_made > 0 && end >= first_made; end--) {
        if (path[end] != '/' && path[end] != '\0')
            continue;
        path[end] = '\0';
        rmdir(path);
    }
}

/* ---- files ---- */

static bool write_all(int descriptor, const char *bytes, size_t length)
{
    while (length > 0) {
        ssize_t done = write(descriptor, bytes, length);
        if (done < 0 && errno != EINTR)
            return false;
        size_t step = done > 0 ? (size_t)done : 0;
        bytes += step;
        length -= step;
    }
    return true;
}

static bool write_file(struct new_file *file)
{
    int descriptor = open(file->path, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
    int why = 0;
    file->made = descriptor >= 0;
    if (!file->made || !write_all(descriptor, file->bytes, file->length) || fsync(descriptor) != 0)
        why = errno;
    if (file->made && close(descriptor) != 0 && why == 0)
        why = errno;
    if (why != 0)
        say("%s: cannot be written: %s", file->path, strerror(why));
    return why == 0;
}

static bool write_files(struct new_file *files, size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (!files[i].was_there && !write_file(&files[i]))
            return false;
    return true;
}

static void remove_files(struct new_file *files, size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (files[i].made)
            unlink(files[i].path);
}

/* The files are small: what would break off the run waits until they are written. */
static void hold_signals(sigset_t *before)
{
    sigset_t held;
    sigemptyset(&held);
    sigaddset(&held, SIGHUP);
    sigaddset(&held, SIGINT);
    sigaddset(&held, SIGTERM);
    sigprocmask(SIG_BLOCK, &held, before);
}

static bool write_whole(char *folder, struct new_file *files, size_t count)
{
    sigset_t before;
    size_t first_made = 0;
    hold_signals(&before);
    bool written = make_folders(folder, &first_made) && write_files(files, count);
    if (!written) {
        remove_files(files, count);
        remove_folders(folder, first_made);
    }
    sigprocmask(SIG_SETMASK, &before, NULL);
    return written;
}

enum folder_outcome folder_write(const char *folder, struct new_file *files, size_t count)
{
    enum folder_outcome outcome = look(folder, files, count);
    if (outcome != FOLDER_WRITTEN)
        return outcome;
    char *path = strdup(folder);
    if (!path)
        say_no_memory();
    if (!path || !write_whole(path, files, count))
        outcome = FOLDER_FAILED;
    free(path);
    return outcome;
}

void folder_free(struct new_file *files, size_t count)
{
    for (size_t i = 0; i < count; i++)
        free(files[i].path);
}
