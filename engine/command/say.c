#include "command/say.h"

#include <stdarg.h>
#include <stdio.h>

void say(const char *format, ...)
{
    va_list given;
    va_start(given, format);
    vfprintf(stderr, format, given);
    va_end(given);
    fputc('\n', stderr);
}

void say_try(const char *help)
{
    if (help && *help)
        say("Try: %s", help);
}

void say_no_memory(void)
{
    say("groat: there is no memory left");
}
