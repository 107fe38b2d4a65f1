/* Messages of the command on standard error.
 *
 * Names, cells and rules come from files that anyone may have written: what would steer a terminal
 * is said as a space. */
#ifndef GROAT_COMMAND_SAY_H
#define GROAT_COMMAND_SAY_H

#include <stdbool.h>
#include <stddef.h>

#include "groat.h"

/* One message, and a line end. */
void say(const char *format, ...) __attribute__((format(printf, 1, 2)));
/* `Try: …` on a line of its own; nothing when `help` is NULL or empty. */
void say_try(const char *help);
/* What the trouble proposes, in the same way. */
void say_try_of(const groat_trouble *trouble);
/* A percentage to try with an option: the one given, with a point for its comma where that is all
 * that stands in its way; or else the example. */
void say_try_percent(const char *option, const char *given, const char *example);
/* A text of whole lines as it stands. */
void say_lines(const char *text, size_t length);
void say_no_memory(void);

/* A list of names on one line: `begin: one, two`. Say each, then end. */
struct say_list {
    const char *begin;
    size_t count;
};
void say_list_item(struct say_list *list, const char *name, size_t length);
void say_list_end(struct say_list *list);

#endif
