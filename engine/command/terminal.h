/* The terminal, if there is one: what a list on it may look like, and the line of progress. */
#ifndef GROAT_COMMAND_TERMINAL_H
#define GROAT_COMMAND_TERMINAL_H

#include <stdbool.h>
#include <stddef.h>

/* The greatest width of a table: what COLUMNS in the environment says, that of the terminal, or
 * 100. `output` is the file that the list goes to instead, or NULL. */
size_t terminal_width(const char *output);
/* Whether headings may be bold: on a terminal that supports it, and without NO_COLOR. */
bool terminal_is_bold(const char *output);
/* Whether pictures must be in ASCII, because the locale's characters are not UTF-8. */
bool terminal_is_plain(void);

/* A progress line on standard error for long work. It is shown only on a terminal, after about a
 * second, and disappears when the work ends or something else is printed. */

/* If `wanted` is false, the line is not shown even on a terminal. */
void progress_begin(bool wanted);
/* Call it after each of `total` things, 0 where nobody knows how many come; it is cheap. */
void progress_tell(size_t done, size_t total);
/* The same for a thing that takes long. */
void progress_tell_now(size_t done, size_t total);
/* Removes the line, if it is shown. */
void progress_clear(void);

#endif
