#define _DEFAULT_SOURCE
#include "command/terminal.h"

#include <langinfo.h>
#include <locale.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <time.h>
#include <unistd.h>

#include "command/say.h"

#define WIDTH 100      /* where no terminal says it */
#define WIDTH_LEAST 40 /* narrower ones fold the lines themselves */
#define WIDTH_DIGITS 5 /* of a width that somebody may wish for */

static bool is_terminal(const char *output)
{
    return !output && isatty(STDOUT_FILENO);
}

/* What COLUMNS says, if it is a whole number that a width may be; otherwise 0. */
static size_t wished_width(void)
{
    const char *wished = getenv("COLUMNS");
    size_t digits = wished ? strspn(wished, "0123456789") : 0;
    if (digits == 0 || digits > WIDTH_DIGITS || wished[digits] != '\0')
        return 0;
    return (size_t)strtoul(wished, NULL, 10);
}

size_t terminal_width(const char *output)
{
    struct winsize size = {0};
    size_t wished = wished_width();
    if (wished > 0)
        return wished < WIDTH_LEAST ? WIDTH_LEAST : wished;
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

/* ---- the line of progress ---- */

#define SECONDS_BEFORE 1.0
#define SECONDS_BETWEEN 0.2
#define LOOK_EVERY 32 /* things: looking at the clock is not free */

/* There is one standard error, and one line on it. */
static struct {
    bool wanted, shown;
    double next; /* when it is shown again, in seconds of the clock */
} line;

static double seconds(void)
{
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)now.tv_sec + (double)now.tv_nsec / 1e9;
}

void progress_begin(bool wanted)
{
    line.wanted = wanted && say_takes_notes() && isatty(STDERR_FILENO);
    line.next = seconds() + SECONDS_BEFORE;
}

void progress_tell(size_t done, size_t total)
{
    if (done % LOOK_EVERY == 0)
        progress_tell_now(done, total);
}

void progress_tell_now(size_t done, size_t total)
{
    if (!line.wanted || seconds() < line.next)
        return;
    if (total > 0)
        fprintf(stderr, "\r%zu of %zu products", done, total);
    else
        fprintf(stderr, "\r%zu products", done);
    line.shown = true;
    line.next = seconds() + SECONDS_BETWEEN;
}

void progress_clear(void)
{
    if (line.shown)
        fputs("\r\033[K", stderr);
    line.shown = false;
}
