#define _DEFAULT_SOURCE
#include "command/terminal.h"

#include <langinfo.h>
#include <locale.h>
#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <unistd.h>

#define WIDTH 100      /* where no terminal says it */
#define WIDTH_LEAST 40 /* narrower ones fold the lines themselves */

static bool is_terminal(const char *output)
{
    return !output && isatty(STDOUT_FILENO);
}

size_t terminal_width(const char *output)
{
    struct winsize size = {0};
    if (!is_terminal(output) || ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) != 0 || size.ws_col == 0)
        return WIDTH;
    return size.ws_col < WIDTH_LEAST ? WIDTH_LEAST : size.ws_col;
}

bool terminal_is_bold(const char *output)
{
    const char *none = getenv("NO_COLOR"), *kind = getenv("TERM");
    bool wished = !none || !*none;
    return is_terminal(output) && wished && kind && strcmp(kind, "dumb") != 0;
}

bool terminal_is_plain(void)
{
    locale_t locale = newlocale(LC_CTYPE_MASK, "", (locale_t)0);
    if (!locale)
        return true;
    bool plain = strcmp(nl_langinfo_l(CODESET, locale), "UTF-8") != 0;
    freelocale(locale);
    return plain;
}
