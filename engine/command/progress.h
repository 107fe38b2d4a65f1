/* A progress line on standard error for long work. It is shown only on a terminal, after about a
 * second, and disappears when the work ends or something else is printed. */
#ifndef GROAT_COMMAND_PROGRESS_H
#define GROAT_COMMAND_PROGRESS_H

#include <stdbool.h>
#include <stddef.h>

/* `wanted` is whether the line may be shown at all, terminal or not. */
void progress_begin(bool wanted);
/* To be called after each of `total` things; cheap. */
void progress_tell(size_t done, size_t total);
/* The same for a thing that takes long. */
void progress_tell_now(size_t done, size_t total);
/* Takes the line away, if it is there. */
void progress_clear(void);

#endif
