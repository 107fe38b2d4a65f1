#include "source/trouble.h"

#include <stdarg.h>
#include <stdint.h>

#include "text/utf8.h"

enum trouble_kind trouble_none(struct trouble *trouble)
{
    /* Member by member: of a text its end is enough, and records are set by the million. */
    trouble->kind = TROUBLE_NONE;
    trouble->help_kind = HELP_NONE;
    trouble->message[0] = trouble->help[0] = '\0';
    trouble->column = 0;
    trouble->index = trouble->given = SIZE_MAX;
    return TROUBLE_NONE;
}

enum trouble_kind trouble_no_memory(struct trouble *trouble)
{
    trouble_none(trouble);
    return trouble_say(trouble, TROUBLE_NO_MEMORY, NO_HELP, "there is no memory left");
}

enum trouble_kind trouble_say(struct trouble *trouble, enum trouble_kind kind,
                              struct trouble_help help, const char *format, ...)
{
    va_list given;
    trouble->kind = kind;
    va_start(given, format);
    text_write_given(trouble->message, sizeof trouble->message, format, given);
    va_end(given);
    trouble_propose(trouble, help);
    return kind;
}

void trouble_propose(struct trouble *trouble, struct trouble_help help)
{
    bool any = help.text && *help.text;
    trouble->help_kind = any ? help.kind : HELP_NONE;
    text_write(trouble->help, sizeof trouble->help, "%s", any ? help.text : "");
}
