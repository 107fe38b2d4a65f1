/* Messages of the command on standard error.
 *
 * Names, cells and rules come from files that anyone may have written: control characters are
 * printed as spaces. */
#ifndef GROAT_COMMAND_SAY_H
#define GROAT_COMMAND_SAY_H

#include <stdbool.h>
#include <stddef.h>

#include "groat.h"

/* Prints a message and a line end. */
void say(const char *format, ...) __attribute__((format(printf, 1, 2)));
/* Keeps notes back from now on, and what else is said only in passing. Errors are still said. */
void say_only_errors(void);
/* Whether notes are said: what is no error is worth its work only then. */
bool say_takes_notes(void);
/* Prints a note as say does, unless notes are kept back. */
void say_note(const char *format, ...) __attribute__((format(printf, 1, 2)));
/* Prints `Try: …` on its own line; nothing if `help` is NULL or empty. */
void say_try(const char *help);
/* Prints what the trouble proposes, in the same way. */
void say_try_of(const groat_trouble *trouble);
/* Proposes a percentage for an option: the given one with a decimal point, if its comma is all that
 * is wrong; otherwise the example. */
void say_try_percent(const char *option, const char *given, const char *example);
/* Prints a text of whole lines unchanged. */
void say_lines(const char *text, size_t length);
void say_no_memory(void);

/* Prints a list of names on one line, `begin: one, two`: say each name, then end. */
struct say_list {
    const char *begin;
    size_t count;
    bool quoted; /* each name in quotes, as it may hold a comma */
};
void say_list_item(struct say_list *list, const char *name, size_t length);
void say_list_end(struct say_list *list);

/* Names among which a wanted one is not. */
struct say_names {
    size_t count;
    groat_text (*name)(void *context, size_t index); /* valid until the next call */
    void *context;
    bool quoted; /* in a list; a comma may stand in a name */
};
#define SAY_NEAREST_BYTES 256
/* Writes the name that is nearest to a wanted one, or else the first that begins with it; false if
 * there is neither. */
bool say_nearest(const struct say_names *names, const char *wanted,
                 char nearest[SAY_NEAREST_BYTES]);
/* Prints the first `most` names as a list. */
void say_names(const struct say_names *names, const char *begin, size_t most);
/* Proposes the nearest name, or prints the first ones if none is near. */
void say_try_names(const struct say_names *names, const char *wanted, const char *begin,
                   size_t most);

/* The length of a text that is cut to `most` bytes, as printf wants it. */
int say_length(groat_text text, size_t most);
/* A cell as a message repeats it, cut short: `, "12 mni"`; empty for an absent one. */
#define SAY_CELL_MOST 40 /* bytes */
struct say_cell {
    char text[64];
};
struct say_cell say_cell(groat_text cell);

#endif
