/* The terminal that a list is printed on, if it is one: its width and abilities. */
#ifndef GROAT_COMMAND_TERMINAL_H
#define GROAT_COMMAND_TERMINAL_H

#include <stdbool.h>
#include <stddef.h>

/* The greatest width of a table: that of the terminal, or 100. `output` is the file that the list
 * goes to instead, or NULL. */
size_t terminal_width(const char *output);
/* Whether headings may be bold: on a terminal that supports it, and without NO_COLOR. */
bool terminal_is_bold(const char *output);
/* Whether pictures must be in ASCII, because the locale's characters are not UTF-8. */
bool terminal_is_plain(void);

#endif
