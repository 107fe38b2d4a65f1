/* Whole files in memory, and sheets. */
#ifndef GROAT_COMMAND_FILE_H
#define GROAT_COMMAND_FILE_H

#include <stdbool.h>
#include <stddef.h>
#include <sys/types.h>

#include "sheet/sheet.h"

/* The most that is read of a product sheet that is needed whole; more is an error. Rules have the
 * library's limit. */
#define FILE_SHEET_MOST ((size_t)256 << 20)

struct file {
    char *bytes; /* to be freed with file_free */
    size_t length;
    dev_t device; /* with the inode: which file it is, by whatever name */
    ino_t inode;
    char why[160]; /* why it could not be read, as in `NAME: why` */
};

/* Whether a name stands for standard input, and what messages call the file of a name. */
bool file_is_standard(const char *name);
const char *file_called(const char *name);

/* Reads a file of at most `most` bytes; `-` is standard input when `standard_input`. Returns false
 * and says in `why` what is wrong. */
bool file_read(struct file *file, const char *name, bool standard_input, size_t most);
void file_free(struct file *file);

/* A sheet's file while it is read. */
struct incoming {
    const char *name; /* in messages */
    int descriptor;
    bool standard; /* it is standard input, and not to be closed */
    bool regular;  /* it has an end that is known */
    size_t taken, most;
};

/* Opens a file as a sheet, which messages call by `name`, in blocks of SHEET_BLOCK. `incoming` must
 * stay where it is until the sheet is freed and file_close_sheet was called, also after a failure.
 * Returns NULL, after reporting why, if it cannot be read. */
struct sheet *file_open_sheet(struct incoming *incoming, const char *path, bool standard_input,
                              enum sheet_form form, const char *name);
/* As sheet_next; reports why the sheet is broken. */
enum sheet_step file_next_rows(struct sheet *sheet, const struct incoming *incoming);
void file_close_sheet(struct incoming *incoming);

/* Reads a whole file of at most FILE_SHEET_MOST bytes as a sheet. */
struct sheet *file_read_sheet(const char *path, bool standard_input, enum sheet_form form,
                              const char *name);

#endif
