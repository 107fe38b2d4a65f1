/* What the command says on standard error. */
#ifndef GROAT_COMMAND_SAY_H
#define GROAT_COMMAND_SAY_H

/* One message, and a line end. */
void say(const char *format, ...) __attribute__((format(printf, 1, 2)));
/* `Try: …` on a line of its own; nothing when `help` is NULL or empty. */
void say_try(const char *help);
void say_no_memory(void);

#endif
