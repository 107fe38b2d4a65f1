/* Troubles as a host sees them. */
#include <stdio.h>
#include <string.h>

#include "library/call.h"

/* The kinds inside are in the public order. */
_Static_assert((int)TROUBLE_FORM == GROAT_TROUBLE_FORM && (int)TROUBLE_CALL == GROAT_TROUBLE_CALL &&
                   (int)TROUBLE_DOUBTFUL_MARK == GROAT_TROUBLE_DOUBTFUL_MARK &&
                   (int)HELP_ELSEWHERE == GROAT_HELP_ELSEWHERE,
               "the kinds of trouble are in one order");

/* Most often nothing is wrong, and records are set by the million: of an empty text only its end is
 * copied. */
static void copy_text(char *to, const char *from)
{
    *to = *from;
    if (*from)
        memcpy(to, from, strlen(from) + 1);
}

groat_status trouble_hand_out(const struct trouble *inner, groat_trouble *trouble)
{
    if (trouble) {
        trouble->kind = (groat_trouble_kind)inner->kind;
        trouble->help_kind = (groat_help)inner->help_kind;
        trouble->column = inner->column;
        trouble->index = inner->index;
        trouble->given = inner->given;
        copy_text(trouble->message, inner->message);
        copy_text(trouble->help, inner->help);
    }
    return inner->kind == TROUBLE_NONE        ? GROAT_OK
           : inner->kind == TROUBLE_NO_MEMORY ? GROAT_NO_MEMORY
                                              : GROAT_BAD_VALUE;
}

size_t trouble_write_help(enum help_kind kind, const char *help, char *buffer, size_t size)
{
    return (size_t)snprintf(buffer, call_room(buffer, size), "%s%s",
                            kind == HELP_EXAMPLE ? "for example " : "", help);
}

size_t groat_trouble_help(const groat_trouble *trouble, char *buffer, size_t size)
{
    if (!trouble)
        return (size_t)snprintf(buffer, call_room(buffer, size), "%s", "");
    return trouble_write_help((enum help_kind)trouble->help_kind, trouble->help, buffer, size);
}
