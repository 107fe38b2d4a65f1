/* A progress line on standard error for long work. It is shown only on a terminal, after about a
 * second, and disappears when the work ends or something else is printed. */
#ifndef GROAT_COMMAND_PROGRESS_H
#define GROAT_COMMAND_PROGRESS_H

#include <stdbool.h>
#include <stddef.h>

/* If `wanted` is false, the line is not shown even on a terminal. */
void progress_begin(bool wanted);
/* Call it after each of `total` things; it is cheap. */
void progress_tell(size_t done, size_t total);
/* The same for a thing that takes long. */
void progress_tell_now(size_t done, size_t total);
/* Removes the line, if it is shown. */
void progress_clear(void);

#endif
